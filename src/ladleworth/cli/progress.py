"""How far a decision is, while it runs: one line that changes on a screen, lines one below the other otherwise."""

from __future__ import annotations

import sys
import threading
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from ladleworth.decide.answer import Progress

LINE_SECONDS = 0.2
"""The line on a screen changes no more often than this, unless the plan has become better."""


class ProgressLine:
    """Tells of plan, bound and gap on stderr: always with `plain` lines, on a screen in one line, else not at all."""

    def __init__(self, *, plain: bool, digits: int, to: TextIO | None = None) -> None:
        self._to = to or sys.stderr
        self._plain = plain
        self._shown = plain or self._to.isatty()
        self._digits = digits
        self._last: tuple[float | None, float | None] = (None, None)
        self._last_s = -1.0
        self._width = 0
        self._lock = threading.Lock()

    def report(self, progress: Progress) -> None:
        """Tell how far it is."""
        if not self._shown:
            return
        with self._lock:
            news = (progress.value, progress.bound)
            if self._plain:
                if news != self._last:
                    print(self._text(progress), file=self._to, flush=True)  # a screen's line
            elif news != self._last or progress.seconds - self._last_s >= LINE_SECONDS:
                text = self._text(progress)
                print(f"\r{text:<{self._width}}", end="", file=self._to, flush=True)
                self._width, self._last_s = len(text), progress.seconds
            self._last = news

    def close(self) -> None:
        """Clear the line, so that what follows begins on a line of its own."""
        if self._width:
            print(f"\r{'':<{self._width}}\r", end="", file=self._to, flush=True)
            self._width = 0

    def _text(self, progress: Progress) -> str:
        plan = "no plan yet" if progress.value is None else f"plan {self._money(progress.value)}"
        bound = "no bound yet" if progress.bound is None else f"bound {self._money(progress.bound)}"
        gap = "" if progress.gap_cents is None else f", gap {self._money(progress.gap_cents)}"
        return f"{progress.seconds:5.1f} s  {plan}, {bound}{gap}"

    def _money(self, cents: float) -> str:
        return f"{cents / 10**self._digits:.{self._digits}f}"
