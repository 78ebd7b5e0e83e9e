"""A tiny kitchen whose dishes have steps, for the tests of its cooking day."""

from __future__ import annotations

from pathlib import Path

from tests.unit.cli.kitchens import KITCHEN, accepted

COOKS = (
    KITCHEN
    + """\
equipment:
  burners: 2
  oven_shelves: 1
  oven: {heating: 0.2 min, cooling: 2 min, tolerance: 10 °C}
  boards: 1
  counter: 6
  room: 21 °C
  wash: 2 min
  slower: 20%
  vessels: {large pot: 6 l, baking dish: 3 l}
"""
)
STEPS = """\
- dish: Lentil stew
  least: 2
  greatest: 8
  hands_on: {fixed: 6, per_portion: 1}
  freezer_days: 60
  per_portion: {lentils: 80 g, onion: 60 g}
  steps:
    - {do: Soak the lentils., unattended: 8 h, day_before: yes}
    - {do: Chop the onion., hands_on: 6 min, needs: [hands, board], prep: chopped onion}
    - {do: Simmer., hands_on: 2 min, unattended: 40 min, needs: [hands, burner, large pot]}
- dish: Egg rice
  hands_on: {fixed: 10}
  per_portion: {rice: 75 g, egg: 1, onion: 10 g}
  steps:
    - {do: Chop the onion., hands_on: 6 min, needs: [hands, board], prep: chopped onion}
    - {do: Fill the dish., hands_on: 4 min, needs: [hands, baking dish]}
    - {do: Bake., unattended: 40 min, needs: [oven at 190 °C, baking dish]}
"""
SUNDAY = ("--today", "2026-12-06")


def planned(tmp_path: Path) -> Path:
    """A kitchen's file with an accepted plan that cooks on its first day."""
    return accepted(tmp_path, kitchen=COOKS, dishes=STEPS)
