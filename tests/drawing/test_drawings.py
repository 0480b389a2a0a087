"""What stands on a sheet, read from the drawing as data."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting import face
from drafting.drawing import Drawing, collisions, overview, piece_sheet
from drafting.drawing.footer import UNTOLD, legend_entry
from drafting.drawing.lines import CUT, EXTENSION, FOLD, LINE_KINDS, STITCH, SYMMETRY
from drafting.drawing.spans import LEVEL, Rank, SpanEnd, make_span, past_lines
from drafting.drawing.view import guides_view, uncovered
from drafting.geometry.corners import RoundBy
from drafting.geometry.curves import box, obround
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.solve.placed import Placed, PlacedCorner, PlacedDim, PlacedSlit
from tests.drawing.samples import (
    SAMPLES,
    badge_holder,
    choir_folder,
    crease,
    deck_belt,
    feature,
    hole,
    key_fob,
    lines,
    many_small,
    nothing,
    piece,
    placed,
    polygon,
    rigging_strap,
    rounded,
    row,
    scripts,
    thousand_holes,
    tiny,
    toll_coin,
)
from tests.patterns.starters import starter_path


def words(drawing: Drawing, kind: str) -> list[str]:
    """The words in the groups of a kind."""
    return [lettering.text for group in drawing.find(kind) for lettering in group.letterings]


def fields(drawing: Drawing) -> dict[str, str]:
    """The title block as a table: what is in each field under its label."""
    return {
        group.name: " ".join(line.text for line in group.letterings if line.use == "field")
        for group in drawing.find("field")
    }


@pytest.mark.parametrize("name", SAMPLES)
def test_no_words_on_words_or_lines(name: str) -> None:
    pattern = SAMPLES[name]()
    drawings = [overview(pattern), *(piece_sheet(pattern, name) for name in list(pattern.pieces)[:3])]
    assert [collisions(drawing) for drawing in drawings] == [[] for _ in drawings]


@pytest.mark.parametrize("name", SAMPLES)
def test_nothing_leaves_the_frame(name: str) -> None:
    pattern = SAMPLES[name]()
    for drawing in (overview(pattern), *(piece_sheet(pattern, name) for name in list(pattern.pieces)[:3])):
        frame = drawing.find("frame")[0].bounds
        assert frame is not None
        for group in drawing.groups:
            bounds = group.bounds
            assert bounds is None or (bounds.joined(frame) == frame), group.kind


def test_overview_shows_every_piece_with_its_caption() -> None:
    drawing = overview(badge_holder())
    assert [group.name for group in drawing.find("piece")] == ["front", "back", "screen"]
    assert words(drawing, "caption")[:2] == ["front", "cut 1, body: vegetable-tanned shoulder, 1.8 mm"]
    assert words(drawing, "caption")[-1] == "cut 1, film: clear polyester, grain any"


@pytest.mark.parametrize(("size", "told"), [(200, "cut 1, body"), (12, "cut 1, body, grain plumb")])
def test_overview_tells_the_grain_where_no_arrow_finds_room(size: float, told: str) -> None:
    drawing = overview(placed("plain", [piece("plain", box(Point(0, 0), size, size), grain=90.0)]))
    assert words(drawing, "caption") == ["plain", told]
    assert bool(drawing.find("grain")) == (size == 200)


@pytest.mark.parametrize(
    ("low", "high", "left"),
    [(20, 80, [20, 20]), (-5, 60, [40]), (0, 100, []), (100, 130, [100]), (40, 41, [40, 59])],
)
def test_a_guide_is_drawn_where_no_other_line_lies_on_it(low: float, high: float, left: list[float]) -> None:
    guide = Path(lines([Point(0, 0), Point(100, 0)]))
    parts = uncovered(
        guide, [Path(lines([Point(low, 0), Point(high, 0)])), Path(lines([Point(50, -9), Point(50, 9)]))]
    )
    assert [part.length for part in parts] == pytest.approx(left)


def test_two_guides_on_each_other_are_drawn_once_and_stubs_are_left_out() -> None:
    whole, half, odd = ([Point(0, 0), Point(reach, 0)] for reach in (100, 50, 107))
    guides = {str(index): Path(lines(points)) for index, points in enumerate((whole, half, odd))}
    drawn = guides_view(piece("plain", box(Point(0, 40), 200, 200), guides=guides), 1.0)
    assert [stroke.way.length for stroke in drawn.strokes] == [100]


def test_an_extension_line_begins_past_the_line_it_would_run_along() -> None:
    """The span ends in the middle of one line and at the end of another; a third lies farther on."""
    span = make_span("a..b", "40", LEVEL, SpanEnd(0, 10, 10), SpanEnd(40, 0, 0), Rank.ASKED)
    there = [
        Line(Point(0, 4), Point(0, 30)),
        Line(Point(40, 26), Point(40, 0)),
        Line(Point(40, 50), Point(40, 60)),
    ]
    clear = past_lines(span, there)
    assert (clear.first, clear.last) == (SpanEnd(0, 4, 30), SpanEnd(40, 0, 60))


def test_a_feature_across_the_mirror_line_is_placed_from_it_once() -> None:
    fold = crease("bend", Point(-30, 20), Point(30, 20))
    slit = feature("mouth", "slit", paths=fold.paths)
    slit = replace(slit, work=PlacedSlit(slit.paths[0], ()))
    mirrored = piece("p", box(Point(0, 30), 80, 60), features=[slit], mirror=(Point(0, 0), Point(0, 60)))
    drawing = piece_sheet(placed("mirrored", [mirrored]), "p")
    assert sorted(words(drawing, "dimension")) == ["20", "30", "60", "80"]


def corners_of(points: dict[str, Point]) -> list[PlacedCorner]:
    return [PlacedCorner(name, point, "sharp", 0.0, 0.0, None) for name, point in points.items()]


def test_corners_between_straight_edges_are_placed_from_the_nearer_edge() -> None:
    """A flag with a step: what the overall sizes tell is not told again."""
    points = {"a": Point(0, 0), "b": Point(90, 0), "c": Point(90, 50), "d": Point(30, 50), "e": Point(30, 20),
              "f": Point(0, 20)}  # fmt: skip
    legs = polygon(list(points.values()))
    flag = piece("flag", Ring(legs), corners=corners_of(points))
    told = words(piece_sheet(placed("flag", [flag]), "flag"), "dimension")
    assert sorted(told) == ["20", "30", "50", "90"]


def test_a_corner_of_a_mirrored_piece_is_placed_from_its_twin() -> None:
    """A tag with a nose 30 wide; its rounded shoulders are placed by their sharp points."""
    half = {"heel": Point(40, 0), "brow": Point(40, 60), "snout": Point(15, 90)}
    twins = {f"{name}'": Point(-point.x, point.y) for name, point in reversed(half.items())}
    points = {**half, **twins}
    outline, rounded_corners = rounded(polygon(list(points.values())), {1: RoundBy(8), 4: RoundBy(8)},
                                       {1: "brow", 4: "brow'"})  # fmt: skip
    sharp = [corner for corner in corners_of(points) if not corner.name.startswith("brow")]
    tag = piece("tag", outline, corners=[*sharp, *rounded_corners], mirror=(Point(0, 0), Point(0, 90)))
    told = words(piece_sheet(placed("tag", [tag]), "tag"), "dimension")
    assert sorted(told) == ["30", "30", "80", "90"]


def test_a_corner_on_a_straight_edge_is_not_placed() -> None:
    """Nobody marks a point where an edge goes on straight."""
    points = {
        "a": Point(0, 0),
        "b": Point(60, 0),
        "c": Point(60, 40),
        "mid": Point(30, 40),
        "d": Point(0, 40),
    }
    legs = polygon(list(points.values()))
    plain = piece("plain", Ring(legs), corners=corners_of(points))
    assert sorted(words(piece_sheet(placed("plain", [plain]), "plain"), "dimension")) == ["40", "60"]


def test_overview_dimensions_are_the_overall_ones() -> None:
    assert words(overview(many_small()), "dimension")[:4] == ["1.4", "2.4", "1.9", "2.8"]


def test_pieces_too_large_for_any_paper_are_reduced() -> None:
    drawing = overview(rigging_strap())
    assert (drawing.scale, drawing.sheet) == (1 / 10, "A3")
    assert fields(drawing)["Scale"] == "1:10"
    width = drawing.find("outline")[0].bounds
    assert width is not None and width.width == pytest.approx(300 + 0.5)
    assert sorted(words(drawing, "dimension")) == ["3000", "50"]


def test_a_pattern_without_pieces_says_so() -> None:
    assert words(overview(nothing()), "empty") == ["This pattern has no pieces yet."]


def test_piece_sheets_are_true_to_size_on_paper_that_fits() -> None:
    pattern = badge_holder()
    assert [piece_sheet(pattern, name).sheet for name in pattern.pieces] == ["A4", "A4", "A4"]
    assert piece_sheet(deck_belt(), "belt").sheet == "A4×3"
    strap = piece_sheet(rigging_strap(), "strap")
    assert (
        strap.scale == 1
        and strap.width > 3000
        and strap.sheet == f"{strap.width:.0f} × {strap.height:.0f} mm"
    )


def test_title_block_tells_what_the_pattern_knows_and_leaves_the_rest_blank() -> None:
    block = fields(piece_sheet(badge_holder(), "back"))
    assert block["Title"] == "Ferry crew badge holder"
    assert block["Identification number"] == "badge-holder/back"
    assert (block["Piece"], block["Size"], block["Edition"]) == ("back", "crew card", "1")
    assert (block["Licence"], block["Sheet number"], block["Cut"]) == ("CC BY 4.0", "3", "1 from body")
    assert {name for name, told in block.items() if not told} == {
        "Legal owner", "Approval person", "Date of issue",
    }  # fmt: skip
    assert block["Creator"] == "Guild of the Seven Awls"


def test_a_long_title_is_made_to_fit() -> None:
    title = fields(overview(scripts()))["Title"]
    assert title.startswith("Étui « d'été »")


def test_each_feature_is_placed_from_the_nearer_edge_or_the_mirror_line() -> None:
    """Twins are measured once; 24, 45 and 38 are from the mirror line, 20, 40 and 50 from the lower or upper edge; 72 is
    from the brow to its twin."""
    drawing = piece_sheet(choir_folder(), "cover")
    assert sorted(words(drawing, "dimension")) == sorted(
        ["120", "120", "90", "38.42", "72", "24", "45", "38", "20", "40", "50"]
    )


def test_sizes_are_told_once_with_their_count() -> None:
    told = words(piece_sheet(choir_folder(), "cover"), "note")
    assert sorted(told) == ["2× R 8", "2× clip 5 × 9", "2× opening 18 × 12, R 2", "2× slot 16 × 4", "2× ⌀3"]


def test_rows_slots_folds_and_notes_are_told() -> None:
    told = words(piece_sheet(deck_belt(), "belt"), "note")
    assert {"7× ⌀4, 25 apart", "slot 28 × 6", "fold, round the bar", "2× R 3", "2× R 49.41"} == set(told)


def test_the_makers_dimension_carries_its_note() -> None:
    assert "size: 360" in words(piece_sheet(deck_belt(), "belt"), "dimension")


def test_no_small_dimension_drives_a_larger_one_through_the_piece() -> None:
    """The badge holder's nose is dimensioned beside it, though half of the slit is shorter and comes first."""
    drawing = face.load(starter_path("badge-holder")).place().drawing("back").drawing
    (nose,) = [group for group in drawing.find("dimension") if group.title == "34 [1.339]"]
    reaches = [stroke.way.length for stroke in nose.strokes if stroke.kind is EXTENSION]
    assert len(reaches) == 2 and max(reaches) < 20.0


