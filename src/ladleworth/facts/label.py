"""A food of the kitchen's own, from what its packet's label says.

Energy: 1 kcal = 4.184 kJ, exactly, by definition. Salt: sodium = salt / 2.5, the labelling convention of
EU Regulation 1169/2011 (basis memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import Finding, Place, Weight
from ladleworth.facts.own import OwnFood
from ladleworth.facts.records import NUTRIENTS, Composition, Food, Measure

KJ_PER_KCAL = Fraction("4.184")
SALT_PER_SODIUM = Fraction("2.5")
KCAL_PER_G = {
    "protein_g": Fraction(4),
    "carbohydrate_g": Fraction(4),
    "fat_g": Fraction(9),
}
"""General energy factors of the trade, 4/9/4 kcal per g (source common-practice)."""

_SALT_NOTE = "sodium worked as salt / 2.5, EU Regulation 1169/2011, from memory"
_MOST_G = Fraction(101)  # label figures are rounded, so a little over 100 g in 100 g passes
_ENERGY_SLACK = Fraction(1, 4)
_ENERGY_SLACK_KCAL = Fraction(20)
_WITHIN = (("saturated_fat_g", "fat_g"), ("sugars_g", "carbohydrate_g"))


@dataclass(frozen=True, slots=True)
class Label:
    """What a packet's nutrition table says, for `per_g` grams of the food (a serving, or 100).

    Energy stands in `energy_kcal` or in `energy_kj`, or both; sodium in `sodium_mg` or as `salt_g`.
    `others` holds any further pairs (nutrient of NUTRIENTS, amount). What the label does not say is None.
    """

    per_g: Fraction
    energy_kcal: Fraction | None = None
    energy_kj: Fraction | None = None
    protein_g: Fraction | None = None
    fat_g: Fraction | None = None
    saturated_fat_g: Fraction | None = None
    carbohydrate_g: Fraction | None = None
    fibre_g: Fraction | None = None
    sugars_g: Fraction | None = None
    sodium_mg: Fraction | None = None
    salt_g: Fraction | None = None
    others: tuple[tuple[str, Fraction], ...] = ()

    def amounts(self) -> dict[str, Fraction]:
        """Give the label's figures in the table's units, for `per_g` grams, in the order of NUTRIENTS."""
        kcal, sodium = self.energy_kcal, self.sodium_mg
        if kcal is None and self.energy_kj is not None:
            kcal = self.energy_kj / KJ_PER_KCAL
        if sodium is None and self.salt_g is not None:
            sodium = self.salt_g / SALT_PER_SODIUM * 1000
        said = {
            "energy_kcal": kcal,
            "protein_g": self.protein_g,
            "fat_g": self.fat_g,
            "saturated_fat_g": self.saturated_fat_g,
            "carbohydrate_g": self.carbohydrate_g,
            "fibre_g": self.fibre_g,
            "sugars_g": self.sugars_g,
            "sodium_mg": sodium,
            **dict(self.others),
        }
        return {name: amount for name in NUTRIENTS if (amount := said.get(name)) is not None}


def _impossible(label: Label, place: Place) -> list[Finding]:
    found = [
        Finding(place, f"{name} is {float(amount):g}", "write a number of zero or more")
        for name, amount in label.amounts().items()
        if amount < 0
    ]
    unknown = [name for name, _ in label.others if name not in NUTRIENTS]
    found += [
        Finding(place, f"{name!r} is no nutrient of the table", f"write one of: {', '.join(NUTRIENTS)}")
        for name in unknown
    ]
    if label.per_g <= 0:
        return [
            *found,
            Finding(place, f"the figures are for {float(label.per_g):g} g", "write grams above 0"),
        ]
    per_100 = {name: amount * 100 / label.per_g for name, amount in label.amounts().items()}
    macros = sum((per_100.get(name, Fraction(0)) for name in KCAL_PER_G), Fraction(0))
    if macros > _MOST_G:
        found.append(
            Finding(
                place,
                f"protein, fat and carbohydrate come to {float(macros):.4g} g in 100 g",
                "check the serving's grams against the packet",
            )
        )
    for part, whole in _WITHIN:
        if part in per_100 and whole in per_100 and per_100[part] > per_100[whole] + 1:
            found.append(Finding(place, f"{part} is more than {whole}", "check which figure is which"))
    return found


def _doubtful(label: Label, place: Place) -> list[Finding]:
    found = []
    if label.energy_kcal is not None and label.energy_kj is not None:
        from_kj = label.energy_kj / KJ_PER_KCAL
        if abs(from_kj - label.energy_kcal) > max(Fraction(5), label.energy_kcal / 20):
            found.append(
                Finding(
                    place,
                    f"{float(label.energy_kj):g} kJ are {float(from_kj):.4g} kcal, the label says "
                    f"{float(label.energy_kcal):g} kcal; the kcal are taken",
                    "check both figures",
                    Weight.DOUBT,
                )
            )
    amounts = label.amounts()
    if label.per_g > 0 and {"energy_kcal", *KCAL_PER_G} <= set(amounts):
        told = amounts["energy_kcal"] * 100 / label.per_g
        worked = sum((amounts[name] * kcal for name, kcal in KCAL_PER_G.items()), Fraction(0))
        worked = worked * 100 / label.per_g
        if abs(told - worked) > max(_ENERGY_SLACK_KCAL, worked * _ENERGY_SLACK):
            found.append(
                Finding(
                    place,
                    f"energy is {float(told):.4g} kcal in 100 g, but protein, fat and carbohydrate make "
                    f"{float(worked):.4g}",
                    "check kJ against kcal and the serving's grams (alcohol, polyols or much fibre explain it)",
                    Weight.DOUBT,
                )
            )
    return found


def check_label(label: Label, place: Place) -> tuple[Finding, ...]:
    """Find all that is wrong with a label at once.

    Parameters
    ----------
    label
        What the packet says.
    place
        Where it was written down, for the findings.

    Returns
    -------
    tuple of Finding
        Faults (below zero, more than 100 g in 100 g, an unknown nutrient, no grams) and doubts (energy
        that protein, fat and carbohydrate do not make at 4/9/4 kcal per g; kJ and kcal that disagree).
    """
    return (*_impossible(label, place), *_doubtful(label, place))


def food_from_label(
    food_id: str,
    name: str,
    label: Label,
    place: Place,
    *,
    aliases: tuple[str, ...] = (),
    aisle: str = "own",
    measured_in: Measure = Measure.MASS,
) -> tuple[OwnFood | None, tuple[Finding, ...]]:
    """Make a food of the kitchen's own from a packet's label.

    Parameters
    ----------
    food_id, name, aliases, aisle, measured_in
        As for `Food`.
    label
        What the packet says.
    place
        Where it was written down.

    Returns
    -------
    OwnFood or None
        The food with its composition in 100 g, source 'label'; None if there is any fault. Its allergens
        stay unsaid, so its label has to be read for them.
    tuple of Finding
        All faults and doubts.
    """
    findings = check_label(label, place)
    if any(finding.weight is Weight.FAULT for finding in findings):
        return None, findings
    per_100 = tuple((nutrient, amount * 100 / label.per_g) for nutrient, amount in label.amounts().items())
    food = Food(food_id, name, aliases, aisle, measured_in, own=True)
    note = _SALT_NOTE if label.sodium_mg is None and label.salt_g is not None else ""
    return OwnFood(food, Composition(food_id, per_100, "label", "label", note=note)), findings
