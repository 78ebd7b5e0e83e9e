from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from ladleworth.dish.line import Amount, Line, Package, Review
from ladleworth.dish.read_line import read_line
from ladleworth.units import UNITS, Dimension, Range, Unit, show_number

numbers = st.builds(
    lambda whole, over, under: whole + Fraction(over % under, under),
    st.integers(0, 400),
    st.integers(0, 7),
    st.sampled_from([1, 2, 3, 4, 8, 10]),
).filter(bool)
foods = st.sampled_from(
    ["rice", "plain flour", "red onions", "chicken thighs", "olive oil", "black beans", "crème fraîche", "soy sauce",
     "2% milk", "00 flour", "T-bone steaks", "ground cloves", "half and half", "tomatoes in juice", "bay leaves"]
)  # fmt: skip
units = st.sampled_from(
    [(unit, spelling) for unit in UNITS if unit.name != "each" for spelling in (unit.name, *unit.aliases)]
)
preparations = st.lists(
    st.sampled_from(["chopped", "finely sliced", "peeled and diced", "drained", "at room temperature", "cut into 1-inch pieces"]),
    max_size=2, unique=True,
)  # fmt: skip
styles = st.sampled_from(["plain", "unicode", "decimal"])
joins = st.sampled_from(["-", "–", " to "])


def tail(words: list[str], *, divided: bool, optional: bool) -> str:
    return "".join(f", {word}" for word in words) + ", divided" * divided + " (optional)" * optional


@given(numbers, units, foods, preparations, styles, st.booleans(), st.booleans())
def test_any_amount_unit_and_food_composed_to_a_line_read_back_exactly(
    number: Fraction,
    unit: tuple[Unit, str],
    food: str,
    words: list[str],
    style: str,
    divided: bool,
    optional: bool,
) -> None:
    written = show_number(number, style)  # type: ignore[arg-type]
    amount = Fraction(number) if style != "decimal" else Fraction(written)
    text = f"{written} {unit[1]} {food}{tail(words, divided=divided, optional=optional)}"
    assert read_line(text) == Line(
        text=text, food_text=food, amounts=(Amount(amount, amount, unit[0]),), preparation=tuple(words),
        divided=divided, optional=optional,
    )  # fmt: skip


@given(numbers, numbers, joins, units, foods)
def test_a_range_in_a_line_keeps_both_its_ends(
    one: Fraction, other: Fraction, join: str, unit: tuple[Unit, str], food: str
) -> None:
    low, high = sorted((one, other))
    if join != " to " and high < 1:
        join = " to "  # '1-1/2' is a mixed number
    text = f"{show_number(low)}{join}{show_number(high)} {unit[1]} {food}"
    line = read_line(text)
    assert isinstance(line, Line), str(line)
    assert line.amounts == (Amount(low, high, unit[0]),)
    assert line.food_text == food


@given(
    st.integers(1, 40),
    numbers,
    st.sampled_from([unit for unit in UNITS if unit.dimension is not Dimension.COUNT]),
    st.sampled_from(["{n} ({s} {u}) {f} {x}", "{n} x {s} {u} {f} {x}", "{n} {f} ({s} {u} each) {x}", "{n} {f} {x} ({s} {u} each)"]),
    st.sampled_from([("can", "cans"), ("can", "tins"), ("packet", "packets"), ("jar", "jars"), ("bag", "bags")]),
    foods,
)  # fmt: skip
def test_a_sized_package_in_any_of_its_shapes_is_count_times_size(
    count: int, number: Fraction, unit: Unit, shape: str, form: tuple[str, str], food: str
) -> None:
    text = shape.format(n=count, s=show_number(number), u=unit.name, f=form[1], x=food)
    line = read_line(text)
    assert isinstance(line, Line), str(line)
    assert line.package == Package(
        Range(Fraction(count), Fraction(count)), Amount(number, number, unit), form[0]
    )
    assert line.food_text == food
    assert line.in_all == (Amount(count * number, count * number, unit),)


@given(
    st.integers(1, 99),
    st.sampled_from(["onions", "eggs", "carrots", "T-bone steaks", "bay leaves", "lemons"]),
    st.sampled_from(["small", "medium", "large", ""]),
)
def test_pieces_are_counted_with_their_size(count: int, food: str, size: str) -> None:
    line = read_line(f"{count} {size} {food}" if size else f"{count} {food}")
    assert isinstance(line, Line), str(line)
    assert (line.amounts, line.size, line.food_text) == (
        (Amount(Fraction(count), Fraction(count)),),
        size or None,
        food,
    )


pieces_of_lines = st.lists(
    st.one_of(
        st.sampled_from(
            [
                "1",
                "2",
                "1/2",
                "½",
                "14.5",
                "0",
                "-3",
                "1,5",
                "1/0",
                "cup",
                "cups",
                "c.",
                "T",
                "t",
                "tbsp",
                "oz",
                "lb",
                "g",
                "kg",
                "ml",
                "l",
                "#",
                "x",
                "×",
                "(",
                ")",
                "(14",
                "oz)",
                "can",
                "cans",
                "cloves",
                "of",
                "or",
                "and",
                "plus",
                "+",
                "-",
                "–",
                "/",
                ",",
                ";",
                ":",
                ".",
                "to",
                "taste",
                "divided",
                "optional",
                "chopped",
                "finely",
                "large",
                "butter",
                "salt",
                "pepper",
                "2%",
                "inch",
                "each",
                "half",
                "a",
                "dozen",
                "one",
                "about",
                "juice",
                "for",
                "frying",
                "more",
                "[",
                "]",
                "%",
            ]
        ),
        st.text(max_size=6),
    ),
    max_size=14,
)


@given(st.one_of(pieces_of_lines.map(" ".join), pieces_of_lines.map("".join), st.text(max_size=320)))
def test_any_text_gives_a_line_or_a_review_and_never_an_error(text: str) -> None:
    answer = read_line(text)
    assert answer.text == text
    if isinstance(answer, Review):
        assert answer.why
        assert answer.remedy
    else:
        assert answer.food_text
        assert (bool(answer.amounts), answer.package is not None, answer.unmeasured).count(True) == 1
