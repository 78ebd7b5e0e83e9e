"""`ladleworth cool`: how a container of hot food cools, against the published limits; or a neutral question."""

from __future__ import annotations

import sys
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from ladleworth.cli import cool_options, options
from ladleworth.cli.cool_options import CoolOptions

if TYPE_CHECKING:
    from ladleworth.keep import Calibration, CoolingQuestion

MOST_BYTES = 5_000_000


@click.command()
@click.option(
    "--question",
    type=options.PLACE,
    metavar="FILE",
    help="A question of materials, layers and faces as JSON, in place of a container.",
)
@cool_options.of_a_container
@options.as_json
def cool(question: Path | None, asked: CoolOptions, *, as_json: bool) -> None:
    """Forecast how a container of food cools.

    With --depth: minutes from 135 °F to 70 and 41 °F in a middle case and in a slow corner, against the retail limits
    and advice for homes, and what would meet them. With --reading: what readings in the thickest middle come to. A
    thermometer decides; the forecast only plans.

    --question FILE instead: temperatures over time and times to given limits of any body of layers
    (docs/cool-question.md); `-` reads what is piped in.
    """
    if question is not None:
        if asked != CoolOptions():
            raise click.UsageError("--question takes --json; the other options are for a container")
        _answer(question, as_json=as_json)
        return
    if asked.curve and asked.depth_mm is None:
        raise click.UsageError(
            "--curve teaches of a container: say its --depth, and the plan that was followed"
        )
    if asked.depth_mm is None and not asked.readings:
        raise click.UsageError("say --depth '4 cm' of a container, or --reading, or --question FILE")
    _forecast(asked, as_json=as_json)


def _answer(file: Path, *, as_json: bool) -> None:
    """Answer a neutral question."""
    from ladleworth.keep.cool_json import read_cool_question
    from ladleworth.keep.cool_question import solve

    asked = read_cool_question(_text(file), "the question" if str(file) == "-" else str(file))
    answer = solve(asked)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(cool_options.document(answer))
        return
    from ladleworth.cli import show_cool

    show_cool.answer(answer)


def _text(file: Path) -> str:
    from ladleworth.errors import BadField

    if str(file) == "-":
        data = sys.stdin.buffer.read(MOST_BYTES + 1)
    else:
        with file.open("rb") as handle:
            data = handle.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise BadField(f"{file} has more than {MOST_BYTES // 1_000_000} MB; that is no question of cooling")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise BadField(
            f"{file}:{line}: byte {data[error.start]:#04x} is no UTF-8; save the file as UTF-8"
        ) from error


def _forecast(asked: CoolOptions, *, as_json: bool) -> None:
    """Forecast a container, and judge readings."""
    from ladleworth.keep import forecast, verdict_of, ways_out

    equipment = _equipment(asked.kitchen)
    posed: CoolingQuestion | None = None if asked.depth_mm is None else asked.posed(**equipment)
    learned = None
    if asked.curve and posed is not None:
        posed, learned = _learned(posed, asked)
    told = None if posed is None else forecast(posed)
    ways = () if posed is None else ways_out(posed)
    verdict = verdict_of(asked.probes()) if asked.readings else None
    if as_json:
        from ladleworth.cli.json_out import write_json
        from ladleworth.keep.cooling_words import CAUTIONS

        write_json(
            {
                "forecast": told,
                "ways_out": ways,
                "calibration": learned,
                "readings": verdict,
                "cautions": CAUTIONS,
            }
        )
        return
    from ladleworth.cli import show_cool

    if learned is not None:
        show_cool.learned(learned)
    if told is not None:
        show_cool.forecast(told, ways)
    if verdict is not None:
        show_cool.readings(verdict)
    show_cool.cautions()


def _learned(posed: CoolingQuestion, asked: CoolOptions) -> tuple[CoolingQuestion, Calibration]:
    """Fit the curve, and ask with what it taught."""
    from ladleworth.keep import calibrate

    learned = calibrate(posed, asked.curve_probes())
    return replace(posed, around=replace(posed.around, factor=learned.factor)), learned


def _equipment(kitchen: Path | None) -> dict[str, Any]:
    """Take the thermometers' readings off a kitchen's equipment card."""
    if kitchen is None:
        return {}
    from ladleworth.week import open_kitchen

    card = open_kitchen(kitchen).household.equipment
    told: dict[str, Fraction | None] = {
        "room_c": card.room_c,
        "fridge_c": card.fridge_c,
        "freezer_c": card.freezer_c,
    }
    return {name: float(value) for name, value in told.items() if value is not None}
