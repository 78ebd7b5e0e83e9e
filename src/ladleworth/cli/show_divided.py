"""A divided batch for the eye, and as a document."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

from ladleworth.cli import say, show_filled
from ladleworth.divide import Dealt, Divided, Heap, Known, Measure, PartMade
from ladleworth.divide.heaps import in_words
from ladleworth.divide.pieces import each_words
from ladleworth.facts.limits import OUT_OF_FRIDGE, OUT_OF_FRIDGE_HOT, cited, limit
from ladleworth.household import Kitchen
from ladleworth.units import show_count, show_mass, show_number, show_volume
from ladleworth.week.dividing import DividedBatch

TWICE = 2
"""A reading that is off its reckoning by this factor is looked at again. House rule, no source."""


def whole(batch: DividedBatch) -> None:
    """Show a batch in full."""
    divided, kitchen = batch.divided, batch.kitchen
    into = say.plural(len(divided.portions), "portion")
    say.heading(f"{divided.name}: {say.long_day(batch.when)}, {into}")
    if batch.day is not None:
        say.sentence(
            f"Day {batch.day} of the plan, a batch of {say.plural(batch.portions, 'standard portion')}."
        )
    if divided.swaps:
        say.sentence("Made with " + "; ".join(f"{part}: {swap}" for part, swap in divided.swaps) + ".")
    _what_there_is(batch, kitchen)
    _shares(divided)
    _phases(divided)
    _measures(divided)
    show_filled.containers(batch)
    show_filled.order(divided)
    show_filled.labels(divided)


def what_next(kitchen: Path, batches: Sequence[DividedBatch], *, weighed: bool) -> None:
    """Say how it is weighed, or whether the reading is kept, and how long food may stand."""
    if weighed and not all(one.kept for one in batches):
        say.sentence(
            "The reading is not kept: only a batch of an accepted plan, in a kitchen's file, has a history."
        )
    elif weighed:
        name = batches[0].divided.name
        say.sentence(
            f"The reading is kept; `ladleworth dish {kitchen} {name!r}` shows the dish's own yields."
        )
    else:
        part = batches[0].divided.dealt[0].heap.parts[0] if batches[0].divided.dealt else "PART"
        say.sentence(
            f"Nothing is weighed yet: --weighed 4.1kg --tare 1.2kg for the whole pot, or --weighed '{part}=1.62kg'."
        )
    out, hot = limit(OUT_OF_FRIDGE), limit(OUT_OF_FRIDGE_HOT)
    say.sentence(
        f"Into the fridge or freezer within {show_number(out.value)} minutes of leaving the heat {cited(out)}, "
        f"{show_number(hot.value)} on a hot day. A published limit, and no promise that food is safe: labels and local "
        "advice go first."
    )


# --- what there is -------------------------------------------------------------------------------------------


def _what_there_is(batch: DividedBatch, kitchen: Kitchen) -> None:
    divided = batch.divided
    parts = {one.part: one for one in divided.parts}
    rows = [
        (one.heap.name, _amount(one.heap), _how(one.heap, [parts[name] for name in one.heap.parts], kitchen))
        for one in divided.dealt
    ]
    say.heading("What there is")
    say.table(("part", "there is", "how that is known"), rows, right=(1,))
    for one in divided.dealt:
        if one.heap.known is Known.WEIGHED and _is_far(one.heap):
            say.sentence(
                f"{one.heap.name}: the scale says {_mass(one.heap.total_mg)} where about {_mass(one.heap.reckoned_mg)} "
                "are reckoned; look whether the reading or a tare is wrong."
            )
    reckoned = {name for one in divided.dealt if one.heap.known is Known.RECKONED for name in one.heap.parts}
    if not reckoned:
        return
    raw = dict.fromkeys(food for name in parts if name in reckoned for food in parts[name].raw)
    names = ", ".join(say.food_name(kitchen, food) for food in raw)
    told = (
        f" Counted at the raw weight, for want of a method: {names} (--cooked FOOD=METHOD names one)."
        if raw
        else ""
    )
    say.sentence(f"What boils away from a reckoned part is not taken off: weigh it.{told}")


def _is_far(heap: Heap) -> bool:
    if heap.total_mg is None or not heap.reckoned_mg:
        return False
    return not heap.reckoned_mg / TWICE <= heap.total_mg <= heap.reckoned_mg * TWICE


def _amount(heap: Heap) -> str:
    told = [] if heap.pieces is None else [say.plural(heap.pieces, "piece")]
    if heap.total_mg is not None:
        told.append(_mass(heap.total_mg))
    return ", ".join(told) or "not known"


def _how(heap: Heap, parts: Sequence[PartMade], kitchen: Kitchen) -> str:
    """Say how a heap's weight is known, and what the reckoning rests on or leaves out."""
    told = [heap.known.value]
    if heap.known in (Known.WEIGHED, Known.COUNTED, Known.WRITTEN) and heap.reckoned_mg is not None:
        told.append(f"  reckoned: {_mass(heap.reckoned_mg)}")
    told += [f"  {name}: about {_mass(mass)} of it" for name, mass in heap.within]
    if heap.known is Known.RECKONED:
        told += [f"  {line}" for part in parts for line in _cooked(part, kitchen)]
    if heap.missing and heap.known is not Known.WEIGHED:
        names = dict.fromkeys(say.food_name(kitchen, one.food) for one in heap.missing)
        told.append(f"  no figure for {', '.join(names)}")
    return "\n".join(told)


