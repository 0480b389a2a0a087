"""`awlwright new NAME`: a pattern file to go on from.

A starter is one of the patterns that come with the tool, taken over with its title set to the new name;
without one the new file holds a small pattern that is already fit to be drawn. The files of blocks that a starter uses
come along, beside the new file; one that is there already is taken as it is.
"""

from __future__ import annotations

import re
import sys
import unicodedata
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from pathlib import Path

from drafting.cli.exits import FINE
from drafting.cli.together import unwritable
from drafting.cli.values import unknown_value
from drafting.cli.words import WrongUse, expect_agreement, never_together
from drafting.output.files import write_file
from drafting.text.catalogue.files import ALREADY_THERE, LACKING_WORDS, SPARE_WORD, UNFIT_PATTERN_NAME
from drafting.text.packaged import packaged_folder
from drafting.text.source import read_source

TELLS = """\
Start a pattern: write NAME.draft here, from a starter or from the smallest pattern there is, a tag with a slot.
The blocks that a starter uses come along. A file that is already there is never touched. A hide to lay parts on
comes in the same way."""
EXAMPLES = (
    "awlwright new tag",
    "awlwright new tool-roll --from tool-roll",
    "awlwright new 'Kranführer Etui' --from badge-holder",
    "awlwright new shoulder --from shoulder",
    "awlwright new --list",
)

HEADER = re.compile(r'^pattern[ \t]+"(?P<title>[^"\n]*)"', re.MULTILINE)
USED = re.compile(r'^use[ \t]+"(?P<file>[^"\n]+)"', re.MULTILINE)

SMALLEST = """\
pattern "Title"
  show mm and in
measure wide = 40 mm
measure high = 90 mm   "foot to top"
stock body: leather; 2 mm thick

piece tag: cut 1 from body; mirrored over foot..top; grain foot..top   # drafted as one half
  point foot: at (0, 0)
  point top:  plumb with foot; high above foot
  point heel: level with foot; wide/2 right of foot
  point brow: plumb with heel; level with top
  outline: foot to heel to brow to top
  fillet heel, brow by 6 mm
  slot eye: plumb with top; 10 mm below top; 14 mm long; 4 mm wide; lying level
"""


def add_arguments(parser: ArgumentParser) -> None:
    parser.add_argument(
        "name", metavar="NAME", nargs="?", help="the pattern's title, in any script; may lead with a folder"
    )
    parser.add_argument(
        "--from",
        dest="starter",
        metavar="STARTER",
        type=starter_named,
        help="a pattern that comes with the tool",
    )
    parser.add_argument("--list", action="store_true", help="list the starters and stop")
    never_together(parser, "--list", "--from")
    expect_agreement(parser, expect_name_or_list)


def run(given: Namespace) -> int:
    if given.list:
        for name, text in starters().items():
            print(f"{name:<24} {title_of(text)}".rstrip())
        for name, text in hides().items():
            print(f"{name:<24} {title_of(text)} (a hide, for `lay --hide`)")
        return FINE
    title = fit_title(Path(given.name).name)
    path = Path(given.name).with_name(f"{title}.draft")
    text = SMALLEST if given.starter is None else (starters() | hides())[given.starter]
    refuse_what_is_there(path)
    for block in bring_blocks(text, path.parent):
        print(block)
    write_new(path, entitled(text, title))
    print(path)
    if given.starter is None and title in starters():
        hint = f"this is the smallest pattern; the starter of that name comes by --from {title}"
        print(hint, file=sys.stderr)
    return FINE


def expect_name_or_list(given: Namespace) -> None:
    """One of them is said, and not both."""
    if given.name is None and not given.list:
        raise WrongUse(LACKING_WORDS, command="awlwright new", lacking="NAME", example=EXAMPLES[0])
    if given.name is not None and given.list:
        raise WrongUse(
            SPARE_WORD, command="awlwright new --list", word=given.name, example="awlwright new --list"
        )


def fit_title(name: str) -> str:
    """The title that `name` means, without a `.draft` that was typed along; WrongUse when it can be none."""
    title = unicodedata.normalize("NFC", name).removesuffix(".draft").strip()
    if not any(character.isalnum() for character in title):
        raise WrongUse(UNFIT_PATTERN_NAME, name=name, reason="it has no letter or digit")
    if any(character == '"' or not character.isprintable() for character in title):
        raise WrongUse(
            UNFIT_PATTERN_NAME, name=name, reason="it holds a quote or a character that cannot be seen"
        )
    if title.startswith((".", "-")):
        raise WrongUse(UNFIT_PATTERN_NAME, name=name, reason=f"it begins with `{title[0]}`")
    return title


def starters() -> dict[str, str]:
    """The text of each pattern that came with the tool, by the name of its file."""
    return {path.stem: read_source(path).text for path in sorted(packaged_folder("patterns").glob("*.draft"))}


def hides() -> dict[str, str]:
    """The text of each hide that came with the tool, by the name of its file."""
    found = sorted((packaged_folder("patterns") / "hides").glob("*.draft"))
    return {path.stem: read_source(path).text for path in found}


def starter_named(name: str) -> str:
    known = starters() | hides()
    if name not in known:
        raise unknown_value("--from", "starter", name, known)
    return name


def title_of(text: str) -> str:
    header = HEADER.search(text)
    return header["title"] if header else ""


def entitled(text: str, title: str) -> str:
    """`text` as the pattern called `title`; one without a header gets it."""
    header = HEADER.search(text)
    if header is None:
        return f'pattern "{title}"\n{text}'
    return text[: header.start("title")] + title + text[header.end("title") :]


def bring_blocks(text: str, folder: Path) -> Iterator[Path]:
    """Writes the files that a starter uses below `folder`, but for those that are there, and tells each.

    The blocks that come with the tool use no further file; a test holds them to it.
    """
    for used in USED.findall(text):
        place = folder / used
        if not place.exists():
            make_folder(place.parent)
            write_new(place, read_source(packaged_folder("patterns") / used).text)
            yield place


def make_folder(folder: Path) -> None:
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise unwritable(folder, error) from None


def write_new(path: Path, text: str) -> None:
    refuse_what_is_there(path)
    try:
        write_file(path, text.encode())
    except OSError as error:
        raise unwritable(path, error) from None


def refuse_what_is_there(path: Path) -> None:
    if path.exists() or path.is_symlink():
        raise WrongUse(ALREADY_THERE, file=path)
