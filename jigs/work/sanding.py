"""Sanding on the lathe, grit by grit: the operation, for any side of any work."""

from __future__ import annotations

from collections.abc import Iterable

from jigs.plans.plan import Plan
from jigs.words.quantity import Quantity, calliper
from jigs.work.minutes import GRIT, over
from jigs.work.model import Check, Operation
from jigs.work.supplies import grit
from jigs.work.woods import dusty, irritants

HOW = (
    "Take the rest away and run the lathe slowly.",
    "Put extraction beside the work and wear a mask.",
    "Sand with each grit until the scratches of the one before are gone; skip none.",
    "Stop after each grit, wipe the dust off, and look along the light.",
)
INSIDE = "Inside, hold the paper on a padded stick; no hand goes in while it turns."
BASE = "Leave card over the floating base: it has its finish."
STOPPED = ("Stop the lathe and sand by hand, along each segment: the gaps catch paper and fingers.",)
SCRATCHES = Check(
    "scratches",
    "Lathe stopped, a lamp low beside the work: no scratch of the grit before",
    if_not="go back to that grit; a finer one only polishes the scratch",
)


def sanded(
    plan: Plan,
    of: str,
    id: str,
    does: str,
    area: float,
    checks: Iterable[Check] = (),
    stopped: bool = False,
    also: tuple[str, ...] = (),
    caution: str = "lathe.sanding",
) -> Operation:
    """All grits over so many mm2; work with gaps is sanded with the lathe stopped."""
    finish = plan.wood.finish
    return Operation(
        f"{of}.{id}",
        "lathe",
        does,
        how=(*(STOPPED if stopped else HOW[:1]), *also, *HOW[1:]),
        settings=(
            calliper("allowance", "Sand off, on the radius", finish.allowance),
            Quantity("grits", "Grits", ", ".join(str(g.grit) for g in finish.grits), "text"),
            *irritants(plan),
        ),
        checks=(SCRATCHES, *checks),
        cautions=dusty(plan, caution),
        minutes=over(area, GRIT * len(finish.grits), 5),
        uses_up=tuple(grit(str(g.grit), area, plan.job.unit) for g in finish.grits),
    )
