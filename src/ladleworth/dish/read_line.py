"""Read one ingredient line for sure, or hand it back for review by name; never guess an amount."""

from __future__ import annotations

import html
import re
import unicodedata
from dataclasses import replace
from fractions import Fraction

from ladleworth.dish.line import Line, Package, Review, Unclear
from ladleworth.dish.line_food import Named, read_food, trailing_form
from ladleworth.dish.line_head import Head, read_head
from ladleworth.dish.line_measure import Measure, check_agree
from ladleworth.dish.line_tail import PURPOSE, TAIL, Tail, is_preparation, take_segment
from ladleworth.dish.line_words import HANDWORK, QUALIFIERS, SEASONING, SHOP_FORMS
from ladleworth.errors import BadUnit
from ladleworth.units import Range

_LONGEST = 300
_INVISIBLE = dict.fromkeys(map(ord, "\u00ad\u200b\u200c\u200d\u2060\ufeff\ufe0e\ufe0f"))
_BULLET = re.compile(r"^(?:[-–—•*▢□☐·‣◦∙+] )+")
_LEADING_OPTIONAL = re.compile(r"^(?:\(optional\)|optional):? ", re.IGNORECASE)
_OF = re.compile(
    r"^(?:the )?((?:(?:finely|freshly) )?(?:grated |squeezed )?(?:juice|zest|rind|peel)"
    r"(?: and (?:(?:finely )?grated )?(?:juice|zest|rind))?) (?:of|from) (?=.)",
    re.IGNORECASE,
)
_ENOUGH = re.compile(r"^(?:just )?enough ", re.IGNORECASE)
_BOUND = re.compile(
    r"(?:up to|at (?:least|most)|between|(?:no )?(?:less|more|fewer) than|over|under|max(?:imum)?|min(?:imum)?)(?= \.?[0-9½¼¾⅓⅔])",
    re.IGNORECASE,
)
_BREAK = re.compile(r"[,;] ?| [-–—] ")
_LATE_AMOUNT = re.compile(r"(.+?)(?:,|:| [-–—]|) ((?:about |approx\.? |~)?[0-9½¼¾⅓⅔⅛].*)")
_ONE = Range(Fraction(1), Fraction(1))


def read_line(text: str) -> Line | Review:
    """Read one ingredient line.

    Parameters
    ----------
    text
        The line as a cook writes it: '1 (14.5 oz) can diced tomatoes, undrained', '500 g chopped onions'.

    Returns
    -------
    Line or Review
        The line with every part of it told apart, or, where any of it is not sure, a review that says why
        and what to write instead.
    """
    try:
        return _read(text)
    except Unclear as fault:
        return Review(text, fault.why, fault.remedy)
    except BadUnit as fault:
        why, _, remedy = str(fault).rpartition("; ")
        return Review(text, why or str(fault), remedy or "write the amount in figures, such as 1 1/2")


def _clean(text: str) -> str:
    if len(text) > _LONGEST:
        raise Unclear("the line is too long for one ingredient", "write one ingredient per line")
    if "&" in text and ";" in text:
        text = html.unescape(text)
    text = unicodedata.normalize("NFC", text).translate(_INVISIBLE).strip()
    if re.search(r"[\n\r\v\f\u2028\u2029]", text):
        raise Unclear("the text has more than one line", "write one ingredient per line")
    text = re.sub(r"\s+", " ", text)
    if not text:
        raise Unclear("the line is empty", "write an amount and a food, such as '2 cups rice'")
    if not text.isprintable():
        raise Unclear("the line holds a sign that cannot be printed", "type the line again")
    text = text.replace("[", "(").replace("]", ")")
    if re.match(r"[-−–] ?[0-9½¼¾⅓⅔.]", text) and not _BULLET.match(text):
        raise Unclear("the amount is below zero", "write an amount above 0, without a minus")
    text = _BULLET.sub("", text).rstrip("*†").strip()
    return text[:-1].rstrip() if text.endswith(".") and not text.endswith("..") else text


def _take_brackets(text: str) -> tuple[str, list[str]]:
    """Take bracketed asides out of a text.

    Raises
    ------
    Unclear
        If brackets do not pair up or stand inside each other.
    """
    asides = re.findall(r"\(([^()]*)\)", text)
    bare = re.sub(r" ?\([^()]*\)", "", text)
    if "(" in bare or ")" in bare:
        raise Unclear("the brackets do not pair up", "close each bracket before the next one opens")
    return bare.strip(), asides


