"""A sled for flat rings put together from its own outlines, and strips cut on it with shapely."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot, pi

import numpy as np
import pytest
import shapely
from shapely import affinity

from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_segments.parts.flat_sleds import flat_sleds, stop_sticks
from jigs.stages.flat_segments.plan import FlatSled, StopSetting
from tests.jigs.inspection import shape
from tests.jigs.vessel.saw_stacks import KERF


@dataclass(frozen=True)
class Bench:
    """One sled as its cut parts make it, everything in the base's coordinates."""

    sled: FlatSled
    parts: dict[str, Part]

    def part(self, name: str) -> Part:
        return self.parts[f"plan-angle-{name}-n{self.sled.segments}"]

    def placed(self, name: str, stop: float) -> shapely.Polygon:
        """Arm or plate, the arm's nose at `stop`: its origin lies on the two bolts' slots."""
        arm = shape(self.part("stop").outline)
        return affinity.translate(
            shape(self.part(name).outline), stop - arm.bounds[0], self.guide_edge - self.plate[3]
        )

    @property
    def plate(self) -> tuple[float, float, float, float]:
        return self.part("carriage").outline.bounds

    @property
    def guide_edge(self) -> float:
        return float(self.line("guide's edge")[0][1])

    def line(self, name: str) -> list[tuple[float, float]]:
        (found,) = [m.points for m in self.part("base").marks if getattr(m, "name", "") == name]
        return [*found]

    def face(self, side: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """A place on a fence's working face, its direction away from the fences, its outward normal.

        The fence is pressed to its slots' outer walls, so its face lies one sheet inside.
        """
        slots = [
            hole.points
            for hole in self.part("base").holes
            if len(hole.points) == 4 and hole.centroid[1] * side > 0 and abs(_slant(hole.points)) > 1e-3
        ]
        assert len(slots) == 2
        far, near = sorted((slot.mean(axis=0) for slot in slots), key=lambda c: float(c[0]))
        along = (near - far) / hypot(*(near - far))
        normal = np.array([-along[1], along[0]]) * side
        wall = max(float((slot @ normal).max()) for slot in slots)
        thickness = self.part("fence").thickness
        at_blade = (wall - thickness) / normal[1]
        return np.array([0.0, at_blade]), along, normal


def _slant(points: np.ndarray) -> float:
    """How far off the axes a rectangle's first edge lies, radians."""
    edge = points[1] - points[0]
    angle = float(np.arctan2(edge[1], edge[0])) % (pi / 2)
    return min(angle, pi / 2 - angle)


def benches(plan: VesselPlan) -> list[Bench]:
    parts = {part.name: part for part in flat_sleds(plan)}
    return [Bench(sled, parts) for sled in plan.saws.sleds]


def sticks(plan: VesselPlan) -> Iterator[tuple[FlatSled, StopSetting, Part]]:
    cut = iter(stop_sticks(plan))
    for sled in plan.saws.sleds:
        for setting in sled.settings:
            yield sled, setting, next(cut)


def stick_length(stick: Part) -> float:
    """Between the edge BLADE and the one above it, near its left end."""
    across = shapely.LineString([(10.0, -10.0), (10.0, 500.0)])
    return float(shape(stick.outline).intersection(across).length)


@dataclass(frozen=True)
class Piece:
    """A segment as it fell: its two edges along the strip, its area, and y of the tip at the stop."""

    outer: float
    inner: float
    area: float
    tip: float


def cut_strip(
    bench: Bench, stop: float, width: float, length: float, pieces: int
) -> tuple[list[Piece], float]:
    """Cut segments from a strip with a square end, and what of it is left along the last fence.

    The strip's own frame: u along it, v across. Trimmed first against the near fence, then slid from fence to
    fence: it is only ever turned in its plane, never over.
    """
    strip, blade = shapely.box(-length, 0.0, 0.0, width), shapely.box(-KERF, -999.0, 0.0, 999.0)
    found: list[Piece] = []
    left = 0.0
    for i in range(pieces + 1):
        side = 1 if i % 2 else -1
        at, along, normal = bench.face(side)
        across = normal * side
        start = at - across * (width if side > 0 else 0.0)
        assert np.linalg.det([along, across]) == pytest.approx(1.0)
        lying = affinity.affine_transform(strip, [along[0], across[0], along[1], across[1], *start])
        reach = stop if i else width * abs(across[0]) - KERF
        lying = affinity.translate(lying, *(along * (reach - lying.bounds[2]) / along[0]))
        rest = min(_pieces(lying.difference(blade)), key=lambda piece: piece.bounds[0])
        back = np.linalg.inv(np.column_stack([along, across]))
        if i:
            segment = max(_pieces(lying.difference(blade)), key=lambda piece: piece.bounds[2])
            found.append(_piece(segment, (np.array(segment.exterior.coords) - start) @ back.T, width))
        strip = shapely.Polygon((np.array(rest.exterior.coords) - start) @ back.T)
        left = -(float(np.array(strip.exterior.coords)[:, 0].min()))
    return found, left


def _pieces(cut: shapely.Geometry) -> list[shapely.Polygon]:
    return [cut] if isinstance(cut, shapely.Polygon) else list(cut.geoms)


def _piece(segment: shapely.Polygon, own: np.ndarray, width: float) -> Piece:
    edges = [float(np.ptp(own[np.abs(own[:, 1] - v) < 1e-6][:, 0])) for v in (0.0, width)]
    tip = max(segment.exterior.coords)
    return Piece(max(edges), min(edges), segment.area, tip[1])


def circles_of(part: Part, diameter: float) -> list[tuple[float, float]]:
    """Middles of a part's round holes of one diameter."""
    return [
        hole.centroid
        for hole in part.holes
        if np.ptp(hole.bounds[::2]) == pytest.approx(diameter, abs=1e-6)
        and np.ptp(hole.bounds[1::2]) == pytest.approx(diameter, abs=1e-6)
    ]
