"""Segments sawn from strips, or from a layup's blocks, on their carrier; and those of flat rings on their own sled."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.stages.boards.plan import Scrap
from jigs.stages.boards.runs import kept_long, segments_sawn
from jigs.stages.segments.parts import segment_carrier
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import CHECKED, SETTING, each
from jigs.work.model import Check, Operation, Rack, Reading, Stage, at_table_saw, right_if, uses
from jigs.work.steps import DRY_RING, PLATE, split
from jigs.work.woods import by_wood

ID = "segments"
STRIP = (
    "Cut the square end off a new strip first, the stop swung clear.",
    "Lay the strip against the fence, the tip of its slanted end up, and push the tip to the pinned stop.",
    "Press both levers down: one hold-down grips the strip, the other the segment.",
    "Saw off, carrier drawn back clear of the blade: tug at both pieces. What moves is not cut.",
    "Pull the pin and swing the stop clear.",
    "Switch on, push through until the strip is cut, switch off.",
    "When the blade stands still, lift the segment out with a stick.",
    "Flip the strip top face down, its sawn end still at the blade, and start again.",
)
RAIL = (
    "First cut: lay the rail against the fence, outer sides down, the first block's outer corner at the kerf.",
    "Press the levers down, swing the stop clear, and cut that end.",
    "Second cut: flip the rail, outer sides up, the blocks against the fence, the mitred end at the stop.",
    "Press both levers down.",
    "Saw off, carrier drawn back clear of the blade: tug at both pieces. What moves is not cut.",
    "Pull the pin, swing the stop clear, and cut: the segment comes free.",
    "When the blade stands still, lift the segment out with a stick; then the next block.",
)
SCRAP_END = (
    "Glue this ring too, with the other scrap rings: it stays uncut until the end wedge is tried on it."
)
SCRAP_SLIPS = "Put its slips in then: without them its core is too small for the draw rod's plug."
SCRAP_SPARE = "Glue this ring too: it is a spare for the trial of the wedge cuts."


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Tilt, stop, a trial ring, all segments; of a layup its rail split off; the sled for flat rings if asked for."""
    return [
        _tilt(plan, rack),
        _stop(plan, rack),
        *_trial(plan, rack),
        *_scrap(plan),
        _mitre(plan),
        *([split(ID, segments_sawn(plan), plan.left)] if plan.layups else []),
        *flat_sled(plan, rack, ID),
    ]


def _cautions(plan: TorusPlan) -> tuple[str, ...]:
    return (
        ("table-saw.stop", "saw.bin", "table-saw")
        if plan.segments_on == "table saw"
        else ("saw.bin", "bandsaw.guides")
    )


def _tilt(plan: TorusPlan, rack: Rack) -> Operation:
    tilted = "blade" if plan.segments_on == "table saw" else "table"
    return Operation(
        f"{ID}.tilt",
        f"Tilt the {tilted} to the mitre angle and set the height of the cut.",
        plan.segments_on,
        how=(
            f"Tilt until no light shows between the blade and the tilt plate; the {tilted}'s scale is too coarse.",
            f"Lock the {tilted} and look again: locking may move it.",
        ),
        settings=(
            Quantity("tilt", f"{tilted.capitalize()} tilt", plan.blank.mitre, "angle"),
            ruled("blade-height", plan.cutting.carrier.called_height, plan.cutting.carrier.blade_height),
        ),
        jigs=uses(rack.named("tilt-plate"), notes=True),
        checks=right_if(
            "plate",
            "Tilt plate against the flat of the blade, between the teeth: no light along it",
            if_not="tilt again; 0.1° here opens each joint of a ring by 0.2°",
        ),
        cautions=(*(("saw.guard-sled",) if plan.segments_on == "table saw" else ()), *_cautions(plan)[-1:]),
        minutes=SETTING,
    )


def _stop(plan: TorusPlan, rack: Rack) -> Operation:
    main = rack.named("segment-base", "segment-stop", "segment-hold-strip", "segment-hold-segment")
    how = (
        "Set the carrier on the saw; it slides freely and does not rock.",
        "Pin the stop. Lay a rule flat on the base, along the fence, from the stop's nose to the saw's own cut.",
        "Read it at the cut's near edge in the base's top: there the tilted blade's kept side comes through.",
        "Renew abrasive paper that is smooth: friction holds the pieces.",
        "Look at the pins under the fingers: sharp, brass, all there.",
    )
    return Operation(
        f"{ID}.stop",
        "Set up the segment carrier and its stop.",
        plan.segments_on,
        how=how,
        settings=(
            Quantity("stop", "Stop to the blade's kept side, at the base's top", plan.cutting.carrier.stop),
        ),
        jigs=uses(
            [*main, *(part for part in rack.named("segment") if part.notes and part not in main)], notes=True
        ),
        checks=right_if(
            "stop",
            "Callipers flat on the base, along the fence, from the stop's nose to that edge: as set",
            if_not="too far: stick tape on the nose; too near: sand it",
        ),
        cautions=_cautions(plan),
        minutes=SETTING,
    )


FIRST = 2  # segments of scrap that are checked before the trial ring is cut


def _trial(plan: TorusPlan, rack: Rack) -> Iterator[Operation]:
    """Two by the moves that all are cut by, then a ring."""
    for scrap in plan.wood.scraps:
        if scrap.of == "ring":
            yield _first(plan, scrap, rack)
            yield _trial_ring(plan, scrap)


