"""How kinds of cooked food come out chilled for days, frozen or microwaved, and what to make differently for it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cache
from types import MappingProxyType

from ladleworth.errors import BadField, MissingFact
from ladleworth.facts.load import read_rows
from ladleworth.facts.records import BASES


class Route(Enum):
    """What a portion goes through between the pot and the plate."""

    CHILLED = "chilled"
    FROZEN = "frozen"
    MICROWAVED = "microwaved"


class ComesOut(Enum):
    """How a kind of food comes out: as it was, changed so that it is made differently, or not worth having."""

    HOLDS = "holds"
    CHANGES = "changes"
    FAILS = "fails"


@dataclass(frozen=True, slots=True)
class Texture:
    """How one kind of food comes out of one route.

    Parameters
    ----------
    kind
        The kind of food, in words: 'pasta in sauce'.
    route
        Chilled for some three days, frozen, or microwaved.
    comes_out
        Our one word for what the source says; which words mean 'fails' is our reading.
    goes_wrong
        What happens to it; empty where it holds.
    differently
        What to make differently; empty where there is nothing to do.
    source, basis
        The id of the source, and how the row was come by.
    """

    kind: str
    route: Route
    comes_out: ComesOut
    goes_wrong: str
    differently: str
    source: str
    basis: str

    def __post_init__(self) -> None:
        if self.basis not in BASES:
            raise BadField(f"basis {self.basis!r} is not known; write one of: {', '.join(BASES)}")
        if not self.source:
            raise BadField(f"{self.kind} {self.route.value} names no source; give the source's id")
        if (self.comes_out is ComesOut.HOLDS) == bool(self.goes_wrong):
            raise BadField(
                f"{self.kind} {self.route.value} {self.comes_out.value}; "
                "say what goes wrong, or that it holds, but not both"
            )


@cache
def textures() -> Mapping[str, Mapping[Route, Texture]]:
    """Give every kind of food with what is known of it by route, in the order of the table; read on first use."""
    found: dict[str, dict[Route, Texture]] = {}
    for row in read_rows("texture"):
        texture = Texture(
            row["kind"],
            Route(row["route"]),
            ComesOut(row["comes_out"]),
            row["goes_wrong"],
            row["differently"],
            row["source"],
            row["basis"],
        )
        found.setdefault(texture.kind, {})[texture.route] = texture
    return MappingProxyType({kind: MappingProxyType(routes) for kind, routes in found.items()})


def texture(kind: str, route: Route) -> Texture:
    """Look up how a kind of food comes out of a route.

    Parameters
    ----------
    kind
        One of `textures`.
    route
        The route.

    Raises
    ------
    BadField
        If there is no such kind.
    MissingFact
        If nobody says how it takes this route.
    """
    routes = textures().get(kind)
    if routes is None:
        raise BadField(f"no kind of food is called {kind!r}; the kinds are {', '.join(textures())}")
    if route not in routes:
        raise MissingFact(f"nobody says how {kind} comes out {route.value}")
    return routes[route]
