"""A process that does pieces of work for a decision: reads them from its input, writes what comes of them."""

from __future__ import annotations

import os
import pickle
import sys

from ladleworth.decide.labour import Notebook, now, perform
from ladleworth.decide.sift import Limit


def main() -> None:
    """Work until the input ends."""
    source = sys.stdin.buffer
    sink = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # whatever a library prints is not to come between

    def tell(thing: object) -> None:
        pickle.dump(thing, sink)
        sink.flush()

    question = pickle.load(source)  # noqa: S301  # our own process
    notebook = Notebook(question)
    while True:
        try:
            task, known, seconds = pickle.load(source)  # noqa: S301
        except EOFError:
            return
        limit = Limit(now() + seconds)
        try:
            tell(perform(question, task, known, limit, tell, notebook))
        except Exception as error:  # noqa: BLE001  # whatever it is, it is told and this process ends
            tell(f"{type(error).__name__}: {error}")
            sys.exit(1)


if __name__ == "__main__":
    main()
