"""What every test shares: how hypothesis searches.

On the machine that guards the project the search is the same every time; at a desk it keeps looking in new
places. No test has a deadline: a slow machine is no fault.
"""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

settings.register_profile("desk", deadline=None)
settings.register_profile("guard", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("guard" if os.environ.get("CI") else "desk")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update", action="store_true", help="write the marks of tests/messages/cases anew")
