"""Words in any script on a PDF: which font, which way, joined where their script joins; or a word of what is missing."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pypdf
import pytest

from drafting.drawing import fonts
from drafting.drawing.fonts import MissingLetters, set_width, way_to
from drafting.drawing.lettering import font_size, natural_width
from drafting.drawing.marks import Drawing, Group, Lettering
from drafting.drawing.roster.cards import printed_width
from drafting.geometry.point import Point
from drafting.output.letters import expect_letters, runs_of, width_of
from drafting.output.pdf import to_pdf
from drafting.proof.read_pdf import read_pdf
from tests.output.conftest import Fonts
from tests.output.tiny_font import make_font


def page(text: str) -> bytes:
    words = Lettering(text, Point(20, 40), 5.0, "start")
    return to_pdf([Drawing("words", "", 210, 297, "a4", 1.0, (Group("any", "any", (words,)),))])


def embedded(data: bytes) -> list[bool]:
    held = pypdf.PdfReader(BytesIO(data)).pages[0]["/Resources"]["/Font"]
    described = [font.get_object()["/FontDescriptor"].get_object() for font in held.values()]
    return ["/FontFile2" in font for font in described]


def test_plain_words_are_one_run_of_arimo() -> None:
    for text in ("Größe, Żółw, мера, μέτρο", "⌀ 4 mm × 2"):
        assert [run.font for run in runs_of(text)] == ["Arimo"]


@pytest.mark.parametrize(
    ("text", "font"),
    [
        ("غطاء", "NotoSansArabic"),
        ("थैला", "NotoSansDevanagari"),
        ("กระเป๋า", "NotoSansThai"),
        ("שלום", "Arimo"),
    ],
)
def test_scripts_have_a_packaged_font_that_is_embedded(text: str, font: str) -> None:
    assert [run.font for run in runs_of(text)] == [font]
    assert all(embedded(page(text)))


def test_arabic_letters_join() -> None:
    """Unicode 17.0, section 9.2: beh has four shapes; alone it is wider than at the start and in the middle of a word."""
    assert width_of("ببب") < 3 * width_of("ب") - 0.1


def test_marks_stack() -> None:
    """A combining mark takes no room of its own."""
    assert width_of("กี่") == pytest.approx(width_of("ก"))
    assert width_of("e\u0323\u0301") == pytest.approx(width_of("e"), abs=1e-6)


def test_words_run_as_their_script_does() -> None:
    """UAX 9: in a line that begins with Hebrew what is read first stands at the right, and figures run to the right."""
    shown = "".join(run.text for run in runs_of("אב 12 גד"))
    assert shown == "דג 12 בא"
    assert "".join(run.text for run in runs_of("tag אב, mm 12")) == "tag בא, mm 12"


def test_brackets_turn_with_their_words() -> None:
    assert "".join(run.text for run in runs_of("א(ב)")) == "(ב)א"


@pytest.mark.parametrize("text", ["عمر بن عبد الرحمن", "राजेश्वरी त्रिपाठी", "กนกวรรณ", "Omar عمر 12 (أ)"])
def test_a_card_reckons_with_what_the_pdf_sets(text: str) -> None:
    """By ReportLab's own shaping of the embedded font."""
    assert set_width(text) == pytest.approx(width_of(text), rel=1e-3)
    assert printed_width(text, 5.0) == pytest.approx(
        min(width_of(text) * font_size(5.0), natural_width(text, 5.0)), rel=1e-3
    )


def test_letters_of_east_asia_come_from_their_package(
    machine_has: Fonts, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where it is installed it goes before the fonts of the machine."""
    machine_has("革表", postscript=True)
    package = tmp_path / "noto_cjk_sans_jp_regular"
    package.mkdir()
    (package / "__init__.py").touch()
    make_font(package / "NotoSansCJKjp-Regular.otf", "革紙", postscript=True)
    monkeypatch.syspath_prepend(tmp_path)
    fonts.packaged_fonts.cache_clear()
    assert [run.font for run in runs_of("革紙")] == ["NotoSansCJKjp-Regular"]
    assert [run.font for run in runs_of("紙表")][1].startswith("Shapes")


def test_a_mend_says_where_letters_come_from() -> None:
    assert all("pip install noto-cjk-sans-jp-regular" in way_to(letter) for letter in "革かカ김ㄅ")
    assert "`~/.local/share/fonts`" in way_to("🦀")


@pytest.mark.parametrize("postscript", [False, True])
def test_the_fonts_of_the_machine_serve_for_the_rest(machine_has: Fonts, postscript: bool) -> None:
    machine_has("革表紙", postscript=postscript)
    assert width_of("革表紙") == pytest.approx(1.5)
    (read,) = read_pdf(page("tag 革 end"))
    ink = [line.box for line in read.lines if line.is_filled] if postscript else list(read.words)
    assert ink and all(20 <= box[0] < box[2] <= 60 and 38 < box[1] < box[3] < 46 for box in ink)


def test_all_missing_letters_are_told_at_once(machine_has: Fonts) -> None:
    with pytest.raises(MissingLetters) as told:
        expect_letters(["tag 革", "plain", "革 and 𒀀"])
    assert told.value.letters == ("革", "𒀀")
    assert "`革` (CJK UNIFIED IDEOGRAPH-9769), `𒀀` (CUNEIFORM SIGN A)" in str(told.value)


def test_words_stay_in_the_room_that_was_reckoned() -> None:
    words = Lettering("थैला " * 8, Point(20, 40), 5.0, "start")
    (read,) = read_pdf(page(words.text))
    assert max(box[2] for box in read.words) <= 20 + words.width + 0.5
