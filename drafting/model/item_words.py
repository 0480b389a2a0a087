"""What can be asked of the things of a whole item, by the words after their dot: stocks, thread, hardware, contents,
punches.

Takes the statement; a word is there when the statement says its amount, and of a published content when the table does.
"""

from __future__ import annotations

from collections.abc import Mapping

from drafting.model.published import PublishedSizes
from drafting.syntax import tree
from drafting.text.quantities import LENGTH, NUMBER, Kind

ITEM_KINDS = ("stock", "thread", "punch", "hardware", "content")
FITTING_KINDS: Mapping[str, Kind] = {"inside": LENGTH, "prong": LENGTH, "bar": LENGTH}
STOCK_KINDS: Mapping[str, Kind] = {"thick": LENGTH, "neutral": NUMBER}


def item_words(statement: tree.Node | None, published: PublishedSizes) -> dict[str, Kind]:
    """Each word with the kind of its amount."""
    match statement:
        case tree.Stock(amounts=amounts):
            said = {amount.word for amount in amounts} | {"neutral"}
            return {word: kind for word, kind in STOCK_KINDS.items() if word in said}
        case tree.Thread():
            return {"thick": LENGTH}
        case tree.Punch():
            return {"across": LENGTH}
        case tree.Hardware(fittings=fittings):
            fits = {each.word for each in fittings if isinstance(each, tree.FittingAmount)}
            return {"need": NUMBER, **{word: kind for word, kind in FITTING_KINDS.items() if word in fits}}
        case tree.Content():
            return _content_words(statement, published)
    return {}


def _content_words(content: tree.Content, published: PublishedSizes) -> dict[str, Kind]:
    words = ["long", "wide"]
    if lies(content):
        words += ["width", "height"]
    if says_thick(content, published):
        words += ["thick", "stack"]
    if any(isinstance(clause, tree.ContentAmount) and clause.word == "ease" for clause in content.clauses):
        words.append("ease")
    return {**dict.fromkeys(words, LENGTH), "count": NUMBER}


def lies(content: tree.Content) -> bool:
    """Whether it is said which side is the width: an own size is written width first."""
    is_said = any(isinstance(clause, tree.ContentLying) for clause in content.clauses)
    return isinstance(content.size, tree.OwnSize) or is_said


def says_thick(content: tree.Content, published: PublishedSizes) -> bool:
    """Whether the thickness of one of them is known."""
    if any(isinstance(clause, tree.ContentAmount) and clause.word == "thick" for clause in content.clauses):
        return True
    if isinstance(content.size, tree.OwnSize):
        return content.size.thick is not None
    row = published.get(content.size.name)
    return row is not None and row.thick is not None
