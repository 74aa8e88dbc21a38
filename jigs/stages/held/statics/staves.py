"""What holds staves on their sled.

One frame: x across the cut, y away from the operator, z up from what the piece lies on. Lengths mm, forces N.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from geometry.hardware.hold_down import pin_from
from geometry.statics.contacts import Contact, Vector
from geometry.statics.holding import ABRASIVE, cutting_loads
from jigs.stages.held.statics.sleds import DOWN, OPERATOR, HeldPiece, held_down, lying
from jigs.stages.staves.layout import StaveSledLayout


def sled_pieces(sled: StaveSledLayout) -> Iterator[HeldPiece]:
    """A stave in both its cuts on its sled: toe, side, base, and a hold-down with abrasive paper and points."""
    for cut in (1, 2):
        top, (toe, corner, end) = sled.piece(cut), sled.stop_corner(cut)
        inward = sled.lean if cut == 2 else 0.0
        (a, b, c, d), lean, tall = top, sled.lean, sled.height
        bottom = [(a[0] + inward, a[1]), (b[0] - lean, b[1]), (c[0] - lean, c[1]), (d[0] + inward, d[1])]
        left, right = sled.foot
        pin = right - pin_from(right - left)
        outs = (sled.hold.pins[0], sled.hold.pins[-1])
        yield held_down(
            f"stave on its sled, edge {cut}",
            (
                *lying([(x, y, 0.0) for x, y in bottom]),
                *(Contact((x, y, 0.0), _square(corner, toe), "toe") for x, y in (corner, toe)),
                *(Contact((x, y, 0.0), _square(end, corner), "stop") for x, y in (corner, end)),
            ),
            cutting_loads(
                [(f"{z:.0f} up", (x, y, z)) for x, z in ((0.0, 0.0), (lean, tall)) for y in (b[1], c[1])],
                DOWN,
                OPERATOR,
            ),
            [(x, out) for x in (left, right) for out in outs],
            [(pin, out) for out in outs],
            tall,
            ABRASIVE,
        )


def _square(a: tuple[float, float], b: tuple[float, float]) -> Vector:
    """To the left of the way from a to b, level."""
    long = hypot(b[0] - a[0], b[1] - a[1])
    return ((a[1] - b[1]) / long, (b[0] - a[0]) / long, 0.0)
