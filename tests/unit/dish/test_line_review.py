"""Ingredient lines that must go to review, each with the reason: nothing in them may be guessed."""

from __future__ import annotations

import pytest

from ladleworth.dish.line import Line, Review
from ladleworth.dish.read_line import read_line

NO_AMOUNT = (
    ("some butter", "'some' does not say how much"),
    ("several sprigs of dill", "'several' does not say how much"),
    ("a few sprigs thyme", "'a few' says no amount"),
    ("a little oil", "'a little' says no amount"),
    ("a handful of basil leaves", "'a handful' says no amount"),
    ("Handful fresh cilantro", "'Handful' does not say how much"),
    ("2 handfuls spinach", "'handfuls' does not say how much"),
    ("a knob of butter", "'a knob' says no amount"),
    ("a good glug of olive oil", "'a good' says no amount"),
    ("1 heaped tbsp sugar", "'heaped' does not say how much"),
    ("scant 1/2 cup milk", "'scant' does not say how much"),
    ("1 thumb-sized piece ginger", "'thumb-sized' does not say how much"),
    ("2 glasses wine", "'glasses' does not say how much"),
    ("1 recipe pizza dough", "'recipe' does not say how much"),
    ("butter the size of a walnut", "a likeness, not a measure"),
    ("butter", "no amount is given"),
    ("eggs", "no amount is given"),
    ("Olive oil", "no amount is given"),
    ("butter or margarine", "no amount is given"),
    ("half-and-half", "no amount is given"),
    ("juice of lemon", "no amount is given"),
    ("small bunch of parsley, chopped", "no amount is given"),
    ("2% milk", "the number is a percentage"),
    ("up to 1/2 cup water", "'up to' gives a bound, not an amount"),
    ("at least 2 cups water", "'at least' gives a bound"),
    ("between 1 and 2 cups water", "'between' gives a bound"),
    ("9-inch pie crust", "a length is given but not how many"),
    ("dozen eggs", "the measure 'dozen' stands inside the food's name"),
    ("2 ctn milk", "'ctn' is no measure that is known"),
    ("2 EL Mehl", "'EL' is no measure that is known"),
)

NOT_AN_AMOUNT = (
    ("0 cups flour", "the amount is 0"),
    ("0-1 cup flour", "the amount is 0"),
    ("-2 cups flour", "the amount is below zero"),
    ("1/0 cup flour", "0 below the line"),
    ("1 3/2 cups flour", "3/2 after a whole number is not below one"),
    ("3-2 cups water", "runs down from 3 to 2"),
    ("1.2.3 cups flour", "a number cannot be read"),
    ("99999999999999 cups flour", "a number cannot be read"),
    ("nan cups flour", "'cups' stands inside the food's name"),
    ("10 minutes resting", "a length of time"),
    ("Bake 20 min", "a length of time"),
    ("Serves 4", "a number stands inside the food's name"),
    ("Heat oven to 350 F", "a number stands inside the food's name"),
)

TWO_WAYS = (
    ("1 1/2-pound chicken", "may be one number or a count and a size"),
    ("1 ½-pound roast", "may be one number or a count and a size"),
    ("1 1/2 inch piece ginger", "may be a count or a length"),
    ("2 - 14 oz. cans tomatoes", "may be a range of sizes or a count and a size"),
    ("1-14 oz can tomatoes", "may be a range of sizes or a count and a size"),
    ("8 oz cans tomato sauce", "a size is given but not how many: '8 oz cans'"),
    ("6 oz fillets cod", "a size is given but not how many"),
    ("2 cans (14.5 oz) tomatoes", "may be the size of each or of all"),
    ("2 large (200 g) onions", "may be of each or of all"),
    ("1 (8 oz) or 2 (4 oz) cans tuna", "one amount follows another before any food is named"),
    ("1 large or 2 small onions", "a number stands inside the food's name"),
    ("2 4 cups flour", "two numbers stand side by side"),
    ("1 tbsp 8 oz beef", "two amounts stand side by side"),
    ("4 cloves, crushed", "may be garlic or the spice"),
    ("1 pound cake", "foods as well as amounts"),
    ("2 x 15ml tbsp oil", "the measure 'tbsp' stands inside"),
    ("1 #10 can tomatoes", "a number stands inside the food's name"),
    ("1 can (14 oz.) + 1 can (8 oz) tomatoes", "a number stands inside the food's name"),
)

CONTRADICTIONS = (
    ("1 pound (200 g) ground beef", "differ by more than a tenth"),
    ("2 kg (2 lb) potatoes", "differ by more than a tenth"),
    ("1 pint (568 ml) milk", "differ by more than a tenth"),
    ("1 cup or 300 ml milk", "differ by more than a tenth"),
    ("1 (14 oz) can tomatoes (800 g)", "differ by more than a tenth"),
    ("500 g beef (200 g each)", "'each' of something measured"),
    ("enough 2 cups water to cover", "contradict each other"),
)

