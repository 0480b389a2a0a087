"""Names of pieces and features as identifiers of an XML file, each used once.

Letters of any script stay, for XML allows them; a twin's mark becomes `-twin`, anything else a hyphen.
"""

from __future__ import annotations

from unicodedata import category, normalize


class Identifiers:
    """Gives identifiers and remembers those given."""

    def __init__(self, prefix: str = "") -> None:
        self._prefix = prefix
        self._taken: set[str] = set()

    def give(self, *words: str) -> str:
        """An identifier made of words, the first of which is plain Latin; a number is added to one that is taken."""
        wanted = self._prefix + "-".join(_plain(word) for word in words)
        given, count = wanted, 1
        while given in self._taken:
            count += 1
            given = f"{wanted}-{count}"
        self._taken.add(given)
        return given


def _plain(word: str) -> str:
    marked = normalize("NFC", word.replace("'", "-twin"))
    return "".join(letter if _may_stand(letter) else "-" for letter in marked)


def _may_stand(letter: str) -> bool:
    """What the NCName of XML 1.0 (fifth edition) admits within a name, a little less than all."""
    if letter in "-_.":
        return True
    return category(letter) in ("Lu", "Ll", "Lt", "Lo", "Lm", "Nd", "Mn", "Mc") and letter not in "ªµº"
