"""The rules of dividing in plain Python: shares add up to what there is, equal portions are equal, nothing overflows."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from ladleworth.divide.codes import read_code
from ladleworth.divide.heaps import Known
from ladleworth.divide.question import Dealt, Divided, DivideQuestion
from ladleworth.divide.readings import standing
from ladleworth.divide.shares import unit_of
from ladleworth.errors import BadField, JudgeRefused


def judged(question: DivideQuestion, answer: Divided) -> Divided:
    """Give an answer back that keeps every rule; raise JudgeRefused, naming each breach, for one that does not."""
    found = tuple(breaches(question, answer))
    if found:
        raise JudgeRefused(found)
    return answer


def breaches(question: DivideQuestion, answer: Divided) -> Iterator[str]:
    """Name every rule that an answer breaks: nothing, where it stands.

    Parameters
    ----------
    question, answer
        The batch, and how it was divided.
    """
    yield from _parts(question, answer)
    for one in answer.dealt:
        yield from _sums(one)
        yield from _fairness(one, question.weights)
    yield from _phases(answer, question.weights)
    yield from _containers(question, answer)
    yield from _labels(answer)


def _parts(question: DivideQuestion, answer: Divided) -> Iterator[str]:
    """Every part is dealt out once, and what was weighed weighs what the scale said."""
    dealt = Counter(part for one in answer.dealt for part in one.heap.parts)
    made = Counter(one.part for one in answer.parts)
    if dealt != made:
        yield f"the parts dealt out are {dict(dealt)}, those made {dict(made)}"
    for reading in standing(question.readings):
        mine = [one.heap for one in answer.dealt if set(one.heap.parts) == set(reading.parts)]
        what = " and ".join(reading.parts)
        if len(mine) != 1 or mine[0].known not in (Known.WEIGHED, Known.COUNTED):
            yield f"{what} was weighed, and the reading does not count"
        elif (mine[0].pieces if reading.in_pieces else mine[0].total_mg) != reading.net:
            yield f"{what}: the scale says {reading.net}, and {mine[0].total_mg} mg are dealt out"


def _sums(one: Dealt) -> Iterator[str]:
    """Shares add up to what there is, exactly; so do the parts of a pot."""
    heap = one.heap
    if one.shares_mg and (sum(one.shares_mg) != heap.total_mg or min(one.shares_mg) < 0):
        yield f"{heap.name}: the shares come to {sum(one.shares_mg)} mg, and there are {heap.total_mg} mg"
    if bool(one.shares_mg) is (heap.total_mg is None):
        yield f"{heap.name}: {heap.total_mg} mg are there, and {len(one.shares_mg)} portions get some"
    if one.pieces and (sum(one.pieces) != heap.pieces or min(one.pieces) < 0):
        yield f"{heap.name}: the shares come to {sum(one.pieces)} pieces, and there are {heap.pieces}"
    if heap.within and sum(mass for _, mass in heap.within) != heap.total_mg:
        yield f"{heap.name}: its parts do not add up to it"


def _fairness(one: Dealt, weights: Sequence[Fraction]) -> Iterator[str]:
    """Equal portions differ by a unit at the most, a larger portion never gets less, and nobody is a unit off."""
    if one.pieces:
        yield from _fair(one.heap.name, "piece", one.pieces, weights, Fraction(1))
    elif one.shares_mg:
        unit = unit_of(sum(one.shares_mg), len(weights))
        shares = tuple(map(Fraction, one.shares_mg))
        yield from _fair(one.heap.name, "gram", shares, weights, Fraction(unit))


def _fair(
    name: str, what: str, shares: Sequence[Fraction], weights: Sequence[Fraction], unit: Fraction
) -> Iterator[str]:
    total, whole = sum(shares, Fraction(0)), sum(weights, Fraction(0))
    for share, weight in zip(shares, weights, strict=True):
        if abs(share - total * weight / whole) >= unit:
            yield f"{name}: a portion of {weight} is a {what} or more off its share"
    groups = [
        [share for share, mine in zip(shares, weights, strict=True) if mine == weight]
        for weight in sorted(set(weights))
    ]
    for group in groups:
        if max(group) - min(group) > unit:
            yield f"{name}: two equal portions differ by more than a {what}"
    for less, more in pairwise(groups):
        if min(more) < max(less):
            yield f"{name}: a larger portion gets less than a smaller one"


def _phases(answer: Divided, weights: Sequence[Fraction]) -> Iterator[str]:
    phases = answer.phases
    if phases is None:
        return
    mine = [one for one in answer.dealt if set(one.heap.parts) & {*phases.solids, *phases.liquid}]
    whole = sum(one.heap.total_mg or 0 for one in mine)
    if sum(phases.total_mg) != whole or len(phases.total_mg) != len(weights):
        yield f"solids and sauce come to {sum(phases.total_mg)} mg, and there are {whole} mg"
    if any(first > both or first < 0 for first, both in zip(phases.solids_mg, phases.total_mg, strict=True)):
        yield "a portion has more solids than solids and sauce"


def _containers(question: DivideQuestion, answer: Divided) -> Iterator[str]:
    """No container is filled beyond its room, and no more of a size are used than are clean."""
    if answer.fit is None or question.containers is None:
        return
    kept = [at for at, portion in enumerate(answer.portions) if portion.kept]
    placed = sorted([one.portion for one in answer.fit.filled] + list(answer.fit.unfilled))
    if placed != kept:
        yield f"portions {placed} have been thought of for containers, and {kept} are kept"
    if bool(answer.fit.unfilled) is not bool(answer.fit.reasons):
        yield "a portion has no container and no reason, or a reason and a container"
    for one in answer.fit.filled:
        frozen = answer.portions[one.portion].frozen
        room = question.filling.room_ml(one.container, frozen=frozen)
        if answer.volumes_ml[one.portion] > room:
            yield f"portion {one.portion + 1} fills {answer.volumes_ml[one.portion]} ml, its container takes {room} ml"
    clean: Counter[tuple[int, int | None]] = Counter()
    for size in question.containers:
        clean[size.size_ml, size.depth_mm] += size.count
    for one in answer.fit.filled:
        clean[one.container.size_ml, one.container.depth_mm] -= 1
    for (size_ml, _), left in clean.items():
        if left < 0:
            yield f"{-left} more containers of {size_ml} ml are used than are clean"


def _labels(answer: Divided) -> Iterator[str]:
    kept = [at for at, portion in enumerate(answer.portions) if portion.kept]
    if [label.portion for label in answer.labels] != kept:
        yield "the labels are not those of the portions that are kept"
    if len({label.code for label in answer.labels}) != len(answer.labels):
        yield "two containers have one code"
    for label in answer.labels:
        try:
            read_code(label.code)
        except BadField as bad:
            yield f"label {label.number}: {bad}"
        masses = [content.mass_mg for content in label.contents]
        known = [mass for mass in masses if mass is not None]
        if label.total_mg != (sum(known) if len(known) == len(masses) else None):
            yield f"label {label.number}: what is in it does not come to {label.total_mg} mg"
