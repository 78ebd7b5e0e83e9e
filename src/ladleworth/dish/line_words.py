"""The kitchen words that the line reader knows, in lists that a cook can check.

Common practice, no source: they say how a line is read, never how much of anything there is.
"""

from __future__ import annotations

import re
from fractions import Fraction


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


NUMBER_WORDS: dict[str, int] = {
    word: number
    for number, word in enumerate(
        ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"],
        start=1,
    )
} | {"fifteen": 15, "twenty": 20}

PART_WORDS: dict[str, Fraction] = {
    "half": Fraction(1, 2), "halves": Fraction(1, 2), "third": Fraction(1, 3), "thirds": Fraction(1, 3),
    "quarter": Fraction(1, 4), "quarters": Fraction(1, 4), "fourth": Fraction(1, 4), "fourths": Fraction(1, 4),
    "eighth": Fraction(1, 8), "eighths": Fraction(1, 8),
}  # fmt: skip

SIZES = _words(
    "small medium large extra-large jumbo big medium-sized medium-size large-sized small-sized xl sm lg med"
)
THICKNESSES = _words("thick thin thick-cut thin-cut")

SHOP_FORMS: dict[str, str] = {
    "can": "can", "tin": "can", "jar": "jar", "carton": "carton", "packet": "packet", "package": "packet",
    "pkg": "packet", "pkt": "packet", "pack": "packet", "bag": "bag", "box": "box", "tub": "tub", "tube": "tube",
    "bottle": "bottle", "pouch": "pouch", "sachet": "sachet", "envelope": "sachet", "container": "container",
    "punnet": "punnet", "basket": "basket",
}  # fmt: skip
"""Forms in which a shop sells a made thing: the words after them belong to the food's name."""

GROWN_FORMS: dict[str, str] = {
    "bunch": "bunch", "head": "head", "clove": "clove", "stick": "stick", "slice": "slice", "rasher": "slice",
    "stalk": "stalk", "rib": "rib", "sprig": "sprig", "ear": "ear", "bulb": "bulb", "leaf": "leaf",
    "fillet": "fillet", "loaf": "loaf", "piece": "piece", "pc": "piece", "sheet": "sheet", "cube": "cube",
    "square": "square", "ball": "ball", "strip": "strip", "wedge": "wedge", "rack": "rack", "link": "link",
    "segment": "segment", "block": "block", "log": "log", "round": "round", "chunk": "piece",
}  # fmt: skip
"""Forms in which a food grows or is cut."""

LOOSE_SINGULARS = _words(
    "can tin jar packet package pkg pkt bunch head clove slice sprig stalk stick rasher bulb loaf"
)
"""Forms that a hurried cook leaves in the singular after a number above one; any other is then the food's own word."""

SIZED_FORMS = frozenset(SHOP_FORMS) | _words("bunch head loaf block ball log wedge piece slice sheet rack")
"""Forms that may follow a bare weight ('125 g ball mozzarella'); '2 lb ribs' and '8 oz strip steak' are foods."""

FOODS_LIKE_FORMS = {
    ("leaf", "lettuce"), ("leaf", "spinach"), ("loaf", "cake"), ("loaf", "cakes"), ("bottle", "gourd"), ("head", "cheese"),
    ("tube", "pasta"), ("can", "opener"), ("sheet", "cake"), ("sheet", "pan"), ("ear", "mushrooms"), ("rack", "ribs"),
    ("rib", "eye"), ("rib", "eyes"), ("stick", "beans"),
} | {(cut, joint) for cut in ("rib", "strip", "round", "cube", "fillet", "square") for joint in ("steak", "steaks", "roast", "roasts")}  # fmt: skip
"""A form's word and the next one that together are a food: 'rib roast', 'leaf lettuce'."""

_PLURALS = {"box": "boxes", "bunch": "bunches", "pouch": "pouches", "leaf": "leaves", "loaf": "loaves"}

FORMS: dict[str, tuple[str, bool]] = {
    spelling: (form, plural)
    for singular, form in (SHOP_FORMS | GROWN_FORMS).items()
    for spelling, plural in ((singular, False), (_PLURALS.get(singular, singular + "s"), True))
}
"""Every form's spelling: its name, and whether the spelling is a plural."""

TRAILING_FORMS = _words("sprig sprigs stalk stalks rasher rashers slice slices")
"""Forms that may follow the food ('thyme sprigs'); garlic cloves, celery ribs and corn ears are named apart."""
TRAILING_PAIRS = {
    ("garlic", "clove"),
    ("celery", "rib"),
    ("celery", "stalk"),
    ("corn", "ear"),
    ("garlic", "bulb"),
}

