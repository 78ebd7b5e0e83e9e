"""Numbers, words and lists of a JSON file, each slip noted with its place and what to write."""

from __future__ import annotations

import math

from ladleworth.dish.tree import Node, shorten
from ladleworth.keep.surroundings import Case

CASE_KEYS = {"middle": "8", "slow": "5"}
MOST_LETTERS = 200


def number(node: Node, what: str, case: Case, low: float, high: float) -> float | None:
    """Read a number, or the one of this case out of {"middle": 8, "slow": 5}.

    Parameters
    ----------
    node
        Where it stands.
    what
        What it is, in words.
    case
        Which of two is taken.
    low, high
        What it may be at least and at most.

    Returns
    -------
    float or None
        None after a fault.
    """
    if node.is_mapping:
        keys = node.keys(CASE_KEYS, what)
        for key in CASE_KEYS.keys() - keys.keys():
            node.fault(f"{what} has no {key} value", 'write {"middle": 8, "slow": 5}, or one plain number')
        chosen = keys.get("slow" if case is Case.SLOW else "middle")
        return None if chosen is None or len(keys) < len(CASE_KEYS) else _plain(chosen, what, low, high)
    return _plain(node, what, low, high)


def _plain(node: Node, what: str, low: float, high: float) -> float | None:
    value = node.data
    remedy = f"write a number from {low:g} to {high:g}"
    if isinstance(value, bool) or not isinstance(value, int | float):
        node.fault(f"{what} is {_kind(value)}", remedy)
        return None
    try:
        read = float(value)
    except OverflowError:
        read = math.inf
    if not (math.isfinite(read) and low <= read <= high):
        node.fault(f"{what} is {read:g}", remedy)
        return None
    return read


def word(node: Node, what: str, example: str) -> str:
    """Read a short text; '' after a fault."""
    if isinstance(node.data, str) and 0 < len(node.data.strip()) <= MOST_LETTERS:
        return node.data.strip()
    node.fault(f"{what} is {_kind(node.data)}", f'write a text like "{example}"')
    return ""


def items(node: Node, what: str, example: str, most: int, *, least: int = 0) -> tuple[Node, ...]:
    """Open a list of `least` to `most` entries; empty after a fault."""
    if not isinstance(node.data, list):
        node.fault(f"{what} is {_kind(node.data)}", f"write a list such as {example}")
        return ()
    if not least <= len(node.data) <= most:
        node.fault(f"{what} has {len(node.data)} entries", f"write {least} to {most}")
        return ()
    return tuple(Node(item, (*node.path, at), node.findings) for at, item in enumerate(node.data))


def _kind(value: object) -> str:
    if value is None:
        return "empty"
    if isinstance(value, str):
        return f"the text {shorten(value)}" if value.strip() else "empty"
    if isinstance(value, dict | list):
        return "an object" if isinstance(value, dict) else "a list"
    return shorten(str(value)).strip("'").lower() if isinstance(value, bool) else shorten(str(value))
