"""Whether a batch fits its pots, and other things of a day that may go wrong: doubts in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from ladleworth.cookday.to_cook import BatchAtWork, Work
from ladleworth.dish.volume import part_volumes_ml
from ladleworth.errors import MissingFact
from ladleworth.facts import FoodTable
from ladleworth.facts.limits import POT_FILLED, cited, limit
from ladleworth.household import Equipment
from ladleworth.units import show_volume


def doubts_of(works: Sequence[BatchAtWork], equipment: Equipment, foods: FoodTable) -> Iterator[str]:
    """List what may go wrong: pots too small, too little room to cool, raw food that no later step heats."""
    for batch in works:
        yield from _pots(batch, equipment, foods)
        places, containers = equipment.counter, batch.batch.containers
        if places is not None and containers > places and any(work.heats for work in batch.works):
            yield f"{batch.name} fills {containers} containers, and {places} can cool at once; make fewer portions of it"
        for at, work in enumerate(batch.works):
            raw = next(filter(None, work.needs.boards), "")
            if (
                raw
                and not work.heats
                and not any(at in batch.far[then] for then, other in enumerate(batch.works) if other.heats)
            ):
                yield f"{batch.name}: {raw} is cut in step {work.number}, and no later step heats it"


def _pots(batch: BatchAtWork, equipment: Equipment, foods: FoodTable) -> Iterator[str]:
    """Doubt each vessel of the card that a step fills above what a pot is filled to, once, at its fullest."""
    if not any(equipment.vessel(tool) for work in batch.works for tool in work.needs.tools):
        return
    try:
        volumes = part_volumes_ml(batch.batch.dish, batch.batch.variant, foods)
    except MissingFact as lacking:
        yield f"whether {batch.name} fits its pots nobody can tell: {lacking}; write portion_volume"
        return
    share = limit(POT_FILLED)
    fullest: dict[str, tuple[Fraction, Fraction]] = {}
    for at, work in enumerate(batch.works):
        for tool in dict.fromkeys(work.needs.tools):
            vessel = equipment.vessel(tool)
            if vessel is None or not (work.step.part or _is_all(batch, at)):
                continue
            filled = _filled(batch, work, volumes)
            brim = Fraction(vessel.volume_ml * work.needs.tools.count(tool))
            if filled > brim * share.value / 100:
                fullest[vessel.name] = max(fullest.get(vessel.name, (Fraction(0), brim)), (filled, brim))
    for name, (filled, brim) in fullest.items():
        yield (
            f"{batch.name}: {batch.batch.portions} portions fill about {show_volume(filled)}, more than "
            f"{share.value} % of the {name} of {show_volume(brim)} {cited(share)}; take a larger one, or cook it in two goes"
        )


def _is_all(batch: BatchAtWork, at: int) -> bool:
    """Say whether every other step comes before or after one, so that all of the food may be in its pot."""
    near = batch.far[at] | {then for then, before in enumerate(batch.far) if at in before} | {at}
    return len(near) == len(batch.works)


def _filled(batch: BatchAtWork, work: Work, volumes: Mapping[str, Fraction]) -> Fraction:
    """Estimate what is in a step's pot: its part, or of a step without a part all that is not kept apart."""
    if work.step.part:
        return volumes.get(work.step.part, Fraction(0)) * batch.batch.factor
    apart = {part.name for part in batch.batch.dish.parts if part.apart}
    return sum((ml for part, ml in volumes.items() if part not in apart), Fraction(0)) * batch.batch.factor
