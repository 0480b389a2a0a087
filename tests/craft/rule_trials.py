"""Small patterns in which one rule of the workshop is tried: a measure `x` that breaks it, and the nearest that keeps it.

Each is tried with straight edges; where its shape allows, beside a curved edge and on a half with its twin too. A piece
is called `part`, and stands for whatever is judged; what else the item needs stands beside it.
"""

from __future__ import annotations

from dataclasses import dataclass

PLATE = """\
  point mid: at (0, 0)
  outline: box 100 mm by 80 mm; at mid
"""
DISC = """\
  point mid: at (0, 0)
  outline: 100 mm across; at mid
"""
HALF = """\
  point foot: at (0, -40 mm)
  point top: at (0, 40 mm)
  point heel: at (50 mm, -40 mm)
  point brow: at (50 mm, 40 mm)
  point mid: at (25 mm, 0)
  outline: foot to heel to brow to top
  run side: from heel to brow
"""
STRAP = """\
  point butt: at (0, 0)
  point crook: at (30 mm, 0)
  point tip: at (150 mm, 0)
  point side: at (0, 10 mm)
  point corner: at (150 mm, 10 mm)
  outline: butt to side to corner to tip
  fold bar: plumb through crook; bent 180 deg round 2.5 mm
"""
BOWED_STRAP = STRAP.replace("corner to tip", "corner to tip bowed out 2 mm")
ROW = "  row sizes: at {at}; lying level; {count} holes; 12 mm apart; 3 mm across\n"
SEAM = "  point a: at ({x0} mm, {y})\n  point b: at ({x1} mm, {y})\n"

BODY = "stock body: leather; 2 mm thick\n"
CUT = "cut 1 from body; grain any"
MIRRORED = "cut 1 from body; mirrored over foot..top; grain any"
STRAPPED = "cut 1 from body; mirrored over butt..tip; grain level"
BUCKLE = BODY + "hardware buckle: need 1; 20.5 mm inside; 3 mm prong; on part\n"
CARD = BODY + 'content card: "ID-1 card"; lying level; inside part.view\n'
CARDS = BODY + 'content card: "ID-1 card"; 4 of them; 2 mm ease; lying level; inside part.seam\n'
FILM = BODY + "stock film: sheet; 0.3 mm thick\n"


@dataclass(frozen=True)
class Trial:
    """`shape` tells how the edge is: straight, curved, or a half with its twin."""

    code: str
    shape: str
    breaks: str
    keeps: str
    body: str
    head: str = CUT
    before: str = BODY
    after: str = ""

    @property
    def name(self) -> str:
        return f"{self.code} {self.shape}"

    def text(self, x: str, body_more: str = "", before: str = "", sizes: str = "") -> str:
        """The pattern with a piece of its own."""
        piece = f"piece part: {self.head}\n{self.body}{body_more}"
        return f"{before}measure x = {x}\n{sizes}{self.before}{piece}{self.after}"

    def as_block(self, x: str) -> str:
        """The same drafted in a block; two pieces are made from it."""
        pieces = f"piece part: like made; {self.head}\npiece other: like made; {self.head}\n"
        return f"measure x = {x}\n{self.before}block made(x = {x})\n{self.body}{pieces}{self.after}"


def _shapes(
    code: str,
    breaks: str,
    keeps: str,
    feature: str,
    *,
    curved: str | None = None,
    twin: str | None = None,
    before: str = BODY,
    after: str = "",
) -> list[Trial]:
    """The same feature on a plate, on a disc, and on a half; each where it means something."""
    trials = [Trial(code, "straight", breaks, keeps, PLATE + feature, CUT, before, after)]
    if curved is not None:
        trials.append(Trial(code, "curved", breaks, keeps, DISC + curved, CUT, before, after))
    if twin is not None:
        trials.append(Trial(code, "twin", breaks, keeps, HALF + twin, MIRRORED, before, after))
    return trials


def _slits(code: str, breaks: str, keeps: str, feature: str) -> list[Trial]:
    """A slit from the middle, and on a half from beside it, so far that it nears the edge."""
    whole, half = SLIT.format(a="0", b="x") + feature, SLIT.format(a="20 mm", b="x") + feature
    return _shapes(code, breaks, keeps, whole, curved=whole, twin=half)


def _line(x0: int, x1: int, y: str, spacing: str) -> str:
    return SEAM.format(x0=x0, x1=x1, y=y) + f"  stitch seam: a to b; {spacing}\n"


def _pane(x: str, wide: str) -> str:
    return f"piece pane: over part; cut 1 from film\n  outline: box {x} by {wide}; at part.mid\n"


