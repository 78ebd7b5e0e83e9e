"""What a millilitre of a part weighs: by the food table where one food makes the part, else an estimate that says so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ladleworth.dish.chain import by_part, edible_mass
from ladleworth.dish.dish import Dish, Ingredient, Variant
from ladleworth.divide.making import PartMade
from ladleworth.facts import Figure, FoodTable

NEARLY_ALL = Fraction(9, 10)
"""A part is taken as one food where that is at least this share of its weight. House rule, no source."""

WATER_G_PER_ML = Fraction(1)
"""What a millilitre of water weighs, within 1 % between 0 and 50 °C (basis: memory)."""

ESTIMATE = "common-practice"

AS_IS = "as is"
RAW_AISLES = frozenset({"produce", "meat", "fish", "frozen"})


@dataclass(frozen=True, slots=True)
class Density:
    """What a millilitre weighs, and whether that is an estimate; `figure.note` says of what it is."""

    figure: Figure
    estimated: bool

    @property
    def mg_per_ml(self) -> Fraction:
        """Exact milligrams in a millilitre."""
        return self.figure.value * 1000


def densities(
    dish: Dish, variant: Variant, foods: FoodTable, made: Sequence[PartMade], written_mg: int | None = None
) -> dict[str, Density]:
    """Say how dense each part is.

    Parameters
    ----------
    dish, variant, foods
        The dish, scaled to the batch, the swaps chosen, and the food table.
    made
        Its parts as reckoned.
    written_mg
        The dish's measured yield for the batch; with a measured volume of a portion the two make the density.

    Returns
    -------
    dict
        By part. A part that is one food as the table knows it (rice, cooked; cheddar, shredded; salsa) has the table's
        figure. For any other it is its reckoned weight over what it is estimated to fill (house rules, no source): edible
        weights at water's density, since sauce fills the gaps between the pieces; foods cooked from dry at the
        density of the cooked food; in all, what the dish states of a portion. Where a weight is unknown, water's.
    """
    scale = _scale(dish, made, written_mg)
    stretch = _stretch(dish, made)
    found = {}
    for one in made:
        ingredients = [i for part, i in by_part(dish, variant) if part == one.part]
        known = None if dish.portion_volume_ml is not None else _of_one_food(one, ingredients, foods)
        found[one.part] = known or _estimate(one, scale, stretch)
    return found


def together(parts: Sequence[tuple[Density, Fraction | int]]) -> Density:
    """Give the density of parts that lie in one pot, each with its mass in mg; water's where no mass is known."""
    mass = sum((Fraction(mg) for _, mg in parts), Fraction(0))
    if len(parts) == 1:
        return parts[0][0]
    if not mass:
        return _water()
    volume = sum((mg / density.mg_per_ml for density, mg in parts), Fraction(0))
    note = "of what is in the pot, part by part"
    return Density(Figure(mass / volume / 1000, "g/ml", ESTIMATE, "common practice", note), estimated=True)


def _scale(dish: Dish, made: Sequence[PartMade], written_mg: int | None) -> Fraction:
    """By how much the measured yield differs from the reckoning, where a measured volume stands beside it."""
    reckoned = [one.mass_mg for one in made if one.mass_mg is not None]
    if written_mg is None or dish.portion_volume_ml is None or len(reckoned) < len(made):
        return Fraction(1)
    return written_mg / sum(reckoned, Fraction(0))


def _stretch(dish: Dish, made: Sequence[PartMade]) -> Fraction | None:
    """Give the measured volume over the estimated one; None where the cook has measured none, or no estimate is whole."""
    volumes = [_volume_ml(one) for one in made if one.mass_mg is not None]
    if dish.portion_volume_ml is None or len(volumes) < len(made):
        return None
    return dish.portion_volume_ml * dish.portions / sum(volumes, Fraction(0))


def _volume_ml(one: PartMade) -> Fraction:
    """Estimate what a part fills: its weight as water, and what swollen foods fill beyond that."""
    return one.known_mg / 1000 + one.looser_ml


def _of_one_food(one: PartMade, ingredients: Sequence[Ingredient], foods: FoodTable) -> Density | None:
    """Give the table's density of the food that nearly all of the part is, in its form; None if there is none."""
    if one.mass_mg is None:
        return None
    masses: dict[str, Fraction] = {}
    for ingredient in ingredients:
        if not ingredient.unmeasured:
            done = next(
                (w.figure.yield_pct / 100 for w in one.cooked if w.food == ingredient.food), Fraction(1)
            )
            mass = edible_mass(ingredient, foods)[0] * done
            masses[ingredient.food] = masses.get(ingredient.food, Fraction(0)) + mass
    food = max(masses, key=lambda name: masses[name], default=None)
    if food is None or masses[food] < NEARLY_ALL * one.mass_mg:
        return None
    main = next(i for i in ingredients if i.food == food)
    cooked = any(way.food == food for way in one.cooked)
    for density in foods.densities(food):
        if _fits(density.form, main, foods, cooked=cooked):
            note = f"{foods.get(food).name}, {density.form}"
            return Density(replace(density.weight, note=note), estimated=False)
    return None


def _fits(form: str, main: Ingredient, foods: FoodTable, *, cooked: bool) -> bool:
    """Tell whether a form of the table is how the food lies in the part."""
    if cooked:
        return form == "cooked" or form.startswith("cooked,")
    if form == AS_IS:
        return not main.preparation and foods.get(main.food).aisle not in RAW_AISLES
    return any(form in phrase.split() for phrase in main.preparation)


def _estimate(one: PartMade, scale: Fraction, stretch: Fraction | None) -> Density:
    if one.mass_mg is None:
        return _water()
    value = one.mass_mg * scale / _volume_ml(one) / 1000
    if stretch is not None:
        note = "by the volume of a portion that the dish states"
        return Density(Figure(value / stretch, "g/ml", "own", "own", note), estimated=True)
    note = "of its ingredients at water's density, dry foods swollen"
    return Density(Figure(value, "g/ml", ESTIMATE, "common practice", note), estimated=True)


def _water() -> Density:
    note = "water's, for want of a figure"
    return Density(Figure(WATER_G_PER_ML, "g/ml", ESTIMATE, "common practice", note), estimated=True)
