"""The papers of a kitchen: the files of its folder, each as a path and its text, byte for byte."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from ladleworth.dish.tree import nearest
from ladleworth.errors import BadField, Finding, Place, Weight
from ladleworth.store.marked_yaml import MOST_BYTES as MOST_YAML_BYTES

KITCHEN = "kitchen.yaml"
DISHES = "dishes.yaml"
FOODS = "foods.yaml"
STOCK = "stock.csv"
PRICES = "prices.csv"
LOTS = "ledger/lots.csv"
MOVEMENTS = "ledger/movements.csv"
SINGLE = (KITCHEN, DISHES, FOODS, STOCK, PRICES, LOTS, MOVEMENTS)
FOLDERS = {"dishes": ".yaml", "plans": ".json"}
"""Folders of which every file with the ending is a paper."""
BOOKS = (STOCK, PRICES, "ledger/", "plans/")
"""How the paths of those papers begin that a kitchen in use keeps as its books."""

MOST_BYTES = 20_000_000
"""The greatest file that is read, CSV and JSON; for YAML it is `marked_yaml.MOST_BYTES`."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A file of the kitchen folder: its path within the folder, with `/`, and its text as written."""

    path: str
    text: str

    def __post_init__(self) -> None:
        if not is_paper(self.path):
            raise BadField(f"{self.path!r} is no file of a kitchen folder")


def is_paper(path: str) -> bool:
    """Tell whether a path within the folder is one that a kitchen folder holds."""
    if path in SINGLE:
        return True
    pure = PurePosixPath(path)
    return (
        len(pure.parts) == 2
        and str(pure) == path
        and "\\" not in path
        and not pure.name.startswith(".")
        and FOLDERS.get(pure.parts[0]) == pure.suffix
    )


def gather(folder: str | Path) -> tuple[tuple[Paper, ...], tuple[Finding, ...]]:
    """Read every paper of a folder.

    Parameters
    ----------
    folder
        The kitchen folder.

    Returns
    -------
    tuple of Paper, and tuple of Finding
        The papers by path, and what could not be read; a file that looks like a misnamed paper is a doubt.
    """
    root = Path(folder)
    if not root.is_dir():
        what = "there is no such folder" if not root.exists() else "this is a file, not a folder"
        return (), (Finding(Place(str(folder)), what, f"name a folder that holds a {KITCHEN}"),)
    papers: list[Paper] = []
    findings: list[Finding] = []
    try:
        nested = [file for name in (*FOLDERS, "ledger") for file in _within(root / name)]
        paths = [*root.iterdir(), *nested]
    except OSError as error:
        return (), (
            Finding(Place(str(folder)), f"the folder cannot be read: {error.strerror}", "see to its rights"),
        )
    for path in paths:
        inner = path.relative_to(root).as_posix()
        if is_paper(inner):
            text, finding = _read(path)
            if finding is not None:
                findings.append(finding)
            else:
                papers.append(Paper(inner, text))
        elif (doubt := _looks_misnamed(path, inner)) is not None:
            findings.append(doubt)
    return tuple(sorted(papers, key=lambda paper: paper.path)), tuple(findings)


def _within(folder: Path) -> list[Path]:
    return list(folder.iterdir()) if folder.is_dir() else []


def _read(path: Path) -> tuple[str, Finding | None]:
    place = Place(str(path))
    most = MOST_YAML_BYTES if path.suffix == ".yaml" else MOST_BYTES
    try:
        size = path.stat().st_size
        if size > most:
            what = (
                f"the file has {size / 1_000_000:.1f} MB, more than the {most // 1_000_000} MB that are read"
            )
            return "", Finding(place, what, "split it, or take out what is not needed")
        data = path.read_bytes()
    except OSError as error:
        reason = "it is a folder" if path.is_dir() else str(error.strerror)
        return "", Finding(place, f"the file cannot be read: {reason}", "put a readable file there")
    try:
        return data.decode("utf-8"), None
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        what = f"byte {data[error.start]:#04x} is no UTF-8"
        return "", Finding(Place(str(path), line), what, "save the file as UTF-8")


def _looks_misnamed(path: Path, inner: str) -> Finding | None:
    """Find files that a cook may believe to be read: a `.yml`, a slip in the name."""
    if path.is_dir() or path.name.startswith(".") or path.suffix not in (".yaml", ".yml", ".csv", ".json"):
        return None
    parent = inner.rpartition("/")[0]
    if parent in FOLDERS:
        hint = f"name it {path.with_suffix(FOLDERS[parent]).name} if it should be"
    else:
        near = nearest(f"{inner.removesuffix('.yml')}.yaml" if path.suffix == ".yml" else inner, SINGLE)
        hint = f"name it {near} if it should be" if near else "a kitchen's files are " + ", ".join(SINGLE)
    return Finding(Place(str(path)), "the file is not read", hint, Weight.DOUBT)
