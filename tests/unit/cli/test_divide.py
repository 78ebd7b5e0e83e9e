"""`ladleworth divide`: what it prints for the eye and as JSON, and what it refuses."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from tests.unit.cli.kitchens import run, run_json
from tests.unit.week.divided_week import KITCHEN, planted

SUNDAY = ("--today", "2026-12-06")
DOCS = Path(__file__).parents[3] / "docs"
BOWL = """\
- dish: Egg bowl
  portions: 6
  parts:
    - {part: rice, role: starch, kind: rice plain, lines: [390 g rice, 750 g water]}
    - {part: beef, role: protein, kind: ground meat in sauce, lines: [1 lb ground beef]}
    - {part: sauce, role: sauce, kind: tomato sauce, lines: ['1 (28 oz) can crushed tomatoes', 1 onion]}
    - {part: bread, role: starch, lines: [7 flour tortillas], apart: yes}
    - {part: top, role: garnish, kind: nuts or croutons, lines: [60 g walnuts]}
"""


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return planted(tmp_path_factory.mktemp("divide"))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A kitchen folder without a plan, whose one dish has every kind of part."""
    papers = {"dishes_yaml": BOWL, "kitchen_yaml": KITCHEN.replace("1 l, count: 2", "1 l, count: 5")}
    place = tmp_path_factory.mktemp("bowl") / "k"
    from tests.unit.week.split_week import kitchen_of

    kitchen_of(place, **papers)
    return place


def test_a_batch_is_shown_from_what_there_is_to_what_stands_on_each_container(folder: Path) -> None:
    text = run("divide", folder, "egg bowl", "--portions", 6, "--weighed", "2.6kg", "--tare", "1.2kg",
               "--weighed", "rice=1.5kg", "--tare", "rice=400g", *SUNDAY).stdout  # fmt: skip
    for words in (
        "Egg bowl: Sunday, 6 December 2026, 6 portions",
        "What there is",
        "beef: about",
        "Each portion gets",
        "1 1/6 each: one each, the seventh in six",
        "Solids first, then the liquid",
        "Measured out level",
        "an estimate",
        "Containers",
        "Clean ones left",
        "Fill from the bottom up",
        "bag them apart at room temperature",
        "On the containers",
        "1206A1-",
        "The reading is not kept",
        "within 120 minutes",
        "no promise that food is safe",
    ):
        assert words in re.sub(r"\s+", " ", text), words
    assert "\x1b" not in text
    assert max(map(len, text.splitlines())) <= 80


def test_what_is_reckoned_says_what_it_rests_on_and_what_is_counted_raw(folder: Path) -> None:
    text = re.sub(r"\s+", " ", run("divide", folder, "egg bowl", "--portions", 6, *SUNDAY).stdout)
    assert "boiled, absorbed, taken for granted: 280 % (usda-sr26, worked)" in text
    assert "Counted at the raw weight, for want of a method: 80% lean ground beef" in text
    assert "Nothing is weighed yet: --weighed 4.1kg --tare 1.2kg" in text
    cooked = run_json(
        "divide", folder, "egg bowl", "--portions", 6, "--cooked", "ground beef=pan-fried", *SUNDAY
    )
    (beef,) = [one for one in cooked["batches"][0]["divided"]["dealt"] if one["heap"]["parts"] == ["beef"]]
    assert beef["heap"]["total_mg"] == 304_000  # 453.59 g x 67 % (usda-yields-2014)


def test_a_doubtful_reading_is_told_and_counts(folder: Path) -> None:
    text = re.sub(
        r"\s+", " ", run("divide", folder, "egg bowl", "--portions", 6, "--weighed", "rice=11kg").stdout
    )
    assert (
        "the scale says 11 kg where about 1.14 kg are reckoned; look whether the reading or a tare is wrong"
        in text
    )


