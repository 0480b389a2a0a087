"""A slip -> its message, and how reading may go on.

Takes a Trouble: the place where the machine accepts nothing of what is written. Each check knows one slip
that makers make; the first that fits tells it. Where the meaning is plain it also says how to read on as if
the slip were mended, so that the rest of the statement is looked at too. What no check knows is told by what
the grammar accepts there.
"""

from __future__ import annotations

from collections.abc import Callable

from drafting.syntax.expected import expected_words
from drafting.syntax.slips import amounts, signs, words
from drafting.syntax.slips.trouble import PASS_OVER, Repair, Trouble
from drafting.syntax.vocabulary import EXAMPLES
from drafting.text.catalogue import syntax as says

Check = Callable[[Trouble], Repair | None]

CHECKS: tuple[Check, ...] = (
    signs.tell_odd,
    amounts.tell_decimal_comma,
    signs.tell_nothing_between,
    signs.tell_dot_behind,
    signs.tell_lacking_at,
    signs.tell_comparison,
    signs.tell_comparison_words,
    amounts.tell_amount_first,
    words.tell_lacking_along,
    words.tell_half_a_pair,
    words.tell_capitals,
    words.tell_in_the_centre,
    words.tell_to_the_side,
    words.tell_word_too_many,
    words.tell_reserved,
    words.tell_quoted_name,
    words.tell_no_quotes,
    words.tell_digit_first,
    signs.tell_no_to,
    words.tell_hyphen_name,
    words.tell_two_words,
    signs.tell_bare_coordinates,
    signs.tell_one_coordinate,
    signs.tell_three_points,
    signs.tell_wrong_sign,
    signs.tell_open_bracket,
    words.tell_two_bows,
    amounts.tell_ounces,
    amounts.tell_ounces_before,
    words.tell_misspelled_before,
    words.tell_half_a_pair_before,
    words.tell_misspelled,
    words.tell_name_too_many,
    words.tell_amount_behind,
    words.tell_run_order,
    words.tell_wrong_word,
    words.tell_lacking_from,
    words.tell_lacking,
    amounts.tell_no_unit,
)
"""In the order they are asked: the surer a check is of its slip, the earlier."""


def tell_slip(trouble: Trouble) -> Repair:
    """Say what is wrong, once, and how to go on."""
    for check in CHECKS:
        repair = check(trouble)
        if repair is not None:
            return repair
    return tell_unexpected(trouble)


def tell_unexpected(trouble: Trouble) -> Repair:
    """What the grammar would have here, and an example of the statement."""
    expected = expected_words(trouble.accepted, trouble.word)
    example = EXAMPLES.get(trouble.word, "12 mm")
    if trouble.at >= trouble.clause_end or trouble.found is None:
        start = trouble.clause_start if trouble.clause_start < trouble.at else 0
        text = f"`{trouble.text(start, trouble.at)}`" if trouble.marks else "This text"
        trouble.tell(says.ENDS_EARLY, text=text, expected=expected, example=example)
        return PASS_OVER
    found = f"`{trouble.text(trouble.at, trouble.at + 1)}`"
    before = f"After `{trouble.text(trouble.at - 1, trouble.at)}`" if trouble.at else "Here"
    trouble.tell(says.UNEXPECTED, before=before, expected=expected, found=found, example=example)
    return PASS_OVER
