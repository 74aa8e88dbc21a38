"""The first side, at its finished gauges and as sanded: the torus that all jigs of the second side have to fit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from geometry.bodies.torus import wall_left
from geometry.bodies.tube import tube_of
from geometry.measuring.estimate import Estimate, agree, spread_of
from geometry.records import Record, replace
from jigs.asked.readings.readings import Readings
from jigs.measured.advice import Advice, Verdict, Words, estimated
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.asked.job import Form, TorusJob
    from jigs.plans.torus import TorusPlan

TOPIC, TURNED = "first-side", "first-side-turned"
READ, MIDDLE = "sanding.first-side", "first_mounting.glue.centre"
GAUGED = "gauging.finished"
FAR = ("These sizes are far from the plan: measure again, or change the diameters in [form].",)
HIGH = "To know its height, read its face, and centre in [first_mounting.glue]: the middle of the rim over the board."
MOVED = (
    "Channel, retainer, braces and the gauges of the second side follow it: make them now. The first board and the "
    "gauges that stand on it have done their work."
)
AS_PLANNED = "That is the plan, as well as you can measure: make nothing anew."
FOLLOW = "Sand it, and read it as sanded: channel, retainer, braces and the gauges of the second side follow."
MOST = 0.1  # share of the tube by which it may differ; more is a slip of the pen


class SideFound(Record):
    """R and r as sanded; `by_rim` is r from rim and hole, a second way; `high` is half an ellipse's height."""

    major: Estimate
    tube: Estimate
    by_rim: Estimate | None
    high: Estimate | None

    @property
    def clear(self) -> bool:
        return self.by_rim is None or agree(self.tube, self.by_rim)


def side_found(readings: Readings, of: str = READ) -> SideFound | None:
    """From the tube's width and the rim or the hole, or both; None where these were not read."""
    width, outer, hole = (readings.length(f"{of}.{name}") for name in ("tube", "outer", "hole"))
    if width is None or (outer is None and hole is None):
        return None
    tube, face, middle = width.times(0.5), readings.length(f"{of}.face"), readings.length(MIDDLE)
    high = face.minus(middle) if face and middle else None
    if outer is not None and hole is not None:
        return SideFound(outer.plus(hole).times(0.25), tube, outer.minus(hole).times(0.25), high)
    if outer is not None:
        return SideFound(outer.times(0.5).minus(tube), tube, None, high)
    assert hole is not None
    return SideFound(hole.times(0.5).plus(tube), tube, None, high)


def as_turned(job: TorusJob) -> TorusJob:
    """The job with the R and r that its first side has; the same job where that is as planned, or is not clear."""
    found = side_found(job.readings)
    if found is None or not found.clear or _slip(job, found):
        return job
    form = job.form
    major, tube = _moved(found.major, form.major_radius), _moved(found.tube, form.tube_radius)
    high = form.tube_height
    if high is not None:  # not read, it is taken to have grown as the width: its gauges are parallel curves
        grown = high + 2 * tube - form.tube_diameter
        high = 2 * _moved(found.high, high / 2) if found.high else grown
    if (major, tube, high) == (form.major_radius, form.tube_radius, form.tube_height):
        return job
    sized = replace(
        form, outer_diameter=2 * (major + tube), hole_diameter=2 * (major - tube), tube_diameter=2 * tube,
        tube_height=high,
    )  # fmt: skip
    return replace(job, form=sized)


def _moved(read: Estimate, planned: float) -> float:
    return read.value if abs(read.value - planned) > read.accuracy else planned


def _slip(job: TorusJob, found: SideFound) -> bool:
    form = job.form
    pairs = [(found.major, form.major_radius), (found.tube, form.tube_radius)]
    pairs += [(found.high, form.tube_height / 2)] if found.high and form.tube_height else []
    return max(abs(read.value - planned) for read, planned in pairs) > MOST * form.tube_radius


def _too_few(readings: Readings, of: str = READ, topic: str = TOPIC) -> Iterator[Advice]:
    tube, *others = (readings.length(f"{of}.{name}") is not None for name in ("tube", "outer", "hole"))
    if not tube and not any(others):
        return
    beside = "the rim or the hole" if tube else "the tube's width"
    says = (f"Read {beside} beside it: one without the other does not say what was turned.",)
    yield Advice(f"{topic}.too-few", topic, "unclear", (), says)


def _height_told(form: Form, found: SideFound, moved: bool, words: Words) -> Iterator[str]:
    if form.tube_height is not None and found.high:
        yield f"It is {words.fine(2 * found.high.value)} high, planned {words.fine(form.tube_height)}."
    elif form.tube_height is not None:
        yield from ("Its height is taken to be out by as much as its width.",) if moved else ()
        yield HIGH


