"""The files of a set as the judges read them: ezdxf's whole documents, numpy-stl and shapely, by fine chords."""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from fnmatch import fnmatch
from functools import lru_cache
from pathlib import Path

import ezdxf
import ezdxf.path
import numpy as np
import shapely
from ezdxf.entities.dxfgfx import DXFGraphic
from ezdxf.entities.lwpolyline import LWPolyline
from numpy.typing import NDArray
from stl import mesh as stl_mesh

from jigs.words.file_names import what_of

CHORD = 0.002  # mm
HAIR = 0.001  # mm, wider than a crack between two triangles

Plate = tuple[shapely.Polygon, float]  # seen from above, and its thickness: 0 for a drawing


@dataclass(frozen=True)
class Drawing:
    """One DXF: closed outlines, the largest first; ends (k, 2, 2) of their straight edges; circles; marked lines."""

    closed: list[shapely.Polygon]
    straight: NDArray[np.float64]
    circles: list[tuple[float, float, float]]  # x, y, diameter
    lines: dict[str, NDArray[np.float64]] = field(default_factory=dict)

    @property
    def outline(self) -> shapely.Polygon:
        return self.closed[0]


def files_of(folder: Path, name: str, suffix: str = "dxf") -> list[Path]:
    """What the jobs' sets have of a part by its name; without a job's name in a folder of single files."""
    rooms = ("print", "cut", "turn", "paper")
    return sorted(f for room in rooms for f in folder.glob(f"{room}/*.{suffix}") if fnmatch(what_of(f), name))


def drawing(folder: Path, name: str, kerf: float = 0.0) -> Drawing:
    """A part's drawing as it is once a cutter has taken half its kerf off either side. Raises OSError."""
    file = next(iter(files_of(folder, name)), folder / f"{name}.dxf")
    return _drawing(file.read_bytes(), kerf / 2 if file.parent.name == "cut" else 0.0)


@lru_cache(maxsize=64)
def _drawing(content: bytes, lost: float) -> Drawing:
    space = ezdxf.read(io.StringIO(content.decode())).modelspace()  # type: ignore[attr-defined]
    lines = [e for e in space.query("LWPOLYLINE") if isinstance(e, LWPolyline)]
    rounds = [e for e in space.query("CIRCLE") if e.dxf.layer in ("cut", "section")]  # outlines
    outlines = [*(e for e in lines if e.closed and e.dxf.layer in ("cut", "section")), *rounds]
    closed = [_chords(e) for e in outlines]
    closed.sort(key=lambda shape: -shape.area)
    if lost:
        closed = [
            shape.buffer(-lost if i == 0 else lost, join_style="mitre") for i, shape in enumerate(closed)
        ]
    named: dict[str, list[tuple[float, float]]] = {}
    for e in lines:
        if e.has_xdata("JIGS"):
            named.setdefault(e.get_xdata("JIGS")[0].value, []).extend((x, y) for x, y in e.get_points("xy"))
    circles = [
        (c.dxf.center.x, c.dxf.center.y, 2 * c.dxf.radius + 2 * lost)
        for c in space.query('CIRCLE[layer=="drill"]')
    ]
    ends = [_straight(e) for e in lines if e.closed and e.dxf.layer in ("cut", "section")]
    return Drawing(
        closed,
        np.concatenate([np.zeros((0, 2, 2)), *ends]),
        circles,
        {k: np.array(v) for k, v in named.items()},
    )


def _chords(entity: DXFGraphic) -> shapely.Polygon:
    return shapely.Polygon([(p.x, p.y) for p in ezdxf.path.make_path(entity).flattening(CHORD)])


def _straight(entity: LWPolyline) -> NDArray[np.float64]:
    rows = np.array(list(entity.get_points("xyb")))
    ends = np.stack([rows[:, :2], np.roll(rows, -1, axis=0)[:, :2]], axis=1)
    return ends[rows[:, 2] == 0]


def pieces(folder: Path, name: str, kerf: float = 0.0) -> list[Plate]:
    """A part seen from above and its thickness; its pieces put together. None where it is on paper or is not there."""
    files = [f for key in (name, f"{name}-[a-h]") for f in files_of(folder, key, "*")]
    if not files or any(f.suffix == ".svg" for f in files):
        return []
    found = [
        printed(f) if f.suffix == ".stl" else (drawing(folder, what_of(f), kerf).outline, 0.0) for f in files
    ]
    whole = shapely.union_all([face.buffer(0.01) for face, _ in found]).buffer(-0.01)
    return [(whole, found[0][1])] if isinstance(whole, shapely.Polygon) else []


def printed(file: Path) -> Plate:
    """What lies on the bed; as thick as its lowest level face over that."""
    corners = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False).vectors.astype(float)
    low = corners[:, :, 2].min()
    bed = corners[np.abs(corners[:, :, 2] - low).max(axis=1) < 1e-6][:, :, :2]
    level = corners[(np.ptp(corners[:, :, 2], axis=1) < 1e-6) & (corners[:, 0, 2] > low + 1e-3)]
    face = shapely.union_all(shapely.buffer(shapely.polygons(bed), HAIR, quad_segs=2)).buffer(
        -HAIR, quad_segs=2
    )
    whole = max(getattr(face, "geoms", [face]), key=lambda part: float(part.area))
    return shapely.Polygon(whole.exterior), float(level[:, 0, 2].min() - low)
