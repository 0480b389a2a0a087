"""Slips that makers make: each is one short message in the right place, and its mend, when typed, mends."""

from __future__ import annotations

import re

import pytest

from drafting.syntax.parse import parse, parse_expression, parse_setting_value
from drafting.text.catalogue import entries_of
from drafting.text.catalogue import syntax as catalogue
from drafting.text.messages import Message
from drafting.text.source import Source

PIECE = """\
pattern "Tide gauge cover"
stock body: leather; 1.8 mm thick
piece back: cut 1 from body
  point foot: at (0, 0)
"""
LONGEST_MESSAGE = 230

IN_A_PIECE = [
    # A colon, a sign or a small word is missing.
    ("point brow 12 mm above foot", "T03", "point brow 12 mm", "point brow: 12 mm above foot"),
    ("outline foot to heel", "T03", "outline foot", "outline: foot to heel"),
    ("point brow at foot", "T03", "point brow at", "point brow: at foot"),
    ("measure rim 8 mm", "T03", "measure rim 8 mm", "measure rim = 8 mm"),
    ("point brow: 12 mm right foot", "T03", "12 mm right", "point brow: 12 mm right of foot"),
    ("point brow: 12 mm right from foot", "T03", "12 mm right from", "point brow: 12 mm right of foot"),
    ("point brow: right foot", "T03", "right foot", "point brow: right of foot"),
    ("point brow: level foot", "T03", "level", "point brow: level with foot"),
    ("point brow: level to foot", "T03", "level to", "point brow: level with foot"),
    ("point brow: level wiht foot", "T03", "level wiht", "point brow: level with foot"),
    ("point brow: mirror p over a..b", "T03", "mirror p over a..b", "point brow: mirror of p over a..b"),
    ("fillet heel 6 mm", "T03", "fillet heel 6 mm", "fillet heel by 6 mm"),
    ("clip heel by 3 mm 4 mm", "T03", "clip heel by 3 mm 4 mm", "clip heel by 3 mm and 4 mm"),
    ("outline: foot to heel brow", "T03", "foot to heel brow", "outline: foot to heel to brow"),
    ("point brow: at (12 mm 5 mm)", "T03", "at (12 mm 5 mm", "point brow: at (12 mm, 5 mm)"),
    ("dim foot tip", "T03", "dim foot tip", "dim foot..tip"),
    ("run wall: brow to heel", "T03", "brow to", "run wall: from brow to heel"),
    ("crease c: 3 mm inside brow to heel", "T03", "brow to", "crease c: 3 mm inside from brow to heel"),
    ("crease c: from brow round foot to heel", "T03", "from", "crease c: along from brow round foot to heel"),
    ("mirrored foot..tip", "T03", "mirrored", "mirrored over foot..tip"),
    ("cut 1 body", "T03", "cut 1 body", "cut 1 from body"),
    ('label l: "FERRY"; at foot', "T03", '"FERRY"', 'label l: text "FERRY"; at foot'),
    (
        "skive s: band 14 mm inside outline; to 1 mm",
        "T03",
        "to",
        "skive s: band 14 mm inside outline; down to 1 mm",
    ),
    (
        "stitch e: 3 mm inside rim every 3 mm",
        "T03",
        "3 mm inside rim every",
        "stitch e: 3 mm inside rim; every 3 mm",
    ),
    # A word or sign is another.
    ("measure rim: 8 mm", "T18", ":", "measure rim = 8 mm"),
    ("point brow = at (0, 0)", "T18", "=", "point brow: at (0, 0)"),
    (
        "point brow: level with foot, 3 mm above foot",
        "T18",
        ",",
        "point brow: level with foot; 3 mm above foot",
    ),
    ("point brow: at (12 mm; 5 mm)", "T18", ";", "point brow: at (12 mm, 5 mm)"),
    ("fillet heel radius 6 mm", "T18", "radius", "fillet heel by 6 mm"),
    ("dim foot to tip", "T18", "to", "dim foot..tip"),
    ("hold foot..tip is 40 mm", "T18", "is", "hold foot..tip = 40 mm"),
    ("measure w = 8 mm between 6 mm to 10 mm", "T18", "to", "measure w = 8 mm between 6 mm and 10 mm"),
    ("outline: box 40 mm x 60 mm", "T18", "x", "outline: box 40 mm by 60 mm"),
    ("check rim => 3 mm", "T19", "=>", "check rim >= 3 mm"),
    ("check rim == 3 mm", "T19", "==", "check rim = 3 mm"),
    ("check rim at least 3 mm", "T19", "at least", "check rim >= 3 mm"),
    # A word too many.
    ("point brow: 12 mm above of foot", "T04", "of", "point brow: 12 mm above foot"),
    ("point brow: 12 mm above the foot", "T04", "the", "point brow: 12 mm above foot"),
    ("point brow: at the foot", "T04", "the", "point brow: at foot"),
    ("hold foot..tip parallel to c..d", "T04", "to", "hold foot..tip parallel c..d"),
    # Words spelled wrong, or from elsewhere.
    ("point brow: levle with foot", "T05", "levle", "point brow: level with foot"),
    ("point brow: horizontal with foot", "T05", "horizontal", "point brow: level with foot"),
    ("point brow: 12 mm abvoe foot", "T05", "abvoe", "point brow: 12 mm above foot"),
    ("point brow: 12 mm under foot", "T05", "under", "point brow: 12 mm below foot"),
    ("point brow: 1/3 of a..b", "T05", "of", "point brow: 1/3 along a..b"),
    ("point brow: midpoint a..b", "T05", "midpoint", "point brow: midway a..b"),
    ("slot eye: 14 mm length; at foot", "T05", "length", "slot eye: 14 mm long; at foot"),
    ("hole h: at foot; 3 mm diameter", "T05", "diameter", "hole h: at foot; 3 mm across"),
    ("outline: foot to heel bowed outward 3 mm", "T05", "outward", "outline: foot to heel bowed out 3 mm"),
    ("run wall: from brow around heel to foot", "T05", "around", "run wall: from brow round heel to foot"),
    (
        "fold f: foot to tip; bend 180 deg round 4 mm",
        "T05",
        "bend",
        "fold f: foot to tip; bent 180 deg round 4 mm",
    ),
    ("outlien: foot to heel", "T06", "outlien", "outline: foot to heel"),
    ("pount brow: level with foot", "T06", "pount", "point brow: level with foot"),
    ("circle c: at foot; 3 mm across", "T06", "circle", "hole c: at foot; 3 mm across"),
    ("chamfer heel by 3 mm", "T06", "chamfer", "clip heel by 3 mm"),
    ("brow: level with foot", "T07", "brow", "point brow: level with foot"),
    ("rim = 8 mm", "T07", "rim", "measure rim = 8 mm"),
    ("Point brow: level with foot", "T08", "Point", "point brow: level with foot"),
    # Names.
    ("point above: level with foot", "T09", "above", "point upper: level with foot"),
    ("measure text = 4 mm", "T09", "text", "measure words = 4 mm"),
    ("opening inside: at foot", "T09", "inside", "opening inner: at foot"),
    ("point brow: level with above", "T09", "above", "point brow: level with upper"),
    ("measure turn-back = 5 mm", "T13", "turn-back", "measure turn_back = 5 mm"),
    ("point brow: level with turn-back", "T13", "turn-back", "point brow: level with turn_back"),
    ("outline: foot to side-seam-l to tip", "T13", "side-seam-l", "outline: foot to side_seam_l to tip"),
    ("point left heel: level with foot", "T14", "left heel", "point left_heel: level with foot"),
    ("point 2nd: level with foot", "T15", "2nd", "point p2nd: level with foot"),
    ('point "brow": level with foot', "T16", '"brow"', "point brow: level with foot"),
    ("label l: text FERRY; at foot", "T17", "FERRY", 'label l: text "FERRY"; at foot'),
    # Amounts.
    ("slot eye: length 14 mm; at foot", "T10", "length 14 mm", "slot eye: 14 mm long; at foot"),
    ("slot eye: width = 4 mm; at foot", "T10", "width = 4 mm", "slot eye: 4 mm wide; at foot"),
    ("row r: at foot; holes 5", "T10", "holes 5", "row r: at foot; 5 holes"),
    ("stitch e: 3 mm inside rim; pitch 3 mm", "T10", "pitch 3 mm", "stitch e: 3 mm inside rim; every 3 mm"),
    ("opening o: box a by b; radius 3 mm", "T10", "radius 3 mm", "opening o: box a by b; 3 mm rounded"),
    ("point brow: 5-1/4 in above foot", "T11", "5-1/4 in", "point brow: 5 1/4 in above foot"),
    ('point brow: 5-1/4" above foot', "T11", '5-1/4"', "point brow: 5 1/4 in above foot"),
    ('point brow: 5 1/4" above foot', "T12", '5 1/4"', "point brow: 5 1/4 in above foot"),
    ('point brow: 5 1/4 " above foot', "T12", '5 1/4 "', "point brow: 5 1/4 in above foot"),
    ("point brow: 3” above foot", "T12", "3”", "point brow: 3 in above foot"),
    ("measure w = 300 mn", "T20", "300 mn", "measure w = 300 mm"),
    ("measure w = 2 rim", "T20", "2 rim", "measure w = 2*rim"),
    ("measure w = 12 inches", "T21", "12 inches", "measure w = 12 in"),
    ("measure w = 12 MM", "T21", "12 MM", "measure w = 12 mm"),
    ("measure a = 30 degrees", "T21", "30 degrees", "measure a = 30 deg"),
    ("measure w = 40 millimetres + 2 Inches", "T21", "40 millimetres", "measure w = 40 mm + 2 in"),
    (
        "point brow: level with foot and 3 mm above foot",
        "T18",
        "and",
        "point brow: level with foot; 3 mm above foot",
    ),
    ("point brow: (12 mm, 5 mm)", "T03", "(12 mm, 5 mm)", "point brow: at (12 mm, 5 mm)"),
    ("point brow: AT (12 mm, 5 mm)", "T08", "AT", "point brow: at (12 mm, 5 mm)"),
    ("point brow: 12 mm Above foot", "T08", "Above", "point brow: 12 mm above foot"),
    ("point brow: right of foot 12 mm", "T10", "right of foot 12 mm", "point brow: 12 mm right of foot"),
    (
        "point brow: 9 mm to the left of foot",
        "T04",
        "9 mm to the left of foot",
        "point brow: 9 mm left of foot",
    ),
    ("point brow: 9 mm to right of foot", "T04", "9 mm to right of foot", "point brow: 9 mm right of foot"),
    ("point brow: level with foot.", "T32", ".", "point brow: level with foot"),
    ("point brow: level with foot -- the middle", "T30", "--", "point brow: level with foot # the middle"),
    ("point brow: level with foot /* a */", "T30", "/*", "point brow: level with foot # a"),
    ("round heel by 6 mm", "T06", "round", "fillet heel by 6 mm"),
    ("hole stud: at foot; ⌀ 4 mm", "T28", "⌀", "hole stud: at foot; 4 mm across"),
    ("point brow: in the centre", "T49", "in the centre", "point brow: at outline.centre"),
    ("hole stud: at the middle of view; 3 mm across", "T49", "at the middle of view", None),
    ("point brow: at (12 mm)", "T50", "at (12 mm)", "point brow: at (12 mm, 0)"),
    ("measure w = 1.2 m", "T22", "1.2 m", "measure w = 120 cm"),
    ("measure w = 2 ft", "T22", "2 ft", "measure w = 24 in"),
    ("measure w = 4 oz", "T23", "4 oz", "measure w = 1.59 mm"),
    ("measure w = 3,85 mm", "T24", "3,85 mm", "measure w = 3.85 mm"),
    ("point brow: at (3,85 mm, 4 mm)", "T24", "3,85 mm", "point brow: at (3.85 mm, 4 mm)"),
    ("measure w = .5 mm", "T25", ".5 mm", "measure w = 0.5 mm"),
    ("measure a = 30°", "T26", "30°", "measure a = 30 deg"),
    ("measure w = 1/0 in", "T27", "1/0 in", "measure w = 5/8 in"),
    ("measure rim = 8." + 70 * "3" + " mm", "T51", "8." + 70 * "3" + " mm", "measure rim = 8.33 mm"),
    ("cut 1.5 from body", "T38", "1.5", "cut 2 from body"),
    # Characters.
    ("measure w = 3×rim", "T28", "×", "measure w = 3*rim"),
    ("measure w = rim – 3 mm", "T28", "–", "measure w = rim - 3 mm"),
    ("check rim ≥ 3 mm", "T28", "≥", "check rim >= 3 mm"),
    ("measure w = 5½ in", "T28", "½", "measure w = 5 1/2 in"),
    ("measure w = [rim]", "T28", "[", None),
    ("point brow: level with foot ¿", "T28", "¿", "point brow: level with foot"),
    ("point brow: level with foot\u200b", "T28", "\u200b", "point brow: level with foot"),
    ('point brow: level with foot "note', "T29", '"note', 'point brow: level with foot "note"'),
    ("point brow: level with foot // remark", "T30", "//", "point brow: level with foot # remark"),
    ('slit door: a to b "note"; once', "T31", '"note"', 'slit door: a to b; once "note"'),
    (
        "point brow: level with foot;; 3 mm above foot",
        "T32",
        ";",
        "point brow: level with foot; 3 mm above foot",
    ),
    ("point brow: level with foot;", "T32", ";", "point brow: level with foot"),
    ("point brow:; level with foot", "T32", ";", "point brow: level with foot"),
    ("measure w = 3 mm,, 4 mm", "T32", ",", "measure w = 3 mm, 4 mm"),
    ("measure w = (rim + 3 mm", "T33", "(", "measure w = (rim + 3 mm)"),
    ("point brow: at (12 mm, 5 mm", "T33", "(", "point brow: at (12 mm, 5 mm)"),
    ("point brow: at 12 mm, 5 mm", "T34", "12 mm, 5 mm", "point brow: at (12 mm, 5 mm)"),
    ("point brow: at 12 mm, 5 mm from p", "T34", "12 mm, 5 mm", "point brow: at (12 mm, 5 mm) from p"),
    # Paths.
    ("outline: foot, heel, brow", "T35", "foot, heel, brow", "outline: foot to heel to brow"),
    ("outline: foot - heel - brow", "T35", "foot - heel - brow", "outline: foot to heel to brow"),
    ("outline: foot -> heel -> brow", "T35", "foot -> heel -> brow", "outline: foot to heel to brow"),
    ("outline: foot heel brow", "T35", "foot heel brow", "outline: foot to heel to brow"),
    ("outline: a to b smooth bowed out 3 mm", "T36", "bowed", "outline: a to b bowed out 3 mm"),
    ("hold a..b..c = 30 deg", "T37", "a..b..c", "hold angle a..b..c = 30 deg"),
    # What comes to an end too early, or goes on with what nobody expects.
    ("point brow:", "T02", ":", "point brow: level with foot"),
    ("point brow", "T02", "brow", "point brow: level with foot"),
    ("measure rim =", "T02", "=", "measure rim = 8 mm"),
    ("hole h: at foot; 3 mm", "T02", "3 mm", "hole h: at foot; 3 mm across"),
    ("outline: foot to heel bowed 3 mm", "T01", "3 mm", "outline: foot to heel bowed out 3 mm"),
    ("cut one from body", "T01", "one", "cut 1 from body"),
    ("measure = 8 mm", "T01", "=", "measure rim = 8 mm"),
    ("measure w = " + "(1 + " * 120 + "1" + ")" * 120, "T39", None, "measure w = 121"),
]

