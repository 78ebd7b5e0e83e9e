"""Reading the steps of a dish as a person wrote them, with every fault at once (docs/dishes.md says what each key means)."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from ladleworth.dish.core import read_core
from ladleworth.dish.needs import Needs, read_need, slip_of
from ladleworth.dish.records import WrittenPart, WrittenStep
from ladleworth.dish.step_order import cycle_in, followed
from ladleworth.dish.tree import Node, nearest, shorten
from ladleworth.dish.waiting import read_wait
from ladleworth.errors import BadField, BadUnit
from ladleworth.units import read_minutes, read_number

STEP_KEYS = {
    "do": "Chop the onion.",
    "step": "chop",
    "part": "stew",
    "swap": "sausage",
    "hands_on": "5 min",
    "unattended": "1 h",
    "needs": "[hands]",
    "after": "[chop]",
    "at_once": "yes",
    "wait": "20 min to 30 min",
    "prep": "chopped onion",
    "leaves": "bacon fat",
    "takes": "[bacon fat]",
    "day_before": "yes",
    "core": "165 °F",
}
_TIMED_KEYS = ("after", "at_once", "wait", "prep", "leaves", "takes", "day_before")
_LONGEST_NAME = 40


def read_step_minutes(text: str) -> Fraction:
    """Read minutes as a dish writes them: '15' is 15 minutes, '1 h 20 min' and the like are taken too.

    Parameters
    ----------
    text
        A bare number of minutes, or a length of time.

    Returns
    -------
    Fraction
        Minutes, 0 or more.

    Raises
    ------
    BadUnit
        If it is neither, or negative.
    """
    clean = text.strip()
    if clean[:1] in ("-", "−") or not any(c.isalpha() or c == ":" for c in clean):
        return read_number(clean)
    return Fraction(read_minutes(clean))


def read_yes(keys: Mapping[str, Node], key: str, remedy: str) -> bool:
    """Read a key that is yes or no; left out, it is no."""
    if key not in keys:
        return False
    text = keys[key].text(key, "yes").casefold()
    if text not in ("yes", "no", ""):
        keys[key].fault(f"{key} is {shorten(text)}", remedy)
    return text == "yes"


def read_steps(keys: Mapping[str, Node], parts: Sequence[WrittenPart]) -> tuple[WrittenStep, ...]:
    """Read the steps of a dish; every fault is noted with the nodes' findings.

    Parameters
    ----------
    keys
        The dish's keys, of which `steps` is read.
    parts
        Its parts, whose names and swaps the steps may name.

    Returns
    -------
    tuple of WrittenStep
        The steps, what is faulty about them left out.
    """
    read: list[_Read] = []
    for node in keys["steps"].items("steps") if "steps" in keys else ():
        inner = node.keys(STEP_KEYS, "a step")
        if node.is_mapping:
            read.append(_Read(node, inner, _step(node, inner, parts)))
    _check_names(read)
    _check_order(read)
    return tuple(one.step for one in read)


@dataclass(frozen=True, slots=True)
class _Read:
    """A step as read, with its node and the nodes of its keys."""

    node: Node
    keys: dict[str, Node]
    step: WrittenStep

    @property
    def called(self) -> str:
        """What to call it in a message."""
        return repr(self.step.name) if self.step.name else shorten(self.step.text)


def _step(node: Node, keys: dict[str, Node], parts: Sequence[WrittenPart]) -> WrittenStep:
    if "do" not in keys:
        node.fault("a step does not say what to do", "write it as do: Chop the onion.")
    part = _part(keys, [part.name for part in parts if part.name])
    times = {
        key: keys[key].check(key, "5 min", read_step_minutes)
        for key in ("hands_on", "unattended")
        if key in keys
    }
    step = WrittenStep(
        text=keys["do"].text("what to do", "Chop the onion.") if "do" in keys else "",
        part=part,
        needs=keys["needs"].texts("needs", "[hands, board]") if "needs" in keys else (),
        name=keys["step"].text("the step's name", "chop") if "step" in keys else "",
        swaps=_swaps(keys, part, parts),
        after=keys["after"].texts("after", "[chop]") if "after" in keys else None,
        at_once=read_yes(
            keys, "at_once", "write yes if it begins the minute that the step before ends, else no"
        ),
        wait=keys["wait"].text("wait", "at least 20 min") if "wait" in keys else "",
        prep=keys["prep"].text("prep", "chopped onion") if "prep" in keys else "",
        leaves=keys["leaves"].text("leaves", "bacon fat") if "leaves" in keys else "",
        takes=keys["takes"].texts("takes", "[bacon fat]") if "takes" in keys else (),
        day_before=read_yes(keys, "day_before", "write yes if it is done the day before, else no"),
        core=keys["core"].text("core", "165 °F") if "core" in keys else "",
        **times,
    )
    _check_needs(keys, step)
    _check_timing(node, keys, step)
    return step


def _part(keys: dict[str, Node], parts: list[str]) -> str:
    part = keys["part"].text("the step's part", "stew") if "part" in keys else ""
    if part and part not in parts:
        near = nearest(part, parts)
        remedy = f"did you mean {near!r}?" if near else f"its parts are {', '.join(parts) or 'not named'}"
        keys["part"].fault(f"the dish has no part {shorten(part)}", remedy)
    return part


def _swaps(keys: dict[str, Node], part: str, parts: Sequence[WrittenPart]) -> tuple[str, ...]:
    """Read the swaps with which a step is done: all of one part, its own if that has one of the name."""
    if "swap" not in keys:
        return ()
    names = keys["swap"].texts("swap", "sausage")
    known = [swap.name for one in parts for swap in one.swaps if swap.name]
    for name in names:
        if name not in known:
            near = nearest(name, known)
            remedy = f"did you mean {near!r}?" if near else f"its swaps are {', '.join(known) or 'none'}"
            keys["swap"].fault(f"the dish has no swap {shorten(name)}", remedy)
    if names and all(name in known for name in names) and part_of_swaps(names, part, parts) is None:
        listed = " and ".join(map(repr, names))
        keys["swap"].fault(
            f"{listed} cannot be told to be of one part", "name the step's part, or swaps of one part only"
        )
    return names


def part_of_swaps(names: Sequence[str], part: str, parts: Sequence[WrittenPart]) -> str | None:
    """Find the one part that has all these swaps, a step's own part first; None if there is not exactly one."""
    having = [one.name for one in parts if set(names) <= {swap.name for swap in one.swaps}]
    if part and part in having:
        return part
    return having[0] if len(having) == 1 else None


