"""What `ladleworth cool` is told of a container: its options, and the question that they come to."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from ladleworth.cli.options import PLACE

if TYPE_CHECKING:
    from ladleworth.keep import CoolingQuestion, Makeup, Probe, Step
    from ladleworth.keep.cool_question import CaseAnswer, CoolAnswer

STEW = "water 75, protein 10, fat 5, carbohydrate 8, fibre 1, ash 1"
"""The food where none is told: a wet stew (chosen)."""

USUAL_START_C = 85.0

_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4}
_LENGTH = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(mm|cm|in)\.?", re.IGNORECASE)
_PAIR = re.compile(r"([0-9.,]+)\s*[x×]\s*([0-9.,]+)\s*(mm|cm|in)\.?", re.IGNORECASE)
_SHARE = re.compile(r"([a-z]+)\s*:?\s*([0-9]+(?:\.[0-9]+)?)\s*%?")


@dataclass(frozen=True, slots=True)
class CoolOptions:
    """The options as read; None: not given."""

    depth_mm: float | None = None
    box_mm: tuple[float, float] | None = None
    round_mm: float | None = None
    lid: str = "off"
    wall: str = "plastic"
    apart: bool | None = None
    stacked: int = 1
    counter_min: int = 0
    ice_bath_min: int = 0
    stir_min: int = 5
    freezer_first_min: int = 0
    into: str = "fridge"
    start_c: float = USUAL_START_C
    room_c: float | None = None
    fridge_c: float | None = None
    freezer_c: float | None = None
    fan: bool = False
    hot_kg: float | None = None
    makeup: str = STEW
    kitchen: Path | None = None
    factor: float | None = None
    curve: tuple[tuple[int, float], ...] = ()
    readings: tuple[tuple[int, float], ...] = ()

    def posed(self, **equipment: float) -> CoolingQuestion:
        """Put the question; what the equipment card says stands where no option does."""
        from ladleworth.keep import CoolingQuestion, FilledContainer, Lid, Surroundings, Wall

        assert self.depth_mm is not None
        told = {"room_c": self.room_c, "fridge_c": self.fridge_c, "freezer_c": self.freezer_c}
        measured = equipment | {name: value for name, value in told.items() if value is not None}
        length, width = self.box_mm or (None, None)
        filled = FilledContainer(
            self.depth_mm,
            length,
            width,
            self.round_mm,
            Lid(self.lid),
            Wall(self.wall),
            self.apart,
            self.stacked,
        )
        around = Surroundings(**measured, fan_fridge=self.fan, fan_freezer=self.fan, factor=self.factor)
        return CoolingQuestion(
            filled, read_makeup(self.makeup), self.steps(), around, self.start_c, self.hot_kg
        )

    def steps(self) -> tuple[Step, ...]:
        """Give the plan: counter, ice bath, freezer first, and where it stays."""
        from ladleworth.keep import Spot, Step, plan_of

        into = Spot(self.into)
        plan = plan_of(self.counter_min, self.ice_bath_min, self.stir_min, into)
        if not self.freezer_first_min or into is Spot.FREEZER:
            return plan
        return (*plan[:-1], Step(Spot.FREEZER, self.freezer_first_min), plan[-1])

    def probes(self) -> tuple[Probe, ...]:
        """Give the readings that are judged, from 135 °F."""
        return _probes(self.readings)

    def curve_probes(self) -> tuple[Probe, ...]:
        """Give the readings of the curve that teaches, from the beginning of the plan."""
        return _probes(self.curve)


def _probes(told: tuple[tuple[int, float], ...]) -> tuple[Probe, ...]:
    from ladleworth.keep import Probe

    return tuple(Probe(minute, degrees) for minute, degrees in told)


def read_makeup(text: str) -> Makeup:
    """Read a makeup in per cent: 'water 68, protein 3, carbohydrate 28, air 20'.

    Raises
    ------
    BadField
        If a component is none, stands twice, or they do not come to 100.
    """
    from ladleworth.errors import BadField
    from ladleworth.keep import Makeup
    from ladleworth.keep.materials import COMPONENTS

    shares: dict[str, float] = {}
    for part in filter(None, (each.strip() for each in text.casefold().split(","))):
        found = _SHARE.fullmatch(part)
        if found is None or found[1] not in (*COMPONENTS, "air") or found[1] in shares:
            raise BadField(f"{part!r} is no share of the food; write it like {STEW!r}, each once, and air")
        shares[found[1]] = float(found[2]) / 100
    return Makeup(**({"water": 0.0} | shares))


def document(answer: CoolAnswer) -> dict[str, Any]:
    """Gather what --json prints of a neutral question."""

    def case(one: CaseAnswer) -> dict[str, Any]:
        readings = [
            {
                "minute": told.minute,
                "hottest_c": told.hottest_c,
                "coldest_c": told.coldest_c,
                "mean_c": told.mean_c,
                "faces_c": dict(told.faces_c),
            }
            for told in one.readings
        ]
        limits = [
            {"point": limit.point, "c": limit.degrees_c, "minutes": limit.minutes} for limit in one.limits
        ]
        return {"readings": readings, "limits": limits}

    return {
        "title": answer.title,
        "by": answer.by,
        "middle": case(answer.middle),
        "slow": case(answer.slow),
    }


class _Read(click.ParamType):  # type: ignore[type-arg]  # generic only in newer releases of click
    """An option whose text a function reads; what it cannot read ends in a message on that option."""

    def __init__(self, name: str, read: Callable[[str], object]) -> None:
        self.name = name
        self.read = read

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> object:
        """Read the text."""
        from ladleworth.errors import LadleworthError

        if not isinstance(value, str):
            return value
        try:
            return self.read(value)
        except LadleworthError as bad:
            self.fail(str(bad), param, ctx)


def _length(text: str) -> float:
    from ladleworth.errors import BadField

    found = _LENGTH.fullmatch(text.strip())
    if found is None:
        raise BadField(f"{text[:40]!r} is no length; write one such as '4 cm', '25 mm' or '2 in'")
    return float(found[1].replace(",", ".")) * _MM[found[2].casefold()]


def _pair(text: str) -> tuple[float, float]:
    from ladleworth.errors import BadField

    found = _PAIR.fullmatch(text.strip())
    if found is None:
        raise BadField(f"{text[:40]!r} is no length by width; write one such as '18 x 13 cm'")
    length, width = (_length(f"{number} {found[3]}") for number in found.groups()[:2])
    return length, width


def _degrees(text: str) -> float:
    from ladleworth.units import read_temperature

    return float(read_temperature(text))


def _minutes(text: str) -> int:
    from ladleworth.units import read_minutes

    return read_minutes(text)


def _kilograms(text: str) -> float:
    from ladleworth.errors import BadField
    from ladleworth.units import KG, Dimension, read_total

    quantity = read_total(text)
    if quantity.dimension is not Dimension.MASS:
        raise BadField(f"{text[:40]!r} is no weight; write one such as '4 kg' or '8 lb'")
    return float(quantity.amount / KG.in_base)


def _reading(text: str) -> tuple[int, float]:
    from ladleworth.errors import BadField

    minute, parted, degrees = text.partition("=")
    if not parted:
        raise BadField(f"{text[:40]!r} is no reading; write minutes and degrees, like '2 h=68 F'")
    return _minutes(minute), _degrees(degrees)


LENGTH, PAIR, DEGREES = _Read("LENGTH", _length), _Read("LxW", _pair), _Read("TEMPERATURE", _degrees)
MINUTES, KILOGRAMS, READING = (
    _Read("TIME", _minutes),
    _Read("WEIGHT", _kilograms),
    _Read("TIME=TEMP", _reading),
)

_OPTIONS = (
    click.option("--depth", "depth_mm", type=LENGTH, help="How deep the food stands."),
    click.option("--box", "box_mm", type=PAIR, help="Length by width of a box: its sides count."),
    click.option("--round", "round_mm", type=LENGTH, help="Diameter of a round one: its side counts."),
    click.option(
        "--lid", type=click.Choice(["off", "on", "touching"]), default="off", show_default=True, help="A lid."
    ),
    click.option(
        "--wall",
        type=click.Choice(["plastic", "glass", "metal"]),
        default="plastic",
        show_default=True,
        help="Its wall.",
    ),
    click.option("--apart/--close", default=None, help="Free air all round, or touching others."),
    click.option("--stacked", type=click.IntRange(1, 20), default=1, help="So many on each other."),
    click.option(
        "--counter", "counter_min", type=MINUTES, default=0, help="How long it stands on the counter."
    ),
    click.option(
        "--ice-bath", "ice_bath_min", type=MINUTES, default=0, help="How long in an ice bath after that."
    ),
    click.option(
        "--stir",
        "stir_min",
        type=MINUTES,
        default=5,
        show_default="5 min",
        help="How often it is stirred there.",
    ),
    click.option(
        "--freezer-first",
        "freezer_first_min",
        type=MINUTES,
        default=0,
        help="How long in the freezer before.",
    ),
    click.option(
        "--into",
        type=click.Choice(["fridge", "freezer"]),
        default="fridge",
        show_default=True,
        help="Where it stays.",
    ),
    click.option(
        "--start",
        "start_c",
        type=DEGREES,
        default=USUAL_START_C,
        show_default="85 C",
        help="How warm it is at first.",
    ),
    click.option("--room", "room_c", type=DEGREES, help="What a thermometer shows in the kitchen."),
    click.option("--fridge", "fridge_c", type=DEGREES, help="What a thermometer shows in the fridge."),
    click.option("--freezer", "freezer_c", type=DEGREES, help="What a thermometer shows in the freezer."),
    click.option("--fan", is_flag=True, help="Fridge and freezer have a fan."),
    click.option("--hot", "hot_kg", type=KILOGRAMS, help="All the hot food that goes in at once."),
    click.option(
        "--makeup", default=STEW, show_default="a wet stew", help="What the food is made of, per cent."
    ),
    click.option("--kitchen", type=PLACE, help="Take a kitchen's thermometers."),
    click.option(
        "--factor",
        type=click.FloatRange(0.1, 10),
        help="What an earlier curve taught of this spot: a share of the table's exchange.",
    ),
    click.option(
        "--curve",
        type=READING,
        multiple=True,
        help="A probe's reading since the plan began, like '45 min=60 C', to learn this spot from.",
    ),
    click.option(
        "--reading",
        "readings",
        type=READING,
        multiple=True,
        help="A reading since 135 °F, like '2 h=68 F'; again for each.",
    ),
)


def of_a_container(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add the options of a container, and give them to the command as one record."""

    @functools.wraps(command)
    def gathered(**given: Any) -> Any:
        own = {name: given.pop(name) for name in CoolOptions.__slots__}
        return command(asked=CoolOptions(**own), **given)

    for option in reversed(_OPTIONS):
        gathered = option(gathered)
    return gathered
