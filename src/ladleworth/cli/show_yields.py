"""A dish's own yields for the eye: what the scale said, the middle of it, and the line to write into its papers."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.cli import say
from ladleworth.divide.heaps import in_words
from ladleworth.divide.history import YieldHistory
from ladleworth.units import show_mass


def weighed(history: YieldHistory, written_mg: int | None) -> None:
    """Show what was weighed of a dish's batches; nothing where nothing was.

    Parameters
    ----------
    history
        The readings, by the standard portion.
    written_mg
        The yield that the dish states for all its portions, None without one.
    """
    if not history.seen:
        return
    say.heading("Weighed so far, by the standard portion")
    rows = [
        (
            say.short_day(one.when) + f" {one.when.year}",
            f"{in_words(one.parts)}\n  {one.version}",
            show_mass(one.net_mg),
            str(one.portions),
            *_beside(one.per_portion_mg, one.reckoned_mg),
        )
        for one in history.seen
    ]
    say.table(("cooked", "what", "in all", "for", "each", "reckoned", "off"), rows, right=(2, 3, 4, 5, 6))
    for middle in history.medians:
        each, reckoned, off = _beside(middle.per_portion_mg, middle.reckoned_mg)
        beside = f", where {reckoned} are reckoned ({off})" if reckoned else ""
        batches = say.plural(middle.batches, "batch", "batches")
        say.sentence(
            f"{in_words(middle.parts)} ({middle.version}): the median of {batches} is {each}{beside}."
        )
    offered = history.offered
    if offered is not None:
        instead = "" if written_mg is None else f" in place of {show_mass(written_mg, exact=True)}"
        say.sentence(
            f"The newest whole reading comes to {show_mass(offered.mass_mg, exact=True)} for the recipe's "
            f"{say.plural(offered.portions, 'portion')}. Nothing is written for you: to go by it, write "
            f"`yield: {show_mass(offered.mass_mg, exact=True)}` into the dish{instead}."
        )


def _beside(each_mg: Fraction, reckoned_mg: Fraction | None) -> tuple[str, str, str]:
    """Write a portion's weight, what is reckoned, and by how much it is off."""
    if not reckoned_mg:
        return show_mass(each_mg), "", ""
    percent = round((each_mg / reckoned_mg - 1) * 100)
    return show_mass(each_mg), show_mass(reckoned_mg), f"{percent:+d} %" if percent else "0 %"
