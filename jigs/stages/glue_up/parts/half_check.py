"""The plate that checks whether both ends of a half lie in one plane."""

from __future__ import annotations

from math import cos

from geometry.readback.alike import FreeEdge
from jigs.parts.part import Part
from jigs.parts.plate import Plate
from jigs.parts.sheet import straight_edge
from jigs.plans.torus import TorusPlan

HEIGHT = 55.0
RELIEF = 3.0  # over the hole


def half_check(plan: TorusPlan) -> Part:
    """A straight edge over both ends of a half, clear of the hole between them. y = 0 is the plane of the ends."""
    blank, c = plan.blank, cos(plan.blank.half_wedge)
    wide, gap = blank.outer_radius / c + 8, blank.inner_radius / c - 3
    plate, land = Plate(plan, straight_edge(wide, gap, RELIEF, HEIGHT)), (wide + gap) / 2
    plate.hang((wide, HEIGHT))
    plate.letter("HALF: BOTH ENDS IN ONE PLANE", "STRAIGHT EDGE ↓")
    for side, x in (("left", -land), ("right", land)):
        plate.gap(f"{side} land below the middle", RELIEF, (0.0, RELIEF), (x, 0.0))
    plate.edge("land", wide - gap, (land, 0.0), "differ")
    return plate.part(
        "half-check",
        "a straight edge for both ends of a half: no light under it",
        free=(
            *(FreeEdge((x, HEIGHT / 2), 5.0, 50.0) for x in (-wide, wide)),
            *(FreeEdge((x, RELIEF / 2), 1.5, 20.0) for x in (-gap, gap)),
            FreeEdge((0.0, RELIEF), 2.0, 1.0),
        ),
    )
