"""A block of scrap on the faceplate, or in the chuck, on which a piece is glued with paper for one turning."""

from __future__ import annotations

from geometry.lathe.turning import rim_speed_limits
from jigs.plans.vessel import VesselPlan
from jigs.words.quantity import Quantity, ruled
from jigs.work.lathe import speeds
from jigs.work.model import Goods
from jigs.work.supplies import block

SAW = "Saw the waste block listed out of dry hardwood scrap, one face planed flat; screw the faceplate to its other."
SLOW, FAST = 600, 900  # rpm: a paper joint holds little, however small the piece; common practice, no source
IN_CHUCK = 50.0  # mm long, of a block that a chuck holds; common practice, no source


def on_block(
    plan: VesselPlan, across: float, swing: float, long: float | None = None
) -> tuple[Quantity, ...]:
    """How fast a piece that swings so wide usually turns on paper, and how wide and thick its block is; mm."""
    thick = plan.job.rings.waste_block if long is None else long
    slow, fast = rim_speed_limits(swing)
    return (
        *speeds((min(slow, SLOW), min(fast, FAST))),
        ruled("block.across", "Waste block, across", across),
        ruled("block.thick", "Waste block, thick, at least", thick, bound="least"),
    )


def block_goods(plan: VesselPlan, of: str, across: float, long: float | None = None) -> tuple[Goods, ...]:
    """What the block is sawn from."""
    return block(f"waste block for {of}", plan.job.rings.waste_block if long is None else long, across)
