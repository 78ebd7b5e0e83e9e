"""What a written amount of a food means in the shop: exact mg as bought, or pieces, with the working in words.

The rules (common practice, no source; docs/dishes.md tells them to the cook):

- A mass is as bought, unless a preparing word stands before the food: '500 g chopped onions' are the edible
  part. Cooked in front makes it the weight after cooking.
- A volume is the edible part, by the density of the form that the preparing words name.
- A piece weighs what the table prints, edible part or as bought.
- A package with its content ('2 (14.5 oz) cans') is as bought; a clove, a stick, a bunch is a piece.
- Of a range the high end is taken, since it has to be bought.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.chain import on_bought
from ladleworth.dish.line import Amount, Line
from ladleworth.dish.line_words import FORMS, GROWN_FORMS
from ladleworth.errors import MissingFact
from ladleworth.facts import Density, Figure, Food, FoodTable, Measure, WeightIs
from ladleworth.units import Dimension, Quantity, show_mass, show_number, show_volume

_WHOLE_SIZES = ("medium", "large", "small", "whole", "extra large", "extra small", "jumbo", "piece", "half")
_COUNTED_FORMS = ("piece", "cube", "round", "sheet")
COOKED_WORDS = frozenset({"cooked", "hard-boiled", "scrambled", "poached", "boiled", "roasted", "steamed"})
_HARD_SIZES = {"xl": "extra large", "extra-large": "extra large", "lg": "large", "big": "large", "sm": "small",
               "med": "medium", "medium-sized": "medium", "medium-size": "medium", "large-sized": "large",
               "small-sized": "small", "mini": "extra small"}  # fmt: skip
_SAME_FORMS = {"packet": ("package",), "sachet": ("envelope", "packet"), "bulb": ("head",)}
# House rule, no source: the form whose figure stands in where the table has none of its own.
_LIKE_FORMS = {
    "chopped": ("diced", "cubed"),
    "minced": ("chopped", "diced"), "diced": ("cubed", "chopped"), "cubed": ("diced", "chopped"),
    "grated": ("shredded",), "shredded": ("grated",),
}  # fmt: skip


class NoPieceWeight(MissingFact):
    """A food counted in a form whose weight nobody has; `write_instead` names what can be written."""

    def __init__(self, food: Food, form: str, sizes: tuple[str, ...]) -> None:
        form = _SAME_FORMS[form][0] if form == "bulb" else form
        counted = [size for size in sizes if size in GROWN_FORMS.values()]
        self.write_instead = " or ".join([*(_plural(size) for size in counted), "grams"])
        super().__init__(
            f"no weight of a {form} of {food.name} is on record; there are: {', '.join(sizes) or 'none'}"
        )


def _plural(form: str) -> str:
    return next((spelling for spelling, (name, many) in FORMS.items() if name == form and many), form)


@dataclass(frozen=True, slots=True)
class Reckoned:
    """An amount worked out: as bought (mg, or pieces for a food in pieces), edible mg, and how."""

    bought: Fraction
    edible_mg: Fraction | None
    working: str


@dataclass(frozen=True, slots=True)
class Kind:
    """What the words around an amount say of it.

    Parameters
    ----------
    edible
        True where a mass is of the edible part.
    words
        Preparing words before and after the food, which name the form of a volume.
    size
        The size of a piece as the table spells it, None where the line does not say.
    form
        'clove', 'stick', 'can' for pieces of that form; '' for pieces of the food itself.
    called
        The form that the food's own name ends with: 'fillet' of 'cod fillets'; '' for none.
    """

    edible: bool = False
    words: frozenset[str] = frozenset()
    size: str | None = None
    form: str = ""
    called: str = ""

    @property
    def cooked(self) -> bool:
        """Whether the words say that the amount is of cooked food."""
        return bool(self.words & COOKED_WORDS)


def show_figure(figure: Figure) -> str:
    """Write a figure with its unit, its source and how it was come by: '110 g (usda-sr26, read)'."""
    unit = "" if figure.unit == "share" else f" {figure.unit}"
    return f"{show_number(figure.value, 'decimal')}{unit} ({figure.source}, {figure.basis})"


def kind_of(line: Line, *, before_only: bool = False) -> Kind:
    """Tell from a line's words what its amount is of; a mass heeds only the words before the food."""
    words = _words(line.before)
    if not before_only:  # 'cooked' after the comma is what happens once the amount has been measured
        words |= _words(line.preparation) - COOKED_WORDS
    size = _HARD_SIZES.get(line.size or "", line.size)
    form = line.package.form if line.package and line.package.size is None else ""
    called = FORMS.get(line.food_text.casefold().rpartition(" ")[2], ("", False))[0]
    return Kind(edible=bool(line.before), words=words, size=size, form=form, called=called)


