"""A part as a closed mesh, built in layers: caps triangulated flat, walls between them, no boolean in 3D."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from manifold3d import CrossSection, FillRule

from geometry.plane.edges import FloatArray
from geometry.plane.sample import IntArray, chord_counts, sample, sample_with_counts
from geometry.records import Record
from jigs.files.caps import cap, single, wall
from jigs.files.letters import Letters, raised_marks
from jigs.parts.part import Part

DEVIATION = 0.004  # mm, of vertices and of chord middles from the true curve
FLAT = 1e-6  # of the plate's area: what rounding may change


class Mesh(Record, eq=False):
    """Triangles (t, 3), counter-clockwise from outside, of vertices (v, 3) in mm, in single precision."""

    vertices: FloatArray
    triangles: IntArray

    @property
    def corners(self) -> FloatArray:
        """The triangles' corners, (t, 3, 3)."""
        return self.vertices[self.triangles]

    @cached_property
    def normals(self) -> FloatArray:
        """The triangles' outward normals, (t, 3), as long as twice their areas."""
        first, second, third = self.corners.transpose(1, 2, 0)
        (ax, ay, az), (bx, by, bz) = second - first, third - first
        return np.column_stack([ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx])

    @property
    def volume(self) -> float:
        """Signed volume in mm³, by the divergence theorem; positive when the surface faces outward."""
        return float(np.einsum("ij,ij->", self.vertices[self.triangles[:, 0]], self.normals)) / 6


class _Ring(NamedTuple):
    """A closed loop (k, 2) of one layer, and the numbers of its vertices."""

    points: FloatArray
    ids: IntArray

    def reversed(self) -> _Ring:
        return _Ring(self.points[::-1], self.ids[::-1])


class _Layers:
    """Collects rings and the faces between them."""

    def __init__(self) -> None:
        self._vertices: list[FloatArray] = []
        self._faces: list[IntArray] = []
        self._count = 0

    def rings(self, loops: Iterable[FloatArray], height: float) -> list[_Ring]:
        """Put loops (k, 2) at one height."""
        return [self._ring(loop, height) for loop in loops]

    def _ring(self, loop: FloatArray, height: float) -> _Ring:
        ids = np.arange(self._count, self._count + len(loop))
        self._count += len(loop)
        self._vertices.append(np.column_stack([loop, np.full(len(loop), height)]))
        return _Ring(loop, ids)

    def cap(self, rings: Sequence[_Ring]) -> IntArray:
        """Return the triangles inside rings, solid on the left of each, facing up."""
        ids = np.concatenate([ring.ids for ring in rings])
        return np.asarray(ids[cap([ring.points for ring in rings])])

    def letters(self, text: Letters, height: float, rise: float) -> tuple[list[_Ring], list[IntArray]]:
        """Put lettering at one height, its heads above; return its cells, and its faces within these."""
        first, points = self._count, text.points
        heights = np.full(len(points), height)
        heights[text.heads] += rise
        self._count += len(points)
        self._vertices.append(np.column_stack([points, heights]))
        cells = [_Ring(points[cell], first + cell) for cell in text.cells]
        return cells, [first + text.level, first + text.sides]

    def mesh(self, faces: Iterable[IntArray]) -> Mesh:
        return Mesh(single(np.concatenate(self._vertices)), np.concatenate(list(faces)))


@lru_cache(maxsize=64)  # a part's own file and its bed-load ask for the same
def part_mesh(part: Part, deviation: float = DEVIATION, marks: bool = True) -> Mesh:
    """Return the plate with its holes, bevel and, if asked for, raised marks, as one closed body on z = 0.

    Curves are followed within `deviation` mm. Raises ValueError for a part without thickness, for holes or
    marks that meet an edge, for a bevel that does not fit its outline, and for whatever would not close.
    """
    flat = _flat_of(part, deviation, marks)
    mesh = _stacked(part, flat)
    faults = problems(mesh)
    if faults:
        raise ValueError(f"{part.name}: the mesh does not close: {'; '.join(faults)}")
    return mesh


def prove_closed(part: Part, deviation: float = DEVIATION) -> None:
    """Raises ValueError where `part_mesh` would, without making the mesh of a part.

    A flat face whose loops have no point twice, cut into triangles of which none is flat, closes when it is raised.
    """
    flat = _flat_of(part, deviation)
    for loops in flat.faces:
        cap(loops)
        if _coincident(np.concatenate(loops)):
            raise ValueError(f"{part.name}: the mesh does not close: vertices coincide")


class _Flat(Record, eq=False):
    """The loops (k, 2) of a part: its outline below and above, vertex for vertex, its holes, its raised marks."""

    edge: FloatArray
    rim: FloatArray
    holes: list[FloatArray]
    islands: list[FloatArray]
    text: Letters | None

    @property
    def alike(self) -> bool:
        """Whether the face above is that below."""
        return self.edge is self.rim and not self.islands and self.text is None

    @property
    def faces(self) -> list[list[FloatArray]]:
        """Those that differ, solid on the left; without lettering."""
        islands = [island[::-1] for island in self.islands]
        found = [[self.edge, *self.holes], [self.rim, *self.holes, *islands], self.islands]
        return found[:1] if self.alike else [face for face in found if face]


