"""How a ring of a vessel stands on the one below, for the step and for the ring's sheet."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.stages.stack.plan import Joint
from jigs.words.quantity import Quantity, ruled

SEEN = 0.05  # mm off the middle that a rule shows


def turned_on(joint: Joint) -> Iterator[Quantity]:
    """Where the tick of its label comes over the ring below, and the turn that makes; nothing over a disc."""
    if joint.over:
        yield from _told(joint, joint.upper, joint.lower, joint.over, joint.past)


def turned_under(joint: Joint) -> Iterator[Quantity]:
    """The same where the lower ring is glued on the upper one, both upside down."""
    if joint.under:
        yield from _told(joint, joint.lower, joint.upper, joint.under, joint.under_past)


def _told(joint: Joint, ring: int, on: int, segment: int, past: float) -> Iterator[Quantity]:
    """The way round is the same upside down, for the two rings change places."""
    id, tick = f"tick.{ring}", f"Ring {ring}: its tick"
    if abs(past) < SEEN:
        yield Quantity(id, f"{tick} over the middle of ring {on}'s segment", segment, "count")
    else:
        side = "right" if past > 0 else "left"
        yield ruled(id, f"{tick} {side} of the middle of segment {segment} of ring {on} by", abs(past))
    way = "clockwise" if joint.turn < 0 else "counter-clockwise"
    yield Quantity(
        f"turn.{ring}", f"that is, turned {way} from above on ring {on} by", abs(joint.turn), "angle"
    )