def _words(phrases: tuple[str, ...]) -> frozenset[str]:
    return frozenset(word for phrase in phrases for word in phrase.casefold().replace(",", " ").split())


def reckon_line(line: Line, food: Food, foods: FoodTable) -> Reckoned:
    """Work out what a line's food comes to, as bought.

    Parameters
    ----------
    line
        A measured line.
    food
        The food that it names.
    foods
        The food table.

    Returns
    -------
    Reckoned
        Exact mg, or pieces for a food in pieces; of a range, the high end.

    Raises
    ------
    MissingFact
        If a figure on the way is one that nobody has; the message names it.
    """
    if line.package is not None:
        return _reckon_package(line, food, foods)
    mass = next((a for a in (*line.amounts, *line.also) if _dimension(a) is Dimension.MASS), None)
    written_as = _dimension(line.amounts[0])
    if mass is not None and written_as is not Dimension.MASS and len(line.amounts) == 1:
        # the line itself says what its cups or pieces weigh: cups are edible part, pieces as bought
        kind = kind_of(line, before_only=written_as is Dimension.COUNT)
        edible = kind.edible or written_as is Dimension.VOLUME
        reckoned = _reckon_mass(_high(mass), Kind(edible, kind.words), food, foods)
        return Reckoned(reckoned.bought, reckoned.edible_mg, f"the line's own weight; {reckoned.working}")
    return add_up([_reckon_amount(amount, line, food, foods) for amount in line.amounts])


def add_up(parts: list[Reckoned]) -> Reckoned:
    """Add amounts of one food; the edible mass is known only if all of it is."""
    known = [part.edible_mg for part in parts if part.edible_mg is not None]
    return Reckoned(
        bought=sum((part.bought for part in parts), Fraction(0)),
        edible_mg=sum(known, Fraction(0)) if len(known) == len(parts) else None,
        working="; plus ".join(part.working for part in parts),
    )


def reckon_quantity(amount: Quantity, food: Food, foods: FoodTable, *, as_bought: bool = False) -> Reckoned:
    """Work out a plain amount without words around it; with `as_bought`, a volume is as bought too.

    Raises
    ------
    MissingFact
        If a figure on the way is one that nobody has.
    """
    if amount.dimension is Dimension.MASS:
        return _reckon_mass(amount.amount, Kind(), food, foods)
    if amount.dimension is Dimension.COUNT:
        return _reckon_count(amount.amount, Kind(), food, foods)
    density = _density(food, foods, frozenset())
    mass, working = _weigh(amount.amount, density)
    reckoned = _reckon_mass(mass, Kind(edible=not as_bought), food, foods)
    return Reckoned(reckoned.bought, reckoned.edible_mg, f"{working}; {reckoned.working}")


def _dimension(amount: Amount) -> Dimension:
    return amount.unit.dimension if amount.unit else Dimension.COUNT


def _high(amount: Amount) -> Fraction:
    return amount.high * (amount.unit.in_base if amount.unit else 1)


def _range(low: Fraction, high: Fraction) -> str:
    return "" if low == high else f"high end of {show_number(low)}-{show_number(high)}; "


def _reckon_amount(amount: Amount, line: Line, food: Food, foods: FoodTable) -> Reckoned:
    dimension, number = _dimension(amount), _high(amount)
    if dimension is Dimension.MASS:
        reckoned = _reckon_mass(number, kind_of(line, before_only=True), food, foods)
    elif dimension is Dimension.COUNT:
        reckoned = _reckon_count(number, kind_of(line), food, foods, juice=_is_juice(line))
    else:
        reckoned = _reckon_volume(number, kind_of(line), food, foods)
    return Reckoned(reckoned.bought, reckoned.edible_mg, _range(amount.low, amount.high) + reckoned.working)