def test_what_the_maker_dimensions_is_not_dimensioned_again() -> None:
    """His own note stands on it; here it is the whole width, and a hole's place."""
    dims = [
        PlacedDim(Point(0, 0), Point(90, 0), "level", "west", "east", "body"),
        PlacedDim(Point(0, 0), Point(20, 30), "level", "west", "eye", None),
    ]
    body = piece("p", box(Point(45, 30), 90, 60), features=[hole("eye", Point(20, 30), 4)], dims=dims)
    drawing = piece_sheet(placed("p", [body]), "p")
    assert sorted(words(drawing, "dimension")) == ["20", "30", "60", "body: 90"]


def test_a_disc_is_told_by_its_diameter() -> None:
    drawing = piece_sheet(toll_coin(), "disc")
    assert "⌀96" in words(drawing, "note") and "6× ⌀3" in words(drawing, "note")
    assert "96" not in words(drawing, "dimension")


def test_inches_alone() -> None:
    drawing = piece_sheet(key_fob(), "fob")
    assert "3.386" in words(drawing, "dimension") and "⌀0.197" in words(drawing, "note")
    assert [group.name for group in drawing.find("check-bar")] == ["100 mm", "4 in"]


def test_every_sheet_has_a_bar_of_100_mm() -> None:
    for drawing in (overview(tiny()), piece_sheet(tiny(), "bit"), overview(rigging_strap())):
        bar = next(drawing.find("check-bar", "100 mm")[0].strokes)
        assert bar.way.length == pytest.approx(100)
        cautions = " ".join(words(drawing, "wording"))
        assert "Check the 100 mm bar with a rule before cutting." in cautions
        assert "Cut away from your hands" in cautions


