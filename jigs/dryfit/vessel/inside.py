"""The inner gauges through the mouth and on the inside, and the wall gauge on the rim."""

from __future__ import annotations

from itertools import pairwise, takewhile

import numpy as np
import shapely

from geometry.plane.edges import FloatArray
from jigs.dryfit.files import Files, stages_of
from jigs.dryfit.model import Check, Plate, deepest, farthest, spans
from jigs.dryfit.vessel.outside import EDGE, PITCH, SLACK, coordinates
from jigs.dryfit.vessel.work import FAR, Work

PASSES = 0.5  # mm of play while it goes through the mouth
HOOKED = 2.0  # mm of hook on the rim's wood
FILED = 1.0  # mm that a file leaves of a working edge, at most
EARLY = 0.035  # mm that a flat plate may ride high


def inside_checks(work: Work, files: Files, head: str = "inside-gauge") -> list[Check]:
    """Every stage's gauge; once the mouth has let one in, it lets in all that follow.

    Their names begin with `head`.
    """
    stages = stages_of(work.job)
    without = without_gauge(work, files, head)
    return [
        check
        for stage, offset in stages[len(without) :]
        for check in _gauge_checks(work, files.plate(f"{head}-{stage}"), offset)
    ]


def without_gauge(work: Work, files: Files, head: str = "inside-gauge") -> list[str]:
    """The first stages, as far as none has a gauge."""
    names = [stage for stage, _ in stages_of(work.job)]
    return list(takewhile(lambda stage: not files.has(f"{head}-{stage}"), names))


def _gauge_checks(work: Work, plate: Plate, offset: float) -> list[Check]:
    edge, own = work.inside(offset + work.job.gauges.fit), _below(plate, work.height)
    along = coordinates(shapely.segmentize(edge, PITCH))
    back, low = own[:, 0].min(), own[:, 1].min()
    meant = along[(along[:, 0] > back + 0.1) & (along[:, 1] > low - EDGE)]
    level = meant[meant[:, 1] > low + 0.1]  # a plate that ends above the floor has a level lower edge
    on_floor = low < along[:, 1].min() + 0.1
    away = shapely.distance(shapely.points(meant if on_floor else level), plate.face.exterior)
    wood = _wood(work, offset)
    deep = deepest(coordinates(shapely.segmentize(plate.face.exterior, PITCH)), wood)
    return [
        plate.check("working edge off the work's parallel", float(away.max()), 0.0, EDGE),
        plate.check("stands over the parallel by", _over(own, edge), 0.0, EDGE),
        plate.check("stands in the wood by", deep, 0.0, SLACK),
        plate.check("passes the mouth with", _passing(work, plate, own, offset), PASSES),
        *_hook_checks(work, plate, offset),
        *_high(plate, along[(along[:, 0] > back + 0.1) & (along[:, 1] > low + 0.1)]),
    ]


def _below(plate: Plate, height: float) -> FloatArray:
    """The outline's points that are in the vessel, (m, 2)."""
    points = coordinates(shapely.segmentize(plate.face.exterior, PITCH))
    return points[points[:, 1] < height - 1e-3]


def _over(own: FloatArray, edge: shapely.LineString) -> float:
    """How far the plate comes over its line."""
    points = np.asarray(edge.coords)
    hollow = shapely.Polygon(np.vstack((points, (-FAR, points[-1, 1]), (-FAR, points[0, 1]))))
    return farthest(own, hollow)


def _wood(work: Work, offset: float) -> shapely.Polygon:
    """The wall on the gauge's side, with what this stage leaves inside and outside, the rim faced."""
    outer, inner = (np.asarray(side(offset).coords) for side in (work.outside, work.inside))
    return shapely.Polygon(np.vstack((*([] if work.section.through else [(0.0, 0.0)]), outer, inner[::-1])))


def _passing(work: Work, plate: Plate, own: FloatArray, offset: float) -> float:
    """How far it may stand aside while it is lowered: every height of it passes all that is above its place.

    A flat plate passes a round hollow with its arrises: its back is square, its working edge as thick as its land,
    or filed thin where that is left to the file.
    """
    side = np.asarray(work.inside(offset).coords)
    narrow = np.minimum.accumulate(side[::-1, 0])[::-1]  # the narrowest from here up
    # On a level floor the hollow is as wide as the floor, not as its middle.
    at = np.minimum(np.searchsorted(side[:, 1], own[:, 1] + 1e-6), len(side) - 1)

    def free(thick: float) -> FloatArray:
        return np.sqrt(np.maximum(narrow[at] ** 2 - (thick / 2) ** 2, 0.0))

    front = FILED if plate.land is None else plate.land
    return float(
        (free(min(front, plate.thickness)) - own[:, 0]).min() + (free(plate.thickness) + own[:, 0]).min()
    )


def _hook_checks(work: Work, plate: Plate, offset: float) -> list[Check]:
    """Its hook lies flat on the rim, far enough over the wood that is left there."""
    points, mouth = plate.outline, float(work.inside(offset).coords[-1][0])
    under = points[(np.abs(points[:, 1] - work.height) < 0.6) & (points[:, 0] > mouth - 0.6)]
    reach = float(under[:, 0].max()) if len(under) else 0.0
    flat = under[under[:, 0] > mouth + 1.0]
    levels = flat[:, 1] if len(flat) else np.array([np.inf])
    return [
        plate.near("hook off the rim, least", float(levels.min()) - work.height, 0.0, SLACK),
        plate.near("hook off the rim, most", float(levels.max()) - work.height, 0.0, SLACK),
        plate.check("hook over the rim's wood by", reach - mouth, HOOKED),
    ]


def _high(plate: Plate, edge: FloatArray) -> list[Check]:
    """How high the flat plate rides on the round inside; where its edge is left to the file, nothing."""
    if plate.land is None or len(edge) < 2:
        return []
    step = np.diff(edge, axis=0)
    upright = np.abs(step[:, 1]) / np.hypot(*step.T)
    high = plate.land**2 / (8 * np.maximum(edge[1:, 0], 1.0)) * upright
    return [plate.check("rides high inside by", float(high.max()), 0.0, EARLY)]


def wall_checks(work: Work, plate: Plate) -> list[Check]:
    """Each slot, from the left, over the wall at the rim as its stage leaves it, the outside finished."""
    slots, stages = _slots(plate), stages_of(work.job)
    finished = _wall(work) + stages[-1][1] + 2 * work.job.gauges.fit
    return [
        plate.counted("slots found", len(slots), len(stages)),
        *(
            plate.near(f"slot over the wall, {stage}", high - low, finished + offset, EDGE)
            for (low, high), (stage, offset) in zip(slots, stages, strict=False)
        ),
    ]


def _slots(plate: Plate) -> list[tuple[float, float]]:
    """From and to, along the lower edge."""
    return [(a[1], b[0]) for a, b in pairwise(spans(plate.face, plate.face.bounds[1] + 1))]


def _wall(work: Work) -> float:
    """The wall at the rim: the shortest way from either arris to the other side."""
    outer, inner = work.outside(0.0), work.inside(0.0)
    ends = (shapely.Point(inner.coords[-1]).distance(outer), shapely.Point(outer.coords[-1]).distance(inner))
    return float(min(ends))
