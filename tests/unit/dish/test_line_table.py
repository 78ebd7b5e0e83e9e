"""Ingredient lines as cooks write them, in US and in metric style, and how each is read."""

from __future__ import annotations

import pytest
from tests.unit.dish.line_amounts import AMOUNTS_AND_PACKAGES, EVERYDAY

from ladleworth.dish.line import Amount, Line
from ladleworth.dish.read_line import read_line
from ladleworth.units import Range, show_number

WORDS_AROUND_THE_FOOD = (
    ("flaky sea salt, for serving", "unmeasured | flaky sea salt | note: for serving"),
    ("2 x onions", "2 pc | onions"),
    ("1 x tin tomatoes", "1 can | tomatoes"),
    ("1 cup plus 2 tbsp (140 g) flour", "1 cup + 2 tbsp | flour | also: 140 g"),
    ("1/3 cup plus 1 tablespoon olive oil, divided", "1/3 cup + 1 tbsp | olive oil | is: divided"),
    ("1 lb, 4 oz beef", "1 lb + 4 oz | beef"),
    ("one and 1/2 cups rice", "1 1/2 cup | rice"),
    ("two to three carrots", "2 to 3 pc | carrots"),
    ("A 400g tin of tomatoes", "1 x 400 g can | tomatoes"),
    ("one-half cup oats", "1/2 cup | oats"),
    ("two-thirds cup oats", "2/3 cup | oats"),
    ("1 cup half-and-half", "1 cup | half-and-half"),
    ("1&frac12; cups flour", "1 1/2 cup | flour"),
    ("1&nbsp;cup flour", "1 cup | flour"),
    ("2 T. oil", "2 tbsp | oil"),
    ("5 # potatoes", "5 lb | potatoes"),
    ("5# potatoes", "5 lb | potatoes"),
    ("2 fl. oz. rum", "2 fl oz | rum"),
    ("1 imperial pint beer", "1 imperial pint | beer"),
    ("1 metric cup flour", "1 metric cup | flour"),
    ("3 each onions", "3 pc | onions"),
    ("2 pieces chicken", "2 piece | chicken"),
    ("2 chicken pieces", "2 pc | chicken pieces"),
    ("1 cup (packed) basil leaves", "1 cup | basil leaves | after: packed"),
    ("1 cup loosely packed basil", "1 cup | basil | before: loosely packed"),
    ("1 1/2 dozen eggs", "1 1/2 dozen | eggs"),
    ("100ml/3½fl oz double cream", "100 ml | double cream | also: 3 1/2 fl oz"),
    ("2 lb 3 oz/1 kg potatoes", "2 lb + 3 oz | potatoes | also: 1 kg"),
    ("8–10 large basil leaves", "8 to 10 pc | basil leaves | size: large"),
    ("1 pkg. (2 1/4 tsp) yeast", "1 x 2 1/4 tsp packet | yeast"),
    ("3/4 cup (1 1/2 sticks) butter", "3/4 cup | butter | note: 1 1/2 sticks"),
    ("1 lb (about 4 medium) potatoes", "1 lb | potatoes | note: about 4 medium"),
    (
        "2 pounds potatoes, peeled and cut into 1/2-inch cubes (about 5 cups)",
        "2 lb | potatoes | also: 5 cup | after: peeled and cut into 1/2-inch cubes | note: about 5 cups",
    ),
    ("1 c sugar + 1 T for topping", "1 cup + 1 tbsp | sugar | note: for topping"),
    ("2 T. + 1 t. soy sauce", "2 tbsp + 1 tsp | soy sauce"),
    ("Cooked rice, for serving", "unmeasured | Cooked rice | note: for serving"),
    ("Vegetable oil, for deep-frying", "unmeasured | Vegetable oil | note: for deep-frying"),
    ("1 tbsp vegetable oil, for the pan", "1 tbsp | vegetable oil | note: for the pan"),
    ("1 cup water (or more as needed)", "1 cup | water | note: or more as needed"),
    ("1 onion, half sliced, half diced", "1 pc | onion | after: half sliced / half diced"),
    ("500 g pack of mince", "1 x 500 g packet | mince"),
    ("1 egg (large)", "1 pc | egg | size: large"),
    ("1 cup of cooked and cooled rice", "1 cup | cooked and cooled rice"),
    ("2 cups all-purpose flour (spooned & leveled)", "2 cup | all-purpose flour | after: spooned & leveled"),
    ("1 can of beans, 400 g", "1 x 400 g can | beans"),
    ("1 cup rice (uncooked)", "1 cup | rice | after: uncooked"),
    ("salt, to taste", "unmeasured | salt | is: to_taste"),
    ("pepper", "unmeasured | pepper"),
    ("1 pepper", "1 pc | pepper"),
    ("1/2 teaspoon black pepper", "1/2 tsp | black pepper"),
    ("3 garlic bulbs", "3 bulb | garlic"),
    ("1 bulb garlic", "1 bulb | garlic"),
    ("1 thick slice bread", "1 slice | bread | size: thick"),
    ("2 thick slices of bread", "2 slice | bread | size: thick"),
    ("4 oz thinly sliced ham", "4 oz | ham | before: thinly sliced"),
    ("4 oz ham, thinly sliced", "4 oz | ham | after: thinly sliced"),
    ("6 oz thin spaghetti", "6 oz | thin spaghetti"),
    ("12 small new potatoes", "12 pc | new potatoes | size: small"),
    (
        "1 bunch (about 6 oz) kale, stemmed and torn",
        "1 x 6 oz bunch | kale | after: stemmed and torn | note: about",
    ),
    (
        "1 bunch green onions, white and green parts, sliced",
        "1 bunch | green onions | after: white and green parts / sliced",
    ),
    ("3 green onions, sliced, green parts only", "3 pc | green onions | after: sliced / green parts only"),
    ("1 cup canned black beans, drained", "1 cup | canned black beans | after: drained"),
    (
        "2 (15-ounce) cans black beans, drained but not rinsed",
        "2 x 15 oz can | black beans | after: drained but not rinsed",
    ),
    ("1 can black or pinto beans", "1 can | black beans | or: pinto beans"),
    ("1 large onion or 2 small onions", "1 pc | onion | size: large | or: 2 pc, onions, size: small"),
    ("2 cups chicken broth (low sodium)", "2 cup | chicken broth | after: low sodium"),
    ("2 cups low-sodium chicken broth", "2 cup | low-sodium chicken broth"),
    ("1 tbsp tomato paste", "1 tbsp | tomato paste"),
    ("3 cups spinach leaves, packed", "3 cup | spinach leaves | after: packed"),
    (
        "3 tablespoons chopped fresh dill, plus more for garnish",
        "3 tbsp | fresh dill | before: chopped | note: plus more for garnish",
    ),
    ("2 tablespoons finely chopped flat-leaf parsley", "2 tbsp | flat-leaf parsley | before: finely chopped"),
    ("1/4 cup plus 1 1/2 teaspoons vinegar", "1/4 cup + 1 1/2 tsp | vinegar"),
    ("½-¾ cup sugar", "1/2 to 3/4 cup | sugar"),
    ("1 1/2 to 2 pounds chuck roast", "1 1/2 to 2 lb | chuck roast"),
    ("1 (2 to 3 lb) roast", "1 x 2 to 3 lb piece | roast"),
    ("1 3 to 4 lb chicken", "1 x 3 to 4 lb piece | chicken"),
    ("2 lb chicken, cut up", "2 lb | chicken | after: cut up"),
    ("1.5 kg whole chicken", "1 1/2 kg | whole chicken"),
    ("1 whole chicken, 3-4 lb", "1 pc | whole chicken | also: 3 to 4 lb"),
    (
        "1 cup shredded cheese, such as cheddar or gouda",
        "1 cup | cheese | before: shredded | note: such as cheddar or gouda",
    ),
    ("1 cup cheddar or jack cheese", "1 cup | cheddar cheese | or: jack cheese"),
    ("1 cup cheddar, grated", "1 cup | cheddar | after: grated"),
    ("1 cup peanut butter (creamy or crunchy)", "1 cup | peanut butter | note: creamy or crunchy"),
    ("8 ounces (225 g) mushrooms", "8 oz | mushrooms | also: 225 g"),
    ("1 pound (16 oz) pasta", "1 lb | pasta | also: 16 oz"),
    ("1 box (16 oz) pasta", "1 x 16 oz box | pasta"),
    ("1 16-oz box pasta", "1 x 16 oz box | pasta"),
    ("16 ounces pasta (1 box)", "16 oz | pasta | note: 1 box"),
    ("1 qt. stock", "1 qt | stock"),
    ("1 quart (4 cups) stock", "1 qt | stock | also: 4 cup"),
    ("1 gallon (3.8 l) cider", "1 gal | cider | also: 3.8 l"),
    ("1 ripe avocado", "1 pc | ripe avocado"),
    ("5 ripe, but firm tomatoes", "5 pc | ripe but firm tomatoes"),
    (
        "1 red bell pepper, cored, seeded and diced",
        "1 pc | red bell pepper | after: cored / seeded and diced",
    ),
    ("1 bell pepper (any color)", "1 pc | bell pepper | note: any color"),
    ("2 limes, juiced", "2 pc | limes | after: juiced"),
    ("2 limes, cut into wedges", "2 pc | limes | after: cut into wedges"),
    ("1/4 cup lime juice (from 2 limes)", "1/4 cup | lime juice | note: from 2 limes"),
    ("1/4 cup fresh lime juice", "1/4 cup | fresh lime juice"),
    (
        "4 boneless chicken thighs, trimmed of excess fat",
        "4 pc | boneless chicken thighs | after: trimmed of excess fat",
    ),
    ("6 cups day-old bread cubes", "6 cup | day-old bread cubes"),
    ("1 pound pizza dough, at room temperature", "1 lb | pizza dough | after: at room temperature"),
    ("4 hard-boiled eggs", "4 pc | hard-boiled eggs"),
    ("4 eggs, hard-boiled and halved", "4 pc | eggs | after: hard-boiled and halved"),
    ("1 egg white", "1 pc | egg white"),
    ("3 egg yolks", "3 pc | egg yolks"),
    ("1 can coconut milk (not light)", "1 can | coconut milk | after: not light"),
    ("2 star anise", "2 pc | star anise"),
    ("1 tin anchovies in oil, drained", "1 can | anchovies in oil | after: drained"),
    ("1 tsp sugar (omit if desired)", "1 tsp | sugar | note: omit if desired"),
    ("125g ball mozzarella, torn", "1 x 125 g ball | mozzarella | after: torn"),
    ("1 ball mozzarella (125 g)", "1 x 125 g ball | mozzarella"),
    ("1 x 125g ball mozzarella", "1 x 125 g ball | mozzarella"),
    ("1 wedge parmesan", "1 wedge | parmesan"),
    ("two and a half pounds potatoes", "2 1/2 lb | potatoes"),
    ("200 g boned and rolled lamb", "200 g | boned and rolled lamb"),
    ("2 cloves", "2 pc | cloves"),
    ("2 whole cloves", "2 pc | whole cloves"),
    ("2 cloves of garlic", "2 clove | garlic"),
    ("1 ½ cups milk", "1 1/2 cup | milk"),
    ("1 dozen slices bread", "12 slice | bread"),
    ("2 dozen oysters, shucked", "2 dozen | oysters | after: shucked"),
    ("1-1/2-pound roast", "1 1/2 lb | roast"),
    ("2 potatoes peeled and cut into wedges", "2 pc | potatoes | after: peeled and cut into wedges"),
    ("2 tbsp parsley, chopped, for garnish", "2 tbsp | parsley | after: chopped | note: for garnish"),
    ("2 tbsp parsley, chopped for garnish", "2 tbsp | parsley | after: chopped | note: for garnish"),
    ("1 (14 oz) can tomatoes (400 g)", "1 x 14 oz can | tomatoes | note: 400 g"),
    ("1 cup (227 g) butter or margarine", "1 cup | butter | also: 227 g | or: margarine"),
)

