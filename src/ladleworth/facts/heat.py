"""What is known of heat in food: components of food, surroundings that take heat away, limits of cooling and reheating."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from ladleworth.errors import BadField, MissingFact
from ladleworth.facts.load import read_rows
from ladleworth.facts.records import BASES, Figure
from ladleworth.units import celsius


@dataclass(frozen=True, slots=True)
class ComponentProperty:
    """A property of one component of food as it changes with temperature: constant + by_degree T + by_squared T².

    T in °C, from `from_c` to `to_c`.
    """

    constant: float
    by_degree: float
    by_squared: float
    from_c: float
    to_c: float
    unit: str
    source: str
    basis: str
    note: str = ""

    def at(self, degrees_c: float) -> float:
        """Work it out at a temperature.

        Raises
        ------
        BadField
            If the temperature lies outside the source's range.
        """
        if not self.from_c <= degrees_c <= self.to_c:
            raise BadField(
                f"{degrees_c:g} °C lies outside the range of the source ({self.source}); "
                f"ask for {self.from_c:g} to {self.to_c:g} °C"
            )
        return self.constant + self.by_degree * degrees_c + self.by_squared * degrees_c**2


@dataclass(frozen=True, slots=True)
class Estimate:
    """A figure that is not known well: its slow, middle and fast value, with source and basis.

    Slow is what makes food cool (or warm) the slowest.
    """

    slow: Fraction
    middle: Fraction
    fast: Fraction
    unit: str
    source: str
    basis: str
    note: str = ""

    def __post_init__(self) -> None:
        if self.basis not in BASES:
            raise BadField(f"basis {self.basis!r} is not known; write one of: {', '.join(BASES)}")


@cache
def components() -> Mapping[tuple[str, str], ComponentProperty]:
    """Give what is known of each component by (property, component); read on first use."""
    found = {}
    for row in read_rows("components"):
        found[row["property"], row["component"]] = ComponentProperty(
            float(row["constant"]),
            float(row["by_degree"]),
            float(row["by_degree_squared"]),
            float(row["from_c"]),
            float(row["to_c"]),
            row["unit"],
            row["source"],
            row["basis"],
            row["note"],
        )
    return MappingProxyType(found)


@cache
def estimates() -> Mapping[str, Estimate]:
    """Give every estimate by its name, in the order of the table; read on first use."""
    found = {}
    for row in read_rows("surroundings"):
        slow, middle, fast = (Fraction(row[name]) for name in ("slow", "middle", "fast"))
        found[row["name"]] = Estimate(
            slow, middle, fast, row["unit"], row["source"], row["basis"], row["note"]
        )
    return MappingProxyType(found)


@cache
def heat_limits() -> Mapping[str, Figure]:
    """Give every limit of cooling, freezing and reheating by its name; read on first use."""
    return MappingProxyType(
        {
            row["name"]: Figure(Fraction(row["value"]), row["unit"], row["source"], row["basis"], row["note"])
            for row in read_rows("cooling")
        }
    )


def estimate(name: str) -> Estimate:
    """Look an estimate up; raise MissingFact if the table has none of that name."""
    if name not in estimates():
        raise MissingFact(f"nobody has an estimate of {name!r}; there are: {', '.join(estimates())}")
    return estimates()[name]


def heat_limit(name: str) -> Figure:
    """Look a limit up; raise MissingFact if the table has none of that name."""
    if name not in heat_limits():
        raise MissingFact(f"nobody has a limit called {name!r}; there are: {', '.join(heat_limits())}")
    return heat_limits()[name]


def limit_c(name: str) -> float:
    """Give a limit of temperature in °C, whichever scale the source has it in."""
    figure = heat_limit(name)
    return float(celsius(figure.value) if figure.unit == "°F" else figure.value)
