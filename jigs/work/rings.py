"""What is said of gluing a ring, whichever form it is for."""

from __future__ import annotations

from jigs.plans.plan import Plan
from jigs.stages.glue_up.plan import GlueStage

END_GRAIN = "Brush thin glue on every end first and wait a minute: end grain drinks glue."
TAPED = (
    "Lay the segments on the sheet's outlines, outer sides up, by its numbers and woods from left to right.",
    "Pencil the sheet's number and its arrow on each outer side.",
    "Press masking tape over the row, from before segment 1 to the last.",
)  # the sheet's order holds only with outer sides up
SLIPPED_DRY = (
    "Put the strip or slip into every joint, dry, its outer end level with the outside: one that stands out there "
    "takes the band's pull off the segments. Shorten those that meet in the middle."
)
SLIPPED = (
    "Put the strip or slip into every joint: glue on both of its faces, its outer end level with the outside."
)
WHOLE, HALVES = "rings", "halves"  # what the plan calls the last two stages of a ring


def drinks(plan: Plan) -> bool:
    """Whether end grain meets end grain in the joints between segments."""
    return any(joint.sort == "mitres" and joint.end_to_end for joint in plan.wood.grain.joints)


def arcs_closed(stage: GlueStage, comes: str) -> tuple[str, ...]:
    """How short arcs of a ring are glued in its band: all of them, or as many as the glue leaves time for."""
    paper = f"Glue all joints but those where two {comes}s meet: put waxed paper in these."
    if stage.whole_bands:
        return (paper, "Close the whole ring in one band, so that each piece keeps its place.")
    return (
        paper,
        f"Glue no more {comes}s of a ring at a time than listed; put waxed paper in the joints of the others too.",
        "Close the whole ring in one band each time, so that each piece keeps its place.",
    )
