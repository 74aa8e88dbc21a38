"""The first side as sanded: the torus that channel, retainer, braces and the second side's gauges have to fit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from geometry.measuring.estimate import Estimate, agree, spread_of
from geometry.records import dataclass
from jigs.asked.readings.readings import Readings
from jigs.measured.advice import Advice, Verdict, Words, estimated

if TYPE_CHECKING:
    from jigs.asked.job import TorusJob
    from jigs.plans.torus import TorusPlan

TOPIC = "first-side"
READ = "sanding.first-side"
MOST = 0.1  # share of the tube by which it may differ; more is a slip of the pen


@dataclass(frozen=True)
class SideFound:
    """R and r as sanded; `by_rim` is r from rim and hole, a second way."""

    major: Estimate
    tube: Estimate
    by_rim: Estimate | None

    @property
    def clear(self) -> bool:
        return self.by_rim is None or agree(self.tube, self.by_rim)


def side_found(readings: Readings) -> SideFound | None:
    """From the tube's width and the rim or the hole, or both; None where these were not read."""
    width, outer, hole = (readings.length(f"{READ}.{name}") for name in ("tube", "outer", "hole"))
    if width is None or (outer is None and hole is None):
        return None
    tube = width.times(0.5)
    if outer is not None and hole is not None:
        return SideFound(outer.plus(hole).times(0.25), tube, outer.minus(hole).times(0.25))
    if outer is not None:
        return SideFound(outer.times(0.5).minus(tube), tube, None)
    assert hole is not None
    return SideFound(hole.times(0.5).plus(tube), tube, None)


def as_turned(job: TorusJob) -> TorusJob:
    """The job with the R and r that its first side has; the same job where that is as planned, or is not clear."""
    found = side_found(job.readings)
    if found is None or not found.clear or _slip(job, found):
        return job
    form = job.form
    major, tube = (
        read.value if abs(read.value - planned) > read.accuracy else planned
        for read, planned in ((found.major, form.major_radius), (found.tube, form.tube_radius))
    )
    if (major, tube) == (form.major_radius, form.tube_radius):
        return job
    # An ellipse is taken to have grown in height as in width: its gauges are parallel curves.
    high = None if form.tube_height is None else form.tube_height + 2 * tube - form.tube_diameter
    sized = replace(
        form, outer_diameter=2 * (major + tube), hole_diameter=2 * (major - tube), tube_diameter=2 * tube,
        tube_height=high,
    )  # fmt: skip
    return replace(job, form=sized)


def _slip(job: TorusJob, found: SideFound) -> bool:
    most = MOST * job.form.tube_radius
    return (
        max(abs(found.major.value - job.form.major_radius), abs(found.tube.value - job.form.tube_radius))
        > most
    )


def _too_few(readings: Readings) -> Iterator[Advice]:
    tube, *others = (readings.length(f"{READ}.{name}") is not None for name in ("tube", "outer", "hole"))
    if not tube and not any(others):
        return
    beside = "the rim or the hole" if tube else "the tube's width"
    says = (f"Read {beside} beside it: one without the other does not say what was turned.",)
    yield Advice(f"{TOPIC}.too-few", TOPIC, "unclear", (), says)


def side_advice(plan: TorusPlan) -> Iterator[Advice]:
    """What follows the first side, or that the readings do not agree. `plan.job` has its R and r already."""
    readings, words = plan.job.readings, Words(plan.job.unit)
    found = side_found(readings)
    if found is None:
        yield from _too_few(readings)
        return
    told = (
        *estimated("tube", "Tube's radius", found.tube),
        *estimated("major", "Middle of the tube", found.major),
    )
    if not found.clear:
        assert found.by_rim is not None
        says: tuple[str, ...] = (
            f"The tube's width makes its radius {words.within(found.tube)}; rim and hole make it "
            f"{words.within(found.by_rim)}.",
            "They do not agree, so nothing is corrected: the ring runs out, or one was misread. Measure again.",
        )
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", told, says)
        return
    form = plan.asked.form
    moved = as_turned(plan.asked) is not plan.asked
    if not moved and _slip(plan.asked, found):
        says = ("These sizes are far from the plan: measure again, or change the diameters in [form].",)
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", told, says)
        return
    verdict: Verdict = "correct" if moved else "right"
    widths = [one.value for one in readings.each(f"{READ}.tube") if one is not None]
    says = (
        f"The tube is {words.fine(2 * found.tube.value)} wide, planned {words.fine(2 * form.tube_radius)}; its middle "
        f"lies {words.fine(found.major.value)} from the axis, planned {words.fine(form.major_radius)}.",
        "Channel, retainer, braces and the gauges of the second side follow it: make them now. The first board and "
        "the gauges that stand on it have done their work."
        if moved
        else "That is the plan, as well as you can measure: make nothing anew.",
        *(
            ("Its height is taken to be out by as much as its width.",)
            if moved and not form.tube.round
            else ()
        ),
        *(
            (
                f"Its width differs by {words.fine(spread_of(widths))} round the ring: the channel fits its mean.",
            )
            if spread_of(widths) > 2 * readings.accuracy["calliper"]
            else ()
        ),
    )
    yield Advice(f"{TOPIC}.sizes", TOPIC, verdict, told, says)
