"""What a shop has at hand, or borrows, for the work: nothing that the work uses up, and nothing that is priced."""

from __future__ import annotations

from typing import TYPE_CHECKING

from jigs.forms.plan import Plan
from jigs.words.lengths import MM_PER_INCH, Unit
from jigs.words.quantity import Quantity, ruled
from jigs.work.hardware import pieces, slug
from jigs.work.model import Goods

if TYPE_CHECKING:  # a torus need not load it
    from jigs.forms.vessel.plan import VesselPlan

GROUP = "tools"
CLAMPS = 8  # all round a board's layers, or on the blocks of a blank; common practice, no source
OPENING: dict[Unit, float] = {"mm": 150.0, "in": 6 * MM_PER_INCH}
ALWAYS = ("calliper", "square", "straight edge", "feeler gauges", "dial indicator on a stand")
SCALE = "luggage scale, for the spanner"


def tools(plan: Plan) -> tuple[Goods, ...]:
    """Clamps, a faceplate, and what measures."""
    bolted = plan.kind == "torus" or (
        plan.reversing.plug is not None and plan.reversing.plug.bolt is not None
    )
    return (
        _tool("clamp", CLAMPS, ruled("opening", "Opening at least", OPENING[plan.job.unit])),
        _faceplates(plan),
        *(_tool(one, 1) for one in (*ALWAYS, *((SCALE,) if bolted else ()))),
    )


def _faceplates(plan: Plan) -> Goods:
    if plan.kind == "vessel":
        return _tool(
            "faceplate of the lathe", _of_vessel(plan), ruled("across", "Across at most", plan.waste.most)
        )
    return _tool(
        "faceplate of the lathe", 1, ruled("across", "Across at most", plan.holding.retainer_faceplate)
    )


def _of_vessel(plan: VesselPlan) -> int:
    """A floating base is turned while ring 1 stays on its own."""
    return 2 if plan.stack.floating else 1


def _tool(what: str, count: int, *sizes: Quantity) -> Goods:
    return Goods(f"tool.{slug(what)}", GROUP, what, (pieces(count), *sizes))
