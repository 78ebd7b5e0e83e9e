"""The batch version of a dish: what is made differently, or left out, because it is kept, frozen or microwaved."""

from __future__ import annotations

from dataclasses import dataclass

from ladleworth.dish.dish import Dish, Part, Variant
from ladleworth.errors import MissingFact
from ladleworth.facts.texture import ComesOut, Route, Texture, texture


@dataclass(frozen=True, slots=True)
class Difference:
    """Something of a part that comes out otherwise than fresh; `swap` is empty where every version has it."""

    part: str
    swap: str
    texture: Texture

    def __str__(self) -> str:
        told = self.texture
        of = f"{self.part} ({self.swap})" if self.swap else self.part
        bad = " badly" if told.comes_out is ComesOut.FAILS else ""
        why = f" comes out{bad}: {told.goes_wrong}" if told.goes_wrong else " holds"
        instead = f"; {told.differently}" if told.differently else ""
        return f"{of}: {told.kind} {told.route.value}{why}{instead} ({told.source}, {told.basis})"


def differences(
    dish: Dish, variant: Variant, *, frozen: bool, microwaved: bool = False
) -> tuple[Difference, ...]:
    """List what a dish's batch version has different, by the kinds of food that its parts are said to be.

    Parameters
    ----------
    dish, variant
        The dish, and the swaps chosen.
    frozen
        Whether the portions are frozen; else they are chilled. A part that is kept apart is never frozen.
    microwaved
        Whether they are reheated in a microwave as well.

    Returns
    -------
    tuple of Difference
        In the order of the parts. What holds without ado, and what nobody tells of, is left out.
    """
    found = []
    for part in dish.parts:
        for swap, kind in _kinds(part, dict(variant.swaps).get(part.name, "")):
            keeping = Route.FROZEN if frozen and not part.apart else Route.CHILLED
            for route in (keeping, Route.MICROWAVED) if microwaved else (keeping,):
                told = _told(kind, route)
                if told is not None and (told.goes_wrong or told.differently):
                    found.append(Difference(part.name, swap, told))
    return tuple(found)


def not_to_freeze(dish: Dish) -> tuple[Difference, ...]:
    """List what comes out badly from the freezer of the parts, all swaps included, that are not kept apart."""
    found = []
    for part in dish.parts:
        pairs = [("", kind) for kind in part.kinds]
        pairs += [(swap.name, kind) for swap in part.swaps for kind in swap.kinds]
        for swap, kind in pairs if not part.apart else ():
            told = _told(kind, Route.FROZEN)
            if told is not None and told.comes_out is ComesOut.FAILS:
                found.append(Difference(part.name, swap, told))
    return tuple(found)


def _kinds(part: Part, chosen: str) -> list[tuple[str, str]]:
    """Pair the kinds of a part with '', and those of the swap chosen with its name."""
    own = [("", kind) for kind in part.kinds]
    return own + [(swap.name, kind) for swap in part.swaps if swap.name == chosen for kind in swap.kinds]


def _told(kind: str, route: Route) -> Texture | None:
    """Give what is known of a kind by a route, None where nobody tells."""
    try:
        return texture(kind, route)
    except MissingFact:
        return None
