"""Sleds for flat rings put together, a strip on each before the cut, on its far fence, its tip at the stop."""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, sin, tan

from geometry.plane.contour import polygon
from jigs.parts.assembly import ACROSS, Assembly, Place, Places, plate_of_work, put_together
from jigs.parts.part import Part
from jigs.parts.sleds.placed import HeldBy, Upright, handle, hold_down, joined, layers, runner
from jigs.plans.plan import Plan, by_form
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_segments.layout.carriage import StopCarriage
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout

PAST = 40.0  # mm of strip past its fence
NEAR, FAR = -1, 1


def assembled(plan: Plan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """Of a vessel each count's, at the setting for its longest edge; of a torus the one that the job asks for."""
    return by_form(plan, torus=lambda own: _of_torus(own, parts), vessel=lambda own: _of_vessel(own, parts))


def _of_torus(plan: TorusPlan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    own = plan.cutting.plan_angle
    if own is None:
        return ()
    stop = {"plan-angle-stop": (Place((*own.pivot, 0.0)),)}
    return _put("", own, own.depth, own.height, joined([_body(own, parts, ""), stop]), parts)


def _of_vessel(plan: VesselPlan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    found: tuple[Assembly, ...] = ()
    cuts = {layer.number: layer.cut for layer in plan.stack.as_cut(plan.planned).layers}
    for sled in plan.saws.sleds:
        own, end = sled.layout, f"-n{sled.segments}"
        setting = max(sled.settings, key=lambda one: one.outer_edge)
        cut = next((cuts[ring] for ring in setting.rings if cuts[ring]), None)
        if cut is None or own.carriage is None:
            continue
        places = joined([_body(own, parts, end), _carried(own.carriage, setting.stop, own.sheet, end)])
        found += _put(end, own, cut.depth, own.height, places, parts)
    return found


def _put(
    end: str, own: PlanAngleLayout, depth: float, height: float, places: Places, parts: Mapping[str, Part]
) -> tuple[Assembly, ...]:
    strip = plate_of_work("strip", polygon(_strip(own, depth)).ccw(), height)
    title = "sled for flat rings, a strip on it before the cut"
    return put_together(f"flat-sled{end}", title, parts, places, ((strip, Place()),))


def _strip(own: PlanAngleLayout, depth: float) -> list[tuple[float, float]]:
    """On the far fence; its end, cut on the other one, has its tip at the stop."""
    c, s, edge = cos(own.mitre), sin(own.mitre), own.outer_edge
    shorter = edge - depth * tan(own.mitre)  # of the far line, where the other side's corner lies
    tip = own.fence(FAR, -edge)
    corner = own.fence(FAR, -shorter)
    return [
        tip,
        own.fence(FAR, own.fence_end + PAST),
        own.fence(FAR, own.fence_end + PAST, -depth),
        (corner[0] - s * depth, corner[1] - c * depth),
    ]


def _body(own: PlanAngleLayout, parts: Mapping[str, Part], end: str) -> Places:
    t, start = own.sheet, own.fence_start
    cam, lever = f"plan-angle-cam{end}", f"plan-angle-lever{end}"
    fences = {side: _fence(own, side) for side in (FAR, NEAR)}
    gallows = Upright((own.gallows[0], 0.0, 0.0), ACROSS, (1.0, 0.0, 0.0), t)
    strip = HeldBy(f"plan-angle-hold{end}", cam, lever, f"plan-angle-finger{end}")
    press = HeldBy(f"plan-angle-press{end}", cam, lever)
    return joined(
        [
            {
                f"plan-angle-base{end}": (Place((0.0, 0.0, -t)),),
                f"plan-angle-fence{end}": tuple(fence.place for fence in fences.values()),
                f"plan-angle-gallows{end}": (gallows.place,),
                f"plan-angle-handle{end}": handle(*own.handle),
                f"plan-angle-exit-block{end}": layers(parts.get(f"plan-angle-exit-block{end}")),
                f"plan-angle-runner{end}": runner(
                    own.runner, own.operator_edge, t, parts.get(f"plan-angle-runner{end}")
                ),
            },
            *(hold_down(fence, own.hold, start, own.height, strip) for fence in fences.values()),
            hold_down(gallows, own.press, -own.press.middle, own.height, press, lever_back=True),
        ]
    )


def _fence(own: PlanAngleLayout, side: int) -> Upright:
    c, s = cos(own.mitre), sin(own.mitre)
    return Upright((*own.fence(side, 0.0), 0.0), (-c, side * s, 0.0), (s, side * c, 0.0), own.sheet)


def _carried(carriage: StopCarriage, stop: float, t: float, end: str) -> Places:
    """The stop's arm on the base, its plate over it on two shoes, the guide."""
    x, y = carriage.pivot(stop)
    left, low, _, _ = carriage.guide
    return {
        f"plan-angle-stop{end}": (Place((x, y, 0.0)),),
        f"plan-angle-carriage{end}": (Place((x, y, t)),),
        f"plan-angle-shoe{end}": tuple(Place((x, y + shoe, 0.0)) for shoe in carriage.shoes),
        f"plan-angle-guide{end}": (Place((left, low, 0.0)),),
    }
