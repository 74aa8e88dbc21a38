"""Where a point of the finished surface lies in the glued blank: its ring, its segment, its place there.

A segment's own frame: u along its outer flat from the middle, counter-clockwise round the ring, v the depth from
the outer flat inward, y along the tube from the wedge ring's middle plane, or up from the middle of a flat ring.
Lengths mm, angles radians. A place needs no finished form: any point of the blank has one, and a point outside
the blank has the one of the wood it would be in were the blank larger.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin
from typing import TYPE_CHECKING

import numpy as np

from geometry.bodies.flat_rings import FlatRing as FlatRing
from geometry.bodies.flat_rings import Polygons, first_normal, in_strips
from geometry.bodies.torus import Blank, flat_normals
from geometry.plane.edges import FloatArray, IntArray
from geometry.records import Record

if TYPE_CHECKING:
    import numpy.typing as npt


class Places(Record):
    """Arrays that broadcast to one shape. Rings and segments count from 0, as the plan lists them.

    A segment of -1 - i is the strip or the gap that follows segment i of a ring: there u lies across it from
    the joint's middle plane, v along it from the ring's corner inward. A segment of n, the count of a ring, is the
    strip between two wedge rings.
    """

    ring: IntArray
    segment: IntArray
    u: FloatArray
    v: FloatArray
    y: FloatArray


def ring_edges(blank: Blank, joints: npt.ArrayLike | None = None) -> FloatArray:
    """Angles (N + 1,) between which the wedge rings lie, ring 0 about angle 0 when all are alike.

    `joints` (N,) are those where ring k ends and ring k + 1 begins, for rings of slightly different size; ring 0
    follows the last. Raises ValueError unless they rise within one turn.
    """
    nominal = blank.half_wedge * (2 * np.arange(blank.wedge_rings) + 1)
    ends = nominal if joints is None else np.asarray(joints, dtype=np.float64)
    if ends.shape != nominal.shape:
        raise ValueError(f"{blank.wedge_rings} wedge rings have as many joints, not {ends.shape}")
    edges = np.concatenate(((ends[-1] - 2 * pi,), ends))
    if not (np.diff(edges) > 0).all():
        raise ValueError("the joints' angles must rise, within one turn")
    return edges


def ring_middles(blank: Blank, joints: npt.ArrayLike | None = None) -> FloatArray:
    """Angles (N,) of the wedge rings' middle planes, half-way between the joints."""
    edges = ring_edges(blank, joints)
    return np.asarray((edges[:-1] + edges[1:]) / 2)


def torus_places(points: npt.ArrayLike, blank: Blank, joints: npt.ArrayLike | None = None) -> Places:
    """Places of points (..., 3) in the blank of a torus, whose axis is Z.

    Segment 0 lies on the flat straight down, as in `flat_normals`. `joints` as for `ring_edges`. A blank that was
    mounted off centre by a shift holds the points less that shift.
    """
    x, y, z = np.moveaxis(np.asarray(points, dtype=np.float64), -1, 0)
    ring = _wedge_ring(np.arctan2(y, x), blank, joints)
    middle = ring_middles(blank, joints)
    c, s = np.cos(middle)[ring], np.sin(middle)[ring]
    out = x * c + y * s - blank.centre
    segment = _flat(out, z, blank.segments) % blank.segments
    u, v = _on_flat(out, z, segment, blank)
    segment, u, v = _between(segment, u, v, blank)
    own = _in_ring_strips(ring, segment, np.arctan2(y, x), np.hypot(x, y), blank, joints)
    return Places(*own, u, v, y * c - x * s)


