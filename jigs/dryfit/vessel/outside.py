"""The outer gauges: every piece of every stage against the outside, and on the rail."""

from __future__ import annotations

from itertools import pairwise
from math import hypot, pi, radians, sqrt, tan

import numpy as np
import numpy.typing as npt
import shapely
from shapely.geometry.base import BaseGeometry

from geometry.plane.edges import FloatArray, Point
from jigs.dryfit.files import Files, stages_of
from jigs.dryfit.model import Check, Plate, gaps, within
from jigs.dryfit.vessel.rings import first_radius
from jigs.dryfit.vessel.work import FAR, Work

PITCH = 0.5  # mm between places on lines
EDGE = 0.05  # mm: a working edge off the work's parallel
SLACK = 0.03  # mm
OVER = 0.1  # mm: a bolt's hole over its fellow
BESIDE = 0.5  # mm of the foot from the lowest ring
WIDE = 10.0  # mm, least of a foot
TIP = 2.0  # nozzles: a printed tip narrower than that may be missing,
SHARP = radians(25)  # where it is sharper than this


def pieces(files: Files, stage: str) -> list[Plate]:
    """The pieces of one stage's gauge, from the faceplate up."""
    plates = [files.plate(name) for name in files.numbered(f"outside-gauge-{stage}")]
    return sorted(plates, key=lambda plate: plate.face.bounds[1])


def outside_checks(work: Work, files: Files) -> list[Check]:
    """Working edges, butts, foot, upper end; then the rail under each stage's pieces."""
    found: list[Check] = []
    for stage, offset in stages_of(work.job):
        plates = pieces(files, stage)
        found.append(Check(f"outside-gauge-{stage}", "pieces found", len(plates), 1, unit="pieces"))
        found += [check for plate in plates for check in edge_checks(work, plate, offset)]
        found += _stacked(work, plates) if plates else []
        if len(plates) > 1:
            found += _rail_checks(files.plate("gauge-rail"), plates)
    return found


def edge_checks(work: Work, plate: Plate, offset: float) -> list[Check]:
    """A piece's edge over its own heights: on the parallel, and nowhere on the work's side of it."""
    _, low, _, high = plate.face.bounds
    low, high = max(low, 0.0), min(high, work.height)
    edge = work.outside(offset + work.job.gauges.fit)
    part = shapely.segmentize(edge.intersection(shapely.box(-FAR, low, FAR, high)), PITCH)
    along = coordinates(part)
    meant = along[guided(work, plate, along, (low, high))]
    away = shapely.distance(shapely.points(meant), plate.face.exterior)
    return [
        plate.check("working edge off the work's parallel", float(away.max()), 0.0, EDGE),
        plate.check("stands over the parallel by", _over(plate, edge), 0.0, EDGE),
    ]


def guided(
    work: Work, plate: Plate, along: FloatArray, heights: tuple[float, float], off: float = 0.0
) -> npt.NDArray[np.bool_]:
    """Which places (m, 2) of a line, so far off its edge, a plate reaches: a printed tip may be cut square."""
    low, high = heights
    kept = np.ones(len(along), dtype=bool)
    if work.job.workshop.made.gauges != "print":
        return kept
    most = TIP * work.job.workshop.printer.nozzle + SLACK + off
    for over, level in ((along[:, 1] - low, low + SLACK / 3), (high - along[:, 1], high - SLACK / 3)):
        left = plate.face.intersection(shapely.LineString([(-FAR, level), (FAR, level)])).bounds[0]
        gone = (over < most) & (along[:, 0] < left)
        if gone.any() and np.ptp(along[gone, 1]) < np.ptp(along[gone, 0]) * tan(SHARP):
            kept &= ~gone
    return kept


def coordinates(shape: BaseGeometry) -> FloatArray:
    """All points (m, 2) of lines in parts."""
    return np.asarray(shapely.get_coordinates(shape))


def _over(plate: Plate, edge: shapely.LineString) -> float:
    """How far a plate comes over its line, from the right, between the heights of both."""
    points = np.asarray(edge.coords)
    work = shapely.Polygon(np.vstack((points, (-FAR, points[-1, 1]), (-FAR, points[0, 1]))))
    outline = coordinates(shapely.segmentize(plate.face.exterior, PITCH))
    beside = outline[(outline[:, 1] > points[0, 1] + 1e-6) & (outline[:, 1] < points[-1, 1] - 1e-6)]
    over = shapely.points(within(beside, work))
    return float(shapely.distance(edge, over).max(initial=0.0))


def _stacked(work: Work, plates: list[Plate]) -> list[Check]:
    """The pieces end to end, from the faceplate up to the rim, their backs in one line."""
    wish, first, last = work.job.rings, plates[0], plates[-1]
    faceplate = -wish.turning_allowance - wish.waste_block if work.faceplate is None else work.faceplate
    back = first.face.bounds[2]
    foot = first.outline[first.outline[:, 1] < faceplate + 0.2, 0]
    below = first.outline[first.outline[:, 1] < -1e-3, 0]
    return [
        first.near("foot on the faceplate", first.face.bounds[1], faceplate, SLACK),
        first.check("width of the foot", float(np.ptp(foot)), WIDE),
        first.check("foot clear of the lowest ring", float(below.min()) - first_radius(work), BESIDE),
        last.near("upper end at the rim", last.face.bounds[3], work.height, SLACK),
        *(
            upper.near(f"butts on {lower.name}, gap", upper.face.bounds[1] - lower.face.bounds[3], 0.0, SLACK)
            for lower, upper in pairwise(plates)
        ),
        *(plate.near("back in line", plate.face.bounds[2], back, SLACK) for plate in plates[1:]),
    ]


def round_holes(plate: Plate) -> list[tuple[Point, float]]:
    """Middle and diameter of every hole, from below."""
    holes = [shapely.Polygon(ring) for ring in plate.face.interiors]
    found = [((h.centroid.x, h.centroid.y), 2 * sqrt(h.area / pi)) for h in holes]
    return sorted(found, key=lambda hole: hole[0][1])


def _rail_checks(rail: Plate, plates: list[Plate]) -> list[Check]:
    """Hole over hole, alike in size; the rail's back and ends with the pieces', clear of every edge."""
    ours = round_holes(rail)
    theirs = [hole for plate in plates for hole in round_holes(plate)]
    ends = ((rail.face.bounds[1], plates[0].face.bounds[1]), (rail.face.bounds[3], plates[-1].face.bounds[3]))
    return [
        rail.counted("holes found", len(ours), len(theirs)),
        *rail.all_near(
            f"hole off that of {plates[0].name} and on",
            [hypot(a[0] - b[0], a[1] - b[1]) for (a, _), (b, _) in zip(ours, theirs, strict=False)],
            0.0,
            OVER,
        ),
        *(
            rail.near("hole as wide as the piece's", a, b, OVER)
            for (_, a), (_, b) in zip(ours, theirs, strict=False)
        ),
        *(plate.counted("bolt holes found", len(round_holes(plate)), 2) for plate in plates),
        *(rail.near("end level with the pieces'", a, b, SLACK) for a, b in ends),
        rail.near("back flush with the pieces'", rail.face.bounds[2], plates[0].face.bounds[2], SLACK),
        *(
            rail.check(
                f"hole inside {plate.name}",
                -float(gaps(np.array([hole[0]]), shapely.Polygon(plate.face.exterior))[0]),
                3.0,
            )
            for plate in plates
            for hole in round_holes(plate)
        ),
    ]
