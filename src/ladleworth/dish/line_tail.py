"""What follows the food in an ingredient line: preparation, 'divided', 'to taste', notes, further amounts."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from ladleworth.dish.line import Amount, Unclear
from ladleworth.dish.line_measure import Measure, read_measure
from ladleworth.dish.line_words import LEFT_ON, SEGMENT_WORDS, SIGNALS, SIZES

_OPTIONAL = re.compile(
    r"(?:but |- ?)?optional|if (?:desired|liked|wanted|using|preferred|you (?:like|wish|want)|available)",
    re.IGNORECASE,
)
_TASTE = re.compile(
    r"(?:(?:or|plus|and) )?(?:(?:a little |some )?(?:more|extra|less)(?: or less)?,? )?(?:adjust(?:ed)? |season(?:ed)? |according )?"
    r"(?:or )?to (?:your )?taste|(?:as|or) to taste|to season",
    re.IGNORECASE,
)
_PLUS_MORE = re.compile(
    r"(?:and|plus|with|\+) (?:(?:a (?:little|bit|few) |some )?(?:more|extra|additional)|some)\b.*|extra (?:for|to) .+|more (?:for|to|as) .+",
    re.IGNORECASE,
)
_PLUS = re.compile(r"(?:plus|\+) (.+)", re.IGNORECASE)
_NOTE = re.compile(
    r"(?:for|to (?:serve|garnish|cover|finish|decorate|dust|grease|coat|drizzle|top|fry|sprinkle|thin|thicken|deglaze|"
    r"brush|fill|loosen|bind)|as (?:needed|required|desired|necessary|wanted|garnish)|if (?:needed|necessary|required)|such as|"
    r"preferably|ideally|like|e\.g\.|i\.e\.|about|approximately|approx\.?|roughly|around|at least|up to|or about|or as (?:needed|much)|"
    r"or so|or (?:more|less)|or any|or other|or another|or similar|or your|your|of your choice|of choice|any (?:kind|type|colou?r)|from|see|"
    r"depending|when|enough|that|which|including|leave|save|keep|works|it|this|these|about)\b.*",
    re.IGNORECASE,
)
_UNMEASURING = re.compile(
    r"(?:plus (?:more|extra) )?(?:for|to (?:serve|garnish|cover|finish|decorate|dust|grease|coat|drizzle|top|fry|sprinkle|"
    r"season|brush|fill)|as (?:needed|required|desired|necessary))\b.*",
    re.IGNORECASE,
)
TAIL = re.compile(
    r"(?<! and)(?<! then) (?=(?:for|to (?:taste|serve|garnish|cover|finish|decorate|dust|grease|coat|drizzle|top|fry|sprinkle|season|brush|fill)|"
    r"or (?:more |less )?to taste|or (?:more|less|so)$|or (?:more|less) (?:as|if|to)|or as needed|as (?:needed|required|desired|necessary)|"
    r"such as|preferably|of your choice|of choice|plus|and (?:more|extra) (?:for|to)|if (?:desired|liked|needed|necessary|using|required)|"
    r"at room temperature|(?:[a-z]+ed (?:and|then) )?cut in(?:to)?|from|divided|about [0-9]|sliced in|(?:sliced|torn|chopped|halved|quartered|broken) into|"
    r"(?:with|without) (?:skin|skins|bones?|rind|peel|stems?|tops)|\+)(?:\b| ))",
    re.IGNORECASE,
)
"""Where a food's name ends though no comma stands there."""
PURPOSE = re.compile(
    r" (?=(?:for (?:serving|garnish|garnishing|frying|greasing|dusting|drizzling|the|topping)|to (?:taste|serve|garnish)|"
    r"plus|if (?:desired|liked|needed|necessary|using)|or to taste|or as needed)\b)",
    re.IGNORECASE,
)
"""Where a preparing phrase ends and a purpose begins."""
_ZEST = re.compile(
    r"(?:(?:finely |freshly )?grated )?(?:juice|zest|rind)(?:(?: and|,) (?:juice|zest|rind))?(?: only| of)?",
    re.IGNORECASE,
)
_NUMBER = re.compile(
    r"^[0-9]+(?:[./][0-9]+)?(?:[-–][0-9]+)?(?:-?(?:inch|cm|mm)(?:es)?)?$|^[½¼¾⅓⅔⅛](?:-?(?:inch|cm))?$|^[0-9]+[½¼¾](?:-?inch)?$"
)
_UNKNOWN = "write one food per line, and anything else in brackets"


