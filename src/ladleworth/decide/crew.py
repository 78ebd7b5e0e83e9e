"""Processes that do pieces of work beside this one; each can be stopped at any moment."""

from __future__ import annotations

import contextlib
import pickle
import queue
import subprocess
import sys
import threading
from dataclasses import dataclass
from typing import BinaryIO

from ladleworth.decide.answer import LowerBound, Plan
from ladleworth.decide.labour import Known, Outcome, Task
from ladleworth.decide.question import Question


@dataclass(frozen=True, slots=True)
class Note:
    """What a process says: a plan or a bound that it found, an outcome, or (neither) that it is gone, and why."""

    worker: int
    found: Plan | LowerBound | None = None
    outcome: Outcome | None = None
    fault: str = ""


class Crew:
    """So many processes with one question; notes come in one by one."""

    def __init__(self, question: Question, number: int) -> None:
        self._notes: queue.Queue[Note] = queue.Queue()
        self._processes = [
            subprocess.Popen(
                [sys.executable, "-m", "ladleworth.decide.worker"],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
            )
            for _ in range(number)
        ]
        for worker, process in enumerate(self._processes):
            assert process.stdin is not None
            assert process.stdout is not None
            with contextlib.suppress(OSError):  # it has ended, and its listener says so
                _write(process.stdin, question)
            threading.Thread(target=self._listen, args=(worker, process.stdout), daemon=True).start()

    def _listen(self, worker: int, pipe: BinaryIO) -> None:
        """Put what a process says into the queue until it ends."""
        fault = "it ended"
        try:
            while True:
                said = pickle.load(pipe)  # noqa: S301  # our own process
                if isinstance(said, Plan | LowerBound):
                    self._notes.put(Note(worker, found=said))
                elif isinstance(said, Outcome):
                    self._notes.put(Note(worker, outcome=said))
                else:
                    fault = str(said)
        except (EOFError, pickle.UnpicklingError, OSError, ValueError):
            self._notes.put(Note(worker, fault=fault))

    def give(self, worker: int, task: Task, known: Known, seconds: float) -> None:
        """Give a process a piece of work and so many seconds for it."""
        pipe = self._processes[worker].stdin
        assert pipe is not None
        try:
            _write(pipe, (task, known, seconds))
        except OSError:
            return  # it has ended, and its listener says so

    def hear(self, seconds: float) -> Note | None:
        """Return the next note, or None if none comes in time."""
        try:
            return self._notes.get(timeout=max(0.0, seconds))
        except queue.Empty:
            return None

    def dismiss(self) -> None:
        """End the processes at once, whatever they do."""
        for process in self._processes:
            process.kill()
        for process in self._processes:
            process.wait()
            for pipe in (process.stdin, process.stdout):
                if pipe is not None:
                    try:
                        pipe.close()
                    except OSError:
                        continue  # what was still to be written has no reader any more


def _write(pipe: object, thing: object) -> None:
    pickle.dump(thing, pipe)  # type: ignore[arg-type]
    pipe.flush()  # type: ignore[attr-defined]
