"""A project's question as a JSON file: read whole, with every fault in it at once. The format: docs/cookday-question.md."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ladleworth.cookday.json_tree import MOST_NUMBER, Object, Walk, kind, load
from ladleworth.cookday.project import Anchor, Demand, Project, ProjectActivity, ProjectLag, Resource
from ladleworth.dish.tree import Path, shorten
from ladleworth.errors import FaultyKitchen

KEYS = {
    "the question": ("title", "activities", "resources", "lags", "deadline"),
    "an activity": ("name", "duration", "demands"),
    "a resource": ("name", "capacity"),
    "a lag": ("from", "to", "least", "greatest", "anchors"),
}
"""What may stand in each object of the file."""
NEEDED = {
    "the question": ("activities",),
    "an activity": ("name", "duration"),
    "a resource": ("name", "capacity"),
    "a lag": ("from", "to"),
}
MOST = {"activities": 1_000, "resources": 1_000, "lags": 20_000}
"""How many entries a list of the file may have."""
ANCHORS = {f"{one.value}-{other.value}": (one, other) for one in Anchor for other in Anchor}
USUAL_ANCHORS = "end-start"


@dataclass(frozen=True, slots=True)
class AskedProject:
    """A project as its file gives it, with the title that it may bear ('' for none)."""

    title: str
    project: Project


def read_project(data: bytes, file: str) -> AskedProject:
    """Read a question file.

    Parameters
    ----------
    data
        What the file holds.
    file
        Its name, for the findings.

    Raises
    ------
    FaultyKitchen
        With every fault of the file.
    """
    tree = load(data, file)
    walk = Walk(file)
    top = walk.fields(tree, (), "the question", KEYS["the question"], NEEDED["the question"])
    title = walk.name(top["title"], ("title",), "the title") if "title" in top else ""
    entries = {key: walk.entries(top.get(key, []), (key,), key, most) for key, most in MOST.items()}
    rooms, names = walk.names(entries["resources"]), walk.names(entries["activities"])
    resources = [_resource(walk, *entry) for entry in entries["resources"]]
    activities = [_activity(walk, *entry, rooms) for entry in entries["activities"]]
    lags = [_lag(walk, *entry, names) for entry in entries["lags"]]
    deadline = _number(walk, top, (), "deadline", "the deadline")
    if walk.findings.faulty:
        raise FaultyKitchen(walk.findings.found)
    project = Project(
        tuple(one for one in activities if one is not None),
        tuple(one for one in resources if one is not None),
        tuple(one for one in lags if one is not None),
        deadline,
    )
    return AskedProject(title, project)


def _resource(walk: Walk, tree: object, path: Path) -> Resource | None:
    fields = walk.fields(tree, path, "a resource", KEYS["a resource"], NEEDED["a resource"])
    name = _name(walk, fields, path, "name", "the name")
    capacity = _number(walk, fields, path, "capacity", "the capacity")
    return Resource(name, capacity) if name and capacity is not None else None


def _activity(walk: Walk, tree: object, path: Path, rooms: Mapping[str, Path]) -> ProjectActivity | None:
    fields = walk.fields(tree, path, "an activity", KEYS["an activity"], NEEDED["an activity"])
    name = _name(walk, fields, path, "name", "the name")
    duration = _number(walk, fields, path, "duration", "the duration")
    demands = _demands(walk, fields.get("demands", Object()), (*path, "demands"), rooms)
    return ProjectActivity(name, duration, demands) if name and duration is not None else None


def _demands(walk: Walk, tree: object, path: Path, rooms: Mapping[str, Path]) -> tuple[Demand, ...]:
    if not isinstance(tree, Object):
        walk.fault(path, f"the demands are {kind(tree)}", 'write resources and amounts such as {"oven": 1}')
        return ()
    walk.no_key_twice(tree, path)
    demands = []
    for resource, number in tree.items():
        amount = walk.number(number, path, f"the demand of {shorten(resource)}")
        if walk.known(resource, path, rooms, "resource", "resources") and amount is not None:
            demands.append(Demand(resource, amount))
    return tuple(demands)


def _lag(walk: Walk, tree: object, path: Path, names: Mapping[str, Path]) -> ProjectLag | None:
    fields = walk.fields(tree, path, "a lag", KEYS["a lag"], NEEDED["a lag"])
    ends = [_name(walk, fields, path, key, f"what the lag goes {key}") for key in ("from", "to")]
    for key, name in zip(("from", "to"), ends, strict=True):
        if name:
            walk.known(name, (*path, key), names, "activity", "activities")
    least = _number(walk, fields, path, "least", "the least lag", -MOST_NUMBER)
    greatest = _number(walk, fields, path, "greatest", "the greatest lag", -MOST_NUMBER)
    anchors = fields.get("anchors", USUAL_ANCHORS)
    if not isinstance(anchors, str) or anchors not in ANCHORS:
        told = f"write one of {', '.join(map(repr, ANCHORS))}"
        walk.fault((*path, "anchors"), f"the anchors are {kind(anchors)}", told)
    elif "least" not in fields and "greatest" not in fields:
        walk.fault(
            path, "the lag has no least and no greatest value", 'write "least": 0 for one after the other'
        )
    elif least is not None and greatest is not None and greatest < least:
        walk.fault(
            path, f"the greatest lag {greatest} is below the least {least}", "write one that is no less"
        )
    elif all(ends) and (least is not None or greatest is not None):
        return ProjectLag(ends[0], ends[1], least, greatest, *ANCHORS[anchors])
    return None


def _name(walk: Walk, fields: Object, path: Path, key: str, what: str) -> str:
    return walk.name(fields[key], (*path, key), what) if key in fields else ""


def _number(walk: Walk, fields: Object, path: Path, key: str, what: str, least: int = 0) -> int | None:
    return walk.number(fields[key], (*path, key), what, least) if key in fields else None
