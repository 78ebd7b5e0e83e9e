"""The papers of a folder: all faults at once, odd files, rubbish, and everything kept as it was written."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.unit.store.papers import DISHES, KITCHEN, SMALL, doubts, faults, read, told, write

from ladleworth.errors import FaultyKitchen, Weight
from ladleworth.store.folder import read_folder
from ladleworth.store.papers import Paper


def test_faults_of_all_files_come_at_once_in_file_and_line_order() -> None:
    reading = read(
        {
            "kitchen.yaml": KITCHEN.replace("days: 7", "days: x").replace("USD", "usx"),
            "dishes.yaml": DISHES + "- dish: Soup\n",
            "foods.yaml": "- food: rice\n  edible: 2\n",
            "stock.csv": "food,amount\nrice,-1 kg\n",
            "prices.csv": "shop,food,package,price\nA,ricee,1 kg,1\n",
        }
    )
    places = [(finding.place.file, finding.place.line) for finding in reading.findings]
    assert places == [
        ("dishes.yaml", 4),
        ("foods.yaml", 2),
        ("kitchen.yaml", 3),
        ("kitchen.yaml", 5),
        ("prices.csv", 2),
        ("stock.csv", 2),
    ]
    with pytest.raises(FaultyKitchen) as caught:
        reading.without_faults()
    assert len(caught.value.findings) == 6
    assert caught.value.exit_code == 3


def test_a_folder_is_read_with_places_as_the_user_named_it(tmp_path: Path) -> None:
    folder = write(tmp_path / "home", {**SMALL, "kitchen.yaml": KITCHEN.replace("days: 7", "days: x")})
    (finding,) = read_folder(folder).findings
    assert str(finding.place) == f"{folder}/kitchen.yaml:5: days"


def test_papers_are_kept_as_written(tmp_path: Path) -> None:
    papers = {
        **SMALL,
        "foods.yaml": "\ufeff- food: rice\r\n  keep_days: durable\r\n",
        "stock.csv": "food,amount\r\n",
    }
    reading = read_folder(write(tmp_path, papers))
    assert reading.papers == tuple(Paper(path, papers[path]) for path in sorted(papers))


def test_a_missing_folder_and_a_file_in_its_place_are_one_fault_each(tmp_path: Path) -> None:
    assert told(read_folder(tmp_path / "no")) == [
        f"{tmp_path}/no: there is no such folder; name a folder that holds a kitchen.yaml"
    ]
    file = tmp_path / "file"
    file.write_text("x")
    assert told(read_folder(file)) == [
        f"{file}: this is a file, not a folder; name a folder that holds a kitchen.yaml"
    ]


def test_a_file_that_is_no_utf_8_is_named_with_its_line(tmp_path: Path) -> None:
    folder = write(tmp_path, SMALL)
    (folder / "dishes.yaml").write_bytes("- dish: Reis\n  never: [J\xfcrgen]\n".encode("latin-1"))
    assert told(read_folder(folder)) == [
        f"{folder}/dishes.yaml:2: byte 0xfc is no UTF-8; save the file as UTF-8"
    ]


def test_misnamed_papers_are_doubted_and_other_files_left_alone(tmp_path: Path) -> None:
    folder = write(
        tmp_path, {**SMALL, "stocks.csv": "", "dishes/soup.yml": "", "README.md": "", ".hidden.yaml": ""}
    )
    reading = read_folder(folder)
    assert [(f.place.file, f.remedy) for f in doubts(reading)] == [
        (f"{folder}/dishes/soup.yml", "name it soup.yaml if it should be"),
        (f"{folder}/stocks.csv", "name it stock.csv if it should be"),
    ]
    assert {f.weight for f in reading.findings} == {Weight.DOUBT}
    assert reading.kitchen is not None


def test_a_paper_that_is_a_folder_or_too_large_is_refused_politely(tmp_path: Path) -> None:
    folder = write(tmp_path, SMALL)
    (folder / "stock.csv").mkdir()
    (folder / "foods.yaml").write_bytes(b"#" * 2_000_001)
    assert told(read_folder(folder)) == [
        (
            f"{folder}/foods.yaml: the file has 2.0 MB, more than the 2 MB that are read; "
            "split it, or take out what is not needed"
        ),
        f"{folder}/stock.csv: the file cannot be read: it is a folder; put a readable file there",
    ]


@pytest.mark.parametrize("text", ["", "12\n", "[1, 2]\n", "~\n", "a: [\n", "\x00", "? a\n", "- - -\n"])
@pytest.mark.parametrize("path", ["kitchen.yaml", "dishes.yaml", "foods.yaml", "stock.csv", "prices.csv"])
def test_rubbish_in_any_paper_never_escapes_as_an_error(path: str, text: str) -> None:
    reading = read({path: text})
    assert (reading.kitchen is None) == bool(faults(reading))
    assert all(finding.what and finding.remedy for finding in reading.findings)


def test_a_folder_with_stock_and_a_ledger_is_a_fault() -> None:
    reading = read({"stock.csv": "food,amount\n", "ledger/lots.csv": "x\n"})
    assert "the folder has a ledger as well" in [fault.what for fault in faults(reading)]
    assert "the file is missing" in [fault.what for fault in faults(reading)]