def torus_grid_places(
    blank: Blank, radius: FloatArray, z: FloatArray, phi: FloatArray, joints: npt.ArrayLike | None = None,
) -> Places:  # fmt: skip
    """Places on a torus at radii and heights (H,) and the angles phi (W,) about the axis.

    The same as `torus_places` of these (H, W) points, but fast; the arrays only broadcast to (H, W).
    """
    ring = _wedge_ring(phi, blank, joints)
    turn = phi - ring_middles(blank, joints)[ring]
    radius, z = radius[:, None], z[:, None]
    c = np.cos(turn)
    out = radius * c - blank.centre
    # Along a row only `out` varies, so a row whose two extremes lie on one flat lies on it wholly.
    ends = _flat(radius * np.array((c.min(), c.max())) - blank.centre, z, blank.segments)
    segment = ends[:, :1] % blank.segments
    u, v = _on_flat(out, z, segment, blank)
    mixed = np.flatnonzero(ends[:, 0] != ends[:, 1])
    if len(mixed):
        segment = np.repeat(segment, len(phi), axis=1)
        segment[mixed] = _flat(out[mixed], z[mixed], blank.segments) % blank.segments
        u[mixed], v[mixed] = _on_flat(out[mixed], z[mixed], segment[mixed], blank)
    segment, u, v = _between(segment, u, v, blank)
    own = _in_ring_strips(ring[None, :], segment, phi[None, :], radius, blank, joints)
    return Places(*own, u, v, radius * np.sin(turn))


def joint_distance(
    blank: Blank, phi: FloatArray, radius: FloatArray, joints: npt.ArrayLike | None = None
) -> FloatArray:
    """How far points at the angles phi, so far from the axis, are from the nearer joint of their wedge ring."""
    before, after = _from_joints(blank, phi, joints)
    return np.asarray(radius * np.sin(np.minimum(before, after)))


def _from_joints(
    blank: Blank, phi: FloatArray, joints: npt.ArrayLike | None
) -> tuple[FloatArray, FloatArray]:
    """Angles from the joint before, and to the one after."""
    edges, ring = ring_edges(blank, joints), _wedge_ring(phi, blank, joints)
    turn = np.mod(phi - edges[0], 2 * pi) + edges[0]
    return turn - edges[ring], edges[ring + 1] - turn


def _in_ring_strips(
    ring: IntArray, segment: IntArray, phi: FloatArray, radius: FloatArray, blank: Blank,
    joints: npt.ArrayLike | None,
) -> tuple[IntArray, IntArray]:  # fmt: skip
    """Ring and segment, points between two wedge rings told apart: a strip is of the ring before it."""
    if not blank.ring_spacer:
        return ring, segment
    before, after = _from_joints(blank, phi, joints)
    strip = radius * np.sin(np.minimum(before, after)) < blank.ring_spacer / 2
    own = np.where(strip & (before < after), (ring - 1) % blank.wedge_rings, ring)
    return own, np.where(strip, blank.segments, segment)


def torus_grain(
    places: Places, blank: Blank, joints: npt.ArrayLike | None = None, along_tube: bool = False
) -> FloatArray:
    """Unit vectors (..., 3) of the grain: along the outer flats or, of staves glued to a tube, along the tube.

    Of a strip between two segments: along its joint, from the core outward; of one between rings, from rim to hole.
    """
    normal, middle = flat_normals(blank.segments), ring_middles(blank, joints)[:, None]
    joint = normal[::-1] + blank.mitre  # strip i is at -1 - i, from the end
    own = np.zeros((2 * blank.segments + 1, 3))  # radial, along the tube, up
    if along_tube:
        own[:, 1] = 1.0
    else:
        own[:, 0] = np.concatenate((-np.sin(normal), (1.0,), np.cos(joint)))
        own[:, 2] = np.concatenate((np.cos(normal), (0.0,), np.sin(joint)))
    c, s = np.cos(middle), np.sin(middle)
    x, y, z = own.T
    table = np.stack((x * c - y * s, x * s + y * c, z + 0.0 * c), axis=-1)
    return table[places.ring, places.segment]


def vessel_places(points: npt.ArrayLike, rings: Sequence[FlatRing]) -> Places:
    """Places of points (..., 3) in a stack of rings, the lowest first, the vessel's axis being Z.

    Each ring lies on the one before it; below the first and above the last they are lengthened. A disc is one
    segment whose u runs towards the angle `turned`.
    """
    x, y, z = np.moveaxis(np.asarray(points, dtype=np.float64), -1, 0)
    ring = _ring_at(z, rings)
    own = Polygons.of(rings).at(ring)
    x, y = x - own.shift_x, y - own.shift_y
    return Places(ring, *own.places(np.arctan2(y, x), np.hypot(x, y), z))