def test_small_pieces_have_small_figures() -> None:
    heights = {
        name: {
            lettering.height
            for group in piece_sheet(pattern, name).find("dimension")
            for lettering in group.letterings
        }
        for pattern, name in ((tiny(), "bit"), (badge_holder(), "back"))
    }
    assert heights == {"bit": {2.5}, "back": {3.5}}


def test_legend_explains_the_kinds_of_line_on_the_sheet_and_no_others() -> None:
    def kinds(pattern: Placed, name: str) -> set[str]:
        return {group.name for group in piece_sheet(pattern, name).find("legend-entry")}

    assert kinds(tiny(), "bit") == {"cut"}
    assert kinds(deck_belt(), "belt") == {"cut", "fold", "stitch", "symmetry", "marking"}


def test_no_two_kinds_of_line_in_a_legend_look_alike() -> None:
    """Each has its own ISO 128 type, and a sample of its own: in black and white nothing else tells them apart."""
    entries = [legend_entry(kind, 0.0, 0.0) for kind in LINE_KINDS if kind.name not in UNTOLD]
    looks = [
        tuple((stroke.kind.width, stroke.kind.dashes, stroke.way.length) for stroke in entry.strokes)
        for entry in entries
    ]
    assert len(looks) > 8 and len(set(looks)) == len(looks)


