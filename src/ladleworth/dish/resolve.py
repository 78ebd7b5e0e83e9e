"""From a dish as written to a dish that can be planned with: foods found, amounts exact and as bought."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from ladleworth.dish.amounts import COOKED_WORDS, NoPieceWeight, Reckoned, reckon_line, reckon_quantity
from ladleworth.dish.bounds import Spot, doubts
from ladleworth.dish.dish import (
    BURNER,
    GREATEST,
    KEEP_DAYS,
    LEAST,
    OVEN,
    Dish,
    Ingredient,
    Part,
    Role,
    StationTime,
    Swap,
)
from ladleworth.dish.line import Line, Review
from ladleworth.dish.line_words import HANDWORK
from ladleworth.dish.mapping import to_mapping
from ladleworth.dish.prepared import counted, prepared
from ladleworth.dish.read_line import read_line
from ladleworth.dish.resolve_steps import resolve_steps, stepped_min
from ladleworth.dish.tree import Findings, Path, Placer, show_path
from ladleworth.dish.written import (
    HandsOn,
    WrittenDish,
    WrittenPart,
    WrittenSwap,
    read_dish,
    read_portion_volume_ml,
    read_step_minutes,
)
from ladleworth.errors import BadUnit, Finding, MissingFact, Place, UnknownFood
from ladleworth.facts import Food, FoodTable, near_allergens
from ladleworth.units import EACH, Quantity, read_number, read_total

TAP_WATER = "water"
"""The food that comes from the tap and is never bought, unless the kitchen has an own food of that id."""

# Words that do not change which food it is, nor its figures.
_IDLE_WORDS = frozenset(
    {"fresh", "ripe", "firm", "raw", "organic", "free-range", "good-quality", "cold", "warm", "hot", "lukewarm",
     "tepid", "boiling", "iced"}
)  # fmt: skip
# Words of these that only tell how warm it is used: they change no food of any aisle.
_WARMTH = frozenset({"cold", "warm", "hot", "lukewarm", "tepid", "boiling"})
_TINS = "tins"
_FRESH_AISLES = ("produce", "meat", "fish", "dairy-and-eggs")
_CAN_FORMS = ("can",)


def resolve(
    written: WrittenDish,
    foods: FoodTable,
    keep_days_default: int = KEEP_DAYS,
    place: Placer | None = None,
) -> tuple[Dish | None, tuple[Finding, ...]]:
    """Turn a dish as written into one that can be planned with, listing every fault and doubt at once.

    Parameters
    ----------
    written
        The dish as `read_dish` gives it.
    foods
        The food table, the kitchen's own foods laid over it.
    keep_days_default
        Days a cooked dish keeps chilled by the house rule, where the dish does not say.
    place
        Tells where the value at a path of keys stands, as for `read_dish`; left out, places name the dish
        and the path.

    Returns
    -------
    tuple of Dish or None, and of Finding
        The dish, None if there is a fault; faults (a line that cannot be read, a food that is not known, a
        figure that nobody has) and doubts (an amount that looks like a slip).
    """
    findings = Findings(place or (lambda path: Place(written.name, item=show_path(path))))
    read, faults = read_dish(to_mapping(written), findings.place)
    if read is None:  # a dish put together from elsewhere may still have faults
        return None, faults
    return _Resolver(written, foods, findings).resolve(keep_days_default)


@dataclass(frozen=True, slots=True)
class _Resolver:
    written: WrittenDish
    foods: FoodTable
    findings: Findings

    def resolve(self, keep_days_default: int) -> tuple[Dish | None, tuple[Finding, ...]]:
        written = self.written
        paths: dict[Spot, Path] = {}
        parts = tuple(self._part(at, part, paths) for at, part in enumerate(written.parts))
        if self.findings.faulty:
            return None, tuple(self.findings.found)
        steps = resolve_steps(written)
        told = written.hands_on or HandsOn()
        stepped = sum((step.hands_on_min for step in steps if not step.swaps), Fraction(0))
        dish = Dish(
            id=written.id,
            name=written.name,
            portions=written.portions or 1,
            parts=parts,
            least=written.least or LEAST,
            greatest=written.greatest or GREATEST,
            meals=written.meals,
            steps=steps,
            fixed_min=_minutes(told.fixed) if written.hands_on else stepped,
            per_portion_min=_minutes(told.per_portion),
            keep_days=written.keep_days or keep_days_default,
            freezer_days=written.freezer_days,
            yield_mg=read_total(written.measured_yield).whole_mg() if written.measured_yield else None,
            never=written.never,
            portion_volume_ml=read_portion_volume_ml(written.portion_volume)
            if written.portion_volume
            else None,
            stations=_stations(written),
            splits=written.splits,
        )
        if not _always_measured(dish):
            self.findings.fault(
                (),
                f"{dish.name} can be made of nothing that is measured, so that it would be food for nothing",
                "write an amount for at least one ingredient that every version of it takes",
            )
            return None, tuple(self.findings.found)
        place = self.findings.place
        slips = doubts(dish, self.foods, lambda spot: place(paths[spot]), place(()))
        return dish, (*self.findings.found, *slips)

    def _part(self, at: int, part: WrittenPart, paths: dict[Spot, Path]) -> Part:
        here: Path = ("parts", at) if part.name else ()
        swaps = []
        for number, swap in enumerate(part.swaps):
            ingredients = self._ingredients(swap, (*here, "swaps", number), Spot(at, number, 0), paths)
            told = swap.hands_on or HandsOn()
            swaps.append(
                Swap(
                    swap.name,
                    ingredients,
                    _minutes(told.fixed) if swap.hands_on else stepped_min(self.written, part, swap.name),
                    _minutes(told.per_portion),
                    _stations(swap),
                    swap.kinds,
                    swap.brings,
                )
            )
        return Part(
            name=part.name or "all",
            role=part.role or Role.WHOLE,
            ingredients=self._ingredients(part, here, Spot(at, None, 0), paths),
            swaps=tuple(swaps),
            stations=_stations(part),
            kinds=part.kinds,
            apart=part.apart,
            brings=part.brings,
        )

    def _ingredients(
        self, piece: WrittenPart | WrittenSwap, here: Path, spot: Spot, paths: dict[Spot, Path]
    ) -> tuple[Ingredient, ...]:
        """Resolve the lines, then the amounts per portion, and note where each ingredient was written."""
        read: list[tuple[Ingredient, Path]] = []
        for at, text in enumerate(piece.lines):
            path = (*here, "lines", at)
            read += [(ingredient, path) for ingredient in self._line(text, path)]
        for name, text in piece.per_portion:
            path = (*here, "per_portion", name)
            read += [(ingredient, path) for ingredient in self._amount(name, text, path)]
        paths |= {replace(spot, ingredient=at): path for at, (_, path) in enumerate(read)}
        return tuple(ingredient for ingredient, _ in read)

    def _line(self, text: str, path: Path) -> list[Ingredient]:
        line = read_line(text)
        if isinstance(line, Review):
            self.findings.fault(path, f"the line {line.text!r} cannot be read: {line.why}", line.remedy)
            return []
        line = self._cooked_apart(self._named_whole(line))
        try:
            named = self._foods_of(line)
        except UnknownFood as unknown:
            self._unknown(unknown, path, f"the line {text!r}: ")
            return []
        if line.unmeasured:
            return [
                Ingredient(
                    food.id,
                    Fraction(0),
                    text=text,
                    working=_said("not measured", line),
                    unmeasured=True,
                    called=food.name if len(named) > 1 else line.food_text,
                    preparation=prepared(line),
                )
                for food in named
            ]
        try:
            reckoned = reckon_line(line, named[0], self.foods)
        except MissingFact as lacking:
            self._lacking(lacking, path, f"the line {text!r}: ")
            return []
        found = self._ingredient(named[0], replace(reckoned, working=_said(reckoned.working, line)), text)
        count, piece = counted(line)
        return [replace(found, called=line.food_text, preparation=prepared(line), count=count, piece=piece)]

    def _named_whole(self, line: Line) -> Line:
        """Take preparing words before the food back into its name where a food is called so: 'sliced ham'.

        Not for the table's foods in tins: 'chopped tomatoes' without a can are tomatoes that the cook chops.
        """
        if not line.before or line.package is not None or line.before[-1].endswith(" of"):
            return line  # 'juice of 1 lemon' counts lemons
        *others, phrase = line.before
        words = phrase.split(" ")
        for at in range(len(words)):
            name = " ".join((*words[at:], line.food_text))
            food = self._known(name)
            if food is not None and (food.own or food.aisle != _TINS):
                left = " ".join(words[:at])
                return replace(line, food_text=name, before=(*others, left) if left else tuple(others))
        return line

    def _cooked_apart(self, line: Line) -> Line:
        """Read 'cooked rice' as rice that is measured cooked, unless a food is called so."""
        before, food_text = [], line.food_text
        known_words = COOKED_WORDS
        while not self._known(food_text):
            word, _, rest = food_text.partition(" ")
            if word.casefold() not in known_words or not rest:
                break
            before.append(word.casefold())
            food_text, known_words = rest, COOKED_WORDS | HANDWORK  # 'cooked chopped onion'
        return replace(line, food_text=food_text, before=(*line.before, *before)) if before else line

    def _foods_of(self, line: Line) -> list[Food]:
        """Find the food that a line names; 'salt and pepper' without an amount names two."""
        form = line.package.form if line.package else ""
        if line.unmeasured and " and " in line.food_text and not self._known(line.food_text):
            return [self._find(half.strip(), form) for half in line.food_text.split(" and ")]
        return [self._find(line.food_text, form)]

    def _find(self, name: str, form: str = "") -> Food:
        """Find a food by name: of things in cans the canned food first, idle words left out last."""
        canned = self._known(f"canned {name}") if form in _CAN_FORMS else None
        found = canned or self._known(name)
        if found is None:
            kept = " ".join(word for word in name.split() if word.casefold() not in _IDLE_WORDS)
            plain = self._known(kept) if kept and kept != name else None
            if plain and (plain.aisle in _FRESH_AISLES or plain.id == TAP_WATER):
                return plain
            cooler = " ".join(word for word in name.split() if word.casefold() not in _WARMTH)
            if cooler and cooler != name and (same := self._known(cooler)):
                return same
            raise UnknownFood(name, self.foods.nearest(name))
        return found

    def _known(self, name: str) -> Food | None:
        try:
            return self.foods.find(name)
        except UnknownFood:
            return None

    def _amount(self, name: str, text: str, path: Path) -> list[Ingredient]:
        try:
            food = self.foods.find(name)
            number = _read_amount(text)
            reckoned = reckon_quantity(number, food, self.foods, as_bought=True)
        except UnknownFood as unknown:
            self._unknown(unknown, path, "")
            return []
        except BadUnit as fault:
            self.findings.fault(
                path, f"the amount of {name} cannot be read: {fault}", "write 80 g, or 1 for a piece"
            )
            return []
        except MissingFact as lacking:
            remedy = _with_a_unit(text, food, self.foods)
            self._lacking(lacking, path, f"the amount {text!r} of {name}: ", remedy)
            return []
        portions = self.written.portions or 1
        edible = None if reckoned.edible_mg is None else reckoned.edible_mg * portions
        working = reckoned.working + (f"; x {portions} portions" if portions > 1 else "")
        reckoned = Reckoned(reckoned.bought * portions, edible, working)
        return [replace(self._ingredient(food, reckoned, f"{text} {name}"), called=name)]

    def _ingredient(self, food: Food, reckoned: Reckoned, text: str) -> Ingredient:
        if food.id == TAP_WATER and not food.own:
            working = f"{reckoned.working}; from the tap, not bought"
            return Ingredient(food.id, Fraction(0), reckoned.edible_mg, text, working, unmeasured=True)
        return Ingredient(food.id, reckoned.bought, reckoned.edible_mg, text, reckoned.working)

    def _unknown(self, unknown: UnknownFood, path: Path, where: str) -> None:
        near = " or ".join(map(repr, unknown.nearest[:3]))
        write = f"write {near}" if near else "no near name is known; write a name of the food table"
        remedy = f"{write}, or add it to foods.yaml"
        if not near and (allergens := near_allergens(unknown.name)):
            touched = " or ".join(map(repr, allergens))
            remedy = f"{unknown.name!r} may mean the allergen {touched}, not one food; write the food itself"
        self.findings.fault(path, f"{where}no food is called {unknown.name!r}", remedy)

    def _lacking(self, lacking: MissingFact, path: Path, where: str, remedy: str = "") -> None:
        if not remedy and isinstance(lacking, NoPieceWeight):
            remedy = f"write {lacking.write_instead}, or add the figure to foods.yaml"
        remedy = remedy or "write the amount in grams as bought (80 g), or add the figure to foods.yaml"
        self.findings.fault(path, f"{where}{lacking}", remedy)


def _with_a_unit(text: str, food: Food, foods: FoodTable) -> str:
    """Say which units a bare number may have been meant in; '' for an amount that has a unit."""
    if not _is_bare(text):
        return ""
    number = text.strip()
    ml = f" or '{number} ml'" if foods.densities(food.id) else ""
    return f"write '{number} g'{ml}; a bare number counts pieces"


def _said(working: str, line: Line) -> str:
    """Add what the line says besides: that it is optional, and what may stand instead."""
    notes = [working]
    if line.optional:
        notes.append("optional, counted")
    if line.alternatives:
        others = ", ".join(other.food_text for other in line.alternatives)
        notes.append(f"the first is taken; instead: {others}")
    return "; ".join(notes)


def _minutes(text: str) -> Fraction:
    return read_step_minutes(text) if text else Fraction(0)


def _stations(piece: WrittenDish | WrittenPart | WrittenSwap) -> tuple[StationTime, ...]:
    """Read the minutes of the oven and of burners that are stated; '0' stands for a station stated as not needed."""
    return tuple(
        StationTime(station, _minutes(told.fixed), _minutes(told.per_portion))
        for station, told in ((OVEN, piece.oven), (BURNER, piece.burners))
        if told is not None
    )


def _is_bare(text: str) -> bool:
    return not any(c.isalpha() or c == "#" for c in text)


def _read_amount(text: str) -> Quantity:
    """Read an amount per portion: a bare number is pieces."""
    amount = Quantity.of(read_number(text), EACH) if _is_bare(text) else read_total(text)
    if amount.amount <= 0:
        raise BadUnit(f"{text!r} is nothing; write an amount above 0")
    return amount


def _always_measured(dish: Dish) -> bool:
    """Say whether every choice of swaps takes something that is measured (water from the tap is not)."""

    def measured(ingredients: tuple[Ingredient, ...]) -> bool:
        return any(not ingredient.unmeasured for ingredient in ingredients)

    return any(
        measured(part.ingredients)
        or (bool(part.swaps) and all(measured(swap.ingredients) for swap in part.swaps))
        for part in dish.parts
    )
