"""Outer profile gauges: the outside's concave twin, in pieces on a rail where one would be too long.

Coordinates: the axis is x = 0, the finished foot y = 0, up towards the rim. The plate's plane holds the axis,
and the work is round and lies inside the edge: only the plate's middle line touches it, so that no bevel is
needed however thick the plate.
"""

from __future__ import annotations

from math import pi

import numpy as np

from geometry.hardware.fittings import called
from geometry.plane.contour import Contour, circle, rectangle
from geometry.plane.profile import Profile
from geometry.strokes.lettering import text_width
from jigs.parts.gauges.edge import BRACKETS, SAME, SIZES, Blunted, Tick, blunted, edge_plate, form_of, marked
from jigs.parts.part import Dimension, Lettering, Line, Mark, Part
from jigs.parts.places import ENGRAVED, LATHE_CAUTION, LEAST_TEXT, LINE_PITCH, centred, hang_hole
from jigs.parts.plate import Plate
from jigs.parts.probes import EdgeGap, HoleDiameter
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.plan.vessel import GaugePiece, VesselStage

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


def outside_gauges(plan: VesselPlan) -> list[Part]:
    """Every piece of every stage, the roughest stage first, each from the faceplate up."""
    return [_piece(plan, stage, piece) for stage in plan.gauges.stages for piece in plan.gauges.pieces]


def _piece(plan: VesselPlan, stage: VesselStage, piece: GaugePiece) -> Part:
    whole = stage.outside.between(max(piece.low, 0.0), piece.high)
    cut = blunted(whole, plan.job.workshop, plan.gauges.body.stand if piece.number == 1 else None)
    edge = cut.edge
    outline = _outline(plan, piece, cut)
    holes = _holes(plan, piece, outline)
    number = f"-{piece.number}" if plan.gauges.railed else ""
    return edge_plate(
        plan,
        f"outside-gauge-{stage.name}{number}",
        f"profile of the outside, {stage.label.lower()}" + (f", piece {piece.number}" if number else ""),
        outline,
        holes,
        marked(plan, edge, outline, holes, outside_ticks(plan, stage), _text(plan, stage, piece)),
        (form_of(edge), *_ends(plan, piece, edge), *_bolts(plan, piece)),
        (*_notes(plan, piece), *cut.notes(plan.job.unit)),
    )


def _outline(plan: VesselPlan, piece: GaugePiece, cut: Blunted) -> Contour:
    """Down the working edge, along the foot or the butt, up the back."""
    body = plan.gauges.body
    foot = [] if piece.number > 1 else [(body.stand, 0.0), (body.stand, piece.low)]
    at_foot = bool(foot and cut.below) and cut.edge.start[0] > body.stand - 1e-6
    below = foot[1:] if at_foot else [*cut.below, *foot]
    corners = [*below, (body.back, piece.low), (body.back, piece.high), *cut.above]
    return Contour(np.array([*cut.edge.reversed().vertices.tolist(), *((*place, 0.0) for place in corners)]))


def _holes(plan: VesselPlan, piece: GaugePiece, outline: Contour) -> tuple[Contour, ...]:
    """For the rail's bolts, or to hang it by."""
    if not plan.gauges.railed:
        return (hang_hole(outline, (), (plan.gauges.body.back, piece.high)),)
    return bolt_holes(plan, piece)


def bolt_holes(plan: VesselPlan, piece: GaugePiece) -> tuple[Contour, ...]:
    """The same two in the piece and in the rail."""
    body = plan.gauges.body
    return tuple(circle((body.bolts, y), body.bolt_hole / 2).cw() for y in piece.bolts)


def _bolts(plan: VesselPlan, piece: GaugePiece) -> tuple[Dimension, ...]:
    body = plan.gauges.body
    names = ("lower bolt hole", "upper bolt hole")
    return tuple(
        Dimension(name, body.bolt_hole, HoleDiameter((body.bolts, y)))
        for name, y in zip(names, piece.bolts, strict=True)
        if plan.gauges.railed
    )


def _ends(plan: VesselPlan, piece: GaugePiece, edge: Profile) -> tuple[Dimension, ...]:
    """From the end that stands, on the faceplate or on the piece below, to the upper end."""
    body = plan.gauges.body
    inner = body.stand if piece.number == 1 else edge.start[0]
    low, high = ((inner + body.back) / 2, piece.low), ((edge.end[0] + body.back) / 2, piece.high)
    return (Dimension("foot to upper end", piece.high - piece.low, EdgeGap(low, high)),)


def _text(plan: VesselPlan, stage: VesselStage, piece: GaugePiece) -> tuple[str, ...]:
    stands = "ON FACEPLATE ↓" if piece.number == 1 else f"ON PIECE {piece.number - 1} ↓"
    count = (f"PIECE {piece.number} OF {len(plan.gauges.pieces)}",) if plan.gauges.railed else ()
    stated = () if stage.offset < SAME else (BRACKETS,)
    return (
        plan.job.title.upper(),
        "OUTSIDE GAUGE",
        stage.label,
        *stated,
        *count,
        stands,
        "← AXIS",
        *LATHE_CAUTION,
    )


def _notes(plan: VesselPlan, piece: GaugePiece) -> tuple[str, ...]:
    gauges = plan.gauges
    foot, widest = plan.job.show(-gauges.faceplate), plan.job.show(plan.stack.waste_across[1])
    rail = (
        "Butt the pieces of its stage end to end on the rail, bolt them, and stand the whole on the faceplate.",
    )
    on_faceplate = (
        f"Stand its foot on the faceplate, {foot} under the finished {plan.job.called.foot}, beside the waste block: "
        f"at most {widest} across.",
        "Where the faceplate is narrower than the waste block, hold a flat board against the block's back and stand "
        "the gauge on that.",
    )
    ends = ("Its upper end is level with the rim.",) if piece.number == len(gauges.pieces) else ()
    return (
        *(rail if gauges.railed else ()),
        *(on_faceplate if piece.number == 1 else ()),
        f"{SIZES} An even line of light all along: the stage is reached.",
        *ends,
    )


def outside_ticks(plan: VesselPlan, stage: VesselStage) -> tuple[Tick, ...]:
    """The stations, then the joints between rings, the most important first."""
    work = stage.work_outside
    places = [(s.height, s.radius, s.name) for s in plan.gauges.stations]
    places += [
        (joint.height, joint.outer, f"joint {joint.lower}-{joint.upper}")
        for joint in plan.stack.joints
        if joint.outer > 0.0 and work.bottom <= joint.height <= work.top
    ]
    return tuple(Tick(z, 2 * work.radius_at(z), 2 * radius, name) for z, radius, name in places)
