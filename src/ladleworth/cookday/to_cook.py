"""What is to be cooked on a day, before it is posed: the batches, and the steps of each that are done."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from ladleworth.cookday.pose_minutes import hands_on_minutes, whole_minutes
from ladleworth.cookday.question import require
from ladleworth.dish.dish import Dish, Step, Variant
from ladleworth.dish.needs import Needs, read_needs
from ladleworth.dish.step_order import Edges, all_followed, followed, nearest_only, without
from ladleworth.dish.tree import shorten
from ladleworth.errors import Finding, Place

BatchKey = tuple[str, str]
"""A dish's id and the name of its version."""

HEATING = frozenset(
    {"kettle", "toaster", "grill", "griddle", "waffle iron", "steamer", "slow cooker", "rice cooker", "pressure cooker",
     "deep fryer", "air fryer", "electric skillet"}
)  # fmt: skip
"""Tools that heat food by themselves. House rule, no source."""


@dataclass(frozen=True, slots=True)
class BatchToCook:
    """A batch of the day: a dish in one version, how many portions of it, and the containers that they fill.

    Parameters
    ----------
    dish, variant
        The dish, and the swaps chosen.
    portions
        Standard portions.
    chilled, frozen
        Containers for the fridge and for the freezer.
    apart_from
        Batches of which nothing that stays in a pan may come into this one: somebody who has this one never has those.
    """

    dish: Dish
    variant: Variant
    portions: int
    chilled: int
    frozen: int = 0
    apart_from: frozenset[BatchKey] = frozenset()

    def __post_init__(self) -> None:
        require(self.portions >= 1, f"{self.dish.name}: a batch has 1 portion or more")
        require(self.chilled >= 0 and self.frozen >= 0, f"{self.dish.name}: containers must not be negative")

    @property
    def key(self) -> BatchKey:
        """The dish's id and the name of the version."""
        return self.dish.id, self.variant.name

    @property
    def containers(self) -> int:
        """How many containers it fills in all."""
        return self.chilled + self.frozen

    @property
    def factor(self) -> Fraction:
        """How many times the recipe it is."""
        return Fraction(self.portions, self.dish.portions)


@dataclass(frozen=True, slots=True)
class Work:
    """A step on the timetable: what it needs, its minutes for this batch, and the names of its activities.

    `number` is its place in the recipe, from 1. `follows` are the steps of the batch's `works` that it follows, by
    position, those only that are nearest. `hands` and `alone` name its activities, '' where it has none of the kind.
    """

    step: Step
    number: int
    needs: Needs
    hands_min: int
    alone_min: int
    follows: frozenset[int]
    hands: str
    alone: str

    @property
    def first(self) -> str:
        """The activity that it begins with."""
        return self.hands or self.alone

    @property
    def last(self) -> str:
        """The activity that it ends with."""
        return self.alone or self.hands

    @property
    def activities(self) -> tuple[str, ...]:
        """Its activities in order."""
        return tuple(filter(None, (self.hands, self.alone)))

    @property
    def heats(self) -> bool:
        """Whether the food is heated: in the oven, on a burner, in the microwave, or by a tool of HEATING."""
        needs = self.needs
        return bool(needs.oven or needs.burners or needs.microwaves or HEATING & set(needs.tools))


@dataclass(frozen=True, slots=True)
class Earlier:
    """A step of the day before, with its minutes for this batch; `lead_min` until the next day's work may begin."""

    step: Step
    hands_min: int
    alone_min: int
    lead_min: int


@dataclass(frozen=True, slots=True)
class BatchAtWork:
    """A batch with its steps sorted out: on the timetable, of the day before, and notes that take no time."""

    batch: BatchToCook
    name: str
    works: tuple[Work, ...]
    earlier: tuple[Earlier, ...] = ()
    notes: tuple[str, ...] = ()
    far: Edges = field(default=(), repr=False)

    @property
    def ends(self) -> tuple[Work, ...]:
        """The steps that no other follows."""
        followed_ones = frozenset().union(*(work.follows for work in self.works))
        return tuple(work for at, work in enumerate(self.works) if at not in followed_ones)

    def after(self, at: int) -> tuple[Work, ...]:
        """The steps that follow one of them next."""
        return tuple(work for work in self.works if at in work.follows)

    def called(self, what: str) -> str:
        """Name an activity of the batch."""
        return f"{self.name}: {what}"


