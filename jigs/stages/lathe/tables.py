"""Swing, weight, speed and unbalance; a torus's mountings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isnan, tau
from typing import TYPE_CHECKING

from geometry.lathe.mountings import Arc, Mounting
from geometry.lathe.turning import unbalance
from jigs.plans.plan import Plan
from jigs.words.lengths import MM_PER_INCH, Unit
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.model import Cell, Column, Row, Table, listed, tabled

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

# That the work's weight lies off the axis, for the telling.
OUT: dict[Unit, float] = {"mm": 1.0, "in": MM_PER_INCH / 32}
TITLES = {"A": "first board", "B": "retainer", "C": "channel, braces", "D": "channel, retainer"}


def of_torus(plan: TorusPlan) -> Sequence[Table]:
    """At the lathe, and the holding plan."""
    return (_lathe(plan, "the work"), *_mountings(plan))


def of_vessel(plan: VesselPlan) -> Sequence[Table]:
    """At the lathe; parts that are turned apart have speeds of their own, in their steps."""
    return (_lathe(plan, "the parts, once joined," if plan.halves else "the work"),)


def _lathe(plan: Plan, turned: str) -> Table:
    return listed("lathe", "At the lathe", tuple(_spinning(plan, turned)))


def _spinning(plan: Plan, turned: str) -> Iterator[Quantity]:
    slow, fast = plan.reversed_speed
    grams = sum(one.before for one in plan.wood.finish.weights)
    over = "Swing over the bed, and over the rest's base where that stands under the work, at least"
    yield ruled("swing", over, plan.least_swing, bound="least")
    yield Quantity("slow", f"Start {turned} no faster than", slow, "speed")
    yield Quantity(
        "fast", f"Never spin {turned} faster than, and never past the lathe's rating", fast, "speed"
    )
    if isnan(grams):
        return
    out, woods = OUT[plan.job.unit], plan.off_axis / grams if grams else 0.0
    yield Quantity("weight", "Weight of the blank", grams, "weight")
    why = "by its woods" if woods > out else "as an example"
    out = max(woods, out)
    yield calliper("out", f"Its weight off the axis, {why}", out)
    for id, label, speed in (
        ("slow.pull", "Then it shakes the lathe at the slower speed with", slow),
        ("fast.pull", "Then it shakes the lathe at the faster speed with", fast),
    ):
        yield Quantity(id, label, unbalance(grams, out, speed), "force")


def _mountings(plan: TorusPlan) -> Sequence[Table]:
    rows = (row for mounting in plan.mountings.mountings for row in _rows(mounting))
    title = "Mountings (0° rim, 90° first face, 180° hole, 270° glued flat)"
    return tabled("mountings", title, rows)


def _rows(mounting: Mounting) -> Iterator[Row]:
    for k, hold in enumerate(mounting.holds):
        name = f"{mounting.name}: {TITLES[mounting.name]}" if k == 0 else None
        yield (
            (Column("mounting", "Mounting"), name),
            (Column("turns", "Turn from, to", "angle"), _ends(mounting.turns if k == 0 else None)),
            (Column("held", "Held by"), hold.what),
            (Column("bears", "It touches from, to", "angle"), _ends(hold.bears)),
            (Column("covers", "Keep the tool out from, to", "angle"), _ends(hold.covers)),
        )


def _ends(arc: Arc | None) -> Cell:
    """Both from 0 to a whole turn."""
    return (arc.start % tau, arc.end % tau) if arc else None