def _check_needs(keys: dict[str, Node], step: WrittenStep) -> None:
    told = Needs()
    for at, need in enumerate(step.needs):
        node = keys["needs"]
        place = (*node.path, at) if not isinstance(node.data, str) else node.path
        try:
            one = read_need(need)
            told = told.and_also(one)
        except BadField as bad:
            what, _, remedy = str(bad).partition("; ")
            node.findings.fault(place, f"the need {what}" if what[:1] in "'\"" else what, remedy)
            continue
        if one.tools and (near := slip_of(need)):
            what = f"the need {shorten(need)} is taken for a tool of that name"
            node.findings.doubt(place, what, f"did you mean {near!r}?")
    if told.cooks > 1 and not _minutes(step.hands_on):
        keys["needs"].fault(f"{told.cooks} cooks are needed for no hands-on minutes", "write hands_on")
    if (step.leaves or step.takes) and not told.tools:
        key = "leaves" if step.leaves else "takes"
        keys[key].fault(f"{key} speaks of a pan, and needs names no tool", "name the pan in needs")


def _minutes(text: str) -> Fraction:
    try:
        return read_step_minutes(text) if text else Fraction(0)
    except BadUnit:  # said already
        return Fraction(0)


def _check_timing(node: Node, keys: dict[str, Node], step: WrittenStep) -> None:
    """Check what one step says of its time, without a look at the others."""
    timed = [key for key in _TIMED_KEYS if key in keys]
    read = all(getattr(step, key) for key in ("hands_on", "unattended") if key in keys)
    if timed and read and not _minutes(step.hands_on) + _minutes(step.unattended):
        node.fault(
            f"a step with {timed[0]} takes no time", "write hands_on or unattended, or leave the key out"
        )
    _check_read(keys, "wait", step.wait, read_wait)
    _check_read(keys, "core", step.core, read_core)
    if step.at_once and step.wait:
        keys["wait"].fault("a step is both at_once and has a wait", "write one of the two")
    if step.prep and read and (_minutes(step.unattended) or not _minutes(step.hands_on)):
        keys["prep"].fault(
            "a preparation that is shared is hands-on work only",
            "write its hands_on minutes, and what goes on by itself as a step of its own",
        )
    for key in ("at_once", "wait"):
        if step.day_before and key in keys and (step.at_once or step.wait):
            keys[key].fault(f"a step of the day before has {key}", "leave it out: that day has no timetable")


