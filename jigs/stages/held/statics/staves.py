"""What holds staves on their sled, and what does not hold a ring cut off a tube of staves on a plain crosscut sled.

One frame: x across the cut, y away from the operator, z up from what the piece lies on. Lengths mm, forces N.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, hypot, pi, sin, tan

from geometry.hardware.hold_down import pin_from
from geometry.statics.contacts import Contact, Vector
from geometry.statics.holding import ABRASIVE, cutting_loads
from jigs.stages.held.statics.sleds import DOWN, OPERATOR, HeldPiece, held_down, lying
from jigs.stages.staves.layout import StaveSledLayout


def sliced_ring(count: int, apothem: float, thickness: float, pins: bool = False) -> HeldPiece:
    """A ring as it is cut off a tube of `count` staves that lies on one of its flats, the fence behind it.

    The hold-down bears along the flat on top, the stop is swung clear. With `pins` it has two points in the wood.
    """
    corners = _polygon(count, apothem)
    half = apothem * tan(pi / count)
    behind = min(y for y, _ in corners)
    fence = [(y, z) for y, z in corners if y < behind + 1e-6]
    ends = [(thickness / 2, y) for y in (-half / 2, half / 2)]
    return held_down(
        "ring cut off a tube of staves",
        (
            *lying([(x, y, 0.0) for x in (0.0, thickness) for y in (-half, half)]),
            *(Contact((x, y, z), (0.0, 1.0, 0.0), "fence") for x in (0.0, thickness) for y, z in fence),
        ),
        cutting_loads([(f"{z:.0f} up", (0.0, y, z)) for y, z in corners], DOWN, OPERATOR),
        ends,
        ends if pins else (),
        2 * apothem,
    )


def _polygon(count: int, apothem: float) -> list[tuple[float, float]]:
    """(y, z) of the corners of a regular polygon that lies on a flat."""
    radius, turns = apothem / cos(pi / count), [pi * (2 * k + 1) / count for k in range(count)]
    return [(radius * sin(turn), apothem - radius * cos(turn)) for turn in turns]


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
