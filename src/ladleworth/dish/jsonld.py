"""Reading recipes from schema.org JSON-LD: a JSON text, or an HTML page that carries it.

Nothing is guessed: what cannot be read for certain is handed back by name, and stays absent in the dish.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from html import unescape
from html.parser import HTMLParser

from ladleworth.dish.unread import Unread, check_written, read_portions
from ladleworth.dish.written import WrittenDish, WrittenPart, WrittenStep
from ladleworth.errors import BadUnit
from ladleworth.units import read_minutes

_MOST_DEPTH = 60
_TAG = re.compile(r"<[^<>]{1,200}>")
_BREAK = re.compile(r"<\s*(?:br|/p|/li|/div|/h[1-6])\b[^<>]{0,100}>", re.IGNORECASE)
_USED = {
    "name", "recipeIngredient", "ingredients", "recipeInstructions", "recipeYield", "yield", "prepTime",
    "cookTime", "totalTime",
}  # fmt: skip
_TIMES = {"prepTime": "prep_min", "cookTime": "cook_min", "totalTime": "total_min"}


@dataclass(frozen=True, slots=True)
class Imported:
    """A dish that was read from elsewhere, and all that could not be.

    Parameters
    ----------
    dish
        The dish as written; what could not be read is left out of it. None without a name or ingredients.
    prep_min, cook_min, total_min
        Times that the recipe states; how much of them is hands-on it does not say.
    unread
        What could not be read, by name.
    not_kept
        Names of what the recipe states and this project keeps no place for.
    """

    dish: WrittenDish | None
    prep_min: int | None = None
    cook_min: int | None = None
    total_min: int | None = None
    unread: tuple[Unread, ...] = ()
    not_kept: tuple[str, ...] = ()


def read_jsonld(text: str) -> tuple[tuple[Imported, ...], tuple[Unread, ...]]:
    """Read every schema.org Recipe in a text.

    Parameters
    ----------
    text
        JSON, or HTML with <script type="application/ld+json"> elements.

    Returns
    -------
    tuple of Imported, and of Unread
        The recipes in the order found; and what is wrong with the text as a whole (a script that is no
        JSON, or no recipe in it).
    """
    unread: list[Unread] = []
    recipes: list[Mapping[str, object]] = []
    try:
        blocks = _blocks(text)
    except AssertionError as fault:  # the parser's way to refuse a broken declaration
        return (), (Unread("the text", text.strip(), f"it is no HTML that can be read ({fault})"),)
    for at, block in enumerate(blocks):
        name = "the text" if len(blocks) == 1 else f"script {at + 1}"
        try:
            tree = json.loads(block)
        except (ValueError, RecursionError) as fault:
            unread.append(
                Unread(name, block.strip(), f"it is no JSON ({fault}); take it from the page again")
            )
            continue
        recipes += list(_recipes(tree))
    if not recipes and not unread:
        unread.append(
            Unread("the text", text.strip(), "it holds no schema.org Recipe; write the dish as plain text")
        )
    return tuple(_Reader(recipe).read() for recipe in recipes), tuple(unread)


class _Scripts(HTMLParser):
    """Collects the contents of the JSON-LD scripts of a page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.found: list[str] = []
        self._inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        kind = (dict(attrs).get("type") or "").split(";")[0].strip().casefold()
        if tag == "script" and kind == "application/ld+json":
            self.found.append("")
            self._inside = True

    def handle_endtag(self, tag: str) -> None:
        if tag == "script":
            self._inside = False

    def handle_data(self, data: str) -> None:
        if self._inside:
            self.found[-1] += data


def _blocks(text: str) -> list[str]:
    if text.lstrip("\ufeff \t\r\n")[:1] in ("{", "["):
        return [text.lstrip("\ufeff")]
    page = _Scripts()
    page.feed(text)
    page.close()
    return page.found


def _recipes(tree: object) -> Iterator[Mapping[str, object]]:
    """Walk a JSON tree, outer before inner, and give every object whose type is Recipe."""
    stack: list[tuple[object, int]] = [(tree, 0)]
    while stack:
        node, depth = stack.pop()
        if depth > _MOST_DEPTH:
            continue
        if isinstance(node, list):
            stack += [(inner, depth + 1) for inner in reversed(node)]
        elif isinstance(node, dict):
            if "Recipe" in _types(node):
                yield node
            else:
                stack += [(inner, depth + 1) for inner in reversed(list(node.values()))]


def _types(node: Mapping[str, object]) -> list[str]:
    """Give an object's types without the vocabulary's prefix."""
    given = node.get("@type")
    named = given if isinstance(given, list) else [given]
    return [re.split(r"[/:#]", name)[-1] for name in named if isinstance(name, str)]


def _lines(text: str) -> list[str]:
    """Part a text at its line ends, tags and entities resolved, empty lines left out."""
    plain = _TAG.sub("", _BREAK.sub("\n", text))
    parted = (" ".join(unescape(line).split()) for line in plain.splitlines())
    return [line for line in parted if line]


