"""The head of an ingredient line: amounts, packages and sizes before the food's name."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from ladleworth.dish.line import Amount, Package, Unclear
from ladleworth.dish.line_count import scan_count, scan_unit
from ladleworth.dish.line_measure import (
    ABOUT,
    Measure,
    amount_of,
    measured,
    read_amounts,
    read_measure,
    skip_spaces,
)
from ladleworth.dish.line_words import (
    FOODS_LIKE_FORMS,
    FORMS,
    LOOSE_SINGULARS,
    MEDIUM_THINGS,
    NAMES_WITH_UNITS,
    NOT_VAGUE_AFTER,
    SIZED_FORMS,
    SIZES,
    THICKNESSES,
    TIME_WORDS,
    VAGUE,
)
from ladleworth.units import Dimension, Range, Unit

_ONE = Range(Fraction(1), Fraction(1))
_TIMES = re.compile(r" ?[x×] ?(?=[0-9½¼¾⅓⅔])", re.IGNORECASE)
_LENGTH = re.compile(
    r"(?:[0-9]*[½¼¾⅓⅔]|[0-9]+(?:[.,/][0-9]+)?)(?:(?:-? to |-to-|[-–])[0-9]+)? ?-?(?:inch(?:es)?|in\.|\"|″|cm|mm)"
    r"(?![a-z0-9²³])(?: ?[x×] ?[0-9]+ ?-?(?:inch|cm|mm)(?![a-z]))?",
    re.IGNORECASE,
)
_EACH_ONE = re.compile(r"(?:each|ea\.?) ", re.IGNORECASE)
_OF_THEM = re.compile(r" [x×] (?=[A-Za-z(])")
_WORD = re.compile(r"[^\W\d_][\w’'-]*\.?")
_TWO_READINGS = re.compile(r"[0-9]+ +(?:[0-9]+ ?[/⁄∕] ?[0-9]+|[¼½¾⅓⅔⅛⅜⅝⅞])")
_SMALL_MEASURES = ("pinch", "dash", "smidgen")


@dataclass(frozen=True, slots=True)
class Form:
    """A package's form in a line: its name, whether it was written as a plural, and where it ends."""

    name: str
    plural: bool
    end: int


@dataclass(frozen=True, slots=True)
class Head:
    """What stands before the food's name, and where the name begins."""

    amounts: tuple[Amount, ...] = ()
    also: tuple[Amount, ...] = ()
    package: Package | None = None
    size: str | None = None
    notes: tuple[str, ...] = ()
    end: int = 0

    @property
    def given(self) -> bool:
        """Whether there is any amount."""
        return bool(self.amounts) or self.package is not None


def scan_form(text: str, at: int, count: Range | None = None, *, bare_size: bool = False) -> Form | None:
    """Read a package's form at a place, unless the word is in truth the food's own.

    Parameters
    ----------
    text, at
        The line and the 0-based place.
    count
        How many are counted, where that is known: '2 strip steaks' are steaks, '2 strips bacon' strips.
    bare_size
        True after a bare weight: '125 g ball mozzarella' is a ball, '2 lb ribs' are ribs.

    Returns
    -------
    Form or None
        The form; None if no form stands there.
    """
    word = _WORD.match(text, at)
    if word is None or text[word.end() : word.end() + 1] in ("/", "&"):
        return None
    spelling = word[0].lower().rstrip(".")
    known = FORMS.get(spelling)
    after = _WORD.match(text, skip_spaces(text, word.end()))
    if known is None or (after and (spelling, after[0].lower().rstrip(".,")) in FOODS_LIKE_FORMS):
        return None
    name, plural = known
    if count is not None and count.high > 1 and not plural and spelling not in LOOSE_SINGULARS:
        return None
    if bare_size and not {spelling, name} & SIZED_FORMS and not (after and after[0].lower() == "butter"):
        return None
    return Form(name, plural, word.end())


def scan_size(text: str, at: int) -> tuple[str, int] | None:
    """Read a size before a form or a food: 'large', 'medium-sized', 'small to medium', '1-inch'."""
    if length := _LENGTH.match(text, at):
        end = length.end() + (text[length.end() : length.end() + 1] == "-")
        return length[0], skip_spaces(text, end)
    words: list[str] = []
    end = at
    while word := _WORD.match(text, skip_spaces(text, end)):
        plain = word[0].lower().rstrip(".")
        joining = plain in ("to", "or", "extra", "very") and _size_follows(text, word.end())
        if not (plain in SIZES or plain in THICKNESSES or joining):
            break
        words.append(plain)
        end = word.end()
        if text[end : end + 1] == ",":
            end += 1
            break
    place = skip_spaces(text, end)
    if not words or text[place : place + 4].lower() == "curd":
        return None
    if words[-1] in THICKNESSES and scan_form(text, place) is None:
        return None
    return " ".join(words), place


def _size_follows(text: str, at: int) -> bool:
    word = _WORD.match(text, skip_spaces(text, at))
    return word is not None and word[0].lower() in SIZES