VIEW = "  opening view: box 40 mm by 40 mm; at mid; lying level\n"
AROUND = "  stitch seam: x inside outline; 60 stitches\n"
AROUND_DISC = "  stitch seam: x inside outline; 60 stitches; start at outline.top\n"
BESIDE = "  stitch seam: x inside side; 16 stitches; 8 mm short\n"
SLIT = "  point a: at ({a}, 0)\n  point b: at ({b}, 0)\n"
UNDER = "piece under: like part; cut 1 from body\njoin part.seam with under.seam\n"
SOLE = "stock body: leather; 4 mm thick\n"
THREAD = BODY + "thread waxed: 0.6 mm thick\n"
SKIN = "stock body: leather; 1 mm thick\n"
HEM = "  run head: from top_right to top_left\n"
HOLDS = (
    "  stitch upper: plumb through sewn; 4 stitches; 4 mm short\n  stitch under: mirror of upper over bar\n"
)
TONGUE = "  slot tongue: at {at}; 26 mm long; {wide} wide; lying level\n"
STRIP = (
    "piece strip: cut 1 from body; grain level\n  outline: box 120 mm by 14 mm\npass strip through part.eye\n"
)


def _strap(
    code: str, breaks: str, keeps: str, more: str, before: str = BUCKLE, shape: str = "straight"
) -> Trial:
    body = STRAP if shape == "straight" else BOWED_STRAP
    return Trial(code, shape, breaks, keeps, body + more, STRAPPED, before)


def _straps(code: str, breaks: str, keeps: str, more: str) -> list[Trial]:
    return [_strap(code, breaks, keeps, more, shape=shape) for shape in ("straight", "curved")]


def _band(
    code: str, breaks: str, keeps: str, before: str, head: str = "cut 1 from body; grain level"
) -> list[Trial]:
    """A plain strip, one with a round tip, and one of which a half is drafted."""
    tip = """\
  point a: at (0, 0)
  point b: at (110 mm, 0)
  point c: at (110 mm, x)
  point d: at (0, x)
  outline: a to b to c bowed out 8 mm to d
"""
    half = """\
  point foot: at (0, 0)
  point top: at (120 mm, 0)
  point heel: at (0, x/2)
  point brow: at (120 mm, x/2)
  outline: foot to heel to brow to top
"""
    mirrored = head.replace("grain", "mirrored over foot..top; grain")
    return [
        Trial(code, "straight", breaks, keeps, "  outline: box 120 mm by x\n", head, before),
        Trial(
            code,
            "curved",
            breaks,
            keeps,
            tip.replace("to c bowed out 8 mm", "to c bowed right 8 mm"),
            head,
            before,
        ),
        Trial(code, "twin", breaks, keeps, half, mirrored, before),
    ]


RING = BODY + "hardware ring: need 1; 20 mm inside; on part\n"