IN_A_PATTERN = [
    ("size large: rim = 3 mm", "T17", "large", 'size "large": rim = 3 mm'),
    ('size "large" rim = 3 mm', "T03", 'size "large" rim', 'size "large": rim = 3 mm'),
    ('size "large": rim: 3 mm', "T18", ":", 'size "large": rim = 3 mm'),
    ("stock body leather; 1.8 mm thick", "T03", "stock body leather", "stock body: leather; 1.8 mm thick"),
    ("stock body: leather 1.8 mm thick", "T03", "leather 1.8 mm", "stock body: leather; 1.8 mm thick"),
    ("stock body: leather; thickness 2 mm", "T10", "thickness 2 mm", "stock body: leather; 2 mm thick"),
    ("stock body: leather; 4 oz", "T03", "4 oz", "stock body: leather; 4 oz thick"),
    ("stock body: leather; 2 mm", "T02", "2 mm", "stock body: leather; 2 mm thick"),
    ("hardware buckle: 1", "T03", "1", "hardware buckle: need 1"),
    ("piece back cut 1 from body", "T03", "piece back cut", "piece back: cut 1 from body"),
    ("piece back; cut 1 from body", "T18", ";", "piece back: cut 1 from body"),
    ("piece back: cut 1 from body, grain any", "T18", ",", "piece back: cut 1 from body; grain any"),
    ("piece back: cut 1 from body grain any", "T03", None, "piece back: cut 1 from body; grain any"),
    ("use blocks/strap.draft", "T17", "blocks/strap.draft", 'use "blocks/strap.draft"'),
    ("join a.edge b.edge", "T03", "join a.edge b", "join a.edge with b.edge"),
    ("join a.edge and b.edge", "T18", "and", "join a.edge with b.edge"),
    ("fit rim back.edge stitch whole", "T03", "fit rim back", "fit rim so back.edge stitch whole"),
    ("step Glue it", "T17", "Glue it", 'step "Glue it"'),
    ('step "Glue" front', "T03", 'step "Glue" front', 'step "Glue" uses front'),
    ("block part wide, lap", "T01", "wide", "block part(wide, lap)"),
    ('size "large": as writen', "T03", "as writen", 'size "large": as written'),
    ('size "large":', "T02", ":", 'size "large": as written'),
    ("stock body: leather; foo", "T02", "foo", "stock body: leather; 2 mm thick"),
    ("piece back: foo", "T01", "foo", "piece back: like foo"),
    ("measure w = max(1 mm; 2 mm)", "T18", ";", "measure w = max(1 mm, 2 mm)"),
    ("measure w = max()", "T01", ")", "measure w = max(1 mm, 2 mm)"),
    ('pattern\n  edition "1"', "T02", "pattern", 'pattern "x"\n  edition "1"'),
    ('pattern "x"\n  edition 1', "T17", "1", 'pattern "x"\n  edition "1"'),
    ('pattern "x"\n  show km', "T01", "km", 'pattern "x"\n  show mm'),
    ('pattern "x"\n  point p: at (0, 0)', "T43", "point", None),
    ('piece a\n  edition "1"', "T47", "edition", None),
    ("¿", "T28", "¿", ""),
    ("piece a\n  guide g: at", "T02", "at", "piece a\n  guide g: at p"),
    ("piece a\n  points p: steps", "T02", "steps", "piece a\n  points p: steps 3 mm"),
    ("12 mm above foot", "T46", "12 mm", None),
    ("show mm", "T47", "show", None),
    ("point p: at (0, 0)", "T43", "point", None),
    ('measure w = 4 mm\npattern "late"', "T45", "pattern", None),
    ('pattern "x"\n  edition "1"\n  edition "2"', "T48", 'edition "2"', 'pattern "x"\n  edition "1"'),
]


