"""Sheets for a machine: operations on their layers, the kerf on the right side, nothing twice, nothing forgotten."""

from __future__ import annotations

from math import pi

import pytest
from shapely.geometry import LineString, Polygon

from drafting import face
from drafting.craft.lasering import UnfitForLaser
from drafting.drawing.machine import LAYERS, KerfFault, LayerFault, MachineSheet, layers_set
from drafting.drawing.machine.once import Once
from drafting.drawing.machine.work import Work, each_once
from drafting.geometry.arc import Arc
from drafting.geometry.curves import box, circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.proof.machine_sheet import faults_in_sheet, faults_in_template
from tests.drawing.samples import PIERCED, TAG_CORNERS, oblong, placed_text

FERRY = f"""\
pattern "Ferry locker tag"
stock body: leather; 2 mm thick
stock film: sheet; 0.3 mm thick
piece tag: cut 1 pair from body; grain any
{TAG_CORNERS}{PIERCED.format(rounded="", bowed="")}\
  stamp number: at (30 mm, 66 mm); lying level; 5 mm high; text "No 7"
  label side: at (30 mm, 8 mm); lying level; 4 mm high; text "grain side"
piece screen: cut 2 from film; grain any
{oblong(44, 34)}\
"""


@pytest.fixture(scope="module")
def ferry() -> face.PlacedPattern:
    return placed_text(FERRY, "ferry.draft")


def lines_on(sheet: MachineSheet, operation: str) -> list[Path | Ring]:
    groups = [group for group in sheet.drawing.groups if group.title == operation]
    return [stroke.way for group in groups for stroke in group.strokes]


def test_a_sheet_for_each_stock_and_every_copy_on_it(ferry: face.PlacedPattern) -> None:
    body, film = (sheet.sheet for sheet in ferry.cutting())
    assert (body.stock, film.stock) == ("body", "film")
    assert [(one.piece, one.is_turned) for one in body.laid] == [("tag", False), ("tag", True)]
    assert [one.piece for one in film.laid] == ["screen", "screen"]


def test_operations_are_run_from_light_to_the_last_cut(ferry: face.PlacedPattern) -> None:
    """What sets a piece free comes last: openings before outlines."""
    body = ferry.cutting()[0].sheet
    assert [group.title for group in body.drawing.groups] == ["engrave", "punch", "slit", "inner cut", "cut"]
    counts = {
        operation: len(lines_on(body, operation)) for operation in ("punch", "slit", "inner cut", "cut")
    }
    assert counts == {"punch": 6, "slit": 2, "inner cut": 2, "cut": 2}


