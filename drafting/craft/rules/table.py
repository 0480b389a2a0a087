"""All rules of the workshop, each with its reason and with what backs its limit."""

from __future__ import annotations

from drafting.craft.rules import contents, cuts, edges, leather, limits, straps
from drafting.craft.rules.rule import Rule
from drafting.geometry.maths import degrees
from drafting.solve.amounts import mm, plain
from drafting.text.catalogue import craft as says


def _as(times: float, word: str) -> str:
    """`as far`, `half as far`, `1.5 times as far`."""
    return {0.5: "half ", 1.0: ""}.get(times, f"{plain(times)} times ") + f"as {word}"


def _bridge(where: str) -> str:
    """How much leather is left beside a cut."""
    least, more = mm(limits.LEAST_BRIDGE), _as(limits.BRIDGE_THICKNESSES, "much")
    return f"{least} of leather {where} at least; {more} as it is thick where that is more"


PRACTICE = "workshop practice"
NO_SOURCE = "common practice, no source"
BY_HEART = "common practice, from memory"
DERIVED = "derived"
WALLS = "two flat walls closing round a block"

RULES: tuple[Rule, ...] = (
    Rule(
        says.STITCH_TO_EDGE,
        "a stitch line near the edge",
        f"{mm(limits.LEAST_MARGIN)} from the edge at least",
        "nearer, the thread pulls through the edge",
        PRACTICE,
        BY_HEART,
        edges.stitch_to_edge,
    ),
    Rule(
        says.STITCH_FAR_FROM_EDGE,
        "a stitch line far from the edge that it follows",
        f"{mm(limits.MOST_MARGIN)} from the edge at most",
        "farther in, the edge stands open beyond the seam",
        PRACTICE,
        BY_HEART,
        edges.stitch_far_from_edge,
    ),
    Rule(
        says.SEWN_THICKNESS,
        "a thick seam near the edge",
        f"{_as(limits.SEWN_PART, 'far')} from the edge as the seam is thick, at least",
        "a thick seam leans, and the awl comes out beside the line on the back",
        PRACTICE,
        BY_HEART,
        edges.sewn_thickness,
    ),
    Rule(
        says.HOLE_TO_EDGE,
        "a hole near the edge",
        f"its middle {_as(limits.HOLE_DIAMETERS, 'far')} from the edge as it is across, at least; "
        f"{_as(limits.LOADED_HOLE_DIAMETERS, 'far')} if it bears a pull",
        "nearer, the hole tears out",
        PRACTICE,
        BY_HEART,
        edges.hole_to_edge,
    ),
    Rule(
        says.HOLE_TO_HOLE,
        "a hole near another",
        f"leather between them {_as(limits.HOLE_BRIDGE_DIAMETERS, 'wide')} as the larger hole is across, at least",
        "less, and one hole tears into the next",
        PRACTICE,
        NO_SOURCE,
        edges.hole_to_hole,
    ),
    Rule(
        says.FILLET_AND_INSET,
        "a rounding smaller than the line inside it",
        "an edge rounded by as much as the line stands inside, at least",
        "a line inside a smaller rounding has no radius left",
        "the inset of a radius r by m is r - m",
        DERIVED,
        edges.fillet_and_inset,
    ),
    Rule(
        says.NOTCH_TO_SEAM,
        "a notch near a seam",
        f"{mm(limits.NOTCH_TO_SEAM)} left to the stitch line at least",
        "the seam would start to tear there",
        PRACTICE,
        NO_SOURCE,
        edges.notch_to_seam,
    ),
    Rule(
        says.OPENING_TO_EDGE,
        "a slot or an opening near the edge",
        _bridge("to the edge"),
        "a thinner strip stretches and tears",
        PRACTICE,
        NO_SOURCE,
        cuts.opening_to_edge,
    ),
    Rule(
        says.SLIT_TO_EDGE,
        "a slit near the edge",
        _bridge("to the edge"),
        "a slit runs on to an edge that is near",
        PRACTICE,
        NO_SOURCE,
        cuts.slit_to_edge,
    ),
    Rule(
        says.CUT_TO_SEAM,
        "a cut near a seam",
        f"{mm(limits.CUT_TO_SEAM)} to the nearest stitch hole at least",
        "the cut would open the seam",
        PRACTICE,
        NO_SOURCE,
        cuts.cut_to_seam,
    ),
    Rule(
        says.BARE_SLIT,
        "a slit without end holes",
        "a hole at each end that stops in the leather",
        "a cut that does not end in a hole tears on",
        PRACTICE,
        NO_SOURCE,
        cuts.bare_slit,
    ),
    Rule(
        says.THIN_BRIDGE,
        "a thin bridge between two cuts",
        _bridge("between them"),
        "a thinner bridge tears through",
        PRACTICE,
        NO_SOURCE,
        cuts.thin_bridge,
    ),
    Rule(
        says.STRAP_WIDER_THAN_BUCKLE,
        "a strap wider than its buckle",
        "no wider than the buckle is inside",
        "it does not go through",
        PRACTICE,
        NO_SOURCE,
        straps.strap_wider_than_buckle,
    ),
    Rule(
        says.STRAP_SLACK_IN_BUCKLE,
        "a strap slack in its buckle",
        f"{mm(limits.STRAP_SLACK)} narrower than the buckle is inside at most",
        "a slack strap wanders and wears on one side",
        PRACTICE,
        NO_SOURCE,
        straps.strap_slack_in_buckle,
    ),
    Rule(
        says.STRAP_AND_SLOT,
        "a strap larger than its slot",
        "a slot as long as the strap is wide and as wide as it is thick, at least",
        "it does not go through",
        "the figures of the drawing",
        DERIVED,
        straps.strap_and_slot,
    ),
    Rule(
        says.TURN_BACK_TOO_SHORT,
        "a turn-back shorter than its stitching",
        f"{mm(limits.LEAST_MARGIN)} past the farthest stitch hole at least",
        "the seam must catch the end with leather to spare",
        "the figures of the drawing, with the least margin of a stitch line",
        DERIVED,
        straps.turn_back_too_short,
    ),
    Rule(
        says.SLOT_TO_STITCHING,
        "the stitching near the slot of a prong",
        f"{mm(limits.SLOT_TO_STITCHING)} from the slot at least, or "
        f"{_as(limits.SLOT_TO_STITCHING_PART, 'far')} as the strap is wide where that is less",
        "the prong needs room to swing",
        PRACTICE,
        NO_SOURCE,
        straps.slot_to_stitching,
    ),
    Rule(
        says.SLOT_OFF_FOLD,
        "the slot of a prong off its fold",
        f"{mm(limits.SLOT_OFF_FOLD)} from middle to middle at most",
        "the prong comes out on the bar",
        PRACTICE,
        NO_SOURCE,
        straps.slot_off_fold,
    ),
    Rule(
        says.PRONG_IN_SLOT,
        "a prong in a narrow slot",
        f"a slot {mm(limits.PRONG_PLAY)} wider than the prong at least",
        "a prong that is held fast cuts into its slot",
        PRACTICE,
        NO_SOURCE,
        straps.prong_in_slot,
    ),
    Rule(
        says.EVEN_STRAP_HOLES,
        "an even number of strap holes",
        "an odd number of holes",
        "with an even number no hole is the middle one, which the size is measured to",
        PRACTICE,
        NO_SOURCE,
        straps.even_strap_holes,
    ),
    Rule(
        says.STRAP_HOLES_OFF_CENTER,
        "strap holes off the middle",
        f"{mm(limits.OFF_CENTER)} off at most",
        "the strap would sit askew, or not be its size",
        PRACTICE,
        NO_SOURCE,
        straps.strap_holes_off_center,
    ),
    Rule(
        says.WINDOW_TOO_LARGE,
        "a window larger than what it holds in",
        "no larger than what it holds in, either way",
        "it falls out",
        "the figures of the drawing",
        DERIVED,
        contents.window_too_large,
    ),
    Rule(
        says.WINDOW_OVERLAP,
        "a window that laps too little over what it holds in",
        f"{mm(limits.WINDOW_OVERLAP)} at each side at least",
        "with less it slips out when the leather gives",
        PRACTICE,
        NO_SOURCE,
        contents.window_overlap,
    ),
    Rule(
        says.INSERT_TOO_SMALL,
        "an insert smaller than its window",
        "it covers the whole window",
        "the window stays open there",
        "the figures of the drawing",
        DERIVED,
        contents.insert_too_small,
    ),
    Rule(
        says.INSERT_GLUE,
        "an insert with little room for glue",
        f"{mm(limits.INSERT_GLUE)} past the window at least",
        "less holds no glue",
        PRACTICE,
        BY_HEART,
        contents.insert_glue,
    ),
    Rule(
        says.INSERT_IN_SEAM,
        "an insert that reaches the seam",
        f"{mm(limits.INSERT_TO_SEAM)} to the nearest stitch hole at least",
        "the awl would go through it, and film tears along a row of holes",
        PRACTICE,
        NO_SOURCE,
        contents.insert_in_seam,
    ),
    Rule(
        says.CONTENT_BETWEEN_SEAMS,
        "a pocket too narrow for its content",
        "the width of the content, its thickness and its ease, from seam to seam, at least",
        "the walls close round it, and take its thickness as well as its width",
        WALLS,
        DERIVED,
        contents.content_between_seams,
    ),
    Rule(
        says.CONTENT_PAST_OPENING,
        "an opening too short for its content",
        "the shorter side of the content and its thickness, at least",
        "the lips of an opening close round it",
        WALLS,
        DERIVED,
        contents.content_past_opening,
    ),
    Rule(
        says.PITCH_AND_THREAD,
        "a pitch that does not suit its thread",
        f"{plain(limits.PITCH_PER_THREAD[0])} to {plain(limits.PITCH_PER_THREAD[1])} times as long as "
        "the thread is thick",
        "thicker thread crowds its holes, thinner lies lost between them",
        PRACTICE,
        BY_HEART,
        leather.pitch_and_thread,
    ),
    Rule(
        says.SHORT_LAST_STITCH,
        "a stub after an exact pitch",
        "half a pitch at least, or nothing",
        "so short a stitch shows, and its two holes are nearly one",
        PRACTICE,
        NO_SOURCE,
        leather.short_last_stitch,
    ),
    Rule(
        says.NO_GRAIN,
        "a long piece without its grain",
        f"it is said of leather {_as(limits.LONG_PIECE, 'long')} as wide or more that is at least "
        f"{mm(limits.LONG_AT_LEAST)} long",
        "cut across the back, so long a piece stretches in use",
        PRACTICE,
        NO_SOURCE,
        leather.no_grain,
    ),
    Rule(
        says.GRAIN_ACROSS,
        "a long piece cut across the grain",
        f"{plain(degrees(limits.GRAIN_OFF))} deg off its length at most",
        "so long a piece stretches in use",
        PRACTICE,
        NO_SOURCE,
        leather.grain_across,
    ),
    Rule(
        says.SHARP_FOLD,
        "a fold sharper than the leather is thick",
        f"what lies in it {_as(limits.FOLD_THICKNESSES, 'thick')} as the leather at least, if it is bent "
        f"{plain(degrees(limits.SHARP_FOLD_TURN))} deg or more",
        "bent sharper than it is thick, the grain side cracks",
        PRACTICE,
        NO_SOURCE,
        leather.sharp_fold,
    ),
    Rule(
        says.THICK_TURN,
        "a thick turned edge",
        f"{mm(limits.THICKEST_TURN)} thick at most",
        "thicker, the turned edge is clumsy and its corners do not close",
        PRACTICE,
        NO_SOURCE,
        leather.thick_turn,
    ),
    Rule(
        says.TURN_WIDTH,
        "a turned edge too narrow or too wide",
        f"{mm(limits.TURN_WIDTHS[0])} to {mm(limits.TURN_WIDTHS[1])}",
        "a narrow turn lifts, a wide one puckers on curves",
        PRACTICE,
        BY_HEART,
        leather.turn_width,
    ),
    Rule(
        says.HOLE_OF_NO_PUNCH,
        "a hole that no punch of the shop makes",
        f"{mm(limits.PUNCH_FITS)} off the nearest punch of the pattern's own table at most, where it has one",
        "a hole comes out as large as its punch",
        "the pattern's own table",
        DERIVED,
        cuts.hole_of_no_punch,
    ),
)

BY_CODE: dict[str, Rule] = {rule.code: rule for rule in RULES}


def rule_with_code(code: str) -> Rule | None:
    return BY_CODE.get(code)
