"""How far hypothesis looks: afresh each time by hand, the same cases every time under `make test`."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("ci", derandomize=True, deadline=None, print_blob=True)
settings.register_profile("afresh", deadline=None, print_blob=True)
settings.load_profile("afresh")
