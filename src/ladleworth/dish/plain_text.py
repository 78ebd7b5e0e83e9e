"""Reading a recipe from plain text in a small grammar of our own (docs/dishes.md).

Bean chili
Serves 6
Freezes: 60 days

Ingredients
Stew (protein):
1 lb dried kidney beans
- 1 large onion, chopped
Rice (starch):
3 cups rice

Steps
1. Soak the beans overnight. (unattended 8 h)
2. Chop the onion. (hands-on 5 min; needs board)
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from ladleworth.dish.dish import Role
from ladleworth.dish.plain_step import read_step
from ladleworth.dish.unread import Unread, check_written, read_portions
from ladleworth.dish.written import HandsOn, WrittenDish, WrittenPart
from ladleworth.errors import BadUnit
from ladleworth.units import read_minutes

_BULLET = re.compile(r"(?:[-*•–]|\[[ xX]?\])\s+")
_NUMBERED = re.compile(r"(?:step\s+)?\d{1,3}\s*[.):]\s*", re.IGNORECASE)
_INGREDIENTS = re.compile(r"#*\s*ingredients?\s*:?\s*", re.IGNORECASE)
_STEPS = re.compile(r"#*\s*(?:steps?|method|directions?|instructions?|preparation)\s*:?\s*", re.IGNORECASE)
_PORTIONS = re.compile(r"(?:serves|makes|yields?|portions?|servings?|feeds)\b", re.IGNORECASE)
_KEY = re.compile(r"(?P<key>[a-z][a-z -]{1,20}?)\s*:\s*(?P<value>.+)", re.IGNORECASE)
_DAYS = re.compile(r"(\d{1,4})\s*(?:days?)?", re.IGNORECASE)
_PART = re.compile(r"(?:for the\s+)?(?P<name>[^():]{1,80}?)\s*(?:\((?P<role>[a-z]+)\))?\s*:", re.IGNORECASE)
_TIME = re.compile(
    r"(?P<key>prep(?:aration)?|cook(?:ing)?|total)(?: time)\s*:?\s+(?P<value>.+)|(?P<hands>active|hands[- ]on) time\s*:?\s+(?P<min>.+)",
    re.IGNORECASE,
)
_TIMES = {
    "prep": "prep time",
    "preparation": "prep time",
    "cook": "cook time",
    "cooking": "cook time",
    "total": "total time",
}
_WHOLE = ("least", "greatest", "keeps", "freezes")


def read_plain_text(text: str) -> tuple[WrittenDish | None, tuple[Unread, ...]]:
    """Read one recipe from plain text; what cannot be read for certain is named and left out.

    Parameters
    ----------
    text
        A title; a line that says how many portions; the ingredients, one a line; the steps.

    Returns
    -------
    tuple of WrittenDish or None, and of Unread
        The dish as far as it was read, None without a title or an ingredient; and what could not be read,
        named by its line.
    """
    reader = _Reader()
    for number, line in enumerate(text.lstrip("\ufeff").splitlines(), 1):
        reader.take(number, " ".join(line.split()))
    return reader.finish()


@dataclass(slots=True)
class _Reader:
    """Takes a text line by line; `where` is the block it stands in: title, head, ingredients, steps."""

    where: str = "title"
    gap: bool = False
    named: bool = False
    dish: WrittenDish = field(default_factory=lambda: WrittenDish("", ()))
    parts: list[WrittenPart] = field(default_factory=list)
    steps: list[str] = field(default_factory=list)
    whole: dict[str, int] = field(default_factory=dict)
    times: dict[str, tuple[str, int]] = field(default_factory=dict)
    numbered: bool = False
    strays: list[tuple[int, str]] = field(default_factory=list)
    unread: list[Unread] = field(default_factory=list)

    def take(self, number: int, line: str) -> None:
        """Take the next line."""
        if not line:
            self.gap = True
            return
        if self.where == "title":
            self.dish = replace(self.dish, name=line.lstrip("# ").strip())
            self.where = "head"
        elif _INGREDIENTS.fullmatch(line):
            self.where, self.named = "ingredients", True
        elif _STEPS.fullmatch(line):
            self.where = "steps"
        elif self.where == "head":
            self._head(number, line)
        elif self.where == "ingredients" and self.gap and not self.named and not _PART.fullmatch(line):
            self.where = "steps"
            self._step(line)
        elif self.where == "ingredients":
            self._ingredient(number, line)
        else:
            self._step(line)
        self.gap = False

    def _head(self, number: int, line: str) -> None:
        keyed = _KEY.fullmatch(line)
        key = keyed["key"].casefold().replace(" ", "-") if keyed else ""
        if timed := _TIME.fullmatch(line):
            self._time(timed)
        elif keyed and key == "yield" and read_portions(keyed["value"]) is not None:
            self._portions(number, line, keyed["value"])
        elif keyed and (key in _WHOLE or key in ("hands-on", "yield")):
            self._header(number, key, keyed["value"].strip())
        elif _PORTIONS.match(line):
            self._portions(number, line, line)
        elif self.dish.portions is not None and self.gap:
            self.where = "ingredients"
            self._ingredient(number, line)
        else:
            self.strays.append((number, line))

    def _portions(self, number: int, line: str, said: str) -> None:
        portions = read_portions(said)
        if portions is None:
            why = "it does not name one number of portions; write it like 'Serves 4'"
            self.unread.append(Unread("portions", line, why))
        elif self.dish.portions is not None:
            self.unread.append(Unread(f"line {number}", line, "the portions are said twice; write them once"))
        else:
            self.dish = replace(self.dish, portions=portions)

    def _time(self, timed: re.Match[str]) -> None:
        """Take a time of the whole recipe: hands-on time into the dish, the others to be compared."""
        if timed["hands"]:
            self.dish = replace(self.dish, hands_on=HandsOn(fixed=timed["min"].strip()))
            return
        key, value = _TIMES[timed["key"].casefold()], timed["value"].strip()
        try:
            self.times[key] = (value, read_minutes(value))
        except BadUnit as fault:
            self.unread.append(Unread(key, value, str(fault)))

    def _check_times(self) -> None:
        """Say what the times leave open: how much is hands-on, and a total that is less than its parts."""
        prep, cook, total = (self.times.get(key) for key in ("prep time", "cook time", "total time"))
        if prep and self.dish.hands_on is None:
            why = f"it does not say how much of it is hands-on; write 'Hands-on: {prep[0]}' if all of it is"
            self.unread.append(Unread("prep time", prep[0], why))
        if prep and cook and total and prep[1] + cook[1] > total[1]:
            why = f"it is less than prep time and cook time, {prep[1] + cook[1]} min; write the right one"
            self.unread.append(Unread("total time", total[0], why))

    def _name_strays(self) -> None:
        for number, line in self.strays:
            why = "it stands before the ingredients and is no line that is known here; "
            why += (
                "leave it out" if self.named else "leave it out, or write 'Ingredients' above the ingredients"
            )
            self.unread.append(Unread(f"line {number}", line, why))

    def _header(self, number: int, key: str, value: str) -> None:
        if key == "yield":
            self.dish = replace(self.dish, measured_yield=value)
        elif key == "hands-on":
            self.dish = replace(self.dish, hands_on=HandsOn(fixed=value))
        elif days := _DAYS.fullmatch(value):
            self.whole[key] = int(days[1])
        elif value.casefold() not in ("none", "no"):
            self.unread.append(Unread(f"line {number}", f"{key}: {value}", "write a whole number there"))

    def _ingredient(self, number: int, line: str) -> None:
        line = _BULLET.sub("", line, count=1) if _BULLET.match(line) else line
        heading = _PART.fullmatch(line)
        if heading is None:
            if not self.parts:
                self.parts.append(WrittenPart())
            self.parts[-1] = replace(self.parts[-1], lines=(*self.parts[-1].lines, line))
            return
        role = None
        if heading["role"]:
            known = {one.value: one for one in Role}
            role = known.get(heading["role"].casefold())
            if role is None:
                why = f"no role is called so; write one of {', '.join(known)}"
                self.unread.append(Unread(f"line {number}", heading["role"], why))
        self.parts.append(WrittenPart(heading["name"], role))

    def _step(self, line: str) -> None:
        mark = _NUMBERED.match(line) or _BULLET.match(line)
        if mark or not self.numbered or not self.steps:
            self.numbered = self.numbered or mark is not None
            self.steps.append(line[mark.end() :] if mark else line)
        else:
            self.steps[-1] += f" {line}"

    def finish(self) -> tuple[WrittenDish | None, tuple[Unread, ...]]:
        """Put the dish together and check it."""
        self._name_strays()
        self._check_times()
        parts = [part for part in self.parts if part.lines or part.name]
        if len(parts) > 1 and not parts[0].name:
            parts[0] = replace(parts[0], name="main")
        steps = tuple(read_step(at, text, self.unread) for at, text in enumerate(self.steps, 1) if text)
        dish = replace(
            self.dish,
            parts=tuple(parts),
            steps=steps,
            least=self.whole.get("least"),
            greatest=self.whole.get("greatest"),
            keep_days=self.whole.get("keeps"),
            freezer_days=self.whole.get("freezes"),
        )
        return check_written(dish, self.unread), tuple(self.unread)
