"""Rules of the kitchen: what a session can cook, and where the portions go for the night."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from fractions import Fraction

from ladleworth.decide.answer import Batch, Plan
from ladleworth.decide.question import Question
from ladleworth.decide.verdict import (
    Breach,
    Held,
    held_on,
    helpings_by_pot,
    reserve,
    session_min,
)

# --- rule 2: a session cooks a dish once, least..greatest portions, in few enough versions -------------


def batches_are_allowed(question: Question, plan: Plan) -> Iterator[Breach]:
    """A session cooks a dish at most once, perhaps split between versions, in least..greatest portions."""
    cooked: dict[tuple[int, str], list[Batch]] = defaultdict(list)
    for batch in plan.batches:
        cooked[batch.day, batch.dish].append(batch)
        if batch.portions < 1:
            yield Breach("batches", f"{batch.dish} day {batch.day}: {batch.portions} portions are no batch")
    for (day, name), batches in cooked.items():
        dish, portions = question.dish(name), sum(b.portions for b in batches)
        if not dish.least <= portions <= dish.greatest:
            yield Breach("batches", f"{name} day {day}: {portions} is outside {dish.least}..{dish.greatest}")
        if len(batches) > dish.most_versions:
            yield Breach(
                "batches", f"{name} day {day} is split {len(batches)} ways; {dish.most_versions} is the most"
            )


def minutes_suffice(question: Question, plan: Plan) -> Iterator[Breach]:
    """Hands-on minutes of a session, and those of its stations, suffice."""
    for session in question.sessions:
        used = session_min(question, plan, session.day)
        if used > session.minutes:
            yield Breach("minutes", f"day {session.day} takes {float(used):g} minutes of {session.minutes}")
        for station, there in session.stations.items():
            taken = station_min(question, plan, session.day, station)
            if taken > there:
                yield Breach(
                    "stations", f"day {session.day} takes {float(taken):g} {station} minutes of {there}"
                )


def station_min(question: Question, plan: Plan, day: int, station: str) -> Fraction:
    """Minutes of a station that the batches of a day take."""
    loads = (
        question.version(b.dish, b.version).loads[station].minutes(b.portions)
        for b in plan.batches
        if b.day == day and station in question.version(b.dish, b.version).loads
    )
    return sum(loads, Fraction(0))


# --- rule 4: containers, fridge and freezer, after the slots of each day --------------------------------


def containers_suffice(question: Question, plan: Plan) -> Iterator[Breach]:
    """Containers, freezer places and room suffice every night, and the freezer is not loaded too fast."""
    rules = question.rules
    for night in range(1, question.days + 1):
        held = held_on(question, plan, night)
        frozen = sum(one.frozen for one in held)
        if rules.containers is not None and len(held) > rules.containers:
            yield Breach(
                "containers", f"night {night}: {len(held)} portions wait for {rules.containers} containers"
            )
        if rules.freezer_places is not None and frozen > rules.freezer_places:
            yield Breach(
                "freezer", f"night {night}: {frozen} frozen portions for {rules.freezer_places} places"
            )
        yield from _containers_fit(question, night, held)
        for name, there, is_frozen in (
            ("fridge", rules.fridge_ml, False),
            ("freezer", rules.freezer_ml, True),
        ):
            volume = sum(one.volume_ml for one in held if one.frozen == is_frozen)
            if there is not None and volume > there:
                yield Breach("room", f"night {night}: {volume} ml of portions for {there} ml of {name}")
    for day, portions in frozen_on(question, plan).items():
        if rules.freezing_load is not None and portions > rules.freezing_load:
            yield Breach("freezing load", f"day {day}: {portions} portions freeze; {rules.freezing_load} can")


def _containers_fit(question: Question, night: int, held: list[Held]) -> Iterator[Breach]:
    """Each portion has a container large enough: of those that small ones do not hold, no more than larger ones.

    It is checked night by night: food may be moved to another container.
    """
    sizes = question.rules.container_sizes
    if not sizes:
        return
    for capacity in (0, *sorted(c.capacity_ml for c in sizes)):
        larger = sum(c.count for c in sizes if c.capacity_ml > capacity)
        portions = sum(one.volume_ml > capacity or not capacity for one in held)
        if portions > larger:
            yield Breach(
                "sizes", f"night {night}: {portions} portions above {capacity} ml for {larger} containers"
            )


def frozen_on(question: Question, plan: Plan) -> Counter[int]:
    """Portions put into the freezer, by cooking day."""
    frozen: Counter[int] = Counter()
    for pot, helpings in helpings_by_pot(plan).items():
        frozen[pot[0]] += sum(h.frozen for h in helpings)
    for pot, portions in reserve(question, plan).items():
        frozen[pot[0]] += max(0, portions)
    return frozen
