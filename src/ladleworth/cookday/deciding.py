"""The shortest day: seek it, make its times as good as its order allows, at either pace, and have both judged.

First the finish is made as small as it can be, and that may be proven; then the stretch in which hands are at work,
then the minutes that food stands warm, each with a set amount of work and without a proof. The order found is then kept, and
only the times are made anew (`shifting.py`), at the slow pace and at the stated one. Where the order cannot be kept at the
stated pace, since shorter work makes some wait too long, work begins when it does at the slow pace, or else the stated pace
is sought by itself.

All runs are limited by work, and a smaller day gets less: as long as the seconds are enough, the same question and seed give
the same timetable on every machine with the same solver.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ladleworth.cookday.answer import DayAnswer, Measure, Status, Timetable
from ladleworth.cookday.building import build, read
from ladleworth.cookday.columns import DayModel, Kept
from ladleworth.cookday.happened import missed
from ladleworth.cookday.judge import Breach, judge, measure
from ladleworth.cookday.model import Clock, run, solver
from ladleworth.cookday.people import hand_out
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.seeking import Patience, Sought, seek
from ladleworth.cookday.shifting import shift
from ladleworth.cookday.whynot import circle, wanting, ways_out
from ladleworth.errors import JudgeRefused

LATER_SHARE = 0.5
"""What the hands' stretch and the warm minutes may take on top of the seconds for the finish."""

SPAN_STEPS = 4
"""Steps of the search for a shorter stretch of the hands."""

WARM_WORK = 0.4
"""Work for fewer warm minutes, on a day of a hundred activities."""

LEAST_WARM_WORK = 0.15
"""Work for them on the smallest of days."""

STATED_SECONDS = 1.5
"""What there is at the least to seek the stated pace by itself."""

WHY_SECONDS = 0.5
"""No more seconds than this go into each thing that might give where a day has no timetable."""

REPLAN_SECONDS = 0.5
"""How long the rest of a day on its way is sought anew, so that the cook has it within a second."""


def timetable(
    question: DayQuestion, *, seconds: float = 10.0, seed: int = 0, workers: int | None = None
) -> DayAnswer:
    """Find the timetable that is done first.

    Parameters
    ----------
    question
        The question of the day.
    seconds
        The clock limit of the search for the finish; what follows takes a few seconds more at the most.
    seed
        The seed of every random choice.
    workers
        Searches side by side (1 or 2); None: as many as there are cores, two at the most.

    Returns
    -------
    DayAnswer
        With two timetables that the judge let stand, or the reason why there is none.

    Raises
    ------
    JudgeRefused
        If what was found breaks a rule: a defect of the programme, never shown.
    """
    return _Deciding(question, seconds, seed, workers or min(2, os.cpu_count() or 1)).answer(None)


def replan(
    question: DayQuestion,
    earlier: DayAnswer,
    *,
    seconds: float = REPLAN_SECONDS,
    seed: int = 0,
    workers: int | None = None,
) -> DayAnswer:
    """Plan the rest of a day on its way, beginning from the timetable that was in force.

    Parameters
    ----------
    question
        The day with what has begun, and the minute that it is now.
    earlier
        The answer in force; the oven's heats and the tools of what has begun stay as they were there.
    seconds, seed, workers
        As for `timetable`.

    Returns
    -------
    DayAnswer
        As good as the earlier order moved on, at the least, where that can still be kept.
    """
    return _Deciding(question, seconds, seed, workers or min(2, os.cpu_count() or 1)).answer(earlier)


def least_finish(
    question: DayQuestion, *, seconds: float, seed: int = 0, workers: int | None = None
) -> Sought:
    """Seek the least finish alone, without a timetable: what is known of it once the seconds are over.

    Parameters
    ----------
    question
        The question of the day; the finish is that of the slow pace, in minutes.
    seconds, seed, workers
        As for `timetable`.
    """
    if wanting(question) or circle(question, slow=True):
        return Sought(0, impossible=True)
    deciding = _Deciding(question, seconds, seed, workers or min(2, os.cpu_count() or 1))
    return deciding.seek_finish(build(question, slow=True), Clock(seconds), None)


