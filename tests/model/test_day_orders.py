"""The order of a timetable: whatever keeps it keeps the rules about people and things, however long the work takes."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.planted_day import DAY, LIVE, LIVE_SLOW, NOMINAL, SLOW, hands_on, unattended
from tests.model.small_days import DAYS, small_day
from tests.model.tried_day import tried_day

from ladleworth.cookday.answer import Heated, Held, Timed, Timetable
from ladleworth.cookday.chains import Edge, Wash
from ladleworth.cookday.judge import judge, measure
from ladleworth.cookday.orders import minutes_at, node_of, nodes_of, orders, retimed, run_through
from ladleworth.cookday.question import (
    NOTHING,
    Bench,
    DayQuestion,
    Lag,
    OvenCard,
    OvenHeat,
    ToolKind,
    ToolUse,
)


def starts_of(question: DayQuestion, timetable: Timetable) -> dict[object, int]:
    return {node: piece.start for node, piece in nodes_of(question, timetable).items()}


def kept(edge: Edge, question: DayQuestion, timetable: Timetable) -> bool:
    pieces = nodes_of(question, timetable)
    second = pieces[edge.second].end if edge.second_end else pieces[edge.second].start
    if edge.first is None:
        return second >= edge.least or pieces[edge.second].begun
    first = pieces[edge.first].end if edge.first_end else pieces[edge.first].start
    return second >= first + edge.least


def test_the_order_of_the_day_in_good_order() -> None:
    edges = {(e.first, e.second, e.least) for e in orders(DAY, SLOW)}
    board, pot = Wash("board", 0, 0), Wash("pot", 0, 0)
    assert node_of(DAY, SLOW)["onions for soup"] == "onions for stew"
    assert edges >= {
        # hands: cook 0 from piece to piece, cook 1 at the dough, the board and the pot
        ("onions for stew", "knead dough", 0),
        ("knead dough", "cut chicken", 0),
        ("knead dough", board, 0),
        (board, pot, 0),
        # one burner, one place on the counter, one shelf
        ("simmer stew", "boil soup", 0),
        ("cool stew", "cool cake", 0),
        ("melt butter", "thaw berries", 0),
        # 18 minutes to 200 degrees, 3 down to 185
        (None, "bake bread", 18),
        ("bake bread", "bake cake", 3),
        # the tools: a wash stands between two uses, or none
        ("cut chicken", board, 0),
        (board, "chop herbs", 0),
        ("sear chicken", "simmer stew", 0),
        (pot, "boil soup", 0),
    }
    assert all(kept(edge, DAY, SLOW) for edge in orders(DAY, SLOW))


def test_running_through_the_day_gives_the_earliest_times_in_its_order() -> None:
    run = run_through(DAY, SLOW, minutes_at(DAY, SLOW, slow=True), foresight=True)
    assert run is not None
    assert run.broken == ()
    # Nothing of the slow timetable can be earlier, but for melting (tied to nothing before it), thawing after it, and
    # the pause of a minute that the stew cools longer than it must.
    early = {name: run.starts[name] for name in ("melt butter", "thaw berries", "pack stew", "cool cake")}
    assert early == {"melt butter": 0, "thaw berries": 2, "pack stew": 26, "cool cake": 32}
    timetable = retimed(DAY, SLOW, run)
    assert judge(DAY, timetable, slow=True) == ()
    assert measure(DAY, timetable).finish == 34


def test_at_the_stated_pace_the_day_is_shorter_in_the_same_order() -> None:
    run = run_through(DAY, SLOW, minutes_at(DAY, SLOW, slow=False), foresight=True)
    assert run is not None
    timetable = retimed(DAY, SLOW, run)
    assert judge(DAY, timetable, slow=False) == ()
    assert timetable.timed("pack stew").end < NOMINAL.timed("pack stew").end


def test_nothing_starts_before_the_clock_says_so() -> None:
    clock = starts_of(DAY, SLOW)
    run = run_through(DAY, SLOW, minutes_at(DAY, SLOW, slow=True), clock)  # type: ignore[arg-type]
    assert run is not None
    assert run.starts == clock
    assert run.broken == ()


def test_food_waits_on_while_whoever_packs_it_is_held_up() -> None:
    work = (
        hands_on("stir", "", 2),
        unattended("cool", "", 1, 4),
        hands_on("dough", "", 2),
        hands_on("pack", "", 1),
    )
    question = DayQuestion(work, (Lag("stir", "cool", 0, 0), Lag("cool", "pack", 0, 0)), slower=Fraction(1))
    timetable = Timetable(
        (
            Timed("stir", 0, 2, (0,)),
            Timed("cool", 2, 4),
            Timed("dough", 2, 4, (0,)),
            Timed("pack", 4, 5, (0,)),
        )
    )
    assert judge(question, timetable, slow=True) == ()
    stated = minutes_at(question, timetable, slow=False)
    for dough, broken in ((1, ()), (4, ()), (5, (question.lags[1],))):
        run = run_through(question, timetable, stated | {"dough": dough})
        assert run is not None
        assert run.ends["cool"] == run.starts["pack"] - len(broken)
        assert run.broken == broken


def test_only_foresight_holds_anything_back() -> None:
    # The pasta is put on at 4 and is done at 6, with the sauce. If the sauce takes 3 minutes longer, it waits for
    # it, unless whoever puts it on knows.
    work = hands_on("sauce", "", 6), unattended("pasta", "", 2)
    tied = Lag("pasta", "sauce", 0, 1, second_end=True)
    question = DayQuestion(work, (tied,), slower=Fraction(1))
    timetable = Timetable((Timed("sauce", 0, 6, (0,)), Timed("pasta", 4, 6)))
    minutes = minutes_at(question, timetable, slow=False) | {"sauce": 9}
    run = run_through(question, timetable, minutes, {"sauce": 0, "pasta": 4})
    assert run is not None
    assert (run.ends["pasta"], run.broken) == (6, (tied,))
    knowing = run_through(question, timetable, minutes, {"sauce": 0, "pasta": 4}, foresight=True)
    assert knowing is not None
    assert (knowing.ends["pasta"], knowing.broken) == (8, ())


def test_an_order_that_goes_round_in_a_circle_at_other_minutes_is_told() -> None:
    # The pot is put on before the bread is cut and is done after it: with 5 minutes of cutting, 4 of boiling do not do.
    work = unattended("boil", "", 4), hands_on("cut", "", 3)
    lags = Lag("boil", "cut", 0, 0, first_end=False), Lag("cut", "boil", second_end=True)
    question = DayQuestion(work, lags, slower=Fraction(1))
    timetable = Timetable((Timed("boil", 0, 4), Timed("cut", 0, 3, (0,))))
    assert judge(question, timetable, slow=True) == ()
    assert run_through(question, timetable, {"boil": 4, "cut": 4}) is not None
    assert run_through(question, timetable, {"boil": 4, "cut": 5}, foresight=True) is None


def test_what_has_begun_stands_and_the_rest_follows_it() -> None:
    run = run_through(LIVE, LIVE_SLOW, minutes_at(LIVE, LIVE_SLOW, slow=True), foresight=True)
    assert run is not None
    assert (run.starts["peel"], run.ends["peel"]) == (1, 8)
    assert (run.starts["chop"], run.ends["chop"]) == (8, 11)
    assert (run.starts["soak beans"], run.ends["soak beans"]) == (2, 10)
    assert run.starts[Wash("pot", 0, 0)] == 11
    assert judge(LIVE, retimed(LIVE, LIVE_SLOW, run), slow=True) == ()


def test_loads_at_one_heat_wait_for_a_shelf_and_not_for_each_other() -> None:
    loads = tuple(unattended(name, "", 4, oven=OvenHeat(180)) for name in "abc")
    question = DayQuestion(loads, bench=Bench(oven=OvenCard(2)))
    timetable = Timetable(
        (Timed("a", 16, 20), Timed("b", 17, 21), Timed("c", 20, 24)),
        oven=tuple(Heated(name, 180) for name in "abc"),
    )
    edges = {(e.first, e.second) for e in orders(question, timetable)}
    assert edges == {(None, "a"), (None, "b"), (None, "c"), ("a", "c")}


def test_a_use_of_several_activities_is_over_when_all_of_them_are() -> None:
    work = tuple(unattended(name, "", 1) for name in ("sear", "serve", "boil"))
    uses = ToolUse("stew", "pot", ("sear", "serve"), NOTHING), ToolUse("rice", "pot", ("boil",))
    question = DayQuestion(work, uses=uses, bench=Bench(tools=(ToolKind("pot"),)))
    timetable = Timetable(
        (Timed("sear", 0, 1), Timed("serve", 3, 4), Timed("boil", 4, 5)), (Held("stew", 0), Held("rice", 0))
    )
    edges = {(e.first, e.second) for e in orders(question, timetable)}
    assert edges == {("sear", "boil"), ("serve", "boil")}


def test_waiting_that_a_timetable_makes_no_minutes_long_has_a_place_if_there_is_one() -> None:
    work = unattended("cool", "", 4, counter=1), unattended("rest", "", 0, 5, counter=1)
    question = DayQuestion(work, bench=Bench(counter=1))
    for start, edges in ((2, []), (4, [("cool", "rest")])):
        timetable = Timetable((Timed("cool", 0, 4), Timed("rest", start, start)))
        assert judge(question, timetable, slow=True) == ()
        assert [(e.first, e.second) for e in orders(question, timetable)] == edges


@pytest.mark.parametrize(("first_end", "start"), [(False, 3), (True, 7)])
def test_a_window_is_open_from_the_moment_that_it_names(first_end: bool, start: int) -> None:
    # By the clock `b` is at 9; its window closes 3 minutes after the start, or the end, of 4 minutes of `a`.
    work = unattended("a", "", 4), unattended("b", "", 1)
    question = DayQuestion(work, (Lag("a", "b", -9, 3, first_end=first_end),))
    timetable = Timetable((Timed("a", 0, 4), Timed("b", 3, 4)))
    run = run_through(question, timetable, {"a": 4, "b": 1}, {"b": 9})
    assert run is not None
    assert run.starts == {"a": 0, "b": start}


THINGS = {"hands", "burners", "counter", "microwaves", "oven", "tools"}


@pytest.mark.parametrize("block", range(0, DAYS, 90))
def test_whatever_keeps_the_order_keeps_the_rules_about_people_and_things(block: int) -> None:
    dice = random.Random(block)
    ran = kept_all = 0
    for seed in range(block, block + 90):
        question, found = small_day(seed), tried_day(seed)
        if found is None:
            continue
        timetable = found[1]
        assert [e for e in orders(question, timetable) if not kept(e, question, timetable)] == [], seed
        slow = minutes_at(question, timetable, slow=True)
        run = run_through(question, timetable, slow, foresight=True)
        assert run is not None, seed
        anew = retimed(question, timetable, run)
        assert judge(question, anew, slow=True) == (), seed
        assert measure(question, anew).finish == found[0].finish, seed
        for _ in range(6):
            # what takes no minutes never does, and so has no place in the order
            minutes = {
                node: dice.randint(0, 6) if m and dice.random() < 0.5 else m for node, m in slow.items()
            }
            clock = {node: dice.randint(0, 9) for node in slow if dice.random() < 0.3}
            knowing = dice.random() < 0.5
            run = run_through(question, timetable, minutes, clock, foresight=knowing)
            if run is None:
                continue
            ran += 1
            kept_all += not run.broken
            breaches = judge(question, retimed(question, timetable, run), slow=True)
            assert not THINGS & {breach.rule for breach in breaches}, (seed, minutes, breaches)
            assert any(breach.rule == "lags" for breach in breaches) == bool(run.broken), (seed, minutes)
            at = node_of(question, timetable)
            hurried = set() if knowing else {at[lag.second] for lag in question.lags if lag.most is not None}
            bound = [n for n in clock if not nodes_of(question, timetable)[n].begun and n not in hurried]
            assert all(run.starts[node] >= clock[node] for node in bound), seed
    assert ran >= 200
    assert kept_all >= 60


def test_no_start_in_the_same_order_is_earlier() -> None:
    # One minute earlier for any one thing that can still be moved breaks the order, a lag or the start of the day.
    looked = 0
    for seed in range(0, DAYS, 9):
        question, found = small_day(seed), tried_day(seed)
        if found is None:
            continue
        timetable = found[1]
        run = run_through(question, timetable, minutes_at(question, timetable, slow=True), foresight=True)
        assert run is not None
        anew = retimed(question, timetable, run)
        pieces = nodes_of(question, anew)
        for node, start in run.starts.items():
            if not pieces[node].begun and not isinstance(node, Wash) and start > question.now:
                sooner = earlier(anew, pieces[node].members)
                in_order = all(kept(edge, question, sooner) for edge in orders(question, timetable))
                assert not in_order or any(b.rule == "lags" for b in judge(question, sooner, slow=True)), seed
                looked += 1
    assert looked >= 40


def earlier(timetable: Timetable, names: tuple[str, ...]) -> Timetable:
    times = (
        replace(t, start=t.start - 1, end=t.end - 1) if t.activity in names else t for t in timetable.times
    )
    return replace(timetable, times=tuple(times))