TRIALS: list[Trial] = [
    *_shapes("R01", "1.9 mm", "2 mm", AROUND, curved=AROUND_DISC, twin=BESIDE),
    *_shapes("R02", "6.1 mm", "6 mm", AROUND, curved=AROUND_DISC, twin=BESIDE),
    *_shapes("R03", "3.9 mm", "4 mm", AROUND, curved=AROUND_DISC, twin=BESIDE, before=SOLE, after=UNDER),
    *_shapes(
        "R04",
        "44.1 mm",
        "44 mm",
        "  hole eye: at (x, 0); 4 mm across\n",
        curved="  hole eye: at (x, 0); 4 mm across\n",
        twin="  hole eye: at (x, 0); 4 mm across\n",
    ),
    *_shapes(
        "R05",
        "7.9 mm",
        "8 mm",
        "  hole eye: at mid; 4 mm across\n  hole pin: at (x, 0) from mid; 4 mm across\n",
        curved="  row few: at mid; lying level; 3 holes; x apart; 4 mm across\n",
        twin="  hole eye: at (x/2, 0); 4 mm across\n",
    ),
    Trial(
        "R06",
        "straight",
        "3.9 mm",
        "4 mm",
        "  outline: box 100 mm by 80 mm; x rounded\n  stitch seam: 4 mm inside outline; 80 stitches; start at outline.top\n",
    ),
    Trial(
        "R06",
        "twin",
        "3.9 mm",
        "4 mm",
        HALF.replace("  run side: from heel to brow\n", "")
        + "  fillet brow by x\n  stitch seam: 4 mm inside from heel round brow to top; 40 stitches\n",
        MIRRORED,
    ),
    *_shapes(
        "R07",
        "4.1 mm",
        "4 mm",
        "  notch half: at outline.top; x deep\n  stitch seam: 5 mm inside outline; 60 stitches\n",
        curved="  notch half: at outline.top; x deep\n  stitch seam: 5 mm inside outline; 60 stitches; start at outline.left\n",
        twin="  notch half: midway heel..brow; x deep\n  stitch seam: 5 mm inside side; 16 stitches; 8 mm short\n",
    ),
    *_shapes(
        "R08",
        "34.1 mm",
        "34 mm",
        "  slot eye: at (0, x); 14 mm long; 4 mm wide; lying level\n",
        curved="  slot eye: at (x + 5 mm, 0); 14 mm long; 4 mm wide; lying level\n",
        twin="  slot eye: at (25 mm, x); 14 mm long; 4 mm wide; lying level\n",
    ),
    *_slits("R09", "45.1 mm", "45 mm", "  slit mouth: a to b; end holes 2 mm\n"),
    *_shapes(
        "R10",
        "4.4 mm",
        "4.5 mm",
        _line(-30, 30, "x", "20 stitches") + "  slot eye: at mid; 14 mm long; 4 mm wide; lying level\n",
        curved="  stitch seam: 32 mm - x inside outline; 20 stitches; start at outline.right\n"
        "  opening eye: 40 mm across; at mid\n",
        twin=_line(10, 40, "x", "10 stitches") + "  slot eye: at mid; 14 mm long; 4 mm wide; lying level\n",
    ),
    *_slits("R11", "49.9 mm", "50 mm", "  hole pin: at a; 3 mm across\n  slit mouth: a to b\n"),
    *_shapes(
        "R12",
        "7.9 mm",
        "8 mm",
        "  slot eye: at mid; 14 mm long; 4 mm wide; lying level\n"
        "  slot way: at (0, x) from mid; 14 mm long; 4 mm wide; lying level\n",
        curved="  opening eye: 4 mm across; at mid\n  opening way: 4 mm across; at (0, x) from mid\n",
        twin="  slot eye: at (x/2, 0); 14 mm long; 4 mm wide; lying plumb\n",
    ),
    *_band("R14", "20.1 mm", "20 mm", RING),
    *_band("R15", "18.9 mm", "19 mm", RING),
    *_shapes(
        "R16",
        "13.9 mm",
        "14 mm",
        "  slot eye: at mid; x long; 4 mm wide; lying level\n",
        twin="  slot eye: at mid; x long; 4 mm wide; lying level\n",
        after=STRIP,
    ),
    *_straps("R17", "52.1 mm", "52 mm", "  point sewn: at (6 mm + x, 0)\n" + HOLDS),
    *_straps(
        "R18",
        "52.9 mm",
        "53 mm",
        "  point sewn: at (x, 0)\n" + TONGUE.format(at="crook", wide="4 mm") + HOLDS,
    ),
    *_straps("R19", "31.1 mm", "31 mm", "  point eye: at (x, 0)\n" + TONGUE.format(at="eye", wide="4 mm")),
    *_straps("R20", "3.9 mm", "4 mm", TONGUE.format(at="crook", wide="x")),
    *_straps("R21", "4", "5", "  point far: at (100 mm, 0)\n" + ROW.format(at="far", count="x")),
    *[
        Trial(
            "R22",
            shape,
            "0.51 mm",
            "0.5 mm",
            outline + "  point far: at (40 mm, x)\n" + ROW.format(at="far", count=5),
            "cut 1 from body; grain level",
            BUCKLE,
        )
        for shape, outline in (
            ("straight", "  outline: box 160 mm by 20 mm\n"),
            (
                "curved",
                "  outline: a to b to c bowed right 8 mm to d\n  point a: at (-60 mm, -10 mm)\n"
                "  point b: at (80 mm, -10 mm)\n  point c: at (80 mm, 10 mm)\n  point d: at (-60 mm, 10 mm)\n",
            ),
        )
    ],
    *_shapes(
        "R23", "54 mm", "53.98 mm", "  opening view: box 80 mm by x; at mid; lying level\n", before=CARD
    ),
    *_shapes(
        "R24", "50 mm", "49.98 mm", "  opening view: box 80 mm by x; at mid; lying level\n", before=CARD
    ),
    *_shapes("R25", "39.9 mm", "40 mm", VIEW, curved=VIEW, before=FILM, after=_pane("x", "60 mm")),
    *_shapes("R26", "45.9 mm", "46 mm", VIEW, curved=VIEW, before=FILM, after=_pane("x", "60 mm")),
    *_shapes(
        "R27",
        "58.1 mm",
        "58 mm",
        VIEW + _line(-20, 20, "30 mm", "20 stitches"),
        curved="  opening view: 40 mm across; at mid\n  stitch seam: 20 mm inside outline; 60 stitches; start at outline.top\n",
        before=FILM,
        after="piece pane: over part; cut 1 from film\n  outline: x across; at part.mid\n",
    ),
    Trial(
        "R28",
        "straight",
        "96.5 mm",
        "96.64 mm",
        "  outline: box x by 80 mm\n  stitch seam: 3 mm inside outline; 80 stitches\n",
        before=CARDS,
    ),
    Trial(
        "R28",
        "twin",
        "96.5 mm",
        "96.64 mm",
        HALF.replace("(50 mm", "(x/2")
        + "  stitch seam: 3 mm inside from foot round heel to brow; 40 stitches\n",
        MIRRORED,
        before=CARDS,
    ),
    Trial(
        "R29",
        "straight",
        "57 mm",
        "57.02 mm",
        PLATE + SLIT.format(a="-x/2", b="x/2") + "  slit mouth: a to b; end holes 2 mm\n",
        before=BODY + 'content card: "ID-1 card"; 4 of them; lying level; inside part through part.mouth\n',
    ),
    Trial(
        "R29",
        "twin",
        "57 mm",
        "57.02 mm",
        HALF + "  point a: at (0, 0)\n  point b: at (x/2, 0)\n  slit mouth: a to b; end holes 2 mm\n",
        MIRRORED,
        before=BODY + 'content card: "ID-1 card"; 4 of them; lying level; inside part through part.mouth\n',
    ),
    *_shapes(
        "R30",
        "2.3 mm",
        "2.4 mm",
        _line(-30, 30, "0", "x apart"),
        curved="  stitch seam: 5 mm inside outline; x apart; start at outline.top\n",
        twin=_line(10, 40, "0", "x apart"),
        before=THREAD,
    ),
    *_shapes(
        "R31",
        "21.9 mm",
        "22 mm",
        "  point a: at (0, 0)\n  point b: at (x, 0)\n  stitch seam: a to b; 4 mm apart\n",
        twin="  point a: at (10 mm, 0)\n  point b: at (10 mm + x, 0)\n  stitch seam: a to b; 4 mm apart\n",
    ),
    Trial("R32", "straight", "80 mm", "79.9 mm", "  outline: box x by 20 mm\n", "cut 1 from body"),
    Trial(
        "R32",
        "curved",
        "80 mm",
        "79.9 mm",
        "  point a: at (0, 0)\n  point b: at (x - 4 mm, 0)\n  point c: at (x - 4 mm, 15 mm)\n  point d: at (0, 15 mm)\n"
        "  outline: a to b to c bowed right 4 mm to d\n",
        "cut 1 from body",
    ),
    Trial(
        "R32",
        "twin",
        "80 mm",
        "79.9 mm",
        "  point foot: at (0, 0)\n  point top: at (x, 0)\n  point heel: at (0, 10 mm)\n  point brow: at (x, 10 mm)\n"
        "  outline: foot to heel to brow to top\n",
        "cut 1 from body; mirrored over foot..top",
    ),
    Trial(
        "R33",
        "straight",
        "5.8 mm",
        "5.77 mm",
        "  point a: at (0, 0)\n  point b: at (10 mm, x)\n  outline: box 120 mm by 20 mm; at a\n",
        "cut 1 from body; grain a..b",
    ),
    *_shapes(
        "R34",
        "1.9 mm",
        "2 mm",
        "  fold spine: plumb through mid; bent 180 deg round x\n",
        curved="  fold spine: plumb through mid; bent 180 deg round x\n",
        twin="  fold spine: plumb through mid; bent 180 deg round x\n",
    ),
    *_shapes(
        "R35",
        "1.3 mm",
        "1.2 mm",
        HEM + "  turn hem: 9 mm outside head\n",
        curved="  turn hem: 9 mm outside outline\n",
        twin="  turn hem: 9 mm outside side\n",
        before="stock body: leather; x thick\n",
    ),
    *_shapes(
        "R36",
        "7.9 mm",
        "8 mm",
        HEM + "  turn hem: x outside head\n",
        curved="  turn hem: x outside outline\n",
        twin="  turn hem: x outside side\n",
        before=SKIN,
    ),
    *_shapes(
        "R37",
        "2.61 mm",
        "2.6 mm",
        "  hole eye: at mid; x across\n",
        curved="  row few: at mid; lying level; 3 holes; 12 mm apart; x across\n",
        twin="  hole eye: at mid; x across\n",
        before=BODY + "punch no_2: 2.5 mm across\n",
    ),
]