def _flat_of(part: Part, deviation: float, marks: bool = True) -> _Flat:
    if part.thickness <= 0:
        raise ValueError(f"{part.name}: has no thickness, so it has no mesh")
    edge, rim = _edges(part, deviation)
    holes = [single(sample(hole, deviation)) for hole in part.holes]
    plate = _face(part.name, [rim, *holes])
    lines, text = raised_marks(part, plate) if marks else ([], None)
    return _Flat(edge, rim, holes, [single(line) for line in lines], text)


def _edges(part: Part, deviation: float) -> tuple[FloatArray, FloatArray]:
    """Return the outline below and above, vertex for vertex."""
    if part.bevel is None:
        edge = single(sample(part.outline, deviation))
        return edge, edge
    top = part.bevel.top
    if len(top.vertices) != len(part.outline.vertices) or not 0 <= part.bevel.land < part.thickness:
        raise ValueError(f"{part.name}: a bevel needs a top with the outline's edges and a land in the plate")
    counts = np.maximum(chord_counts(part.outline, deviation), chord_counts(top, deviation))
    return single(sample_with_counts(part.outline, counts)), single(sample_with_counts(top, counts))


def _face(name: str, loops: Sequence[FloatArray]) -> CrossSection:
    face = CrossSection(list(loops), FillRule.Positive)
    expected = sum(_area(loop) for loop in loops)
    if not abs(face.area() - expected) <= FLAT * abs(expected):
        raise ValueError(f"{name}: a hole meets another or leaves the outline, or the outline crosses itself")
    return face


def _area(loop: FloatArray) -> float:
    x, y = loop.T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


def _stacked(part: Part, flat: _Flat) -> Mesh:
    layers, text = _Layers(), flat.text
    floor = layers.rings([flat.edge, *flat.holes], 0.0)
    lid = layers.rings([flat.rim, *flat.holes], part.thickness)
    land = layers.rings([flat.edge], part.bevel.land) if part.bevel and part.bevel.land else []
    feet = layers.rings(flat.islands, part.thickness)
    heads = layers.rings(flat.islands, part.thickness + part.mark_height)
    cells, lettered = layers.letters(text, part.thickness, part.mark_height) if text else ([], [])
    steps = [*pairwise([floor[0], *land, lid[0]]), *zip(floor[1:], lid[1:], strict=True)]
    bottom, open_in_top = layers.cap(floor), [ring.reversed() for ring in (*feet, *cells)]
    top = bottom + (lid[0].ids[0] - floor[0].ids[0]) if flat.alike else layers.cap([*lid, *open_in_top])
    faces = [bottom[:, ::-1], top]
    faces += [wall(low.ids, high.ids) for low, high in [*steps, *zip(feet, heads, strict=True)]]
    return layers.mesh([*faces, *lettered, layers.cap(heads)] if heads else [*faces, *lettered])


def problems(mesh: Mesh) -> tuple[str, ...]:
    """Return what keeps a mesh from being one closed body facing outward; nothing when it is one.

    Every directed edge must occur once and its opposite once, no two vertices coincide, no triangle be flat.
    """
    start, end = mesh.triangles.ravel(), mesh.triangles[:, (1, 2, 0)].ravel()
    forth, back = np.sort(start * len(mesh.vertices) + end), np.sort(end * len(mesh.vertices) + start)
    checks = {
        "vertices coincide": _coincident(mesh.vertices),
        "an edge is open or shared": not (forth == back).all() or (forth[1:] == forth[:-1]).any(),
        "a triangle has no area": bool((np.einsum("ij,ij->i", mesh.normals, mesh.normals) <= 0).any()),
        "it is inside out": not mesh.volume > 0,
        "it falls into several bodies": not _connected(
            *np.divmod(forth, len(mesh.vertices)), len(mesh.vertices)
        ),
    }
    return tuple(fault for fault, found in checks.items() if found)


def _coincident(vertices: FloatArray) -> bool:
    ranked = vertices[np.lexsort(vertices.T)]
    return bool((ranked[1:] == ranked[:-1]).all(axis=1).any())


def _connected(start: IntArray, end: IntArray, count: int) -> bool:
    """Whether edges, sorted by where they start, join all vertices.

    Every vertex is given the least number among its neighbours and itself, until nothing changes.
    """
    firsts = np.flatnonzero(np.diff(start, prepend=-1))
    if len(firsts) < count:
        return False
    label = np.arange(count)
    while True:
        least = np.minimum(label, np.minimum.reduceat(label[end], firsts))
        least = least[least]
        if (least == label).all():
            return bool((label == 0).all())
        label = least
