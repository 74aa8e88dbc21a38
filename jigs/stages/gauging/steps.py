"""The first side brought to its gauges, stage by stage: the operations."""

from __future__ import annotations

from jigs.plan.gauges import Stage as GaugeStage
from jigs.plan.sizes import SizeStage
from jigs.plan.torus import TorusPlan
from jigs.quantity import calliper, ruled
from jigs.stages.mountings.common import ROUND, turned
from jigs.stages.roughing.steps import size_check, three_sizes
from jigs.work.minutes import GAUGED, TURNED, over
from jigs.work.model import Check, Operation, Reading, Stage
from jigs.work.rack import Rack, uses

ID = "gauging"
SHAPE = Check(
    "shape",
    "Lathe stopped, a lamp behind: the gauge's edge shows an even line of light, and does not rock",
    if_not="it rocks on a high place: chalk the edge, and turn off what it marks",
)


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Three sizes before the shape, at every stage."""
    stages = list(zip(plan.gauges.stages, plan.sizes.stages, strict=True))
    return [
        _stage(plan, gauge, size, number, number == len(stages), rack)
        for number, (gauge, size) in enumerate(stages, 1)
    ]


def _stage(
    plan: TorusPlan, gauge: GaugeStage, size: SizeStage, number: int, last: bool, rack: Rack
) -> Operation:
    names = (f"outer-gauge-{gauge.name}", f"hole-gauge-{gauge.name}")
    standing = ("standing-gauge-a-outer", "standing-gauge-a-inner") if last else ()
    return Operation(
        f"{ID}.{gauge.name}",
        ID,
        "lathe",
        "Turn the first side to the finished gauges."
        if last
        else f"Turn the first side to the gauges of stage {number}.",
        how=(
            ROUND,
            "Bring face, rim and hole to size first: a gauge shows shape, not size."
            if number > 1
            else "Face, rim and hole have their size: leave them.",
            "Turn the outer side from the face over the rim, then the hole side from the face.",
            *_last(last),
        ),
        settings=(
            *(three_sizes(plan, size) if number > 1 else ()),
            *turned(plan.mountings.named("A")),
            *(
                (
                    ruled(
                        "turned-back",
                        "Waste below the tube: straight back to the board, across",
                        2 * plan.mountings.first.turned_back,
                    ),
                )
                if last
                else ()
            ),
        ),
        jigs=uses(rack.named(*names, *standing), notes=True),
        checks=(SHAPE, size_check(size), *(_stands(plan) if last else ())),
        cautions=("lathe.gauge", "lathe.stand"),
        readings=_sizes(plan, size) if last else (),
        minutes=over(plan.torus_surface / 2, TURNED, 2 * GAUGED),
    )


def _last(last: bool) -> tuple[str, ...]:
    if not last:
        return ()
    return (
        "Turn the waste below the tube straight back to the board.",
        "Shim the standing gauges by what the middle of the tube is out, then stand them on the board.",
    )


def _stands(plan: TorusPlan) -> tuple[Check, ...]:
    made_for = calliper(
        "centre", "They are made for a tube's middle over the board of", plan.mountings.first.centre_height
    )
    return (
        Check(
            "standing",
            "Standing gauges, their feet on the board and on the spigot: an even line of light",
            (made_for,),
            "light at one end: the middle of the tube is higher or lower; measure it again and shim",
        ),
    )


def _sizes(plan: TorusPlan, size: SizeStage) -> tuple[Reading, ...]:
    return tuple(Reading(one.id, one.label, one) for one in three_sizes(plan, size))


STAGE: Stage[TorusPlan] = Stage(ID, "Turn the first side to its gauges", operations)
