"""Inner profile gauges: the inside's convex twin on a plate that passes the mouth and hangs on the rim.

Coordinates: the axis is x = 0, the finished foot y = 0, up towards the rim, when the edge touches.
"""

from __future__ import annotations

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray
from geometry.plane.profile import Profile
from geometry.records import replace
from jigs.parts.gauges.edge import BRACKETS, SAME, SIZES, Tick, edge_plate, form_of, tick_marks
from jigs.parts.gauges.plate import HANG, MARGIN, Panel, gauge_panel, hang_hole
from jigs.parts.part import Bevel, Mark, Part
from jigs.parts.places import LATHE_CAUTION, raised_height
from jigs.parts.proof import lies_on
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.plan.vessel import InsideReach, VesselStage

RELIEF = 1.5  # in the corner under the hook, for the rim's arris
CLEAR = 3.0  # of the handle over the rim on the far side


def inside_gauges(plan: VesselPlan) -> list[Part]:
    """One for each stage; none where the mouth lets nothing in."""
    reach = plan.gauges.reach
    return [
        _gauge(plan, stage, stage.inside, reach)
        for stage in plan.gauges.stages
        if stage.inside is not None and reach is not None
    ]


def _gauge(plan: VesselPlan, stage: VesselStage, edge: Profile, reach: InsideReach) -> Part:
    panel = _panel(plan, stage, reach)
    rim, rows = plan.section.height, edge.vertices
    right, top = reach.hook, rim + CLEAR + panel.size[1]
    left = min(reach.back, right - panel.size[0])
    hook = _hook(edge, reach, rim)
    outline = _outline(rows, hook, reach, left, top)
    upper = rows if reach.land is None else _set_back(rows, reach.back, plan.gauges.plate - reach.land)
    bevel = None if reach.land is None else Bevel(reach.land, _outline(upper, hook, reach, left, top))
    return edge_plate(
        plan,
        f"inside-gauge-{stage.name}",
        f"profile of the inside, {stage.label.lower()}",
        outline,
        (hang_hole(right - MARGIN - HANG, top - MARGIN - HANG),),
        (*panel.lettering(left, top), *_ticks(plan, stage, Profile(upper), bevel.top if bevel else outline)),
        (form_of(Profile(np.concatenate((rows, hook)))),),
        _notes(plan, reach),
        bevel,
    )


def _panel(plan: VesselPlan, stage: VesselStage, reach: InsideReach) -> Panel:
    """The usual block of lines, or a lower, wider one where only so the gauge lies on the bed in one piece."""
    work = stage.work_inside
    low = plan.section.inner.bottom if work is None else work.start[1]
    deep = plan.job.show(plan.section.height - low, exact=True)
    floor = () if plan.section.through else (f"RIM TO FLOOR {deep}".upper(),)
    label = stage.label if stage.offset < SAME else f"{stage.label}: {BRACKETS}"
    usual = gauge_panel(plan, "INSIDE GAUGE", label, "← AXIS", "HOOK ON RIM →", *floor)
    head = f"{plan.job.title.upper()}, INSIDE GAUGE, {label}"
    wide = replace(usual, lines=(head, "← AXIS, HOOK ON RIM →", *floor, ", ".join(LATHE_CAUTION)))
    return wide if _lies(plan, wide, reach) and not _lies(plan, usual, reach) else usual


def _lies(plan: VesselPlan, panel: Panel, reach: InsideReach) -> bool:
    wide, tall = panel.size
    across = reach.hook - min(reach.back, reach.hook - wide)
    return lies_on((across, plan.section.height + CLEAR + tall - reach.low), plan.job.workshop.printer.bed)


def _hook(edge: Profile, reach: InsideReach, rim: float) -> FloatArray:
    """From the working edge's upper end round the relief and out over the rim, (4, 3)."""
    x = edge.end[0]
    places = ((x, rim + RELIEF), (x + RELIEF, rim + RELIEF), (x + RELIEF, rim), (reach.hook, rim))
    return np.array([(*place, 0.0) for place in places])


def _outline(edge: FloatArray, hook: FloatArray, reach: InsideReach, left: float, top: float) -> Contour:
    """Up the working edge, round the hook and the handle, down the back."""
    under = float(hook[-1, 1]) + CLEAR
    rest = [(reach.hook, top), (left, top)]
    if left < reach.back:
        rest += [(left, under), (reach.back, under)]
    if edge[0, 0] > reach.back + 1e-6:
        rest.append((reach.back, float(edge[0, 1])))
    return Contour(np.concatenate((edge, hook, np.array([(*place, 0.0) for place in rest]))))


def _set_back(rows: FloatArray, back: float, by: float) -> FloatArray:
    """The edge's rows moved level towards the back, less where it is near, so that none passes it.

    Level, because the plate rides on circles about the axis: a flat floor needs nothing taken off.
    """
    moved = rows.copy()
    moved[:, 0] -= by * np.clip((rows[:, 0] - back) / (3.0 * by), 0.0, 1.0)
    return moved


def _ticks(plan: VesselPlan, stage: VesselStage, edge: Profile, within: Contour) -> tuple[Mark, ...]:
    """The inside at the stations of the outside, now and finished; marks stand on the plate's upper side."""
    inner, work, height = plan.section.inner, stage.work_inside, raised_height(plan.job.workshop.printer)
    if work is None:
        return ()
    low = max(inner.bottom, work.bottom)
    ticks = [
        Tick(s.height, 2 * work.radius_at(s.height), 2 * inner.radius_at(s.height), s.name)
        for s in plan.gauges.stations
        if low < s.height < min(inner.top, work.top)
    ]
    return tick_marks(ticks, edge, -1, within, (), height, plan.job.unit)


def _notes(plan: VesselPlan, reach: InsideReach) -> tuple[str, ...]:
    low = plan.gauges.unguided
    deep = plan.job.show(plan.section.height - reach.low)
    # A part's outside is not turned yet.
    by = "inside callipers" if plan.job.halves.ring else "a calliper for the wall"
    as_far = (f"It reaches {deep} under the rim. What is deeper is measured by {by}.",) if low else ()
    return (
        f"Face the rim to its height and turn the {plan.job.called.mouth} to this stage first.",
        f"Move it towards the far side, lower it into the {plan.job.called.mouth}, then bring the edge to the wood, "
        "the hook on the rim.",
        SIZES,
        *as_far,
    )
