"""The interrupt key while a solver runs: it works outside Python, and would only stop when its time is over."""

from __future__ import annotations

import os
import signal
import socket
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager

GRACE_S = 1.0
"""How long the command may take to stop by itself before it is ended."""


@contextmanager
def stops_at_once(*, as_json: bool) -> Iterator[None]:
    """Let the interrupt key end the command within a second or so, whatever runs within.

    What has been entered is kept whole or not at all in either case: that is the store's affair.

    Parameters
    ----------
    as_json
        Whether the message of it is wanted as JSON.
    """
    if threading.current_thread() is not threading.main_thread():
        yield  # signals go to the main thread alone
        return
    heard, told = socket.socketpair()
    told.settimeout(0)
    before = signal.set_wakeup_fd(told.fileno())
    watch = threading.Thread(target=_watch, args=(heard,), kwargs={"as_json": as_json}, daemon=True)
    watch.start()
    try:
        yield
    finally:
        signal.set_wakeup_fd(before)
        told.close()
        watch.join()
        heard.close()


def _watch(heard: socket.socket, *, as_json: bool) -> None:
    """Wait for the interrupt key, then for the command to stop by itself; end it where it does not."""
    while signal_number := heard.recv(1):
        if signal_number[0] != signal.SIGINT:
            continue
        heard.settimeout(GRACE_S)
        try:
            while heard.recv(1):
                pass
        except TimeoutError:
            from ladleworth.cli.ending import INTERRUPTED, interrupted

            interrupted(as_json=as_json)
            sys.stdout.flush()
            sys.stderr.flush()
            os._exit(INTERRUPTED)
        return


@contextmanager
def stops_when_asked(*, as_json: bool) -> Iterator[Callable[[], bool]]:
    """Let the interrupt key ask for the best so far; pressed again, it ends the command within a second or so.

    Parameters
    ----------
    as_json
        Whether the message of an end is wanted as JSON.

    Yields
    ------
    callable
        Says whether the key was pressed; it may be asked from anywhere, and as often as wanted.
    """
    asked = threading.Event()
    if threading.current_thread() is not threading.main_thread():
        yield asked.is_set  # signals go to the main thread alone
        return
    presses: list[int] = []

    def pressed(number: int, _frame: object) -> None:
        presses.append(number)
        if len(presses) > 1:
            raise KeyboardInterrupt

    heard, told = socket.socketpair()
    told.settimeout(0)
    before = signal.set_wakeup_fd(told.fileno())
    handler = signal.signal(signal.SIGINT, pressed)
    watch = threading.Thread(target=_ask, args=(heard, asked), kwargs={"as_json": as_json}, daemon=True)
    watch.start()
    try:
        yield asked.is_set
    finally:
        signal.signal(signal.SIGINT, handler)
        signal.set_wakeup_fd(before)
        told.close()
        watch.join()
        heard.close()


def _ask(heard: socket.socket, asked: threading.Event, *, as_json: bool) -> None:
    """Ask to stop at the first press of the key, and watch from then on for the second."""
    while signal_number := heard.recv(1):
        if signal_number[0] == signal.SIGINT:
            asked.set()
            sys.stderr.write("\nstopping with the best so far; press again to end without\n")
            sys.stderr.flush()
            _watch(heard, as_json=as_json)
            return
