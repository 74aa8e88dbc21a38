"""What a plug's spread pulls at the joints of the closed rings round a mouth, and what they stand."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.bodies.section import Section
from geometry.statics.hoop import edge_hoop
from jigs.asked.vessel_job import VesselJob
from jigs.stages.held.strength import ALLOWED, ALLOWED_MITRE
from jigs.stages.holding_by_mouth.plan import MouthPlug
from jigs.stages.stack.plan import Layer

INSIDE = 1e-6  # mm that a place on the rim is taken into the wall


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
    mitred = all(layer.kind in ("segments", "open") and not layer.plied(job.layup) for layer in bears)
    return ALLOWED_MITRE if mitred else ALLOWED
