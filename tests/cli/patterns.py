"""Small patterns that the commands are tried on."""

from __future__ import annotations

from tests.drawing.samples import oblong

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

LEATHERS = f"""\
pattern "Ferry tag"
stock body: leather; 2 mm thick
stock clear: sheet; 0.3 mm thick
piece tag: cut 1 pair from body; grain any
{oblong(40, 30)}\
  hole eye: at (20 mm, 24 mm); 4 mm across
  stamp name: at (20 mm, 10 mm); lying level; 5 mm high; text "漢 No 7"
  skive rim: band 5 mm inside from a to b of outline; down to 1 mm
piece screen: cut 1 from clear; grain any
{oblong(20, 20)}\
"""

STOCKED = TAG.replace("piece tag:", "stock body: leather; 2 mm thick\npiece tag: cut 1 from body;")

HIDE = """\
pattern "Shoulder of a tool library"
piece shoulder
  point tail: at (0 mm, 0 mm)
  point neck: at (300 mm, 0 mm)
  outline: box 400 mm by 300 mm; at (150 mm, 0 mm)
  opening wire: 12 mm across; at (150 mm, 40 mm) from tail
  guide backbone: tail to neck
  guide poor_flank: box 400 mm by 60 mm; at (150 mm, -120 mm)
"""
