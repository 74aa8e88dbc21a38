"""Whether plies meet at the joints, and which segments have to be mirror images for it."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.blanks.layup import Layup
from jigs.asked.job_wood import LayupWish
from jigs.stages.layup.plan import Seams
from jigs.stages.layup.solve.pieces import left_and_right, up_and_down


def seams_of(wish: LayupWish, layup: Layup, rings: Sequence[tuple[int, int]], rings_in_all: int) -> Seams:
    """What joints ask for; `rings` are (number, count of segments), some of all that have the layup.

    Neighbours mirror each other in their joint's plane. A pattern that differs to the left and to the right of a
    segment's middle breaks at mitres unless segments alternate, and one that differs above and below it breaks
    between rings unless these alternate. A segment that differs in one way only is turned about its radial line
    for its mirror image; one that differs in both needs pieces of the other hand. Of one hand nothing alternates:
    plies meet only where whole repeats lie from joint to joint.
    """
    if wish.one_hand:
        return Seams(False, False, 0, 0)
    across = wish.plane != "end" and layup.sine > 0 and not left_and_right(wish.mirrored)
    up = wish.plane != "face" and layup.cosine > 0 and not up_and_down(wish.mirrored)
    return Seams(
        alternate_segments=across,
        alternate_rings=up and rings_in_all > 1,
        broken=sum(1 for _, count in rings if count % 2) if across else 0,
        other_hand=sum(_other(number, count, rings_in_all > 1) for number, count in rings)
        if across and up
        else 0,
    )


def _other(number: int, count: int, rings_alternate: bool) -> int:
    """Segments of a ring that mirror its first ring's first: every other one, as on a chessboard."""
    return (count + 1) // 2 if rings_alternate and number % 2 == 0 else count // 2