def read_head(text: str, at: int = 0) -> Head:
    """Read the amounts, package and size that a line begins with.

    Parameters
    ----------
    text, at
        The line, cleaned, and the place to begin.

    Returns
    -------
    Head
        What was read and where the food's name begins; nothing given if no number stands there.

    Raises
    ------
    BadUnit, Unclear
        If a number makes no sense or the amount may be read in more than one way.
    """
    about = ABOUT.match(text, at)
    if about is None:
        return _read_head(text, at)
    head = _read_head(text, skip_spaces(text, about.end()))
    return replace(head, notes=("about", *head.notes))


def _read_head(text: str, at: int) -> Head:
    if _LENGTH.match(text, at):
        return _lone_length(text, at)
    counted = scan_count(text, at)
    if counted is None:
        return _uncounted(text, at)
    count, end = counted
    if count.low == 0:
        raise Unclear("the amount is 0", "write an amount above 0, or leave the line out")
    if text[end : end + 1] == "%":
        raise Unclear("the number is a percentage, not an amount", "write how much before it")
    if _TWO_READINGS.fullmatch(text, at, end) and re.match(r"-[a-z\"]", text[end:], re.IGNORECASE):
        raise Unclear(
            f"{text[at:end]!r} before a hyphen may be one number or a count and a size",
            "write '2 x 1/2 pound' for two of them, or '2 1/2 pounds' without the hyphen",
        )
    return _after_count(text, end, count)


def _lone_length(text: str, at: int) -> Head:
    """Read '1-inch piece of ginger': one piece, whose length is its size."""
    sized = scan_size(text, at)
    form = scan_form(text, sized[1]) if sized else None
    if sized is None or form is None or form.plural:
        raise Unclear(
            "a length is given but not how many", "write the number first, such as '2 (1-inch) pieces'"
        )
    return Head(package=Package(_ONE, None, form.name), size=sized[0], end=form.end)


def _refuse_vague(text: str, at: int) -> None:
    word = _WORD.match(text, at)
    if word is None or word[0].lower().rstrip(".") not in VAGUE:
        return
    after = _WORD.match(text, skip_spaces(text, word.end()))
    if after is None or (word[0].lower(), after[0].lower()) not in NOT_VAGUE_AFTER:
        raise Unclear(
            f"{word[0]!r} does not say how much", "write an amount, such as '1 tbsp', or 'to taste'"
        )


def _uncounted(text: str, at: int) -> Head:
    """Read 'pinch of salt' as one pinch; any other unit needs its number."""
    _refuse_vague(text, at)
    unit = scan_unit(text, at)
    if unit and unit[0].name in _SMALL_MEASURES and text[at : unit[1]].lower() == unit[0].name:
        return _unit_head(text, unit[1], _ONE, unit[0])
    return Head(end=at)


def _after_count(text: str, end: int, count: Range) -> Head:
    if times := _TIMES.match(text, end):
        sized = measured(text, times.end())
        if sized is None:
            raise Unclear("no size follows the 'x'", "write it like '2 x 400 g cans'")
        measure, at = read_amounts(text, sized[2], sized[0], sized[1])
        return _sized_package(text, _past_hyphen(text, at), count, measure.one(), None)
    if of_them := _OF_THEM.match(text, end):
        return _pieces(text, of_them.end(), count)
    at = _past_hyphen(text, end)
    unit = scan_unit(text, at)
    if unit is not None and not text[at:].lower().startswith(NAMES_WITH_UNITS):
        return _unit_head(text, unit[1], count, unit[0])
    if text[skip_spaces(text, end) : at].strip():
        raise Unclear(
            "a hyphen follows the number but no unit", "write the amount and its unit, then the food"
        )
    return _pieces(text, at, count)


def _past_hyphen(text: str, at: int) -> int:
    at = skip_spaces(text, at)
    return skip_spaces(text, at + 1) if text[at : at + 1] in ("-", "‐", "‑") else at


