"""What every test shares: how hypothesis searches.

The search is the same every time, so that a change is judged by what it changes. `--hypothesis-profile wander` keeps
looking in new places. No test has a deadline: a slow machine is no fault.
"""

from __future__ import annotations

import pytest
from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, print_blob=True)
settings.register_profile("wander", deadline=None, print_blob=True)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update", action="store_true", help="write the marks of tests/messages/cases anew")
