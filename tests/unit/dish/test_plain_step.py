"""Steps of a plain text: notes in brackets at their end."""

from __future__ import annotations

import pytest

from ladleworth.dish.plain_step import read_step
from ladleworth.dish.plain_text import read_plain_text
from ladleworth.dish.resolve import resolve
from ladleworth.dish.unread import Unread
from ladleworth.dish.written import WrittenStep
from ladleworth.facts import food_table


@pytest.mark.parametrize(
    ("text", "step"),
    [
        ("Stir.", WrittenStep("Stir.")),
        ("Bake. (unattended 40 min; needs oven at 190 °C, 2 shelves, baking dish; after roll; at once)",
         WrittenStep("Bake.", unattended="40 min", needs=("oven at 190 °C, 2 shelves", "baking dish"), after=("roll",),
                     at_once=True)),
        ("Chop. (hands-on 5 min; step chop; part stew; prep chopped onion; leaves fat; takes fat, oil)",
         WrittenStep("Chop.", "stew", "5 min", name="chop", prep="chopped onion", leaves="fat", takes=("fat", "oil"))),
        ("Soak. (unattended 10 h; the day before)", WrittenStep("Soak.", unattended="10 h", day_before=True)),
        ("Fry. (hands-on 5 min; wait: at least 20 min)", WrittenStep("Fry.", hands_on="5 min", wait="at least 20 min")),
        ("Serve. (at once)", WrittenStep("Serve. (at once)")),
        ("Serve. (after dinner)", WrittenStep("Serve. (after dinner)")),
        ("Chop. (hands-on 5 min; quickly)", WrittenStep("Chop. (hands-on 5 min; quickly)")),
        ("Chop. (needs board)", WrittenStep("Chop.", needs=("board",))),
    ],
)  # fmt: skip
def test_notes_are_taken_off_if_all_of_them_can_be_read(text: str, step: WrittenStep) -> None:
    unread: list[Unread] = []
    assert read_step(1, text, unread) == step
    assert unread == []


def test_a_time_that_cannot_be_read_is_named() -> None:
    unread: list[Unread] = []
    assert read_step(3, "Chop. (hands-on soon; prep x)", unread) == WrittenStep("Chop.", prep="x")
    assert [one.name for one in unread] == ["step 3"]


def test_a_recipe_with_timed_steps_becomes_a_dish_that_can_be_planned_with() -> None:
    text = """Rice bake
Serves 4

Ingredients
2 cups rice
2 onions, chopped

Steps
1. Chop the onions. (hands-on 5 min; needs hands, board; step chop; prep chopped onion)
2. Boil the rice. (hands-on 2 min; unattended 18 min; needs hands, burner, pot; step rice)
3. Bake. (unattended 20 min; needs oven at 190 °C ± 10 °C, dish; after chop, rice; wait at most 30 min)
4. Eat it hot. (at once)
"""
    written, unread = read_plain_text(text)
    assert unread == ()
    assert written is not None
    dish, findings = resolve(written, food_table())
    assert findings == ()
    assert dish is not None
    assert [step.name for step in dish.steps] == ["chop", "rice", "", ""]
    assert dish.steps[2].needs == ("oven at 190 °C ± 10 °C", "dish")
    assert dish.steps[2].after == ("chop", "rice")
    assert dish.fixed_min == 7


def test_faults_of_timed_steps_are_named_with_the_rest() -> None:
    text = "Bowl\nServes 2\n\nIngredients\n1 cup rice\n\nSteps\n1. Cook. (hands-on 5 min; after soak; needs 2 hands)\n"
    written, unread = read_plain_text(text)
    assert written is not None
    assert [one.name for one in unread] == ["steps[1].needs[1]", "steps[1].after[1]"]
