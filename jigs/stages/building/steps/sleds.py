"""Sleds for segments and staves: the carrier under the tilted blade, sleds with two fences, the one for staves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from geometry.records import replace
from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.building.steps import common
from jigs.stages.segments.layout import CarrierLayout
from jigs.words.quantity import Quantity, ruled
from jigs.work.hardware import bolts, pins, sunk
from jigs.work.model import Check, Goods, Operation, Rack, right_if
from jigs.work.supplies import abrasive

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan
    from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
    from jigs.stages.flat_segments.plan import StaveCut

CARRIER = common.Sled("segment-carrier", "segment carrier", "segment")
STAVES = common.Sled("stave-sled", "stave sled", "stave")
UPRIGHT = "Set the blade upright by a square."
SQUARE_TO_CUT = Check(
    "square-to-cut",
    "Square in the fresh cut, its other leg along the fence: no light",
    if_not="shim the fence where the light is, glue strips of card there, and run it again",
)


def segment_sleds(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """The carrier of mitred segments, and the sled with two fences where the job asks for it."""
    flat = plan.cutting.plan_angle
    fixed = common.Sled("plan-angle-sled", "plan-angle sled", "plan-angle")
    return [
        *(_carrier(plan, rack, plan.cutting.carrier) if rack.has("segment-base") else []),
        *(_two_fences(plan, rack, fixed, flat) if flat else []),
    ]


def flat_sleds(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """One for each count of segments, then that of staves."""
    found: list[Operation] = []
    for sled in plan.saws.sleds:
        end = f"-n{sled.segments}"
        named = common.Sled(f"flat-sled{end}", sled.called, "plan-angle", end)
        found += _two_fences(plan, rack, named, sled.layout)
    staves = plan.saws.staves
    return [*found, *(_staves(plan, rack, staves) if staves else [])]


def _carrier(plan: TorusPlan, rack: Rack, layout: CarrierLayout) -> list[Operation]:
    sled = common.Sled(CARRIER.id, CARRIER.what, CARRIER.head, saw="bandsaw" if layout.guide else "table saw")
    return [
        common.body(plan, rack, sled, (), more=_papered(plan, sled.parts(rack, "fence"))),
        *common.runner(plan, rack, sled),
        *common.guide(plan, rack, sled),
        common.holds(plan, rack, sled, ("hold-strip", "hold-segment")),
        _swing_stop(plan, rack, sled, (1 + layout.packings) * layout.sheet + layout.sheet),
        common.first_pass(
            sled,
            (
                Quantity("tilt", "Tilt", layout.cut.tilt, "angle"),
                ruled("height", layout.called_height, layout.blade_height),
            ),
            (SQUARE_TO_CUT,),
            "Set the tilt by its plate, not by the scale.",
            rack.named("tilt-plate"),
        ),
    ]


def _papered(plan: Plan, faces: list[Part]) -> tuple[Goods, ...]:
    """Fences, and as much on the base where that has some, by their whole faces."""
    area = sum(part.quantity * abs(part.outline.area) for part in faces)
    return (abrasive("80", area, plan.job.unit),)


def _swing_stop(plan: Plan, rack: Rack, sled: common.Sled, through: float) -> Operation:
    return common.built(
        plan,
        f"{sled.id}-stop",
        f"Bolt the swinging stop to the {sled.what}.",
        (
            f"Countersink the base below, {common.flush_text(plan)}.",
            "Bolt the arm to it, lock nut above: it turns, but does not rock.",
            "Push the pin in beside the arm; the arm must rest against it.",
        ),
        sled.parts(rack, "stop", "stop-packing"),
        (
            bolts("pivot", "Pivot bolt", 1, plan.job.fittings.bolt, through, flush=True),
            pins("Steel pin, across", plan.job.fittings.pin, plan.job.workshop.boards.sheet),
        ),
        right_if(
            "clear",
            "Pull the pin and swing the arm: it stays clear of strip, blade and levers",
            if_not="sand the arm until it swings free",
        ),
        glued=False,
        cautions=(),
    )


def _two_fences(plan: Plan, rack: Rack, sled: common.Sled, layout: PlanAngleLayout) -> list[Operation]:
    angle = Check(
        "joint-plate",
        "Joint plate between the two fences, before the glue grabs: no light along either edge",
        (Quantity("fences", "Each fence off square", layout.mitre, "angle"),),
        "turn the fence that shows light until the plate fills the angle, then clamp it",
    )
    gallows = ("Glue the gallows' feet into the base.",)
    fixed = layout.carriage is None
    return [
        common.body(
            plan,
            rack,
            sled,
            ("gallows",),
            gallows,
            (angle,),
            common.named(rack, f"joint-plate{sled.end}"),
            _papered(plan, 2 * sled.parts(rack, "fence")),
        ),
        *common.runner(plan, rack, sled),
        common.holds(plan, rack, sled, ("hold", "press")),
        _swing_stop(plan, rack, sled, 2 * layout.sheet) if fixed else _carriage(plan, rack, sled, layout),
        common.first_pass(
            sled,
            (ruled("height", "Blade above the table", layout.saw_height),),
            right_if(
                "fences",
                "Joint plate between the two fences once more, now dry: no light along either edge",
                if_not="glue card to the fence where the light is, until the plate touches along both",
            ),
            UPRIGHT,
        ),
    ]


def _carriage(plan: Plan, rack: Rack, sled: common.Sled, layout: PlanAngleLayout) -> Operation:
    from jigs.stages.flat_segments.layout.carriage import EDGE

    sheet = layout.sheet
    done = common.built(
        plan,
        f"{sled.id}-stop",
        f"Build the stop's carriage and put it on the {sled.what}.",
        (
            "Glue a shoe under each end of the plate, slot on slot, the far one flush with its edge.",
            "Stick one thickness of paper on each shoe: the arm turns between them.",
            "Drop the pivot bolt through plate and arm, the pin behind the arm's nose. Both end above the base.",
            f"Glue the guide on its line. Countersink the base below, {common.screw_text(plan)}, and screw it on.",
            f"Its nuts lie in bores, {common.nut_text(plan)}.",
            f"Countersink the base for the carriage's bolts, {common.flush_text(plan)}, and push them up through it.",
            "Put the carriage on, washers and nuts above.",
        ),
        sled.parts(rack, "carriage", "shoe", "stop", "guide"),
        (
            bolts("carriage", "Bolts of the carriage", 2, plan.job.fittings.bolt, 3 * sheet, flush=True),
            bolts("pivot", "Pivot bolt of the arm", 1, plan.job.fittings.bolt, 2 * sheet),
            sunk("guide", plan.job.fittings.screw, 2, 2 * sheet),
            ruled("shoe", "Shoes begin before the pivot by", EDGE),
            pins("Steel pin, across", plan.job.fittings.pin, plan.job.workshop.boards.sheet),
        ),
        (
            Check(
                "square",
                "Square between the guide and the blade's line on the base: no light",
                if_not="turn the guide before the glue grabs",
            ),
            Check(
                "slides",
                "The carriage slides along its guide and stays square; the arm swings clear under it",
                if_not="sand the shoe that binds",
            ),
        ),
    )
    return replace(done, figure=done.id)


def _staves(plan: VesselPlan, rack: Rack, cut: StaveCut) -> list[Operation]:
    layout = cut.layout
    return [
        common.body(plan, rack, STAVES, ()),
        *common.runner(plan, rack, STAVES),
        common.holds(plan, rack, STAVES, ("hold",)),
        pinned_stops(plan, rack, STAVES, ("stop-1", "stop-2")),
        common.first_pass(
            STAVES,
            (
                Quantity("tilt", "Tilt", layout.tilt, "angle"),
                ruled("height", "Blade above the table, along it", layout.saw_height),
            ),
            (SQUARE_TO_CUT,),
            "Set the tilt by its plate, not by the scale.",
            rack.named("stave-tilt-plate"),
        ),
    ]


def pinned_stops(plan: Plan, rack: Rack, sled: common.Sled, kinds: tuple[str, ...]) -> Operation:
    """Stops that are changed, all on the same pins."""
    return common.built(
        plan,
        f"{sled.id}-stops",
        f"Fit the stops of the {sled.what} on their two pins.",
        (
            "Glue the two pins into the base, upright.",
            "Try each stop on them: it goes on by hand and has no play.",
        ),
        sled.parts(rack, *kinds),
        (pins("Steel pins, across", plan.job.fittings.pin, plan.job.workshop.boards.sheet, 2),),
        right_if(
            "tight",
            "Push at each stop with a finger: it does not move",
            if_not="wrap a turn of tape round the pins",
        ),
        cautions=("saw.waste-side", "bench"),
    )
