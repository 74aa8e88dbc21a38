"""A block of scrap on the faceplate, or in the chuck, on which a piece is glued with paper for one turning."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.blanks.ring_stack import Ring
from geometry.lathe.turning import rim_speed_limits
from jigs.plans.vessel import VesselPlan
from jigs.words.quantity import Quantity, ruled
from jigs.work.lathe import speeds
from jigs.work.model import Goods
from jigs.work.supplies import block

SAW = (
    "Saw the waste block listed out of dry hardwood scrap, glued up where none is so wide, one face planed flat; screw "
    "the faceplate to its other."
)
CIRCLE = (
    "Lathe running slowly, pencil a circle on the block, as wide as listed: the ring's corners lie on it."
)
ROUND = 3.0  # mm of block round that circle
SLOW, FAST = 600, 900  # rpm: a paper joint holds little, however small the piece; common practice, no source
IN_CHUCK = 50.0  # mm long, of a block that a chuck holds; common practice, no source


def on_block(
    plan: VesselPlan, across: float, swing: float, long: float | None = None, most: int = FAST
) -> tuple[Quantity, ...]:
    """How fast a piece that swings so wide usually turns on paper, and how wide and thick its block is; mm.

    A heavy side may spin at `most` rpm."""
    thick = plan.job.rings.waste_block if long is None else long
    slow, fast = rim_speed_limits(swing)
    return (
        *speeds((min(slow, SLOW, most * SLOW // FAST), min(fast, FAST, most))),
        ruled("block.across", "Waste block, across", across),
        ruled("block.thick", "Waste block, thick, at least", thick, bound="least"),
    )


def on_ring_block(plan: VesselPlan, rings: Sequence[Ring], most: int) -> tuple[Quantity, ...]:
    """The same for rings, with the circle of each one's corners."""
    across = ring_block(rings)
    circles = (
        ruled(f"circle.{ring.number}", f"Circle for ring {ring.number}", 2 * ring.radius) for ring in rings
    )
    return (*circles, *on_block(plan, across, across, most=most))


def ring_block(rings: Sequence[Ring]) -> float:
    """How wide a block is on which each of these rings finds its circle; mm."""
    return max(2 * ring.radius for ring in rings) + 2 * ROUND


def block_goods(plan: VesselPlan, of: str, across: float, long: float | None = None) -> tuple[Goods, ...]:
    """What the block is sawn from."""
    return block(f"waste block for {of}", plan.job.rings.waste_block if long is None else long, across)
