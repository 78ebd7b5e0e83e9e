"""Where a kind of cooked food goes in the container, so that what is crisp stays so and what dries out does not."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cache
from types import MappingProxyType

from ladleworth.errors import BadField
from ladleworth.facts.load import read_rows
from ladleworth.facts.records import BASES
from ladleworth.facts.texture import Route


class Goes(Enum):
    """Where a part goes in the container."""

    BASE = "in the container"
    IN_SAUCE = "in the sauce"
    OVER = "over it"
    TOP = "on top"
    SIDE = "to the side"


@dataclass(frozen=True, slots=True)
class Layering:
    """Where a kind of food goes by a route, why, and from whom; with `sauce_apart` any sauce goes to the side."""

    kind: str
    route: Route
    goes: Goes
    sauce_apart: bool
    why: str
    source: str
    basis: str

    def __post_init__(self) -> None:
        if self.basis not in BASES:
            raise BadField(f"basis {self.basis!r} is not known; write one of: {', '.join(BASES)}")
        if not self.source or not self.why:
            raise BadField(f"{self.kind} {self.route.value} names no source or no reason; give both")


@cache
def layerings() -> Mapping[tuple[str, Route], Layering]:
    """Give what is known by kind (as the table of textures names it) and route; read on first use."""
    found = {}
    for row in read_rows("layers"):
        one = Layering(
            row["kind"],
            Route(row["route"]),
            Goes(row["goes"]),
            row["sauce_apart"] == "yes",
            row["why"],
            row["source"],
            row["basis"],
        )
        found[one.kind, one.route] = one
    return MappingProxyType(found)


def layering(kind: str, route: Route) -> Layering | None:
    """Look up where a kind of food goes by a route; None where no place is better than another."""
    return layerings().get((kind, route))
