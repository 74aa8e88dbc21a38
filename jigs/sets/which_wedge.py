"""Which wedge trial rings were cut on, where the sled's in the rack is another one than the readings take it to be."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, radians
from typing import TYPE_CHECKING

from jigs.plans.plan import by_form
from jigs.words.findings import Finding, Severity

if TYPE_CHECKING:
    from jigs.plans.plan import Plan
    from jigs.plans.torus import TorusPlan
    from jigs.sets.old_set import OldSet

WEDGES = ("sled-wedge", "end-wedge")
SAME = 2e-5  # radians: wedges are lettered to 0.001 degrees


def which_wedge(plan: Plan, old: OldSet) -> Iterator[Finding]:
    """What refuses new readings that leave out their wedge, once an earlier correction is in the rack.

    Taken for those of a wedge of pi/N, rings that prove the corrected wedge would undo it. New readings that name
    another wedge than the rack's may be of older rings, or name it still: a warning.
    """
    if drawn := old.size(WEDGES[0], "angle"):
        yield from by_form(plan, torus=lambda torus: _asked(torus, radians(drawn)), vessel=lambda _: iter(()))


def _asked(plan: TorusPlan, rack: float) -> Iterator[Finding]:
    from jigs.measured.wedge_angle import wedge_found

    found, readings = wedge_found(plan.job, plan.blank, plan.ring_cut), plan.job.readings
    if found is None or abs(rack - plan.ring_cut.wedge_angle) < SAME:
        return
    of, drawn = found.of, degrees(rack)
    if lettered := readings.angle(f"{of}.wedge-angle", "eye"):
        severity: Severity = "warning"
        cut_on = lettered.value
        message = (
            f"the readings name a wedge of {degrees(cut_on):.3f}° for these rings; the last make drew the sled's "
            f"wedge to {drawn:.3f}°"
        )
        remedy = f"if they were cut on that one, write wedge-angle = {drawn:.3f} and make the set again"
    else:
        severity, cut_on = "refused", plan.blank.half_wedge
        message = (
            f"the readings do not say on which wedge these rings were cut: the last make drew the sled's wedge to "
            f"{drawn:.3f}°, and without a correction it is {degrees(cut_on):.3f}°"
        )
        remedy = (
            "write the angle lettered on that wedge under the readings: "
            f"wedge-angle = {drawn:.3f} or wedge-angle = {degrees(cut_on):.3f}"
        )
    if abs(rack - cut_on) >= SAME:
        line = next(readings.entries[id].line for id in readings.under(f"{of}.gap-at-"))
        yield Finding("which-wedge", message, remedy, f"{of}.wedge-angle", readings.file, line, severity)
