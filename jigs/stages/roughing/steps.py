"""Rim, face and hole to the first stage, then the tube by flats: the operations."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from geometry.bodies.torus import apothem_needed, flat_normals
from geometry.lathe.roughing import FlatsStep
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.stages.roughing.parts import flats_gauge
from jigs.stages.sizes.parts.forks import sizes
from jigs.stages.sizes.plan.torus import SizeStage
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import GAUGED, SETTING, TURNED, over
from jigs.work.model import Check, Operation, Rack, Stage, at_lathe, right_if, uses
from jigs.work.steps import nth

ID = "roughing"
SAME = 0.05  # mm that nobody turns off a flat
TAILSTOCK = 25.0  # mm, half across of a live centre and its quill, at most: common practice, no source
# The statics of mounting A go by its glue alone, against the tool's push too.
DRAW_BACK = (
    "Before you {}, stop the lathe and draw the tailstock back: {} where its point is. The glue alone holds the work "
    "at rest; bring the tailstock up again before you start."
)
MEASURE = DRAW_BACK.format("measure", "the sticks lie")
RIM_DONE = "At rim and hole a corner is off already: what you turned there are two of the new flats."

OTHER_FLATS = (
    "Turn the tube's other flats straight too, until the tool has touched each all round.",
    "Only then take off what is listed: before, they are higher in places.",
)
HIGH = "Some of them still stand high then, up to {}: leave that to the gauges."


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Three sizes, then corner after corner off the tube; to an ellipse no polygon leads."""
    flats = plan.mountings.flats
    if not plan.job.form.tube.round:
        return [_sizes(plan, rack), _down_to_gauges(plan, rack)]
    return [
        _sizes(plan, rack),
        *(_flats(plan, step, number, rack) for number, step in enumerate(flats, 1)),
        *([] if flats else [_corners(plan, rack)]),
    ]


def three_sizes(plan: TorusPlan, stage: SizeStage) -> tuple[Quantity, ...]:
    """Rim, face and hole of a stage: where a gauge's shape has its size from."""
    return (
        calliper("outer", "Rim, across", 2 * stage.outer),
        calliper("hole", "Hole, across", 2 * stage.hole),
        calliper("face", "Face, over the board", plan.mountings.first.face_at(stage.tube)),
        calliper("tube", "Tube, wide", 2 * stage.tube.wide),
    )


def size_check(stage: SizeStage) -> Check:
    """By forks and sticks, whose steps are numbered as the stages are."""
    return Check(
        "sizes",
        "Lathe stopped: width fork over the tube, hole stick in the hole, outer stick across the rim",
        (Quantity("step", "Step that goes on, number", stage.number, "count"),),
        "a step does not go on: turn a little more; it rattles: leave that size, and go on from it",
    )


def beside_tailstock(plan: TorusPlan, gauges: Iterable[Part]) -> tuple[str, ...]:
    """What to do before gauges are held on that meet the tailstock, whose point is in the board's middle."""
    reach = min(plan.job.form.major_radius + part.outline.bounds[0] for part in gauges)
    return (DRAW_BACK.format("hold a gauge on", "it reaches"),) if reach < TAILSTOCK else ()


def _flats_over(plan: TorusPlan, stage: SizeStage) -> tuple[float, float]:
    """What the lowest place of any flat stands over the first stage, and how much more the others' at most.

    On a flat the tool touches its lowest last. The face is turned to its own size.
    """
    blank = plan.blank
    needed = apothem_needed(
        plan.job.form.major_radius, stage.tube, blank.wedge_rings, blank.segments, blank.centre
    )
    leans = np.abs(np.cos(flat_normals(blank.segments))) > 1e-9
    return float(blank.apothem - needed.max()), float(needed.max() - needed[leans].min())