TWO_FOODS = (
    ("2 carrots, 1 onion", "a second amount or a second food"),
    ("1 cup flour, sugar", "whether 'sugar' is preparation or a second food"),
    ("salt, pepper", "whether 'pepper' is preparation or a second food"),
    ("1 cup salt and pepper", "names two foods under one amount"),
    ("1 cup diced onion and celery", "names two foods under one amount"),
    ("2 cups red and green peppers", "names two foods under one amount"),
    ("1 tsp each salt and pepper", "'each' shares one amount"),
    ("1 each red and green pepper", "'each' shares one amount"),
    ("1 tsp. each of cumin and coriander", "'each' shares one amount"),
    ("1 cup flour, plus 1 egg", "names a second food or no measure"),
    ("1 egg plus 2 egg yolks", "names a second food or no measure"),
    ("2 eggs and 1 yolk", "a number stands inside the food's name"),
    ("2 onions, plus 1 tbsp", "a measure is added to pieces"),
    ("2 tsp cornstarch dissolved in 1 tbsp water", "a number stands inside the food's name"),
    ("2 tsp cornstarch, mixed with 2 tbsp water", "preparation or a second food"),
    ("1 cup milk/cream", "holds a sign that is not understood"),
    ("1 jar/can tomatoes", "holds a sign that is not understood"),
    ("1 cup parsley, basil or mint", "preparation or a second food"),
    ("1 cup milk or cream or water", "which words"),
    ("1 lb beef or pork shoulder", "belong to both foods"),
    ("1 lb boneless beef or pork shoulder", "belong to both foods"),
    ("1 cup fresh or frozen", "belong to both foods"),
    ("1 lb chicken breasts or thighs", "'thighs' does not say of which food"),
    ("1 small onion, 1/2 diced, 1/2 sliced", "a second amount or a second food"),
)

NO_FOOD = (
    ("", "the line is empty"),
    ("   ", "the line is empty"),
    ("2", "no food is named"),
    ("2 cups", "no food is named"),
    ("200g", "no food is named"),
    ("1 (14 oz) can", "no food is named"),
    ("2 tbsp juice from 1 lemon", "'juice' does not say of which food"),
    ("For the sauce:", "looks like a heading"),
    ("1 cup flour (sifted", "the brackets do not pair up"),
    ("1 cup (about (240 ml)) milk", "the brackets do not pair up"),
    ("1 cup flour\n2 eggs", "more than one line"),
    ("1 cup flour\x07", "cannot be printed"),
    ("1 cup " + "very " * 80 + "fine flour", "too long for one ingredient"),
    ("1 cup of that one fine flour my old aunt used and always brought back home", "too long to be sure of"),
)

ALL = (*NO_AMOUNT, *NOT_AN_AMOUNT, *TWO_WAYS, *CONTRADICTIONS, *TWO_FOODS, *NO_FOOD)


@pytest.mark.parametrize(("text", "why"), ALL, ids=[text[:40] for text, _ in ALL])
def test_a_line_that_is_not_sure_goes_to_review_with_its_reason(text: str, why: str) -> None:
    review = read_line(text)
    assert isinstance(review, Review), str(review)
    assert review.text == text
    assert why in review.why
    assert len(review.remedy) > 10


def test_the_table_is_long_enough() -> None:
    assert len({text for text, _ in ALL}) >= 25


REMEDIES = (
    ("1 1/2-pound chicken", "1 1/2 pounds chicken"),
    ("2 cans (14.5 oz) tomatoes", "2 cans (14.5 oz each) tomatoes"),
    ("1 tsp each salt and pepper", "1 tsp salt"),
    ("1 pint (568 ml) milk", "1 imperial pint (568 ml) milk"),
    ("4 cloves, crushed", "4 cloves garlic, crushed"),
    ("butter", "butter, for greasing"),
    ("1 cup flour (sifted", "1 cup flour (sifted)"),
    ("2 tbsp juice from 1 lemon", "2 tbsp lemon juice from 1 lemon"),
    ("8 oz cans tomato sauce", "2 (8 oz) cans tomato sauce"),
    ("1 heaped tbsp sugar", "1 tbsp sugar"),
)


@pytest.mark.parametrize(("wrong", "right"), REMEDIES, ids=[wrong for wrong, _ in REMEDIES])
def test_writing_what_the_review_asks_for_makes_the_line_readable(wrong: str, right: str) -> None:
    assert isinstance(read_line(wrong), Review)
    assert isinstance(read_line(right), Line)
