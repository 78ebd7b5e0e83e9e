"""Draw docs/demo.svg anew: what the demo kitchen's week prints, as a picture for the README.

    .venv/bin/python scripts/picture.py [seconds]

Takes the parts of the output that a reader wants first. Nothing in the picture refers to another file or site.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from rich.console import Console
from rich.text import Text

HERE = Path(__file__).resolve().parent.parent
WIDTH = 96


def main() -> None:
    """Run the demo, keep the headed parts, and write them as SVG."""
    seconds = sys.argv[1] if len(sys.argv) > 1 else "25"
    with TemporaryDirectory() as folder:
        done = subprocess.run(  # noqa: S603  # our own command
            [str(Path(sys.executable).parent / "ladleworth"), "demo", "--out", folder, "--seconds", seconds],
            capture_output=True,
            text=True,
            check=True,
            env={**os.environ, "COLUMNS": str(WIDTH)},
        )
    parts = re.split(r"\n\s*\n", done.stdout)
    wanted = (
        "Good, with a gap",
        "Proven best",
        "What was made as small",
        "Cook on",
        "Where the money went",
        "A portion",
    )
    kept: list[str] = []
    week = False
    for part in parts:
        if part.startswith("Who eats what"):
            week = True
        elif week and not re.match(r"(Mon|Tue|Wed|Thu|Fri|Sat|Sun) ", part):
            week = False
        if week or any(head in part for head in wanted):
            kept.append(part.strip("\n"))
    console = Console(record=True, width=WIDTH, file=open(os.devnull, "w"))  # noqa: SIM115, PTH123
    for part in kept:
        head, _, rest = part.partition("\n")
        is_day = re.match(r"(Mon|Tue|Wed|Thu|Fri|Sat|Sun) ", head)
        console.print(Text(head, style="" if is_day else "bold"))
        console.print(Text(rest))
        console.print()
    svg = console.export_svg(title="make demo")
    svg = re.sub(r"@font-face \{.*?\}\s*", "", svg, flags=re.DOTALL)
    svg = re.sub(r"<!--.*?-->\s*", "", svg)
    svg = re.sub(r"<g transform=\"translate\(26,22\)\">.*?</g>", "", svg, flags=re.DOTALL)
    svg = svg.replace("Fira Code", "ui-monospace")
    (HERE / "docs" / "demo.svg").write_text(svg)


if __name__ == "__main__":
    main()
