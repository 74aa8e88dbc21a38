"""The blank as glued: what it still holds."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from math import ceil, cos, floor
from typing import TYPE_CHECKING

from geometry.bodies.torus import wall_left
from geometry.measuring.blank_left import BlankMeasured, apothems, largest_torus, margin, thickest_at
from jigs.measured.advice import Advice, Words, listed
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan

Passes = Callable[
    [Mapping[str, str]], bool
]  # whether the job can be made with these sizes in [form], as typed
TOPIC = "blank"
READ = "first_mounting.flat"
FAR = 0.5  # share of the tube by which a size may be out before it is taken for a slip of the pen
SIZES = ("across", "hole", "height")


def blank_advice(plan: TorusPlan, passes: Passes) -> Iterator[Advice]:
    """What is left for turning, or how much the form has to shrink."""
    readings, words, blank = plan.job.readings, Words(plan.job.unit), plan.blank
    read = {name: readings.length(f"{READ}.{name}") for name in SIZES}
    if all(one is None for one in read.values()):
        return
    if missing := [name for name, one in read.items() if one is None]:
        says: tuple[str, ...] = (f"Read {', '.join(missing)} too: one size alone does not say what fits.",)
        yield Advice(f"{TOPIC}.too-few", TOPIC, "unclear", (), says)
        return
    offset = readings.length(f"{READ}.offset", "rule")
    planned = {
        "across": 2 * blank.outer_radius,
        "hole": 2 * blank.inner_radius / cos(blank.half_wedge),
        "height": 2 * blank.apothem,
    }
    far = FAR * plan.job.form.tube_diameter
    wrong = [name for name, one in read.items() if one and abs(one.value - planned[name]) > far]
    if wrong := [*wrong, *(["offset"] if offset and offset.value > far else [])]:
        says = (f"{listed(wrong)}: far from the plan. Measure again; nothing is planned on it.",)
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", (), says)
        return
    across, hole, height = (one.value for one in read.values() if one is not None)
    wood = apothems(blank, BlankMeasured(across, hole, height, offset.value if offset else 0.0))
    form, sanding = plan.job.form, plan.job.gauges.sanding_allowance
    left = float(margin(blank, wood, form.major_radius, form.tube).min())
    wall = wall_left(
        form.major_radius, form.tube, blank.wedge_rings, blank.segments, blank.centre, blank.core_apothem
    )
    most = largest_torus(blank, wood)
    largest = (
        Quantity(
            "largest.across", "Largest torus, across the rim", 2 * (most[0] + most[1] - sanding), "calliper"
        ),
        Quantity("largest.tube", "its tube", 2 * (most[1] - sanding), "calliper"),
    )
    told = (
        Quantity("left", "Least wood round the finished form", left, "calliper"),
        Quantity("wall", "Wall over the core", wall, "calliper"),
        *(largest if form.tube.round else ()),
    )
    accuracy = readings.accuracy["calliper"]
    if left > sanding + accuracy:
        says = (
            f"The planned form fits, with {words.fine(left)} of wood left at its least; planned "
            f"{words.fine(min(plan.margins) + form.turning_allowance)}.",
            "The largest stage of the gauges may not touch everywhere: turn to the size first, then to the shape."
            if left < plan.gauges.stages[0].offset
            else f"The core leaves a wall of {words.fine(wall)}.",
        )
        yield Advice(f"{TOPIC}.fits", TOPIC, "right", told, says)
        return
    yield Advice(
        f"{TOPIC}.short",
        TOPIC,
        "short",
        told,
        _smaller(plan, left, most, thickest_at(blank, wood, form.major_radius), words, passes),
    )


def _smaller(
    plan: TorusPlan, left: float, most: tuple[float, float], at_same: float, words: Words, passes: Passes
) -> tuple[str, ...]:
    """The same circle with a thinner tube, if the job passes with it; and the thickest tube that there is."""
    form, sanding = plan.asked.form, plan.job.gauges.sanding_allowance
    short = f"The planned form lacks {words.fine(sanding - left)} of wood, sanding counted."
    if not form.tube.round:
        return (short, *_slimmer(plan, sanding - left, words, passes))
    if most[1] <= sanding:
        return (short, "No torus is left in this blank.")
    major, tube = most[0], most[1] - sanding
    thickest = (
        f"The thickest tube left is {words.fine(2 * tube)}, {words.fine(2 * (major + tube))} across the rim."
    )
    thinner = floor((at_same - sanding) * 20) / 20
    sizes = {
        "outer_diameter": words.fine(2 * (form.major_radius + thinner)),
        "tube_diameter": words.fine(2 * thinner),
        "ring_across_flats": words.fine(2 * plan.blank.apothem),
    }
    if thinner <= 0 or not passes(sizes):
        return (short, thickest, "No smaller form round the same circle was found that passes.")
    lines = ", ".join(f'{name} = "{size}"' for name, size in sizes.items())
    return (
        short,
        f"In [form] write {lines}, and leave hole_diameter out; all gauges, channel, retainer and braces follow.",
        thickest,
    )


def _slimmer(plan: TorusPlan, lacks: float, words: Words, passes: Passes) -> tuple[str, ...]:
    """The same circle with an ellipse that is less wide and less high by what it lacks, if the job passes with it."""
    form = plan.asked.form
    less = ceil(lacks * 20) / 20 + 0.05
    wide, high = form.tube.wide - less, form.tube.high - less
    sizes = {
        "outer_diameter": words.fine(2 * (form.major_radius + wide)),
        "tube_diameter": words.fine(2 * wide),
        "tube_height": words.fine(2 * high),
        "ring_across_flats": words.fine(2 * plan.blank.apothem),
    }
    if min(wide, high) <= 0 or not passes(sizes):
        return ("No smaller form round the same circle was found that passes.",)
    lines = ", ".join(f'{name} = "{size}"' for name, size in sizes.items())
    return (
        f"In [form] write {lines}, and leave hole_diameter out; all gauges, channel, retainer and braces follow.",
    )
