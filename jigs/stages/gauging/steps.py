"""The first side brought to its gauges, stage by stage: the operations."""

from __future__ import annotations

from geometry.bodies.tube import Tube
from jigs.plans.torus import TorusPlan
from jigs.stages.gauging.parts.profile import gauges
from jigs.stages.gauging.parts.standing import standing
from jigs.stages.gauging.plan.torus import Stage as GaugeStage
from jigs.stages.mountings.steps.common import round_tube, turned
from jigs.stages.roughing.steps import MEASURE, beside_tailstock, size_check, three_sizes
from jigs.stages.sizes.plan.torus import SizeStage
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.lathe import SHAPE
from jigs.work.minutes import GAUGED, TURNED, over
from jigs.work.model import Once, Operation, Rack, Reading, Stage, at_lathe, right_if, uses

ID = "gauging"


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Three sizes before the shape, at every stage."""
    stages, once = list(zip(plan.gauges.stages, plan.sizes.stages, strict=True)), Once()
    return [
        *(
            _stage(plan, gauge, size, number, number == len(stages), rack, once)
            for number, (gauge, size) in enumerate(stages, 1)
        ),
        _standing(plan, rack),
    ]


def _stage(
    plan: TorusPlan, gauge: GaugeStage, size: SizeStage, number: int, last: bool, rack: Rack, once: Once
) -> Operation:
    names = (f"outer-gauge-{gauge.name}", f"hole-gauge-{gauge.name}")
    return at_lathe(
        f"{ID}.{gauge.name}",
        "Turn the first side to the finished gauges."
        if last
        else f"Turn the first side to the gauges of stage {number}.",
        how=(
            *round_tube(plan),
            "Bring face, rim and hole to size first: a gauge shows shape, not size."
            if number > 1
            else "Face, rim and hole have their size: leave them.",
            "Turn the outer side from the face over the rim, then the hole side from the face.",
            MEASURE,
        ),
        settings=(*(three_sizes(plan, size) if number > 1 else ()), *turned(plan.mountings.named("A"))),
        jigs=once.uses(rack.named(*names)),
        checks=(SHAPE, size_check(size)),
        cautions=("lathe.gauge", "lathe.stand"),
        readings=_sizes(plan, size) if last else (),
        minutes=over(plan.torus_surface / 2, TURNED, 2 * GAUGED),
    )


def _standing(plan: TorusPlan, rack: Rack) -> Operation:
    first, inner = plan.mountings.first, rack.named("standing-gauge-a-inner")
    return at_lathe(
        f"{ID}.standing",
        "Turn the waste back to the board, and prove the first side with the standing gauges.",
        how=(
            "Turn the waste below the tube straight back to the board.",
            _middle(plan.job.form.tube),
            "Shim the gauges' feet, or sand them, by what this differs from the size they are made for.",
            *beside_tailstock(plan, inner),
            "Stand the outer one on the board, the inner one through the hole on the spigot.",
        ),
        settings=(ruled("turned-back", "Waste turned back to, across", 2 * first.turned_back),),
        known=(
            calliper("centre", "Made for a middle of the tube over the board", first.centre_height),
            *_out_of_round(plan.job.form.tube),
        ),
        jigs=uses([*rack.named("standing-gauge-a-outer"), *inner], notes=True),
        checks=right_if(
            "standing",
            "Feet on board and spigot, a lamp behind: an even line of light along both",
            if_not="light at one end: measure the middle of the tube again and shim anew",
        ),
        cautions=("lathe.gauge", "lathe.stand"),
        minutes=2 * GAUGED,
    )


def _middle(tube: Tube) -> str:
    """How to find the height of the tube's middle while its other side is wood: only its width can be callipered."""
    measure = "Measure from the board to the turned face, and take off half of the tube's"
    if tube.round:
        return f"{measure} width."
    higher = "and half of what it is higher" if tube.high > tube.wide else "less half of what it is lower"
    return f"{measure} height: half of its width, {higher} than wide."


def _out_of_round(tube: Tube) -> tuple[Quantity, ...]:
    off = tube.high - tube.wide
    label = f"Half of what the tube is {'higher' if off > 0 else 'lower'} than wide"
    return () if tube.round else (calliper("out-of-round", label, abs(off)),)


def _sizes(plan: TorusPlan, size: SizeStage) -> tuple[Reading, ...]:
    return tuple(Reading(one.id, one.label, one) for one in three_sizes(plan, size))


STAGE: Stage[TorusPlan] = Stage(
    ID, "Turn the first side to its gauges", operations, jigs=(gauges, standing), in_a_run=True
)
