"""Breaches planted in the full week: of nutrients and what helpings bring, of food for a split batch, of wishes."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.model.full_week import (
    BEANS,
    CURRY,
    FULL_PLAN,
    FULL_WEEK,
    SOUP,
    WITHOUT_FIGURE,
    limited,
    wishing,
    with_stew,
)
from tests.model.planted_week import Planted

from ladleworth.decide.rules import MustBuy, MustCook, MustNotCook, MustServe, MustUse, NutrientBound

PLANTED_WISHES = (
    # nutrients
    Planted(
        "too little protein on average",
        {"nutrients"},
        "Ada, days 1 to 2: protein averages 25, below 25.1",
        FULL_PLAN,
        limited(nutrient_bounds=(NutrientBound("Ada", "protein", least=Fraction("25.1")),)),
    ),
    Planted(
        "too much protein on average",
        {"nutrients"},
        "Ben, days 1 to 2: protein averages 11, above 10.9",
        FULL_PLAN,
        limited(nutrient_bounds=(NutrientBound("Ben", "protein", most=Fraction("10.9")),)),
    ),
    Planted(
        "too few helpings that are fresh",
        {"nutrients"},
        "Ada, days 1 to 2: fresh in 50 % of helpings, below 60 %",
        FULL_PLAN,
        limited(nutrient_bounds=(NutrientBound("Ada", "fresh", least=Fraction("0.6"), share=True),)),
    ),
    Planted(
        "too many helpings that are fresh, however small they are",
        {"nutrients"},
        "Ben, days 1 to 2: fresh in 100 % of helpings, above 90 %",
        FULL_PLAN,
        limited(nutrient_bounds=(NutrientBound("Ben", "fresh", most=Fraction("0.9"), share=True),)),
    ),
    Planted(
        "a dish without the figure",
        {"nutrients"},
        "Ada, days 3 to 4: protein has no figure for 1 helpings",
        FULL_PLAN,
        with_stew(versions=(BEANS, WITHOUT_FIGURE)),
    ),
    Planted(
        "portions on hand without the figure",
        {"nutrients"},
        "Ben, days 1 to 2: protein has no figure for 1 helpings",
        FULL_PLAN,
        replace(FULL_WEEK, portions=(SOUP, replace(CURRY, nutrients={}))),
    ),
    # needs and stock of a split batch
    Planted(
        "food drawn for the wrong half of a split batch",
        {"needs"},
        "stew (with meat) day 1 draws 40000 of beans that it does not need",
        replace(
            FULL_PLAN,
            drawings=tuple(
                replace(d, version="with meat") if d.source == "beans tin" else d for d in FULL_PLAN.drawings
            ),
        ),
        FULL_WEEK,
    ),
    # wishes
    *(
        Planted(what, {"wishes"}, phrase, FULL_PLAN, wishing(wish))
        for what, phrase, wish in (
            (
                "too little of a wished version",
                "at least 3 portions of stew (with meat) are cooked",
                MustCook("stew", None, "with meat", 3),
            ),
            (
                "too little of a wished dish",
                "at least 5 portions of stew on day 1 are cooked",
                MustCook("stew", 1, None, 5),
            ),
            (
                "a wished dish on another day",
                "at least 1 portions of stew on day 2 are cooked",
                MustCook("stew", 2),
            ),
            ("a dish that was not to be cooked", "no stew is cooked", MustNotCook("stew")),
            (
                "a version not to be cooked",
                "no stew (with meat) on day 1",
                MustNotCook("stew", 1, "with meat"),
            ),
            (
                "a milligram too little of a lot",
                "at least 120001 of old beans are used",
                MustUse("old beans", 120_001),
            ),
            (
                "a container too few of a lot",
                "at least 2 of soup in the freezer are used",
                MustUse("soup in the freezer", 2),
            ),
            (
                "another dish in a settled slot",
                "Ben supper day 1 has soup",
                MustServe(1, "Ben", "supper", "soup"),
            ),
            (
                "a dish where a meal out was settled",
                "Ben supper day 1 has a meal out",
                MustServe(1, "Ben", "supper", None),
            ),
            (
                "a meal out where a dish was settled",
                "Ada supper day 3 has stew",
                MustServe(3, "Ada", "supper", "stew"),
            ),
            (
                "a package too few",
                "at least 2 of meat pack are bought on day 1",
                MustBuy(1, "meat pack", 2),
            ),
            (
                "a package bought on another day",
                "at least 1 of meat pack are bought on day 2",
                MustBuy(2, "meat pack", 1),
            ),
        )
    ),
)
"""Every breach of a further rule, by itself."""
