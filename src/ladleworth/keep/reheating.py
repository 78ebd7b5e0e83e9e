"""How long to reheat in a microwave oven: a time to start with, never a verdict.

What the oven gives, its rated watts, goes into the food only in part; which part depends on the load, its shape and the
oven. Edges overheat and the middle lags. So: start with the middle time, stir or turn, cover, let it stand, and check
165 °F (74 °C) in several places with a thermometer; go on by half minutes until it is there.
"""

from __future__ import annotations

from dataclasses import dataclass

from ladleworth.errors import BadField
from ladleworth.facts.heat import estimate, heat_limit, limit_c
from ladleworth.keep.freezing import freezing_matter
from ladleworth.keep.frozen import FreezingMatter
from ladleworth.keep.materials import Makeup
from ladleworth.keep.surroundings import Case

STEAM_J_KG = 2.26e6
"""What 1 kg of water takes to boil away: true of water, from memory."""

LEAST_W, GREATEST_W = 100, 3000
SMALL_G = 200
"""Below this a load takes up less than the range says: from memory."""

RANGE_S = 90
"""What makers of chilled meals often print with a vented lid: common practice, no source."""


@dataclass(frozen=True, slots=True)
class ReheatingTimes:
    """Seconds at full power in an oven that is slow, middling or quick, and the heat that the food takes, kJ.

    `small` is set for loads below 200 g, which take up less than the range says; `frozen` says to begin at half power.
    """

    slow_s: float
    middle_s: float
    fast_s: float
    heat_kj: float
    is_small: bool
    is_frozen: bool


def heat_of(food: FreezingMatter, start_c: float, target_c: float) -> float:
    """Give what 1 kg takes to warm, ice melted on the way, J/kg."""
    return food.heat_j_kg(target_c) - food.heat_j_kg(start_c)


def seconds_for(heat_j: float, watts: float, efficiency: float) -> float:
    """Give the time: heat over rated output times the share that the food takes, s."""
    if not LEAST_W <= watts <= GREATEST_W:
        raise BadField(
            f"the oven gives {watts:g} W; write its rated output, {LEAST_W} to {GREATEST_W} W, not what it draws"
        )
    if not 0 < efficiency <= 1:
        raise BadField(f"the share that the food takes is {efficiency}; write more than 0 and at most 1")
    return heat_j / (watts * efficiency)


def reheating_times(
    makeup: Makeup, mass_g: float, watts: float, start_c: float, steamed_share: float = 0.0
) -> ReheatingTimes:
    """Reckon how long a portion takes to 165 °F (74 °C).

    Parameters
    ----------
    makeup, mass_g
        The food, and how much of it, g.
    watts
        The oven's rated output, W (not what it draws from the wall).
    start_c
        Chilled or frozen, °C.
    steamed_share
        The share of the mass that boils away.

    Returns
    -------
    ReheatingTimes
        The middle one is where to start.

    Raises
    ------
    BadField
        If there is no food, or it is as hot already.

    Source
    ------
    `fsis-temperature-chart` for the target; the shares of the output are worked out and chosen (`microwave-cups`).
    """
    target = limit_c("reheating")
    if mass_g <= 0:
        raise BadField(f"the portion weighs {mass_g:g} g; write more than 0")
    if not -40 <= start_c < target:
        raise BadField(f"the portion starts at {start_c:g} °C; write -40 to below {target:.0f} °C")
    if not 0 <= steamed_share <= 0.2:
        raise BadField(f"{steamed_share:g} of it is to boil away; write a share from 0 to 0.2")
    food = freezing_matter(makeup, Case.MIDDLE)
    heat = mass_g / 1000 * (heat_of(food, start_c, target) + steamed_share * STEAM_J_KG)
    shares = estimate("microwave efficiency")
    slow, middle, fast = (
        seconds_for(heat, watts, float(share)) for share in (shares.slow, shares.middle, shares.fast)
    )
    return ReheatingTimes(slow, middle, fast, heat / 1000, mass_g < SMALL_G, start_c < food.freezing_c)


def steps_of(times: ReheatingTimes) -> tuple[str, ...]:
    """Say what to do, in order."""
    stand = int(heat_limit("microwave standing").value)
    start = f"{_shown(times.middle_s / 2)}, stir or turn, {_shown(times.middle_s / 2)} more"
    frozen = ("Begin at half power, for twice the time, until no ice is left: thawed spots run away.",)
    return (
        "Open a corner of the film or set the lid ajar: steam has to get out, the rest of it warms the food.",
        *(frozen if times.is_frozen else ()),
        f"Start with {start}. The time may be {_shown(times.fast_s)} to {_shown(times.slow_s)}.",
        *(("So little food takes up less: it may be longer still.",) if times.is_small else ()),
        f"Let it stand covered for {stand} minutes.",
        "Check with a thermometer in several places: 165 °F (74 °C) everywhere, or 30 seconds more and check again.",
    )


def what_a_range_does(
    makeup: Makeup, watts: float, seconds: float = RANGE_S, start_c: float = 4.0
) -> tuple[int, int]:
    """Say how many grams so short a time brings to 165 °F: in a slow and in a quick oven.

    Parameters
    ----------
    makeup, watts, start_c
        The food, the oven's rated output, and how cold it is.
    seconds
        The time; about 90 s is what makers of chilled meals print beside 'vent the lid' (common practice, no source).

    Returns
    -------
    tuple of int
        Grams, rounded down: what is more needs longer.
    """
    food = freezing_matter(makeup, Case.MIDDLE)
    needed = heat_of(food, start_c, limit_c("reheating"))
    shares = estimate("microwave efficiency")
    slow, quick = (
        int(1000 * watts * float(share) * seconds / needed) for share in (shares.slow, shares.fast)
    )
    return slow, quick


def range_explained(makeup: Makeup, watts: float) -> str:
    """Explain the trade's 'vent the lid, about 90 seconds' for this oven."""
    slow, quick = what_a_range_does(makeup, watts)
    return (
        f"'Vent the lid, about {RANGE_S} seconds' warms {slow} to {quick} g from 4 °C (40 °F) to 74 °C (165 °F) at "
        f"{watts:g} W; a bigger portion takes as much longer as it is bigger. The vent lets steam out; it does not "
        "tell that the middle is hot."
    )


def _shown(seconds: float) -> str:
    """Write a time for an oven's dial, to five seconds: '2 min 25 s'."""
    whole = max(5, 5 * round(seconds / 5))
    minutes, rest = divmod(whole, 60)
    if not minutes:
        return f"{rest} s"
    return f"{minutes} min {rest} s" if rest else f"{minutes} min"
