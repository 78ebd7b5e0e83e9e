"""Reading a neutral question of cooling from JSON (docs/cool-question.md): every fault at once, with its place."""

from __future__ import annotations

import json
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

from ladleworth.dish.tree import Findings, Node, show_path
from ladleworth.errors import FaultyKitchen, Finding, Place
from ladleworth.keep.bodies import FOREVER, Shape
from ladleworth.keep.cool_case import AIR_KEYS, BODY_KEYS, FACE_KEYS, LAYER_KEYS, STAGE_KEYS, CaseReader
from ladleworth.keep.cool_material import FROZEN_KEYS, MAKEUP_KEYS, MATERIAL_KEYS
from ladleworth.keep.cool_numbers import items, number, word
from ladleworth.keep.cool_question import POINTS, AskedLimit, CoolQuestion, Posed
from ladleworth.keep.surroundings import Case

FORMAT = "ladleworth_cooling"
VERSION = 1
MOST_TIMES = 2000
USUAL_MIN = (0.0, 30.0, 60.0, 120.0, 240.0, 360.0)
"""The minutes that are told where the question asks for none."""

TOP_KEYS = {
    FORMAT: "1",
    "title": '"Stew, 25 mm"',
    "materials": '{"stew": {...}}',
    "body": '{"shape": "slab", "layers": [...]}',
    "start_c": "57.2",
    "stages": "[{...}]",
    "limits": '[{"point": "hottest", "c": 5}]',
    "report_min": "[0, 30, 120]",
}
LIMIT_KEYS = {"point": '"hottest"', "c": "5"}
ALL_KEYS: Mapping[str, Mapping[str, str]] = {
    "question": TOP_KEYS,
    "body": BODY_KEYS,
    "layer": LAYER_KEYS,
    "stage": STAGE_KEYS,
    "face": FACE_KEYS,
    "still_air": AIR_KEYS,
    "limit": LIMIT_KEYS,
    "material": MATERIAL_KEYS,
    "frozen": FROZEN_KEYS,
    "makeup": MAKEUP_KEYS,
}


def read_cool_question(text: str, file: str) -> CoolQuestion:
    """Read a question.

    Parameters
    ----------
    text
        JSON.
    file
        What to call it in messages.

    Returns
    -------
    CoolQuestion
        With a middle and a slow case; where no number has a slow value of its own, the two are the same.

    Raises
    ------
    FaultyKitchen
        With every fault found.
    """
    findings = Findings(lambda path: Place(file, None, show_path(path)))
    data = _parsed(text, file)
    top = Node(data, (), findings).keys(TOP_KEYS, "the question")
    posed = [CaseReader(top, findings, case).posed() for case in (Case.MIDDLE, Case.SLOW)]
    title = word(top["title"], "the title", "Stew, 25 mm") if "title" in top else ""
    _version(top, findings)
    shape = posed[0].shape if posed[0] else None
    limits, minutes = _limits(top, findings, shape), _minutes(top, findings, posed[0])
    faults = tuple(dict.fromkeys(findings.found))
    if faults or posed[0] is None or posed[1] is None:
        raise FaultyKitchen(faults)
    return CoolQuestion(title, posed[0], posed[1], limits, minutes)


def _parsed(text: str, file: str) -> Any:
    """Parse JSON strictly: no name twice in an object, no NaN, no infinity."""
    twice: list[str] = []

    def gathered(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key, value in pairs:
            if key in found:
                twice.append(key)
            found[key] = value
        return found

    def refused(name: str) -> Any:
        raise ValueError(f"{name} is no number of JSON")

    try:
        data = json.loads(text, object_pairs_hook=gathered, parse_constant=refused)
    except json.JSONDecodeError as bad:
        place = Place(file, bad.lineno)
        what = f"this is no JSON: {bad.msg.lower()} (character {bad.colno})"
        raise FaultyKitchen([Finding(place, what, "see to brackets, commas and quotes there")]) from bad
    except (ValueError, RecursionError) as bad:
        what = "it is nested too deeply" if isinstance(bad, RecursionError) else str(bad)
        raise FaultyKitchen([Finding(Place(file), what, "write plain numbers and no more brackets")]) from bad
    if twice:
        raise FaultyKitchen(
            Finding(Place(file, None, name), f"{name!r} stands twice in one object", "write it once")
            for name in twice
        )
    return data


def _version(top: Mapping[str, Node], findings: Findings) -> None:
    if FORMAT not in top:
        findings.fault((FORMAT,), "the format's number is missing", f'write "{FORMAT}": {VERSION}')
    elif top[FORMAT].data != VERSION or isinstance(top[FORMAT].data, bool):
        top[FORMAT].fault(f"{FORMAT} is {top[FORMAT].data!r}", f"write {VERSION}, the only format there is")


def _limits(top: Mapping[str, Node], findings: Findings, shape: Shape | None) -> tuple[AskedLimit, ...]:
    if "limits" not in top:
        return ()
    read = []
    points = (*POINTS, *(shape.faces if shape else ()))
    for node in items(top["limits"], "limits", '[{"point": "hottest", "c": 5}]', MOST_TIMES):
        keys = node.keys(LIMIT_KEYS, "a limit")
        point = word(keys["point"], "the point", "hottest") if "point" in keys else "hottest"
        if point and shape is not None and point not in points:
            keys["point"].fault(f"there is no point {point!r}", f"write one of: {', '.join(points)}")
        if "c" not in keys:
            findings.fault((*node.path, "c"), "the limit's temperature is missing", 'write "c": 5, say')
            continue
        level = number(keys["c"], "the limit", Case.MIDDLE, -60, 200)
        if level is not None:
            read.append(AskedLimit(point, level))
    return tuple(read)


def _minutes(top: Mapping[str, Node], findings: Findings, posed: Posed | None) -> tuple[float, ...]:
    end = FOREVER if posed is None else posed.lasts_s / 60
    if "report_min" not in top:
        return tuple(minute for minute in USUAL_MIN if minute <= end)
    read = []
    for node in items(top["report_min"], "report_min", "[0, 30, 120]", MOST_TIMES):
        minute = number(node, "a time to be told", Case.MIDDLE, 0, 43_200)
        if minute is not None and minute > end + 1e-9:
            node.fault(f"minute {minute:g} lies past the last stage", f"write 0 to {end:g}")
        elif minute is not None:
            read.append(minute)
    if any(one >= other for one, other in pairwise(read)):
        findings.fault(
            ("report_min",), "the times to be told are not in order", "write them rising, each once"
        )
    return tuple(read)