def messages_of(text: str) -> list[Message]:
    return list(parse(Source("slip.draft", text))[1])


def check(text: str, code: str, place: str | None, mended: str | None) -> None:
    """One message of that code and place; what it says to type is part of the mended text, and that has no slip."""
    found = messages_of(text)
    assert code in [message.code for message in found], [message.says for message in found]
    message = next(message for message in found if message.code == code)
    assert message.at is not None
    if place is not None:
        assert message.at.text == place
    assert len(message.says + message.mend) < LONGEST_MESSAGE
    if mended is None:
        return
    assert messages_of(mended) == []


@pytest.mark.parametrize(
    ("line", "code", "place", "mended"), IN_A_PIECE, ids=[case[0][:40] for case in IN_A_PIECE]
)
def test_a_slip_in_a_piece(line: str, code: str, place: str | None, mended: str | None) -> None:
    whole = None if mended is None else f"{PIECE}  {mended}\n"
    check(f"{PIECE}  {line}\n", code, place, whole)
    others = {message.code for message in messages_of(f"{PIECE}  {line}\n")}
    assert others == {code}


@pytest.mark.parametrize(
    ("text", "code", "place", "mended"), IN_A_PATTERN, ids=[case[0][:40] for case in IN_A_PATTERN]
)
def test_a_slip_in_a_pattern(text: str, code: str, place: str | None, mended: str | None) -> None:
    check(text, code, place, mended)
    assert {message.code for message in messages_of(text)} == {code}