def _cut(text: str) -> list[str]:
    """Cut what follows the amount at its commas and where the food's name ends without one.

    Adjectives that a comma parts stay together: 'boneless, skinless chicken breasts'.
    """
    pieces = [piece.strip() for piece in _BREAK.split(text)]
    first = pieces[0]
    while len(pieces) > 1 and first and _adjectives(first) and not is_preparation(pieces[1]):
        first = f"{first} {pieces[1]}"
        pieces = [first, *pieces[2:]]
    later = [part for piece in pieces[1:] for part in _purpose(piece)]
    return [part.strip() for part in (*TAIL.split(pieces[0]), *later)]


def _purpose(piece: str) -> list[str]:
    """Part 'chopped for garnish' in two; 'plus more for greasing' stays whole."""
    found = PURPOSE.search(piece)
    if found is None or not is_preparation(piece[: found.start()]):
        return [piece]
    return [piece[: found.start()], piece[found.end() :]]


def _adjectives(phrase: str) -> bool:
    return all(word.lower() in QUALIFIERS or is_preparation(word) for word in phrase.split(" "))


def _read(text: str) -> Line:
    clean = _clean(text)
    optional = _LEADING_OPTIONAL.match(clean)
    if optional:
        clean = clean[optional.end() :]
    if clean.endswith(":"):
        raise Unclear(
            "the line looks like a heading", "leave headings out, or name the part in its own field"
        )
    of = _OF.match(clean)
    if of:
        clean = clean[of.end() :]
    enough = _ENOUGH.match(clean)
    if enough:
        clean = clean[enough.end() :]
    if bound := _BOUND.match(clean):
        raise Unclear(
            f"{bound[0]!r} gives a bound, not an amount", "write one amount, or a range such as 1-2 cups"
        )
    head = read_head(clean)
    rest = clean[head.end :]
    if not head.given:
        head, rest = _late_amount(clean, head)
    if enough and head.given:
        raise Unclear("'enough' and an amount contradict each other", "keep one of them")
    line = _finish(text, head, rest)
    if of:
        line = replace(line, before=(f"{of[1].lower()} of", *line.before))
    return replace(line, optional=True) if optional else line


def _late_amount(clean: str, head: Head) -> tuple[Head, str]:
    """Read an amount that follows the food: 'Rice, 2 cups', 'plain flour 200 g'."""
    found = _LATE_AMOUNT.fullmatch(clean)
    if found is None or "(" in found[1]:
        return head, clean
    late = read_head(found[2])
    after = found[2][late.end :].strip()
    if not late.given or (after and after[0] not in ",;("):
        return head, clean
    if late.amounts and late.amounts[0].unit is None:
        return head, clean
    if re.search(r"\b(?:about|to|or|into|plus|and|for|in|cut|from)$", found[1].strip(), re.IGNORECASE):
        return head, clean
    if len(_BREAK.split(found[1])) > 1:
        return head, clean
    return replace(late, end=0), f"{found[1].strip()} {after}".replace(" ,", ",").replace(" ;", ";")


def _finish(text: str, head: Head, rest: str) -> Line:
    bare, asides = _take_brackets(rest)
    bare = re.sub(r"^(?:,|-|–|:) ?", "", bare) if head.given else bare
    pieces = _cut(bare)
    other = _own_amount(pieces[0])
    if other is not None:
        pieces[0], alternative = other
    keep = head.package is not None and head.package.form in SHOP_FORMS.values()
    tail = Tail()
    named = read_food(pieces[0], keep_words=keep)
    tail.preparation += named.after
    for piece in pieces[1:]:
        take_segment(piece, tail, food=named.food)
    for aside in asides:
        take_segment(aside, tail, bracket=True, food=named.food)
    line = _build(text, head, named, tail)
    if other is not None:
        instead = read_line(alternative)
        if isinstance(instead, Review):
            raise Unclear(f"after 'or': {instead.why}", instead.remedy)
        line = replace(line, alternatives=(*line.alternatives, instead))
    return line


def _own_amount(phrase: str) -> tuple[str, str] | None:
    """Part '2 onions or 3 shallots' where the second food has an amount of its own."""
    found = re.fullmatch(r"(.+?),? or ((?:about )?[0-9½¼¾⅓⅔⅛].*)", phrase, re.IGNORECASE)
    return (found[1], found[2]) if found else None


