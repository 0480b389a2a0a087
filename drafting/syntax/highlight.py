"""The language's words for editors, as pattern.lark has them.

Takes the grammar's tables and gives the lists of grammar/highlight/words.json. `python -m
drafting.syntax.highlight` writes the file; a test holds it to the grammar.
"""

from __future__ import annotations

import json

from drafting.syntax.grammar import source_folder
from drafting.syntax.parse import statement_words
from drafting.syntax.tables import presume_tables
from drafting.text.quantities import UNITS


def word_lists() -> dict[str, list[str]]:
    """Each list sorted: what begins a statement, what else is a word, what cannot be a name, units and signs."""
    tables, statements = presume_tables(), statement_words().all
    words = {word for phrase in tables.phrases if phrase[0].isalpha() for word in phrase.split()}
    return {
        "statements": sorted(statements),
        "words": sorted(words - statements),
        "pairs": sorted(phrase for phrase in tables.phrases if " " in phrase),
        "reserved": sorted(tables.reserved),
        "units": sorted([*UNITS, "deg"]),
        "signs": sorted(phrase for phrase in tables.phrases if not phrase[0].isalpha()),
    }


def words_text() -> str:
    """words.json as it should be."""
    return json.dumps(word_lists(), indent=2) + "\n"


if __name__ == "__main__":
    (source_folder() / "highlight" / "words.json").write_text(words_text(), encoding="utf-8")
