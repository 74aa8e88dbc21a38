"""What is said of gluing a ring, whichever form it is for."""

from __future__ import annotations

from jigs.plans.plan import Plan
from jigs.stages.glue_up.plan import GlueStage

END_GRAIN = "Brush thin glue on every end first and wait a minute: end grain drinks glue."
TAPED = (
    "Lay the segments on the sheet's outlines, outer sides up, by its numbers and woods from left to right.",
    "Pencil each segment's number and arrow from the sheet on its outer side.",
    "Press masking tape over the row, from before segment 1 to the last.",
)  # the sheet's order holds only with outer sides up
SLIPPED_DRY = (
    "Put the strip or slip into every joint, dry, its outer end level with the outside: one that stands out there "
    "takes the band's pull off the segments. Shorten those that meet in the middle."
)
SLIPPED = (
    "Put the strip or slip into every joint: glue on both of its faces, its outer end level with the outside."
)
NAMED = 4  # joints of a ring that are named
WHOLE, HALVES = "rings", "halves"  # what the plan calls the last two stages of a ring


def drinks(plan: Plan) -> bool:
    """Whether end grain meets end grain in the joints between segments."""
    return any(joint.sort == "mitres" and joint.end_to_end for joint in plan.wood.grain.joints)


def arcs_closed(stage: GlueStage, comes: str, segments: int, slips: bool) -> tuple[str, ...]:
    """How arcs of a ring of so many segments are glued in its band: all, or as many as the glue leaves time for."""
    where = f"Glue all joints but those where two {comes}s meet{_met(stage, segments)}"
    paper = f"{where}: {_slip_apart(comes, segments) if slips else 'put waxed paper in these'}."
    if stage.whole_bands:
        return (paper, "Close the whole ring in one band, so that each piece keeps its place.")
    return (
        paper,
        f"Glue no more {comes}s of a ring at a time than listed; put waxed paper in the joints of the others too.",
        "Close the whole ring in one band each time, so that each piece keeps its place.",
    )


def _slip_apart(comes: str, segments: int) -> str:
    """A half with one slip at its ends would have them in two planes, and truing would taper that slip."""
    if segments % 2:
        return "glue the slip to one of them, waxed paper on its other face"
    if comes == "half ring":
        return "glue both slips to the same half, waxed paper on their other faces"
    return (
        "glue the slip to one of them, waxed paper on its other face; both of those that close the ring, opposite "
        "each other, to the same half"
    )


def _met(stage: GlueStage, segments: int) -> str:
    """Between which segments of the tape sheet two of the ring's arcs meet, where these are alike and few."""
    each, left = divmod(segments, stage.in_band)
    if left or not 2 <= stage.in_band <= NAMED:
        return ""
    ends = [k * each for k in range(1, stage.in_band + 1)]
    pairs = [f"{end} and {end % segments + 1}" for end in ends]
    return f", of segments {', '.join(pairs[:-1])}, and {pairs[-1]}"


def wiped(hole: str, taped: bool) -> str:
    """What follows once the band is tight."""
    tape = "; peel the tape off once it is dry" if taped else ""
    return f"Wipe off the glue that comes out, on the outside and in the {hole}{tape}."