def _text(value: object) -> str:
    """Give a text value, '' where there is none; a list counts if it holds a single one."""
    if isinstance(value, list) and len(value) == 1:
        return _text(value[0])
    if isinstance(value, Mapping):
        return _text(value.get("@value"))
    return " ".join(_lines(value)) if isinstance(value, str) else ""


@dataclass(slots=True)
class _Reader:
    recipe: Mapping[str, object]
    unread: list[Unread] = field(default_factory=list)

    def read(self) -> Imported:
        times = {ours: self._minutes(theirs) for theirs, ours in _TIMES.items()}
        dish = WrittenDish(
            name=_text(self.recipe.get("name")),
            portions=self._portions(),
            parts=(WrittenPart(lines=self._ingredients()),),
            steps=self._steps(),
        )
        if times["prep_min"]:
            self._note(
                "hands_on",
                self.recipe.get("prepTime"),
                "prepTime does not say how much of it is hands-on; write hands_on",
            )
        prep, cook, total = (times[ours] for ours in _TIMES.values())
        if prep is not None and cook is not None and total is not None and prep + cook > total:
            self._note(
                "totalTime", f"{total} min", f"it is less than prepTime and cookTime, {prep + cook} min"
            )
        checked = check_written(dish, self.unread)
        not_kept = (key for key in self.recipe if not key.startswith("@") and key not in _USED)
        return Imported(checked, **times, unread=tuple(self.unread), not_kept=tuple(not_kept))

    def _note(self, name: str, value: object, why: str) -> None:
        text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
        self.unread.append(Unread(name, text, why))

    def _minutes(self, key: str) -> int | None:
        value = self.recipe.get(key)
        if value is None:
            return None
        text = _text(value)
        try:
            return read_minutes(text)
        except BadUnit as fault:
            self._note(key, value, str(fault))
            return None

    def _portions(self) -> int | None:
        value = self.recipe.get("recipeYield", self.recipe.get("yield"))
        if value is None:
            self._note(
                "recipeYield", "", "the recipe does not say how many portions it makes; write portions"
            )
            return None
        readings = [read_portions(one) for one in self._yields(value)]
        known = {reading for reading in readings if reading is not None}
        if len(known) == 1:
            return known.pop()
        why = "it names several numbers of portions" if known else "it does not say how many portions"
        self._note("recipeYield", value, f"{why}; write portions as one whole number")
        return None

    def _yields(self, value: object) -> list[str]:
        if isinstance(value, list):
            return [one for inner in value for one in self._yields(inner)]
        if isinstance(value, bool):
            return []
        if isinstance(value, int | float):
            return [str(value).removesuffix(".0")]
        if isinstance(value, Mapping) and "value" in value:
            number = self._yields(value["value"])
            unit = _text(value.get("unitText"))
            return [f"{one} {unit}".strip() for one in number]
        return [_text(value)]

    def _ingredients(self) -> tuple[str, ...]:
        name = "recipeIngredient" if "recipeIngredient" in self.recipe else "ingredients"
        value = self.recipe.get(name)
        if isinstance(value, str):
            return tuple(_lines(value))
        lines = []
        for at, entry in enumerate(value if isinstance(value, list) else [] if value is None else [value]):
            text = _text(entry)
            if text:
                lines.append(text)
            else:
                self._note(f"{name}[{at + 1}]", entry, "it is no ingredient line; write it as a text")
        return tuple(lines)

    def _steps(self) -> tuple[WrittenStep, ...]:
        value = self.recipe.get("recipeInstructions")
        return tuple(WrittenStep(text) for text in self._step_texts(value, "recipeInstructions", 0))

    def _step_texts(self, value: object, name: str, depth: int) -> list[str]:
        if value is None:
            return []
        if isinstance(value, str):
            return _lines(value)
        if isinstance(value, list):
            return [
                text
                for at, inner in enumerate(value)
                for text in self._step_texts(inner, f"{name}[{at + 1}]", depth + 1)
            ]
        if not isinstance(value, Mapping) or depth > _MOST_DEPTH:
            self._note(name, value, "it is no step; write it as a text")
            return []
        kinds = _types(value)
        if "HowToTip" in kinds:
            self._note(name, value, "a tip is no step; write it into the step it belongs to")
            return []
        inner = self._step_texts(value.get("itemListElement"), f"{name}.itemListElement", depth + 1)
        if inner and "HowToStep" in kinds:
            return [" ".join(inner)]
        if inner:
            heading = _text(value.get("name")).rstrip(":")
            return [f"{heading}: {inner[0]}", *inner[1:]] if heading else inner
        text = _text(value.get("text")) or _text(value.get("description")) or _text(value.get("name"))
        if not text:
            self._note(name, value, "the step has no text")
            return []
        return [text]
