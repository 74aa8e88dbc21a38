"""The plate that checks whether both ends of a half lie in one plane."""

from __future__ import annotations

from math import cos

from geometry.compared.alike import FreeEdge
from geometry.plane.contour import outline as contour
from jigs.asked.job_shop import Family
from jigs.forms.torus.plan import TorusPlan
from jigs.parts.part import Dimension, EdgeGap, EdgeLength, Part
from jigs.parts.places import hang_hole, lettered
from jigs.parts.sheet import cut_part

FAMILY: Family = "truing"
HEIGHT = 55.0
RELIEF = 3.0  # over the hole


def half_check(plan: TorusPlan) -> Part:
    """A straight edge over both ends of a half, clear of the hole between them. y = 0 is the plane of the ends."""
    blank = plan.blank
    c = cos(blank.half_wedge)
    wide, gap = blank.outer_radius / c + 8, blank.inner_radius / c - 3
    outline = contour(
        (-wide, 0.0),
        (-gap, 0.0),
        (-gap, RELIEF),
        (gap, RELIEF),
        (gap, 0.0),
        (wide, 0.0),
        (wide, HEIGHT),
        (-wide, HEIGHT),
    )
    hole = hang_hole(outline, (), (wide, HEIGHT))
    text = (plan.job.title.upper(), "HALF: BOTH ENDS IN ONE PLANE", "STRAIGHT EDGE ↓")
    land = (wide + gap) / 2
    return cut_part(
        plan,
        FAMILY,
        "half-check",
        "a straight edge for both ends of a half: no light under it",
        outline,
        (hole,),
        lettered(outline, (hole,), (), text),
        (
            *(
                Dimension(f"{side} land below the middle", RELIEF, EdgeGap((0.0, RELIEF), (x, 0.0)))
                for side, x in (("left", -land), ("right", land))
            ),
            Dimension("land", wide - gap, EdgeLength((land, 0.0)), "differ"),
        ),
        free=(
            *(FreeEdge((x, HEIGHT / 2), 5.0, 50.0) for x in (-wide, wide)),
            *(FreeEdge((x, RELIEF / 2), 1.5, 20.0) for x in (-gap, gap)),
            FreeEdge((0.0, RELIEF), 2.0, 1.0),
        ),
    )
