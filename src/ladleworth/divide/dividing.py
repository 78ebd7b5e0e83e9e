"""Divide a batch: what there is, who gets how much of it, how to measure it out, and into which container it goes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil

from ladleworth.dish.dish import Role
from ladleworth.divide.codes import code_of
from ladleworth.divide.containers import Fit, ToFill, choose
from ladleworth.divide.density import Density, densities, together
from ladleworth.divide.heaps import Heap, Known, heaps_of
from ladleworth.divide.judge import judged
from ladleworth.divide.labels import Content, Label
from ladleworth.divide.layers import Layer, is_in_sauce, layers_of
from ladleworth.divide.making import PartMade, parts_made
from ladleworth.divide.measures import nearest_scoop, nearest_spoon
from ladleworth.divide.phases import phases_of
from ladleworth.divide.question import Dealt, Divided, DivideQuestion, SizeShare
from ladleworth.divide.shares import deal_mass, deal_pieces
from ladleworth.facts.layers import Goes


def divide(question: DivideQuestion) -> Divided:
    """Divide a batch.

    Parameters
    ----------
    question
        The batch, what was weighed, and what it goes into.

    Returns
    -------
    Divided
        The shares and all that follows from them, as the judge has passed them. What is not known is told as such: a
        heap without a weight has no shares, and then there is no choice of containers.

    Raises
    ------
    BadField
        If a reading is of a part that the batch does not have, a method of a food that it does not take, or no scoop has
        a number that is named.
    MissingFact
        If the table has no such method for a food.
    JudgeRefused
        If the answer breaks a rule: a defect of the program.
    """
    dish, variant, foods = question.dish, question.variant, question.foods
    made = parts_made(dish, variant, foods, question.methods)
    dense = densities(dish, variant, foods, made, dish.yield_mg)
    heaps = heaps_of(made, question.readings, dish.yield_mg, len(question.portions))
    dealt = tuple(_dealt(question, heap, _density(heap, dense, made)) for heap in _in_order(heaps, made))
    phases = phases_of(made, [(one.heap, one.shares_mg) for one in dealt], question.weights)
    volumes = _volumes(dealt, made, len(question.portions))
    fit, why = _fit(question, volumes, dealt)
    chilled, frozen = (_layers(question, made, frozen=way) for way in (False, True))
    answer = Divided(
        dish.id,
        dish.name,
        variant.name,
        variant.swaps,
        question.portions,
        made,
        dealt,
        phases,
        volumes,
        fit,
        why,
        chilled,
        frozen,
        _labels(question, dealt, fit, chilled, frozen),
    )
    return judged(question, answer)


def _in_order(heaps: Sequence[Heap], made: Sequence[PartMade]) -> list[Heap]:
    """Put solids before sauces: what is poured goes in last."""
    roles = {one.part: one.role for one in made}
    in_sauce = {one.part for one in made if is_in_sauce(one)}

    def rank(heap: Heap) -> int:
        if all(roles[part] in (Role.SAUCE, Role.GARNISH) for part in heap.parts):
            return 3 if all(roles[part] is Role.GARNISH for part in heap.parts) else 2
        return 1 if any(part in in_sauce for part in heap.parts) else 0

    return sorted(heaps, key=rank)


def _density(heap: Heap, dense: Mapping[str, Density], made: Sequence[PartMade]) -> Density:
    masses = {one.part: one.mass_mg or Fraction(0) for one in made}
    return together([(dense[part], masses[part]) for part in heap.parts])


def _dealt(question: DivideQuestion, heap: Heap, density: Density) -> Dealt:
    """Share a heap out: to the piece where it comes in pieces, and then its weight as the pieces go."""
    weights: Sequence[Fraction] = question.weights
    pieces = () if heap.pieces is None else deal_pieces(heap.pieces, weights)
    by = pieces if any(pieces) else weights
    shares = () if heap.total_mg is None else deal_mass(heap.total_mg, by)
    return Dealt(heap, shares, pieces, density, _sizes(question, heap, pieces, density))


def _sizes(
    question: DivideQuestion, heap: Heap, pieces: Sequence[Fraction], density: Density
) -> tuple[SizeShare, ...]:
    whole = sum(question.weights, Fraction(0))
    found = []
    for size in sorted(set(question.weights), reverse=True):
        exact = None if heap.total_mg is None else heap.total_mg * size / whole
        mine = tuple(
            sorted({one for one, weight in zip(pieces, question.weights, strict=False) if weight == size})
        )
        volume = None if exact is None else exact / density.mg_per_ml
        by_hand = heap.pieces is not None or volume is None
        found.append(
            SizeShare(
                size,
                question.weights.count(size),
                exact,
                mine,
                volume,
                None if by_hand or volume is None else nearest_scoop(volume, question.scoops),
                None if by_hand or volume is None else nearest_spoon(volume),
            )
        )
    return tuple(found)


def _volumes(dealt: Sequence[Dealt], made: Sequence[PartMade], portions: int) -> tuple[int, ...]:
    """Add up what each portion fills in its container, in ml, rounded up; what is kept apart has a place of its own."""
    apart = {one.part for one in made if one.apart}
    inside = [one for one in dealt if not apart >= set(one.heap.parts)]
    if not all(one.shares_mg for one in inside):
        return ()
    return tuple(
        max(1, ceil(sum((one.shares_mg[at] / one.density.mg_per_ml for one in inside), Fraction(0))))
        for at in range(portions)
    )


def _fit(question: DivideQuestion, volumes: Sequence[int], dealt: Sequence[Dealt]) -> tuple[Fit | None, str]:
    kept = [at for at, portion in enumerate(question.portions) if portion.kept]
    if not kept:
        return None, "nothing of it is kept: it is all eaten on its day"
    if question.containers is None:
        return None, "the household's rules state no sizes of containers; write them under `containers`"
    if not volumes:
        names = ", ".join(one.heap.name for one in dealt if one.heap.known is Known.NOT or not one.shares_mg)
        return None, f"what a portion fills is not known, for want of the weight of {names}; weigh it"
    to_fill = [ToFill(at, volumes[at], question.portions[at].frozen) for at in kept]
    return choose(to_fill, question.containers, question.filling), ""


def _layers(question: DivideQuestion, made: Sequence[PartMade], *, frozen: bool) -> tuple[Layer, ...]:
    if not any(portion.kept and portion.frozen is frozen for portion in question.portions):
        return ()
    return layers_of(made, frozen=frozen)


def _labels(
    question: DivideQuestion,
    dealt: Sequence[Dealt],
    fit: Fit | None,
    chilled: Sequence[Layer],
    frozen: Sequence[Layer],
) -> tuple[Label, ...]:
    """Write a label for each portion that is kept."""
    container = {} if fit is None else {one.portion: one.container.size_ml for one in fit.filled}
    kept = [at for at, portion in enumerate(question.portions) if portion.kept]
    labels = []
    for number, at in enumerate(kept, 1):
        portion = question.portions[at]
        layers = frozen if portion.frozen else chilled
        side = {layer.part for layer in layers if layer.goes is Goes.SIDE}
        known = [one.shares_mg[at] for one in dealt if one.shares_mg]
        labels.append(
            Label(
                str(code_of(question.cooked_on, question.batch, number)),
                at,
                question.dish.id,
                question.dish.name,
                question.variant.name,
                number,
                len(kept),
                portion.size,
                portion.who,
                portion.day,
                portion.frozen,
                question.cooked_on,
                tuple(_content(one, at, side) for one in dealt),
                sum(known) if len(known) == len(dealt) else None,
                container.get(at),
            )
        )
    return tuple(labels)


def _content(one: Dealt, at: int, side: set[str]) -> Content:
    return Content(
        one.heap.name,
        one.shares_mg[at] if one.shares_mg else None,
        one.pieces[at] if one.pieces else None,
        side >= set(one.heap.parts),
    )
