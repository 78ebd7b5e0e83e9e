"""Why a cooking day takes as long as it does, in words: what its finish hangs on, and what one thing more would save."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from ladleworth.cli import say
from ladleworth.cookday.answer import DayAnswer, Status
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.reasons import Link, Saving
from ladleworth.publish.day_clock import DayClock
from ladleworth.publish.day_names import names_of, tool_name

BUSY = {
    "the same hands": "the hands are the bottleneck",
    "burners": "the burners are the bottleneck",
    "microwaves": "the microwave is the bottleneck",
    "counter": "the counter is the bottleneck",
    "shelves": "the oven is the bottleneck",
    "the oven's heat": "the oven is the bottleneck",
    "heating the oven": "the oven has to heat up",
}
RECIPE = "the dishes' own order and times decide"


def why(
    question: DayQuestion,
    answer: DayAnswer,
    chain: Sequence[Link],
    savings: Sequence[Saving],
    clock: DayClock,
) -> None:
    """Show the chain by the clock, and the savings."""
    say.heading("Why it takes so long")
    for words in stretches(question, chain, clock):
        say.sentence(words, indent=2)
    say.heading("What would save time")
    for words in saved(savings, answer):
        say.sentence(words, indent=2)


def stretches(question: DayQuestion, chain: Sequence[Link], clock: DayClock) -> Iterator[str]:
    """Say stretch by stretch what the finish hangs on; neighbours that wait for the same thing are one stretch."""
    if not chain:
        yield "Nothing is done."
        return
    if chain[0].waited_for:
        yield f"Until {clock.at(chain[0].start)}: {_reason(question, chain[0].waited_for)}."
    if len(chain) == 1:
        yield f"{_span(chain, clock)}: {RECIPE} ({_step(question, chain[0])})."
    told: list[tuple[str, list[Link]]] = []
    for before, link in pairwise(chain):
        reason = _reason(question, link.waited_for)
        if told and told[-1][0] == reason:
            told[-1][1].append(link)
        else:
            told.append((reason, [before, link]))
    for reason, links in told:
        steps = ", ".join(dict.fromkeys(_step(question, link) for link in links))
        yield f"{_span(links, clock)}: {reason} ({steps})."


def _span(links: Sequence[Link], clock: DayClock) -> str:
    return f"{clock.at(links[0].start)} to {clock.at(links[-1].end)}"


def _step(question: DayQuestion, link: Link) -> str:
    """Name a piece of the chain shortly."""
    if not link.activities:
        return f"wash {_tool(question, link.wash)}"
    codes = names_of(question).codes
    return "+".join(dict.fromkeys(codes[name] for name in link.activities))


def _reason(question: DayQuestion, waited_for: str) -> str:
    """Say what is the bottleneck between two pieces of the chain."""
    if waited_for in BUSY:
        return BUSY[waited_for]
    tool = _tool(question, waited_for)
    return f"{tool} is the bottleneck" if tool else RECIPE


def _tool(question: DayQuestion, words: str) -> str:
    """Name a tool as the list does: 'the pot' where there is one, else 'pot 1'; '' for what is none."""
    found = re.fullmatch(r"(.+) ([0-9]+)", words)
    if found is None or found[1] not in {tool.name for tool in question.bench.tools}:
        return ""
    name = tool_name(question, found[1], int(found[2]) - 1)
    return f"the {name}" if name == found[1] else name


def saved(savings: Sequence[Saving], answer: DayAnswer) -> Iterator[str]:
    """Say what one thing more would save, never more surely than it is known."""
    for saving in savings:
        yield saving_words(saving)
    if not savings:
        yield "One more of any one thing (a cook, a burner, a shelf, a tool, a place) would not end the day sooner."
    if answer.status is not Status.PROVEN and savings:
        yield "The day itself is not proven shortest, so that some of this may be had without."


def saving_words(saving: Saving) -> str:
    """Say what a thing more would save: 'a second cook would end the day 27 minutes sooner; at least 20'."""
    what, least, most = saving.words, saving.least, saving.most
    if least == most:
        return f"{_capital(what)} would end the day {_minutes(least)} sooner."
    if not least:
        return f"{_capital(what)} might end the day up to {_minutes(most)} sooner; nothing sooner was found."
    return f"{_capital(what)} would end the day up to {_minutes(most)} sooner; at least {least}."


def _minutes(number: int) -> str:
    return f"{number} minute{'' if number == 1 else 's'}"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
