"""Breaches planted in the full week: of names, batches, portions, keeping, containers, room and sameness."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.model.full_week import CURRY, FREE_WEEK, FULL_PLAN, FULL_WEEK, SOUP, eaten, limited, with_stew
from tests.model.planted_week import Planted
from tests.model.planted_wishes import PLANTED_WISHES

from ladleworth.decide.answer import Batch, Helping
from ladleworth.decide.question import CookSession
from ladleworth.decide.rules import ContainerSize

FURTHER_PLANTED = (
    # names
    Planted(
        "eating of a lot that is not there",
        {"names"},
        "Ben supper day 2 eats of 'old stew', which is no such lot",
        eaten(2, "Ben", "stew", lot="old stew"),
        FULL_WEEK,
    ),
    Planted(
        "eating another dish out of a lot",
        {"names"},
        "Ben supper day 2 eats of 'old curry', which is no such lot",
        eaten(2, "Ben", "soup", lot="old curry"),
        FULL_WEEK,
    ),
    Planted(
        "thawing what lies in the fridge",
        {"names"},
        "Ben supper day 2 eats of 'old curry', which is no such lot",
        eaten(2, "Ben", "curry", frozen=True, lot="old curry"),
        FULL_WEEK,
    ),
    Planted(
        "eating of a split batch without saying which version",
        {"names"},
        "Ada supper day 2 eats stew of day 1 and does not say which: with beans or with meat",
        eaten(2, "Ada", "stew", 1),
        FULL_WEEK,
    ),
    Planted(
        "drawing for a split batch without saying which version",
        {"names"},
        "beans tin is drawn for stew of day 1 and does not say which: with beans or with meat",
        replace(
            FULL_PLAN,
            drawings=tuple(
                replace(d, version=None) if d.source == "beans tin" else d for d in FULL_PLAN.drawings
            ),
        ),
        FULL_WEEK,
    ),
    Planted(
        "eating of a version that stands there twice",
        {"batches", "names"},
        "Ada supper day 2 eats stew of day 1, which stands there more than once",
        replace(FULL_PLAN, batches=(*FULL_PLAN.batches, Batch(1, "stew", "with meat", 2))),
        FULL_WEEK,
    ),
    Planted(
        "eating of a split batch in a version that nobody cooks",
        {"names"},
        "Ada supper day 2 eats stew that nobody cooks",
        eaten(2, "Ada", "stew", 1, version="with tofu"),
        FULL_WEEK,
    ),
    Planted(
        "the same version twice in a session",
        {"batches", "names"},
        "stew is cooked 2 times in the session of day 1",
        replace(FULL_PLAN, batches=(*FULL_PLAN.batches, Batch(1, "stew", "with meat", 2))),
        FULL_WEEK,
    ),
    # batches, minutes, stations
    Planted(
        "a batch split too many ways",
        {"batches"},
        "stew day 1 is split 2 ways; 1 is the most",
        FULL_PLAN,
        with_stew(most_versions=1),
    ),
    Planted(
        "both halves of a split together too many",
        {"batches"},
        "stew day 1: 4 is outside 2..3",
        FULL_PLAN,
        with_stew(greatest=3),
    ),
    Planted(
        "half a minute too much that the versions share",
        {"minutes"},
        "day 1 takes 32.5 minutes of 32",
        FULL_PLAN,
        with_stew(shared_min=Fraction(13, 2)),
    ),
    Planted(
        "a minute of the oven too few",
        {"stations"},
        "day 1 takes 40 oven minutes of 39",
        FULL_PLAN,
        replace(FULL_WEEK, sessions=(CookSession(1, 32, {"oven": 39}, 30),)),
    ),
    # portions
    Planted(
        "half a portion more eaten than cooked",
        {"portions"},
        "1 more portions of stew (day 1) are eaten than cooked",
        replace(
            eaten(3, "Ben", "stew", 1, version="with beans"),
            helpings=(
                *(h for h in FULL_PLAN.helpings if h.eater == "Ada"),
                *(Helping(day, "Ben", "supper", "stew", 1, version="with beans") for day in (1, 2, 3)),
            ),
        ),
        replace(limited(FREE_WEEK, in_a_row=3), wishes=()),
    ),
    Planted(
        "a whole portion over because appetites are small",
        {"portions"},
        "1 portions of stew (day 1) are neither eaten nor keep on",
        FULL_PLAN,
        replace(
            with_stew(FREE_WEEK, freezer_days=4), appetites={"Ben": Fraction(1, 2), "Ada": Fraction(1, 2)}
        ),
    ),
    Planted(
        "one container more than there are",
        {"portions"},
        "2 of old curry are eaten and 1 are there",
        eaten(1, "Ben", "curry", lot="old curry"),
        FREE_WEEK,
    ),
    # keeping, meals, exclusions of portions on hand
    Planted(
        "portions on hand after their last day",
        {"keeping"},
        "Ben supper day 3: old curry is for days 1 to day 2",
        replace(
            eaten(3, "Ben", "curry", lot="old curry"),
            helpings=tuple(
                Helping(2, "Ben", "supper") if (h.day, h.eater) == (2, "Ben") else h
                for h in eaten(3, "Ben", "curry", lot="old curry").helpings
            ),
        ),
        FREE_WEEK,
    ),
    Planted(
        "portions on hand that have not thawed",
        {"keeping"},
        "Ben supper day 1: soup in the freezer is for days 2 to the end",
        eaten(1, "Ben", "soup", frozen=True, lot="soup in the freezer"),
        replace(FREE_WEEK, additions=replace(FULL_WEEK.additions, reserve_portions=1)),
    ),
    Planted(
        "portions on hand that are for lunch",
        {"meals"},
        "soup is no dish for supper (Ben supper day 3)",
        FULL_PLAN,
        replace(FULL_WEEK, portions=(replace(SOUP, meals=frozenset({"lunch"})), CURRY)),
    ),
    Planted(
        "portions on hand that an eater may not have",
        {"exclusions"},
        "Ada may not have curry (old curry)",
        replace(
            eaten(2, "Ada", "curry", lot="old curry"),
            helpings=tuple(
                Helping(2, "Ben", "supper") if (h.day, h.eater) == (2, "Ben") else h
                for h in eaten(2, "Ada", "curry", lot="old curry").helpings
            ),
        ),
        replace(FREE_WEEK, additions=replace(FULL_WEEK.additions, reserve_portions=1)),
    ),
    Planted(
        "the half of a split batch that is barred",
        {"exclusions", "portions"},
        "Ben may not have stew (with meat)",
        eaten(1, "Ben", "stew", 1, version="with meat"),
        FREE_WEEK,
    ),
    # containers, room, freezing
    Planted(
        "a small container too few",
        {"sizes"},
        "night 1: 5 portions above 0 ml for 4 containers",
        FULL_PLAN,
        limited(container_sizes=(ContainerSize(300, 1), ContainerSize(400, 3))),
    ),
    Planted(
        "a large container too few, with small ones to spare",
        {"sizes"},
        "night 1: 3 portions above 300 ml for 2 containers",
        FULL_PLAN,
        limited(container_sizes=(ContainerSize(300, 9), ContainerSize(400, 2))),
    ),
    Planted(
        "containers a millilitre too small",
        {"sizes"},
        "night 1: 2 portions above 399 ml for 0 containers",
        FULL_PLAN,
        limited(container_sizes=(ContainerSize(300, 9), ContainerSize(399, 9))),
    ),
    Planted(
        "a millilitre of fridge too few",
        {"room"},
        "night 1: 750 ml of portions for 749 ml of fridge",
        FULL_PLAN,
        limited(fridge_ml=749),
    ),
    Planted(
        "a millilitre of freezer too few",
        {"room"},
        "night 1: 1000 ml of portions for 999 ml of freezer",
        FULL_PLAN,
        limited(freezer_ml=999),
    ),
    Planted(
        "a freezer place too few for what is on hand and what is frozen",
        {"freezer"},
        "night 1: 3 frozen portions for 2 places",
        FULL_PLAN,
        limited(freezer_places=2),
    ),
    Planted(
        "a portion too many frozen in a day",
        {"freezing load"},
        "day 1: 1 portions freeze; 0 can",
        FULL_PLAN,
        limited(freezing_load=0),
    ),
    Planted(
        "a portion too many frozen in a day, as one is kept in reserve",
        {"freezing load"},
        "day 1: 2 portions freeze; 1 can",
        eaten(2, "Ada"),
        replace(
            limited(FREE_WEEK, freezing_load=1),
            additions=replace(FULL_WEEK.additions, reserve_portions=1),
        ),
    ),
    # sameness by spans
    Planted(
        "a dish too often over all days, though not in a week",
        {"sameness"},
        "Ada has stew 3 times; 2 is the most",
        FULL_PLAN,
        limited(FREE_WEEK, span_days=None),
    ),
    Planted(
        "a dish too often in a span",
        {"sameness"},
        "Ada has stew 2 times; 1 is the most",
        FULL_PLAN,
        limited(FREE_WEEK, most_times=1),
    ),
    *PLANTED_WISHES,
)