def _disagree(found: SideFound, words: Words) -> tuple[str, ...]:
    assert found.by_rim is not None
    return (
        f"The tube's width makes its radius {words.within(found.tube)}; rim and hole make it "
        f"{words.within(found.by_rim)}.",
        "They do not agree, so nothing is corrected: the ring runs out, or one was misread. Measure again.",
    )


def turned_advice(plan: TorusPlan) -> Iterator[Advice]:
    """What the sizes at the finished gauges leave to sand, and over the core; nothing once it is read as sanded."""
    readings, words, form = plan.job.readings, Words(plan.job.unit), plan.asked.form
    found, sanding = side_found(readings, GAUGED), plan.job.gauges.sanding_allowance
    if side_found(readings) is not None:
        return
    if found is None:
        yield from _too_few(readings, GAUGED, TURNED)
        return
    if not found.clear or _slip(plan.asked, found):
        says = _disagree(found, words) if not found.clear else FAR
        yield Advice(f"{TURNED}.unclear", TURNED, "unclear", (), says)
        return
    under = form.tube_radius + sanding - found.tube.value
    blank = plan.blank
    rings = (blank.wedge_rings, blank.segments, blank.centre, blank.core_apothem)
    high = found.high.value - sanding if found.high and form.tube_height else form.tube.high - under
    wall = wall_left(found.major.value, tube_of(form.tube_radius - under, high), *rings)
    told = (
        Quantity("under", "Under the finished gauges, on each side", under, "calliper"),
        Quantity("wall", "Wall over the core once sanded", wall, "calliper"),
    )
    sure, most = abs(under) > found.tube.accuracy, wall + sanding - form.least_wall
    low = form.tube.high - high
    lower = found.high is not None and abs(low - under) > found.high.accuracy
    thin = wall < form.least_wall and under > 0
    verdict: Verdict = "short" if thin else "correct" if sure or lower else "right"
    says = (
        f"The tube is {words.fine(2 * found.tube.value)} wide, planned {words.fine(2 * (form.tube_radius + sanding))} "
        f"before sanding; its middle lies {words.fine(found.major.value)} from the axis, planned "
        f"{words.fine(form.major_radius)}.",
        *(_under(under, sanding, most, words) if sure else ()),
        *((_face(low, words),) if lower else ()),
        f"Sanded by {words.fine(sanding)} it has a wall of {words.fine(wall)} over the core, where "
        f"{words.fine(form.least_wall)} is asked for.",
        *(_sand(most, words) if thin else ()),
    )
    yield Advice(f"{TURNED}.sizes", TURNED, verdict, told, says)


def _face(low: float, words: Words) -> str:
    if low < 0:
        return f"Keep turning its face: it is {words.fine(-low)} over the finished gauges."
    return f"Its face is {words.fine(low)} under the finished gauges: stop turning it. The second side follows it."


def _under(under: float, sanding: float, most: float, words: Words) -> tuple[str, ...]:
    if under < 0:
        return (f"Keep turning: it is {words.fine(-under)} over the finished gauges on each side.",)
    already = f", past the finished size by {words.fine(under - sanding)} already" if under > sanding else ""
    return (
        f"It is {words.fine(under)} under the finished gauges on each side{already}: they show light all along. Stop "
        "turning.",
        *((FOLLOW,) if most > 0 else ()),
    )


def _sand(most: float, words: Words) -> tuple[str, ...]:
    if most > 0:
        return (f"Sand off {words.fine(most)} at most.",)
    return (
        f"It lacks {words.fine(-most)} before any sanding, and nothing puts wood back. Take a new blank, or give a "
        "smaller least_wall in [form] if so thin a wall will do.",
    )


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
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", told, _disagree(found, words))
        return
    form = plan.asked.form
    moved = as_turned(plan.asked) is not plan.asked
    if not moved and _slip(plan.asked, found):
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", told, FAR)
        return
    known = form.tube_height is None or found.high is not None
    verdict: Verdict = "correct" if moved else "right" if known else "unclear"
    widths = [one.value for one in readings.each(f"{READ}.tube") if one is not None]
    says = (
        f"The tube is {words.fine(2 * found.tube.value)} wide, planned {words.fine(2 * form.tube_radius)}; its middle "
        f"lies {words.fine(found.major.value)} from the axis, planned {words.fine(form.major_radius)}.",
        *((MOVED,) if moved else (AS_PLANNED,) if known else ()),
        *_height_told(form, found, moved, words),
        *(
            (
                f"Its width differs by {words.fine(spread_of(widths))} round the ring: the channel fits its mean.",
            )
            if spread_of(widths) > 2 * readings.accuracy["calliper"]
            else ()
        ),
    )
    yield Advice(f"{TOPIC}.sizes", TOPIC, verdict, told, says)
