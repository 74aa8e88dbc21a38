"""The angle of the cuts of segments, from a dry ring of scrap: the blade's tilt, or the fences of a sled."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan, degrees, radians, tan
from typing import TYPE_CHECKING

from geometry.measuring.estimate import Estimate, agree, combined, lit_twice
from geometry.measuring.segment_angle import DryRing, light_of, tilt_from_half, tilt_from_ring
from geometry.records import Record
from jigs.asked.readings.readings import Readings
from jigs.measured.advice import LEAST_LEAF, Advice, Words, estimated
from jigs.parts.sleds.angles import tilt_plate
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

TOPIC = "segment-angle"
MOST = radians(1.0)  # cuts that are out by more were not set by plate or fences
FENCE = 100.0  # mm of a fence: its turn is shown as so much over this length
TORUS, VESSEL = "segments.trial", "flat-segments.trial"


class _Trial(Record):
    """One ring of scrap; `id` is its advice's, `of` its operation, `angle` what the cuts are set to."""

    id: str
    of: str
    ring: DryRing
    angle: float
    fences: bool  # of a sled, instead of the blade
    foot: float = FENCE  # of the tilt plate, along the table, mm; of a fence, what is looked at

    def leaf(self, turn: float) -> float:
        """What turns the tilt plate, or the fence, so far when it is under one end of its foot, mm."""
        return self.foot * tan(abs(turn))


def segment_advice(plan: TorusPlan) -> Iterator[Advice]:
    """The new tilt, or to leave it."""
    blank = plan.blank
    ring = DryRing(blank.segments, blank.apothem - blank.core_apothem)
    trial = _Trial(f"{TOPIC}.tilt", TORUS, ring, plan.segment.tilt, False, plate_foot(plan))
    yield from _advice(plan.job.readings, trial, Words(plan.job.unit))


def plate_foot(plan: TorusPlan) -> float:
    """How much of the tilt plate touches the table."""
    outline = tilt_plate(plan, plan.segment.tilt).outline
    low = outline.bounds[1]
    on_table = [float(x) for x, y in outline.points if abs(y - low) < 1e-6]
    return max(on_table) - min(on_table)


def fence_advice(plan: VesselPlan) -> Iterator[Advice]:
    """The same of each sled for flat rings, whose fences set the angle."""
    depths = {layer.number: layer.ring.depth for layer in plan.stack.layers}
    for sled in plan.saws.sleds:
        of = VESSEL if sled.number == 1 else f"{VESSEL}-{sled.number}"
        for scrap in plan.wood.scraps:
            if scrap.of == "ring" and f"joint-plate-n{sled.segments}" in scrap.jigs:
                ring = DryRing(sled.segments, depths[scrap.rings[0]])
                id = f"{TOPIC}.fences-n{sled.segments}"
                trial = _Trial(id, of, ring, radians(180 / sled.segments), fences=True)
                yield from _advice(plan.job.readings, trial, Words(plan.job.unit))


def _advice(readings: Readings, trial: _Trial, words: Words) -> Iterator[Advice]:
    lit = [
        (tilt, _lights(readings, trial, way))
        for way, tilt in (("ring", tilt_from_ring), ("half", tilt_from_half))
    ]
    ways = [tilt(trial.ring, *lights) for tilt, lights in lit if any(lights)]
    if not ways:
        return
    tilt = combined(ways)
    found = (
        *estimated("tilt", "Each cut is off too far by", tilt, "angle"),
        Quantity("setting", "Angle to set", trial.angle - tilt.value, "angle"),
    )
    if any(lit_twice(*lights) for _, lights in lit):
        says: tuple[str, ...] = (
            "Light at the rim and at the core: the ends are not flat, or the cuts are not alike; nothing is corrected.",
            "Brush the ends, look whether the wood slipped, and cut a new ring of scrap.",
        )
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", found, says)
        return
    if len(ways) == 2 and not agree(*ways):
        says = (
            f"By the ring each cut is {_much(ways[0], words)}, by the half ring {_much(ways[1], words)}.",
            "They do not agree, so nothing is corrected. Brush the ends, tighten the band, and read both again.",
        )
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", found, says)
        return
    if abs(tilt.value) > MOST:
        says = (
            f"Each cut would be {_much(tilt, words)}: more than 1°, so nothing is corrected.",
            "Look whether all segments of the ring are there and lie the right way round; then measure again.",
        )
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", found, says)
        return
    if not tilt.sure:
        says = (
            f"Each cut is out by {words.angle_within(tilt.size)}: no more than you can measure. Leave it.",
        )
        yield Advice(trial.id, TOPIC, "right", found, says)
        return
    if trial.leaf(tilt.value) < LEAST_LEAF / 2:
        least = degrees(atan(LEAST_LEAF / 2 / trial.foot))
        says = (
            f"Each cut is {_much(tilt, words)}. Leave it: below {least:.3f}° you cannot set it better.",
            f"Light of {words.fine(light_of(trial.ring, abs(tilt.value)))} stays at all joints together.",
        )
        yield Advice(trial.id, TOPIC, "right", found, says)
        return
    says = (
        _what_to_do(trial, tilt, words),
        f"0.01° at each cut is {words.fine(light_of(trial.ring, radians(0.01)))} of light, all joints together.",
        f"After it there may be light of {words.fine(light_of(trial.ring, tilt.accuracy))} at all joints together.",
    )
    yield Advice(trial.id, TOPIC, "correct", found, says)


def _lights(readings: Readings, trial: _Trial, way: str) -> tuple[Estimate | None, Estimate | None]:
    rim, core = (readings.length(f"{trial.of}.{way}.light-at-{at}", "feeler") for at in ("rim", "core"))
    return rim, core


def _much(tilt: Estimate, words: Words) -> str:
    way = "too small" if tilt.value < 0 else "too large"
    return f"{words.angle(abs(tilt.value))} {way}, give or take {words.angle(tilt.accuracy)}"


def _what_to_do(trial: _Trial, tilt: Estimate, words: Words) -> str:
    short, turn = tilt.value < 0, words.angle(abs(tilt.value))
    where = "rim" if short else "core"
    if trial.fences:
        way = "farther off square" if short else "nearer to square"
        return (
            f"Light at the {where}, {trial.ring.segments} segments: turn each fence {turn} {way}, which is "
            f"{words.fine(trial.leaf(tilt.value))} in {words.rule(FENCE)} of it; cut a new ring of scrap."
        )
    end = "end at the blade" if short else "end away from the blade"
    return (
        f"Light at the {where}: each cut needs {turn} {'more' if short else 'less'} tilt. Lay a feeler leaf of "
        f"{words.fine(max(trial.leaf(tilt.value), LEAST_LEAF))} under the tilt plate's foot, at its {end}; tilt until "
        "no light shows along the plate, and cut a new ring of scrap. A leaf that lay there for this ring stays."
    )
