"""How a ring of a vessel stands on the one below, wherever it is told."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.stages.stack.plan import Joint
from jigs.words.quantity import Quantity, ruled


def turned_on(joint: Joint) -> Iterator[Quantity]:
    """Where the tick of its label comes over the ring below, and the turn that makes; nothing over a disc."""
    if not joint.over:
        return
    side = "right" if joint.past >= 0 else "left"
    label = (
        f"Ring {joint.upper}: its tick {side} of the middle of segment {joint.over} of ring {joint.lower} by"
    )
    yield ruled(f"tick.{joint.upper}", label, abs(joint.past))
    way = "clockwise" if joint.turn < 0 else "counter-clockwise"
    yield Quantity(
        f"turn.{joint.upper}",
        f"that is, turned {way} from above on ring {joint.lower} by",
        abs(joint.turn),
        "angle",
    )
