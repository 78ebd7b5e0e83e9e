"""Results as one JSON document: records by their fields, exact fractions with their approximate value."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from pathlib import Path

import click


def plain(value: object) -> object:
    """Turn a result into what JSON holds.

    Parameters
    ----------
    value
        Records, tuples, mappings, numbers, texts, dates, enums.

    Returns
    -------
    object
        A fraction becomes {"exact": "a/b", "approx": float}; a date its text; an enum its value; a record an
        object of its fields; sets are sorted.

    Raises
    ------
    TypeError
        If something has no form in JSON.
    """
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, Fraction):
        return {"exact": f"{value.numerator}/{value.denominator}", "approx": float(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Path):
        return str(value)
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    if isinstance(value, frozenset):
        return sorted((plain(item) for item in value), key=str)
    if is_dataclass(value):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value) if field.init}
    raise TypeError(f"{type(value).__name__} has no form in JSON")


def write_json(document: object) -> None:
    """Write the one JSON document of a command to stdout."""
    click.echo(json.dumps(plain(document), ensure_ascii=False, indent=1, allow_nan=False))
