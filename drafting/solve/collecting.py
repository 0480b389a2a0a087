"""Hold the collection of garbage while much is made and nothing thrown away.

A plan of thousands of points is some hundred thousand objects that all stay. The collector would look through them
again and again while they are made, which takes as long as making them, and the longer the more there are.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def collection_held() -> Iterator[None]:
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
