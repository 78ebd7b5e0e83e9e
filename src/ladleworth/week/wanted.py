"""What the household settles beforehand, as it is written: read into wishes, all faults at once. Pure."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from ladleworth.decide import (
    CookSession,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    Question,
    Wish,
)
from ladleworth.errors import BadField, FaultyKitchen, Finding, LadleworthError, Place
from ladleworth.facts.names import fold_name
from ladleworth.household import Kitchen
from ladleworth.ledger import PriceBook
from ladleworth.ledger.lot import in_words
from ladleworth.units import read_money
from ladleworth.week.finding import MOST_NAMED, find_dish, find_lot
from ladleworth.week.naming import find_offer, read_day, read_earlier, why_not_served
from ladleworth.week.packing import THAWING
from ladleworth.week.same_as import eaten_on, same_again
from ladleworth.week.shelf import read_amount

OUT = "out"
"""What is written for a meal out."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """Everything wished for, as it was written; docs/cli.md tells how each is written."""

    cook: tuple[str, ...] = ()
    leave_out: tuple[str, ...] = ()
    use: tuple[str, ...] = ()
    serve: tuple[str, ...] = ()
    buy: tuple[str, ...] = ()
    in_basket: tuple[str, ...] = ()
    same_as: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    price: tuple[str, ...] = ()
    without_shop: tuple[str, ...] = ()


def asked_with(
    kitchen: Kitchen, question: Question, wanted: Wanted, kept: Sequence[Wish] = ()
) -> tuple[Kitchen, Question]:
    """Add to a question what is wished for.

    Parameters
    ----------
    kitchen, question
        The kitchen, and the plain question of its week.
    wanted
        The wishes as written.
    kept
        Wishes that hold already, as those of the plan that is planned on.

    Returns
    -------
    tuple of Kitchen and Question
        The kitchen with the prices that hold for this decision, and the question with its wishes.

    Raises
    ------
    FaultyKitchen
        With every fault of the wishes, each under the option that has it.
    """
    reading = _Reading(kitchen, question)
    reading.each("--without-shop", wanted.without_shop, reading.without_shop)
    reading.each("--gone", wanted.gone, reading.gone)
    reading.each("--price", wanted.price, reading.price)
    if wanted.in_basket:
        reading.let_shop_today()
    reading.each("--in-basket", wanted.in_basket, reading.in_basket)
    reading.each("--buy", wanted.buy, reading.buy)
    reading.each("--cook", wanted.cook, reading.cook)
    reading.each("--leave-out", wanted.leave_out, reading.leave_out)
    reading.each("--use", wanted.use, reading.use)
    reading.each("--serve", wanted.serve, reading.serve)
    reading.each("--same-as", wanted.same_as, reading.same_as)
    if reading.faults:
        raise FaultyKitchen(reading.faults)
    asked = reading.question
    return reading.kitchen, replace(asked, wishes=(*_still(asked, kept), *reading.wishes))


def _still(question: Question, kept: Sequence[Wish]) -> tuple[Wish, ...]:
    """Leave out the wishes to buy what is gone."""
    offers = {offer.name for offer in question.offers}
    return tuple(wish for wish in kept if not isinstance(wish, MustBuy) or wish.offer in offers)


@dataclass(slots=True)
class _Reading:
    """What has been read so far: the kitchen and question as changed, the wishes, the faults."""

    kitchen: Kitchen
    question: Question
    wishes: list[Wish] = field(default_factory=list)
    faults: list[Finding] = field(default_factory=list)

    def each(self, option: str, texts: Sequence[str], read: Callable[[str], None]) -> None:
        """Read every value of an option; a fault is kept, and the next value is read all the same."""
        for text in texts:
            try:
                read(text)
            except LadleworthError as fault:
                what, _, remedy = str(fault).partition("; ")
                place = Place("command line", None, f"{option} {text!r}")
                self.faults.append(Finding(place, what, remedy or "docs/cli.md tells how it is written"))

    # --- what the shops have --------------------------------------------------------------------------

    def without_shop(self, text: str) -> None:
        shops = {shop.name for shop in self.question.shops}
        found = [shop for shop in shops if fold_name(shop) == fold_name(text)]
        if len(found) != 1:
            raise BadField(f"no shop is called {text!r}; name one of {', '.join(sorted(shops)) or 'none'}")
        offers = tuple(offer for offer in self.question.offers if offer.shop != found[0])
        rest = tuple(shop for shop in self.question.shops if shop.name != found[0])
        self.question = replace(self.question, offers=offers, shops=rest)

    def gone(self, text: str) -> None:
        gone = find_offer(self.kitchen, self.question, text)
        rest = tuple(offer for offer in self.question.offers if offer != gone)
        self.question = replace(self.question, offers=rest)

    def price(self, text: str) -> None:
        name, equals, amount = text.rpartition("=")
        if not equals or not name:
            raise BadField(f"{text!r} names no price; write OFFER=2.49")
        offer = find_offer(self.kitchen, self.question, name)
        cents = read_money(amount, self.kitchen.household.currency)
        offers = tuple(replace(o, cents=cents) if o == offer else o for o in self.question.offers)
        self.question = replace(self.question, offers=offers)
        book = self.kitchen.prices.offers
        seen = tuple(replace(o, price_cents=cents) if o.id == offer.name else o for o in book)
        self.kitchen = replace(self.kitchen, prices=PriceBook(seen))

    def let_shop_today(self) -> None:
        """Let the first day be one for shopping, without a minute for cooking, if it is none yet."""
        if all(session.day != 1 for session in self.question.sessions):
            today = CookSession(1, 0)
            self.question = replace(self.question, sessions=(today, *self.question.sessions))

    def in_basket(self, text: str) -> None:
        name, said = _parted(text)
        if set(said) - {"*"}:
            raise BadField(
                f"{text!r} names more than a number; write OFFER*PACKAGES, for the first day it is"
            )
        self._buy(name, 1, _number(said["*"]) if "*" in said else 1)

    def buy(self, text: str) -> None:
        name, said = _parted(text)
        if "=" in said:
            raise BadField(f"{text!r} names a price; write OFFER@DAY*PACKAGES, and --price for the price")
        sessions = [session.day for session in self.question.sessions]
        if not sessions:
            raise BadField("nothing can be bought, since the cook has no session in these days; plan one")
        day = self._session(said["@"]) if "@" in said else sessions[0]
        self._buy(name, day, _number(said["*"]) if "*" in said else 1)

    def _buy(self, name: str, day: int, number: int) -> None:
        offer = find_offer(self.kitchen, self.question, name.strip())
        if offer.most is not None and number > offer.most:
            raise BadField(f"a visit has at most {offer.most} of {offer.name}; write no more")
        self._add(MustBuy(day, offer.name, number))

    # --- what is cooked ---------------------------------------------------------------------------------

    def cook(self, text: str) -> None:
        name, said = _parted(text)
        dish, day, version = self._dish(name, said)
        number = _number(said["*"]) if "*" in said else 1
        choice = self.question.dish(dish)
        sessions = 1 if day else len(self.question.sessions)
        if number > choice.greatest * sessions:
            each = f"a batch of {dish} is at most {choice.greatest} portions"
            raise BadField(f"{number} portions are too many, since {each}; write fewer, or another greatest")
        self._add(MustCook(dish, day, version, number))

    def leave_out(self, text: str) -> None:
        name, said = _parted(text)
        if "*" in said:
            raise BadField(f"{text!r} leaves out a number of portions; write the dish alone, or --cook fewer")
        dish, day, version = self._dish(name, said)
        wish = MustNotCook(dish, day, version)
        for other in self.wishes:
            if isinstance(other, MustCook) and _meet(wish, other):
                raise BadField(f"{dish} is to be cooked and left out; write one of the two")
        self._add(wish)

    def _dish(self, name: str, said: Mapping[str, str]) -> tuple[str, int | None, str | None]:
        dish = find_dish(self.kitchen, name).id
        day = self._session(said["@"]) if "@" in said else None
        return dish, day, self._version(dish, said["="]) if "=" in said else None

    def _version(self, dish: str, text: str) -> str:
        names = [version.name for version in self.question.dish(dish).versions]
        wanted = fold_name(text)
        exact = [name for name in names if fold_name(name) == wanted]
        found = exact or [name for name in names if wanted in fold_name(name)]
        if len(found) == 1:
            return found[0]
        told = "; ".join(names[:MOST_NAMED]).replace("; ", " or ")
        if found:
            raise BadField(f"several versions of {dish} are {text!r}; write {told}")
        raise BadField(f"{dish} has no version {text!r}; write {told}")

    def _session(self, text: str) -> int:
        day = read_day(self.kitchen, text)
        sessions = [session.day for session in self.question.sessions]
        if day not in sessions:
            told = " or ".join(map(str, sessions)) or "none"
            raise BadField(f"day {day} has no session to cook and shop in; the days with one are {told}")
        return day

    # --- what is used and eaten -----------------------------------------------------------------------------

    def use(self, text: str) -> None:
        name, star, amount = text.partition("*")
        lot = find_lot(self.kitchen, name.strip())
        there = {one.name: one.quantity for one in self.question.lots}
        there |= {one.name: one.portions for one in self.question.portions}
        held = self.kitchen.ledger.holding(lot).lot
        if lot not in there and lot + THAWING in there:
            lot += THAWING
        if lot not in there:
            raise BadField(
                f"nothing of {lot} can be used in these days; ladleworth onhand lists what is there"
            )
        food = next((one.food for one in self.question.lots if one.name == lot), None)
        if food is not None and not any(
            food in version.needs for dish in self.question.dishes for version in dish.versions
        ):
            raise BadField(f"no dish takes {lot}; name another lot, or add a dish that takes it")
        quantity = read_amount(self.kitchen, held, amount) if star else there[lot]
        if not 0 < quantity <= there[lot]:
            told = in_words(there[lot], held.unit)
            raise BadField(f"{amount.strip()} of {lot} cannot be used; write an amount up to {told}")
        self._add(MustUse(lot, quantity))

    def serve(self, text: str) -> None:
        slot, equals, dish = text.rpartition("=")
        if not equals or not dish.strip():
            raise BadField(f"{text!r} names no dish; write 'EATER MEAL DAY=DISH', or =out for a meal out")
        day, eater, meal = self._slot(slot)
        self._serve(day, eater, meal, dish.strip())

    def _slot(self, text: str) -> tuple[int, str, str]:
        """Read 'EATER MEAL DAY', whatever spaces the names have."""
        words = " ".join(text.split())
        pairs = dict.fromkeys((slot.eater, slot.meal) for slot in self.question.slots)
        fits = [
            (eater, meal)
            for eater, meal in pairs
            if words.casefold().startswith(f"{eater} {meal} ".casefold())
        ]
        if not fits:
            told = ", ".join(f"{eater} {meal}" for eater, meal in pairs)
            raise BadField(f"{text!r} is no meal with its day; write one of these and the day: {told}")
        eater, meal = max(fits, key=lambda pair: len(" ".join(pair)))
        day = read_day(self.kitchen, words[len(f"{eater} {meal} ") :])
        if not any((s.day, s.eater, s.meal) == (day, eater, meal) for s in self.question.slots):
            raise BadField(f"{eater} has no {meal} to plan on day {day}; write another day")
        return day, eater, meal

    def _serve(self, day: int, eater: str, meal: str, name: str) -> None:
        if name.casefold() == OUT:
            if self.question.rules.meal_out_cents is None:
                raise BadField(
                    "nobody eats out in this household; write meal_out under rules, or name a dish"
                )
            dish = None
        else:
            dish = self._served(name)
            self._check_for(dish, eater, meal)
        for other in self.wishes:
            if isinstance(other, MustServe) and (other.day, other.eater, other.meal) == (day, eater, meal):
                if other.dish == dish:
                    return
                raise BadField(f"{eater} {meal} of day {day} is settled twice; write one of the two")
        self._add(MustServe(day, eater, meal, dish))

    def _served(self, name: str) -> str:
        """Find a dish, or one of which portions are on hand."""
        held = dict.fromkeys(lot.dish for lot in self.question.portions)
        for dish in held:
            if fold_name(dish) == fold_name(name):
                return dish
        return find_dish(self.kitchen, name).id

    def _check_for(self, dish: str, eater: str, meal: str) -> None:
        """Refuse a dish that this eater cannot have at this meal, whether cooked or on hand."""
        why = why_not_served(self.question, dish, eater, meal)
        if why:
            raise BadField(f"{why}; write another dish")

    def same_as(self, text: str) -> None:
        earlier, at, later = text.partition("@")
        if not at:
            raise BadField(f"{text!r} names no day to copy to; write EARLIER@DAY, such as tuesday@tuesday")
        day, before = read_day(self.kitchen, later), read_earlier(self.kitchen, earlier)
        had = eaten_on(self.kitchen, before)
        for slot, dish in same_again(self.kitchen, self.question, had, before, day):
            self._serve(day, slot.eater, slot.meal, dish)

    def _add(self, wish: Wish) -> None:
        if wish not in self.wishes:
            self.wishes.append(wish)


def _parted(text: str) -> tuple[str, dict[str, str]]:
    """Part 'NAME@DAY*3=VERSION', its signs in any order, into the name and what stands after each sign."""
    name, *rest = re.split(r"([@*=])", text)
    said: dict[str, str] = {}
    for sign, value in zip(rest[::2], rest[1::2], strict=True):
        if sign in said or not value.strip():
            raise BadField(
                f"{text!r} has {sign!r} twice, or nothing after it; write each once with its value"
            )
        said[sign] = value.strip()
    return name.strip(), said


def _number(text: str) -> int:
    """Read a whole number from 1."""
    if not (text.isascii() and text.isdigit() and int(text[:6]) >= 1):
        raise BadField(f"{text!r} is no number of them; write a whole number from 1")
    return int(text[:6])


def _meet(one: MustNotCook, other: MustCook) -> bool:
    """Say whether nothing cooked could keep both wishes."""
    return one.dish == other.dish and one.day in (None, other.day) and one.version in (None, other.version)
