"""Frozen records as JSON and back without loss: fractions as 'a/b', dates as text, fields by name."""

from __future__ import annotations

import json
import math
import types
from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from datetime import date, datetime
from enum import Enum
from fractions import Fraction
from functools import cache
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from ladleworth.errors import BadField

Record = TypeVar("Record")

_SPECIAL = {"infinity": math.inf, "-infinity": -math.inf}


def to_json(record: object) -> str:
    """Write a frozen record as JSON, keys in the order of its fields.

    Parameters
    ----------
    record
        A dataclass of texts, whole numbers, floats, fractions, dates, times, enums, tuples, sets, mappings and
        further dataclasses.

    Returns
    -------
    str
        JSON that `from_json` reads as an equal record.
    """
    return json.dumps(_plain(record), ensure_ascii=False, allow_nan=False, indent=1)


def from_json(text: str, kind: type[Record]) -> Record:
    """Read a record written by `to_json`.

    Parameters
    ----------
    text
        The JSON.
    kind
        The record's class.

    Raises
    ------
    BadField
        If it is no JSON, or not of such a record: a missing or unknown key, a value of another kind.
    """
    try:
        data = json.loads(text)
    except (json.JSONDecodeError, RecursionError) as error:
        raise BadField(f"this is no JSON: {error}; bring back the text as it was written") from error
    built: Record = _build(data, kind, kind.__name__)
    return built


def _plain(value: object) -> object:
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float):
        return next((name for name, special in _SPECIAL.items() if value == special), value)
    if isinstance(value, Fraction):
        return f"{value.numerator}/{value.denominator}"
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, frozenset):
        return sorted((_plain(item) for item in value), key=str)
    if isinstance(value, Mapping):
        return {str(key): _plain(item) for key, item in value.items()}
    if is_dataclass(value):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value) if field.init}
    raise BadField(f"{type(value).__name__} has no form in JSON; write a record of plain values")


@cache
def _hints(kind: type) -> dict[str, Any]:
    hints = get_type_hints(kind)
    return {field.name: hints[field.name] for field in fields(kind) if field.init}


def _build(data: object, kind: Any, where: str) -> Any:
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        choices = [choice for choice in get_args(kind) if choice is not type(None)]
        if data is None and len(choices) < len(get_args(kind)):
            return None
        if len(choices) == 1:
            return _build(data, choices[0], where)
        return _build(data, _kind_of(data, choices, where), where)
    if is_dataclass(kind) and isinstance(kind, type):
        return _build_record(data, kind, where)
    if origin in (tuple, frozenset):
        return _build_many(data, origin, get_args(kind), where)
    if isinstance(origin, type) and issubclass(origin, Mapping):
        wanted = get_args(kind)[1]
        return {key: _build(item, wanted, f"{where}.{key}") for key, item in _as(data, dict, where).items()}
    return _build_scalar(data, kind, where)


def _kind_of(data: object, choices: list[Any], where: str) -> type:
    """Tell which of several kinds of record stands there: the one of which it has all the fields and no other."""
    records = [choice for choice in choices if is_dataclass(choice) and isinstance(choice, type)]
    if len(records) < len(choices) or len({frozenset(_hints(kind)) for kind in records}) < len(records):
        raise BadField(f"{where} may be of several kinds; write records that differ in their fields")
    given = set(_as(data, dict, where))
    for kind in records:
        if given == set(_hints(kind)):
            return kind
    names = " or ".join(f"{kind.__name__} ({', '.join(_hints(kind))})" for kind in records)
    raise BadField(f"{where} has the keys {', '.join(sorted(map(str, given)))}; write those of {names}")


def _build_record(data: object, kind: type, where: str) -> Any:
    given = _as(data, dict, where)
    hints = _hints(kind)
    for key in given:
        if key not in hints:
            raise BadField(f"{where} has no key {key!r}; the keys are {', '.join(hints)}")
    defaults = _with_defaults(kind)
    for key in hints:
        if key not in given and key not in defaults:
            raise BadField(f"{where} lacks the key {key!r}; write all of {', '.join(hints)}")
    return kind(
        **{key: _build(given[key], hint, f"{where}.{key}") for key, hint in hints.items() if key in given}
    )


@cache
def _with_defaults(kind: type) -> frozenset[str]:
    """The fields that may be missing: a record kept before they existed says what their default says."""
    return frozenset(
        field.name
        for field in fields(kind)
        if field.default is not MISSING or field.default_factory is not MISSING
    )


def _build_many(data: object, origin: Any, kinds: tuple[Any, ...], where: str) -> Any:
    items = _as(data, list, where)
    if origin is tuple and Ellipsis not in kinds:
        if len(items) != len(kinds):
            raise BadField(f"{where} has {len(items)} entries; write {len(kinds)}")
        pairs = zip(items, kinds, strict=True)
        return tuple(_build(item, kind, f"{where}[{at + 1}]") for at, (item, kind) in enumerate(pairs))
    return origin(_build(item, kinds[0], f"{where}[{at + 1}]") for at, item in enumerate(items))


def _build_scalar(data: object, kind: Any, where: str) -> Any:
    try:
        if kind is Fraction:
            return Fraction(_as(data, str, where))
        if kind is datetime:
            return datetime.fromisoformat(_as(data, str, where))
        if kind is date:
            return date.fromisoformat(_as(data, str, where))
        if isinstance(kind, type) and issubclass(kind, Enum):
            return kind(data)
    except (ValueError, ZeroDivisionError) as error:
        if isinstance(error, BadField):
            raise
        raise BadField(f"{where}: {error}; bring back the value as it was written") from error
    if kind is float:
        if isinstance(data, str) and data in _SPECIAL:
            return _SPECIAL[data]
        return float(_as(data, (int, float), where))
    return _as(data, kind, where)


def _as(data: object, kind: Any, where: str) -> Any:
    if not isinstance(data, kind) or (isinstance(data, bool) and kind is not bool):
        name = " or ".join(k.__name__ for k in (kind if isinstance(kind, tuple) else (kind,)))
        raise BadField(f"{where} is {data!r:.60}; write a value of the kind {name}")
    return data
