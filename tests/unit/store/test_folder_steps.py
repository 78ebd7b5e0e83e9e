"""Steps of dishes against the equipment card."""

from __future__ import annotations

from tests.unit.store.papers import KITCHEN, doubts, faults, read

from ladleworth.store.folder import FolderReading

STEPS = """\
- dish: Bowl
  least: 2
  per_portion: {rice: 80 g, egg: 1}
  steps:
    - {do: Cook., hands_on: 5, needs: NEEDS, takes: [egg water]}
    - {do: Stir., hands_on: 5, needs: [hands, pan], leaves: egg watr}
"""


def reading(
    needs: str, equipment: str = "{burners: 1, oven_shelves: 1, vessels: {large pot: 6 l}}"
) -> FolderReading:
    steps = STEPS.replace("NEEDS", needs)
    return read({"kitchen.yaml": KITCHEN + f"equipment: {equipment}\n", "dishes.yaml": steps})


def test_more_cooks_than_there_are_is_a_fault() -> None:
    found = reading("[3 cooks, pan]", "{cooks: 2}")
    assert [str(fault) for fault in faults(found)] == [
        (
            "dishes.yaml:5: [1].steps[1].needs: the step needs 3 cooks, and 2 cook here; "
            "write cooks: 3 under equipment, or make two steps of it"
        )
    ]
    one = reading("[2 cooks, pan]", "{burners: 1}")
    assert "the step needs 2 cooks, and one cooks here" in str(faults(one)[0])
    assert faults(reading("[2 cooks, pan]", "{cooks: 2}")) == []


def test_what_the_card_has_too_little_of_and_what_looks_like_a_slip_is_doubted() -> None:
    found = reading(
        "[2 burners, 'oven at 190 °C, 2 shelves', board, board for raw egg, large pt, 2 large pots, pan]"
    )
    assert faults(found) == []
    assert [doubt.what for doubt in doubts(found)] == [
        "the step needs 2 burners, and the kitchen has 1",
        "the step needs 2 oven shelves, and the kitchen has 1",
        "the step needs 2 boards, and the kitchen has 1",
        "the step needs 2 of large pot, and the kitchen has 1",
        "the need 'large pt' is taken for a tool of that name",
        "a step takes 'egg water', and no step of any dish leaves it",
    ]
    assert [doubt.remedy for doubt in doubts(found)[-2:]] == [
        "did you mean 'large pot'?",
        "did you mean 'egg watr'?",
    ]


def test_what_the_card_does_not_state_is_not_doubted() -> None:
    found = reading("[9 burners, 'oven at 190 °C, 4 shelves', microwave, blender, pan]", "{cooks: 1}")
    assert [doubt.what for doubt in doubts(found)] == [
        "a step takes 'egg water', and no step of any dish leaves it"
    ]
