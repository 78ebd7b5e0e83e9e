"""The steps of the dishes against the equipment card: what the kitchen has too little of, and names that look like slips."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ladleworth.dish.dish import Dish, Step
from ladleworth.dish.needs import Needs, read_needs, slip_of
from ladleworth.dish.tree import nearest, shorten
from ladleworth.household import Equipment
from ladleworth.store.folder_dishes import DishOnPaper


def check_steps(equipment: Equipment, dishes: list[tuple[DishOnPaper, Dish]]) -> None:
    """Note what the steps of the dishes ask of a kitchen that has not got it.

    More cooks than there are is a fault. More burners, shelves or boards, a tool whose name is nearly that of a vessel
    of the card, and something taken that no step leaves are doubts: a week can be planned all the same.
    """
    left = tuple(dict.fromkeys(step.leaves for _, dish in dishes for step in dish.steps if step.leaves))
    for paper, dish in dishes:
        for at, step in enumerate(dish.steps):
            _check_cooks(equipment, paper, at, step)
            _doubt_needs(equipment, paper, at, step)
            for name in step.takes:
                if name not in left:
                    near = nearest(name, left)
                    remedy = f"did you mean {near!r}?" if near else "write leaves at the step that leaves it"
                    what = f"a step takes {shorten(name)}, and no step of any dish leaves it"
                    paper.node.findings.doubt((*paper.node.path, "steps", at, "takes"), what, remedy)


def _check_cooks(equipment: Equipment, paper: DishOnPaper, at: int, step: Step) -> None:
    told = read_needs(step.needs)
    if told.cooks > equipment.cooks:
        there = "one cooks" if equipment.cooks == 1 else f"{equipment.cooks} cook"
        paper.node.findings.fault(
            (*paper.node.path, "steps", at, "needs"),
            f"the step needs {told.cooks} cooks, and {there} here",
            f"write cooks: {told.cooks} under equipment, or make two steps of it",
        )


def _doubt_needs(equipment: Equipment, paper: DishOnPaper, at: int, step: Step) -> None:
    told = read_needs(step.needs)
    place = (*paper.node.path, "steps", at, "needs")
    for what, needed, there in _too_little(equipment, told):
        paper.node.findings.doubt(
            place,
            f"the step needs {needed} {what}, and the kitchen has {there}",
            "no day with it gets a timetable; mend the step or the equipment card",
        )
    names = [vessel.name for vessel in equipment.vessels]
    for tool in dict.fromkeys(told.tools):
        near = slip_of(tool, names) if equipment.vessel(tool) is None else ""
        if near:
            what = f"the need {shorten(tool)} is taken for a tool of that name"
            paper.node.findings.doubt(place, what, f"did you mean {near!r}?")


def _too_little(equipment: Equipment, told: Needs) -> Iterator[tuple[str, int, int]]:
    """Tell what is stated and less than is needed: in words, how many are needed, how many there are."""
    shelves = told.oven.shelves if told.oven is not None else 0
    asked: Iterable[tuple[str, int, int | None]] = (
        ("burners", told.burners, equipment.burners),
        ("oven shelves", shelves, equipment.oven_shelves),
        ("boards", len(told.boards), equipment.boards),
    )
    yield from (
        (what, needed, there) for what, needed, there in asked if there is not None and needed > there
    )
    for tool in dict.fromkeys(told.tools):
        vessel = equipment.vessel(tool)
        if vessel is not None and told.tools.count(tool) > vessel.count:
            yield f"of {tool}", told.tools.count(tool), vessel.count