FOODS_THAT_LOOK_LIKE_MEASURES = (
    ("2 lb ribs", "2 lb | ribs"),
    ("1 lb rib roast", "1 lb | rib roast"),
    ("8 oz strip steak", "8 oz | strip steak"),
    ("2 strip steaks", "2 pc | strip steaks"),
    ("1 strip steak", "1 pc | strip steak"),
    ("2 strips bacon", "2 strip | bacon"),
    ("2 (8 oz) strip steaks", "2 x 8 oz piece | strip steaks"),
    ("1 (3 lb) rib roast", "1 x 3 lb piece | rib roast"),
    ("2 rib eye steaks", "2 pc | rib eye steaks"),
    ("2 rib-eye steaks", "2 pc | rib-eye steaks"),
    ("4 fillet steaks", "4 pc | fillet steaks"),
    ("100 g leaf spinach", "100 g | leaf spinach"),
    ("1 leaf lettuce", "1 pc | leaf lettuce"),
    ("2 clove garlic", "2 clove | garlic"),
    ("2 can tomatoes", "2 can | tomatoes"),
    ("2 T bone steaks", "2 pc | T bone steaks"),
    ("3 little gem lettuces", "3 pc | little gem lettuces"),
    ("100 g glass noodles", "100 g | glass noodles"),
    ("2 ribs of beef", "2 rib | beef"),
    ("2 ribs of celery", "2 stalk | celery"),
    ("4-oz stick butter", "1 x 4 oz stick | butter"),
    ("1 lb cube steak", "1 lb | cube steak"),
    ("1 cube stock", "1 cube | stock"),
    ("2 stock cubes", "2 pc | stock cubes"),
    ("1 sheet puff pastry", "1 sheet | puff pastry"),
    ("200 g block tofu", "1 x 200 g block | tofu"),
    ("1 block tofu", "1 block | tofu"),
    ("8 oz log goat cheese", "1 x 8 oz log | goat cheese"),
    ("1/2 stick butter", "1/2 stick | butter"),
    ("1 1/2 sticks butter", "1 1/2 stick | butter"),
    ("2 squares chocolate", "2 square | chocolate"),
    ("1 cup sweet or russet potatoes", "1 cup | sweet potatoes | or: russet potatoes"),
    ("2 cups BBQ sauce", "2 cup | BBQ sauce"),
    ("1 MSG sachet", "1 pc | MSG sachet"),
    ("2 cups light or dark soy sauce", "2 cup | light soy sauce | or: dark soy sauce"),
)

