"""Binary STL in millimetres, and its plate read back."""

from __future__ import annotations

import numpy as np

from geometry.plane.contour import Contour, polygon
from geometry.plane.distinct import numbered
from geometry.plane.edges import FloatArray
from geometry.plane.sample import IntArray
from jigs.files.mesh import DEVIATION, Mesh, part_mesh, prove_closed
from jigs.files.target import Target, get, put
from jigs.parts.part import Part
from jigs.parts.readback import ReadBack

HEADER = 80  # bytes; must not begin with "solid", which marks the text form
RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
TOLERANCE = 0.01  # mm, of the sampled curves


def write_stl(part: Part, target: Target, deviation: float = DEVIATION) -> None:
    """Write a part with its raised marks, curves within `deviation` mm; refuses what part_mesh refuses."""
    put(stl_bytes(part_mesh(part, deviation), part.name), target)


def stl_bytes(mesh: Mesh, name: str) -> bytes:
    """Return a mesh as a binary STL file."""
    records = np.zeros(len(mesh.triangles), RECORD)
    records["normal"] = mesh.normals / np.linalg.norm(mesh.normals, axis=1, keepdims=True)
    records["corners"] = mesh.corners
    header = f"millimetres; {name}".encode("ascii", "replace")[:HEADER].ljust(HEADER)
    return header + len(records).to_bytes(4, "little") + records.tobytes()


def read_stl(target: Target) -> ReadBack:
    """Read a plate's outline and holes, as on z = 0, and its thickness from a binary STL.

    Raises ValueError for a file of the wrong length and for a mesh that is no plate.
    """
    return _plate(_corners(get(target)))


def unwritten_stl(part: Part) -> ReadBack:
    """What `read_stl` finds in a part's file, without one; less tolerance is left by what its chords may be off.

    Raises ValueError as part_mesh does.
    """
    prove_closed(part)
    holes = sorted((hole.cw() for hole in part.holes), key=lambda hole: -hole.area)
    return ReadBack((part.outline.ccw(), *holes), part.thickness, TOLERANCE - 2 * DEVIATION)


def _plate(corners: FloatArray) -> ReadBack:
    heights = corners[:, :, 2]
    level = heights.min(axis=1) == heights.max(axis=1)
    floor = level & (heights[:, 0] == heights.min())
    if not floor.any() or not (level & ~floor).any():
        raise ValueError("the STL holds no plate: it has no level face below or none above")
    loops = _boundary(corners[floor][:, ::-1, :2])
    loops.sort(key=lambda loop: -loop.area)
    return ReadBack(tuple(loops), float(heights[level & ~floor].min() - heights.min()), TOLERANCE)


def _corners(content: bytes) -> FloatArray:
    count = int.from_bytes(content[HEADER : HEADER + 4], "little")
    if not count or len(content) != HEADER + 4 + count * RECORD.itemsize:
        raise ValueError(f"not a binary STL: {len(content)} bytes for {count} triangles")
    return np.frombuffer(content, RECORD, offset=HEADER + 4)["corners"].astype(np.float64)


def _boundary(triangles: FloatArray) -> list[Contour]:
    """Return the loops round flat triangles (t, 3, 2), the solid on their left."""
    corners, ids = numbered(triangles.reshape(-1, 2) @ (1, 1j))
    ends = np.roll(ids.reshape(-1, 3), -1, axis=1).ravel()
    edges = dict.fromkeys(zip(ids.tolist(), ends.tolist(), strict=True))
    loops = _loops({start: end for start, end in edges if (end, start) not in edges})
    return [polygon(np.column_stack([corners[loop].real, corners[loop].imag])) for loop in loops]


def _loops(following: dict[int, int]) -> list[IntArray]:
    loops = []
    while following:
        loop = [next(iter(following))]
        while (step := following.pop(loop[-1])) != loop[0]:
            loop.append(step)
        loops.append(np.array(loop))
    return loops
