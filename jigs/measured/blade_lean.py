"""The blade of the saw that cuts the wedge rings: whether it stands upright."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians, tan
from typing import TYPE_CHECKING

from geometry.measuring.blade_lean import WORTH, blade_lean, over_ring
from geometry.measuring.estimate import lit_twice
from jigs.measured.advice import Advice, Words, estimated
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan

TOPIC = "blade-lean"
READ = "wedge_rings.set.lean"
MOST = radians(3.0)  # more is a slip of the pen


def lean_advice(plan: TorusPlan) -> Iterator[Advice]:
    """Which way to tilt it, or to leave it."""
    readings, words = plan.job.readings, Words(plan.job.unit)
    height = readings.length(f"{READ}.height", "rule")
    top, bottom = (readings.length(f"{READ}.gap-at-{where}", "feeler") for where in ("top", "bottom"))
    if top is None and bottom is None:
        return
    if height is None or height.value <= 0:
        says: tuple[str, ...] = (
            "Write the scrap's height too: the lean is the light over twice that height.",
        )
        yield Advice(f"{TOPIC}.no-height", TOPIC, "unclear", (), says)
        return
    if lit_twice(top, bottom):
        says = (
            "Light at top and bottom: the cut is hollow, or dust lies in it. Cut again, with a sharp blade.",
        )
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", (), says)
        return
    lean = blade_lean(height, top, bottom)
    if abs(lean.value) > MOST:
        says = (
            f"The blade would lean {words.angle(abs(lean.value))}, which a square shows. Measure both again.",
        )
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", (), says)
        return
    out = over_ring(plan.blank, lean)
    steps = abs(tan(lean.value)) * plan.blank.thick_edge
    found = (
        *estimated("lean", "Blade leans, + its top to the left", lean, "angle"),
        *estimated("over-ring", "Over the height of a ring", out),
        Quantity("steps", "Joints step by", steps, "calliper"),
    )
    if not lean.sure or abs(out.value) <= WORTH:
        says = (
            f"The blade is out by {words.fine(abs(out.value))} over a ring, give or take {words.fine(out.accuracy)}: "
            f"under {words.fine(WORTH)} or no more than you can measure. Leave it.",
        )
        yield Advice(f"{TOPIC}.blade", TOPIC, "right", found, says)
        return
    side, other = ("left", "right") if lean.value > 0 else ("right", "left")
    says = (
        f"The blade's top leans {words.angle(abs(lean.value))} to the {side}: {words.fine(abs(out.value))} on a ring.",
        f"Tilt its top to the {other} by that, set the stop of the tilt to it, and cut the scrap again.",
        f"Rings cut already close as before; their joints step by {words.fine(steps)}, which turning takes off.",
    )
    yield Advice(f"{TOPIC}.blade", TOPIC, "correct", found, says)