def vessel_grid_places(
    radius: FloatArray, z: FloatArray, phi: FloatArray, rings: Sequence[FlatRing]
) -> Places:
    """Places on a turned surface whose outline is radius (H,) at z (H,), at the angles phi (W,).

    The same as `vessel_places` of these (H, W) points, but fast; the arrays only broadcast to (H, W).
    """
    ring, table = _ring_at(z, rings), Polygons.of(rings)
    wide, narrow = (len(z), len(phi)), (len(z), 1)
    leaning = any(one.lean for one in rings)
    found = np.empty(wide, np.intp), np.empty(wide), np.empty(wide), np.empty(wide if leaning else narrow)
    for k in np.unique(ring):
        rows, shift = np.flatnonzero(ring == k), rings[k].shift
        angle, away = phi, radius[rows, None]
        if any(shift):
            x, y = away * np.cos(phi) - shift[0], away * np.sin(phi) - shift[1]
            angle, away = np.arctan2(y, x), np.hypot(x, y)
        for whole, part in zip(found, table.at(k).places(angle, away, z[rows, None]), strict=True):
            whole[rows] = part
    return Places(ring[:, None], *found)


def vessel_grain(places: Places, rings: Sequence[FlatRing]) -> FloatArray:
    """Unit vectors (..., 3) of the grain: along the outer flat, up a stave, along the u of a disc.

    Of a strip between two segments: level, towards the axis.
    """
    most = max(max(one.segments, 1) for one in rings)
    table = np.zeros((len(rings), 2 * most, 3))
    for row, one in zip(table, rings, strict=True):
        normal = first_normal(one) + 2 * pi * np.arange(most) / max(one.segments, 1)
        joint = normal[::-1] + pi / max(one.segments, 1)
        row[:most] = _ring_grain(one, normal)
        row[most:, :2] = np.column_stack((np.cos(joint), np.sin(joint)))  # strip i is at -1 - i, from the end
    return table[places.ring, places.segment]


def _ring_grain(ring: FlatRing, normal: FloatArray) -> FloatArray:
    """(n, 3), of segments or staves whose outer flats face these ways."""
    c, s = np.cos(normal), np.sin(normal)
    if ring.staves:
        out, up = sin(ring.lean), cos(ring.lean)
        return np.column_stack((out * c, out * s, np.full_like(normal, up)))
    return np.column_stack((-s, c, np.zeros_like(normal)))


def _wedge_ring(phi: FloatArray, blank: Blank, joints: npt.ArrayLike | None) -> IntArray:
    edges = ring_edges(blank, joints)
    return np.asarray(np.searchsorted(edges[1:-1] - edges[0], np.mod(phi - edges[0], 2 * pi), side="right"))


def _flat(out: FloatArray, up: FloatArray, segments: int) -> IntArray:
    """The flat before which a point of a wedge ring's section lies, counted from the lowest, less whole turns."""
    turns = (np.arctan2(up, out) + pi / 2) * (segments / (2 * pi))
    return np.floor(turns + 0.5).astype(np.intp)


def _on_flat(
    out: FloatArray, up: FloatArray, segment: IntArray, blank: Blank
) -> tuple[FloatArray, FloatArray]:
    """Along the flat and in from it, of points (out, up) from the middle of a wedge ring's section."""
    normals = flat_normals(blank.segments)
    c, s = np.cos(normals)[segment], np.sin(normals)[segment]
    return up * c - out * s, blank.apothem - (out * c + up * s)


def _between(
    segment: IntArray, u: FloatArray, v: FloatArray, blank: Blank
) -> tuple[IntArray, FloatArray, FloatArray]:
    """The same with points in strips told apart."""
    if not blank.spacer:
        return segment, u, v
    return in_strips(segment, blank.apothem - v, u, v, blank.segments, blank.apothem, blank.spacer)


def _ring_at(z: FloatArray, rings: Sequence[FlatRing]) -> IntArray:
    return np.searchsorted([one.bottom for one in rings[1:]], z, side="right")
