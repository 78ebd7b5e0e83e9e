"""What is found out about a cooking day beside its timetable, and what `cookday --json` prints."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ladleworth.cookday.judge import measure
from ladleworth.cookday.pose_tools import Gathered, gather
from ladleworth.cookday.reasons import Link, Saving, critical_chain, savings
from ladleworth.cookday.slack import HowSlow, Simulated, Window, how_slow, simulate, tight_windows
from ladleworth.publish.day_rows import limits_of, rows_of

if TYPE_CHECKING:
    from ladleworth.cli.day_options import DayOptions
    from ladleworth.household import Equipment
    from ladleworth.week.day_planning import DayAsking, PlannedDay


@dataclass(frozen=True, slots=True)
class Found:
    """How a timetable stands, and what was asked about it besides."""

    windows: tuple[Window, ...] = ()
    slow: HowSlow | None = None
    simulated: Simulated | None = None
    gathered: tuple[Gathered, ...] = ()
    chain: tuple[Link, ...] | None = None
    savings: tuple[Saving, ...] | None = None


def found_out(planned: PlannedDay, wanted: DayOptions, asking: DayAsking, equipment: Equipment) -> Found:
    """Find out how a timetable stands, and with --why what its finish hangs on; nothing where there is none."""
    question, nominal = planned.question, planned.answer.nominal
    if nominal is None:
        return Found()
    chance = simulate(question, nominal, wanted.simulate, asking.seed) if wanted.simulate else None
    return Found(
        tight_windows(question, nominal),
        how_slow(question, nominal),
        chance,
        gather(question, equipment, nominal),
        critical_chain(question, nominal, slow=False) if wanted.why else None,
        savings(question, planned.answer) if wanted.why else None,
    )


def document(planned: PlannedDay, found: Found) -> dict[str, object]:
    """Gather what --json prints."""
    session, answer, posed = planned.session, planned.answer, planned.session.posed
    question, nominal = planned.question, answer.nominal
    return {
        "kitchen": planned.kitchen,
        "plan_number": planned.plan_number,
        "day": session.day,
        "when": session.when,
        "start": None if planned.start is None else planned.start.isoformat(timespec="minutes"),
        "status": answer.status,
        "bound": answer.bound,
        "measure": answer.measure,
        "stated_finish": None if nominal is None else measure(question, nominal).finish,
        "seconds": answer.seconds,
        "seed": answer.seed,
        "solver": answer.solver,
        "why_not": answer.why_not,
        "soonest": planned.soonest,
        "question": question,
        "timetable": nominal,
        "slow": answer.slow,
        "rows": () if nominal is None else rows_of(question, nominal, posed.instructions, posed.cores),
        "limits": () if nominal is None else limits_of(question, nominal),
        "windows": found.windows,
        "how_slow": found.slow,
        "chain": found.chain,
        "savings": found.savings,
        "simulated": found.simulated,
        "assumptions": posed.assumptions,
        "doubts": posed.doubts,
        "notes": posed.notes,
        "to_thaw": session.to_thaw,
        "day_before": posed.day_before,
        "gather": found.gathered,
        "prep_list": posed.prep_list,
        "instructions": posed.instructions,
        "cores": posed.cores,
    }
