"""The picture of a cooking day: well-formed, whole, escaped, and nothing on top of anything else."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections import defaultdict
from dataclasses import replace
from itertools import combinations

import pytest
from tests.unit.publish.days import BAKE, FRY, OVEN, QUESTION, SIMMER, STEW, TIMETABLE

from ladleworth.cookday.answer import Heated, Timed, Timetable
from ladleworth.cookday.judge import judge
from ladleworth.cookday.question import Activity, Begun, Bench, DayQuestion, OvenCard, OvenHeat, ToolUse
from ladleworth.publish.day_chart import day_chart, described
from ladleworth.publish.day_clock import DayClock
from ladleworth.publish.day_lanes import Doing, HeatPoint, Kind, heat_of, lanes_of
from ladleworth.publish.day_names import names_of
from ladleworth.publish.day_places import burners_of, rows_for
from ladleworth.publish.day_style import COLOURS, DARK_INK, DARK_PAPER, INK, PAPER, PATTERNS, mixed
from ladleworth.publish.svg import fitted, spread, tag, text, width_of

SVG = "{http://www.w3.org/2000/svg}"
WAYS = pytest.mark.parametrize("portrait", [False, True], ids=["across", "down"])
FOUR = 16 * 60


def chart(portrait: bool, **more: object) -> ET.Element:
    drawn = day_chart(QUESTION, TIMETABLE, title="Sunday", portrait=portrait, **more)  # type: ignore[arg-type]
    return ET.fromstring(drawn)


def test_the_day_of_these_tests_is_one_that_the_judge_lets_stand() -> None:
    assert judge(QUESTION, TIMETABLE, slow=False) == ()


@WAYS
def test_every_activity_and_wash_is_drawn_with_its_times(portrait: bool) -> None:
    titles = [each.text or "" for each in chart(portrait, start_min=FOUR).iter(f"{SVG}title")]
    clock = DayClock(FOUR)
    for time in TIMETABLE.times:
        mine = [told for told in titles if told.startswith(f"{clock.at(time.start)} to {clock.at(time.end)}")]
        assert any(time.activity in told for told in mine), time
    assert any("16:07 to 16:09, washed: wash the bowl" in told for told in titles)


@WAYS
def test_what_dishes_and_steps_are_called_is_escaped(portrait: bool) -> None:
    drawn = day_chart(QUESTION, TIMETABLE, title='A <b> & "c" \x00', notes=["<x>"], portrait=portrait)
    root = ET.fromstring(drawn)
    said = [each.text or "" for each in root.iter()]
    assert any(STEW in words for words in said)
    assert 'A <b> & "c" �' in said
    assert not list(root.iter(f"{SVG}b"))
    assert not list(root.iter(f"{SVG}x"))


@WAYS
def test_the_chart_names_itself_to_a_screen_reader(portrait: bool) -> None:
    root = chart(portrait, notes=["Done at 17:10."], start_min=FOUR)
    assert root.get("role") == "img"
    ids = {each.get("id"): each for each in root.iter() if each.get("id")}
    title, desc = (ids[name] for name in (root.get("aria-labelledby") or "").split())
    assert (title.tag, title.text) == (f"{SVG}title", "Sunday")
    assert desc.text is not None
    assert desc.text.startswith("Done at 17:10. From 16:00 to 17:10.")
    assert all(activity.name in desc.text for activity in QUESTION.activities)
    assert "190 °C at 16:17" in desc.text


@WAYS
def test_the_chart_refers_to_nothing_outside_itself_and_is_the_same_each_time(portrait: bool) -> None:
    drawn = [day_chart(QUESTION, TIMETABLE, title="S", start_min=FOUR, portrait=portrait) for _ in range(2)]
    assert drawn[0] == drawn[1]
    root = ET.fromstring(drawn[0])
    assert not re.findall(r"https?://", drawn[0].replace("http://www.w3.org/2000/svg", ""))
    assert "<script" not in drawn[0]
    ids = {each.get("id") for each in root.iter()}
    assert set(re.findall(r"url\(#([^)]*)\)", drawn[0])) <= ids
    assert "prefers-color-scheme:dark" in drawn[0]


@WAYS
def test_everything_lies_on_the_sheet(portrait: bool) -> None:
    root = chart(portrait, start_min=FOUR)
    left, top, width, height = map(float, (root.get("viewBox") or "").split())
    assert (left, top) == (0, 0)
    for each in root.iter(f"{SVG}rect"):
        if each.get("x") is not None:
            assert float(each.get("x") or 0) >= 0
            assert float(each.get("x") or 0) + float(each.get("width") or 0) <= width + 0.01
            assert float(each.get("y") or 0) + float(each.get("height") or 0) <= height + 0.01
    for each in root.iter(f"{SVG}text"):
        x = float(each.get("x") or 0)
        if each.get("transform") is None:
            long = width_of(each.text or "", 10)
            end = {"middle": x + long / 2, "end": x}.get(each.get("text-anchor") or "", x + long)
            assert end <= width + 2, each.text
            assert end - long >= -8, each.text


@WAYS
def test_no_two_bars_of_the_chart_lie_on_each_other(portrait: bool) -> None:
    boxes = []
    for group in chart(portrait).iter(f"{SVG}g"):
        rect = group.find(f"{SVG}rect")
        assert rect is not None
        boxes.append(tuple(float(rect.get(key) or 0) for key in ("x", "y", "width", "height")))
    assert len(boxes) > len(TIMETABLE.times)
    for (x, y, w, h), (x2, y2, w2, h2) in combinations(boxes, 2):
        apart = x + w <= x2 + 0.02 or x2 + w2 <= x + 0.02 or y + h <= y2 + 0.02 or y2 + h2 <= y + 0.02
        assert apart, ((x, y, w, h), (x2, y2, w2, h2))


def test_a_row_of_a_lane_holds_one_thing_at_a_time() -> None:
    for lane in lanes_of(QUESTION, TIMETABLE).lanes:
        rows = defaultdict(list)
        for bar in lane.bars:
            rows[bar.row].append(bar)
            assert bar.row < lane.rows
        for bars in rows.values():
            for one, other in combinations(bars, 2):
                assert one.end <= other.start or other.end <= one.start, lane.title


def test_the_lanes_are_people_burners_oven_counter_and_tools_in_use() -> None:
    lanes = lanes_of(QUESTION, TIMETABLE).lanes
    assert [lane.title for lane in lanes] == [
        "cook 1",
        "cook 2",
        "burner",
        "oven",
        "counter",
        "pot 1",
        "bowl",
    ]
    counter = next(lane for lane in lanes if lane.kind is Kind.COUNTER)
    assert [bar.code for bar in counter.bars] == ["B ×2", "A ×3"]
    assert counter.rows == 2
    shared = lanes[0].bars[0]
    assert (shared.code, shared.words, shared.batch) == ("A1+B1", "chop the onions for both", "")
    bowl = lanes[-1].bars
    assert [(bar.doing, bar.start, bar.end) for bar in bowl] == [
        (Doing.HOLDING, 0, 7),
        (Doing.WASHING, 7, 9),
        (Doing.HOLDING, 9, 15),
    ]


def test_work_that_takes_nothing_has_a_lane_of_its_own() -> None:
    question = DayQuestion((Activity("soak", "Beans", "Soak.", 60, 60),))
    (hands, waiting) = lanes_of(question, Timetable((Timed("soak", 0, 60),))).lanes
    assert hands.bars == ()
    assert [bar.activities for bar in waiting.bars] == [("soak",)]


def test_the_oven_is_switched_on_just_in_time_and_turned_down_at_once() -> None:
    question = DayQuestion(
        tuple(Activity(n, n, n, m, m, oven=OvenHeat(c, 10)) for n, m, c in (("a", 20, 200), ("b", 30, 160))),
        bench=Bench(oven=OvenCard(1, start_c=20)),
    )
    timetable = Timetable(
        (Timed("a", 30, 50), Timed("b", 80, 110)), oven=(Heated("a", 200), Heated("b", 160))
    )
    # 180 degrees take 18 minutes at a minute for ten, so that 12 is the last minute; 40 degrees down take 4
    assert heat_of(question, timetable) == tuple(
        HeatPoint(*point) for point in ((12, 20), (30, 200), (50, 200), (54, 160), (110, 160))
    )


def test_what_stays_in_a_pot_stays_on_its_burner() -> None:
    names = ("a", "b", "c", "c on")
    question = DayQuestion(
        tuple(Activity(name, "x", name, 1, 90, burners=1) for name in names),
        uses=(ToolUse("pot of c", "pot", ("c", "c on")),),
        bench=replace(QUESTION.bench, burners=3),
    )
    times = (Timed("a", 0, 10), Timed("b", 0, 30), Timed("c", 5, 12), Timed("c on", 12, 40))
    # burner 1 has been free the longest when c goes on by itself; the pot stands on burner 3
    assert burners_of(question, Timetable(times)) == {"a": (0,), "b": (1,), "c": (2,), "c on": (2,)}


def test_burners_are_never_given_twice() -> None:
    places = burners_of(QUESTION, TIMETABLE)
    assert places == {FRY: (0,), SIMMER: (0,)}
    assert rows_for([(0, 5), (5, 9), (3, 6), (4, 4)]) == (0, 0, 1, 2)


def test_names_are_short_and_no_two_batches_share_a_letter() -> None:
    names = names_of(QUESTION)
    assert dict(names.letters) == {STEW: "A", BAKE: "B"}
    assert [names.codes[name] for name in (FRY, SIMMER, OVEN, f"{BAKE}: lid", "washing up")] == [
        "A2",
        "A2",
        "B3",
        "B lid",
        "washing up",
    ]
    many = names_of(DayQuestion(tuple(Activity(str(n), f"dish {n}", "", 1, 1) for n in range(60))))
    assert len(set(many.letters.values())) == 60
    assert many.codes["59"] == f"{many.letters['dish 59']}1"


@WAYS
def test_a_day_on_its_way_shows_where_it_is(portrait: bool) -> None:
    question = replace(QUESTION, now=20, begun=(Begun(OVEN, 17),))
    said = [each.text for each in ET.fromstring(
        day_chart(question, TIMETABLE, title="S", start_min=FOUR, portrait=portrait)
    ).iter(f"{SVG}text")]  # fmt: skip
    assert "now 16:20" in said
    assert "now 16:20" not in [each.text for each in chart(portrait, start_min=FOUR).iter(f"{SVG}text")]


@WAYS
def test_a_day_without_work_is_still_a_picture(portrait: bool) -> None:
    ET.fromstring(day_chart(DayQuestion(()), Timetable(()), title="Nothing", portrait=portrait))


def test_a_chart_without_a_start_counts_from_the_beginning() -> None:
    assert described(lanes_of(QUESTION, TIMETABLE), DayClock()).startswith("From 0:00 to 1:10.")


# --- the pieces ------------------------------------------------------------------------------------------------


def luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """WCAG 2.1: relative luminance and contrast ratio."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("colour", COLOURS)
@pytest.mark.parametrize(("paper", "ink"), [(PAPER, INK), (DARK_PAPER, DARK_INK)], ids=["light", "dark"])
def test_text_on_every_fill_has_the_contrast_that_wcag_asks_of_small_text(
    colour: str, paper: str, ink: str
) -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)  # WCAG 2.1, definition of contrast ratio
    assert contrast(ink, mixed(colour, paper, 0.34)) >= 4.5  # WCAG 2.1, success criterion 1.4.3