def _first(plan: TorusPlan, scrap: Scrap, rack: Rack) -> Operation:
    return Operation(
        f"{ID}.first",
        "Cut two segments of scrap, move by move, and check them.",
        plan.segments_on,
        how=STRIP,
        makes=(FIRST, "scrap segment"),
        jigs=uses(rack.named(*scrap.jigs), notes=True),
        checks=(
            Check("plate", PLATE, if_not="smaller at the outer edge: tilt more; larger: tilt less"),
            _edges(plan),
        ),
        cautions=_cautions(plan),
        minutes=each(FIRST, plan.cutting.seconds / 60, CHECKED),
    )


def _trial_ring(plan: TorusPlan, scrap: Scrap) -> Operation:
    return Operation(
        f"{ID}.trial",
        "Cut the other segments of a ring in scrap, and close it dry in a band.",
        plan.segments_on,
        how=(
            "Cut them as you cut the first two, once both checks hold.",
            *(
                ("Close it without slips for now: it is smaller, and its angles are the same.",)
                if plan.blank.spacer
                else ()
            ),
            SCRAP_END if plan.job.form.end_spare else SCRAP_SPARE,
            *((SCRAP_SLIPS,) if plan.blank.spacer else ()),
        ),
        makes=(scrap.segments - FIRST, "scrap segment"),
        checks=right_if(
            "ring",
            "Dry ring in a band, held to a window: no light at any joint",
            if_not="light at the outside: tilt more; light at the hole: tilt less",
        ),
        cautions=_cautions(plan),
        readings=DRY_RING,
        minutes=each(scrap.segments - FIRST, plan.cutting.seconds / 60, CHECKED),
    )


def _scrap(plan: TorusPlan) -> Iterator[Operation]:
    """At the same setting, before the saw is set to anything else."""
    for scrap in plan.wood.scraps:
        if scrap.of == "quarter":
            yield Operation(
                f"{ID}.scrap",
                "Cut the segments of the scrap rings, on which the wedge cuts are tried.",
                plan.segments_on,
                how=("Cut them as you cut the good ones.", "Write SCRAP on them."),
                makes=(scrap.count * scrap.segments, "scrap segment"),
                checks=(_edges(plan),),
                cautions=_cautions(plan),
                minutes=each(scrap.count * scrap.segments, plan.cutting.seconds / 60),
            )


def _edges(plan: TorusPlan) -> Check:
    return Check(
        "edges",
        "Calliper over the outer and the inner edge",
        (
            calliper("outer-edge", "Outer edge", plan.cutting.carrier.cut.outer_edge),
            calliper("inner-edge", "Inner edge", plan.cutting.carrier.cut.inner_edge),
        ),
        "both too long: stick tape on the stop's nose; both too short: sand it",
    )


def _mitre(plan: TorusPlan) -> Operation:
    """A strip is cut piece by piece; a rail of blocks has two cuts to each."""
    lots = [lot for lot in plan.wood.lots if lot.piece == "segment"]
    pieces, edges = segments_sawn(plan), _edges(plan)
    return Operation(
        f"{ID}.mitre",
        "Cut the segments on the carrier." if not plan.layups else "Cut the segments from the layup's rails.",
        plan.segments_on,
        how=RAIL if plan.layups else STRIP,
        makes=(pieces, "segment"),
        rings=plan.left,
        settings=by_wood("Segments", ((lot.species, lot.wanted) for lot in lots)),
        known=kept_long(plan, [lot.number for lot in lots]),
        checks=(edges,),
        cautions=_cautions(plan),
        readings=(
            Reading("outer-edge", "Outer edge, every 20th segment", edges.sizes[0], max(3, pieces // 20)),
        ),
        minutes=each(pieces, plan.cutting.seconds / 60),
    )


def plan_angle_sled(plan: TorusPlan) -> list[Part]:
    """Every part of the sled; none unless the job asks for it, nor is any of this loaded then."""
    layout = plan.cutting.plan_angle
    if layout is None:
        return []
    from jigs.stages.flat_segments.parts.sled import plan_angle_parts

    return plan_angle_parts(plan, layout)


STAGE: Stage[TorusPlan] = Stage(ID, "Cut the segments", operations, jigs=(segment_carrier, plan_angle_sled))


def flat_sled(plan: TorusPlan, rack: Rack, stage: str) -> list[Operation]:
    """Nothing where the job asks for none."""
    layout = plan.cutting.plan_angle
    if layout is None:
        return []
    return [
        at_table_saw(
            f"{stage}.flat-sled",
            "For flat rings beside this one: cut their segments on the plan-angle sled.",
            how=(
                "Set the blade upright; the joint plate fills the angle between the fences.",
                "Push the strip to the stop, all levers down, pin out, stop swung clear, then cut.",
                "Slide the strip across to the other fence, the same face up, for the next cut.",
            ),
            settings=(
                Quantity("mitre", "Each fence off square", layout.mitre, "angle"),
                Quantity("stop", "Stop from the blade's kept side, square to it", layout.stop),
                ruled("blade-height", "Blade above the table", layout.saw_height),
            ),
            jigs=uses((part for part in rack.named("plan-angle") if part.notes), notes=True),
            trial="a scrap strip: two segments, then a whole ring of them",
            checks=right_if(
                "edge",
                "Calliper over the outer edge",
                (calliper("outer-edge", "Outer edge as cut", layout.outer_edge),),
                f"move the stop {layout.stop_for(1.0):.2f} × the error, square to the blade",
            ),
            cautions=("table-saw.stop", "saw.bin", "table-saw"),
            minutes=SETTING,
        )
    ]
