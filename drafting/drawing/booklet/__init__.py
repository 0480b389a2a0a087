"""The booklet of an item: all that its maker wants beside the true-size sheets, in the order in which it is wanted.

Takes a placed pattern and what was judged of it; gives sections of words, tables and pictures, and knows no format.
"""

from __future__ import annotations

from drafting.drawing.booklet.contents import Booklet, Part, Section, Step, Words
from drafting.drawing.booklet.making import BookletFacts, make_booklet
from drafting.drawing.booklet.pictures import Picture

__all__ = ["Booklet", "BookletFacts", "Part", "Picture", "Section", "Step", "Words", "make_booklet"]
