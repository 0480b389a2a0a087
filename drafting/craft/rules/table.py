"""All rules of the workshop, each with its reason and with what backs its limit."""

from __future__ import annotations

from drafting.craft.rules import contents, cuts, edges, leather, straps
from drafting.craft.rules.rule import Rule
from drafting.text.catalogue import craft as says

PRACTICE = "workshop practice"
NO_SOURCE = "common practice, no source"
BY_HEART = "common practice, from memory"
DERIVED = "derived"
WALLS = "two flat walls closing round a block"

RULES: tuple[Rule, ...] = (
    Rule(
        says.STITCH_TO_EDGE,
        "nearer, the thread pulls through the edge",
        PRACTICE,
        BY_HEART,
        edges.stitch_to_edge,
    ),
    Rule(
        says.STITCH_FAR_FROM_EDGE,
        "farther in, the edge stands open beyond the seam",
        PRACTICE,
        BY_HEART,
        edges.stitch_far_from_edge,
    ),
    Rule(
        says.SEWN_THICKNESS,
        "a thick seam leans, and the awl comes out beside the line on the back",
        PRACTICE,
        BY_HEART,
        edges.sewn_thickness,
    ),
    Rule(says.HOLE_TO_EDGE, "nearer, the hole tears out", PRACTICE, BY_HEART, edges.hole_to_edge),
    Rule(
        says.HOLE_TO_HOLE, "less, and one hole tears into the next", PRACTICE, NO_SOURCE, edges.hole_to_hole
    ),
    Rule(
        says.FILLET_AND_INSET,
        "a line inside a smaller rounding has no radius left",
        "the inset of a radius r by m is r - m",
        DERIVED,
        edges.fillet_and_inset,
    ),
    Rule(says.NOTCH_TO_SEAM, "the seam would start to tear there", PRACTICE, NO_SOURCE, edges.notch_to_seam),
    Rule(
        says.OPENING_TO_EDGE, "a thinner strip stretches and tears", PRACTICE, NO_SOURCE, cuts.opening_to_edge
    ),
    Rule(says.SLIT_TO_EDGE, "a slit runs on to an edge that is near", PRACTICE, NO_SOURCE, cuts.slit_to_edge),
    Rule(says.CUT_TO_SEAM, "the cut would open the seam", PRACTICE, NO_SOURCE, cuts.cut_to_seam),
    Rule(says.BARE_SLIT, "a cut that does not end in a hole tears on", PRACTICE, NO_SOURCE, cuts.bare_slit),
    Rule(says.THIN_BRIDGE, "a thinner bridge tears through", PRACTICE, NO_SOURCE, cuts.thin_bridge),
    Rule(
        says.STRAP_WIDER_THAN_BUCKLE,
        "it does not go through",
        PRACTICE,
        NO_SOURCE,
        straps.strap_wider_than_buckle,
    ),
    Rule(
        says.STRAP_SLACK_IN_BUCKLE,
        "a slack strap wanders and wears on one side",
        PRACTICE,
        NO_SOURCE,
        straps.strap_slack_in_buckle,
    ),
    Rule(
        says.STRAP_AND_SLOT,
        "it does not go through",
        "the figures of the drawing",
        DERIVED,
        straps.strap_and_slot,
    ),
    Rule(
        says.TURN_BACK_TOO_SHORT,
        "the seam must catch the end with leather to spare",
        "the figures of the drawing, with the least margin of a stitch line",
        DERIVED,
        straps.turn_back_too_short,
    ),
    Rule(
        says.SLOT_TO_STITCHING, "the prong needs room to swing", PRACTICE, NO_SOURCE, straps.slot_to_stitching
    ),
    Rule(says.SLOT_OFF_FOLD, "the prong comes out on the bar", PRACTICE, NO_SOURCE, straps.slot_off_fold),
    Rule(
        says.PRONG_IN_SLOT,
        "a prong that is held fast cuts into its slot",
        PRACTICE,
        NO_SOURCE,
        straps.prong_in_slot,
    ),
    Rule(
        says.EVEN_STRAP_HOLES,
        "with an even number no hole is the middle one, which the size is measured to",
        PRACTICE,
        NO_SOURCE,
        straps.even_strap_holes,
    ),
    Rule(
        says.STRAP_HOLES_OFF_CENTER,
        "the strap would sit askew, or not be its size",
        PRACTICE,
        NO_SOURCE,
        straps.strap_holes_off_center,
    ),
    Rule(
        says.WINDOW_TOO_LARGE,
        "it falls out",
        "the figures of the drawing",
        DERIVED,
        contents.window_too_large,
    ),
    Rule(
        says.WINDOW_OVERLAP,
        "with less it slips out when the leather gives",
        PRACTICE,
        NO_SOURCE,
        contents.window_overlap,
    ),
    Rule(
        says.INSERT_TOO_SMALL,
        "the window stays open there",
        "the figures of the drawing",
        DERIVED,
        contents.insert_too_small,
    ),
    Rule(says.INSERT_GLUE, "less holds no glue", PRACTICE, BY_HEART, contents.insert_glue),
    Rule(
        says.INSERT_IN_SEAM,
        "the awl would go through it, and film tears along a row of holes",
        PRACTICE,
        NO_SOURCE,
        contents.insert_in_seam,
    ),
    Rule(
        says.CONTENT_BETWEEN_SEAMS,
        "the walls close round it, and take its thickness as well as its width",
        WALLS,
        DERIVED,
        contents.content_between_seams,
    ),
    Rule(
        says.CONTENT_PAST_OPENING,
        "the lips of an opening close round it",
        WALLS,
        DERIVED,
        contents.content_past_opening,
    ),
    Rule(
        says.PITCH_AND_THREAD,
        "thicker thread crowds its holes, thinner lies lost between them",
        PRACTICE,
        BY_HEART,
        leather.pitch_and_thread,
    ),
    Rule(
        says.SHORT_LAST_STITCH,
        "so short a stitch shows, and its two holes are nearly one",
        PRACTICE,
        NO_SOURCE,
        leather.short_last_stitch,
    ),
    Rule(
        says.NO_GRAIN,
        "cut across the back, so long a piece stretches in use",
        PRACTICE,
        NO_SOURCE,
        leather.no_grain,
    ),
    Rule(says.GRAIN_ACROSS, "so long a piece stretches in use", PRACTICE, NO_SOURCE, leather.grain_across),
    Rule(
        says.SHARP_FOLD,
        "bent sharper than it is thick, the grain side cracks",
        PRACTICE,
        NO_SOURCE,
        leather.sharp_fold,
    ),
    Rule(
        says.THICK_TURN,
        "thicker, the turned edge is clumsy and its corners do not close",
        PRACTICE,
        NO_SOURCE,
        leather.thick_turn,
    ),
    Rule(
        says.TURN_WIDTH,
        "a narrow turn lifts, a wide one puckers on curves",
        PRACTICE,
        BY_HEART,
        leather.turn_width,
    ),
)

BY_CODE: dict[str, Rule] = {rule.code: rule for rule in RULES}


def rule_with_code(code: str) -> Rule | None:
    return BY_CODE.get(code)
