"""The files of a set as other libraries read them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path

import ezdxf
import numpy as np
import shapely
from ezdxf.entities.lwpolyline import LWPolyline
from stl import mesh as stl_mesh

from geometry.arcs import FloatArray, Point
from geometry.contour import Contour, Edge
from geometry.sample import sample
from jigs.findings import Finding, Refused

FINE = 0.002  # mm, chords of curves


@dataclass(frozen=True)
class Drill:
    """A round hole."""

    centre: Point
    diameter: float


@dataclass(frozen=True)
class Drawn:
    """A drawing: its outline counter-clockwise, holes that are no circles, round holes, named lines."""

    name: str
    outline: Contour
    holes: tuple[Contour, ...]
    drills: tuple[Drill, ...]
    lines: dict[str, FloatArray]  # (k, 2) points of all pieces of a line of that name
    engraved: FloatArray  # (k, 2) points of all engraved lines and lettering

    @cached_property
    def shape(self) -> shapely.Polygon:
        """The plate as a polygon, its holes left out."""
        return polygon_of(self.outline)

    def straight(self) -> list[Edge]:
        """The outline's straight edges."""
        return [edge for edge in self.outline.edges() if not edge.is_arc]


@dataclass(frozen=True)
class Printed:
    """A printed plate: the face on the bed, and how thick it is without its raised marks."""

    name: str
    face: shapely.Polygon
    thickness: float
    land: float  # thickness of its edge: less than the plate's where that is bevelled

    @property
    def outline(self) -> FloatArray:
        """The face's outer boundary, (m, 2), counter-clockwise."""
        return np.asarray(shapely.geometry.polygon.orient(self.face).exterior.coords)[:-1]


def polygon_of(contour: Contour) -> shapely.Polygon:
    """A contour as a fine polygon."""
    return shapely.Polygon(sample(contour, FINE))


@dataclass(frozen=True)
class Files:
    """A folder of written files."""

    folder: Path

    def cut(self) -> list[str]:
        """Names of all parts cut from sheet."""
        return sorted(file.stem for file in self.folder.glob("cut/*.dxf"))

    def drawn(self, name: str) -> Drawn:
        """Read a DXF. Raises Refused where it is missing or unreadable."""
        return _drawn(*_stamped(self._path(name, "dxf")))

    def printed(self, name: str) -> Printed:
        """Read an STL. Raises Refused where it is missing or unreadable."""
        return _printed(*_stamped(self._path(name, "stl")))

    def _path(self, name: str, suffix: str) -> Path:
        for file in self.folder.glob(f"*/{name}.{suffix}"):
            return file
        raise Refused(
            [Finding("missing-file", f"{self.folder} has no {name}.{suffix}", "make the job again")]
        )


def _stamped(file: Path) -> tuple[Path, int]:
    """A file and when it was written, so that it is read once as it stands."""
    return file, file.stat().st_mtime_ns


@lru_cache(maxsize=256)
def _drawn(file: Path, _written: int) -> Drawn:
    try:
        document = ezdxf.readfile(file)  # type: ignore[attr-defined]
    except (OSError, ezdxf.DXFError) as error:  # type: ignore[attr-defined]
        raise Refused([Finding("unreadable", f"{file}: {error}", "make the job again")]) from error
    space = document.modelspace()
    lines = [entity for entity in space.query("LWPOLYLINE") if isinstance(entity, LWPolyline)]
    closed = [_contour(e) for e in lines if e.closed and e.dxf.layer in ("cut", "section")]
    closed.sort(key=lambda contour: -abs(contour.area))
    circles = [
        Drill((e.dxf.center.x, e.dxf.center.y), 2 * e.dxf.radius)
        for e in space.query("CIRCLE")
        if e.dxf.layer == "drill"
    ]
    if not closed:
        raise Refused([Finding("unreadable", f"{file} has no closed outline", "make the job again")])
    return Drawn(
        file.stem, closed[0].ccw(), tuple(closed[1:]), tuple(circles), _named_lines(lines), _engraved(lines)
    )


def _engraved(entities: list[LWPolyline]) -> FloatArray:
    points = [point for e in entities if e.dxf.layer == "engrave" for point in e.get_points("xy")]
    return np.array(points, dtype=np.float64).reshape(-1, 2)


def _contour(entity: LWPolyline) -> Contour:
    return Contour(np.array([tuple(row) for row in entity.get_points("xyb")], dtype=np.float64))


def _named_lines(entities: list[LWPolyline]) -> dict[str, FloatArray]:
    found: dict[str, list[Point]] = {}
    for entity in entities:
        if entity.has_xdata("JIGS"):
            name = entity.get_xdata("JIGS")[0].value
            found.setdefault(name, []).extend((float(x), float(y)) for x, y in entity.get_points("xy"))
    return {name: np.array(points) for name, points in found.items()}


@lru_cache(maxsize=256)
def _printed(file: Path, _written: int) -> Printed:
    try:
        triangles = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False).vectors.astype(np.float64)
    except (OSError, RuntimeError, AssertionError, ValueError) as error:
        raise Refused([Finding("unreadable", f"{file}: {error}", "make the job again")]) from error
    heights = triangles[:, :, 2]
    floor = heights.min()
    level = np.ptp(heights, axis=1) < 1e-6
    plate = float(heights[level & (heights[:, 0] > floor + 1e-6)].min())
    walls = np.unique(np.round(heights[(heights > floor + 1e-3) & (heights < plate - 1e-3)], 4))
    land = float(walls[0] if len(walls) else plate) - float(floor)
    bed = triangles[level & (np.abs(heights[:, 0] - floor) < 1e-6)]
    return Printed(file.stem, _face(bed[:, :, :2]), plate - float(floor), land)


def _face(triangles: FloatArray) -> shapely.Polygon:
    """What flat triangles (t, 3, 2) cover: the edges that only one of them has, joined to loops."""
    corners, ids = np.unique(triangles.reshape(-1, 2), axis=0, return_inverse=True)
    ids = ids.reshape(-1, 3)
    sides = np.sort(np.concatenate([ids[:, [0, 1]], ids[:, [1, 2]], ids[:, [2, 0]]]), axis=1)
    pairs, counts = np.unique(sides, axis=0, return_counts=True)
    rings = shapely.polygonize(shapely.linestrings(corners[pairs[counts == 1]]))
    parts: list[shapely.Polygon] = list(rings.geoms)
    return max(parts, key=lambda part: float(part.area))
