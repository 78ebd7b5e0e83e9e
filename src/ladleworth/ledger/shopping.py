"""The shopping list: what is needed less what is there, in whole packages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from ladleworth.errors import BadField
from ladleworth.ledger.book import Ledger
from ladleworth.ledger.cover import Cover, cheapest_cover
from ladleworth.ledger.lot import LotUnit
from ladleworth.ledger.price_book import PriceBook


@dataclass(frozen=True, slots=True)
class Need:
    """So much of one food, as bought, for one dish; `quantity` is in `unit`, above zero."""

    food: str
    unit: LotUnit
    quantity: int
    dish: str = ""

    def __post_init__(self) -> None:
        if self.quantity <= 0:
            raise BadField(
                f"a need of {self.quantity} {self.unit.value} of {self.food!r}; write one above zero"
            )


@dataclass(frozen=True, slots=True)
class ListLine:
    """One line of the shopping list.

    `needed`, `on_hand` and `missing` are in `unit`; `dishes` pairs each dish with its own need; `cover` is the
    cheapest whole packages, None when nobody has an offer, so that it must be looked for.
    """

    food: str
    unit: LotUnit
    needed: int
    on_hand: int
    missing: int
    dishes: tuple[tuple[str, int], ...]
    cover: Cover | None


def usable(ledger: Ledger, food: str, unit: LotUnit, by_day: date) -> int:
    """Tell how much of a food is there that may still be used on a day, in the unit asked for.

    Parameters
    ----------
    ledger
        What is there.
    food
        The food's id.
    unit
        Only lots kept in this unit count.
    by_day
        The day of use; lots whose last day is before it do not count.

    Returns
    -------
    int
        The sum, in `unit`.
    """
    return sum(
        held.quantity for held in ledger.holdings(food) if held.lot.unit is unit and not held.is_past(by_day)
    )


def shortfall(
    needs: Mapping[tuple[str, LotUnit], int], ledger: Ledger, by_day: date
) -> dict[tuple[str, LotUnit], int]:
    """Work out what is missing: need less what may still be used on the day.

    Parameters
    ----------
    needs
        Quantity by food and unit.
    ledger
        What is there.
    by_day
        The day of use.

    Returns
    -------
    dict
        Quantity by food and unit, above zero; what is there in full is left out.
    """
    gaps = {key: quantity - usable(ledger, *key, by_day) for key, quantity in needs.items()}
    return {key: gap for key, gap in gaps.items() if gap > 0}


def shopping_list(
    needs: tuple[Need, ...], ledger: Ledger, book: PriceBook, by_day: date, *, shop: str | None = None
) -> tuple[ListLine, ...]:
    """Write the shopping list for some dishes.

    Parameters
    ----------
    needs
        What each dish needs, as bought.
    ledger
        What is there.
    book
        Offers, the newest price of each package counting.
    by_day
        The day of use.
    shop
        Buy at this shop only, None for wherever it is cheapest.

    Returns
    -------
    tuple of ListLine
        One line per food and unit of which something is missing, by food.
    """
    wanted: dict[tuple[str, LotUnit], dict[str, int]] = {}
    for need in needs:
        dishes = wanted.setdefault((need.food, need.unit), {})
        dishes[need.dish] = dishes.get(need.dish, 0) + need.quantity
    sums = {key: sum(dishes.values()) for key, dishes in wanted.items()}
    lines = []
    for (food, unit), missing in shortfall(sums, ledger, by_day).items():
        offers = [offer for offer in book.latest(food, shop=shop) if offer.unit is unit]
        cover = cheapest_cover(offers, missing) if offers else None
        by_dish = tuple(sorted(wanted[food, unit].items()))
        needed = sums[food, unit]
        lines.append(ListLine(food, unit, needed, needed - missing, missing, by_dish, cover))
    return tuple(sorted(lines, key=lambda line: (line.food, line.unit.value)))
