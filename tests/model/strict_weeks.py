"""Weeks too strict for eating at home: of the oven, of containers, of what a portion holds. Rice costs 10 a portion."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.unit.decide.weeks import rules, stew

from ladleworth.decide import Clash, CookSession, DishChoice, HouseRules, Load, Rule


def at_home(**limits: object) -> HouseRules:
    """Nobody eats out, and no other rule than these."""
    return rules(**({"meal_out_cents": None} | limits))


def with_version(**fields: object) -> DishChoice:
    """The stew, its one version changed."""
    plain = stew()
    (version,) = plain.versions
    return replace(plain, versions=(replace(version, **fields),))  # type: ignore[arg-type]


BAKED = with_version(loads={"oven": Load(Fraction(20), Fraction(5))})
"""20 minutes of the oven, and 5 for each portion."""

LARGE = with_version(volume_ml=500)

SALTY = with_version(nutrients={"salt": Fraction(6)})


def oven(minutes: int) -> tuple[CookSession, ...]:
    return (CookSession(1, 60, {"oven": minutes}),)


def ways(found: Clash) -> dict[Rule, Fraction]:
    assert found.proven
    assert all(way.proven for way in found.ways_out)
    return {way.rule: way.amount for way in found.ways_out}
