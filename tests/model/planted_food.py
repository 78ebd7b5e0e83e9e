"""Breaches planted in the week in good order: of shopping, money, needs and stock."""

from __future__ import annotations

from dataclasses import replace

from tests.model.planted_table import (
    AMPLE,
    D_BEANS,
    D_EGGS,
    D_LATE_EGG,
    D_LATE_EGGS,
    D_LATE_GREENS,
    D_OLD_GREENS,
    D_OLD_RICE,
    D_RICE_BAG,
    EARLY_GREENS,
    GREENS_4,
    RICE_BAG,
    added,
    changed,
    with_rules,
)
from tests.model.planted_week import Planted

from ladleworth.decide.answer import Drawing, Purchase

PLANTED_FOOD = (
    # shopping and money
    Planted(
        "an offer listed twice on a day",
        {"shopping"},
        "rice bag stands 2 times on the list of day 1",
        added("purchases", RICE_BAG),
        AMPLE,
    ),
    Planted(
        "shopping on a day without a session",
        {"shopping"},
        "beans tin is bought on day 2, which has no session",
        added("purchases", Purchase(2, "beans tin", 1)),
        AMPLE,
    ),
    Planted(
        "buying no package",
        {"shopping"},
        "rice bag day 4: 0 packages",
        added("purchases", Purchase(4, "rice bag", 0)),
    ),
    Planted(
        "bringing a package back",
        {"shopping"},
        "rice bag day 4: -1 packages",
        added("purchases", Purchase(4, "rice bag", -1)),
    ),
    Planted(
        "more packages than the shop lets go",
        {"shopping"},
        "greens bunch day 4: 3 of at most 2",
        changed("purchases", (GREENS_4, replace(GREENS_4, packages=3))),
        AMPLE,
    ),
    Planted(
        "a package more than the money on hand",
        {"budget"},
        "770 cents at the tills are more than 690",
        added("purchases", Purchase(4, "beans tin", 1)),
    ),
    Planted(
        "a cent too little",
        {"budget"},
        "690 cents at the tills are more than 689",
        question=with_rules(budget_cents=689),
    ),
    # needs
    Planted(
        "drawing nothing",
        {"needs"},
        "old rice: 0 is no amount to draw",
        added("drawings", replace(D_OLD_RICE, quantity=0)),
    ),
    Planted(
        "putting something back",
        {"needs"},
        "rice bag: -1 is no amount to draw",
        changed(
            "drawings",
            (D_RICE_BAG, replace(D_RICE_BAG, quantity=50_001), replace(D_RICE_BAG, quantity=-1)),
        ),
    ),
    Planted(
        "a milligram too little",
        {"needs"},
        "bake (plain) day 4 needs 133334 of greens and draws 133333",
        changed("drawings", (D_LATE_GREENS, replace(D_LATE_GREENS, quantity=133_333))),
    ),
    Planted(
        "a milligram too much",
        {"needs"},
        "stew (with beans) day 1 needs 350000 of rice and draws 350001",
        changed("drawings", (D_RICE_BAG, replace(D_RICE_BAG, quantity=50_001))),
    ),
    Planted(
        "nothing of a food that is needed",
        {"needs"},
        "stew (with beans) day 1 needs 400000 of beans and draws 0",
        changed("drawings", (D_BEANS,)),
    ),
    Planted(
        "a food that the dish does not need",
        {"needs"},
        "bake (plain) day 1 draws 10 of rice that it does not need",
        added("drawings", Drawing(1, "bake", "rice bag", 1, 10)),
    ),
    # stock
    Planted(
        "drawing before buying",
        {"stock"},
        "half dozen is drawn on day 1, before it is bought",
        changed(
            "drawings",
            (D_EGGS, replace(D_EGGS, quantity=4), replace(D_EGGS, bought_day=4, quantity=1)),
            (D_LATE_EGG, replace(D_LATE_EGG, quantity=2)),
            (D_LATE_EGGS, replace(D_LATE_EGGS, quantity=1)),
        ),
    ),
    Planted(
        "a lot used after its last day",
        {"stock"},
        "old greens is drawn on day 4; its last day is 3",
        changed(
            "drawings",
            (
                D_LATE_GREENS,
                replace(D_LATE_GREENS, quantity=133_333),
                Drawing(4, "bake", "old greens", None, 1),
            ),
        ),
    ),
    Planted(
        "a lot that had spoilt before the days began",
        {"stock"},
        "wilted greens is drawn on day 1; its last day is 0",
        changed(
            "drawings",
            (
                D_OLD_GREENS,
                replace(D_OLD_GREENS, quantity=199_999),
                Drawing(1, "bake", "wilted greens", None, 1),
            ),
        ),
    ),
    Planted(
        "a purchase used after its keeping days",
        {"stock"},
        "greens bunch is drawn on day 4; its last day is 3",
        EARLY_GREENS,
    ),
    Planted(
        "a milligram more than the lot holds",
        {"stock"},
        "300001 of old rice are drawn and 300000 are there",
        changed(
            "drawings",
            (D_OLD_RICE, replace(D_OLD_RICE, quantity=300_001)),
            (D_RICE_BAG, replace(D_RICE_BAG, quantity=49_999)),
        ),
    ),
    Planted(
        "an egg more than was bought",
        {"stock"},
        "7 of half dozen are drawn and 6 are there",
        changed(
            "drawings",
            (D_LATE_EGG, replace(D_LATE_EGG, quantity=2)),
            (D_LATE_EGGS, replace(D_LATE_EGGS, quantity=1)),
        ),
    ),
    Planted(
        "drawing from what was not bought that day",
        {"stock"},
        "50000 of rice bag are drawn and 0 are there",
        changed("purchases", (RICE_BAG,)),
    ),
)
