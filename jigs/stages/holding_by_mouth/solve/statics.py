"""What a plug pulls at the rings round a mouth, closed or open, what they stand, and how the vessel is held on it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import inf, pi

from geometry.blanks.glue_width import GlueFace, open_face, stress
from geometry.bodies.section import Section
from geometry.statics.hoop import across_bending, edge_hoop, plate_bending
from geometry.statics.lathe_holding import MOST_PULL, LatheHolding, Weight
from geometry.statics.plug_held import HeldVessel, vessel_held
from jigs.asked.vessel_job import VesselJob
from jigs.stages.held.strength import ALLOWED_MITRE, FLOOR_SAFETY, MITRE, PUSH, SAFETY
from jigs.stages.holding_by_mouth.plan import MouthPlug
from jigs.stages.lathe.uneven import tipping_by_rim
from jigs.stages.stack.plan import Layer, StackPlan

STUB = 5.0  # mm, radius of what is left under the tailstock's point: common practice, no source
INSIDE = 1e-6  # mm that a place on the rim is taken into the wall


def most_push(job: VesselJob, section: Section, layers: Sequence[Layer], plug: MouthPlug) -> float:
    """N that the glue faces of the open rings it bears in stand; infinite where it bears in none, or spreads none.

    The whole spread is taken to come on any one ring, an even part of it on each segment, and the better of the
    segment's joints to take it alone.
    """
    if not plug.spread:
        return inf
    found = [inf]
    for k, layer in enumerate(layers):
        low, high = max(layer.ring.bottom, plug.low), min(layer.ring.top, plug.high)
        if layer.kind == "open" and low <= high:
            beside = layers[max(0, k - 1) : k + 2]
            joints = [
                min(a.stands(job), b.stands(job)) * _push(section, a, b, layer, plug.spread, (low, high))
                for a, b in pairwise(beside)
            ]
            found.append(max(joints, default=0.0))
    return min(found)


def _push(
    section: Section, lower: Layer, upper: Layer, pressed: Layer, spread: float, bears: tuple[float, float]
) -> float:
    """N that one joint of a pressed ring stands, for each N/mm²."""
    z, face = upper.ring.bottom, _faces(section, lower, upper, pressed)
    if z >= section.height or face is None:
        return 0.0
    arm = max(abs(height - z) for height in bears)
    return 1.0 / stress(face, spread / pressed.ring.segments, arm)


def _faces(section: Section, lower: Layer, upper: Layer, pressed: Layer) -> GlueFace | None:
    """All that one segment of the pressed ring is glued on at this joint."""
    if lower.kind == upper.kind == "open":
        try:
            shorter = open_face(section, lower.ring, upper.ring, upper.turned - lower.turned)
        except ValueError:
            return None
        return GlueFace(2 * shorter.length, shorter.width)
    inner, outer = section.wall_at(min(max(upper.ring.bottom, 0.0), section.height))
    length = pi * (inner + outer) / pressed.ring.segments - pressed.ring.spacer
    return GlueFace(length, outer - inner) if length > 0.0 else None


def floor_stands(job: VesselJob, section: Section, layers: Sequence[Layer], plug: MouthPlug) -> float:
    """N with which a bolt's washer or the tailstock may press on the floor, held by wood half as thick again all round.

    On a floating base neither presses.
    """
    if job.rings.base == "floating":
        return inf
    thick = section.floor_thickness
    wall = section.inner.radius_at(min(section.inner.bottom + thick / 2, section.height))
    presses = plug.bolt.washer / 2 if plug.bolt else STUB
    spread = presses + thick / 2  # at 45 degrees, to the floor's middle
    low, high = section.inner.bottom - thick, section.inner.bottom
    bends = max(
        _floor_bends(job, one, wall, spread, thick) / one.stands(job)
        for one in layers
        if one.ring.bottom < high and one.ring.top > low
    )
    return SAFETY / FLOOR_SAFETY / bends if bends else inf


def _floor_bends(job: VesselJob, layer: Layer, wall: float, spread: float, thick: float) -> float:
    """N/mm² across the grain of a ring that a floor is of, for each N."""
    segments = layer.kind == "segments"
    if layer.plied(job.layup) or layer.upright or not (segments or layer.kind == "disc"):
        return plate_bending(1.0, wall, spread, thick)
    return across_bending(1.0, wall, spread, thick, round_it=segments)


def hoop_stress(section: Section, plug: MouthPlug, push: float) -> float:
    """N/mm² round the mouth under a push: all the spread where the plug bears highest, as on a free edge."""
    inner, outer = section.wall_at(min(plug.high, section.height - INSIDE))
    wall = max(outer - inner, INSIDE)
    return edge_hoop(plug.spread * push, (inner + outer) / 2, wall)


def hoop_allowed(job: VesselJob, layers: Sequence[Layer], plug: MouthPlug) -> float:
    """Of the weakest ring that the plug bears in: mitres of segments, else wood or glue across the grain."""
    bears = [
        layer
        for layer in layers
        if layer.ring.bottom <= plug.high + INSIDE and layer.ring.top >= plug.low - INSIDE
    ]
    return min((_round(job, layer) for layer in bears), default=ALLOWED_MITRE)


def _round(job: VesselJob, layer: Layer) -> float:
    """N/mm² that a ring may be stretched with round the axis."""
    mitred = layer.kind in ("segments", "open") and not layer.plied(job.layup)
    return MITRE * layer.stands_along(job) if mitred else layer.stands(job)


def plug_held(
    job: VesselJob, section: Section, stack: StackPlan, plug: MouthPlug, most: float = inf
) -> LatheHolding:
    """The vessel on its plug, its foot turned; `most` is the push (N) that its wood stands.

    A taper is taken to bear by its jam alone: whether the rim then stands is left out. Of the blank's heavy sides, at
    its highest speed, so much is left as of its wood; they count by what they do about the rim.
    """
    left = sum(volume for _, volume, _ in stack.weights) / sum(layer.wood for layer in stack.layers)
    pulls = left * tipping_by_rim(job, stack.layers, section.height) / (section.height - stack.centre_height)
    rim = plug.stands and plug.way == "bolt"
    return vessel_held(
        HeldVessel(
            band=(
                (plug.bearing.radius_at(plug.low), plug.low),
                (plug.bearing.radius_at(plug.high), plug.high),
            ),
            slope=plug.slope,
            rim=((section.mouth_radius + section.rim_radius) / 2, section.height) if rim else None,
            normal=1.0 if rim else plug.normal_force,
            foot=section.foot_radius,
            point=plug.bolt is None and plug.centre_recess > 0,
            pull=PUSH,
            most=min(most, MOST_PULL),
            weight=Weight(stack.weighs_left + pulls, stack.centre_height),
        )
    )