def _amounts(head: Head, named: Named, tail: Tail) -> tuple[Head, str]:
    """Settle which of the measures around a food count; give the head and the food's name."""
    food = named.food
    if tail.added:
        if head.package is not None or not head.amounts:
            raise Unclear("an amount is added to none", "write one amount in all")
        if head.amounts[0].unit is None:
            raise Unclear("a measure is added to pieces", "write one line for each")
        head = replace(head, amounts=(*head.amounts, *tail.added))
    one_piece = len(head.amounts) == 1 and head.amounts[0].unit is None
    form = trailing_form(food) if one_piece else None
    if form:
        count = Range(head.amounts[0].low, head.amounts[0].high)
        food = form[0]
        head = replace(head, amounts=(), package=Package(count, None, form[1]))
    if head.package is not None and head.package.form == "rib" and "celery" in food.lower():
        head = replace(head, package=replace(head.package, form="stalk"))
    for measure, written in tail.measures:
        head = _place_measure(head, measure, written, tail)
    return head, food


def _place_measure(head: Head, measure: Measure, written: str, tail: Tail) -> Head:
    """Say what a measure after the amount means: the same again, the size of each, or only a note."""
    note = written if measure.about or measure.each or measure.total else ""
    if not head.given:
        raise Unclear(f"{written!r} stands where no amount does", "write the amount before the food")
    if head.amounts and head.amounts[0].unit is not None:
        if measure.each:
            raise Unclear(f"{written!r} says 'each' of something measured, not counted", "write one amount")
        check_agree(head.amounts, measure.amounts)
        tail.notes += [note] if note else []
        return replace(head, also=(*head.also, *measure.amounts))
    count = head.package.count if head.package else Range(head.amounts[0].low, head.amounts[0].high)
    if head.package is not None and head.package.size is not None:
        check_agree((head.package.size,) if measure.each or count == _ONE else (), measure.amounts)
        tail.notes.append(written)
        return head
    shop = head.package is not None and head.package.form in SHOP_FORMS.values()
    if measure.total or (count == _ONE and head.package is None):
        tail.notes += [note] if note else []
        return replace(head, also=(*head.also, *measure.amounts))
    if measure.each or count == _ONE:
        form = head.package.form if head.package else "piece"
        tail.notes += ["about"] if measure.about else []
        return replace(head, amounts=(), package=Package(count, measure.one(), form))
    if shop:
        raise Unclear(f"{written!r} may be the size of each or of all", "write 'each' or 'total' after it")
    tail.notes.append(written)
    return head


def _build(text: str, head: Head, named: Named, tail: Tail) -> Line:
    head, food = _amounts(head, named, tail)
    seasoning = SEASONING.fullmatch(" ".join([*named.before, food])) is not None
    if head.given and seasoning and re.search(r" (?:and|&) ", food):
        raise Unclear(f"{food!r} names two foods under one amount", "write one line per food")
    if not head.given and not tail.unmeasured and not seasoning:
        raise Unclear("no amount is given", "write how much, or 'to taste', 'to serve', 'for frying'")
    if food.lower() == "cloves" and any(
        word in HANDWORK for said in tail.preparation for word in said.split(" ")
    ):
        raise Unclear(
            "cloves that are cut may be garlic or the spice", "write 'cloves garlic' or 'whole cloves'"
        )
    sizes = [head.size] if head.size else []
    line = Line(
        text=text,
        food_text=food,
        amounts=head.amounts,
        also=head.also,
        size=", ".join([*sizes, *tail.sizes]) or None,
        package=head.package,
        before=named.before,
        preparation=tuple(tail.preparation),
        divided=tail.divided,
        optional=tail.optional,
        to_taste=tail.to_taste,
        unmeasured=not head.given,
        note="; ".join([*head.notes, *tail.notes]),
    )
    return replace(line, alternatives=_alternatives(line, named, tail))


def _alternatives(line: Line, named: Named, tail: Tail) -> tuple[Line, ...]:
    found: list[Line] = []
    for name in (*named.instead, *tail.instead):
        if re.match(r"[0-9½¼¾⅓⅔⅛]", name):
            own = read_line(name)
            if isinstance(own, Review):
                raise Unclear(f"after 'or': {own.why}", own.remedy)
            found.append(own)
            continue
        other = read_food(name)
        if other.instead:
            raise Unclear("more than two foods stand for each other", "write one of them")
        if all(word.lower() in QUALIFIERS for word in other.food.split(" ")):
            raise Unclear(f"after 'or', {name!r} names no food", "write the second food's name in full")
        found.append(replace(line, food_text=other.food, also=(), alternatives=()))
    return tuple(found)
