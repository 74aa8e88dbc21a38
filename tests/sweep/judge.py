"""A second opinion on a vessel's gauges and sticks: ezdxf, numpy-stl and shapely on the written files.

None of the dry fit's code is used here. A judge measures one sort of part against the finished form that the plan
holds, by brute force on fine polygons, and says whether the part is right.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from math import hypot
from pathlib import Path

import numpy as np
import shapely
from shapely import affinity

from jigs.plans.vessel import VesselPlan
from jigs.words.file_names import what_of
from tests.sweep.drawings import Plate, pieces

EDGE, SIZE = 0.08, 0.035  # mm: of a profile's edge, of a diameter
FAR = 1e4
NOT_MEASURED = "passes|rides|hook|hole|bolt|foot|stands in the first|tool room"  # of a gauge, by a judge


def vessel_right(plan: VesselPlan, folder: Path, where: str, what: str = "") -> bool | None:
    """Whether the part that a check condemns is right; None where there is no judge for it."""
    for pattern, judge in VESSEL.items():
        match = re.fullmatch(pattern, where)
        if match and not re.search(NOT_MEASURED, what):
            plates = pieces(folder, where, plan.job.workshop.cutter.kerf)
            return judge(plan, plates, *match.groups()) if plates else None
    return None


def vessel_wrong(plan: VesselPlan, folder: Path) -> list[str]:
    """All parts that their judges find wrong."""
    names = {re.sub("-[a-h]$", "", what_of(file)) for file in folder.glob("*/*.*")}
    return [name for name in sorted(names) if vessel_right(plan, folder, name) is False]


def _points(vertices: np.ndarray, count: int = 80) -> list[tuple[float, float]]:
    """Fine points along x, y, bulge."""
    found = [(float(vertices[0, 0]), float(vertices[0, 1]))]
    for (x0, y0, bulge), (x1, y1, _) in zip(vertices.tolist(), vertices[1:].tolist(), strict=False):
        if not bulge:
            found.append((x1, y1))
            continue
        a, b = complex(x0, y0), complex(x1, y1)
        turn = 4 * np.arctan(bulge)
        centre = (a + b) / 2 + (b - a) / 2 * 1j / np.tan(turn / 2)
        found += [
            (p.real, p.imag)
            for k in range(1, count)
            for p in [centre + (a - centre) * np.exp(1j * turn * k / count)]
        ]
        found.append((x1, y1))
    return found


@lru_cache(maxsize=16)
def wood_of(plan: VesselPlan, more: float) -> shapely.Polygon:
    """Both halves of the finished section with so much left on it."""
    section = plan.section
    outer, inner = _points(section.outer.vertices), _points(section.inner.vertices)
    r, d = section.recess_radius, section.recess_depth
    under = [(0.0, d), (r, d), (r, 0.0)] if r and d else [(0.0, 0.0)]
    right = shapely.Polygon(np.vstack((under, outer, inner[::-1]))).buffer(0)
    both = shapely.union_all([right, affinity.scale(right, -1, 1, origin=(0, 0))], grid_size=1e-7)
    return both.buffer(more, quad_segs=96) if more else both  # type: ignore[return-value]


def _stage(plan: VesselPlan, name: str) -> float:
    stages = plan.job.gauges.stages
    return stages[-1] if name == "finished" else stages[int(name.removeprefix("stage-")) - 1]


def _gauge_right(plan: VesselPlan, plates: list[Plate], stage: str, inside: bool) -> bool:
    """Not in the wood that is left, and its edge no farther from the parallel than it may."""
    (plate, _), offset = plates[0], _stage(plan, stage)
    height, line = plan.section.height, wood_of(plan, offset + plan.job.gauges.fit)
    low, high = max(plate.bounds[1], 0.0) + 1.0, min(plate.bounds[3], height) - 3.0
    band = shapely.box(-FAR, low, FAR, high)
    if not plate.intersection(line).intersection(band).buffer(-EDGE / 2).is_empty:
        return False
    hollow = shapely.box(-FAR, low, FAR, high).difference(line)
    sides = [part for part in getattr(hollow, "geoms", [hollow]) if part.intersects(plate)]
    own = plate.intersection(band)
    gap = max((part.buffer(-EDGE) for part in sides), key=lambda part: part.intersection(own).area)
    edge = shapely.segmentize(gap.exterior, 1.0).intersection(shapely.box(*own.bounds))
    back = own.bounds[0] + 1.0 if inside else own.bounds[2] - 1.0
    seen = [p for p in shapely.get_coordinates(edge) if (p[0] > back if inside else p[0] < back)]
    places = [shapely.Point(*p) for p in seen if low + 2 < p[1] < high - 2]
    beside = [place for place in places if line.distance(place) < EDGE + 0.01]
    return bool(beside) and max(plate.distance(place) for place in beside) < 2 * EDGE


def _outside(plan: VesselPlan, plates: list[Plate], stage: str, _piece: str) -> bool:
    return _gauge_right(plan, plates, stage, False)


def _inside(plan: VesselPlan, plates: list[Plate], stage: str) -> bool:
    return _gauge_right(plan, plates, stage, True)


def _level(shape: shapely.Polygon, y: float) -> list[tuple[float, float]]:
    cut = shape.intersection(shapely.LineString([(-FAR, y), (FAR, y)]))
    return sorted(part.bounds[::2] for part in getattr(cut, "geoms", [cut]) if part.length > 0.01)


def _calliper(plan: VesselPlan, plates: list[Plate], name: str) -> bool | None:
    stick = next((s for s in plan.sizes.sticks if _slug(s.station.name) == name), None)
    if stick is None:
        return None
    plate, stages = plates[0][0], plan.job.gauges.stages
    top = plate.bounds[3]
    for k, offset in enumerate(stages):
        z = min(max(stick.station.height, 1e-4), plan.section.height - 1e-4)
        wanted = 2 * max(b for _, b in _level(wood_of(plan, offset), z))
        (a, b), *more = _level(plate, top * (k + 0.5) / len(stages))
        if more or abs(b - a - wanted) > SIZE:
            return False
    return True


def _slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


def _gap(plan: VesselPlan, plates: list[Plate], name: str) -> bool | None:
    gauge = next((g for g in plan.sizes.gaps if _slug(g.station.name) == name), None)
    if gauge is None:
        return None
    plate, thick = plates[0][0], plates[0][1] or plan.sizes.plate
    low, high = (min(max(gauge.station.height + s * thick / 2, 0.0), plan.section.height) for s in (-1, 1))
    ends = [(plan.job.gauges.stages[-1], plate.bounds[1] + 2.0)]
    ends += [(before, plate.bounds[3] - 2.0) for before in plan.job.gauges.stages[-2:-1]]
    for offset, y in ends:
        grown = wood_of(plan, offset).intersection(shapely.box(-FAR, low, FAR, high))
        legs = _level(plate, y)
        if (
            len(legs) != 2
            or abs(legs[1][0] - legs[0][1] - 2 * grown.bounds[2] - 2 * plan.job.gauges.fit) > SIZE
        ):
            return False
    return True


def _mouth(plan: VesselPlan, plates: list[Plate], *_: str) -> bool | None:
    """A stick whose ends are both as wide as the corners need in one of the stages' mouths."""
    plate, thick = plates[0][0], plates[0][1] or plan.sizes.plate
    z = plan.section.height - 1e-4
    mouths = []
    for offset in plan.job.gauges.stages:
        spans = _level(wood_of(plan, offset), z)
        mouths.append(2 * min(abs(x) for span in spans for x in span) if len(spans) == 2 else 0.0)
    lower = _level(plate, plate.bounds[1] + 3.0)[0]
    wide = hypot(lower[1] - lower[0], thick)
    return min(abs(wide - mouth) for mouth in mouths) < SIZE


Judge = Callable[..., bool | None]
STAGE = r"(finished|stage-\d+)"
VESSEL: dict[str, Judge] = {
    rf"outside-gauge-{STAGE}(-\d+)?": _outside,
    rf"inside-gauge-{STAGE}": _inside,
    r"calliper-stick-(.*)": _calliper,
    r"gap-gauge-(.*)": _gap,
    r"mouth-stick(-\d+)?": _mouth,
}
