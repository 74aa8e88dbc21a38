"""The edges of a vessel's gauges in their files, against shapely's own offset of the densely sampled section."""

from __future__ import annotations

from itertools import pairwise

import ezdxf
import numpy as np
import pytest
import shapely
from shapely.ops import substring

from geometry.plane.edges import points_along
from geometry.plane.profile import Profile
from jigs.parts.part import Part
from jigs.parts.probes import ProfileForm
from jigs.plans.vessel import VesselPlan
from tests.jigs.shops import FILE_TOLERANCE, VESSELS, document, each_vessel, floor_edges, mesh, shop
from tests.unset import unlettered

DENSE = 0.2  # mm between the places at which an edge is looked at
NEAR = 0.03  # mm from a true offset, within which a corner of a gauge may lie on it


def dense(profile: Profile) -> np.ndarray:
    """Places (n, 2) no farther apart than DENSE, from the bulges alone."""
    rows = profile.vertices
    found = [rows[:1, :2]]
    for row, following in pairwise(rows):
        chord = np.hypot(*(following[:2] - row[:2]))
        t = np.linspace(0, 1, max(2, round(chord / DENSE) + 2))[1:]
        ends = np.broadcast_to(row[:2], (len(t), 2)), np.broadcast_to(following[:2], (len(t), 2))
        found.append(points_along(*ends, np.full(len(t), 4 * np.arctan(row[2])), t))
    return np.concatenate(found)


def true_outside(plan: VesselPlan, offset: float) -> shapely.LineString:
    """The outside moved out: the rim of a disc rolled along the section, which goes on straight past both ends."""
    points = dense(plan.section.outer)
    longer = np.concatenate([[beyond(points[1], points[0])], points, [beyond(points[-2], points[-1])]])
    tube = shapely.LineString(longer).buffer(offset, quad_segs=512)
    solid = shapely.Polygon(np.vstack((longer, (-500, longer[-1, 1]), (-500, longer[0, 1]))))
    edge = tube.union(solid).exterior
    return longest(edge.intersection(shapely.box(0.1, 0.0, 1000.0, plan.section.height)))


def true_inside(plan: VesselPlan, offset: float) -> shapely.LineString:
    """The inside moved in: what a disc of that radius leaves free as it rolls along the hollow."""
    points = dense(plan.section.inner)
    longer = np.concatenate([points, [beyond(points[-2], points[-1])]])
    hollow = shapely.Polygon(np.vstack(((longer * (-1, 1))[::-1], longer)))
    edge = hollow.buffer(-offset, quad_segs=512).exterior
    return longest(edge.intersection(shapely.box(0.0, -1.0, 1000.0, plan.section.height)))


def beyond(before: np.ndarray, end: np.ndarray) -> np.ndarray:
    """A place 30 mm on, straight."""
    along = end - before
    return end + 30 * along / np.hypot(*along)


def longest(lines: shapely.Geometry) -> shapely.LineString:
    merged = shapely.line_merge(lines)
    return max(getattr(merged, "geoms", [merged]), key=lambda line: line.length)


def outline_in_file(part: Part) -> shapely.LinearRing:
    """The outline as another reader has it: round the mesh's faces on z = 0, or the largest closed polyline."""
    part = unlettered(part)
    if part.process == "print":
        lines = shapely.multilinestrings(floor_edges(mesh(part)))
        return max(
            (shapely.LinearRing(ring.coords) for ring in shapely.line_merge(lines).geoms),
            key=lambda r: r.length,
        )
    lines = [line for line in document(part).modelspace().query("LWPOLYLINE") if line.closed]
    rings = [ezdxf.path.make_path(line).flattening(0.0005) for line in lines]
    return max(
        (shapely.LinearRing([(p.x, p.y) for p in ring]) for ring in rings), key=lambda ring: ring.length
    )


def strays(part: Part, wanted: shapely.LineString) -> float:
    """The worst distance, both ways, between a part's working edge in its file and the true one."""
    rows = next(d.probe.rows for d in part.dimensions if isinstance(d.probe, ProfileForm))
    on = [shapely.Point(x, y) for x, y, _ in rows if wanted.distance(shapely.Point(x, y)) < NEAR]
    assert len(on) >= 2, part.name
    ring = outline_in_file(part)
    run = between(ring, on[0], on[-1])
    low, high = sorted((wanted.project(on[0]), wanted.project(on[-1])))
    assert run.length == pytest.approx(high - low, rel=2e-3)
    return max(farthest(run, wanted), farthest(substring(wanted, low, high), ring))


def between(ring: shapely.LinearRing, start: shapely.Point, end: shapely.Point) -> shapely.LineString:
    """The shorter way round: a working edge is less than half of its plate's outline or the only smooth way."""
    a, b = sorted((ring.project(start), ring.project(end)))
    return min(
        substring(ring, a, b),
        shapely.line_merge(shapely.union_all([substring(ring, b, ring.length), substring(ring, 0, a)])),
        key=lambda line: line.length,
    )


def farthest(line: shapely.LineString, to: shapely.Geometry) -> float:
    """Its corners, and places between them."""
    return float(shapely.distance(shapely.points(np.array(line.segmentize(DENSE).coords)), to).max())


@each_vessel
@pytest.mark.parametrize("process", ["print", "cut"])
def test_the_gauges_edges_are_the_sections_true_offset_in_every_format(path, process):
    made, checked = shop(path, process), 0
    for stage in made.plan.gauges.stages:
        off = stage.offset + made.plan.gauges.fit
        for kind, true in (("outside", true_outside), ("inside", true_inside)):
            wanted = true(made.plan, off)
            for part in made.named(f"{kind}-gauge-{stage.name}"):
                assert part.process == process
                if any(isinstance(dimension.probe, ProfileForm) for dimension in part.dimensions):
                    assert strays(part, wanted) <= FILE_TOLERANCE, part.name
                    checked += 1
    assert checked >= 3 * len(made.plan.gauges.stages)


def test_an_edge_off_its_curve_is_seen_by_these_tests():
    """The measure above can fail: a gauge a fiftieth too large strays by that."""
    made = shop(VESSELS[0])
    part = made.named("outside-gauge-finished-1")[0]
    off = made.plan.gauges.stages[-1].offset + made.plan.gauges.fit
    assert strays(part, true_outside(made.plan, off + 0.02)) == pytest.approx(0.02, abs=0.01)
