"""Shapes that are read by the grammar of SVG measure as svgelements reads them; what is not read is refused."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.drawing import piece_sheet
from drafting.output.svg import to_svg
from drafting.proof import check_svg
from drafting.proof.expected import Measures
from drafting.proof.read_svg import read_svg
from drafting.proof.svg_curves import corners_of, first_steps, measure_shape, path_of
from drafting.proof.svg_shapes import corners, measure, pricks
from tests.drawing.samples import deck_belt

LENGTHS = st.integers(-9_000_000, 9_000_000).map(lambda length: length / 10_000)
PLACES = st.tuples(LENGTHS, LENGTHS)


def same(one: Measures, other: Measures) -> None:
    assert one.length == pytest.approx(other.length, abs=1e-6)
    assert one.area == (other.area if other.area is None else pytest.approx(other.area, abs=1e-3))
    assert one.box == pytest.approx(other.box, abs=1e-6)


@settings(max_examples=25)
@given(PLACES, st.integers(1, 900_000).map(lambda radius: radius / 10_000))
def test_a_circle(center: tuple[float, float], radius: float) -> None:
    shape = {"cx": f"{center[0]:.4f}", "cy": f"{center[1]:.4f}", "r": f"{radius:.4f}"}
    same(measure("circle", shape), measure_shape(path_of("circle", shape)))


@settings(max_examples=25)
@given(st.lists(PLACES, min_size=2, max_size=6, unique=True), st.booleans())
def test_straight_steps(places: list[tuple[float, float]], is_closed: bool) -> None:
    drawn = "M " + " L ".join(f"{x:.4f},{y:.4f}" for x, y in places) + (" Z" if is_closed else "")
    same(measure("path", {"d": drawn}), measure_shape(path_of("path", {"d": drawn})))
    assert corners(drawn) == corners_of(drawn) == (places, is_closed)
    ticks = "".join(f"M{x},{y}L{y},{x}" for x, y in places)
    assert list(pricks({"d": ticks})) == list(first_steps(path_of("path", {"d": ticks})))


@settings(max_examples=25)
@given(st.lists(PLACES, min_size=1, max_size=6), st.sampled_from([0.15, 0.4, 1.25]))
def test_dots_of_two_halves(places: list[tuple[float, float]], half: float) -> None:
    turns = [f"a{half} {half} 0 0 1 {sign}{2 * half} 0" for sign in ("", "-")]
    drawn = "".join(f"M{x:.4f},{y:.4f}{''.join(turns)}z" for x, y in places)
    found = list(pricks({"d": drawn}))
    assert found == [((x, -y), (pytest.approx(x + 2 * half), -y)) for x, y in places]
    wanted = list(first_steps(path_of("path", {"d": drawn})))
    assert [end for ends in found for end in ends] == [pytest.approx(end) for ends in wanted for end in ends]


@pytest.mark.parametrize("other", ["0.3 0.3 0 0 1 -0.8 0", "0.4 0.4 0 0 0 -0.8 0", "0.4 0.4 0 0 1 -0.7 0"])
def test_what_is_no_round_dot_is_left_to_the_other_reader(
    other: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = []
    monkeypatch.setattr("drafting.proof.svg_curves.path_of", lambda *given: asked.append(given) or [])
    assert (
        list(
            pricks(
                {"d": "M1,2a0.4 0.4 0 0 1 0.8 0a0.4 0.4 0 0 1 -0.8 0z" + f"M5,2a0.4 0.4 0 0 1 0.8 0a{other}z"}
            )
        )
        == []
    )
    assert len(asked) == 1


@pytest.mark.parametrize(
    ("tag", "shape"),
    [
        ("path", {"d": "M 0,0 C 0,5 10,5 10,0"}),
        ("path", {"d": "M 0,0 A 5 4 0 0 1 10,0"}),
        ("path", {"d": "M 0,0"}),
        ("path", {}),
        ("circle", {"cx": "nan", "cy": "0", "r": "x"}),
        ("ellipse", {"rx": "3", "ry": "2"}),
    ],
)
def test_what_no_sheet_holds_is_refused(tag: str, shape: dict[str, str]) -> None:
    with pytest.raises(ValueError, match=r"."):
        measure(tag, shape)


@pytest.mark.parametrize(
    "added",
    [
        '<use href="#belt"/>',
        "<style>.cut { display: none }</style>",
        "<svg><circle r='3'/></svg>",
        '<g class="feature"><path class="cut" d="M 0,0 C 0,5 10,5 10,0"/></g>',
    ],
)
def test_what_would_stay_unseen_is_told(added: str) -> None:
    svg = to_svg(piece_sheet(deck_belt(), "belt")).replace("</svg>", f"{added}</svg>")
    assert [one.what for one in check_svg(svg, deck_belt(), "belt")] == ["its form"]


@pytest.mark.parametrize("shape", ['<rect x="5" y="5" width="8" height="6" class="cut"/>', "<line x2='4'/>"])
def test_other_shapes_are_seen(shape: str) -> None:
    svg = to_svg(piece_sheet(deck_belt(), "belt")).replace("</svg>", f"<g class='stray'>{shape}</g></svg>")
    (stray,) = [group for group in read_svg(svg).root.walk() if group.kind == "stray"]
    assert len(stray.classes) == 1