TYPED = re.compile(r"Write `([^`…]*)`\.$")


@pytest.mark.parametrize(
    ("line", "mended"),
    [(line, mended) for line, _, _, mended in IN_A_PIECE if mended is not None],
    ids=[case[0][:40] for case in IN_A_PIECE if case[3] is not None],
)
def test_a_mend_that_can_be_typed_is_in_the_mended_line(line: str, mended: str) -> None:
    for message in messages_of(f"{PIECE}  {line}\n"):
        typed = TYPED.search(message.mend)
        if typed and "for instance" not in message.mend:
            assert typed[1] in mended


def test_one_run_tells_every_independent_slip() -> None:
    """Slips in clauses, statements and pieces are all told, and what has none is all there."""
    text = """\
pattern "Net store board"
measure rim: 8 mm
stock body leather; 1.8 mm thick
piece back: cut 1 from body
  point foot: at (0, 0)
  point brow 12 mm above foot
  slot eye: length 14 mm; width 4 mm; at foot
  outlien: foot to brow
  point tip: level with foot; 9 mm right of foot
piece front; like back
  point heel: 12 mm right foot
join back.edge front.edge
"""
    file, messages = parse(Source("many.draft", text))
    assert [(message.code, message.at.line) for message in messages if message.at] == [
        ("T18", 2), ("T03", 3), ("T03", 6), ("T10", 7), ("T10", 7), ("T06", 8), ("T18", 10), ("T03", 11), ("T03", 12),
    ]  # fmt: skip
    back, front = (item for item in file.items if type(item).__name__ == "Piece")
    assert [getattr(part, "name", None) and part.name.text for part in back.parts] == [
        "foot",
        "brow",
        None,
        "tip",
    ]
    assert [part.name.text for part in front.parts] == ["heel"]
    assert [(unread.kind, unread.name, unread.piece) for unread in file.unread] == [("slot", "eye", "back")]