ALL = (*EVERYDAY, *AMOUNTS_AND_PACKAGES, *WORDS_AROUND_THE_FOOD, *FOODS_THAT_LOOK_LIKE_MEASURES)


def _ends(low_high: Amount | Range) -> str:
    low, high = show_number(low_high.low), show_number(low_high.high)
    return low if low == high else f"{low} to {high}"


def _amount(amount: Amount) -> str:
    return f"{_ends(amount)} {amount.unit.name if amount.unit else 'pc'}"


def brief(line: Line) -> str:
    """Write '2 x 14 oz can | black beans | after: drained': the amount, the food, and what else is said."""
    if line.package is not None:
        size = f" x {_amount(line.package.size)}" if line.package.size else ""
        first = f"{_ends(line.package.count)}{size} {line.package.form}"
    else:
        first = " + ".join(map(_amount, line.amounts)) or "unmeasured"
    said = [
        ("also", " + ".join(map(_amount, line.also))),
        ("size", line.size or ""),
        ("before", " / ".join(line.before)),
        ("after", " / ".join(line.preparation)),
        ("is", " ".join(word for word in ("divided", "optional", "to_taste") if getattr(line, word))),
        ("or", " / ".join(_instead(other, line) for other in line.alternatives)),
        ("note", line.note),
    ]
    return " | ".join([first, line.food_text, *(f"{name}: {words}" for name, words in said if words)])


def _instead(other: Line, line: Line) -> str:
    same = other.amounts == line.amounts and other.package == line.package
    return other.food_text if same else brief(other).replace(" | ", ", ")


@pytest.mark.parametrize(("text", "expected"), ALL, ids=[text for text, _ in ALL])
def test_a_line_is_read_as_the_table_says(text: str, expected: str) -> None:
    line = read_line(text)
    assert isinstance(line, Line), str(line)
    assert brief(line) == expected
    assert line.text == text


def test_the_table_is_long_enough_and_names_no_line_twice() -> None:
    texts = [text for text, _ in ALL]
    assert len(texts) == len(set(texts))
    assert len(texts) >= 150