def test_the_json_has_the_keys_of_the_docs(file: Path) -> None:
    told = run_json("divide", file, "chili", "--swap", "onion", *SUNDAY)
    page = (DOCS / "cli.md").read_text(encoding="utf-8").split("### divide\n")[1].split("\n### ")[0]
    keys = set(re.findall(r"`(\w+)`", page.split("JSON:")[1]))
    (batch,) = told["batches"]
    divided = batch["divided"]
    assert {*told, *batch} <= keys
    assert keys - {*told, *batch} <= {*divided, *divided["dealt"][0]}
    assert sum(divided["dealt"][0]["shares_mg"]) == divided["dealt"][0]["heap"]["total_mg"]
    assert told["plan_number"] == 1


def test_a_split_batch_is_shown_version_by_version(file: Path) -> None:
    text = run("divide", file, "chili", "--day", 1, *SUNDAY).stdout
    assert "Made with stew: carrot." in text
    assert "Made with stew: onion." in text


def test_what_was_weighed_is_kept_and_the_dish_shows_it_with_the_yield_to_write(tmp_path: Path) -> None:
    file = planted(tmp_path)
    dishes = (tmp_path / "kitchen" / "dishes.yaml").read_bytes()
    text = run(
        "divide", file, "chili", "--swap", "onion", "--weighed", "1.6kg", "--tare", "400g", *SUNDAY
    ).stdout
    assert "The reading is kept" in text
    shown = re.sub(r"\s+", " ", run("dish", file, "chili").stdout)
    assert "Weighed so far, by the standard portion" in shown
    assert "stew (onion): the median of 1 batch is 300 g" in shown
    assert "Nothing is written for you: to go by it, write `yield: 300 g` into the dish." in shown
    history = run_json("dish", file, "chili")["yield_history"]
    assert history["offered"] == {"when": "2026-12-06", "version": "onion", "portions": 1, "mass_mg": 300_000}
    assert run("dump", file, tmp_path / "out").exit_code == 0
    assert (tmp_path / "out" / "dishes.yaml").read_bytes() == dishes  # the papers stay as they were written
    assert run("dish", tmp_path / "kitchen", "chili").stdout.count("Weighed so far") == 0


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (("chowder",), 3, "no dish is called 'chowder'"),
        (("chili", "--day", "2"), 3, "does not cook Chili on day 2; it does on day 1"),
        (("chili", "--weighed", "1kg"), 3, "say which was weighed with --swap"),
        (("chili", "--tare", "1kg"), 2, "give --weighed with it"),
        (("chili", "--portions", "0"), 2, "--portions"),
        (
            ("chili", "--swap", "onion", "--weighed", "stew=1kg", "--tare", "2kg"),
            3,
            "write the filled weight first",
        ),
        (("chili", "--swap", "onion", "--scoop", "7", "--depth", "deep"), 3, "no scoop has the number 7"),
        (("chili", "--swap", "onion", "--cooked", "onion=flambéed"), 3, "nobody has the yield"),
    ],
)
def test_what_is_wrong_is_told_in_one_message(
    file: Path, arguments: tuple[str, ...], code: int, words: str
) -> None:
    result = run("divide", file, *arguments, *SUNDAY)
    assert (result.exit_code, result.stdout) == (code, "")
    assert words in result.stderr
    as_json = run("divide", file, *arguments, *SUNDAY, "--json")
    assert as_json.exit_code == code
    assert words in json.dumps(json.loads(as_json.stdout), ensure_ascii=False)


def test_a_folder_without_portions_asks_for_them(folder: Path) -> None:
    result = run("divide", folder, "egg bowl", *SUNDAY)
    assert result.exit_code == 8
    assert "say how many portions of it are made with --portions" in result.stderr


def test_the_page_of_dividing_states_the_rules_that_are_in_force() -> None:
    from tests.unit.week.divided_week import SUNDAY as DAY

    from ladleworth.divide import measures, phases, shares
    from ladleworth.divide.codes import code_of

    page = re.sub(r"\s+", " ", (DOCS / "divide.md").read_text(encoding="utf-8"))
    assert shares.MOST_CUT == 8
    assert "in halves to eighths" in page
    assert f"off by {measures.NEAR_ENOUGH * 100} % or less, up to six times" in page
    assert measures.MOST_COUNT == 6
    assert f"less than {phases.LEAST_POURED_MG // 1000} g of sauce" in page
    assert f"`{code_of(DAY, 0, 3)}`" in page
