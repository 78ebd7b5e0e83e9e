"""How long a cook waits before the command line says anything: `ladleworth --help`, twenty starts."""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from pathlib import Path

STARTS = 20
WISHED_MS = 150


def start_ms(command: Path) -> float:
    """Start the command once, ask for its help, and say how long that took."""
    began = time.perf_counter()
    subprocess.run([command, "--help"], stdout=subprocess.DEVNULL, check=True)
    return (time.perf_counter() - began) * 1000


def main() -> None:
    """Print the median of the starts, and whether it is what we wish for; a slow machine fails nothing."""
    command = Path(sys.executable).with_name("ladleworth")
    start_ms(command)  # the first start compiles and fills the file cache
    times = sorted(start_ms(command) for _ in range(STARTS))
    median = statistics.median(times)
    met = "met" if median < WISHED_MS else "not met"
    print(
        f"ladleworth --help, {STARTS} starts: median {median:.0f} ms "
        f"(from {times[0]:.0f} to {times[-1]:.0f} ms); wished for: under {WISHED_MS} ms, {met}"
    )


if __name__ == "__main__":
    main()
