"""What carries a floating base: the foot's hollow, its floor and its lowest ring, all at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import floor

from geometry.bodies.floating_base import widest_opening
from jigs.asked.change import typed
from jigs.asked.vessel_job import VesselJob
from jigs.remedies.ladder import Rung
from jigs.remedies.lever import Lever, View, of_vessel, one_of
from jigs.words.findings import Refused
from jigs.words.lengths import MM_PER_INCH

LEDGE, TONGUE, LIP = 4.0, 5.0, 4.0  # mm, of a hollow, a groove and a lip that serve
SMALLER = (1.0, 0.9, 0.8, 0.7, 0.6)  # of the widest hollow
USUAL = 20.0  # mm, of rings for a job whose heights are chosen from boards


@of_vessel
def _carried(_: View, job: VesselJob) -> Sequence[Rung]:
    """Hollow, floor and lowest ring of usual sizes, the hollow as wide as the wall leaves it."""
    from jigs.asked.inside import wall_floor

    step = 0.5 if job.unit == "mm" else MM_PER_INCH / 32
    ledge, tongue = (round(size / step) * step for size in (LEDGE, TONGUE))
    thick = max(wall_floor(job), round((TONGUE + LIP) / step) * step)
    keys = _heights(job, ledge + tongue + job.rings.turning_allowance)
    if job.inside is None and thick > wall_floor(job):
        keys = {**keys, "wall.floor": typed(thick, job.unit)}
    found, widest = [], _widest(job, ledge, tongue, thick)
    for share in SMALLER:
        across = floor(2 * share * widest / step) * step
        foot = {"foot.recess_diameter": typed(across, job.unit), "foot.recess_depth": typed(ledge, job.unit)}
        found.append(Rung({**foot, **keys}, 1 - share))
    return found if widest > 0 else []


def _heights(job: VesselJob, first: float) -> dict[str, object]:
    given = job.rings.heights
    others = (given[1:] or given[:1]) if isinstance(given, tuple) else (USUAL,)
    return {"rings.heights": [typed(height, job.unit) for height in (first, *others)]}


def _widest(job: VesselJob, ledge: float, tongue: float, thick: float) -> float:
    """Radius of the widest opening with wall outside its groove, within the floor's flat; 0 where there is none."""
    from jigs.stages.finished_form.solve import solve_section
    from jigs.stages.floating_base.check import flat_radius, wall_wanted
    from jigs.stages.floating_base.groove import moisture_shares

    foot = replace(job.foot, recess_diameter=1.0, recess_depth=ledge)
    try:
        section = solve_section(replace(job, foot=foot, wall=replace(job.wall, floor=thick)))
        outside = section.outer.radii(ledge, ledge + tongue)[0]
    except (Refused, ValueError):
        return 0.0
    groove = outside - wall_wanted(job)
    return (
        max(0.0, min(flat_radius(section), widest_opening(groove, *moisture_shares(job))))
        if groove > 0
        else 0.0
    )


# It is the turner who says that the base floats.
_OTHER = one_of("rings.base", "segmented", None, "solid", dear=6.0)
CARRIED = Lever("foot.recess_diameter", _carried, None, False, 1.0)
FLOATING: dict[str, Sequence[Lever]] = {
    code: (CARRIED, _OTHER)
    for code in ("no-ledge", "floating-heights", "floating-ledge", "floating-floor", "floating-joint",
                 "floating-wall", "floating-flat", "floating-narrow", "floating-upright")
}  # fmt: skip