VAGUE = _words(
    "some few several couple little bit lot lots plenty handful handfuls knob knobs glug glugs splash splashes "
    "drizzle drizzles drop drops squirt squirts sprinkle sprinkles sprinkling touch hint shake shakes grind grinds "
    "grinding grindings twist twists dollop dollops pat pats spoon spoons spoonful spoonfuls glass glasses mug mugs "
    "bowl bowls dessertspoon dessertspoons dsp jigger jiggers shot shots thumb thumb-sized thumb-size part parts "
    "measure measures scoop scoops squeeze squeezes nub swirl good generous heaped heaping rounded scant walnut-sized "
    "fistful fistfuls bowlful ladle ladles ladleful recipe recipes batch batches portion portions serving servings "
    "additional another extra more many dab dabs lump lumps pile piles"
)
"""Words that say 'some' without saying how much."""

NOT_VAGUE_AFTER = {("extra", word) for word in ["virgin", "firm", "lean", "large", "sharp", "dark", "light", "fine", "thick", "strong", "mature"]} | {
    ("part", "skim"), ("little", "gem"), ("glass", "noodles"), ("good", "quality"),
}  # fmt: skip
"""A vague word and the one after it that together are no amount."""

MEDIUM_THINGS = _words(
    "shrimp prawns scallops egg eggs potato potatoes onion onions carrot carrots tomato tomatoes mushrooms apples"
)
"""What 'medium' sizes after a unit; elsewhere it is a kind (curry powder, cheddar)."""

TIME_WORDS = _words("minute minutes min mins hour hours hr hrs second seconds day days")

ADVERBS = _words(
    "finely coarsely roughly thinly thickly freshly lightly firmly loosely tightly well very gently evenly "
    "diagonally partially partly completely thoroughly slightly crosswise lengthwise lengthways crossways cleanly "
    "neatly separately carefully fully newly"
)

HANDWORK = _words(
    "chopped diced sliced minced grated shredded cubed crushed peeled mashed melted softened beaten sifted packed "
    "toasted torn halved quartered julienned trimmed crumbled drained rinsed washed squeezed pressed bruised smashed "
    "zested juiced chilled cooled warmed strained snipped cored seeded deseeded scrubbed thawed defrosted leveled "
    "levelled spooned unpeeled undrained unsifted rough-chopped fine-chopped"
)
"""What the cook does by hand: before the food's name it is preparing, not part of the name."""

PREPARED = HANDWORK | _words(
    "cooked roasted ground boiled steamed blanched whipped whisked separated split slivered shaved flaked cut reserved "
    "mixed combined blended pureed puréed broken pounded butterflied skinned boned deboned filleted scored shucked "
    "husked picked wilted dissolved stirred shaken tied soaked scalded heated removed discarded pitted stoned stemmed "
    "hulled shelled deveined cleaned uncooked rehydrated riced spiralized patted divided quartered sieved sautéed "
    "sauteed fried grilled baked poached hard-boiled soft-boiled browned caramelized caramelised brushed wiped topped "
    "tailed rolled segmented destemmed destalked"
)

QUALIFIERS = _words(
    "fresh dried dry frozen canned tinned raw cooked uncooked ripe unripe firm soft hot cold warm lukewarm tepid boiling "
    "iced lean boneless skinless bone-in skin-on skin-off unsalted salted sweet unsweetened sweetened low-fat lowfat "
    "fat-free nonfat non-fat full-fat reduced-fat half-fat low-sodium reduced-sodium salt-free plain whole light dark heavy "
    "red white green yellow brown black purple orange blue golden pink mild spicy sharp extra-virgin virgin organic "
    "free-range wild smoked unsmoked roasted ground all-purpose self-raising self-rising whole-wheat wholewheat wholemeal "
    "wholegrain whole-grain instant quick-cooking old-fashioned long-grain short-grain medium-grain day-old stale "
    "good-quality new baby young tender waxy floury overripe semi-skimmed skimmed skim low-salt sugar-free gluten-free "
    "sun-dried freeze-dried home-made homemade store-bought shop-bought leftover hard soft-boiled hard-boiled chunky crunchy "
    "smooth natural pure"
)

COLOURS = _words("red white green yellow brown black purple orange blue golden pink")

SEGMENT_WORDS = (
    ADVERBS
    | PREPARED
    | QUALIFIERS
    | SIZES
    | THICKNESSES
    | _words(
        "and or into in to the a an of with their its from on off both until each if still side sides up down over then "
        "inch inches cm mm piece pieces chunk chunks cube cubes slice slices strip strips wedge wedges ring rings half "
        "halves quarters thirds round rounds matchstick matchsticks coin coins dice bite-size bite-sized bite size sized "
        "fine lengths diagonal bias grain against across skin skins bone bones seed seeds stem stems stalk stalks "
        "leaf leaves rind peel core cores rib ribs tops roots ends fat excess liquid juice juices shell shells tail tails "
        "whites greens part parts only pale tough outer woody room temperature water paper fork hand knife back at not but "
        "left intact attached together twice stiff peaks crisp al dente according package packet instructions directions "
        "thickness membranes pith veins eyes gills husks silk kernels pits stone stones sinew by using clean use all any "
        "small-dice florets spears batons segments ribbons crumbs lardons zest squares batches florets halfway through "
        "i no needed one two three four six eight as per just before serving being reserving syrup brine pan shape "
        "lumps tied low reduced sodium salt sugar"
    )
)
"""The words that a preparing phrase after a comma may be made of."""

