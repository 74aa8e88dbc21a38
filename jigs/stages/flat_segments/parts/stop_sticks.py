"""Sticks that set the stop of a sled for flat rings: as long as from the blade's kept side to the arm's nose.

The length is measured along y: the edge y = 0 goes to the blade, the one above it to the stop.
"""

from __future__ import annotations

from math import pi, sin

from geometry.plane.contour import Contour, polygon, rectangle
from jigs.parts.labels import SAW_CAUTION
from jigs.parts.part import Part
from jigs.parts.plate import Plate
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_segments.plan import FlatSled, StopSetting
from jigs.words.counting import ring_numbers
from jigs.words.lengths import show_length

WIDTH = 80.0
LEAST = (
    26.0  # length that leaves room for the lettering; a shorter stick is a tongue on a head as tall as this
)
TONGUE = 35.0
RING = (
    0.019  # mm by which an old stick may leave a ring's apothem short: over 2 sin(mitre) as far as it is out
)


def stop_sticks(plan: VesselPlan) -> list[Part]:
    """One for each setting of each sled, named by its rings."""
    return [_stick(plan, sled, setting) for sled in plan.saws.sleds for setting in sled.settings]


def _stick(plan: VesselPlan, sled: FlatSled, setting: StopSetting) -> Part:
    short, stop, rings = setting.stop < LEAST, setting.stop, ring_numbers(setting.rings)
    plate, x = Plate(plan, _outline(stop)), (TONGUE if short else WIDTH) / 2
    must = (rings, "↓ BLADE", "← STOP ON TONGUE" if short else "↑ STOP")
    shown = show_length(stop, plan.job.unit, exact=True).upper()
    more = (*must, f"STOP {shown}", f"{sled.segments} SEGMENTS", *SAW_CAUTION)
    plate.letter(*more, instead=(more, must))
    plate.gap("blade to stop", stop, (x, 0.0), (x, stop))
    return plate.part(
        f"stop-stick-ring-{'-'.join(map(str, setting.rings))}",
        f"sets the stop of the sled for {sled.segments} segments, {rings.lower()}",
        (
            "Hold it square to the blade. The edge BLADE touches the side of a tooth that is set to the kept side, "
            "not the blade's plate.",
        ),
        works_to=min(0.02, RING * 2 * sin(pi / sled.segments)),
    )


def _outline(stop: float) -> Contour:
    if stop >= LEAST:
        return rectangle(0.0, 0.0, WIDTH, stop)
    wide = TONGUE + WIDTH
    return polygon([(0.0, 0.0), (wide, 0.0), (wide, LEAST), (TONGUE, LEAST), (TONGUE, stop), (0.0, stop)])
