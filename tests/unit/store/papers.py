"""A small kitchen as papers, to change one thing at a time."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from ladleworth.errors import Finding, Weight
from ladleworth.store.folder import FolderReading, read_papers
from ladleworth.store.papers import Paper

KITCHEN = """\
ladleworth: 1
name: Test house
currency: USD
start: 2026-12-06
days: 7
eaters:
  - name: Ada
  - name: Ben
slots:
  - meals: [dinner]
sessions:
  - day: sunday
    minutes: 90
"""
DISHES = """\
- dish: Rice bowl
  least: 2
  per_portion: {rice: 80 g, egg: 1}
"""
SMALL = {"kitchen.yaml": KITCHEN, "dishes.yaml": DISHES}


def read(changes: Mapping[str, str | None] | None = None, **kitchen: str) -> FolderReading:
    """Read the small kitchen with papers changed or (None) taken out, and lines of kitchen.yaml replaced."""
    papers: dict[str, str | None] = {**SMALL, **(changes or {})}
    for key, value in kitchen.items():
        text = papers["kitchen.yaml"]
        assert text is not None
        assert f"\n{key}:" in text, key
        head, _, tail = text.partition(f"\n{key}:")
        rest = tail.partition("\n")[2] if not tail.startswith("\n") else tail[1:]
        while rest.startswith(" "):
            rest = rest.partition("\n")[2]
        papers["kitchen.yaml"] = f"{head}\n{key}:{' ' if value[:1] != chr(10) else ''}{value}\n{rest}"
    return read_papers([Paper(path, text) for path, text in papers.items() if text is not None])


def told(reading: FolderReading) -> list[str]:
    """Give the findings as a cook sees them, but for those that `lacking` gives."""
    return [str(finding) for finding in reading.findings if finding not in lacking(reading)]


def lacking(reading: FolderReading) -> list[Finding]:
    """Give the doubts of foods that cannot be had; the small kitchen has neither stock nor prices."""
    return [one for one in reading.findings if "cannot be cooked" in one.what or "can be cooked:" in one.what]


def faults(reading: FolderReading) -> list[Finding]:
    """Give the faults only."""
    return [finding for finding in reading.findings if finding.weight is Weight.FAULT]


def doubts(reading: FolderReading) -> list[Finding]:
    """Give the doubts only, but for those that `lacking` gives."""
    return [
        finding
        for finding in reading.findings
        if finding.weight is Weight.DOUBT and finding not in lacking(reading)
    ]


def write(folder: Path, papers: Mapping[str, str]) -> Path:
    """Write papers as files."""
    for path, text in papers.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(text.encode("utf-8"))
    return folder
