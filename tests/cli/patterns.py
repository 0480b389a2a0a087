"""Small patterns that the commands are tried on."""

from __future__ import annotations

TAG = """\
pattern "Tool library tag"
  show mm and in
measure wide = 40 mm
measure high = 90 mm
piece tag: mirrored over foot..top
  point foot: at (0, 0)
  point top:  plumb with foot; high above foot
  point heel: level with foot; wide/2 right of foot
  point brow: plumb with heel; level with top
  outline: foot to heel to brow to top
  fillet heel, brow by 6 mm
"""

LOOSE = """\
pattern "Loose"
measure wide = 40 mm
piece tag: mirrored over foot..top
  point foot: at (0, 0)
  point top:  plumb with foot; 90 mm above foot
  point heel: level with foot; wide/2 right of foot
  point brow: plumb with heel
  outline: foot to heel to brow to top
"""

TWO_SIZES = """\
measure wide = 40 mm
size "slim": as written
size "broad": wide = 60 mm
piece tag: mirrored over foot..top
  point foot: at (0, 0)
  point top:  plumb with foot; 90 mm above foot
  point heel: level with foot; wide/2 right of foot
  point brow: plumb with heel; level with top
  outline: foot to heel to brow to top
  fillet heel, brow by 6 mm
piece Übersicht: like tag
"""

OFFCUT = """\
piece offcut: mirrored over foot..top
  point foot: at (0, 0)
  point top:  plumb with foot; 90 mm above foot
  point heel: level with foot; 30 mm right of foot
  point brow: plumb with heel; 5 mm below top
  outline: foot to heel to brow to top
"""
