"""Outer profile gauges: the outside's concave twin, in pieces on a rail where one would be too long.

Coordinates: the axis is x = 0, the finished foot y = 0, up towards the rim. The plate's plane holds the axis,
and the work is round and lies inside the edge: only the plate's middle line touches it, so that no bevel is
needed however thick the plate.
"""

from __future__ import annotations

import numpy as np

from geometry.plane.contour import Contour, circle
from geometry.plane.profile import Profile
from jigs.parts.gauges.edge import edge_plate, form_of, marked
from jigs.parts.gauges.ticks import BRACKETS, SAME, SIZES, Tick
from jigs.parts.gauges.tips import Blunted, blunted
from jigs.parts.part import Dimension, EdgeGap, HoleDiameter, Part
from jigs.parts.places import LATHE_CAUTION, hang_hole
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.plan.vessel import GaugePiece, VesselStage
from jigs.words.lengths import show_length


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
    gauges, unit = plan.gauges, plan.job.unit
    foot, widest = show_length(-gauges.faceplate, unit), show_length(plan.stack.waste_across[1], unit)
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