def test_eight_batches_differ_in_colour_and_in_pattern_and_more_in_the_pair() -> None:
    pairs = {(n % 8, (n + n // 8) % 8) for n in range(64)}
    assert len(pairs) == 64
    assert len(set(PATTERNS)) == len(set(COLOURS)) == 8


@pytest.mark.parametrize(
    ("start", "minute", "said"),
    [(960, 65, "17:05"), (1430, 20, "00:10 (+1)"), (10, -20, "23:50 (-1)"), (None, 65, "1:05"), (None, 0, "0:00")],
)  # fmt: skip
def test_a_minute_is_a_time_by_the_clock(start: int | None, minute: int, said: str) -> None:
    assert DayClock(start).at(minute) == said


def test_ticks_fall_on_the_quarters_of_the_clock() -> None:
    assert DayClock(16 * 60 + 10).ticks(0, 60, 15) == (5, 20, 35, 50)
    assert DayClock(None).ticks(0, 30, 15) == (0, 15, 30)


def test_labels_are_moved_apart_as_little_as_possible() -> None:
    assert spread([10, 11, 50], 10, 0, 100) == [5.5, 15.5, 50]
    assert spread([1, 1, 1], 10, 0, 12) == [0, 6, 12]  # no room for all: the distance shrinks
    assert spread([95, 99], 10, 0, 100) == [90, 100]
    assert spread([], 10, 0, 100) == []


def test_a_text_is_cut_to_its_room() -> None:
    assert fitted("short", 100, 11) == "short"
    cut = fitted("Soften the onion in the oil", 80, 11)
    assert cut.endswith("…")
    assert width_of(cut, 11) <= 80
    assert fitted("Soften", 6, 11) == ""


def test_tags_escape_what_they_hold() -> None:
    assert (
        tag("a", text("<&"), b='"', stroke_width=1.0, c=None) == '<a b=\'"\' stroke-width="1">&lt;&amp;</a>'
    )
