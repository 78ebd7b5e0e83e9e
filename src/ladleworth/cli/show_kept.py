"""What a plan keeps and feeds, for the eye: containers and room by night, nutrients, what is made differently."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.cli import say
from ladleworth.facts import NUTRIENTS
from ladleworth.units import show_number, show_volume
from ladleworth.week import (
    Night,
    NutrientMean,
    PlannedWeek,
    SizeInUse,
    cooking_of,
    nights_of,
    nutrients_of,
)


def differences(week: PlannedWeek) -> None:
    """Say what of each batch is made otherwise, or comes out otherwise, since it is kept."""
    told = [
        (batch.name, str(one))
        for session in cooking_of(week)
        for batch in session.batches
        for one in batch.differences
    ]
    if told:
        say.heading("Made differently, since it is kept")
        for name, text in dict.fromkeys(told):
            say.sentence(f"{name}, {text}.", indent=2)


def nights(week: PlannedWeek) -> None:
    """Show what lies in fridge and freezer after each day's meals, by count, by container and by room."""
    found = nights_of(week.question, week.plan)
    if not any(night.chilled or night.frozen for night in found):
        return
    rules = week.question.rules
    say.heading("Kept overnight, after the day's meals")
    sized = bool(rules.container_sizes)
    roomy = rules.fridge_ml is not None or rules.freezer_ml is not None or sized
    columns = ["night", "fridge", "freezer", "clean"]
    columns += ["fridge room", "freezer room"] if roomy else []
    rows = [_night_cells(week, night, sized=sized, roomy=roomy) for night in found]
    say.table(columns, rows, right=range(1, len(columns)))
    told = [] if rules.containers is None else [say.plural(rules.containers, "container")]
    told += [] if rules.freezer_places is None else [say.plural(rules.freezer_places, "freezer place")]
    if told:
        say.sentence(f"There are {' and '.join(told)} in all.")
    if sized:
        say.sentence(
            "Containers by what they hold, room left at the top; each portion in the smallest that holds it."
        )


def _night_cells(week: PlannedWeek, night: Night, *, sized: bool, roomy: bool) -> tuple[str, ...]:
    when = say.short_day(week.kitchen.household.date_of(night.day))
    clean = "" if night.containers is None else str(night.containers - night.chilled - night.frozen)
    cells = [str(night.chilled or ""), str(night.frozen or ""), clean]
    if sized:
        cells = [
            _by_size(night.sizes, [size.chilled for size in night.sizes]),
            _by_size(night.sizes, [size.frozen for size in night.sizes]),
            _by_size(night.sizes, [size.clean for size in night.sizes]),
        ]
    if roomy:
        cells += [
            _room(night.fridge_ml, night.most_fridge_ml),
            _room(night.freezer_ml, night.most_freezer_ml),
        ]
    return (when, *cells)


def _by_size(sizes: tuple[SizeInUse, ...], counts: list[int]) -> str:
    return "\n".join(
        f"{count} × {show_volume(size.capacity_ml)}"
        for size, count in zip(sizes, counts, strict=True)
        if count
    )


def _room(used_ml: int, most_ml: int | None) -> str:
    return f"{show_volume(used_ml)}" + ("" if most_ml is None else f" of {show_volume(most_ml)}")


def nutrients(week: PlannedWeek) -> None:
    """Show what each eater's helpings average, and what they bring, against the household's bounds."""
    found = nutrients_of(week)
    for share, title, columns in (
        (False, "Nutrients, on average over an eater's helpings", ("nutrient", "helpings", "average")),
        (True, "What helpings bring", ("brings", "helpings", "share")),
    ):
        rows = [_mean_cells(week, one) for one in found if one.share is share]
        if rows:
            say.heading(f"{title} (meals out are not counted)")
            say.table(("eater", "days", *columns, "bounds"), rows, right=(3, 4))


def _mean_cells(week: PlannedWeek, one: NutrientMean) -> tuple[str, ...]:
    first, last = (week.kitchen.household.date_of(day) for day in (one.first_day, one.last_day))
    return (
        one.eater,
        f"{say.short_day(first)} to {say.short_day(last)}",
        _nutrient_text(one.nutrient),
        str(one.helpings),
        "not known" if one.mean is None else _figure(one, one.mean),
        _bounds(one),
    )


def _nutrient_text(name: str) -> str:
    """Write a nutrient with its unit: 'protein, g'."""
    words, _, unit = name.rpartition("_")
    return f"{words.replace('_', ' ')}, {unit}" if name in NUTRIENTS and words else name


def _figure(one: NutrientMean, value: Fraction) -> str:
    shown = value * 100 if one.share else value
    return show_number(Fraction(round(shown * 10), 10), "decimal") + (" %" if one.share else "")


def _bounds(one: NutrientMean) -> str:
    if one.least is not None and one.most is not None:
        return f"{_figure(one, one.least)} to {_figure(one, one.most)}"
    if one.least is not None:
        return f"at least {_figure(one, one.least)}"
    return "none" if one.most is None else f"at most {_figure(one, one.most)}"
