"""The kitchen's papers and its file: a folder of YAML and CSV in and out, and one SQLite file."""

from __future__ import annotations

from ladleworth.store.database import Store, is_kitchen_file
from ladleworth.store.dump import papers_of, write_folder
from ladleworth.store.folder import Books, FolderReading, read_folder, read_papers
from ladleworth.store.kept_day import DayEntry, Happened, KeptDay
from ladleworth.store.papers import Paper
from ladleworth.store.plan_json import Deed, Mark, SavedPlan

__all__ = [
    "Books",
    "DayEntry",
    "Deed",
    "FolderReading",
    "Happened",
    "KeptDay",
    "Mark",
    "Paper",
    "SavedPlan",
    "Store",
    "is_kitchen_file",
    "papers_of",
    "read_folder",
    "read_papers",
    "write_folder",
]
