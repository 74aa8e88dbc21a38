"""How far woods that weigh unlike round a ring draw the blank off its axis, and how fast it is turned then."""

from __future__ import annotations

from cmath import rect
from collections.abc import Sequence
from math import tau

from geometry.lathe.turning import rough_speed_limits, rpm_of_pull
from jigs.asked.vessel_job import VesselJob
from jigs.asked.woods import density_of
from jigs.stages.held.strength import SIDE
from jigs.stages.stack.plan import Layer


def off_axis(job: VesselJob, layers: Sequence[Layer]) -> float:
    """What the segments of all rings weigh, times how far off the axis that lies in all. Grams times mm."""
    return abs(sum(_of_ring(one) for one in layers if len(set(one.species)) > 1 and not one.plied(job.layup)))


def _of_ring(layer: Layer) -> complex:
    """A segment's middle is that of a wedge between its two flats."""
    ring, count = layer.ring, len(layer.species)
    out = 2 / 3 * (ring.outer**3 - ring.core**3) / (ring.outer**2 - ring.core**2)
    each = layer.wood / count * 1e-6 * out
    return sum(
        rect(density_of(name) * each, layer.turned + k * tau / count) for k, name in enumerate(layer.species)
    )


def blank_speed(job: VesselJob, layers: Sequence[Layer], radius: float) -> tuple[int, int]:
    """rpm of a blank; its heavy side pulls no more than what its mountings and joints are proven for."""
    slow, fast = rough_speed_limits(2 * radius)
    most = rpm_of_pull(off_axis(job, layers), SIDE)
    return (slow, fast) if most >= fast else (min(slow, int(most * 2 / 3)), int(most))