def _cooked(part: PartMade, kitchen: Kitchen) -> list[str]:
    return [
        f"{say.food_name(kitchen, way.food)} {way.figure.method}"
        f"{', taken for granted' if way.assumed else ''}: {show_number(way.figure.yield_pct, 'decimal')} % "
        f"({way.figure.source}, {way.figure.basis})"
        for way in part.cooked
    ]


# --- who gets how much ---------------------------------------------------------------------------------------


def _shares(divided: Divided) -> None:
    sizes = sorted({portion.size for portion in divided.portions}, reverse=True)
    counts = Counter(portion.size for portion in divided.portions)
    columns = ["part"]
    columns += ["each" if len(sizes) == 1 else f"{counts[size]} of {show_count(size)}" for size in sizes]
    rows = [(one.heap.name, *(_share(divided, one, size) for size in sizes)) for one in divided.dealt]
    known = all(one.shares_mg for one in divided.dealt)
    total = ("in all", *(_range_of(_totals(divided, size)) for size in sizes)) if known else None
    say.heading("Each portion gets")
    say.table(columns, rows, right=range(1, len(columns)), total=total if len(rows) > 1 else None)
    for one in divided.dealt:
        if one.pieces and len(sizes) == 1 and len(set(one.pieces)) == 1 and one.heap.pieces:
            say.sentence(f"{one.heap.name}: {each_words(one.heap.pieces, len(divided.portions))}.")


def _share(divided: Divided, one: Dealt, size: Fraction) -> str:
    mine = [at for at, portion in enumerate(divided.portions) if portion.size == size]
    told = []
    if one.pieces:
        pieces = sorted({one.pieces[at] for at in mine})
        told.append(
            " or ".join(show_count(each) for each in pieces) + (" piece" if pieces == [1] else " pieces")
        )
    if one.shares_mg:
        told.append(_range_of([one.shares_mg[at] for at in mine]))
    return ", ".join(told) or "not known"


def _totals(divided: Divided, size: Fraction) -> list[int]:
    return [
        sum(one.shares_mg[at] for one in divided.dealt)
        for at, portion in enumerate(divided.portions)
        if portion.size == size
    ]


def _range_of(masses: Sequence[int]) -> str:
    least, most = min(masses), max(masses)
    return _mass(least) if _mass(least) == _mass(most) else f"{_mass(least)} to {_mass(most)}"


def _phases(divided: Divided) -> None:
    phases = divided.phases
    if phases is None:
        return
    say.heading("Solids first, then the liquid: what the scale shows")
    sizes = sorted({portion.size for portion in divided.portions}, reverse=True)
    rows = []
    for size in sizes:
        mine = [at for at, portion in enumerate(divided.portions) if portion.size == size]
        rows.append(
            (
                f"{len(mine)} of {show_count(size)}",
                _range_of([phases.solids_mg[at] for at in mine]),
                _range_of([phases.total_mg[at] for at in mine]),
            )
        )
    columns = ("portions", f"with {in_words(phases.solids)}", f"then with {in_words(phases.liquid)}")
    say.table(columns, rows, right=(1, 2))


def _measures(divided: Divided) -> None:
    rows, estimates = [], {}
    for one in divided.dealt:
        for share in one.sizes:
            if share.scoop is None or share.spoon is None or share.volume_ml is None:
                continue
            each = "" if len(one.sizes) == 1 else f" ({show_count(share.size)})"
            about = "about " if one.density.estimated else ""
            rows.append(
                (
                    f"{one.heap.name}{each}",
                    f"{about}{show_volume(share.volume_ml)}",
                    *_measure(share.scoop),
                    *_measure(share.spoon),
                )
            )
        figure = one.density.figure
        weight = f"{float(figure.value):.2f} g/ml, {figure.note} ({figure.source}, {figure.basis})"
        if one.shares_mg and not one.pieces:
            estimates[one.heap.name] = f"{weight}{', an estimate' if one.density.estimated else ''}"
    if not rows:
        return
    say.heading("Measured out level")
    say.table(("part", "fills", "scoop", "off", "cup or spoon", "off"), rows, right=(1, 3, 5))
    for name, told in estimates.items():
        say.sentence(f"{name}: {told}.", indent=2)


def _measure(measure: Measure) -> tuple[str, str]:
    percent = measure.error * 100
    rounded = Fraction(round(percent * 10), 10)
    sign = "+" if rounded > 0 else ""
    return f"{measure.count} × {measure.name}", f"{sign}{show_number(rounded, 'decimal')} %"


def _mass(mass_mg: int | Fraction | None) -> str:
    return "not known" if mass_mg is None else show_mass(mass_mg)


def document(kitchen: Path, batches: Sequence[DividedBatch]) -> dict[str, object]:
    """Gather what --json prints."""
    return {
        "kitchen": kitchen,
        "plan_number": batches[0].plan_number,
        "batches": [
            {
                "dish": one.divided.dish,
                "name": one.divided.name,
                "version": one.divided.version,
                "day": one.day,
                "when": one.when,
                "batch_portions": one.portions,
                "readings": one.readings,
                "kept": one.kept,
                "headspace": one.filling.headspace,
                "depth_limit_mm": one.filling.depth_limit_mm,
                "divided": one.divided,
            }
            for one in batches
        ],
    }
