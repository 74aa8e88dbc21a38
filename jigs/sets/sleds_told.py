"""What each sled does, whatever its parts are: a sled that does the same serves another job, glued as it is."""

from __future__ import annotations

from math import degrees, inf

from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.sets.sled_use import Does, Sled
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout

ANGLE, STOP, HEIGHT = 0.015, 0.02, 0.3  # degrees; mm
TRAVEL = 4.0  # mm that a carriage goes beyond its nearest and its farthest stop


def sleds(plan: Plan, parts: list[Part]) -> list[Sled]:
    """The sleds of a plan, each with its parts."""
    return by_form(plan, torus=lambda own: _of_torus(own, parts), vessel=lambda own: _of_vessel(own, parts))


def _of_vessel(plan: VesselPlan, parts: list[Part]) -> list[Sled]:
    return [
        _named(
            sled.called, parts, "plan-angle-", f"-n{sled.segments}", _flat(plan, sled.layout, sled.segments)
        )
        for sled in plan.saws.sleds
    ]


def _of_torus(plan: TorusPlan, parts: list[Part]) -> list[Sled]:
    return [
        _named("sled for wedge rings", parts, "sled-", "", _rings(plan)),
        _named("segment carrier", parts, "segment-", "", _segments(plan)),
    ]


def _named(name: str, parts: list[Part], start: str, end: str, does: tuple[Does, ...]) -> Sled:
    """The wedges lie on the sled, and the stick that sets its rod: they are judged by themselves."""
    own = (part.name for part in parts if part.name.startswith(start) and part.name.endswith(end))
    return Sled(name, tuple(n for n in own if n not in ("sled-wedge", "sled-rod-stick")), does)


def _saw(plan: Plan, kerf: float) -> tuple[Does, ...]:
    saw = plan.job.workshop.saw
    return (
        Does("blade to the slot's far side", kerf + saw.slot_distance, STOP, STOP),
        Does("slot's width", saw.slot_width, STOP, STOP),
        Does("blade", saw.blade_diameter, 1.0, inf),
        Does("sheet", plan.job.workshop.boards.sheet, STOP, STOP),
    )


def _flat(plan: Plan, layout: PlanAngleLayout, segments: int) -> tuple[Does, ...]:
    nearest = layout.carriage.nearest if layout.carriage else layout.stop
    return (
        Does("segments", segments, 0.0, 0.0),
        Does("widest strip", layout.depth, STOP, inf),
        Does("thickest strip", layout.height, HEIGHT, HEIGHT),
        Does("nearest stop", nearest, inf, TRAVEL),
        Does("farthest stop", layout.stop, TRAVEL, inf),
        *_saw(plan, layout.kerf),
    )


def _rings(plan: TorusPlan) -> tuple[Does, ...]:
    sled = plan.sled
    return (
        Does("fence to blade", degrees(sled.cut.half_wedge), ANGLE, ANGLE),
        Does("stop from where fence and blade meet", sled.cut.stop, STOP, STOP),
        Does("height of a ring", sled.ring_height, HEIGHT, HEIGHT),
        Does("core opening", 2 * sled.core_apothem, HEIGHT, HEIGHT),
        *_saw(plan, sled.kerf),
    )


def _segments(plan: TorusPlan) -> tuple[Does, ...]:
    carrier = plan.cutting.carrier
    return (
        Does("blade tilt", degrees(carrier.cut.tilt), ANGLE, ANGLE),
        Does("stop", carrier.stop, STOP, STOP),
        Does("strip's thickness", carrier.cut.depth, HEIGHT, HEIGHT),
        Does("strip's width", carrier.width, HEIGHT, HEIGHT),
        *_saw(plan, carrier.cut.kerf),
    )
