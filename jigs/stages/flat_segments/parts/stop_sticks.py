"""Sticks that set the stop of a sled for flat rings: as long as from the blade's kept side to the arm's nose.

The length is measured along y: the edge y = 0 goes to the blade, the one above it to the stop.
"""

from __future__ import annotations

from math import pi, sin

from geometry.plane.contour import Contour, polygon, rectangle
from jigs.forms.vessel.plan import VesselPlan
from jigs.parts.labels import SAW_CAUTION
from jigs.parts.part import Dimension, EdgeGap, Part, Words
from jigs.parts.places import lettered
from jigs.parts.ring_numbers import ring_numbers
from jigs.parts.sheet import cut_part
from jigs.parts.sleds.stop import FAMILY
from jigs.stages.flat_segments.plan import FlatSled, StopSetting
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
    outline, short = _outline(setting.stop), setting.stop < LEAST
    rings, x = ring_numbers(setting.rings), (TONGUE if short else WIDTH) / 2
    return cut_part(
        plan,
        FAMILY,
        f"stop-stick-ring-{'-'.join(map(str, setting.rings))}",
        f"sets the stop of the sled for {sled.segments} segments, {rings.lower()}",
        outline,
        (),
        _lettering(plan, sled, setting, outline),
        (Dimension("blade to stop", setting.stop, EdgeGap((x, 0.0), (x, setting.stop))),),
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


def _lettering(plan: VesselPlan, sled: FlatSled, setting: StopSetting, outline: Contour) -> tuple[Words, ...]:
    """As much as there is room for; rings and edges rather than all else."""
    must = (
        ring_numbers(setting.rings),
        "↓ BLADE",
        "← STOP ON TONGUE" if setting.stop < LEAST else "↑ STOP",
    )
    more = (
        f"STOP {show_length(setting.stop, plan.job.unit, exact=True).upper()}",
        f"{sled.segments} SEGMENTS",
        *SAW_CAUTION,
    )
    return lettered(outline, (), (), (plan.job.title.upper(), *must, *more), instead=((*must, *more), must))
