"""The blade's tilt for segments, from a dry ring of scrap."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians
from typing import TYPE_CHECKING

from geometry.measuring.estimate import Estimate, agree, combined
from geometry.measuring.segment_angle import light_of, tilt_from_half, tilt_from_ring
from jigs.measured.advice import Advice, Words, estimated
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.forms.torus.plan import TorusPlan

TOPIC = "segment-angle"
READ = "segments.trial"


def segment_advice(plan: TorusPlan) -> Iterator[Advice]:
    """The new tilt, or to leave it."""
    words, blank = Words(plan.job.unit), plan.blank
    ring, half = (_lights(plan, way) for way in ("ring", "half"))
    ways = [
        found
        for lights, tilt in ((ring, tilt_from_ring), (half, tilt_from_half))
        for found in [tilt(blank, *lights) if any(lights) else None]
        if found is not None
    ]
    if not ways:
        return
    if len(ways) == 2 and not agree(*ways):
        says: tuple[str, ...] = (
            f"By the ring each cut is tilted {_much(ways[0], words)}, by the half ring {_much(ways[1], words)}.",
            "They do not agree, so nothing is corrected. Brush the ends, tighten the band, and read both again.",
        )
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", _found(plan, combined(ways)), says)
        return
    tilt = combined(ways)
    remains = (
        f"After it there may be light of {words.fine(light_of(blank, tilt.accuracy))} at all joints together."
    )
    if not tilt.sure:
        says = (
            f"The tilt is out by {words.angle_within(tilt)}: no more than you can measure. Leave it.",
            remains,
        )
        yield Advice(f"{TOPIC}.tilt", TOPIC, "right", _found(plan, tilt), says[:1])
        return
    where, way = ("rim", "more") if tilt.value < 0 else ("core", "less")
    says = (
        f"Light at the {where}: tilt the blade {words.angle(abs(tilt.value))} {way}, to "
        f"{words.angle(plan.segment.tilt - tilt.value)} by the scale that now shows {words.angle(plan.segment.tilt)}.",
        f"0.01° at each cut is {words.fine(light_of(blank, radians(0.01)))} of light, all joints together.",
        remains,
    )
    yield Advice(f"{TOPIC}.tilt", TOPIC, "correct", _found(plan, tilt), says)


def _much(tilt: Estimate, words: Words) -> str:
    way = "too little" if tilt.value < 0 else "too much"
    return f"{words.angle(abs(tilt.value))} {way}, give or take {words.angle(tilt.accuracy)}"


def _lights(plan: TorusPlan, way: str) -> tuple[Estimate | None, Estimate | None]:
    rim, core = (plan.job.readings.length(f"{READ}.{way}.light-at-{at}", "feeler") for at in ("rim", "core"))
    return rim, core


def _found(plan: TorusPlan, tilt: Estimate) -> tuple[Quantity, ...]:
    return (
        *estimated("tilt", "Each cut is tilted too far by", tilt, "angle"),
        Quantity("setting", "Blade's tilt", plan.segment.tilt - tilt.value, "angle"),
    )
