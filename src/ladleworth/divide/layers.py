"""In which order a container is filled, and what goes to the side, so that what is crisp stays crisp."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ladleworth.dish.dish import Role
from ladleworth.divide.making import PartMade
from ladleworth.facts.layers import Goes, Layering, layering
from ladleworth.facts.texture import Route

COMMON = ("common-practice", "common practice")
OWN = ("own", "own")

BY_ROLE = {
    Role.WHOLE: Goes.BASE,
    Role.STARCH: Goes.BASE,
    Role.VEGETABLE: Goes.BASE,
    Role.PROTEIN: Goes.BASE,
    Role.SAUCE: Goes.OVER,
    Role.GARNISH: Goes.TOP,
}
"""Where a part goes of whose kind nobody tells. Common practice, no source."""

WHY_BY_ROLE = {
    Role.WHOLE: "all of it together",
    Role.STARCH: "starch lies at the bottom",
    Role.VEGETABLE: "vegetables lie over the starch",
    Role.PROTEIN: "protein lies over the vegetables",
    Role.SAUCE: "sauce keeps what lies under it from drying out",
    Role.GARNISH: "garnish stays as it is there",
}

ROLES = (Role.STARCH, Role.WHOLE, Role.VEGETABLE, Role.PROTEIN, Role.SAUCE, Role.GARNISH)
GOES = (Goes.BASE, Goes.IN_SAUCE, Goes.OVER, Goes.TOP, Goes.SIDE)


@dataclass(frozen=True, slots=True)
class Layer:
    """Where a part goes, and why; `source` and `basis` are those of the reason."""

    part: str
    goes: Goes
    why: str
    source: str
    basis: str


def layers_of(made: Sequence[PartMade], *, frozen: bool) -> tuple[Layer, ...]:
    """Say in which order a container is filled.

    Parameters
    ----------
    made
        The batch's parts, with the kinds of cooked food that they are.
    frozen
        Whether the container is frozen; else it is chilled.

    Returns
    -------
    tuple of Layer
        From the bottom up, then what goes to the side. What the dish keeps apart is to the side. A kind of which the table
        tells goes where it says; where it says so of any part, the sauce goes to the side. Any other part goes by its
        role: sauce over the rest, garnish on top (common practice, no source). What the table has in the sauce goes by its
        role where the dish has no sauce as a part.
    """
    route = Route.FROZEN if frozen else Route.CHILLED
    told = {one.part: _told(one, route) for one in made}
    dry = next(
        (row for one in made if not one.apart for row in told[one.part] if row.sauce_apart),
        None,
    )
    sauced = any(one.role is Role.SAUCE and not one.apart for one in made)
    found = [(one, _layer(one, told[one.part], dry, sauced=sauced)) for one in made]
    order = sorted(
        range(len(found)),
        key=lambda at: (GOES.index(found[at][1].goes), ROLES.index(found[at][0].role), at),
    )
    return tuple(found[at][1] for at in order)


def is_in_sauce(one: PartMade) -> bool:
    """Tell whether a part is solids in sauce, however it is kept."""
    rows = [row for route in (Route.CHILLED, Route.FROZEN) for row in _told(one, route)]
    return not one.apart and any(row.goes is Goes.IN_SAUCE for row in rows)


def _told(one: PartMade, route: Route) -> list[Layering]:
    rows = (layering(kind, route) for kind in one.kinds)
    return [row for row in rows if row is not None]


def _layer(one: PartMade, rows: Sequence[Layering], dry: Layering | None, *, sauced: bool) -> Layer:
    if one.apart:
        return Layer(one.part, Goes.SIDE, "the dish keeps it apart", *OWN)
    row = max(rows, key=lambda row: GOES.index(row.goes), default=None)
    if one.role is Role.SAUCE and dry is not None and (row is None or row.goes is not Goes.SIDE):
        return Layer(one.part, Goes.SIDE, f"{dry.kind}: {dry.why}", dry.source, dry.basis)
    if row is None:
        return Layer(one.part, BY_ROLE[one.role], WHY_BY_ROLE[one.role], *COMMON)
    if row.goes is Goes.IN_SAUCE and dry is not None:
        return Layer(
            one.part, BY_ROLE[one.role], f"the sauce is kept apart from {dry.kind}", dry.source, dry.basis
        )
    own_sauce = row.goes is Goes.IN_SAUCE and not sauced
    goes = BY_ROLE[one.role] if own_sauce else row.goes
    return Layer(one.part, goes, f"{row.kind}: {row.why}", row.source, row.basis)