def _unit_head(text: str, at: int, count: Range, unit: Unit) -> Head:
    """Read on after a number and its unit: more amounts, then a form ('14 oz can') or the food."""
    measure, end = read_amounts(text, at, count, unit)
    after = _past_hyphen(text, end)
    named = scan_size(text, after)
    form = scan_form(text, named[1] if named else after, bare_size=unit.dimension is not Dimension.COUNT)
    if form is not None and unit.dimension is Dimension.COUNT:
        total = Range(count.low * unit.in_base, count.high * unit.in_base)
        return Head(package=Package(total, None, form.name), size=named[0] if named else None, end=form.end)
    if form is not None:
        if not count.plain:
            raise Unclear(
                f"{text[: form.end]!r} may be a range of sizes or a count and a size",
                f"write it like '2 (14 oz) {text[named[1] if named else after : form.end]}'",
            )
        if form.plural:
            raise Unclear(
                f"a size is given but not how many: {text[: form.end]!r}",
                f"write the number first, such as '2 (14 oz) {text[named[1] if named else after : form.end]}'",
            )
        return Head(
            package=Package(_ONE, measure.one(), form.name), size=named[0] if named else None, end=form.end
        )
    if re.match(r"cakes?\b", text[after:], re.IGNORECASE) and unit.name in ("lb", "cup"):
        raise Unclear(
            "'pound cake' and 'cup cake' are foods as well as amounts", "write it like '1 whole poundcake'"
        )
    cut = scan_form(text, after)
    if cut and cut.plural and re.match(r" (?!of\b|[-–—(])\w", text[cut.end :]):
        raise Unclear(
            f"a size is given but not how many: {text[: cut.end]!r}",
            f"write the number first, such as '2 (6 oz) {text[after : cut.end]}', or 'of' after it",
        )
    head = Head(amounts=measure.amounts, also=measure.also, end=end)
    if named is None or (named[0] == "medium" and not _medium_thing(text, named[1])):
        return head
    return replace(head, size=named[0], end=named[1])


def _medium_thing(text: str, at: int) -> bool:
    return any(word in MEDIUM_THINGS for word in re.split(r"\W+", text[at:].lower())[:3])


def _sized_package(text: str, at: int, count: Range, size: Amount, label: str | None) -> Head:
    """Finish a package whose size of one has been read: its form may follow, else it is a piece."""
    if label is None and (named := scan_size(text, at)):
        label, at = named
    form = scan_form(text, at, count)
    if form is not None:
        return Head(package=Package(count, size, form.name), size=label, end=form.end)
    if re.match(r"(?:or|and|plus)\b", text[at:], re.IGNORECASE):
        raise Unclear("one amount follows another before any food is named", "write one amount and one food")
    return Head(package=Package(count, size, "piece"), size=label, end=at)


def _pieces(text: str, at: int, count: Range) -> Head:
    """Read on after a count that no unit follows: a size, a form, or the food itself."""
    label: str | None = None
    if named := scan_size(text, at):
        label, at = named
    close = text.find(")", at)
    if text[at : at + 1] == "(" and close > 0:
        inner, after = text[at + 1 : close].strip(), skip_spaces(text, close + 1)
        if _LENGTH.fullmatch(inner):
            label, at = inner, after
        elif measure := read_measure(inner):
            return _bracketed(text, at, after, count, label, measure)
    elif sized := measured(text, at):
        measure, end = read_amounts(text, sized[2], sized[0], sized[1])
        place = _past_hyphen(text, end)
        joined = place > skip_spaces(text, end) or "-" in text[at:end]
        if sized[1].dimension is not Dimension.MASS and not joined and scan_form(text, place) is None:
            raise Unclear(
                "two numbers stand side by side", "write the count, then the size of one with its package"
            )
        return _sized_package(text, place, count, measure.one(), label)
    if each := _EACH_ONE.match(text, at):
        if re.search(r"\b(?:and|of)\b|[,&]", text[each.end() :]):
            raise Unclear("'each' shares one amount between foods", "write one line per food")
        at = each.end()
    _refuse_vague(text, at)
    form = scan_form(text, at, count)
    if form is not None and not _is_the_food(text, at, form.end):
        return Head(package=Package(count, None, form.name), size=label, end=form.end)
    first = _WORD.match(text, at)
    written = first[0] if first else ""
    word = written.lower().rstrip(".")
    if word in TIME_WORDS:
        raise Unclear("the amount is a length of time", "write it as a step, not as an ingredient")
    if (
        re.fullmatch(r"(?:[A-Z]{2}|[bcdfghjklmnpqrstvwxz]{2,4}\.?)", first[0] if first else "")
        and " " in text[at:]
    ):
        raise Unclear(
            f"{written!r} is no measure that is known",
            "write the measure in full, such as 'carton' or 'tbsp'",
        )
    if word in ("inch", "inches", "cm", "mm"):
        raise Unclear("the number may be a count or a length", "write it like '1 (1/2-inch) piece'")
    return Head(amounts=(amount_of(count, None),), size=label, end=at)


def _bracketed(text: str, at: int, after: int, count: Range, label: str | None, measure: Measure) -> Head:
    """Read '(14.5 oz)' between a count and what is counted: the size of each, unless it says 'total'."""
    if measure.total:
        return Head(amounts=(amount_of(count, None),), size=label, end=at)
    if label is not None and count != _ONE and not measure.each and scan_form(text, after) is None:
        raise Unclear(
            "the size in brackets may be of each or of all", "write 'each' or 'total' in the brackets"
        )
    head = _sized_package(text, after, count, measure.one(), label)
    return replace(head, notes=("about",)) if measure.about else head


def _is_the_food(text: str, at: int, end: int) -> bool:
    """Say whether a form's word is in truth the food: '4 cloves' alone, the spice."""
    rest = re.split(r"[,;(]", text[end:])[0].strip()
    return text[at:end].lower() == "cloves" and not rest