@dataclass(slots=True)
class Tail:
    """What the tail has said so far; filled while reading, then frozen into the `Line`."""

    preparation: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    added: list[Amount] = field(default_factory=list)
    measures: list[tuple[Measure, str]] = field(default_factory=list)
    instead: list[str] = field(default_factory=list)
    sizes: list[str] = field(default_factory=list)
    divided: bool = False
    optional: bool = False
    to_taste: bool = False
    unmeasured: bool = False


def is_preparation(segment: str) -> bool:
    """Say whether every word of a phrase is one of preparing, and one at least says what is done.

    Parameters
    ----------
    segment
        What stands between two commas or in brackets.
    """
    words = [
        word.strip(".,:").lower() for word in segment.replace("/", " or ").replace("&", "and").split(" ")
    ]
    words = [
        part for word in words for part in ([word] if word in SEGMENT_WORDS else word.split("-")) if part
    ]
    if not words or _NUMBER.match(words[0]):
        return False
    known = all(word in SEGMENT_WORDS or _NUMBER.match(word) for word in words)
    return known and any(word in SIGNALS or word.startswith("crosswise") for word in words)


def _take_added(rest: str, tail: Tail, food: str) -> None:
    """Read 'plus 1 tbsp for frying' after the food: added if it names no other food."""
    head, _, purpose = rest.partition(" for ")
    words = re.split(r" (?=of\b)", head)
    measure = read_measure(head) or read_measure(words[0])
    named = re.sub(r"^of ", "", words[1]).lower() if len(words) > 1 else ""
    if measure is None and food and head.lower().endswith(" " + food.lower()):
        measure = read_measure(head[: -len(food)])
    if measure is None or (named and named != food.lower()):
        raise Unclear(f"'plus {rest}' names a second food or no measure", "write one line per food")
    tail.added += measure.amounts
    if purpose:
        tail.notes.append(f"plus {rest}")


def take_segment(segment: str, tail: Tail, *, bracket: bool = False, food: str = "") -> None:
    """Sort one phrase after the food into what it says.

    Parameters
    ----------
    segment
        What stands between two commas, or in brackets.
    tail
        What has been read so far; added to.
    bracket
        True in brackets, where what is not understood becomes a note.
    food
        The food's name, to know it again in 'plus 1 tbsp butter'.

    Raises
    ------
    BadUnit, Unclear
        If a number makes no sense or, outside brackets, the phrase may be a second food.
    """
    segment = segment.strip(" .*-–—:")
    lower = segment.lower()
    if not segment:
        return
    if _OPTIONAL.fullmatch(segment):
        tail.optional = True
    elif _TASTE.fullmatch(segment):
        tail.to_taste = tail.unmeasured = True
    elif _PLUS_MORE.fullmatch(segment):
        tail.notes.append(segment)
        tail.to_taste = tail.to_taste or lower.endswith("to taste")
    elif plus := _PLUS.fullmatch(segment):
        _take_added(plus[1], tail, food)
    elif measure := _measure(segment, bracket=bracket):
        tail.measures.append((measure, segment))
    elif _NOTE.fullmatch(segment) or lower in ("homemade", "store-bought"):
        tail.notes.append(segment)
        tail.unmeasured = tail.unmeasured or bool(_UNMEASURING.fullmatch(segment))
    elif lower.startswith("or "):
        if bracket and re.search(r"[0-9]", segment):
            tail.notes.append(segment)
        else:
            tail.instead.append(segment[3:])
    else:
        _take_words(segment, tail, bracket=bracket)


def _measure(segment: str, *, bracket: bool) -> Measure | None:
    try:
        return read_measure(segment)
    except Unclear:
        if bracket and not re.search(r"[0-9]", segment):
            return None
        raise


def _take_words(segment: str, tail: Tail, *, bracket: bool) -> None:
    lower = segment.lower()
    if re.search(r"\bdivided\b(?! into| in | among| between)", lower):
        tail.divided = True
        segment = re.sub(
            r",? ?(?:and )?\bdivided\b(?: use)?(?: and )?", "", segment, flags=re.IGNORECASE
        ).strip()
        if not segment:
            return
        lower = segment.lower()
    words = lower.split(" ")
    if words[-1] in SIZES and all(word in SIZES or word in ("to", "or", "extra") for word in words):
        tail.sizes.append(segment)
    elif is_preparation(segment) or _ZEST.fullmatch(segment) or LEFT_ON.fullmatch(segment):
        tail.preparation.append(segment)
    elif bracket:
        tail.notes.append(segment)
    elif re.match(r"[0-9½¼¾⅓⅔]", segment):
        raise Unclear(f"{segment!r} is a second amount or a second food", _UNKNOWN)
    else:
        raise Unclear(f"it is not sure whether {segment!r} is preparation or a second food", _UNKNOWN)
