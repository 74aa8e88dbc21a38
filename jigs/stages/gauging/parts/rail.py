"""The bar that the pieces of an outer gauge are bolted to, the same for every stage."""

from __future__ import annotations

from math import pi

from geometry.hardware.fittings import called
from geometry.plane.contour import rectangle
from geometry.strokes.lettering import text_width
from jigs.parts.part import Lettering, Line, Mark, Part
from jigs.parts.places import ENGRAVED, LATHE_CAUTION, LEAST_TEXT, LINE_PITCH, centred
from jigs.parts.plate import Plate
from jigs.plans.vessel import VesselPlan

INSET = 2.0  # of lettering and lines from the bar's edges
BESIDE_BOLTS = 6.0  # from the bolts' line to the lettering along the bar


def rail(plan: VesselPlan) -> list[Part]:
    """One straight bar along the backs; none where the gauge is of one piece."""
    return [_rail(plan)] if plan.gauges.railed else []


def _rail(plan: VesselPlan) -> Part:
    gauges, body = plan.gauges, plan.gauges.body
    low, high = gauges.faceplate, gauges.pieces[-1].high
    plate, middle = Plate(plan, rectangle(body.rail, low, body.back, high)), (low + high) / 2
    for piece in gauges.pieces:
        for k, y in enumerate(piece.bolts, 1):
            plate.hole((body.bolts, y), body.bolt_hole, f"hole {k} of piece {piece.number}")
    plate.gap("across the bar", body.back - body.rail, (body.rail, middle), (body.back, middle))
    plate.marks += [*_butts(plan), *_along(plan, middle, high - low)]
    return plate.part(
        "gauge-rail",
        "holds the pieces of an outer gauge in line",
        (
            f"Lay the pieces of one stage on it, back edges flush, ends butted; put two {called(body.bolt)} bolts "
            "through each. For the next stage change the pieces.",
            "Stand its lower end on the faceplate with the first piece.",
        ),
    )


def _butts(plan: VesselPlan) -> list[Mark]:
    """A line where two pieces meet, and the number of each piece over its lower end."""
    body, marks = plan.gauges.body, list[Mark]()
    left = body.bolts - BESIDE_BOLTS + INSET
    for piece in plan.gauges.pieces:
        if piece.number > 1:
            ends = ((left, piece.low), (body.back - INSET, piece.low))
            marks.append(Line(ends, f"pieces {piece.number - 1} and {piece.number} meet", witness=True))
        marks.append(Lettering(str(piece.number), (left, piece.low + INSET), LEAST_TEXT))
    return marks


def _along(plan: VesselPlan, middle: float, length: float) -> list[Mark]:
    """Text along the bar: its rows read up the bar, so that what is over them is towards the axis."""
    rows = (f"{plan.job.title.upper()} GAUGE RAIL", "← FACEPLATE, AXIS ↑", ", ".join(LATHE_CAUTION))
    height = min(ENGRAVED, (length - 2 * INSET) / max(text_width(row, 1.0) for row in rows))
    left = plan.gauges.body.rail + INSET + height / 2
    return [
        centred(row, (left + k * LINE_PITCH * height, middle), height, pi / 2) for k, row in enumerate(rows)
    ]
