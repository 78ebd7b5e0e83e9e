"""Which pot, pan and board is held by what, and for how long; what stays in it; and what has to be got out for the day."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.pose_keeping import DIVIDE
from ladleworth.cookday.question import Bench, DayQuestion, ToolUse
from ladleworth.cookday.to_cook import BatchAtWork, Work
from ladleworth.household import Equipment

BOARD = "board"
CLEAN_THINGS = "clean things"
"""What a board has seen that was not raw meat, fish, poultry or egg: anything may follow it, ready to eat or raw."""

HOLDING = frozenset(
    {
        "pot",
        "pan",
        "saucepan",
        "stockpot",
        "skillet",
        "wok",
        "casserole",
        "dish",
        "bowl",
        "tin",
        "tray",
        "sheet",
        "mould",
    }
)
"""Last words of tools that hold the food until somebody takes it out. House rule, no source."""


@dataclass(frozen=True, slots=True)
class Gathered:
    """A tool to be got out, and how many of it are in use at once at the most. `volume_ml` None: not on the card."""

    tool: str
    count: int
    volume_ml: int | None = None


def tool_name(need: str, equipment: Equipment) -> str:
    """Give a tool's name as the equipment card spells it, or as the step does."""
    vessel = equipment.vessel(need)
    return need if vessel is None else vessel.name


def uses_of(batch: BatchAtWork, equipment: Equipment, others: Sequence[BatchAtWork]) -> Iterator[ToolUse]:
    """List what a batch holds of tools.

    Steps that follow one another and name the same tool are one use, until one of them leaves something in it. A tool
    that holds food is held on until the next step's hands have taken it out, or until the batch is divided. A board is
    held by one step's hands at a time.

    Parameters
    ----------
    batch
        The batch.
    equipment
        The equipment card.
    others
        All batches of the day, to know whose leavings a step might take.
    """
    for work in batch.works:
        yield from _board_uses(work)
    for tool in dict.fromkeys(tool for work in batch.works for tool in work.needs.tools):
        most = max(work.needs.tools.count(tool) for work in batch.works)
        for nth in range(1, most + 1):
            naming = [at for at, work in enumerate(batch.works) if work.needs.tools.count(tool) >= nth]
            for held in _successive(batch, naming):
                yield _use(batch, equipment, tool, nth, held, others)


def _board_uses(work: Work) -> Iterator[ToolUse]:
    for at, raw in enumerate(work.needs.boards):
        takes = (raw, CLEAN_THINGS) if raw else (CLEAN_THINGS,)
        name = f"{work.first}, {BOARD}" + (f" {at + 1}" if at else "")
        yield ToolUse(name, BOARD, (work.first,), raw or CLEAN_THINGS, takes)


def _successive(batch: BatchAtWork, naming: Sequence[int]) -> list[list[int]]:
    """Put steps that name one tool together where each follows the one before and that left nothing in it."""
    groups: list[list[int]] = []
    for at in naming:
        for group in groups:
            before = batch.works[group[-1]]
            if group[-1] in batch.far[at] and not before.step.leaves:
                group.append(at)
                break
        else:
            groups.append([at])
    return groups


def _use(
    batch: BatchAtWork,
    equipment: Equipment,
    tool: str,
    nth: int,
    held: list[int],
    others: Sequence[BatchAtWork],
) -> ToolUse:
    works = [batch.works[at] for at in held]
    leaves = works[-1].step.leaves.casefold()
    activities = [name for work in works for name in work.activities]
    if not leaves and holds_food(tool, equipment):
        later = batch.after(held[-1])
        activities += [work.hands for work in later if work.hands and tool not in work.needs.tools]
        activities += [] if later else [batch.called(DIVIDE)]
    name = f"{works[0].first}, {tool}" + (f" {nth}" if nth > 1 else "")
    takes = tuple(what.casefold() for what in works[0].step.takes if not kept_off(batch, what, others))
    kind = tool_name(tool, equipment)
    return ToolUse(name, kind, tuple(dict.fromkeys(activities)), leaves or "dirt", takes)


def holds_food(tool: str, equipment: Equipment) -> bool:
    """Say whether food stays in a tool between two steps: a vessel of the card, or a pot, pan, bowl or the like."""
    return equipment.vessel(tool) is not None or tool.split()[-1] in HOLDING


def kept_off(batch: BatchAtWork, what: str, others: Sequence[BatchAtWork]) -> tuple[str, ...]:
    """Name the batches of the day that leave something in a pan which may not come into a batch."""
    return tuple(
        other.name
        for other in others
        if other.batch.key in batch.batch.apart_from
        and any(work.step.leaves.casefold() == what.casefold() for work in other.works)
    )


def gather(
    question: DayQuestion, equipment: Equipment, timetable: Timetable | None = None
) -> tuple[Gathered, ...]:
    """List what has to be got out, with how many of it are in use at once.

    Parameters
    ----------
    question
        The day's question.
    equipment
        The equipment card.
    timetable
        A timetable of it, whose tools are counted; None: as many as there are, but no more than there are uses.
    """
    counts = tools_used(question.bench, question.uses)
    if timetable is not None:
        kinds = {use.name: use.kind for use in question.uses}
        numbered = {(kinds[held.use], held.which) for held in timetable.tools}
        counts = Counter(kind for kind, _ in numbered)
    found = []
    for tool in question.bench.tools:
        vessel = equipment.vessel(tool.name)
        if counts[tool.name]:
            found.append(Gathered(tool.name, counts[tool.name], None if vessel is None else vessel.volume_ml))
    return tuple(found)


def tools_used(bench: Bench, uses: Sequence[ToolUse]) -> Counter[str]:
    """Count how many of each kind of tool a day can need at the most: one for each use, and no more than there are."""
    asked = Counter(use.kind for use in uses)
    return Counter({tool.name: min(tool.count, asked[tool.name]) for tool in bench.tools})
