"""Whatever is done to a kitchen's papers, the reader answers with findings, never with an error."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ladleworth.errors import Weight
from ladleworth.store.folder import read_papers
from ladleworth.store.papers import Paper

PAPERS = {
    "kitchen.yaml": """\
ladleworth: 1
name: Two
currency: USD
start: 2026-12-06
days: 7
eaters:
  - name: Ada
  - name: Ben
    never: [milk, "aisle: meat", "dish: Stew"]
    appetite: 3/4
    bounds: {energy: {least: 200 kJ}, sodium: {least: 1 mg, most: 9 g}}
slots:
  - meals: [lunch, dinner]
    eaters: [Ada, Ben]
    days: [1-7, sunday]
sessions:
  - day: sunday
    minutes: 150
    length: 4 h
    price: 1.50
shops:
  - {name: Corner, trip: 0.50}
rules:
  containers: [{size: 1 l, count: 3}, {size: 4 cups, count: 9, depth: 3 in}]
  budget: 60.00
  most_times: none
  keep_days: 4
  fridge_room: 20 l
  freezing_load: 3
  week_days: 5
  splits: 2
additions: {repeat: 0.25, hour: 6.00, reserve: {portions: 4, worth: 1.50}, liking: {Stew: 0.20}}
equipment: {burners: 4, fridge: 4 °C, vessels: {pot: 6 l}}
""",
    "dishes.yaml": """\
- dish: Stew
  least: 2
  hands_on: {fixed: 15, per_portion: 2}
  freezer_days: 60
  never: [Ben]
  kind: [lentils]
  portion_volume: 400 ml
  oven: 20 min
  per_portion: {lentils: 80 g, egg: 1}
- dish: Chili
  portions: 6
  parts:
    - part: stew
      role: protein
      lines: [1 lb dried kidney beans, "1 large onion, chopped"]
      kind: curry or chili
      apart: no
      burners: {fixed: 20, per_portion: 1}
      swaps: [{swap: with, lines: [2 eggs]}, {swap: without, lines: []}]
  steps: [{do: Chop., hands_on: 5 min, needs: [hands]}]
  yield: 2.4 kg
""",
    "foods.yaml": """\
- {food: onion, keep_days: 21}
- food: bun
  measured_in: pieces
  keep_days: 5
  piece: 60 g
  edible: 0.9
  allergens: [wheat]
  per_100_g: {energy_kcal: 270}
- {food: beans, measured_in: grams, label: {serving: 130 g, energy: 460 kJ, protein: 7, salt: 0.6}}
""",
    "stock.csv": "food,amount,cost,place,use_by,got\nrice,1.2 kg,1.80,cupboard,none,2026-11-20\negg,5,1.10,fridge,day 2,\n",
    "prices.csv": "shop,food,package,price,seen,most\nCorner,rice,2 lb,1.99,2026-11-29,3\nCorner,egg,12,2.89,,\n",
}
PIECES = st.one_of(
    st.text(st.characters(exclude_categories=("Cs",)), max_size=6),
    st.sampled_from(
        ["[", "]", "{", "}", ": ", "- ", "\n", "\n  ", '"', "'", ",", "#", "~", "null", "none", "-1", "0", "1e9", "½",
         "&a", "*a", "!!int 3", "<<: ", "\t", "\ufeff", "---\n", "9" * 30, "1/0", "NaN", "²", "٣", "day ", "0000-00-00"]
    ),
)  # fmt: skip


@st.composite
def spoilt(draw: st.DrawFn) -> list[Paper]:
    """The papers with some pieces cut out, put in or doubled."""
    papers = dict(PAPERS)
    for _ in range(draw(st.integers(1, 4))):
        path = draw(st.sampled_from(sorted(papers)))
        text = papers[path]
        begin = draw(st.integers(0, len(text)))
        end = draw(st.integers(begin, min(len(text), begin + 12)))
        papers[path] = text[:begin] + draw(PIECES) + text[end:]
    return [Paper(path, text) for path, text in papers.items()]


def test_the_papers_are_sound_before_they_are_spoilt() -> None:
    reading = read_papers([Paper(path, text) for path, text in PAPERS.items()])
    assert reading.kitchen is not None
    assert [one for one in reading.findings if "be cooked" not in one.what] == []


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(spoilt())
def test_spoilt_papers_give_findings_and_no_error(papers: list[Paper]) -> None:
    reading = read_papers(papers)
    faults = [finding for finding in reading.findings if finding.weight is Weight.FAULT]
    assert (reading.kitchen is None) == bool(faults)
    order = [(finding.place.file, finding.place.line or 0) for finding in reading.findings]
    assert order == sorted(order)
    for finding in reading.findings:
        assert finding.what
        assert finding.remedy
        assert finding.place.file in PAPERS
        lines = papers[[paper.path for paper in papers].index(finding.place.file)].text.count("\n") + 1
        assert finding.place.line is None or 1 <= finding.place.line <= lines + 1
