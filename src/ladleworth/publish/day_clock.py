"""The minutes of a cooking day as times by the clock."""

from __future__ import annotations

from dataclasses import dataclass

DAY_MIN = 24 * 60


@dataclass(frozen=True, slots=True)
class DayClock:
    """When minute 0 is, in minutes from midnight; None: nobody has said, and times count from the beginning."""

    start_min: int | None = None

    @property
    def is_known(self) -> bool:
        """Whether times are those of the clock."""
        return self.start_min is not None

    def at(self, minute: int) -> str:
        """Write a minute of the day: '17:05', past midnight '00:10 (+1)'; without a start '1:05' after the beginning."""
        if self.start_min is None:
            sign = "-" if minute < 0 else ""
            return f"{sign}{abs(minute) // 60}:{abs(minute) % 60:02}"
        days, rest = divmod(self.start_min + minute, DAY_MIN)
        later = f" ({days:+})" if days else ""
        return f"{rest // 60:02}:{rest % 60:02}{later}"

    def ticks(self, first: int, last: int, every: int) -> tuple[int, ...]:
        """List the minutes from first to last at which the clock shows a multiple of `every` minutes."""
        offset = -(self.start_min or 0) % every
        begin = first + (offset - first) % every
        return tuple(range(begin, last + 1, every))
