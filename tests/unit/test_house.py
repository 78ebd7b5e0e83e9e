"""The house keeps its order: who may import whom, who may look at the clock, and what never stands in a file."""

from __future__ import annotations

import ast
import re
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).parents[2]
SRC = ROOT / "src" / "ladleworth"

FLOORS = (
    {""},  # the package itself: its version
    {"errors"},
    {"units"},
    {"facts"},
    {"dish", "ledger", "household"},
    {"decide", "cookday", "divide", "keep", "reckon"},
    {"publish", "store"},
    {"week"},
    {"cli", "web"},
)
NEIGHBOURS = {
    ("household", "dish"),  # a household says which dishes it will not eat
    ("household", "ledger"),  # a kitchen is a household together with its stock and its price book
}
DOORS = {"cli", "web"}
SEARCHING = {"decide", "cookday"}  # a clock stops a search at its limit
SOLVERS = {"highspy", "ortools", "numpy", "scipy"}  # numpy carries the solver's arrays
HEAT_MODULES = {  # heat in food is arrays of temperatures, Bessel functions and eigenvalues; no solver of plans is here
    "keep/conduction.py",
    "keep/course.py",
    "keep/frozen.py",
    "keep/layers.py",
    "keep/legs.py",
    "keep/modes.py",
    "keep/readings.py",
    "keep/rounds.py",
}
SOLVER_MODULES = {
    "cookday/model.py",
    "cookday/project_model.py",
    "decide/least_cost_model.py",
    "decide/model.py",
}
LONGEST = 400
LONGER: dict[str, int] = {}
SLOW = {"highspy", "ortools", "numpy", "rapidfuzz", "ruamel", "rich", "scipy"}  # nothing a start may wait for


class Import(NamedTuple):
    """A dotted name that a module imports, and the line."""

    name: str
    line: int


MODULES = sorted(path.relative_to(SRC).as_posix() for path in SRC.rglob("*.py"))


@cache
def tree(module: str) -> ast.Module:
    return ast.parse((SRC / module).read_text(encoding="utf-8"), filename=module)


