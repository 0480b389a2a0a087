"""A choir's folder, and rosters of it."""

from __future__ import annotations

from drafting import face
from drafting.drawing.roster import Roster, Wishes
from drafting.text.messages import Messages
from drafting.text.source import Source
from drafting.text.table import table_of

FOLDER = """\
pattern "Choir folder"
measure wide = 90 mm
size "slim": as written
size "broad": wide = 120 mm
stock hide: leather; 1.5 mm thick
content card: 85 mm by 54 mm by 0.3 mm
piece front: cut 1 pair from hide; grain any
  outline: box wide by 130 mm
  point mid: midway top_left..bottom_right
  point low: at (0, -40 mm) from mid
  stamp owner: box 40 mm by 9 mm; at mid; lying 20 deg; roster "name"
  stamp house: box 30 mm by 6 mm; at low; lying level; text "BELLS"
piece tab: cut 2 from hide; mirrored over foot..top; grain any
  point foot: at (0, 0)
  point top: plumb with foot; 60 mm above foot
  point heel: level with foot; 50 mm right of foot
  point brow: level with top; plumb with heel
  point spot: at (25 mm, 30 mm)
  outline: foot to heel to brow to top
  stamp voice: 4 mm high; at spot; lying 30 deg; roster "voice"
"""
CHOIR = "name,voice,size\nOna Vale,alto,slim\nTam Redwick,bass,broad\n"


def tried(text: str = CHOIR, pattern: str = FOLDER, **wishes: object) -> tuple[Roster | None, Messages]:
    loaded = face.read(Source("folder.draft", pattern))
    table, said = table_of(text.encode(), "choir.csv")
    assert table is not None, [message.says for message in said]
    return loaded.roster_with(table, Wishes(**wishes), {})  # type: ignore[arg-type]


def made(text: str = CHOIR, pattern: str = FOLDER, **wishes: object) -> Roster:
    roster, messages = tried(text, pattern, **wishes)
    assert roster is not None, [message.says for message in messages]
    return roster


def said(text: str = CHOIR, pattern: str = FOLDER, **wishes: object) -> list[str]:
    return [f"{message.code} {message.says}" for message in tried(text, pattern, **wishes)[1]]
