"""The interrupt key while a solver runs: it works outside Python, and would only stop when its time is over."""

from __future__ import annotations

import os
import signal
import socket
import sys
import threading
from collections.abc import Iterator
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