def test_the_second_of_a_pair_is_turned_over_but_not_its_words(ferry: face.PlacedPattern) -> None:
    body = ferry.cutting()[0].sheet
    strokes = lines_on(body, "engrave")
    first, second = strokes[: len(strokes) // 2], strokes[len(strokes) // 2 :]
    move = second[0].start - first[0].start
    for one, other in zip(first, second, strict=True):
        assert one.moved(move).start.distance_to(other.start) < 1e-9
    slit, turned = lines_on(body, "slit")
    assert slit.start.x < slit.end.x and turned.start.x > turned.end.x


def test_labels_are_engraved_where_they_are_asked_for(ferry: face.PlacedPattern) -> None:
    plain, labelled = (ferry.cutting(labels=labels)[0].sheet for labels in (False, True))
    assert len(lines_on(labelled, "engrave")) > len(lines_on(plain, "engrave"))


def test_outlines_grow_and_openings_shrink_by_half_the_kerf(ferry: face.PlacedPattern) -> None:
    """Against shapely's offset with pointed corners."""
    kerf = 0.4
    body = ferry.cutting(kerf=kerf)[0].sheet
    outline, window = lines_on(body, "cut")[0], lines_on(body, "inner cut")[0]
    drafted = Polygon([(0, 0), (60, 0), (60, 90), (0, 90)])
    assert isinstance(outline, Ring) and isinstance(window, Ring)
    assert outline.area == pytest.approx(drafted.buffer(kerf / 2, join_style="mitre").area, abs=1e-6)
    assert window.area == pytest.approx((40 - kerf) * (30 - kerf), abs=1e-6)
    areas = sorted(way.area for way in lines_on(body, "punch") if isinstance(way, Ring))
    radii = (1 - kerf / 2, 3 - kerf / 2)
    assert areas == pytest.approx([pi * radii[0] ** 2] * 4 + [pi * radii[1] ** 2] * 2, abs=1e-9)
    assert lines_on(body, "slit")[0].length == pytest.approx(
        lines_on(ferry.cutting()[0].sheet, "slit")[0].length
    )


def test_a_kerf_too_wide_names_the_line_and_what_fits(ferry: face.PlacedPattern) -> None:
    with pytest.raises(KerfFault) as told:
        ferry.cutting(kerf=2.5)
    assert told.value.where == "tag.card" and told.value.largest == pytest.approx(2.0, abs=1e-3)


def test_a_laser_is_kept_from_what_it_must_not_cut() -> None:
    vinyl = placed_text(FERRY.replace("0.3 mm thick", '0.3 mm thick "clear PVC"'))
    with pytest.raises(UnfitForLaser, match="hydrogen chloride"):
        vinyl.cutting()
    assert len(vinyl.cutting(cutter="blade")) == 2
    assert [sheet.stock for sheet in vinyl.cutting(["tag"])] == ["body"]


def test_unknown_words_are_named(ferry: face.PlacedPattern) -> None:
    with pytest.raises(face.UnknownName, match="laser"):
        ferry.cutting(cutter="axe")
    with pytest.raises(face.UnknownName, match="screen"):
        ferry.cutting(["scren"])


# Nothing twice


def line(x0: float, y0: float, x1: float, y1: float) -> Path:
    return Path((Line(Point(x0, y0), Point(x1, y1)),))


def ends(ways: list[Path | Ring]) -> list[tuple[float, float, float, float]]:
    return [tuple(round(v, 6) for v in (w.start.x, w.start.y, w.end.x, w.end.y)) for w in ways]  # type: ignore[misc]


@pytest.mark.parametrize(
    ("first", "then", "left"),
    [
        ((0, 0, 10, 0), (0, 0, 10, 0), []),
        ((0, 0, 10, 0), (10, 0, 0, 0), []),
        ((0, 0, 10, 0), (4, 0, 14, 0), [(10, 0, 14, 0)]),
        ((4, 0, 6, 0), (0, 0, 10, 0), [(0, 0, 4, 0), (6, 0, 10, 0)]),
        ((0, 0, 10, 0), (10, 0, 20, 0), [(10, 0, 20, 0)]),
        ((0, 0, 10, 0), (5, -5, 5, 5), [(5, -5, 5, 5)]),
        ((0, 0, 10, 0), (0, 0.001, 10, 0.001), [(0, 0.001, 10, 0.001)]),
    ],
)
def test_what_is_covered_is_run_once(first: tuple, then: tuple, left: list) -> None:
    once = Once()
    assert once.left_of(line(*first))
    found = once.left_of(line(*then))
    assert ends(found) == [tuple(map(float, one)) for one in left]
    whole = LineString([then[:2], then[2:]]).difference(LineString([first[:2], first[2:]]).buffer(1e-9))
    assert sum(way.length for way in found) == pytest.approx(whole.length, abs=1e-6)


def test_arcs_are_run_once_too() -> None:
    once = Once()
    once.left_of(Path((Arc(Point(0, 0), 10, 0.0, pi / 2),)))
    left = once.left_of(circle(Point(0, 0), 10))
    assert [type(way) for way in left] == [Path]
    assert left[0].length == pytest.approx(10 * 1.5 * pi, abs=1e-9)
    assert once.left_of(circle(Point(0, 0), 10)) == []


def test_two_boxes_side_by_side_share_their_line() -> None:
    first, second = box(Point(5, 5), 10, 10), box(Point(15, 5), 10, 10)
    kept = list(each_once([Work("inner cut", "a", first), Work("inner cut", "b", second)]))
    assert sum(one.way.length for one in kept) == pytest.approx(70)
    assert len(kept) == 2


@pytest.mark.parametrize("kerf", [0.0, 0.3])
def test_windows_side_by_side_are_cut_and_proved(kerf: float) -> None:
    """Their common line is run once; with a kerf there are two lines, each in its window."""
    text = (
        FERRY.replace(
            "piece screen", "  opening more: box 10 mm by 30 mm; at (5 mm, 30 mm); lying level\npiece screen"
        )
        .replace("(5 mm, 30 mm)", "(55 mm, 30 mm)")
        .replace("0, 0)\n  point toe: at (60 mm", "0, 0)\n  point toe: at (70 mm")
    )
    placed = placed_text(text.replace("brow: at (60 mm", "brow: at (70 mm"))
    sheet = placed.cutting(["tag"], kerf=kerf)[0].sheet
    assert faults_in_sheet(sheet, placed.placed, ["tag"]) == []
    windows = lines_on(sheet, "inner cut")
    assert sum(way.length for way in windows) == pytest.approx(
        2 * (220 - 30 if kerf == 0 else 220 - 8 * kerf)
    )
    (template,) = (one.template for one in placed.templates(["tag"], kerf=kerf))
    assert template and faults_in_template(template, placed.placed) == []


def test_holes_in_one_place_are_one() -> None:
    work = [Work("punch", "a", circle(Point(3, 4), 2)), Work("stitch", "b", circle(Point(3, 4), 0.5))]
    assert [one.where for one in each_once(work)] == ["a"]


# Layers


def test_layers_are_set_by_name_and_colour() -> None:
    layers = layers_set({"inner-cut": {"name": "HOLES", "color": "#0000FF"}, "cut": {"name": "RIM"}})
    assert (layers["inner cut"].name, layers["inner cut"].color) == ("HOLES", "#0000ff")
    assert layers["cut"].name == "RIM" and layers["slit"] == LAYERS["slit"]


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"drill": {}}, "no operation `drill`"),
        ({"cut": "red"}, "no table"),
        ({"cut": {"colour": "red"}}, "`colour` of `cut`"),
        ({"cut": {"color": "red"}}, "`red` is no colour"),
        ({"cut": {"color": 7}}, "no text"),
        ({"cut": {"name": "a/b"}}, "cannot name"),
        ({"cut": {"name": " "}}, "cannot name"),
        ({"cut": {"name": "Slit"}}, "two operations"),
    ],
)
def test_layers_that_cannot_be_are_told(given: dict[str, object], told: str) -> None:
    with pytest.raises(LayerFault, match=told):
        layers_set(given)
