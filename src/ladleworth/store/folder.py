"""The kitchen folder as a whole: every paper read, every fault of all of them listed at once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from ladleworth.dish.dish import Dish
from ladleworth.dish.tree import Placer
from ladleworth.errors import BadField, FaultyKitchen, Finding, MissingFact, Place, Weight
from ladleworth.facts import FoodTable, food_table
from ladleworth.household import Kitchen
from ladleworth.ledger import Ledger, LotUnit, PriceBook
from ladleworth.store import papers as names
from ladleworth.store.csv_rows import Columns, Row, read_rows
from ladleworth.store.exclusions import read_exclusion
from ladleworth.store.fields import open_yaml, place_name
from ladleworth.store.folder_dishes import (
    DishOnPaper,
    check_never,
    check_volumes,
    dish_names,
    doubt_frozen,
    doubt_unbounded,
    doubt_unbrought,
    doubt_uneaten,
    read_dishes,
    resolve_dishes,
)
from ladleworth.store.folder_foods import FoodsPaper, read_foods
from ladleworth.store.folder_kitchen import KitchenPaper, read_kitchen
from ladleworth.store.folder_ledger import LOT_COLUMNS, MOVEMENT_COLUMNS, read_ledger
from ladleworth.store.folder_prices import PRICE_COLUMNS, PricesPaper, read_prices, shops_of
from ladleworth.store.folder_steps import check_steps
from ladleworth.store.folder_stock import STOCK_COLUMNS, Shelf, read_stock
from ladleworth.store.keeping_rule import days_kept
from ladleworth.store.lacking import TO_BOOKS, TO_PAPERS, doubt_lacking
from ladleworth.store.papers import Paper, gather
from ladleworth.store.plan_json import SavedPlan, read_plan

A_YEAR_OFF = 250
"""A date so many days from the plan's first day speaks of another year. House rule."""

LEAST_LINES = 3
"""So many lines, and more than half of those with a date, have to lie a year off to doubt `start`. House rule."""

DATE_COLUMNS = ("got", "opened", "use_by", "seen")


@dataclass(frozen=True, slots=True)
class FolderReading:
    """What a kitchen folder holds.

    Parameters
    ----------
    kitchen
        The kitchen, None if there is any fault.
    findings
        Every fault and doubt of all files, by file and line.
    papers
        The files as written.
    plans
        The plans kept in it.
    """

    kitchen: Kitchen | None
    findings: tuple[Finding, ...]
    papers: tuple[Paper, ...]
    plans: tuple[SavedPlan, ...] = ()

    def without_faults(self) -> Kitchen:
        """Give the kitchen; raise FaultyKitchen, with every finding, if there is any fault."""
        if self.kitchen is None:
            raise FaultyKitchen(self.findings)
        return self.kitchen


@dataclass(frozen=True, slots=True)
class Books:
    """What a kitchen in use keeps beside its papers, in place of stock.csv and prices.csv."""

    ledger: Ledger
    prices: PriceBook
    most_packages: dict[str, int] = field(default_factory=dict)


def read_folder(folder: str | Path) -> FolderReading:
    """Read a kitchen folder.

    Parameters
    ----------
    folder
        The folder, as the cook names it.

    Returns
    -------
    FolderReading
        The kitchen, if nothing is at fault, and all findings of all files at once.
    """
    papers, found = gather(folder)
    return read_papers(papers, root=str(folder), found=found)


def read_papers(
    papers: Sequence[Paper], *, root: str = "", found: Iterable[Finding] = (), books: Books | None = None
) -> FolderReading:
    """Read the papers of a kitchen, wherever they are kept.

    Parameters
    ----------
    papers
        The papers.
    root
        What to put before their paths when naming them ('' for nothing).
    found
        What was found already when gathering them.
    books
        The ledger and prices of a kitchen in use; None takes them from the papers.

    Returns
    -------
    FolderReading
        The kitchen, if nothing is at fault, and all findings.
    """
    papers = sorted(papers, key=lambda paper: paper.path)
    reader = _Reader(papers, root, list(found))
    kitchen = reader.read(books)
    findings = tuple(
        sorted(dict.fromkeys(reader.found), key=lambda finding: (finding.place.file, finding.place.line or 0))
    )
    faulty = any(finding.weight is Weight.FAULT for finding in findings)
    return FolderReading(None if faulty else kitchen, findings, tuple(papers), tuple(reader.plans))


