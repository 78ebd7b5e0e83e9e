"""The food table: every look-up of a published figure goes through here.

A figure that is not in the table raises `MissingFact`; it is never taken as zero.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from functools import cache

from ladleworth.errors import BadField, MissingFact, UnknownFood
from ladleworth.facts.entries import Entry, lay_over, read_entries
from ladleworth.facts.load import read_sources
from ladleworth.facts.names import fold_name, fold_spelling
from ladleworth.facts.near import nearest_names
from ladleworth.facts.own import OwnFood
from ladleworth.facts.records import (
    PLACES,
    STATES,
    AllergenFlag,
    Composition,
    CookingYield,
    Density,
    Figure,
    Food,
    Freezing,
    Keeping,
    PieceWeight,
    Source,
    WeightIs,
)


@dataclass(frozen=True, slots=True, eq=False)
class FoodTable:
    """The foods and their figures, by id. It never changes; `with_own` gives a new one."""

    _entries: dict[str, Entry]
    _sources: dict[str, Source]
    _spellings: dict[str, str] = field(init=False, repr=False)
    _names: dict[str, str] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        spellings: dict[str, str] = {}
        names: dict[str, str] = {}
        for own in (False, True):  # the kitchen's own names win over the table's
            called: dict[str, set[str]] = {}
            for entry in self._entries.values():
                if entry.food.own == own:
                    for name in (*entry.food.aliases, entry.food.name, entry.food.id):
                        spellings[fold_spelling(name)] = entry.food.id
                        called.setdefault(fold_name(name), set()).add(entry.food.id)
            for name, ids in called.items():
                names.pop(name, None)
                if len(ids) == 1:  # without its accents a name may mean two foods: then it means neither
                    names[name] = next(iter(ids))
        object.__setattr__(self, "_spellings", spellings)
        object.__setattr__(self, "_names", names)

    def __contains__(self, food_id: object) -> bool:
        return food_id in self._entries

    def __iter__(self) -> Iterator[Food]:
        return (entry.food for entry in self._entries.values())

    def __len__(self) -> int:
        return len(self._entries)

    def entry(self, food_id: str) -> Entry:
        """Give all that is known of a food at once; raise UnknownFood, with close names, if there is none."""
        if food_id not in self._entries:
            raise UnknownFood(food_id, self.nearest(food_id))
        return self._entries[food_id]

    def get(self, food_id: str) -> Food:
        """Look up a food by its id; raise UnknownFood, with close names, if there is none."""
        return self.entry(food_id).food

    def find(self, name: str) -> Food:
        """Find a food by id, name or alias, whatever the case, accents, spaces and simple plurals.

        Parameters
        ----------
        name
            What the cook calls it.

        Returns
        -------
        Food
            The one food of that name; the kitchen's own food where it shares a name with the table's. An
            accent left out is forgiven where only one food is meant.

        Raises
        ------
        UnknownFood
            If none is called so; it holds the three nearest names.
        """
        food_id = self._spellings.get(fold_spelling(name)) or self._names.get(fold_name(name))
        if food_id is None:
            raise UnknownFood(name, self.nearest(name))
        return self._entries[food_id].food

    def matches(self, name: str) -> tuple[Food, ...]:
        """List every food that bears a name, in full or with more words: 'lentils' are brown and red.

        Parameters
        ----------
        name
            The bare name of a family, such as 'lentils'.

        Returns
        -------
        tuple of Food
            The food that `find` gives first, if there is one; then, in the order of the table, those of
            which one name or alias holds all the words. Empty if there is none.
        """
        wanted = frozenset(fold_name(name).split())
        if not wanted:
            return ()
        first = self._spellings.get(fold_spelling(name)) or self._names.get(fold_name(name))
        bearing = [
            entry.food.id
            for entry in self._entries.values()
            if any(wanted <= set(fold_name(one).split()) for one in (entry.food.name, *entry.food.aliases))
        ]
        ids = dict.fromkeys(([first] if first else []) + bearing)
        return tuple(self._entries[food_id].food for food_id in ids)

    def nearest(self, name: str, n: int = 3) -> tuple[str, ...]:
        """Give the names of the n foods whose name or alias is most like this one, most like first.

        Empty where even the best is a poor likeness: a name that the table does not hold, not a slip.
        """
        called = (
            (name, entry.food.name)
            for entry in self._entries.values()
            for name in (entry.food.name, *entry.food.aliases, entry.food.id)
        )
        return nearest_names(name, called, n)

    def composition(self, food_id: str) -> Composition:
        """Look up what 100 g of the edible part holds; raise MissingFact if nobody has it."""
        composition = self.entry(food_id).composition
        if composition is None:
            raise MissingFact(f"nobody has the composition of {food_id!r}")
        return composition

    def nutrient(self, food_id: str, nutrient: str) -> Figure:
        """Look up one nutrient in 100 g of the edible part ('kcal/100 g', 'g/100 g', 'mg/100 g', 'µg/100 g').

        Raises
        ------
        MissingFact
            If the food has no composition, or its source gives no figure for the nutrient.
        """
        return self.composition(food_id).get(nutrient)

    def edible_fraction(self, food_id: str) -> Figure:
        """Look up the share of the weight as bought that is eaten, above 0 and at most 1."""
        edible = self.entry(food_id).edible
        if edible is None:
            own = "; write edible: 0.9, say, in foods.yaml" if self.get(food_id).own else ""
            raise MissingFact(f"nobody has the edible fraction of {food_id!r}{own}")
        return edible

    def piece_weights(self, food_id: str) -> tuple[PieceWeight, ...]:
        """List every printed piece weight of a food, the usual size first; empty if there is none."""
        return self.entry(food_id).pieces

    def piece_sizes(self, food_id: str) -> tuple[str, ...]:
        """List the sizes that have a piece weight, the usual one first; empty if there is none."""
        return tuple(dict.fromkeys(piece.size for piece in self.piece_weights(food_id)))

    def piece(self, food_id: str, size: str | None = None) -> PieceWeight:
        """Look up the weight of one piece as it is printed, with what that weight stands for.

        Parameters
        ----------
        food_id
            The food's id.
        size
            One of `piece_sizes`; None takes the usual size, the first in the table: medium where there is
            one (large for eggs), else a whole piece, else the commonest cut (clove, slice, stick).

        Returns
        -------
        PieceWeight
            Size, weight in g and whether it is the edible part or the whole as bought.

        Raises
        ------
        MissingFact
            If nobody has a weight for the food, or for that size.
        """
        pieces = self.piece_weights(food_id)
        if not pieces:
            raise MissingFact(f"nobody has the weight of one piece of {food_id!r}")
        for piece in pieces:
            if size is None or piece.size == size:
                return piece
        sizes = ", ".join(self.piece_sizes(food_id))
        raise MissingFact(f"nobody has the weight of a {size!r} piece of {food_id!r}; there are: {sizes}")

    def piece_weight(
        self, food_id: str, size: str | None = None, weight_is: WeightIs | None = None
    ) -> Figure:
        """Look up the weight of one piece in g, as the edible part or as the whole bought.

        Parameters
        ----------
        food_id, size
            As for `piece`.
        weight_is
            None takes the weight as printed. Otherwise the weight of that kind: printed if there is one,
            else worked through the edible fraction.

        Returns
        -------
        Figure
            The weight in g; a worked one says so in its basis and note.

        Raises
        ------
        MissingFact
            If there is no weight, or no edible fraction to work the other kind through.
        """
        piece = self.piece(food_id, size)
        if weight_is is None or piece.weight_is is weight_is:
            return piece.weight
        for other in self.piece_weights(food_id):
            if other.size == piece.size and other.weight_is is weight_is:
                return other.weight
        edible = self.edible_fraction(food_id)
        to_edible = weight_is is WeightIs.EDIBLE
        grams = piece.weight.value * edible.value if to_edible else piece.weight.value / edible.value
        return replace(
            piece.weight,
            value=grams,
            basis="worked",
            note=f"{piece.weight.note}; {'×' if to_edible else '/'} edible fraction ({edible.source})",
        )

    def densities(self, food_id: str) -> tuple[Density, ...]:
        """List every density of a food, the usual form first; empty if there is none."""
        return self.entry(food_id).densities

    def density(self, food_id: str, form: str | None = None) -> Figure:
        """Look up the weight of 1 ml of a food, in g/ml.

        Parameters
        ----------
        food_id
            The food's id.
        form
            Such as 'chopped', 'packed', 'cooked'; None takes the usual form, the first in the table: as
            it is poured where there is such a figure, else chopped, diced, sliced and so on; shredded
            first for cheese.

        Raises
        ------
        MissingFact
            If nobody has a density for the food, or for that form.
        """
        densities = self.densities(food_id)
        if not densities:
            raise MissingFact(f"nobody has the density of {food_id!r}")
        for density in densities:
            if form is None or density.form == form:
                return density.weight
        forms = ", ".join(density.form for density in densities)
        raise MissingFact(f"nobody has the density of {food_id!r} when {form}; there are: {forms}")

    def keepings(self, food_id: str) -> tuple[Keeping, ...]:
        """List every keeping time of a food; empty if there is none."""
        return self.entry(food_id).keeping

    def keeping(self, food_id: str, place: str, state: str) -> Keeping:
        """Look up how long a food keeps.

        Parameters
        ----------
        food_id
            The food's id.
        place
            'cupboard', 'fridge' or 'freezer'.
        state
            'raw', 'cut', 'cooked', 'unopened' or 'opened'. A time whose source makes no difference
            between states (state 'any') answers for raw, unopened and opened; never for cooked or cut.

        Raises
        ------
        MissingFact
            If nobody has it. Nothing shorter or longer is guessed in its place.
        """
        if place not in PLACES or state not in STATES:
            raise BadField(
                f"place {place!r} with state {state!r} is not known; places: {', '.join(PLACES)}; "
                f"states: {', '.join(STATES)}"
            )
        wanted = (state,) if state in ("cooked", "cut") else (state, "any")
        for one in wanted:
            for keeping in self.keepings(food_id):
                if keeping.place == place and keeping.state == one:
                    return keeping
        raise MissingFact(f"nobody has the keeping time of {food_id!r}, {state}, in the {place}")

    def freezing(self, food_id: str) -> Freezing:
        """Look up how a food takes freezing; raise MissingFact if nobody says."""
        freezing = self.entry(food_id).freezing
        if freezing is None:
            raise MissingFact(f"nobody says how {food_id!r} takes freezing")
        return freezing

    def allergens(self, food_id: str) -> tuple[AllergenFlag, ...]:
        """List the major allergens known to be in a food. None listed is no promise that there is none."""
        return self.entry(food_id).allergens

    def read_label(self, food_id: str) -> bool:
        """Tell whether products of this kind commonly hide allergens, so that the label must be read."""
        return self.entry(food_id).read_label

    def cooking_yields(self, food_id: str) -> tuple[CookingYield, ...]:
        """List every cooking yield of a food; empty if there is none."""
        return self.entry(food_id).yields

    def cooking_yield(self, food_id: str, method: str) -> CookingYield:
        """Look up the yield of a food cooked by a method.

        Parameters
        ----------
        food_id
            The food's id.
        method
            As the table writes it ('boiled, drained'), or one of its words ('boiled'; 'roasted' for
            'baked or roasted'). The whole wording wins over a single word; else the first row that fits.

        Raises
        ------
        MissingFact
            If nobody has it.
        """
        wanted = fold_name(method)
        yields = self.cooking_yields(food_id)
        for found in yields:
            if fold_name(found.method) == wanted:
                return found
        for found in yields:
            if wanted in map(fold_name, re.split(r", | or ", found.method)):
                return found
        there = ", ".join(found.method for found in yields) or "none"
        raise MissingFact(f"nobody has the yield of {food_id!r} when {method}; there are: {there}")

    def source(self, source_id: str) -> Source:
        """Look up a source by its id; raise MissingFact if there is none."""
        if source_id not in self._sources:
            raise MissingFact(f"no source has the id {source_id!r}")
        return self._sources[source_id]

    def with_own(self, records: Iterable[OwnFood]) -> FoodTable:
        """Lay the kitchen's own foods over the table.

        Parameters
        ----------
        records
            Foods to add, or to override part by part: what a record leaves out stays as it was.

        Returns
        -------
        FoodTable
            A new table; this one is unchanged.
        """
        entries = dict(self._entries)
        for record in records:
            entries[record.food.id] = lay_over(entries.get(record.food.id), record)
        return FoodTable(entries, self._sources)


@cache
def food_table() -> FoodTable:
    """Give the food table that comes with the package, read on first use."""
    return FoodTable(read_entries(), read_sources())
