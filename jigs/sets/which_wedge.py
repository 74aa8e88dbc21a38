"""Which wedge trial rings were cut on, where the sled's in the rack is another one than the readings take it to be."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, radians
from typing import TYPE_CHECKING

from jigs.plans.plan import by_form
from jigs.words.findings import Finding

if TYPE_CHECKING:
    from jigs.plans.plan import Plan
    from jigs.plans.torus import TorusPlan
    from jigs.sets.old_set import OldSet

WEDGES = ("sled-wedge", "end-wedge")
SAME = 2e-5  # radians: wedges are lettered to 0.001 degrees


def which_wedge(plan: Plan, old: OldSet) -> Iterator[Finding]:
    """What refuses new readings that leave out their wedge, once an earlier correction is in the rack.

    Taken for those of a wedge of pi/N, rings that prove the corrected wedge would undo it.
    """
    if drawn := old.size(WEDGES[0], "angle"):
        yield from by_form(plan, torus=lambda torus: _asked(torus, radians(drawn)), vessel=lambda _: iter(()))


def _asked(plan: TorusPlan, rack: float) -> Iterator[Finding]:
    from jigs.measured.wedge_angle import wedge_found

    found, readings = wedge_found(plan.job, plan.blank, plan.ring_cut), plan.job.readings
    if found is None or f"{found.of}.wedge-angle" in readings:
        return
    planned = plan.blank.half_wedge
    if min(abs(rack - planned), abs(rack - plan.ring_cut.wedge_angle)) < SAME:
        return
    of, angles = found.of, (degrees(rack), degrees(planned))
    line = next(readings.entries[id].line for id in readings.under(f"{of}.gap-at-"))
    yield Finding(
        "which-wedge",
        "the readings do not say on which wedge these rings were cut: the last make drew the sled's wedge to "
        f"{angles[0]:.3f}°, and without a correction it is {angles[1]:.3f}°",
        "write the angle lettered on that wedge under the readings: "
        + " or ".join(f"wedge-angle = {angle:.3f}" for angle in angles),
        f"{of}.wedge-angle",
        readings.file,
        line,
    )
