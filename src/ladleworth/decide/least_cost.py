"""The cheapest basket of foods that reaches given amounts of nutrients: its records, and its judge.

This is the old question of what it costs at least to be fed by the table: no dish, no day, no taste, only
packages and nutrients. The week's own decision does not use it; it says how far a week's bill lies above
the least that any food at these prices could cost. `least_cost_model.py` finds the basket; this file knows
no solver and checks it in exact fractions.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm
from types import MappingProxyType

from ladleworth.errors import BadField


def _numbers(pairs: Mapping[str, Fraction | int], what: str) -> Mapping[str, Fraction]:
    for name, amount in pairs.items():
        if amount < 0:
            raise BadField(f"{what}: the amount of {name} must not be negative, and it is {amount}")
    return MappingProxyType({name: Fraction(amount) for name, amount in pairs.items()})


@dataclass(frozen=True, slots=True)
class PackagedFood:
    """A food by the package: what it costs in cents (a fraction of one if need be) and what it gives.

    `gives` maps a nutrient to its amount in one package, in the unit that the floors are stated in.
    """

    name: str
    package_cents: Fraction
    gives: Mapping[str, Fraction]

    def __post_init__(self) -> None:
        if self.package_cents < 0:
            raise BadField(f"{self.name}: the price must not be negative, and it is {self.package_cents}")
        object.__setattr__(self, "package_cents", Fraction(self.package_cents))
        object.__setattr__(self, "gives", _numbers(self.gives, self.name))


@dataclass(frozen=True, slots=True)
class LeastCostQuestion:
    """What must be reached (`floors`, per nutrient, for all the days together) and what there is to buy.

    With `whole_packages` packages cannot be split; without, any fraction of one can be had at its share
    of the price.
    """

    floors: Mapping[str, Fraction]
    foods: tuple[PackagedFood, ...]
    whole_packages: bool = False

    def __post_init__(self) -> None:
        twice = [name for name, times in Counter(food.name for food in self.foods).items() if times > 1]
        if twice:
            raise BadField(f"food {', '.join(map(repr, twice))} stands there more than once; name each once")
        object.__setattr__(self, "floors", _numbers(self.floors, "floors"))

    def unreachable(self) -> tuple[str, ...]:
        """Nutrients with a floor above zero that no food gives: with one of these there is no basket."""
        return tuple(
            nutrient
            for nutrient, floor in self.floors.items()
            if floor > 0 and not any(food.gives.get(nutrient, 0) > 0 for food in self.foods)
        )

    def on_the_grid(self, cents: Fraction) -> Fraction:
        """The least sum of whole packages' prices' common unit that is not below `cents`."""
        unit = lcm(1, *(food.package_cents.denominator for food in self.foods))
        return Fraction(ceil(cents * unit), unit)


@dataclass(frozen=True, slots=True)
class Basket:
    """A basket, and how good it is known to be.

    `packages` names each food bought with its number of packages, in the order of the question.
    `bound_cents` is what no basket can cost less than; when it equals `cents` the basket is proven best.
    `floor_prices`, for a basket of split packages, gives per nutrient what one unit more of its floor adds
    to the cost in cents: these prices are the proof, and `basket_breaches` goes through it.
    """

    packages: tuple[tuple[str, Fraction], ...]
    cents: Fraction
    bound_cents: Fraction
    floor_prices: tuple[tuple[str, Fraction], ...] = ()

    @property
    def proven(self) -> bool:
        """Say whether no basket can cost less."""
        return self.bound_cents >= self.cents

    def supplied(self, question: LeastCostQuestion) -> dict[str, Fraction]:
        """How much of each nutrient with a floor the basket gives."""
        foods = {food.name: food for food in question.foods}
        return {
            nutrient: sum(
                (foods[name].gives.get(nutrient, Fraction(0)) * count for name, count in self.packages),
                Fraction(0),
            )
            for nutrient in question.floors
        }


def basket_breaches(question: LeastCostQuestion, basket: Basket) -> tuple[str, ...]:
    """Every rule that a basket does not keep, in words; none if it stands.

    Parameters
    ----------
    question, basket
        The question, and any basket whatever, however it was found.

    Returns
    -------
    tuple of str
        Floors missed, packages that cannot be had, a sum that does not add up, a proof that does not hold.
    """
    known = {food.name for food in question.foods}
    unknown = [f"no food is called {name!r}" for name, _ in basket.packages if name not in known]
    return tuple(unknown) or (*_amount_breaches(question, basket), *_proof_breaches(question, basket))


def basket_stands(question: LeastCostQuestion, basket: Basket) -> bool:
    """Say whether a basket keeps every rule and its sum and proof hold, in exact fractions."""
    return not basket_breaches(question, basket)


def _amount_breaches(question: LeastCostQuestion, basket: Basket) -> Iterator[str]:
    price = {food.name: food.package_cents for food in question.foods}
    for name, times in Counter(name for name, _ in basket.packages).items():
        if times > 1:
            yield f"{name} stands in the basket {times} times"
    for name, count in basket.packages:
        if count <= 0:
            yield f"{count} packages of {name} cannot be bought"
        if question.whole_packages and Fraction(count).denominator != 1:
            yield f"{count} packages of {name} would split one"
    for nutrient, amount in basket.supplied(question).items():
        if amount < question.floors[nutrient]:
            yield f"{nutrient}: {float(amount):g} is below the floor of {float(question.floors[nutrient]):g}"
    cents = sum((price[name] * count for name, count in basket.packages), Fraction(0))
    if cents != basket.cents:
        yield f"the packages cost {float(cents):g} cents and the basket says {float(basket.cents):g}"
    if basket.bound_cents > basket.cents:
        yield f"the bound of {float(basket.bound_cents):g} cents lies above the cost"


def _proof_breaches(question: LeastCostQuestion, basket: Basket) -> Iterator[str]:
    """If no food is worth more at the floor prices than it costs, no basket costs less than the floors do."""
    prices = dict(basket.floor_prices)
    if not prices:
        return
    for nutrient, price in prices.items():
        if price < 0:
            yield f"the floor price of {nutrient} is negative"
    for food in question.foods:
        worth = sum((price * food.gives.get(n, Fraction(0)) for n, price in prices.items()), Fraction(0))
        if worth > food.package_cents:
            yield f"{food.name} is worth {float(worth):g} cents at the floor prices and costs less"
    bound = sum((price * question.floors.get(n, Fraction(0)) for n, price in prices.items()), Fraction(0))
    if bound != basket.bound_cents:
        yield f"the floor prices prove {float(bound):g} cents and the basket says {float(basket.bound_cents):g}"
