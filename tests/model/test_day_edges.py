"""Where the rules of a cooking day could be read in two ways: each reading that the judge has, alone."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.planted_day import hands_on, plain, rules, timed, unattended

from ladleworth.cookday.answer import Heated, Held, Timed, Washed
from ladleworth.cookday.question import (
    NOTHING,
    Activity,
    Bench,
    DayQuestion,
    Lag,
    Merging,
    OvenCard,
    OvenHeat,
    ToolKind,
    ToolUse,
)
from ladleworth.facts.limits import COOLING_OPEN, limit, out_of_fridge

ONE_POT = Bench(burners=1, tools=(ToolKind("pot", 1, 1),))


# -- usual windows --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("room_c", "minutes", "broken"),
    [(21, 120, set()), (21, 121, {"lags"}), (32, 120, set()), (33, 60, set()), (33, 61, {"lags"})],
)
def test_hot_food_is_in_the_fridge_within_two_hours_and_within_one_in_a_hot_kitchen(
    room_c: int, minutes: int, broken: set[str]
) -> None:
    # Consumer advice: perishable food stands out for 2 hours at most, 1 hour above 90 °F (32 °C). Nutrition education
    # program fact sheet on safe thawing, as read into the table of limits.
    most = int(out_of_fridge(Fraction(room_c)).value)
    question = DayQuestion(
        (unattended("simmer", "stew", 30, burners=1), hands_on("into the fridge", "stew", 1)),
        (Lag("simmer", "into the fridge", 0, most, limit=True),),
        bench=Bench(burners=1),
        slower=Fraction(1),
    )
    timetable = plain(Timed("simmer", 0, 30), Timed("into the fridge", 30 + minutes, 31 + minutes, (0,)))
    assert rules(question, timetable) == broken


@pytest.mark.parametrize(("minutes", "broken"), [(19, {"times"}), (20, set()), (30, set()), (31, {"times"})])
def test_food_cools_for_twenty_to_thirty_minutes_before_the_lid(minutes: int, broken: set[str]) -> None:
    # 20 to 30 minutes of cooling before the lid: common practice, no source.
    least = int(limit(COOLING_OPEN).value)
    question = DayQuestion(
        (unattended("cool", "stew", least, 30), hands_on("lid", "stew", 1)),
        (Lag("cool", "lid", 0, 0),),
        slower=Fraction(1),
    )
    timetable = plain(Timed("cool", 0, minutes), Timed("lid", minutes, minutes + 1, (0,)))
    assert rules(question, timetable) == broken


# -- people, burners and 0 minutes ------------------------------------------------------------------------


def test_one_may_end_in_the_minute_in_which_the_next_starts() -> None:
    question = DayQuestion(
        (unattended("a", "", 2, burners=1), unattended("b", "", 2, burners=1)), bench=ONE_POT
    )
    assert rules(question, plain(Timed("a", 0, 2), Timed("b", 2, 4))) == set()
    assert rules(question, plain(Timed("a", 0, 2), Timed("b", 1, 3))) == {"burners"}


def test_what_takes_no_time_takes_no_hands_but_has_its_turn_on_a_tool() -> None:
    question = DayQuestion((hands_on("stir", "", 4), hands_on("look", "", 0)), slower=Fraction(1))
    timetable = plain(Timed("stir", 0, 4, (0,)), Timed("look", 2, 2, (0,)))
    assert rules(question, timetable) == set()
    uses = tuple(ToolUse(name, "pot", (name,), NOTHING) for name in ("stir", "look"))
    in_a_pot = replace(question, uses=uses, bench=ONE_POT)
    tools = (Held("stir", 0), Held("look", 0))
    assert rules(in_a_pot, replace(timetable, tools=tools)) == {"tools"}
    turn = plain(Timed("stir", 0, 4, (0,)), Timed("look", 4, 4, (0,)), tools=tools)
    assert rules(in_a_pot, turn) == set()


def test_work_that_takes_no_time_has_its_people_all_the_same() -> None:
    question = DayQuestion((hands_on("look", "", 0, 2),))
    assert rules(question, plain(Timed("look", 0, 0, (0,)))) == {"hands"}


def test_the_deadline_is_for_the_slow_pace_alone() -> None:
    question = DayQuestion((unattended("soak", "", 5),), deadline=4)
    assert rules(question, plain(Timed("soak", 0, 5))) == {"deadline"}
    assert rules(question, plain(Timed("soak", 0, 5)), slow=False) == set()


def test_slow_minutes_are_rounded_up() -> None:
    # 4 minutes by 6/5 are 4.8
    question = DayQuestion((hands_on("chop", "", 4),), slower=Fraction(6, 5))
    assert rules(question, plain(Timed("chop", 0, 5, (0,)))) == set()
    assert rules(question, plain(Timed("chop", 0, 4, (0,)))) == {"times"}
    assert rules(question, plain(Timed("chop", 0, 4, (0,))), slow=False) == set()


# -- the oven ---------------------------------------------------------------------------------------------


def test_loads_within_each_others_tolerance_two_by_two_still_need_one_heat() -> None:
    # 175, 185 and 195 degrees within 5: each two neighbours have a heat in common, the three have none. Overlapping
    # one after the other, the one in the middle would have to be at 180 and at 190 at once.
    loads = tuple(unattended(f"{c}", "", 4, oven=OvenHeat(c, 5)) for c in (175, 185, 195))
    oven = OvenCard(3, Fraction(0), Fraction(0))
    question = DayQuestion(loads, bench=Bench(oven=oven))
    times = (Timed("175", 0, 4), Timed("185", 2, 6), Timed("195", 5, 9))
    for middle in (180, 185, 190):
        heats = (Heated("175", min(middle, 180)), Heated("185", middle), Heated("195", max(190, middle)))
        assert rules(question, plain(*times, oven=heats)) == {"oven"}, middle
    apart = (*times[:2], Timed("195", 6, 10))
    heats = (Heated("175", 180), Heated("185", 180), Heated("195", 190))
    assert rules(question, plain(*apart, oven=heats)) == set()


def test_heating_and_cooling_have_their_own_pace_and_are_rounded_up() -> None:
    # From 20 to 100 degrees at 1 minute for 10: 8 minutes. From 100 to 65 at 3/2: 5.25, so 6 minutes.
    loads = (unattended("crisp", "", 4, oven=OvenHeat(100)), unattended("dry", "", 4, oven=OvenHeat(65)))
    question = DayQuestion(loads, bench=Bench(oven=OvenCard(1, Fraction(1), Fraction(3, 2))))
    heats = (Heated("crisp", 100), Heated("dry", 65))
    assert rules(question, plain(Timed("crisp", 8, 12), Timed("dry", 18, 22), oven=heats)) == set()
    assert rules(question, plain(Timed("crisp", 8, 12), Timed("dry", 17, 21), oven=heats)) == {"oven"}
    assert rules(question, plain(Timed("crisp", 7, 11), Timed("dry", 18, 22), oven=heats)) == {"oven"}


# -- tools ------------------------------------------------------------------------------------------------


CHOPS = (hands_on("chop leeks", "", 2), hands_on("chop kale", "", 2), hands_on("cut ham", "", 2))


def chopping(ham_takes: tuple[str, ...], boards: int = 1) -> DayQuestion:
    return DayQuestion(
        CHOPS,
        uses=(
            ToolUse("leeks", "board", ("chop leeks",), "leek"),
            ToolUse("kale", "board", ("chop kale",), "kale"),
            ToolUse("ham", "board", ("cut ham",), "ham", ham_takes),
        ),
        mergings=(Merging("greens", ("chop leeks", "chop kale"), 3),),
        bench=Bench(cooks=2, tools=(ToolKind("board", boards, 1),)),
        slower=Fraction(1),
    )


def test_uses_of_a_merging_share_a_tool_and_the_next_must_follow_each_of_them() -> None:
    together = (Timed("chop leeks", 0, 3, (0,)), Timed("chop kale", 0, 3, (0,)))
    tools = tuple(Held(name, 0) for name in ("leeks", "kale", "ham"))
    at_once = plain(*together, Timed("cut ham", 3, 5, (0,)), tools=tools, merged=("greens",))
    assert rules(chopping(("leek", "kale")), at_once) == set()
    assert rules(chopping(("leek",)), at_once) == {"tools"}
    wash = (Washed("board", 0, 3, 4, 1),)
    later = replace(at_once, times=(*together, Timed("cut ham", 4, 6, (0,))), washes=wash)
    assert rules(chopping(("leek",)), later) == set()


def test_uses_that_are_not_merged_do_not_share_a_tool() -> None:
    side_by_side = (
        Timed("chop leeks", 0, 2, (0,)),
        Timed("chop kale", 0, 2, (1,)),
        Timed("cut ham", 3, 5, (0,)),
    )
    tools = tuple(Held(name, 0) for name in ("leeks", "kale", "ham"))
    question = chopping(("leek", "kale"), boards=2)
    assert rules(question, plain(*side_by_side, tools=tools)) == {"tools"}
    two = (tools[0], Held("kale", 1), tools[2])
    assert rules(question, plain(*side_by_side, tools=two)) == set()


def test_uses_of_a_merging_may_have_two_tools() -> None:
    together = (Timed("chop leeks", 0, 3, (0,)), Timed("chop kale", 0, 3, (0,)), Timed("cut ham", 3, 5, (0,)))
    tools = (Held("leeks", 0), Held("kale", 1), Held("ham", 0))
    question = chopping(("leek",), boards=2)
    assert rules(question, plain(*together, tools=tools, merged=("greens",))) == set()


def test_a_tool_is_held_between_its_activities_too() -> None:
    question = DayQuestion(
        (unattended("sear", "", 1), unattended("serve", "", 1), unattended("boil", "", 1)),
        uses=(ToolUse("stew", "pot", ("sear", "serve"), NOTHING), ToolUse("rice", "pot", ("boil",), NOTHING)),
        bench=ONE_POT,
    )
    tools = (Held("stew", 0), Held("rice", 0))
    assert rules(
        question, plain(Timed("sear", 0, 1), Timed("serve", 3, 4), Timed("boil", 1, 2), tools=tools)
    ) == {"tools"}
    assert rules(
        question, plain(Timed("sear", 0, 1), Timed("serve", 3, 4), Timed("boil", 4, 5), tools=tools)
    ) == (set())


def test_a_wash_of_no_minutes_still_stands_there() -> None:
    question = DayQuestion(
        (unattended("a", "", 1), unattended("b", "", 1)),
        uses=(ToolUse("a", "pot", ("a",)), ToolUse("b", "pot", ("b",))),
        bench=Bench(tools=(ToolKind("pot"),)),
    )
    dirty = plain(Timed("a", 0, 1), Timed("b", 1, 2), tools=(Held("a", 0), Held("b", 0)))
    assert rules(question, dirty) == {"tools"}
    assert rules(question, replace(dirty, washes=(Washed("pot", 0, 1, 1, 0),))) == set()


def test_a_merging_takes_the_most_that_any_of_its_activities_takes() -> None:
    work = (hands_on("stir", "", 2, burners=1), Activity("heat", "", "", 2, 2, burners=2))
    question = DayQuestion(
        work, mergings=(Merging("both", ("stir", "heat"), 2),), bench=Bench(burners=2), slower=Fraction(2)
    )
    # Hands-on in part, so 2 minutes are 4 at the slow pace; 2 burners, not 3; one cook for the whole.
    both = plain(Timed("stir", 0, 4, (0,)), Timed("heat", 0, 4, (0,)), merged=("both",))
    assert rules(question, both) == set()
    assert rules(question, replace(both, merged=())) == {"times", "hands", "burners"}


@pytest.mark.parametrize("what", ["burners", "counter", "microwaves"])
def test_it_takes_that_most_of_each_thing(what: str) -> None:
    some = {what: 1}
    work = (
        unattended("stir", "", 2),
        Activity("heat", "", "", 2, 2, **some),  # type: ignore[arg-type]
        Activity("reheat", "", "", 2, 2, **some),  # type: ignore[arg-type]
    )
    none = Bench(counter=0)
    question = DayQuestion(work, mergings=(Merging("all", tuple(a.name for a in work), 2),), bench=none)
    at_once = plain(*(Timed(a.name, 0, 2) for a in work), merged=("all",))
    assert rules(question, at_once) == {what}
    assert rules(replace(question, bench=replace(none, **some)), at_once) == set()  # type: ignore[arg-type]


def test_it_takes_the_shelves_and_the_heat_of_what_goes_into_the_oven() -> None:
    work = (
        unattended("wait", "", 2),
        unattended("bake", "", 2, oven=OvenHeat(100)),
        unattended("dry", "", 2, oven=OvenHeat(100)),
    )
    question = DayQuestion(
        work, mergings=(Merging("both", ("wait", "bake"), 2),), bench=Bench(oven=OvenCard(1, start_c=100))
    )
    heats = (Heated("bake", 100), Heated("dry", 100))
    at_once = plain(
        Timed("wait", 0, 2), Timed("bake", 0, 2), Timed("dry", 1, 3), oven=heats, merged=("both",)
    )
    assert rules(question, at_once) == {"oven"}
    assert rules(question, timed("dry", at_once, start=2, end=4)) == set()