@cache
def imports(module: str) -> tuple[Import, ...]:
    """Every import of a module, those inside functions and type-checking blocks too."""
    found = []
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.Import):
            found += [Import(alias.name, node.lineno) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert not node.level, f"{module}:{node.lineno}: write the import out from ladleworth on"
            found += [Import(f"{node.module}.{alias.name}", node.lineno) for alias in node.names]
    return tuple(found)


def room_of(module: str) -> str:
    return "" if module == "__init__.py" else module.partition("/")[0].removesuffix(".py")


def rooms_imported(module: str) -> Iterator[tuple[str, int]]:
    for name, line in imports(module):
        package, _, rest = name.partition(".")
        if package == "ladleworth":
            room = rest.partition(".")[0]
            yield room if room in {room_of(each) for each in MODULES} else "", line


def floor_of(room: str) -> int:
    return next(floor for floor, rooms in enumerate(FLOORS) if room in rooms)


def may_import(room: str, other: str) -> bool:
    return room == other or (room, other) in NEIGHBOURS or floor_of(other) < floor_of(room)


def test_every_room_stands_on_a_floor() -> None:
    rooms = {room_of(module) for module in MODULES}
    assert rooms <= set().union(*FLOORS)
    assert {"errors", "units", "facts", "decide", "store"} <= rooms


def test_a_room_imports_only_rooms_below_it() -> None:
    breaches = [
        f"{module}:{line}: {room_of(module)} imports {other}"
        for module in MODULES
        for other, line in rooms_imported(module)
        if not may_import(room_of(module), other)
    ]
    assert not breaches


def test_every_neighbour_that_may_be_imported_is() -> None:
    assert {
        (room_of(module), other) for module in MODULES for other, _ in rooms_imported(module)
    } >= NEIGHBOURS


@pytest.mark.parametrize(
    ("room", "other"),
    [("units", "facts"), ("decide", "reckon"), ("store", "week"), ("cli", "web"), ("dish", "ledger")],
)
def test_a_breach_of_the_order_would_be_seen(room: str, other: str) -> None:
    assert not may_import(room, other)


def importers(packages: set[str]) -> set[str]:
    return {
        module for module in MODULES if packages & {name.partition(".")[0] for name, _ in imports(module)}
    }


def test_only_the_model_modules_import_the_solver() -> None:
    assert importers(SOLVERS) == SOLVER_MODULES | HEAT_MODULES
    assert not importers({"highspy", "ortools"}) & HEAT_MODULES


def test_only_the_store_imports_the_database() -> None:
    found = importers({"sqlite3"})
    assert found
    assert {room_of(module) for module in found} == {"store"}


def test_only_the_doors_import_by_a_name_made_at_run_time() -> None:
    found = {
        room_of(module)
        for module in MODULES
        for node in ast.walk(tree(module))
        if (isinstance(node, ast.Name) and node.id == "__import__")
        or (isinstance(node, ast.Attribute) and node.attr == "import_module")
        or (isinstance(node, ast.alias) and node.name in {"import_module", "runpy"})
    }
    assert found <= DOORS


CLOCK_CALLS = re.compile(r"(?:^|\.)(?:date|datetime)\.(?:today|now|utcnow)$")
SQL_CLOCK = re.compile(r"\bCURRENT_(?:TIMESTAMP|DATE|TIME)\b|\(\s*'now'", re.IGNORECASE)


def clock_reads(source: ast.Module) -> Iterator[tuple[str, int]]:
    """Each reading of the clock: by datetime, by time, or by the database."""
    known = {}
    for node in ast.walk(source):
        if isinstance(node, ast.Import):
            known |= {alias.asname or alias.name: alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            known |= {alias.asname or alias.name: f"{node.module}.{alias.name}" for alias in node.names}
            if node.module == "time":
                yield from ((f"time.{alias.name}", node.lineno) for alias in node.names)
    for node in ast.walk(source):
        if isinstance(node, ast.Attribute):
            first, _, rest = ast.unparse(node).partition(".")
            name = f"{known.get(first, first)}.{rest}"
            if CLOCK_CALLS.search(name) or (name.startswith("time.") and known.get(first) == "time"):
                yield name, node.lineno
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and SQL_CLOCK.search(node.value):
            yield "the database's clock", node.lineno


def test_only_the_doors_read_the_clock() -> None:
    breaches = [
        f"{module}:{line}: {name}"
        for module in MODULES
        if room_of(module) not in DOORS
        for name, line in clock_reads(tree(module))
        if not (name == "time.monotonic" and room_of(module) in SEARCHING)
    ]
    assert not breaches


@pytest.mark.parametrize(
    "line",
    [
        "from datetime import date as d; d.today()",
        "import datetime; datetime.datetime.now(datetime.UTC)",
        "import datetime as dt; dt.date.today()",
        "import time; time.time()",
        "from time import time",
        "run('select CURRENT_TIMESTAMP')",
        "run(\"select date('now')\")",
    ],
)
def test_a_reading_of_the_clock_would_be_seen(line: str) -> None:
    assert list(clock_reads(ast.parse(line)))


def test_no_module_is_too_long_to_read() -> None:
    lines = {module: len((SRC / module).read_text(encoding="utf-8").splitlines()) for module in MODULES}
    assert not {module: count for module, count in lines.items() if count > LONGER.get(module, LONGEST)}
    assert all(lines[module] > LONGEST for module in LONGER), "an exception is no longer needed"


def test_no_test_module_is_too_long_to_read_either() -> None:
    paths = (ROOT / "tests").rglob("*.py")
    lines = {path.name: len(path.read_text(encoding="utf-8").splitlines()) for path in paths}
    assert not {name: count for name, count in lines.items() if count > LONGEST}


FORBIDDEN = {
    # Each pattern is written so that it does not match itself.
    "a path of one machine": re.compile(r"(?<![\w.])/(?:work|root|home|Users|opt|tmp)(?:/|\b)|\.\./shared"),
    "a registry's host": re.compile(r"p[y]pi\.org|python[h]osted\.|registry\.npm[j]s|crates\.i[o]\b"),
    "a word from outside the kitchen": re.compile(
        r"\bis[s]ues?\b|\bhelper[s]?\b|seed docu[m]ent|(?<!raising )(?<!leavening )(?<!user-)\bagent[s]?\b",
        re.IGNORECASE,
    ),
}
UNTRACKED = {
    ".git",
    ".venv",
    ".hypothesis",
    ".mypy_cache",
    ".ruff_cache",
    ".pytest_cache",
    "__pycache__",
    "demo-out",
}


def tracked_files() -> list[Path]:
    """The files under version control; in a copy without its history, every file that is not made again."""
    git = shutil.which("git")
    if git and (ROOT / ".git").exists():
        listed = subprocess.run(
            [git, "-c", f"safe.directory={ROOT}", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True
        )
        paths = [ROOT / name for name in listed.stdout.decode().split("\0") if name]
    else:
        paths = [path for path in ROOT.rglob("*") if not UNTRACKED & set(path.relative_to(ROOT).parts)]
    return [path for path in paths if path.is_file()]


def slips(text: str) -> Iterator[str]:
    for what, pattern in FORBIDDEN.items():
        for match in pattern.finditer(text):
            yield f"{text.count(chr(10), 0, match.start()) + 1}: {what}: {match[0]}"


def test_no_file_names_a_machine_a_registry_or_a_word_from_outside_the_kitchen() -> None:
    files = tracked_files()
    assert Path(__file__) in files
    found = [
        f"{path.relative_to(ROOT)}:{slip}"
        for path in files
        for slip in slips(path.read_text(encoding="utf-8", errors="replace"))
    ]
    assert not found


@pytest.mark.parametrize(
    "text",
    [
        "see /ro" + "ot/kitchen",
        "../sha" + "red/notes",
        "https://py" + "pi.org/simple",
        "fixes is" + "sue 7",
        "an ag" + "ent",
    ],
)
def test_a_word_that_must_not_stand_would_be_seen(text: str) -> None:
    assert list(slips(text))


@pytest.mark.parametrize("text", ["https://example.org/home/page", "a raising agent"])
def test_words_of_the_trade_and_addresses_may_stand(text: str) -> None:
    assert not list(slips(text))


@pytest.mark.parametrize(
    ("module", "slow"),
    [
        ("ladleworth", SLOW),
        ("ladleworth.cli.main", SLOW),
        ("ladleworth.week", SLOW - {"ruamel"}),
        ("ladleworth.keep", SLOW),
    ],
)
def test_a_start_waits_for_nothing_slow(module: str, slow: set[str]) -> None:
    code = f"import sys, {module}; print(*sorted({{name.partition('.')[0] for name in sys.modules}}))"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(run.stdout.split())
    assert "ladleworth" in loaded
    assert not slow & loaded


PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
PINNED = re.compile(
    r"^([a-z0-9][a-z0-9-]*)==\S+(?: ; [^\\]+)? \\\n((?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)",
    re.MULTILINE,
)


def distribution(requirement: str) -> str:
    """The name of a requirement as lock files write it."""
    found = re.match(r"[A-Za-z0-9._-]+", requirement)
    assert found, requirement
    return re.sub(r"[-_.]+", "-", found[0]).lower()


def pinned(lock: str) -> set[str]:
    text = (ROOT / lock).read_text(encoding="utf-8")
    assert not PINNED.sub("", text).strip(), f"{lock} holds a line that is no release with its hashes"
    return {match[1] for match in PINNED.finditer(text)}


def test_the_lock_files_pin_by_hash_all_that_the_project_asks_for() -> None:
    groups = {
        name: {distribution(each) for each in group if isinstance(each, str)}
        for name, group in PROJECT["dependency-groups"].items()
    }
    asked = {distribution(each) for each in PROJECT["project"]["dependencies"]}
    assert pinned("requirements.lock") >= asked | groups["build"]
    assert pinned("requirements-dev.lock") >= asked | groups["build"] | groups["dev"]


def test_the_project_asks_for_what_its_modules_import_and_nothing_else() -> None:
    imported = {name.partition(".")[0] for module in MODULES for name, _ in imports(module)}
    outside = imported - set(sys.stdlib_module_names) - {"ladleworth"}
    asked = {each.partition(">")[0].partition(".")[0] for each in PROJECT["project"]["dependencies"]}
    assert outside == asked
