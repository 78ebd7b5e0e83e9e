"""What the cook says of a batch that is divided, as it is written: readings, scoops, cooking, depth; all faults at once. Pure."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from ladleworth.dish.dish import Dish, Role, Variant
from ladleworth.dish.tree import nearest
from ladleworth.divide import PartMade, Reading
from ladleworth.divide.heaps import in_words
from ladleworth.errors import BadField, FaultyKitchen, Finding, LadleworthError, Place
from ladleworth.facts import FoodTable
from ladleworth.facts.scoops import scoop
from ladleworth.units import Dimension, half_up, read_number, read_total

POT: tuple[str, ...] = ()
"""The key of the whole pot's reading, and of its tare: it names no part."""

_LENGTH = re.compile(r"(?P<number>.*?\d.*?) *(?P<unit>mm|cm|in|inch|inches)\.?", re.IGNORECASE)
_MM = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10)}


@dataclass(frozen=True, slots=True)
class DivideWish:
    """What is said of a batch that is divided, as it was written; docs/cli.md tells how each is written.

    `portions` is into how many equal ones it goes, None for those of the plan; `swaps` choose the version; the others are
    the values of the options of the same name.
    """

    portions: int | None = None
    swaps: tuple[str, ...] = ()
    weighed: tuple[str, ...] = ()
    tare: tuple[str, ...] = ()
    cooked: tuple[str, ...] = ()
    scoops: tuple[int, ...] = ()
    depth: str | None = None

    def __post_init__(self) -> None:
        if self.portions is not None and self.portions < 1:
            raise BadField(f"{self.portions} portions; write 1 or more")
        if self.tare and not self.weighed:
            raise BadField("the empty pot's weight says nothing by itself; give --weighed with --tare")


@dataclass(frozen=True, slots=True)
class Said:
    """A wish as it was read: the new readings, how foods are cooked by id, the scoops, and the greatest depth in mm."""

    readings: tuple[Reading, ...]
    methods: dict[str, str]
    scoops: tuple[int, ...]
    depth_mm: int | None


def read_wish(
    wish: DivideWish, dish: Dish, variant: Variant, foods: FoodTable, made: Sequence[PartMade]
) -> Said:
    """Read what is said of a batch.

    Parameters
    ----------
    wish
        As written.
    dish, variant, foods, made
        The dish, the swaps chosen, the food table, and the dish's parts: what the readings can be of.

    Returns
    -------
    Said
        A reading that names no part is of the whole pot: of every part that is neither weighed by itself at the same
        time, nor garnish, nor kept apart, nor dealt out to the piece. PART+PART names parts that were weighed together.

    Raises
    ------
    FaultyKitchen
        With every fault, each under the option that has it.
    """
    reading = _Reading(dish, variant, foods, made)
    for text in wish.tare:
        reading.each("--tare", text, reading.tare)
    for text in wish.weighed:
        reading.each("--weighed", text, reading.weighed)
    for text in wish.cooked:
        reading.each("--cooked", text, reading.cooked)
    for number in wish.scoops:
        reading.each("--scoop", str(number), lambda text: reading.scoops.append(scoop(int(text)).number))
    if wish.depth is not None:
        reading.each("--depth", wish.depth, reading.depth)
    readings = reading.readings()
    if reading.faults:
        raise FaultyKitchen(reading.faults)
    return Said(readings, reading.methods, tuple(reading.scoops), reading.depth_mm)


