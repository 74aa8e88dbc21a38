"""What a shop has at hand, or borrows, for the work: nothing that the work uses up, and nothing that is priced."""

from __future__ import annotations

from typing import TYPE_CHECKING

from jigs.plans.plan import Plan, by_form
from jigs.words.lengths import MM_PER_INCH, Unit
from jigs.words.quantity import Quantity, ruled
from jigs.work.hardware import pieces, slug
from jigs.work.model import Goods

if TYPE_CHECKING:  # a torus need not load it
    from collections.abc import Iterator

    from jigs.plans.vessel import VesselPlan

GROUP = "tools"
CLAMPS = 8  # all round a board's layers, or on the blocks of a blank; common practice, no source
OPENING: dict[Unit, float] = {"mm": 150.0, "in": 6 * MM_PER_INCH}
ALWAYS = (
    "calliper",
    "square",
    "straight edge",
    "feeler gauges",
    "dial indicator on a stand",
    "rule and tape measure",
    "fine hand saw",
    "drill with bits and a countersink",
)
EDGE = 4.0  # of a screw, wood outside the screws, both sides together; common practice, no source
SCALE = "luggage scale, for the wrench"


def tools(plan: Plan) -> tuple[Goods, ...]:
    """Clamps, a faceplate, and what measures."""
    return (
        _tool("clamp", CLAMPS, ruled("opening", "Opening at least", OPENING[plan.job.unit])),
        _faceplates(plan),
        *(_tool(one, 1) for one in (*ALWAYS, *((SCALE,) if plan.bolted else ()))),
        *by_form(plan, torus=lambda own: (), vessel=_of_vessel),
    )


def _of_vessel(plan: VesselPlan) -> Iterator[Goods]:
    plug = plan.reversing.plug
    yield _tool("outside and inside callipers", 1)
    if any(layer.plug for layer in plan.stack.to_make):
        yield _tool("chuck of the lathe, for the block that a plug is turned on", 1)
    if plug and not plug.bolt:
        yield _tool("bathroom scale, for the tailstock's push", 1)


def _faceplates(plan: Plan) -> Goods:
    """A floating base is turned while ring 1 stays on its own."""
    count, size = by_form(
        plan,
        torus=lambda own: (
            1,
            ruled("across", "Across at most", own.holding.retainer_faceplate, bound="most"),
        ),
        vessel=lambda own: (
            2 if own.stack.floating else 1,
            ruled(
                "screws",
                "Its screws within a circle of",
                own.waste.most - EDGE * own.waste.screws.across,
                bound="most",
            ),
        ),
    )
    return _tool("faceplate of the lathe", count, size)


def _tool(what: str, count: int, *sizes: Quantity) -> Goods:
    return Goods(f"tool.{slug(what)}", GROUP, what, (pieces(count), *sizes))