def _check_read(keys: dict[str, Node], key: str, text: str, read: Callable[[str], object]) -> None:
    """Fault a text that its reader refuses."""
    try:
        _ = text and read(text)
    except BadField as bad:
        what, _, remedy = str(bad).partition("; ")
        keys[key].fault(what, remedy)


def _check_names(read: Sequence[_Read]) -> None:
    """Check that names are short and unlike, and that every `after` names another step."""
    known: dict[str, str] = {}
    for one in read:
        name = one.step.name
        if name.casefold() in known:
            one.keys["step"].fault(f"two steps are called {shorten(name)}", "give each its own name")
        elif len(name) > _LONGEST_NAME or "," in name:
            one.keys["step"].fault(
                f"the step's name is {shorten(name)}",
                f"write at most {_LONGEST_NAME} characters, without a comma",
            )
        if name:
            known[name.casefold()] = name
    for one in read:
        for at, name in enumerate(one.step.after or ()):
            node = one.keys["after"]
            place = (*node.path, at) if not isinstance(node.data, str) else node.path
            if name.casefold() not in known:
                near = nearest(name, known.values())
                listed = ", ".join(known.values()) or "not named: give the other a name with step: NAME"
                remedy = f"did you mean {near!r}?" if near else f"the steps are {listed}"
                node.findings.fault(place, f"no step is called {shorten(name)}", remedy)
            elif one.step.name and name.casefold() == one.step.name.casefold():
                node.findings.fault(place, f"the step {one.called} follows itself", "name another step")


def _check_order(read: Sequence[_Read]) -> None:
    """Check that no steps follow one another in a circle, and that those that wait follow something."""
    steps = [one.step for one in read]
    edges = tuple(befores - {at} for at, befores in enumerate(followed(steps)))
    circle = cycle_in(edges)
    if circle:
        first = next(at for at in circle if read[at].step.after is not None)
        turn = circle.index(first)
        named = [read[at].called for at in (*circle[turn:], *circle[:turn])]
        told = ", ".join(f"{then} follows {before}" for before, then in pairwise(named))
        read[first].keys["after"].fault(
            f"steps follow one another in a circle: {told}, {named[0]} follows {named[-1]}",
            "leave one of them out of after",
        )
    for one, befores in zip(read, edges, strict=True):
        today = [before for before in befores if not steps[before].day_before]
        if one.step.day_before and today:
            one.keys["after"].fault(
                f"a step of the day before follows {read[min(today)].called} of the day itself",
                "take that one out of after",
            )
        elif not today and not one.step.day_before and (one.step.at_once or one.step.wait):
            key = "at_once" if one.step.at_once else "wait"
            one.keys[key].fault(f"{key} stands at a step that follows none", "name it in after")
