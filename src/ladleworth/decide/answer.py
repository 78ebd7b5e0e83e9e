"""The frozen answer: a plan of the week, what it costs, and how good it is known to be."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ladleworth.errors import BadField


@dataclass(frozen=True, slots=True, order=True)
class Batch:
    """`portions` of a dish's version cooked on a session's day."""

    day: int
    dish: str
    version: str
    portions: int


@dataclass(frozen=True, slots=True, order=True)
class Helping:
    """What a slot gets: a portion of a batch, one of a lot of portions on hand, or a meal out.

    A batch is named by `dish` and `cooked_day`, a lot by `dish` and `lot`; a meal out has none of them. `version` says which of the batch's versions; None will do where the batch has only one.
    """

    day: int
    eater: str
    meal: str
    dish: str | None = None
    cooked_day: int | None = None
    frozen: bool = False
    version: str | None = None
    lot: str | None = None

    def __post_init__(self) -> None:
        sources = (self.cooked_day is not None) + (self.lot is not None)
        if sources != (self.dish is not None) or (self.dish is None and self.frozen):
            raise BadField("a helping has a dish and either its cooking day or its lot, or none of them")


@dataclass(frozen=True, slots=True, order=True)
class Purchase:
    """`packages` of an offer bought on a session's day, before cooking."""

    day: int
    offer: str
    packages: int


@dataclass(frozen=True, slots=True, order=True)
class Drawing:
    """An amount (mg or pieces) drawn for a batch from a lot on hand, or from an offer's packages of a day.

    `source` is a lot's name (then `bought_day` is None) or an offer's name with the day it was bought. `version`
    says for which of the batch's versions; None will do where the batch has only one.
    """

    day: int
    dish: str
    source: str
    bought_day: int | None
    quantity: int
    version: str | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """A whole week: what is cooked, who eats what when, what is bought, what is drawn from where."""

    batches: tuple[Batch, ...]
    helpings: tuple[Helping, ...]
    purchases: tuple[Purchase, ...]
    drawings: tuple[Drawing, ...]


@dataclass(frozen=True, slots=True)
class Costs:
    """The objective, component by component, in exact cents (`carried` and `reserve` count against it)."""

    tills: Fraction = Fraction(0)
    trips: Fraction = Fraction(0)
    spoilt: Fraction = Fraction(0)
    meals_out: Fraction = Fraction(0)
    carried: Fraction = Fraction(0)
    repeats: Fraction = Fraction(0)
    minutes: Fraction = Fraction(0)
    liking: Fraction = Fraction(0)
    reserve: Fraction = Fraction(0)
    sessions: Fraction = Fraction(0)

    @property
    def total(self) -> Fraction:
        """The value that the decision makes as small as it can."""
        return (
            self.tills
            + self.trips
            + self.spoilt
            + self.meals_out
            + self.repeats
            + self.minutes
            + self.liking
            + self.sessions
            - self.carried
            - self.reserve
        )


class Status(Enum):
    """How an answer stands; the four are different things and are shown as such."""

    PROVEN = "proven best"
    GOOD = "good, with a gap"
    INFEASIBLE = "no plan keeps all the rules"
    OUT_OF_TIME = "out of time"


@dataclass(frozen=True, slots=True)
class Answer:
    """A judged plan and how good it is known to be.

    `bound` is in cents: no plan can cost less. `plan` and `costs` are None when there is no plan to show.
    """

    status: Status
    plan: Plan | None
    costs: Costs | None
    bound: float | None
    seconds: float
    solver: str
    seed: int = 0

    @property
    def gap_cents(self) -> float | None:
        """How far the plan may be from the best one, in cents; 0 when proven."""
        if self.costs is None or self.bound is None:
            return None
        return max(0.0, float(self.costs.total) - self.bound)


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a decision is: the best judged plan's value and the bound, in cents (None: none yet)."""

    seconds: float
    value: float | None
    bound: float | None

    @property
    def gap_cents(self) -> float | None:
        """How far the plan may be from the best one, in cents."""
        if self.value is None or self.bound is None:
            return None
        return max(0.0, self.value - self.bound)


@dataclass(frozen=True, slots=True)
class LowerBound:
    """No plan of the whole question costs less than these cents."""

    cents: float
