"""Keep the solver's chatter off standard output, where results go."""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager

_ONE_AT_A_TIME = threading.Lock()
"""Standard output belongs to the whole process: two threads that redirect it at once would lose it."""


@contextmanager
def hushed() -> Iterator[None]:
    """Keep standard output clean of the banner that HiGHS 1.16 writes whenever it is made, whatever its options."""
    with _ONE_AT_A_TIME:
        sys.stdout.flush()
        try:
            kept = os.dup(1)
        except OSError:  # there is no standard output to keep clean
            yield
            return
        try:
            with open(os.devnull, "w") as nowhere:  # noqa: PTH123  # a device, not a path of anyone's
                os.dup2(nowhere.fileno(), 1)
            yield
        finally:
            os.dup2(kept, 1)
            os.close(kept)
