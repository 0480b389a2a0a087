"""The limits of the workshop rules, by name and with what backs each. Lengths are mm, angles radians.

A range of the trade is nobody's standard: it backs a warning or a note, and whoever knows better allows the rule.
"""

from __future__ import annotations

from drafting.geometry.maths import radians

LEAST_MARGIN = 2.0
"""Stitch line to edge, at least; fine goods 2 to 3, general 3 to 4, straps 4 to 6 (common practice, from memory)."""

MOST_MARGIN = 6.0
"""Stitch line to edge, at most in common use (common practice, from memory)."""

FOLLOWS_EDGE = 0.5
"""A stitch line whose holes are as far from the edge within this follows it (this room's own figure)."""

DIVIDES = 12.0
"""A straight stitch line farther from the edge divides a piece, and follows no edge (this room's own figure)."""

SEWN_PART = 0.5
"""Stitch line to edge, as a part of the thickness sewn (common practice, from memory)."""

HOLE_DIAMETERS = 1.5
"""Middle of a hole to the edge, in diameters (common practice, from memory)."""

LOADED_HOLE_DIAMETERS = 2.0
"""The same for a hole that bears a pull (common practice, from memory)."""

HOLE_BRIDGE_DIAMETERS = 1.0
"""Leather left between two holes, in diameters of the larger (common practice, no source)."""

SMALLEST_PUNCH = 0.5
"""A smaller round punch is not in common use (common practice, no source)."""

SHALLOWEST_NOTCH = 0.5
"""A notch less deep is not seen (this room's own figure)."""

PUNCH_FITS = 0.1
"""A hole this near to a punch in size is made with it (this room's own figure)."""

LEAST_BRIDGE = 3.0
"""Leather left beside a cut (common practice, no source)."""

BRIDGE_THICKNESSES = 2.0
"""The same in thicknesses of the leather, where that is more (common practice, no source)."""

CUT_TO_SEAM = 2.5
"""A cut to the nearest stitch hole (common practice, no source)."""

NOTCH_TO_SEAM = 1.0
"""The bottom of a notch to the nearest stitch line (common practice, no source)."""

STRAP_SLACK = 1.0
"""How much narrower than its buckle a strap is, at most (common practice, no source)."""

SLOT_TO_STITCHING = 10.0
"""End of a prong's slot to the stitching of the turn-back (common practice, no source)."""

SLOT_TO_STITCHING_PART = 0.5
"""The same as a part of the strap's width, where that is less: narrow straps have short slots (this room's own)."""

SLOT_OFF_FOLD = 1.0
"""Middle of a prong's slot to the middle of the fold (common practice, no source: it is centered on the fold)."""

PRONG_PLAY = 1.0
"""How much wider than its prong a slot is, at least (common practice, no source)."""

OFF_CENTER = 0.5
"""Holes of a strap off the middle, at most (common practice, no source)."""

WINDOW_OVERLAP = 2.0
"""What a window laps over its content at each side (common practice, no source)."""

INSERT_GLUE = 3.0
"""What an insert reaches past its window at least; 6 to 10 where there is room (common practice, from memory)."""

INSERT_TO_SEAM = 1.0
"""An insert to the nearest stitch hole (common practice, no source)."""

PITCH_PER_THREAD = (4.0, 9.0)
"""Pitch in thicknesses of the thread; 5 to 8 is usual (common practice, from memory)."""

LONG_PIECE = 4.0
"""A piece so many times as long as wide will stretch if its grain lies across (common practice, no source)."""

LONG_AT_LEAST = 80.0
"""A shorter piece does not stretch enough to be seen (this room's own figure)."""

GRAIN_OFF = radians(30)
"""Grain off the length of a long piece, at most (common practice, no source)."""

SHARP_FOLD_TURN = radians(90)
"""A fold of less than this spares the grain side (common practice, no source)."""

FOLD_THICKNESSES = 1.0
"""What lies inside a fold, in thicknesses of the leather (common practice, no source)."""

THICKEST_TURN = 1.2
"""Leather that is turned without being skived (common practice, no source)."""

SKIVED_BEYOND = 2.0
"""How much wider than a turn the band is that is skived for it (this room's own figure)."""

TURN_WIDTHS = (8.0, 12.0)
"""Turned edges (common practice, from memory)."""
