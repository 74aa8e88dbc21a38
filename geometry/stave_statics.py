"""What holds staves and tubes of staves without a sled of their own: a mitre gauge, or a plain crosscut sled.

One frame: x across the cut, into the kept side, y away from the operator, z up from what the piece lies on. A
hold-down stands for a screw clamp: it does not give, but without points in the wood it only presses down.
Lengths mm, angles radians, forces N.
"""

from __future__ import annotations

from math import cos, pi, sin, tan

from geometry.holding import Contact, Vector, cutting_loads
from geometry.sled_statics import DOWN, OPERATOR, HeldPiece, lying, pinned, pressed
from geometry.staves import StaveBand

FROM_ENDS = 0.25  # of a stave's length, from its ends to the pins of hold-downs, where it has them


def gauged_stave(band: StaveBand, pins: bool = False) -> HeldPiece:
    """A stave in the cut of its second edge: its narrow end against the gauge, its first edge against a stop.

    The outer face is up; the cut's plane meets the table at x = 0 and leans out over it. With `pins` the hold-down
    has two points in the wood.
    """
    wide, narrow = sorted((_inner(band, band.low), _inner(band, band.high)), reverse=True)
    long, thick, lean = band.slant_length, band.thickness, band.thickness * tan(band.blade_tilt)
    off = abs(band.gauge_angle)
    into: Vector = (sin(off), cos(off), 0.0)
    middle = (narrow + wide) / 4
    ends = [(middle, long * share) for share in (FROM_ENDS, 1 - FROM_ENDS)]
    return HeldPiece(
        "stave against the mitre gauge",
        (
            *lying([(0.0, 0.0, 0.0), (narrow, 0.0, 0.0), (wide, long, 0.0), (0.0, long, 0.0)]),
            *(Contact((x, 0.0, z), into, "gauge") for x in (0.0, narrow) for z in (0.0, thick)),
            Contact((narrow + lean, long * FROM_ENDS, thick), (-1.0, 0.0, 0.0), "stop"),
            *(pinned(ends, thick) if pins else ()),
        ),
        pressed(ends, thick),
        cutting_loads(
            [(f"{y:.0f} from the gauge", (x, y, z)) for y in (0.0, long) for x, z in ((0.0, 0.0), (-lean, thick))],
            DOWN,
            OPERATOR,
        ),
    )  # fmt: skip


def _inner(band: StaveBand, z: float) -> float:
    """Width of the inner face, which comes to a point at the least."""
    return max(0.0, band.inner_width(z))


def sliced_ring(count: int, apothem: float, thickness: float, pins: bool = False) -> HeldPiece:
    """A ring as it is cut off a tube of `count` staves that lies on one of its flats, the fence behind it.

    The hold-down bears along the flat on top, the stop is swung clear. With `pins` it has two points in the wood.
    """
    corners = _polygon(count, apothem)
    half = apothem * tan(pi / count)
    behind = min(y for y, _ in corners)
    fence = [(y, z) for y, z in corners if y < behind + 1e-6]
    ends = [(thickness / 2, y) for y in (-half / 2, half / 2)]
    return HeldPiece(
        "ring cut off a tube of staves",
        (
            *lying([(x, y, 0.0) for x in (0.0, thickness) for y in (-half, half)]),
            *(Contact((x, y, z), (0.0, 1.0, 0.0), "fence") for x in (0.0, thickness) for y, z in fence),
            *(pinned(ends, 2 * apothem) if pins else ()),
        ),
        pressed(ends, 2 * apothem),
        cutting_loads([(f"{z:.0f} up", (0.0, y, z)) for y, z in corners], DOWN, OPERATOR),
    )


def _polygon(count: int, apothem: float) -> list[tuple[float, float]]:
    """(y, z) of the corners of a regular polygon that lies on a flat."""
    radius, turns = apothem / cos(pi / count), [pi * (2 * k + 1) / count for k in range(count)]
    return [(radius * sin(turn), apothem - radius * cos(turn)) for turn in turns]
