"""Messages as text: carets stand under what they mean, in any script and at any width."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.text.excerpt import (
    PLAIN,
    Page,
    count_line,
    display_width,
    excerpt_lines,
    render_message,
    render_messages,
)
from drafting.text.messages import Entry, Message, Messages, Related, Severity
from drafting.text.source import Source, Span

LOOSE = Entry("S01", "`{point}` has one fact and needs two: it can still slide", "add `{suggestion}`")
SLIVER = Entry("P09", "the sliver at `{point}` is weak", severity=Severity.WARNING)


def marked(text: str, name: str = "tag.draft") -> tuple[Source, list[Span]]:
    """A source and the spans that stand in ⟦…⟧ in `text`."""
    plain, spans, start = "", [], 0
    for character in text:
        if character == "⟦":
            start = len(plain)
        elif character == "⟧":
            spans.append((start, len(plain)))
        else:
            plain += character
    source = Source(name, plain)
    return source, [source.span(*span) for span in spans]


def check(text: str, expected: str, page: Page = PLAIN) -> None:
    """The message about the first marked place, with the other marked places related, reads as `expected`."""
    _, (first, *others) = marked(text)
    messages = Messages()
    related = [Related(span, "and this") for span in others]
    messages.add(LOOSE, at=first, related=related, point="brow", suggestion="level with tip")
    (message,) = messages
    assert render_message(message, page) == expected


def test_a_message_shows_line_place_sentence_and_mend() -> None:
    check(
        "piece back:\n  point ⟦brow⟧: 40 mm above heel\n",
        "tag.draft:2:9  error S01\n"
        "  |   point brow: 40 mm above heel\n"
        "  |         ^^^^\n"
        "  `brow` has one fact and needs two: it can still slide\n"
        "  mend: add `level with tip`\n",
    )


def test_related_places_follow_with_their_own_lines() -> None:
    check(
        "point ⟦brow⟧: 40 mm above heel\npoint ⟦heel⟧: 1 mm above brow\n",
        "tag.draft:1:7  error S01\n"
        "  | point brow: 40 mm above heel\n"
        "  |       ^^^^\n"
        "  `brow` has one fact and needs two: it can still slide\n"
        "  mend: add `level with tip`\n"
        "  tag.draft:2:7  and this\n"
        "    | point heel: 1 mm above brow\n"
        "    |       ^^^^\n",
    )


@pytest.mark.parametrize(
    ("text", "line", "carets"),
    [
        ("\tpoint\t⟦brow⟧", "    point   brow", "            ^^^^"),
        ("point ⟦眉先⟧: 40 mm", "point 眉先: 40 mm", "      ^^^^"),
        ("point 眉: ⟦40 mm⟧", "point 眉: 40 mm", "          ^^^^^"),
        ("point e\u0301pe\u0301: ⟦40⟧", "point e\u0301pe\u0301: 40", "           ^^"),
        ("point brow:⟦⟧", "point brow:", "           ^"),
        ("\x1b[31m ⟦x⟧", "\ufffd[31m x", "      ^"),
        ("a \u202eb ⟦x⟧", "a \ufffdb x", "     ^"),
    ],
)
def test_carets_stand_under_the_place(text: str, line: str, carets: str) -> None:
    """Tabs, wide characters, combining marks, empty places, and marks that would steer a terminal."""
    _, (span,) = marked(text)
    assert excerpt_lines(span) == [f"  | {line}", f"  | {carets}"]


def test_a_place_of_several_lines_says_where_it_ends() -> None:
    _, (span,) = marked("⟦piece a:  \n  point b: at (0, 0)\n  x⟧\n")
    assert excerpt_lines(span) == ["  | piece a:", "  | ^^^^^^^^ to line 3"]


def test_the_end_of_a_file_is_a_place() -> None:
    source = Source("tag.draft", "piece a:\n")
    assert excerpt_lines(source.span(9, 9)) == ["  |", "  | ^"]


def test_a_long_line_is_cut_around_the_place() -> None:
    _, (span,) = marked("a" * 300 + "⟦brow⟧" + "b" * 300)
    line, carets = excerpt_lines(span, Page(width=44))
    assert display_width(line) == 44
    at = carets.index("^")
    assert line[at : at + 4] == "brow"
    assert line.startswith("  | …a") and line.endswith("b…")


@given(
    before=st.text(st.characters(exclude_characters="\n\r"), max_size=120),
    place=st.text(st.characters(exclude_characters="\n\r"), min_size=1, max_size=8),
    after=st.text(st.characters(exclude_characters="\n\r"), max_size=120),
    width=st.integers(1, 160),
)
def test_an_excerpt_fits_its_page(before: str, place: str, after: str, width: int) -> None:
    """Whatever stands in the line, neither row is wider than the page and a caret is shown."""
    source = Source("t", before + place + after)
    line, carets = excerpt_lines(source.span(len(before), len(before + place)), Page(width=width))
    assert display_width(line) <= max(width, 12)
    assert "^" in carets and display_width(carets) <= max(width, 12)


def test_sizes_stand_in_front_of_the_sentence() -> None:
    def says(*sizes: str) -> str:
        return render_message(Message(LOOSE, None, "it is", "", (), sizes))

    assert says("visitor") == "error S01\n  visitor: it is\n"
    assert says("a", "b", "c") == "error S01\n  a, b, c: it is\n"
    assert says("a", "b", "c", "d", "e") == "error S01\n  a, b, c and 2 more: it is\n"


def test_sentences_are_broken_at_the_width_and_mends_hang() -> None:
    message = Message(LOOSE, None, "one two three four five six", "seven eight nine ten eleven")
    assert render_message(message, Page(width=24)) == (
        "error S01\n  one two three four\n  five six\n  mend: seven eight nine ten\n        eleven\n"
    )


def test_the_closing_line_counts() -> None:
    error, warning = Message(LOOSE, None, "a", ""), Message(SLIVER, None, "b", "")
    assert count_line([error]) == "1 fault"
    assert count_line([error, warning, error]) == "2 faults, 1 warning"
    assert render_messages([]) == ""
    assert render_messages([error, warning]) == "error S01\n  a\n\nwarning P09\n  b\n\n1 fault, 1 warning\n"


def test_each_part_is_painted_by_its_role() -> None:
    _, (span,) = marked("point ⟦brow⟧: x")
    painted = render_message(
        Message(LOOSE, span, "so", "do"), Page(paint=lambda role, text: f"<{role}>{text}")
    )
    assert painted.splitlines() == [
        "<place>tag.draft:1:7  <error>error S01",
        "  | point brow: x",
        "  | <caret>      ^^^^",
        "  so",
        "  <mend>mend: do",
    ]
