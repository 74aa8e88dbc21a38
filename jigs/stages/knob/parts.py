"""The gauge of a lid's knob: x is the radius, y the height over the lid's top."""

from __future__ import annotations

import numpy as np

from geometry.plane.contour import Contour
from jigs.parts.gauges.edge import blunted, edge_plate, form_of
from jigs.parts.gauges.plate import HANG, MARGIN, gauge_panel, hang_hole
from jigs.parts.part import Dimension, Part
from jigs.parts.probes import EdgeGap
from jigs.plans.vessel import VesselPlan

NAME = "knob-gauge"
BESIDE = 4.0  # between the widest place and the lettering


def knob_gauge(plan: VesselPlan) -> list[Part]:
    """One; none where there is no knob."""
    knob = plan.knob
    if knob is None:
        return []
    panel = gauge_panel(plan, "KNOB GAUGE", "← AXIS", "LID ↓")
    cut = blunted(knob.edge, plan.job.workshop)
    end, (low, top) = cut.edge.end, (0.0, knob.edge.top)
    left = knob.edge.radii(low, top)[1] + BESIDE
    right, high = left + panel.size[0], max(top, panel.size[1])
    outline = cut.edge.reversed().vertices.tolist()
    places = [*cut.below, (right, low), (right, high), (left - BESIDE / 2, high)]
    if high - top > 1e-6:
        places.append((left - BESIDE / 2, top))
    corners = [(x, y, 0.0) for x, y in (*places, *cut.above)]
    part = edge_plate(
        plan,
        NAME,
        "profile of the lid's knob",
        Contour(np.array([*outline, *corners])),
        (hang_hole(right - MARGIN - HANG, high - MARGIN - HANG),),
        panel.lettering(left, high),
        (
            form_of(cut.edge),
            Dimension("foot to upper end", top, EdgeGap((right - 1.0, low), ((end[0] + left) / 2, top)))
            if high - top < 1e-6
            else Dimension(
                "foot to its back's upper end", high, EdgeGap((right - 1.0, low), (right - 1.0, high))
            ),
        ),
        (
            "Its lower end is level with the shoulder over the tenon. An even line of light all along: it is done.",
            *cut.notes(plan.job.unit),
        ),
    )
    return [part]