def _sizes(plan: TorusPlan, rack: Rack) -> Operation:
    stage, flats = plan.sizes.stages[0], plan.mountings.flats
    off, high = _flats_over(plan, stage)
    others = (calliper("flats", "Then take off each other flat", off),) if flats and off > SAME else ()
    return at_lathe(
        f"{ID}.sizes",
        "Turn the face, the rim and the hole to the first stage.",
        how=(
            "Turn the face first: measure it from the board.",
            "Then the rim, then the hole; leave the tube's corners.",
            *(OTHER_FLATS[: 1 + len(others)] if flats else ()),
            *((HIGH.format(plan.job.at_least(high)),) if flats and high > SAME else ()),
            MEASURE,
        ),
        settings=(*three_sizes(plan, stage), *others),
        jigs=uses(rack.named("width-fork", "outer-stick", "hole-stick"), notes=True),
        checks=(size_check(stage),),
        cautions=("lathe.gauge", "lathe", "lathe.stand"),
        minutes=over(plan.torus_surface / 2, TURNED, GAUGED),
    )


def _flats(plan: TorusPlan, step: FlatsStep, number: int, rack: Rack) -> Operation:
    """The flats gauge has the sides that the first step makes."""
    gauge = uses(rack.named("flats-gauge"), notes=True) if number == 1 else ()
    return at_lathe(
        f"{ID}.flats{nth(number)}",
        f"Turn the tube's {step.sides} corners off, which makes {2 * step.sides} flats.",
        how=(
            "Lathe stopped: mark every flat at this distance from both of its corners.",
            "Turn each corner off, straight from mark to mark.",
            *((RIM_DONE,) if number == 1 and plan.blank.arris_out else ()),
            "Leave the corners beside the board for a later mounting.",
        ),
        settings=(
            ruled("along", "Mark from each corner", step.along),
            ruled("new-flat", "Each new flat, wide", step.new_flat),
        ),
        known=(
            calliper("depth", "Comes off at the corner", step.depth),
            calliper("left", "Left over the round, at the new corners, at least", step.left, bound="least"),
        ),
        jigs=gauge,
        checks=right_if(
            "flats",
            "Lathe stopped: "
            + ("flats gauge on the tube" if gauge else "rule over the new flats, all alike wide"),
            if_not="a flat is too narrow: turn that one a little more",
        ),
        cautions=("lathe.gauge", "lathe", "lathe.stand"),
        minutes=over(plan.torus_surface / 2, TURNED, SETTING),
    )


def _corners(plan: TorusPlan, rack: Rack) -> Operation:
    return at_lathe(
        f"{ID}.corners",
        "Turn the tube's corners off by eye; they are too low to mark.",
        how=("Take light cuts from corner to corner until the flats are nearly gone.",),
        jigs=uses(rack.named("flats-gauge"), notes=True),
        checks=(Check("round", "No corner is left to feel", if_not="another light cut"),),
        cautions=("lathe.gauge", "lathe", "lathe.stand"),
        minutes=over(plan.torus_surface / 2, TURNED),
    )


def _down_to_gauges(plan: TorusPlan, rack: Rack) -> Operation:
    stage = plan.gauges.stages[0]
    inner, outer = (rack.named(f"{which}-gauge-{stage.name}") for which in ("hole", "outer"))
    return at_lathe(
        f"{ID}.ellipse-{stage.name}",
        "Turn the tube's corners off down to an ellipse, by the first stage's gauges.",
        how=(
            "Take light cuts off the corners, from rim and hole towards the face; leave face, rim and hole.",
            "Stop the lathe often and hold both gauges on, tails towards the board: where they touch, wood is left.",
            *beside_tailstock(plan, inner),
            "Leave the corners beside the board for a later mounting.",
        ),
        jigs=uses([*outer, *inner]),
        checks=right_if(
            "near",
            "Lathe stopped, each gauge held on: no corner keeps it farther off the wood than a coin is thick",
            if_not="another light cut where it touches",
        ),
        cautions=("lathe.gauge", "lathe", "lathe.stand"),
        minutes=over(plan.torus_surface / 2, 2 * TURNED, 2 * GAUGED),
    )


STAGE: Stage[TorusPlan] = Stage(
    ID, "Rough the first side", operations, jigs=(flats_gauge, sizes), in_a_run=True
)
