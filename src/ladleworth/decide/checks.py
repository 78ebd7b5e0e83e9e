"""What the records of the question have in common: checking their fields, and travelling to another process."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import fields
from types import MappingProxyType

from ladleworth.errors import BadField


def require(condition: bool, message: str) -> None:  # noqa: FBT001  # reads as a sentence at the call
    """Raise BadField with this message unless the condition holds."""
    if not condition:
        raise BadField(message)


def values_of(record: object) -> tuple[object, ...]:
    """All fields of a record in order, mappings as plain ones."""
    values = (getattr(record, f.name) for f in fields(record))  # type: ignore[arg-type]
    return tuple(dict(v) if isinstance(v, MappingProxyType) else v for v in values)


def unique(names: Iterable[str], what: str) -> None:
    """Raise BadField if a name stands there more than once."""
    twice = [name for name, times in Counter(names).items() if times > 1]
    require(not twice, f"{what} {', '.join(map(repr, twice))} stands there more than once")