def test_a_draft_says_so_on_every_sheet() -> None:
    """In letters of 10 mm above the drawing, and in its title; the room for it is found, so nothing overlaps."""
    for make in (badge_holder, rigging_strap, nothing, tiny):
        pattern = make()
        drawings = [overview(pattern, draft=True)]
        drawings += [piece_sheet(pattern, name, draft=True) for name in pattern.pieces]
        for drawing in drawings:
            (banner,) = drawing.find("draft")
            assert [(line.text, line.height) for line in banner.letterings] == [("DRAFT – not checked", 10.0)]
            assert drawing.title.startswith("DRAFT, not checked: ")
            assert collisions(drawing) == []
    assert piece_sheet(tiny(), "bit").find("draft") == []


def test_remarks_stand_in_the_notes_of_the_sheet() -> None:
    remarks = ["R07 allowed: the lock is drawn over the seam.", "Keep small parts away from children."]
    for drawing in (overview(tiny(), remarks=remarks), piece_sheet(tiny(), "bit", remarks=remarks)):
        assert [line for line in words(drawing, "wording") if line in remarks] == remarks


def test_features_are_drawn_in_their_kinds_of_line() -> None:
    drawing = piece_sheet(deck_belt(), "belt")
    kinds = {group.name: {stroke.kind for stroke in group.strokes} for group in drawing.find("feature")}
    assert kinds["tongue"] == kinds["holes"] == {CUT}
    assert (kinds["crook"], kinds["seam"]) == ({FOLD}, {STITCH})
    assert {stroke.kind for stroke in drawing.find("symmetry")[0].strokes} == {SYMMETRY}


