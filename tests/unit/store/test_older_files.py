"""What an older version kept can still be read; what is damaged is said to be."""

from __future__ import annotations

import json
import sqlite3
from fractions import Fraction
from pathlib import Path

import pytest

from ladleworth.decide import Additions, CookSession, Question
from ladleworth.errors import BadField, StoreError
from ladleworth.store import Store, read_folder, record_json

PLAIN = Path(__file__).resolve().parents[3] / "examples" / "plain"


def test_a_question_kept_before_an_addition_existed_has_it_off() -> None:
    question = Question(1, (), (CookSession(1, 10),), (), (), additions=Additions(repeat_cents=5))
    kept = json.loads(record_json.to_json(question))
    del kept["additions"]["carried_share"]
    read = record_json.from_json(json.dumps(kept), Question)
    assert read.additions == Additions(repeat_cents=5, carried_share=Fraction(1))


def test_a_question_without_what_has_no_default_is_refused() -> None:
    kept = json.loads(record_json.to_json(Question(1, (), (), (), ())))
    del kept["days"]
    with pytest.raises(BadField, match="days"):
        record_json.from_json(json.dumps(kept), Question)


def test_a_row_that_cannot_be_read_says_that_the_file_is_damaged(tmp_path: Path) -> None:
    file = tmp_path / "kitchen.db"
    with Store.open(file, create=True) as store:
        store.load(read_folder(PLAIN))
    with sqlite3.connect(file) as raw:
        raw.execute("UPDATE lots SET got_on = 'someday'")
    raw.close()
    with Store.open(file) as store, pytest.raises(StoreError, match="damaged"):
        store.load_kitchen()
