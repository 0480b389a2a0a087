"""A booklet as one HTML file that needs nothing else: headings, tables, and pictures as SVG inside it.

Words take their direction from their own letters; every picture tells what it shows. It prints in black and white, a
step never torn apart.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from drafting.drawing.booklet import Booklet, Part, Picture, Section, Step, Words
from drafting.drawing.lists.table import Table
from drafting.output.pdf import PRODUCER
from drafting.output.svg import to_svg_element
from drafting.version import VERSION

STYLE = """\
:root { color: #000; background: #fff; font: 1rem/1.5 Arimo, "Liberation Sans", Arial, sans-serif; }
body { max-width: 46rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.9rem; font-weight: 400; margin: 0; }
h2 { font-size: 1.3rem; font-weight: 400; margin: 2.2rem 0 .6rem; border-bottom: 1px solid; break-after: avoid; }
h3 { font-size: 1rem; font-weight: 700; margin: 1.2rem 0 .3rem; break-after: avoid; }
figure { margin: 1rem 0; break-inside: avoid; }
figure svg { max-width: 100%; height: auto; }
figcaption, .remark, footer { font-size: .85rem; }
table { border-collapse: collapse; margin: .6rem 0 1rem; }
caption { text-align: start; font-weight: 700; }
th, td { text-align: start; vertical-align: top; padding: .2rem 1rem .2rem 0; border-bottom: 1px solid; }
thead th { border-bottom-width: 2px; }
tbody th { font-weight: 400; }
.number { text-align: end; }
ol.steps { padding-inline-start: 1.6rem; }
ol.steps > li { break-inside: avoid; margin-bottom: 1.4rem; }
ol.steps p { margin: .2rem 0; }
footer { border-top: 1px solid; margin-top: 2.5rem; padding-top: .4rem; }
@media print { body { margin: 0; max-width: none; } tr { break-inside: avoid; } }
"""


def booklet_to_html(booklet: Booklet) -> str:
    """The whole file as text."""
    title = escape(booklet.title)
    facts = " · ".join(escape(fact) for fact in booklet.facts)
    pictures = Numbered()
    sections = "\n".join(part for section in booklet.sections for part in _section(section, pictures))
    return f"""\
<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="{PRODUCER} {VERSION}">
<meta name="description" content="{escape(booklet.record)}">
<title>{title}</title>
<style>
{STYLE}</style>
</head>
<body>
<header>
<h1 dir="auto">{title}</h1>
<p dir="auto">{facts}</p>
</header>
<main>
{sections}
</main>
<footer dir="auto">{escape(booklet.running)}</footer>
</body>
</html>
"""


class Numbered:
    """Gives each picture a number, so that names inside it are its own."""

    def __init__(self) -> None:
        self.count = 0

    def svg(self, picture: Picture) -> str:
        self.count += 1
        return to_svg_element(picture.drawing, f"picture-{self.count}-", picture.alt)


def _section(section: Section, pictures: Numbered) -> Iterator[str]:
    yield f'<section>\n<h2 dir="auto">{escape(section.title)}</h2>'
    steps = [part for part in section.parts if isinstance(part, Step)]
    for part in section.parts:
        if not isinstance(part, Step):
            yield from _part(part, pictures)
    if steps:
        yield from ('<ol class="steps">', *(_step(step, pictures) for step in steps), "</ol>")
    yield "</section>"


def _part(part: Part, pictures: Numbered) -> Iterator[str]:
    match part:
        case Words():
            yield from _words(part)
        case Table() if part.rows:
            yield from _table(part)
        case Picture():
            caption = f"\n<figcaption>{escape(part.caption)}</figcaption>" if part.caption else ""
            yield f"<figure>\n{pictures.svg(part)}{caption}\n</figure>"


def _words(words: Words) -> Iterator[str]:
    if words.is_list:
        items = (f'<li dir="auto">{escape(line)}</li>' for line in words.lines)
        yield from ("<ul>", *items, "</ul>")
    else:
        yield from (f'<p dir="auto">{escape(line)}</p>' for line in words.lines)


def _step(step: Step, pictures: Numbered) -> str:
    uses = f'\n<p class="remark" dir="auto">Takes: {escape(step.uses)}.</p>' if step.uses else ""
    note = f'\n<p class="remark" dir="auto">{escape(step.note)}</p>' if step.note else ""
    figure = f"\n<figure>\n{pictures.svg(step.picture)}\n</figure>" if step.picture else ""
    return f'<li>\n<p dir="auto">{escape(step.text)}</p>{uses}{note}{figure}\n</li>'


def _table(table: Table) -> Iterator[str]:
    yield "<table>"
    if table.title:
        yield f'<caption dir="auto">{escape(table.title)}</caption>'
    numbers = [' class="number"' if column.is_number else "" for column in table.columns]
    heads = (
        f'<th scope="col"{number}>{escape(column.name)}</th>'
        for number, column in zip(numbers, table.columns, strict=True)
    )
    yield f"<thead>\n<tr>{''.join(heads)}</tr>\n</thead>\n<tbody>"
    yield from (_row(row, numbers) for row in table.rows)
    yield "</tbody>\n</table>"
    yield from (f'<p class="remark" dir="auto">{escape(remark)}</p>' for remark in table.remarks)


def _row(row: Sequence[str], numbers: Sequence[str]) -> str:
    """The first cell names the row."""
    first, *others = row
    cells = "".join(
        f'<td{number} dir="auto">{escape(cell)}</td>'
        for number, cell in zip(numbers[1:], others, strict=True)
    )
    return f'<tr><th scope="row" dir="auto">{escape(first)}</th>{cells}</tr>'


def is_our_page(data: bytes) -> bool:
    """Whether a page was written here: its head says so."""
    return f'<meta name="generator" content="{PRODUCER} '.encode() in data[:2000]