@dataclass(slots=True)
class _Deciding:
    """One search: the question, its clock, and how many searches go side by side."""

    question: DayQuestion
    seconds: float
    seed: int
    workers: int

    def answer(self, earlier: DayAnswer | None) -> DayAnswer:
        """Look for reasons why not, then for the timetable."""
        clock = Clock(self.seconds)
        why = wanting(self.question) or circle(self.question, slow=True) or circle(self.question, slow=False)
        if why:
            return self._none(Status.IMPOSSIBLE, None, why, clock)
        moved = None if earlier is None or earlier.slow is None else self._moved(earlier.slow)
        model = build(self.question, slow=True, kept=_kept(self.question, earlier))
        sought = self.seek_finish(model, clock, moved)
        if sought.impossible and moved is None:
            return self._none(Status.IMPOSSIBLE, None, self._why(), clock)
        slow = moved
        if sought.values is not None:
            slow = self._refined(model, sought)
        if slow is None:
            return self._none(Status.OUT_OF_TIME, sought.lower, (), clock)
        return self._judged(slow, sought, earlier, clock)

    def _patience(self, clock: Clock) -> Patience:
        """How long to seek: smaller days are begun with less work."""
        size, one_cook = self._size(), self.question.bench.cooks == 1
        return Patience(
            clock,
            look=0.1 * size,
            first=0.5 * size,
            threads=self.workers,
            seed=self.seed,
            turn=int(one_cook),
        )

    def _size(self) -> float:
        """The work that a day takes, against one of a hundred activities."""
        return max(0.1, (len(self.question.activities) / 100) ** 2)

    def seek_finish(self, model: DayModel, clock: Clock, moved: Timetable | None) -> Sought:
        """Seek the least finish."""
        if not model.possible:
            return Sought(0, impossible=True)
        known = None if moved is None else measure(self.question, moved).finish
        patience = self._patience(clock)
        return seek(model.sheet, model.finish, model.soonest, patience, known=known, tidy=model.tidy)

    def _refined(self, model: DayModel, sought: Sought) -> Timetable:
        """Make what comes after the finish smaller, give out the work, and make the times as good as the order allows."""
        assert sought.values is not None
        sheet, values = model.sheet, sought.values
        clock = Clock(LATER_SHARE * self.seconds)
        sheet.row(model.finish, None, model.finish.value(values))
        span = model.last_hands - model.first_hands
        if span.terms:
            patience = replace(self._patience(clock), steps=SPAN_STEPS, reach=Fraction(1))
            less = seek(sheet, span, 0, patience, known=span.value(values), hint=values, tidy=model.tidy)
            values = less.values or values
            sheet.row(span, None, span.value(values))
        if model.warm.terms:
            work = max(LEAST_WARM_WORK, WARM_WORK * self._size())
            values = run(sheet, model.warm, work, clock=clock, seed=self.seed, hint=values).values or values
        return self._timed(model, values, slow=True)

    def _timed(self, model: DayModel, values: Sequence[int], *, slow: bool) -> Timetable:
        """Make a timetable of a solution: heats as wanted, people, and times as good as the order allows."""
        found = hand_out(self.question, read(model, values))
        return self._shifted(found, slow=slow, heats=model.kept.heats) or found

    def _shifted(
        self, found: Timetable, *, slow: bool, heats: Mapping[str, int] | None = None
    ) -> Timetable | None:
        """Keep the order and make the times as good as it allows; None if that cannot be, or the judge refuses."""
        shifted = shift(self.question, found, slow=slow, heats=heats)
        return None if shifted is None or judge(self.question, shifted, slow=slow) else shifted

    def _moved(self, earlier: Timetable) -> Timetable | None:
        """Move the earlier timetable on: its order, the facts, and what is left in time."""
        return self._shifted(earlier, slow=True)

    def _nominal(self, slow: Timetable, earlier: DayAnswer | None) -> Timetable | Status:
        """Time the same order at the stated pace; where it cannot be kept, seek another; else say how that ended."""
        for start_from in (slow, None if earlier is None else earlier.nominal):
            if start_from is not None:
                shifted = self._shifted(start_from, slow=False)
                if shifted is not None:
                    return shifted
        model = build(self.question, slow=False, kept=_kept(self.question, earlier))
        sought = self.seek_finish(model, Clock(max(STATED_SECONDS, self.seconds)), None)
        if sought.values is None:
            return Status.IMPOSSIBLE if sought.impossible else Status.OUT_OF_TIME
        return self._timed(model, sought.values, slow=False)

    def _judged(self, slow: Timetable, sought: Sought, earlier: DayAnswer | None, clock: Clock) -> DayAnswer:
        nominal = self._nominal(slow, earlier)
        if nominal is Status.IMPOSSIBLE:
            why = "hands at the stated pace are too quick for the greatest waits: it is proven that no order keeps them"
            return self._none(Status.IMPOSSIBLE, None, (why,), clock)
        if isinstance(nominal, Status):
            return self._none(nominal, sought.lower, (), clock)
        breaches: Sequence[Breach] = (
            *judge(self.question, slow, slow=True),
            *judge(self.question, nominal, slow=False),
        )
        if breaches:
            raise JudgeRefused(map(str, breaches))
        found: Measure = measure(self.question, slow)
        if found.finish < sought.lower:  # then no bound can be trusted
            raise JudgeRefused([f"all is done by minute {found.finish}; {sought.lower} was called the least"])
        bound = sought.lower
        status = Status.PROVEN if bound == found.finish else Status.GOOD
        return DayAnswer(
            status,
            slow,
            nominal,
            found,
            bound,
            clock.passed(),
            self.seed,
            solver(),
            missed(self.question, nominal),
        )

    def _why(self) -> tuple[str, ...]:
        """Say what would have to give; the solver has proven that as it is there is no timetable."""

        def has_timetable(loose: DayQuestion) -> bool | None:
            sought = least_finish(loose, seconds=WHY_SECONDS, seed=self.seed, workers=self.workers)
            return None if sought.known is None and not sought.impossible else sought.known is not None

        return (
            "what runs at the same time and the greatest waits clash: it is proven that no order of the work keeps all the rules",
            *ways_out(self.question, has_timetable),
        )

    def _none(self, status: Status, bound: int | None, why: tuple[str, ...], clock: Clock) -> DayAnswer:
        return DayAnswer(status, None, None, None, bound, clock.passed(), self.seed, solver(), why_not=why)


def _kept(question: DayQuestion, earlier: DayAnswer | None) -> Kept | None:
    """Keep the oven's heats and the tools of what has begun."""
    if earlier is None or earlier.slow is None:
        return None
    begun = {one.activity for one in question.begun}
    heats = {heated.activity: heated.heat_c for heated in earlier.slow.oven if heated.activity in begun}
    used = {use.name for use in question.uses if begun & set(use.activities)}
    return Kept(heats, {held.use: held.which for held in earlier.slow.tools if held.use in used})