def test_a_piece_whose_head_has_a_slip_keeps_its_parts() -> None:
    file, _ = parse(
        Source("head.draft", "piece back: cut one from body; grain any\n  point foot: at (0, 0)\n")
    )
    (piece,) = file.items
    assert piece.name.text == "back"
    assert len(piece.about) == 1
    assert len(piece.parts) == 1
    assert [(unread.kind, unread.name) for unread in file.unread] == [("piece", "back")]


def test_a_piece_that_cannot_be_read_keeps_its_parts() -> None:
    file, _ = parse(Source("head.draft", "piece back 5 mm\n  point foot: at (0, 0)\nmeasure rim = 8 mm\n"))
    assert [type(item).__name__ for item in file.items] == ["Piece", "Measure"]
    assert file.items[0].parts[0].name.text == "foot"


def test_the_bare_number_where_a_length_belongs_is_left_to_kinds() -> None:
    assert messages_of(PIECE + "  point brow: 12 right of foot; at (12, 5)\n  fillet brow by 6\n") == []


def test_every_entry_is_brought_out_here() -> None:
    slips = (
        [f"{PIECE}  {line}\n" for line, *_ in IN_A_PIECE] + [text for text, *_ in IN_A_PATTERN] + LAYOUT_SLIPS
    )
    shown = {message.code for text in slips for message in messages_of(text)}
    assert shown == {entry.code for entry in entries_of(catalogue)}


LAYOUT_SLIPS = [
    PIECE + "      point deep: level with foot\n",
    PIECE + "point flat: level with foot\n",
    PIECE + "  join a.edge with b.edge\n",
    PIECE + "  outline: foot\n  to heel\n",
]


def test_what_is_measured_and_set_is_told_too() -> None:
    found, messages = parse_expression(Source("measured", "front.rim.length +"))
    assert found is None
    assert [message.code for message in messages] == ["T02"]
    values, messages = parse_setting_value(Source("set", "12 inches"))
    assert values is None
    assert [message.mend for message in messages] == ["Write `12 in`."]
    found, messages = parse_expression(Source("measured", ""))
    assert found is None
    assert [message.says for message in messages] == ["This text ends too early: next comes an amount."]