def at_work(batches: Sequence[BatchToCook]) -> tuple[tuple[BatchAtWork, ...], tuple[Finding, ...]]:
    """Sort out the steps of a day's batches, with their minutes.

    Parameters
    ----------
    batches
        The batches; several of one dish are one batch that is split, and share the dish's own fixed minutes by their
        portions.

    Returns
    -------
    tuple of BatchAtWork, and of Finding
        The batches that can be put on a timetable; and for each of the others what its dish has to say first.

    Raises
    ------
    BadField
        If a dish stands there twice in one version.
    """
    times = Counter(batch.key for batch in batches)
    twice = [dish for (dish, _), count in times.items() if count > 1]
    require(not twice, f"{', '.join(twice)} is to be cooked twice in one version; put the portions together")
    found: list[BatchAtWork] = []
    faults: list[Finding] = []
    for batch in batches:
        split = sum(other.dish.id == batch.dish.id for other in batches) > 1
        name = f"{batch.dish.name} ({batch.variant.name})" if split else batch.dish.name
        wrong = _faults(batch)
        faults += [fault for fault in wrong if fault not in faults]
        if not wrong:
            found.append(_at_work(batch, name, hands_on_total(batch, batches)))
    return tuple(found), tuple(faults)


def hands_on_total(batch: BatchToCook, batches: Sequence[BatchToCook]) -> Fraction:
    """Add up a batch's hands-on minutes as the week counts them: fixed, and so much a portion.

    Of batches of one dish in several versions the dish's own fixed minutes are spent once; here they are shared by
    portions.
    """
    dish, variant = batch.dish, batch.variant
    together = sum(other.portions for other in batches if other.dish.id == dish.id)
    own = dish.fixed_min * Fraction(batch.portions, together)
    return variant.fixed_min - dish.fixed_min + own + variant.per_portion_min * batch.portions


def _done(batch: BatchToCook) -> tuple[bool, ...]:
    return tuple(step.is_done_with(batch.variant.swaps) for step in batch.dish.steps)


def _faults(batch: BatchToCook) -> list[Finding]:
    """Say what keeps a batch off a timetable, with what to write."""
    dish = batch.dish
    steps = [step for step, done in zip(dish.steps, _done(batch), strict=True) if done]
    place = Place(dish.name, item="steps")
    if not any(step.hands_on_min or step.unattended_min for step in steps if not step.day_before):
        what = f"{dish.name} has no steps with minutes" if steps else f"{dish.name} has no steps"
        remedy = "write them: steps: [{do: Chop the onion., hands_on: 5 min, needs: [hands, board]}]"
        return [Finding(place, f"{what}, so that it cannot be put on a timetable", remedy)]
    total = hands_on_total(batch, [batch])
    if total and not any(step.hands_on_min for step in steps):
        what = f"{dish.name} takes hands-on minutes, and none of its steps has any"
        return [Finding(place, what, "write hands_on at the steps that keep the cook busy")]
    return [
        Finding(
            Place(dish.name, item=f"steps[{dish.steps.index(step) + 1}].needs"),
            f"{dish.name}: {shorten(step.text)} needs the oven and does not say how hot",
            "write needs: [oven at 190 °C]",
        )
        for step in steps
        if (oven := read_needs(step.needs).oven) is not None and oven.heat_c is None and not step.day_before
    ]


def _at_work(batch: BatchToCook, name: str, total: Fraction) -> BatchAtWork:
    steps, done = batch.dish.steps, _done(batch)
    timed = [at for at, step in enumerate(steps) if done[at] and step.hands_on_min + step.unattended_min]
    shared = hands_on_minutes([steps[at].hands_on_min for at in timed], total)
    hands = dict(zip(timed, shared, strict=True))
    today = [at for at in timed if not steps[at].day_before]
    position = {at: place for place, at in enumerate(today)}
    edges = nearest_only(without(followed(steps), set(range(len(steps))) - set(today)))
    works = tuple(
        _work(steps[at], at, name, hands[at], frozenset(position[before] for before in edges[at]))
        for at in today
    )
    return BatchAtWork(
        batch=batch,
        name=name,
        works=works,
        earlier=_earlier(steps, [at for at in timed if steps[at].day_before], hands),
        notes=tuple(step.text for at, step in enumerate(steps) if done[at] and at not in hands),
        far=all_followed(tuple(work.follows for work in works)),
    )


def _work(step: Step, at: int, name: str, hands_min: int, follows: frozenset[int]) -> Work:
    alone_min = whole_minutes(step.unattended_min)
    called = f"{name}: {at + 1}" + (f" {step.name}" if step.name else "")
    return Work(
        step=step,
        number=at + 1,
        needs=read_needs(step.needs),
        hands_min=hands_min,
        alone_min=alone_min,
        follows=follows,
        hands=called if hands_min else "",
        alone=(f"{called}, by itself" if hands_min else called) if alone_min else "",
    )


def _earlier(steps: Sequence[Step], listed: Sequence[int], hands: dict[int, int]) -> tuple[Earlier, ...]:
    """List the work of the day before, each step with the minutes until all that hangs on it is done."""
    edges = without(followed(steps), set(range(len(steps))) - set(listed))
    lead: dict[int, int] = {}
    for at in sorted(listed, key=lambda at: len(all_followed(edges)[at]), reverse=True):
        later = max((lead[other] for other in listed if at in edges[other]), default=0)
        lead[at] = hands[at] + whole_minutes(steps[at].unattended_min) + later
    return tuple(
        Earlier(steps[at], hands[at], whole_minutes(steps[at].unattended_min), lead[at]) for at in listed
    )
