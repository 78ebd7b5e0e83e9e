"""Finds the cheapest basket of foods with a solver, and hands it to the judge before anyone sees it.

The solver works in floating point; nothing it says is taken over as a number. From a basket of split
packages only the list of foods and of tight floors is taken, and amounts, cost and proof are then worked out
in exact fractions; from one of whole packages the counts, which are whole.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import isfinite
from typing import Any

from ladleworth.decide.hush import hushed
from ladleworth.decide.least_cost import Basket, LeastCostQuestion, PackagedFood, basket_breaches
from ladleworth.errors import JudgeRefused, SolverFailed

WHOLE_TOLERANCE = 1e-4
"""How far from a whole number the solver may leave a count of packages (its own tolerance is 1e-6)."""


def least_cost(
    requirements: Mapping[str, Fraction],
    foods: Sequence[PackagedFood],
    whole_packages: bool = False,  # noqa: FBT001, FBT002  # 'in whole packages' or not is the question itself
    seconds: float = 60.0,
) -> Basket | None:
    """Find the cheapest basket that reaches every floor.

    Parameters
    ----------
    requirements
        The floors: nutrient to amount, for all the days together.
    foods
        What can be bought; `gives` in the same units as the floors, per package.
    whole_packages
        True if a package cannot be split.
    seconds
        The most time to spend on whole packages; when it runs out, the best basket so far comes with its
        bound.

    Returns
    -------
    Basket or None
        The basket, passed by the judge; None if some floor cannot be reached with these foods at all
        (`LeastCostQuestion.unreachable` names it).

    Raises
    ------
    SolverFailed
        If the solver ends without a basket although there is one, or its list of foods cannot be made exact.
    JudgeRefused
        If the basket does not stand.
    """
    question = LeastCostQuestion(requirements, tuple(foods), whole_packages)
    if question.unreachable():
        return None
    solver = _solved(question, seconds)
    basket = _whole_basket(question, solver) if whole_packages else _split_basket(question, solver)
    breaches = basket_breaches(question, basket)
    if breaches:
        raise JudgeRefused(breaches)
    return basket


def _solved(question: LeastCostQuestion, seconds: float) -> Any:  # the solver has no types
    """State the question to the solver, one variable a food, one row a floor, and run it."""
    import highspy

    with hushed():
        solver: Any = highspy.Highs()  # type: ignore[no-untyped-call]
    options: dict[str, bool | int | float] = {
        "output_flag": False,
        "threads": 1,
        "random_seed": 0,
        "time_limit": seconds,
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 1e-6,
    }
    for option, value in options.items():
        solver.setOptionValue(option, value)
    for at, food in enumerate(question.foods):
        solver.addVar(0.0, highspy.kHighsInf)
        solver.changeColCost(at, float(food.package_cents))
        if question.whole_packages:
            solver.changeColIntegrality(at, highspy.HighsVarType.kInteger)
    for nutrient, floor in question.floors.items():
        gives = [(at, float(food.gives.get(nutrient, 0))) for at, food in enumerate(question.foods)]
        row = [(at, amount) for at, amount in gives if amount > 0]
        # A row is scaled to a floor of 1: nutrients come in grams, milligrams and thousands of kcal.
        scale = float(floor) or 1.0
        solver.addRow(
            float(floor) / scale,
            highspy.kHighsInf,
            len(row),
            [at for at, _ in row],
            [amount / scale for _, amount in row],
        )
    solver.run()
    status = solver.getModelStatus()
    good = {highspy.HighsModelStatus.kOptimal, highspy.HighsModelStatus.kTimeLimit}
    if status not in good or not solver.getSolution().value_valid:
        raise SolverFailed(f"the solver found no basket: {solver.modelStatusToString(status)}")
    return solver


def _whole_basket(question: LeastCostQuestion, solver: Any) -> Basket:
    packages = []
    for food, value in zip(question.foods, solver.getSolution().col_value, strict=True):
        count = round(value)
        if abs(value - count) > WHOLE_TOLERANCE:
            raise SolverFailed(f"the solver split a package: {value} of {food.name}")
        if count:
            packages.append((food.name, Fraction(count)))
    cents = _cost(question, packages)
    # Baskets of whole packages cost whole multiples of the prices' common unit, so the bound may be raised
    # to the next one; a hundred-thousandth of a cent is left to the solver's rounding.
    found = solver.getInfo().mip_dual_bound
    # Out of time before there was any bound: no basket costs less than nothing.
    bound = question.on_the_grid(Fraction(found) - Fraction(1, 100_000)) if isfinite(found) else Fraction(0)
    return Basket(tuple(packages), cents, min(max(bound, Fraction(0)), cents))


def _split_basket(question: LeastCostQuestion, solver: Any) -> Basket:
    import highspy

    basis = solver.getBasis()
    bought = [
        food
        for food, status in zip(question.foods, basis.col_status, strict=True)
        if status == highspy.HighsBasisStatus.kBasic
    ]
    tight = [
        nutrient
        for nutrient, status in zip(question.floors, basis.row_status, strict=True)
        if status != highspy.HighsBasisStatus.kBasic
    ]
    rows = [[food.gives.get(nutrient, Fraction(0)) for food in bought] for nutrient in tight]
    counts = _solve_exactly(rows, [question.floors[nutrient] for nutrient in tight])
    columns = [list(column) for column in zip(*rows, strict=True)]
    prices = _solve_exactly(columns, [food.package_cents for food in bought])
    packages = [(food.name, count) for food, count in zip(bought, counts, strict=True) if count]
    bound = sum((question.floors[n] * p for n, p in zip(tight, prices, strict=True)), Fraction(0))
    return Basket(tuple(packages), _cost(question, packages), bound, tuple(zip(tight, prices, strict=True)))


def _cost(question: LeastCostQuestion, packages: Sequence[tuple[str, Fraction]]) -> Fraction:
    price = {food.name: food.package_cents for food in question.foods}
    return sum((price[name] * count for name, count in packages), Fraction(0))


def _solve_exactly(rows: list[list[Fraction]], right: list[Fraction]) -> list[Fraction]:
    """Solve a square set of equations in fractions, by elimination."""
    size = len(right)
    if any(len(row) != size for row in rows) or len(rows) != size:
        raise SolverFailed("the solver's list of foods and tight floors does not match")
    table = [[*row, value] for row, value in zip(rows, right, strict=True)]
    for at in range(size):
        pivot = next((r for r in range(at, size) if table[r][at] != 0), None)
        if pivot is None:
            raise SolverFailed("the solver's list of foods leaves an amount open")
        table[at], table[pivot] = table[pivot], table[at]
        lead = table[at][at]
        table[at] = [value / lead for value in table[at]]
        for r in range(size):
            factor = table[r][at]
            if r != at and factor != 0:
                table[r] = [value - factor * first for value, first in zip(table[r], table[at], strict=True)]
    return [row[size] for row in table]