SIGNALS = PREPARED | ADVERBS | QUALIFIERS | _words("only temperature intact attached reserving low reduced")
"""A preparing phrase holds at least one of these."""

LEFT_ON = re.compile(
    r"(?:skins?|bones?|tails?|stems?|rind|heads?|shells?|peel|roots?) (?:still )?(?:on|in|off|left on|intact)",
    re.IGNORECASE,
)
"""What is left on or taken off: 'skin on'."""

NAMELESS = _words(
    "juice zest peel rind leaves yolk yolks white whites mixture filling pieces ones thigh thighs breast breasts "
    "leg legs drumstick drumsticks wing wings fillet fillets stalk stalks seed seeds powder flakes slices strips florets tenders"
)
"""Words that name no food by themselves."""

KEPT_NAMES = (
    "crushed red pepper", "crushed chilli", "crushed chili", "shredded wheat", "sliced bread", "sliced almonds",
    "mashed potato", "pressed cheese", "minced beef", "minced pork", "minced lamb", "minced turkey", "minced chicken",
    "minced meat", "minced veal", "crushed pineapple", "crushed tomatoes", "strained yogurt",
    "strained yoghurt",
)  # fmt: skip
"""Names that begin with a handwork word and are sold under it."""

JOINED_NAMES = (
    "half and half",
    "pork and beans",
    "mac and cheese",
    "macaroni and cheese",
    "bread and butter pickles",
)
"""Names that hold 'and' and are one food."""

SALT = r"(?:(?:flaky|flaked|coarse|fine|sea|kosher|table|cooking|rock) )*salt"
PEPPER = r"(?:(?:freshly|ground|cracked|milled|coarse|fine|black|white) )*pepper"
SEASONING = re.compile(
    rf"{SALT}|{PEPPER}|{SALT} (?:and|&) {PEPPER}|(?:non-?stick )?cooking spray", re.IGNORECASE
)
"""What a line may name without an amount: it is read as unmeasured, to taste."""

SHARED_HEADS: dict[str, frozenset[str]] = {
    head: _words(makers)
    for heads, makers in (
        (
            "stock broth bouillon",
            "chicken vegetable veggie veg beef fish turkey ham mushroom lamb pork seafood bone",
        ),
        (
            "oil",
            "olive vegetable sunflower canola rapeseed corn peanut groundnut sesame coconut avocado walnut grapeseed",
        ),
        ("vinegar", "wine cider rice malt sherry balsamic apple white red"),
        (
            "beans",
            "pinto black kidney navy cannellini white butter lima northern green runner haricot borlotti mung red",
        ),
        ("flour", "plain bread rye spelt wheat white rice corn almond coconut"),
        ("cheese", "cheddar cottage cream goat swiss jack parmesan feta blue mozzarella gouda"),
        ("milk", "almond soy oat coconut rice skim whole dairy cow's goat's"),
        ("chocolate", "milk dark white"),
        ("juice", "lemon lime orange apple grapefruit pineapple tomato"),
        ("zest", "lemon lime orange grapefruit"),
        ("sauce", "soy tomato fish oyster hoisin chili chilli"),
        ("lentils", "red green brown black puy"),
        ("sugar", "brown white caster granulated demerara muscovado cane"),
        ("rice", "basmati jasmine brown white arborio wild"),
        ("wine", "red white"),
        ("mustard", "dijon english yellow wholegrain"),
        ("tortillas", "corn flour wheat"),
        ("mince", "beef pork lamb turkey chicken"),
    )
    for head in heads.split()
}
"""Foods that two makers may share: 'chicken or vegetable stock' is two stocks, 'butter or olive oil' is not two oils."""

UNIT_WORDS_INSIDE = _words(
    "cup cups tablespoon tablespoons tbsp teaspoon teaspoons tsp ounce ounces oz pound pounds lb lbs gram grams kg ml "
    "litre litres liter liters pint pints quart quarts gallon gallons dozen pinch can cans tin tins jar jars packet "
    "packets package packages pkg"
)
"""Measures that, left inside a food's name, show that the line was not understood."""

NAMES_WITH_UNITS = ("gram flour", "quarter pounder", "t bone", "t bone steak", "t bone steaks")
