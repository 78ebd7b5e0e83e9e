"""Small dishes written as a cook writes them, and batches of them."""

from __future__ import annotations

from collections.abc import Sequence

from ladleworth.cookday.pose import PosedDay, pose_day
from ladleworth.cookday.question import Activity, DayQuestion, Lag, ToolUse
from ladleworth.cookday.to_cook import BatchToCook
from ladleworth.dish.dish import Dish
from ladleworth.dish.resolve import resolve
from ladleworth.dish.tree import Path, show_path
from ladleworth.dish.written import read_dish
from ladleworth.errors import Place, Weight
from ladleworth.facts import FoodTable, food_table
from ladleworth.household import Equipment

Steps = Sequence[dict[str, object]]

CHOP: dict[str, object] = {"do": "Chop.", "hands_on": "6", "needs": ["hands", "board"]}
SIMMER: dict[str, object] = {
    "do": "Simmer.",
    "hands_on": "2",
    "unattended": "30",
    "needs": ["hands", "burner", "pot"],
}
STATED = Equipment(burners=2, oven_shelves=1, microwave_w=800)
"""A card on which nothing that these dishes need has to be assumed, but for the tools and the paces."""


def dish(name: str, steps: Steps, foods: FoodTable | None = None, **keys: object) -> Dish:
    """Make a dish of rice for four portions; `keys` replace or add keys of it."""
    whole = {} if "parts" in keys else {"lines": ["400 g rice", "2 onions, chopped"]}
    written, found = read_dish(
        {"dish": name, "portions": "4", "steps": list(steps), **whole, **keys},
        lambda path: placed(path, name),
    )
    assert written is not None, [str(one) for one in found]
    record, told = resolve(written, foods or food_table())
    assert record is not None, [str(one) for one in told if one.weight is Weight.FAULT]
    return record


def placed(path: Path, name: str) -> Place:
    """Place a finding by the dish and the path."""
    return Place(name, item=show_path(path))


def batch(
    of: Dish, portions: int = 4, chilled: int | None = None, frozen: int = 0, version: int = 0
) -> BatchToCook:
    """Make a batch in the version of that number, a container for each portion unless another number is given."""
    return BatchToCook(of, of.variants()[version], portions, portions if chilled is None else chilled, frozen)


def posed(*batches: BatchToCook, equipment: Equipment = STATED, clean_by: int | None = None) -> PosedDay:
    """Pose a day of batches."""
    return pose_day(batches, equipment, food_table(), clean_by=clean_by)


def question(*batches: BatchToCook, equipment: Equipment = STATED) -> DayQuestion:
    """Pose a day that has to be without a fault."""
    asked = posed(*batches, equipment=equipment).question
    assert asked is not None
    return asked


def activity(asked: DayQuestion, name: str) -> Activity:
    """Find an activity."""
    return asked.activity(name)


def lag(asked: DayQuestion, first: str, second: str, limit: bool = False) -> Lag:
    """Find the one lag between two activities that is (or is not) a limit."""
    (found,) = [one for one in asked.lags if (one.first, one.second, one.limit) == (first, second, limit)]
    return found


def uses(asked: DayQuestion, kind: str) -> list[ToolUse]:
    """List the uses of a kind of tool."""
    return [use for use in asked.uses if use.kind == kind]
