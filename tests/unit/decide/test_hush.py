from __future__ import annotations

import os
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from ladleworth.decide.hush import hushed


def test_what_is_written_meanwhile_goes_nowhere_and_afterwards_goes_out_again(
    capfd: pytest.CaptureFixture[str],
) -> None:
    os.write(1, b"before ")
    with hushed():
        os.write(1, b"meanwhile ")
    os.write(1, b"after")
    assert capfd.readouterr().out == "before after"


def test_standard_output_comes_back_after_an_error(capfd: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(ValueError, match="planted"), hushed():
        raise ValueError("planted")
    os.write(1, b"after")
    assert capfd.readouterr().out == "after"


def test_standard_output_comes_back_when_several_threads_were_hushed_at_once() -> None:
    # A thread that took down what another had put up in its place would leave it there for good.
    def hush_often(_: int) -> None:
        for _ in range(40):
            with hushed():
                time.sleep(0.0002)

    before = os.fstat(1)
    with ThreadPoolExecutor(max_workers=8) as threads:
        list(threads.map(hush_often, range(8)))
    after = os.fstat(1)
    assert (after.st_dev, after.st_ino) == (before.st_dev, before.st_ino)


def test_without_a_standard_output_there_is_nothing_to_hush() -> None:
    program = """
import os, sys
os.close(1)
from ladleworth.decide.hush import hushed
with hushed():
    sys.stderr.write("went on")
"""
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.stderr == "went on"
