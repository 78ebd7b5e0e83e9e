"""Salt in a dish: sodium per portion and per 100 g as prepared, staples included, what is unknown listed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.chain import NoFigure, expected_yield
from ladleworth.dish.dish import Dish, Variant
from ladleworth.dish.nutrients import held
from ladleworth.facts import FoodTable

SALT_PER_SODIUM = Fraction(5, 2)
"""Grams of salt for a gram of sodium on a European label.

Source: Regulation (EU) No 1169/2011, Annex I: salt equivalent = sodium x 2.5 (basis: memory).
"""


@dataclass(frozen=True, slots=True)
class Salt:
    """The sodium that a dish's ingredients bring, exact, as far as it is known.

    Parameters
    ----------
    sodium_mg
        For all portions, what is missing left out: the least there is. `total_sodium_mg` and
        `total_salt_g_per_portion` give it only where nothing is missing.
    portions
        How many there are.
    prepared_mg
        What all portions weigh as prepared; None where that is not known in full.
    measured
        True where the scale has given that weight; otherwise it is the sum of the edible weights, and what
        boils away makes the dish saltier than said.
    missing
        Ingredients without a figure, with the mass they cover where it is known; 'to taste' is among them.
    sources
        Ids of the sources used.
    """

    sodium_mg: Fraction
    portions: int
    prepared_mg: Fraction | None
    measured: bool
    missing: tuple[NoFigure, ...]
    sources: tuple[str, ...]

    @property
    def complete(self) -> bool:
        """Whether every ingredient has its figure."""
        return not self.missing

    @property
    def total_sodium_mg(self) -> Fraction | None:
        """Sodium in all portions; None where any of it is unknown, which `missing` then lists."""
        return self.sodium_mg if self.complete else None

    @property
    def total_salt_g_per_portion(self) -> Fraction | None:
        """Salt in one portion, all sodium counted as salt; None where any of it is unknown."""
        return self.salt_g_per_portion if self.complete else None

    @property
    def sodium_mg_per_portion(self) -> Fraction:
        """Sodium in one portion, as far as it is known."""
        return self.sodium_mg / self.portions

    @property
    def sodium_mg_per_100_g(self) -> Fraction | None:
        """Sodium in 100 g as prepared; None where the weight or any sodium is not known."""
        if not self.prepared_mg or not self.complete:
            return None
        return self.sodium_mg / self.prepared_mg * 100_000

    @property
    def salt_g_per_portion(self) -> Fraction:
        """Salt in one portion, all sodium counted as salt, as far as it is known."""
        return self.sodium_mg_per_portion * SALT_PER_SODIUM / 1000

    @property
    def salt_g_per_100_g(self) -> Fraction | None:
        """Salt in 100 g as prepared, all sodium counted as salt; None as for `sodium_mg_per_100_g`."""
        sodium = self.sodium_mg_per_100_g
        return None if sodium is None else sodium * SALT_PER_SODIUM / 1000

    @property
    def missing_mg(self) -> Fraction:
        """The mass that the missing figures cover, as far as it is known."""
        return sum((one.edible_mg or Fraction(0) for one in self.missing), Fraction(0))


def salt(dish: Dish, variant: Variant, foods: FoodTable) -> Salt:
    """Add up the sodium of a dish's ingredients from their composition.

    What is taken 'to taste' is listed as missing whatever 100 g of it hold. Salt that goes away with cooking water or marinade is counted in full.

    Parameters
    ----------
    dish, variant
        The dish, and the swaps chosen.
    foods
        The food table.

    Returns
    -------
    Salt
        Sodium in mg for all portions, and what it does not cover.

    Raises
    ------
    UnknownFood
        If an ingredient's food is not in the table.
    """
    sodium, missing = Fraction(0), []
    sources: dict[str, None] = {}
    for one in held(dish, variant, foods, "sodium_mg"):
        if one.amount is None or one.figure is None:
            why = one.no_mass or one.no_figure
            missing.append(NoFigure(one.part, one.ingredient.food, why, one.edible_mg))
        else:
            sodium += one.amount
            sources[one.figure.source] = None
    weight = expected_yield(dish, foods, variant)
    return Salt(
        sodium_mg=sodium,
        portions=dish.portions,
        prepared_mg=weight.known_mg if weight.complete and weight.known_mg else None,
        measured=weight.measured,
        missing=tuple(missing),
        sources=tuple(sources),
    )