def test_the_mirror_line_stops_for_words() -> None:
    """The stamp of the belt stands across the mirror line and is lettered as large as its box allows."""
    drawing = piece_sheet(deck_belt(), "belt")
    assert len(list(drawing.find("symmetry")[0].strokes)) == 2
    assert [lettering.text for lettering in drawing.find("inscription")[0].letterings] == ["No. 14"]


def test_a_label_without_a_box_has_the_height_that_was_asked_for() -> None:
    """It stands on the mirror line, which stops for it, and reads as it lies."""
    words_there = feature(
        "face", "label", center=Point(40, 0), direction=90.0, sizes={"high": 6.0}, text="grain side"
    )
    mirror = (Point(0, 0), Point(80, 0))
    drawing = piece_sheet(
        placed("face", [piece("f", box(Point(40, 0), 80, 60), features=[words_there], mirror=mirror)]), "f"
    )
    label = next(drawing.find("inscription")[0].letterings)
    assert (label.height, label.angle) == (6.0, pytest.approx(90))
    assert len(list(drawing.find("symmetry")[0].strokes)) == 2
    assert collisions(drawing) == []


def test_a_label_across_a_crease_moves_off_it_or_goes_on_a_leader() -> None:
    there = [
        feature("name", "label", center=Point(0, 0), direction=0.0, sizes={"high": 5.0}, text="left side"),
        crease("fold", Point(-60, 0), Point(60, 0)),
        crease("other", Point(-60, 3), Point(60, 3)),
        crease("third", Point(-60, -3), Point(60, -3)),
    ]
    drawing = piece_sheet(placed("label", [piece("p", box(Point(0, 0), 120, 60), features=there)]), "p")
    assert collisions(drawing) == []
    assert "left side" in [lettering.text for lettering in drawing.letterings]


def test_grain_that_finds_no_place_is_told_in_words() -> None:
    drawing = piece_sheet(placed("chip", [piece("chip", box(Point(0, 0), 9, 9), grain=30.0)]), "chip")
    assert drawing.find("grain") == []
    assert "The grain lies at 30 deg." in words(drawing, "wording")


def test_notches_rows_and_free_openings_tell_their_sizes() -> None:
    line = Path(lines([Point(20, 50), Point(20, 48)]))
    there = [
        feature("n", "notch", center=Point(0, 50), sizes={"deep": 3.0, "wide": 8.0}),
        feature(
            "m",
            "notch",
            center=Point(20, 50),
            paths=[line],
            sizes={"deep": 2.0},
        ),
        row("one", Point(0, 20), 5, 11, 3),
        row("two", Point(0, -20), 5, 11, 3),
        feature("grip", "opening", rings=[obround(Point(0, -38), 40, 8)]),
    ]
    told = words(
        piece_sheet(placed("told", [piece("t", box(Point(0, 0), 100, 100), features=there)]), "t"), "note"
    )
    assert sorted(told) == [
        "2× (5× ⌀3, 11 apart)",
        "notch 2 deep",
        "notch 8 × 3 deep",
        "opening 40 × 8 over all",
    ]


def test_the_grain_lies_on_leather_and_not_in_the_window() -> None:
    drawing = piece_sheet(badge_holder(), "front")
    sign = drawing.find("grain")[0]
    window = drawing.find("feature", "view")[0].bounds
    assert sign.bounds is not None and window is not None and not sign.bounds.overlaps(window)
    assert next(sign.letterings).angle == pytest.approx(90)


def test_words_read_from_below_or_from_the_right() -> None:
    for make in SAMPLES.values():
        pattern = make()
        for name in list(pattern.pieces)[:2]:
            for group in piece_sheet(pattern, name).find("dimension"):
                assert all(-90 < lettering.angle <= 90 for lettering in group.letterings)


def test_five_hundred_holes_are_drawn_and_told_together() -> None:
    drawing = piece_sheet(thousand_holes(), "strainer")
    assert len(drawing.find("feature")) == 500
    assert words(drawing, "note") == ["500× ⌀2"]
    assert "more places of features" in " ".join(words(drawing, "wording"))


def test_the_same_pattern_gives_the_same_drawing() -> None:
    assert piece_sheet(badge_holder(), "front") == piece_sheet(badge_holder(), "front")
    assert overview(scripts()) == overview(scripts())