class _Reader:
    """Reads papers in the order in which they need one another, and gathers what it finds."""

    def __init__(self, papers: Sequence[Paper], root: str, found: list[Finding]) -> None:
        self._papers = {paper.path: paper for paper in papers}
        self._root = root
        self.found = found
        self.plans: list[SavedPlan] = []
        self._dated: list[Row] = []
        self._place: Placer = lambda _: Place(place_name(root, names.KITCHEN))
        self._start: Place | None = None

    def read(self, books: Books | None) -> Kitchen | None:
        if not self._papers and self.found:
            return None  # there is no such folder; that is said already
        own = self._foods()
        foods = food_table().with_own(own.foods) if own.foods else food_table()
        dishes = self._dishes()
        told = dish_names(dishes)
        paper = self._kitchen(foods, told)
        resolved = resolve_dishes(dishes, foods, paper.keep_days)
        if paper.eaters:
            check_never(dishes, paper.eaters)
        keep_days = _keep_days(own, foods)
        doubt_frozen(resolved)
        shelf = Shelf(foods, paper.currency, paper.start, paper.days, keep_days, _needed(resolved))
        in_use = books is not None
        if books is None:
            prices = self._prices(shelf, paper)
            books = Books(self._ledger(shelf), prices.prices, prices.most)
        self._doubt_start(paper.start)
        self._check_books(books, foods)
        self._plans()
        household = paper.household
        if household is not None:
            household = replace(household, shops=shops_of(household.shops, books.prices.offers))
            doubt_uneaten(household, resolved, foods)
            check_volumes(household, resolved, foods)
            doubt_unbounded(household, resolved, foods)
            self.found += doubt_unbrought(household, resolved, foods, self._place)
            check_steps(household.equipment, resolved)
        self.found += [finding for dish in dishes for finding in dish.node.findings.found]
        if household is None:
            return None
        records = tuple(record for _, record in resolved)
        if not any(finding.weight is Weight.FAULT for finding in self.found):
            place = Place(place_name(self._root, names.PRICES))
            remedy = TO_BOOKS if in_use else TO_PAPERS
            self.found += doubt_lacking(
                place, records, foods, books.ledger, books.prices, household.start, remedy
            )
        return Kitchen(
            household, foods, records, books.ledger, books.prices, keep_days, own.foods, books.most_packages
        )

    def _fault(self, path: str, what: str, remedy: str) -> None:
        self.found.append(Finding(Place(place_name(self._root, path)), what, remedy))

    def _foods(self) -> FoodsPaper:
        if names.FOODS not in self._papers:
            return FoodsPaper()
        top = open_yaml(self._papers[names.FOODS], self._root)
        read = FoodsPaper() if top.data is None else read_foods(top, food_table())
        self.found += top.findings.found
        return read

    def _dishes(self) -> list[DishOnPaper]:
        dishes: list[DishOnPaper] = []
        here = place_name(self._root, "dishes")
        unread = any(finding.place.file.startswith(here) for finding in self.found)
        for path, paper in self._papers.items():
            if path == names.DISHES or path.startswith("dishes/"):
                top = open_yaml(paper, self._root)
                read = read_dishes(top)
                if not read:  # with a dish, its node brings these findings along
                    self.found += top.findings.found
                    unread = unread or bool(top.findings.found)
                dishes += read
        if not dishes and not unread:
            self._fault(
                names.DISHES, "the kitchen has no dish", f"write one in {names.DISHES} or dishes/NAME.yaml"
            )
        return dishes

    def _kitchen(self, foods: FoodTable, dishes: dict[str, str]) -> KitchenPaper:
        paper = self._papers.get(names.KITCHEN)
        if paper is None:
            file = place_name(self._root, names.KITCHEN)
            if not any(finding.place.file == file for finding in self.found):
                self._fault(names.KITCHEN, "the file is missing", "write one; it says who eats when")
            return KitchenPaper()
        top = open_yaml(paper, self._root)
        if top.findings.faulty and top.data is None:
            self.found += top.findings.found
            return KitchenPaper()
        self._place, self._start = top.findings.place, top.findings.place(("start",))
        read = read_kitchen(top, lambda node: read_exclusion(node, foods, dishes), dishes)
        self.found += top.findings.found
        return read

    def _ledger(self, shelf: Shelf) -> Ledger:
        stock = self._papers.get(names.STOCK)
        lots, movements = self._papers.get(names.LOTS), self._papers.get(names.MOVEMENTS)
        if lots is None and movements is None:
            return Ledger() if stock is None else read_stock(self._rows(stock, STOCK_COLUMNS), shelf)
        if stock is not None:
            self._fault(
                names.STOCK, "the folder has a ledger as well", "keep the ledger, and take stock.csv out"
            )
        if lots is None or movements is None:
            missing = names.LOTS if lots is None else names.MOVEMENTS
            self._fault(
                missing, "the file is missing", "bring it back: lots and movements only make sense together"
            )
            return Ledger()
        found: list[Finding] = []
        ledger = read_ledger(
            read_rows(lots, LOT_COLUMNS, self._root, found, strip=False),
            read_rows(movements, MOVEMENT_COLUMNS, self._root, found, strip=False),
            found,
            place_name(self._root, names.MOVEMENTS),
        )
        self.found += found
        return ledger

    def _prices(self, shelf: Shelf, paper: KitchenPaper) -> PricesPaper:
        prices = self._papers.get(names.PRICES)
        if prices is None:
            return PricesPaper()
        shops = paper.household.shops if paper.household else ()
        return read_prices(self._rows(prices, PRICE_COLUMNS), shelf, shops)

    def _rows(self, paper: Paper, columns: Columns) -> list[Row]:
        """Read a paper's rows, and keep them to see whether their dates fit the plan's year."""
        rows = read_rows(paper, columns, self._root, self.found)
        self._dated += rows
        return rows

    def _doubt_start(self, start: date | None) -> None:
        """Doubt `start` once where most lines with dates lie about a year off it, in place of each of them."""
        far = [
            finding
            for row in self._dated
            for finding, day in row.dated
            if start is not None and abs((day - start).days) >= A_YEAR_OFF
        ]
        lines = {(finding.place.file, finding.place.line) for finding in far}
        dated = [row for row in self._dated if any(row[column] for column in DATE_COLUMNS)]
        if len(lines) < LEAST_LINES or 2 * len(lines) <= len(dated):
            return
        away = set(far)
        self.found = [finding for finding in self.found if finding not in away]
        self.found.append(
            Finding(
                self._start or Place(place_name(self._root, names.KITCHEN), None, "start"),
                f"the plan starts on {start}, and {len(lines)} of the {len(dated)} lines of stock and prices that "
                "bear a date lie about a year off it",
                "correct the year of start, or those dates",
                Weight.DOUBT,
            )
        )

    def _check_books(self, books: Books, foods: FoodTable) -> None:
        """Fault what the books hold of foods that are no longer known."""
        kept = {lot.item: f"lot {lot.id!r}" for lot in books.ledger.lots if lot.unit is not LotUnit.PORTION}
        offered = {offer.food: str(offer) for offer in books.prices.offers}
        for food, what in (offered | kept).items():
            if food not in foods:
                remedy = f"put {food} back into {names.FOODS}"
                self._fault(names.FOODS, f"{what} is of the food {food!r}, which is not known", remedy)

    def _plans(self) -> None:
        numbers: set[int] = set()
        for path, paper in self._papers.items():
            if not path.startswith("plans/"):
                continue
            try:
                plan = read_plan(paper.text)
            except BadField as bad:
                reason, _, remedy = str(bad).partition("; ")
                self._fault(
                    path, f"this is no plan: {reason}", remedy or "bring the file back as it was written"
                )
                continue
            if plan.id in numbers:
                self._fault(
                    path, f"a plan with the number {plan.id} stands there twice", "keep one of the two"
                )
                continue
            numbers.add(plan.id)
            self.plans.append(plan)
        self.plans.sort(key=lambda plan: plan.id)


def _keep_days(own: FoodsPaper, foods: FoodTable) -> dict[str, int | None]:
    """Gather how long each food keeps once bought: the kitchen's own word first, then the rule."""
    keep_days: dict[str, int | None] = {}
    told = dict(own.keep_days)
    for food in foods:
        try:
            keep_days[food.id] = told[food.id] if food.id in told else days_kept(foods, food.id)
        except MissingFact:
            continue  # nobody knows it; whoever needs it says so
    return keep_days


def _needed(dishes: list[tuple[DishOnPaper, Dish]]) -> frozenset[str]:
    """Gather the foods that any dish takes in a measured amount."""
    return frozenset(
        ingredient.food
        for _, dish in dishes
        for part in dish.parts
        for ingredients in (part.ingredients, *(swap.ingredients for swap in part.swaps))
        for ingredient in ingredients
        if not ingredient.unmeasured
    )
