"""Containers of a divided batch for the eye: which ones, in which order they are filled, what stands on them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ladleworth.cli import say
from ladleworth.divide import Divided, Filled, Label, Layer
from ladleworth.facts.headspace import headspace
from ladleworth.units import show_count, show_mass, show_number, show_volume
from ladleworth.week.dividing import DividedBatch


def containers(batch: DividedBatch) -> None:
    """Say which container each kept portion goes into, how full and deep, and what to leave free for freezing."""
    divided = batch.divided
    say.heading("Containers")
    if divided.fit is None:
        say.sentence(f"No choice of containers: {divided.why_no_fit}.")
        return
    groups: dict[tuple[bool, int, int | None], list[Filled]] = {}
    for one in divided.fit.filled:
        frozen = divided.portions[one.portion].frozen
        groups.setdefault((frozen, one.container.size_ml, one.container.depth_mm), []).append(one)
    rows = [
        (
            str(len(group)),
            show_volume(size),
            "freezer" if frozen else "fridge",
            show_volume(group[0].room_ml),
            _spread([show_volume(one.volume_ml) for one in group]),
            _spread([_depth(one.depth_mm) for one in group]),
        )
        for (frozen, size, _), group in groups.items()
    ]
    if rows:
        say.table(("containers", "of", "place", "take", "filled", "deep"), rows, right=(0, 1, 3, 4, 5))
    for reason in divided.fit.reasons:
        say.sentence(f"{reason[0].upper()}{reason[1:]}.")
    left = ", ".join(f"{one.count} of {show_volume(one.size_ml)}" for one in divided.fit.left)
    say.sentence(f"Clean ones left: {left or 'none'}.")
    _notes(batch, [key for key in groups if key[0]], [key for key in groups if key[2] is None])


def _notes(
    batch: DividedBatch,
    frozen: Sequence[tuple[bool, int, int | None]],
    unmeasured: Sequence[tuple[bool, int, int | None]],
) -> None:
    share = show_number(batch.filling.headspace * 100, "decimal")
    if unmeasured:
        sizes = ", ".join(dict.fromkeys(show_volume(size) for _, size, _ in unmeasured))
        deep = (
            ""
            if batch.filling.depth_limit_mm is None
            else "; whether they keep the depth asked for is not known"
        )
        say.sentence(
            f"How deep the ones of {sizes} are is not written: {share} % of them is left empty (house rule){deep}."
        )
    for size in sorted({size for _, size, _ in frozen}):
        gap = headspace(size)
        say.sentence(
            f"Into the freezer: leave {float(gap.value):.0f} mm or more free at the top of {show_volume(size)} "
            f"({gap.source}, {gap.basis})."
        )


def _depth(depth_mm: Fraction | None) -> str:
    return "" if depth_mm is None else f"{float(depth_mm):.0f} mm"


def _spread(texts: Sequence[str]) -> str:
    told = list(dict.fromkeys(texts))
    return told[0] if len(told) == 1 else f"{told[0]} to {told[-1]}"


def order(divided: Divided) -> None:
    """Say in which order a container is filled, and what goes to the side, with the reasons."""
    same = divided.chilled == divided.frozen or not divided.frozen or not divided.chilled
    if same:
        _order("Fill from the bottom up", divided.chilled or divided.frozen)
        return
    _order("Fill from the bottom up, for the fridge", divided.chilled)
    _order("Fill from the bottom up, for the freezer", divided.frozen)


def _order(title: str, layers: Sequence[Layer]) -> None:
    if len(layers) < 2:
        return
    rows = [(layer.part, layer.goes.value, f"{layer.why} {_from(layer)}") for layer in layers]
    say.heading(title)
    say.table(("part", "goes", "why"), rows)


def _from(layer: Layer) -> str:
    if layer.basis == "common practice":
        return "(common practice, no source)"
    return "(the dish)" if layer.basis == "own" else f"({layer.source}, {layer.basis})"


def labels(divided: Divided) -> None:
    """List what stands on each container, with the code to write where no label holds."""
    if not divided.labels:
        return
    say.heading("On the containers (the code can be written by hand)")
    several = len({label.size for label in divided.labels}) > 1
    rows = [
        (
            label.code,
            f"{label.number} of {label.of}",
            "freezer" if label.frozen else "fridge",
            _for(label, several=several),
            _contents(label),
        )
        for label in divided.labels
    ]
    say.table(("code", "no.", "place", "for", "holds"), rows)


def _for(label: Label, *, several: bool) -> str:
    day = "" if label.day is None else f" {say.short_day(label.day)}"
    size = f" ({show_count(label.size)})" if several else ""
    return f"{label.who}{day}{size}"


def _contents(label: Label) -> str:
    told = []
    for content in label.contents:
        pieces = "" if content.pieces is None else f"{show_count(content.pieces)} "
        mass = "" if content.mass_mg is None else f"{show_mass(content.mass_mg)} "
        told.append(f"{pieces or mass}{content.what}{' (aside)' if content.aside else ''}")
    return ", ".join(told)