def _is_juice(line: Line) -> bool:
    return any(phrase.casefold().startswith(("juice of", "zest of")) for phrase in line.before)


def _reckon_package(line: Line, food: Food, foods: FoodTable) -> Reckoned:
    package = line.package
    assert package is not None
    prefix = _range(package.count.low, package.count.high)
    if package.form in _COUNTED_FORMS and food.measured_in is Measure.PIECES:
        reckoned = _reckon_count(package.count.high, Kind(), food, foods)
    elif package.size is None:
        reckoned = _reckon_count(package.count.high, kind_of(line), food, foods)
    else:
        (content,) = line.in_all
        prefix += f"{show_number(package.count.high)} x net content, as bought; "
        unit = content.unit
        assert unit is not None
        reckoned = reckon_quantity(Quantity.of(content.high, unit), food, foods, as_bought=True)
    return Reckoned(reckoned.bought, reckoned.edible_mg, prefix + reckoned.working)


def _reckon_mass(mass_mg: Fraction, kind: Kind, food: Food, foods: FoodTable) -> Reckoned:
    """Turn a mass into what is bought: edible part or not, and whole pieces for a food in pieces."""
    said = show_mass(mass_mg, exact=True)
    if kind.cooked:
        return _reckon_cooked(mass_mg, kind, food, foods)
    if not kind.edible:
        return _in_its_measure(mass_mg, _edible_of(mass_mg, food, foods), f"{said} as bought", food, foods)
    share = foods.edible_fraction(food.id)
    bought = mass_mg / share.value
    working = f"{said} edible part / edible fraction {show_figure(share)} = {show_mass(bought)} as bought"
    return _in_its_measure(bought, mass_mg, working, food, foods)


def _edible_of(bought_mg: Fraction, food: Food, foods: FoodTable) -> Fraction | None:
    try:
        return bought_mg * foods.edible_fraction(food.id).value
    except MissingFact:
        return None  # the record says that it is unknown


def _in_its_measure(
    bought_mg: Fraction, edible_mg: Fraction | None, working: str, food: Food, foods: FoodTable
) -> Reckoned:
    if food.measured_in is Measure.MASS:
        return Reckoned(bought_mg, edible_mg, working)
    piece = foods.piece_weight(food.id, weight_is=WeightIs.AS_BOUGHT)
    count = bought_mg / (piece.value * 1000)
    return Reckoned(
        count, edible_mg, f"{working}; / {show_figure(piece)} a piece = {show_number(count)} pieces"
    )


def _reckon_cooked(mass_mg: Fraction, kind: Kind, food: Food, foods: FoodTable) -> Reckoned:
    """Go back from a cooked weight to the edible and the bought one, where one cooking yield fits."""
    yields = [row for row in foods.cooking_yields(food.id) if "bone-in" not in f"{row.before} {row.note}"]
    named = [row for row in yields if kind.words - {"cooked"} & set(row.method.replace(",", " ").split())]
    fitting = named or yields
    methods = dict.fromkeys(row.method for row in fitting)
    if len(methods) != 1:
        there = f"there are: {', '.join(methods)}" if methods else "there is none"
        raise MissingFact(f"which yield {food.id!r} has when cooked cannot be told; {there}")
    row = fitting[0]
    share = foods.edible_fraction(food.id)
    raw = mass_mg / (row.yield_pct / 100)
    bought = raw if on_bought(row) else raw / share.value
    working = (
        f"{show_mass(mass_mg, exact=True)} cooked / yield {show_number(row.yield_pct, 'decimal')} % {row.method} "
        f"({row.source}, {row.basis})"
    )
    if bought != raw:
        working += f" / edible fraction {show_figure(share)}"
    working += f" = {show_mass(bought)} as bought"
    return _in_its_measure(bought, bought * share.value, working, food, foods)


def _weigh(volume_ml: Fraction, density: Density) -> tuple[Fraction, str]:
    mass = volume_ml * density.weight.value * 1000
    working = f"{show_volume(volume_ml)} x {show_figure(density.weight)}, {density.form}"
    return mass, f"{working} = {show_mass(mass)}"


