"""A written dish as the mapping it is read from, for writing a kitchen folder."""

from __future__ import annotations

from ladleworth.dish.written import HandsOn, WrittenDish, WrittenPart, WrittenStep, WrittenSwap

Tree = dict[str, object]


def to_mapping(written: WrittenDish) -> Tree:
    """Write a dish back as the mapping it is read from, keys in the documented order, every scalar a text.

    Parameters
    ----------
    written
        A dish as written.

    Returns
    -------
    dict
        What `read_dish` reads as the same dish; keys that were left out are left out.
    """
    flat = len(written.parts) == 1 and not written.parts[0].name
    return _filled(
        ("dish", written.name),
        ("portions", _count(written.portions)),
        ("least", _count(written.least)),
        ("greatest", _count(written.greatest)),
        ("hands_on", _hands_on_mapping(written.hands_on)),
        ("freezer_days", _count(written.freezer_days)),
        ("keep_days", _count(written.keep_days)),
        ("meals", list(written.meals)),
        ("never", list(written.never)),
        *(
            _contents(written.parts[0])
            if flat
            else [("parts", [_part_mapping(part) for part in written.parts])]
        ),
        ("steps", [_step_mapping(step) for step in written.steps]),
        ("yield", written.measured_yield),
        ("portion_volume", written.portion_volume),
        *_stations(written),
        ("splits", _count(written.splits)),
    )


def _filled(*pairs: tuple[str, object]) -> Tree:
    return {key: value for key, value in pairs if value}


def _count(number: int | None) -> str:
    return "" if number is None else str(number)


def _hands_on_mapping(hands_on: HandsOn | None) -> Tree:
    return _filled(("fixed", hands_on.fixed), ("per_portion", hands_on.per_portion)) if hands_on else {}


def _stations(piece: WrittenDish | WrittenPart | WrittenSwap) -> list[tuple[str, object]]:
    """Write station minutes, those that are only fixed as one length of time."""
    pairs: list[tuple[str, object]] = []
    for key, told in (("oven", piece.oven), ("burners", piece.burners)):
        pairs.append((key, told.fixed if told and not told.per_portion else _hands_on_mapping(told)))
    return pairs


def _contents(piece: WrittenPart) -> list[tuple[str, object]]:
    return [
        ("lines", list(piece.lines)),
        ("per_portion", dict(piece.per_portion)),
        ("swaps", [_swap_mapping(swap) for swap in piece.swaps]),
        ("kind", list(piece.kinds)),
        ("brings", list(piece.brings)),
    ]


def _part_mapping(part: WrittenPart) -> Tree:
    return _filled(
        ("part", part.name),
        ("role", part.role.value if part.role else ""),
        *_contents(part),
        *_stations(part),
        ("apart", "yes" if part.apart else ""),
    )


def _swap_mapping(swap: WrittenSwap) -> Tree:
    mapping = _filled(
        ("swap", swap.name),
        ("lines", list(swap.lines)),
        ("per_portion", dict(swap.per_portion)),
        ("hands_on", _hands_on_mapping(swap.hands_on)),
        *_stations(swap),
        ("kind", list(swap.kinds)),
        ("brings", list(swap.brings)),
    )
    return mapping if swap.lines or swap.per_portion else {**mapping, "lines": []}


def _step_mapping(step: WrittenStep) -> Tree:
    mapping = _filled(
        ("do", step.text),
        ("step", step.name),
        ("part", step.part),
        ("swap", list(step.swaps)),
        ("hands_on", step.hands_on),
        ("unattended", step.unattended),
        ("needs", list(step.needs)),
        ("after", list(step.after or ())),
        ("at_once", "yes" if step.at_once else ""),
        ("wait", step.wait),
        ("prep", step.prep),
        ("leaves", step.leaves),
        ("takes", list(step.takes)),
        ("day_before", "yes" if step.day_before else ""),
        ("core", step.core),
    )
    return mapping if step.after != () else {**mapping, "after": []}
