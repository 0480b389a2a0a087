"""What tests of drawings share."""

from __future__ import annotations

from tests.output.conftest import machine_has

__all__ = ["machine_has"]
