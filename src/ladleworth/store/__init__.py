"""The kitchen's papers and its file: a folder of YAML and CSV in and out, and one SQLite file."""

from __future__ import annotations