@dataclass(slots=True)
class _Reading:
    """What has been read so far, and the faults."""

    dish: Dish
    variant: Variant
    foods: FoodTable
    made: Sequence[PartMade]
    methods: dict[str, str] = field(default_factory=dict)
    scoops: list[int] = field(default_factory=list)
    depth_mm: int | None = None
    faults: list[Finding] = field(default_factory=list)
    _weighed: dict[tuple[str, ...], tuple[int, bool]] = field(default_factory=dict)
    _tares: dict[tuple[str, ...], int] = field(default_factory=dict)

    def each(self, option: str, text: str, read: Callable[[str], None]) -> None:
        """Read a value of an option; a fault is kept."""
        try:
            read(text)
        except LadleworthError as fault:
            what, _, remedy = str(fault).partition("; ")
            place = Place("command line", None, f"{option} {text!r}")
            self.faults.append(Finding(place, what, remedy or "docs/cli.md tells how it is written"))

    def weighed(self, text: str) -> None:
        parts, amount = self._named(text)
        for other in self._weighed:
            if parts == other or set(parts) & set(other):
                raise BadField(
                    f"{in_words(parts) if parts else 'the pot'} is weighed twice; give one reading of it"
                )
        if amount.strip().replace(".", "", 1).isdigit():
            raise BadField(f"{amount.strip()!r} has no unit; write one such as 1.62kg, or '7 pieces'")
        quantity = read_total(amount)
        if quantity.dimension is Dimension.COUNT and len(parts) == 1 and quantity.amount.denominator == 1:
            self._weighed[parts] = (int(quantity.amount), True)
            return
        self._weighed[parts] = (_mg(amount), False)

    def tare(self, text: str) -> None:
        parts, amount = self._named(text)
        if parts in self._tares:
            raise BadField(f"{in_words(parts) if parts else 'the pot'} has two empty weights; give one")
        self._tares[parts] = _mg(amount)

    def cooked(self, text: str) -> None:
        name, equals, method = text.partition("=")
        if not equals or not method.strip():
            raise BadField(f"{text!r} names no method; write FOOD=METHOD, as 'bacon=pan-fried'")
        food = self.foods.find(name)
        taken = dict.fromkeys(one.food for one in self.variant.ingredients)
        if food.id not in taken:
            names = ", ".join(self.foods.get(one).name for one in taken)
            raise BadField(f"{self.dish.name} takes no {food.name}; name one of {names}")
        self.foods.cooking_yield(food.id, method.strip())
        self.methods[food.id] = method.strip()

    def depth(self, text: str) -> None:
        found = _LENGTH.fullmatch(text.strip())
        if found is None:
            raise BadField(f"{text!r} is no depth; write one such as 5 cm or 2 in")
        self.depth_mm = half_up(read_number(found["number"]) * _MM[found["unit"].casefold()[:2]])
        if self.depth_mm < 1:
            raise BadField(f"{text!r} is no depth; write 1 mm or more")

    def _named(self, text: str) -> tuple[tuple[str, ...], str]:
        """Part a value into the parts as the dish names them (none: the pot) and the amount."""
        names, equals, amount = text.rpartition("=")
        if not equals:
            return POT, amount
        there = {one.part.casefold(): one.part for one in self.made}
        whole = there.get(names.strip().casefold())
        asked = [names.strip()] if whole is not None else [name.strip() for name in names.split("+")]
        found = []
        for name in asked:
            part = there.get(name.casefold())
            if part is None:
                near = nearest(name, there.values())
                hint = f"did you mean {near!r}?" if near else f"its parts are {', '.join(there.values())}"
                raise BadField(f"{self.dish.name} has no part {name!r}; {hint}")
            found.append(part)
        if len(set(found)) < len(found):
            raise BadField(f"{names} names a part twice; name each once")
        return tuple(one.part for one in self.made if one.part in found), amount

    def readings(self) -> tuple[Reading, ...]:
        """Put readings and tares together."""
        tares = dict(self._tares)
        if POT in tares and POT not in self._weighed and len(self._weighed) == 1:
            tares[next(iter(self._weighed))] = tares.pop(POT)
        if not self.faults:
            for parts in [parts for parts in tares if parts not in self._weighed]:
                self.each("--tare", in_words(parts) if parts else "without a part", _without_reading)
        found: list[Reading] = []

        def put_together(parts: tuple[str, ...]) -> Callable[[str], None]:
            return lambda _: found.append(self._reading(parts, tares))

        for parts in self._weighed:
            self.each("--weighed", in_words(parts) if parts else "the pot", put_together(parts))
        return tuple(found)

    def _reading(self, parts: tuple[str, ...], tares: Mapping[tuple[str, ...], int]) -> Reading:
        gross, in_pieces = self._weighed[parts]
        return Reading(parts or self._in_the_pot(), gross, tares.get(parts, 0), in_pieces)

    def _in_the_pot(self) -> tuple[str, ...]:
        weighed = {part for parts in self._weighed for part in parts}
        mine = tuple(
            one.part
            for one in self.made
            if one.part not in weighed
            and not one.apart
            and one.role is not Role.GARNISH
            and one.counted is None
        )
        if not mine:
            raise BadField("no part is left to be in the pot; name the part that was weighed, as PART=1.62kg")
        return mine


def _without_reading(name: str) -> None:
    raise BadField(
        f"nothing was weighed that the empty weight {name} belongs to; name what stood in that pot, as PART=400g"
    )


def _mg(text: str) -> int:
    quantity = read_total(text)
    if quantity.dimension is not Dimension.MASS:
        raise BadField(f"{text.strip()!r} is no weight; write one such as 1.62kg or 3 lb 9 oz")
    if quantity.amount < 1:
        raise BadField(f"{text.strip()!r} weighs nothing; write a weight above 0")
    return half_up(quantity.amount)
