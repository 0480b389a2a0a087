"""The proof room: takes a file that was written, gives what in it differs from the solved pattern.

It reads with a library of its own and shares nothing with the writers but the names of things.
"""

from __future__ import annotations

from drafting.proof.disagreement import Disagreement
from drafting.proof.svg import check_svg

__all__ = ["Disagreement", "check_svg"]