def _reckon_volume(volume_ml: Fraction, kind: Kind, food: Food, foods: FoodTable) -> Reckoned:
    density = _density(food, foods, kind.words)
    mass, working = _weigh(volume_ml, density)
    cooked = kind.words if _is_cooked(density) else frozenset[str]()
    reckoned = _reckon_mass(mass, Kind(edible=True, words=cooked), food, foods)
    return Reckoned(reckoned.bought, reckoned.edible_mg, f"{working}; {reckoned.working}")


def _is_cooked(density: Density) -> bool:
    return bool(COOKED_WORDS & set(density.form.replace(",", " ").split()))


def _density(food: Food, foods: FoodTable, words: frozenset[str]) -> Density:
    """Choose the density whose form the words name best; without a word, the usual raw form."""
    densities = foods.densities(food.id)
    if not densities:
        raise MissingFact(f"nobody has the density of {food.id!r}")
    raw = [density for density in densities if not _is_cooked(density)]
    cooked = [density for density in densities if _is_cooked(density)]
    pool = cooked if words & COOKED_WORDS else raw
    likes = words | {like for word in words for like in _LIKE_FORMS.get(word, ())}
    for spoken in (words, likes):
        fitting = [d for d in pool if set(d.form.replace(",", " ").split()) <= spoken]
        if fitting:
            return max(fitting, key=lambda d: len(d.form.split()))
    if not pool:
        forms = ", ".join(density.form for density in densities)
        state = "cooked" if words & COOKED_WORDS else "raw"
        raise MissingFact(f"nobody has the density of {food.id!r} {state}; there are: {forms}")
    return pool[0]


def _reckon_count(
    count: Fraction, kind: Kind, food: Food, foods: FoodTable, *, juice: bool = False
) -> Reckoned:
    """Turn a count of pieces into mg by the piece's weight, or keep it for a food in pieces."""
    said = f"{show_number(count)} {kind.form or 'piece'}{'' if count == 1 else 's'}"
    in_pieces = food.measured_in is Measure.PIECES and kind.form in ("", *_COUNTED_FORMS)
    size = _piece_size(kind, food, foods)
    try:
        edible = count * foods.piece_weight(food.id, size, WeightIs.EDIBLE).value * 1000
    except MissingFact:
        edible = None
    if juice:
        edible = None  # only a part of the piece is used, and how much is not on record for every fruit
    if in_pieces:
        return Reckoned(count, edible, f"{said} as bought")
    piece = foods.piece(food.id, size)
    bought_each = foods.piece_weight(food.id, size, WeightIs.AS_BOUGHT)
    bought = count * bought_each.value * 1000
    working = f"{said} x {show_figure(piece.weight)} {piece.weight_is.value}, {piece.size}"
    if piece.weight_is is WeightIs.EDIBLE and bought_each.value != piece.weight.value:
        working += f"; {show_figure(bought_each)} as bought"
    return _in_its_measure(bought, edible, f"{working} = {show_mass(bought)} as bought", food, foods)


def _piece_size(kind: Kind, food: Food, foods: FoodTable) -> str | None:
    """Choose which piece weight a count speaks of: its form, its size, or the usual whole piece."""
    sizes = foods.piece_sizes(food.id)
    if food.measured_in is Measure.PIECES and kind.form in ("", *_COUNTED_FORMS):
        return kind.size if kind.size in sizes else None
    there = ", ".join(sizes) or "none"
    if kind.form:
        for wanted in (f"{kind.form}, {kind.size}", kind.form, *_SAME_FORMS.get(kind.form, ())):
            if wanted in sizes:
                return wanted
        raise NoPieceWeight(food, kind.form, sizes)
    if kind.size is not None:
        if kind.size not in sizes:
            raise MissingFact(
                f"nobody has the weight of a {kind.size} piece of {food.id!r}; there are: {there}"
            )
        return kind.size
    whole = [size for size in sizes if size in _WHOLE_SIZES]
    if sizes and not whole and kind.called in sizes:
        return kind.called
    if sizes and not whole:
        raise MissingFact(f"nobody has the weight of one whole piece of {food.id!r}; there are: {there}")
    return whole[0] if whole else None
