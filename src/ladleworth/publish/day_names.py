"""Short names for a cooking day's work: a letter for each batch, and letter and step for each activity."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ladleworth.cookday.question import DayQuestion

_STEP = re.compile(r"([0-9]+)\b")


@dataclass(frozen=True, slots=True)
class DayNames:
    """What to call things where room is short.

    `letters` by batch, in the order in which they first come; `codes` by activity: 'C5', 'C lid', 'washing up'.
    """

    letters: Mapping[str, str]
    codes: Mapping[str, str]

    def place(self, batch: str) -> int:
        """Give a batch's place among the batches, from 0; -1 for the kitchen's own work."""
        return list(self.letters).index(batch) if batch in self.letters else -1


def names_of(question: DayQuestion) -> DayNames:
    """Name the batches and activities of a day."""
    batches = dict.fromkeys(activity.batch for activity in question.activities if activity.batch)
    letters = dict(zip(batches, _letters(), strict=False))
    counted: Counter[str] = Counter()
    codes = {}
    for activity in question.activities:
        counted[activity.batch] += 1
        letter = letters.get(activity.batch, "")
        prefix = f"{activity.batch}: "
        if not letter:
            codes[activity.name] = activity.name
        elif activity.name.startswith(prefix):
            codes[activity.name] = _code(letter, activity.name.removeprefix(prefix))
        else:
            codes[activity.name] = f"{letter}{counted[activity.batch]}"
    return DayNames(letters, codes)


def _code(letter: str, own: str) -> str:
    """Put letter and step together: 'C' and '5 fry' make 'C5', 'C' and 'lid' make 'C lid'."""
    step = _STEP.match(own)
    return f"{letter}{step[1]}" if step else f"{letter} {own}"


def _letters() -> Iterator[str]:
    """A to Z, then A2 to Z2 and so on."""
    number = 1
    while True:
        for at in range(26):
            yield chr(ord("A") + at) + (str(number) if number > 1 else "")
        number += 1


def tool_name(question: DayQuestion, kind: str, which: int) -> str:
    """Name a tool: with its number, from 1, where there are several of its kind."""
    count = next((tool.count for tool in question.bench.tools if tool.name == kind), 1)
    return kind if count <= 1 and which == 0 else f"{kind} {which + 1}"
