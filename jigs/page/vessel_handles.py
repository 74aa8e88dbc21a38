"""What of a vessel's section can be dragged: points, wall, floor, joints; how one handle is made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, hypot

import numpy as np

from geometry.bodies.section import Section
from geometry.plane.edges import FloatArray, lengths_of
from geometry.records import replace
from jigs.asked.vessel_job import Shape as Line
from jigs.asked.vessel_job import VesselJob, by_ring
from jigs.page.contract import Bend, Handle, Role, Way
from jigs.plans.shape import VesselShape

OUT, UP, DOWN = (1.0, 0.0), (0.0, 1.0), (0.0, -1.0)
TURNED: list[Role] = ["finished", "allowance"]


def way_of(
    key: str, label: str, along: tuple[float, float], rate: float, value: float, bend: Bend | None,
    place: Sequence[int] = (),
) -> Way:  # fmt: skip
    return Way(key, list(place), label, along, rate, value, [], bend)


def handle_of(id: str, x: float, y: float, *ways: Way, label: str = "") -> Handle:
    return Handle(id, label or ways[0].label, x, y, list(ways))


WHERE_WALL = 0.55  # of a vessel's height, at which its wall is dragged: between most stations
MEETS = 1e-6  # mm; points nearer than this are one
FLAT = 0.7  # a surface whose normal is steeper than this, about 45°, goes with the floor

Share = tuple[float, float]


def vessel_handles(shape: VesselShape) -> Iterator[Handle]:
    job, section = shape.job, shape.section
    yield from _points("profile", "outside", job.outside, job, section)
    if job.inside is not None:
        yield from _points("inside", "inside", job.inside, job, section)
    yield from _wall(shape)
    yield from _joints(shape)


def not_dragged(shape: VesselShape) -> Iterator[str]:
    """What has no handle, and why, as people read it."""
    job = shape.job
    for name, line in (("outside", job.outside), ("inside", job.inside)):
        if line is not None and line.source is not None:
            yield f"The {name} comes from {line.source.name}: change it in the drawing, and the page follows."
        elif line is not None and line.within and line.way == "edges":
            yield f"The {name} has too many edges for handles: change them in the job file."
        elif line is not None and line.profile.vertices[:-1, 2].any() and line.way == "edges":
            yield f"Arcs of the {name} keep their radius: change it under Shape."
    if job.inside is not None:
        yield "The wall is what lies between outside and inside: change these."
    elif job.wall.floor is None and not job.wall.through:
        yield "The floor is as thick as the wall at the foot: give Floor under Shape to drag it."
    if job.knob is not None:
        yield "The knob has no handles: change it under Shape, or in its drawing."
    if job.staves is not None:
        yield "Where staves begin and end is changed under Shape."
    if shape.stack.glued:
        yield "Some rings are glued already, so joints stay where they are."


def _points(table: str, name: str, line: Line, job: VesselJob, section: Section) -> Iterator[Handle]:
    """The heights and diameters that the file states."""
    if line.way == "drawing" or (line.way == "edges" and line.within):
        return
    rows = _own(line, job) if table == "profile" else line.profile.vertices
    places = _stations(line, rows) if line.way == "stations" else [(float(x), float(y)) for x, y, _ in rows]
    heights = [y for _, y in places]
    for k, (x, y) in enumerate(places):
        label = f"Point {k + 1} of the {name}"
        bends = [_hat(heights, k, along, table, section) for along in (OUT, UP)]
        key = f"{table}.{line.way}"
        across = way_of(key, f"{label}: diameter", OUT, 2.0, 2 * x, bends[0], [k, 1])
        up = way_of(key, f"{label}: height", UP, 1.0, y, bends[1], [k, 0])
        fixed = k == 0 and table == "profile"  # the foot stands at height 0
        yield handle_of(f"{name}-{k + 1}", x, y, *([across] if fixed else [across, up]), label=label)


def _own(line: Line, job: VesselJob) -> FloatArray:
    """The outside as the file has it: of a lid without the flange that was added."""
    rows = line.profile.vertices
    if job.lid is None:
        return rows
    rows = rows[:-1]
    return rows[:-1] if abs(rows[-1, 1] - rows[-2, 1]) < MEETS else rows


def _stations(line: Line, rows: FloatArray) -> list[tuple[float, float]]:
    """A lid's last one is at the step to its flange, so it is the end of its own line."""
    below = [(line.profile.radius_at(z), z) for z in line.stations[:-1]]
    return [*below, (float(rows[-1, 0]), line.stations[-1])]


def _hat(heights: Sequence[float], k: int, along: Share, table: str, section: Section) -> Bend:
    """As far as to the neighbours; of an inside only that."""
    near = [(heights[i], float(i == k)) for i in (k - 1, k, k + 1) if 0 <= i < len(heights)]
    shares = [one for one, other in pairwise([*near, (float("inf"), 0.0)]) if one[0] < other[0]]
    if table == "inside":
        z, share = zip(*shares, strict=True)
        moved = [(at, float(np.interp(y, z, share))) for at, (_, y) in _inside(section)]
        return Bend([], False, shifts=[(at, along[0] * by, along[1] * by) for at, by in moved if by])
    return Bend(TURNED, True, out=shares) if along == OUT else Bend(TURNED, True, up=shares)


def _inside(section: Section) -> list[tuple[int, Share]]:
    """The corners of the section that are of its inside: their number and place."""
    points = section.contour.vertices[:, :2]
    inner = section.inner.points
    return [
        (k, (float(x), float(y)))
        for k, (x, y) in enumerate(points)
        if lengths_of(inner - (x, y)).min() < MEETS
    ]


def _wall(shape: VesselShape) -> Iterator[Handle]:
    """One thickness of wall, or that at each height; and the floor where it is stated."""
    job, inner = shape.job, shape.section.inner
    for k, (z, thick) in enumerate(job.wall.by_height or () if job.inside is None else ()):
        if inner.bottom < z <= shape.section.height:
            label = f"Wall, point {k + 1}"
            rate = cos(inner.lean_at(z))
            way = way_of("wall.by_height", label, (-1.0, 0.0), rate, thick, None, [k, 1])
            yield handle_of(f"wall-{k + 1}", inner.radius_at(z), z, way)
    if job.wall.thickness is not None and job.inside is None:
        z = max(WHERE_WALL * shape.section.height, inner.bottom)
        rate = cos(inner.lean_at(z))
        bend = Bend([], False, shifts=_inward(shape.section, rate, job.wall.floor is None))
        way = way_of("wall.thickness", "Wall", (-1.0, 0.0), rate, job.wall.thickness, bend)
        yield handle_of("wall", inner.radius_at(z), z, way)
    if job.wall.floor is not None and job.inside is None:
        x, y = inner.start
        floor = [(k, 0.0, 1.0) for k, _, up in _normals(shape.section) if up > FLAT]
        bend = Bend([], False, shifts=floor)
        yield handle_of("floor", x, y, way_of("wall.floor", "Floor", UP, 1.0, job.wall.floor, bend))


def _inward(section: Section, by: float, floor: bool) -> list[tuple[int, float, float]]:
    """The inside moved square to itself, with its floor; or without, and the floor's rim then moves level."""
    points = section.contour.vertices
    found = []
    for k, out, up in _normals(section):
        if floor or up <= FLAT:
            found.append((k, by * out, by * up))
        elif points[k, 0] > MEETS:
            found.append((k, -by, 0.0))
    return found


def _normals(section: Section) -> Iterator[tuple[int, float, float]]:
    """Of the inside's corners, into the hollow, about. The rim stays where it is: it is moved level."""
    points = section.contour.vertices[:, :2]
    for k, (x, y) in _inside(section):
        if x < MEETS:
            yield (k, 0.0, 1.0)
            continue
        before, after = points[k - 1], points[(k + 1) % len(points)]
        dx, dy = after - before
        size = hypot(dx, dy) or 1.0
        rim = abs(y - section.height) < MEETS
        yield (k, -1.0 if rim else dy / size, 0.0 if rim else -dx / size)


def _joints(shape: VesselShape) -> Iterator[Handle]:
    """The joints between rings: what the ring below gains, the one above loses.

    Heights that were chosen from the boards become the list that they were.
    """
    stack = shape.stack
    if stack.glued:
        return
    rings = [layer.ring for layer in stack.layers if layer.kind != "staves"]
    asked = shape.job.rings.heights
    heights = [
        by_ring(asked, k) if isinstance(asked, tuple) else ring.height for k, ring in enumerate(rings, 1)
    ]  # one under staves is planed, and stays as it is stated
    for k, (lower, upper) in enumerate(pairwise(rings)):
        if upper.number != lower.number + 1:  # staves stand between them
            continue
        shares = [(lower.bottom, 0.0), (lower.top, 1.0), (upper.top, 0.0)]
        way = way_of("rings.heights", f"Height of ring {lower.number}", UP, 1.0, heights[k],
                     Bend(["blank"], False, up=shares), [k])  # fmt: skip
        x = max(lower.outer, upper.outer)
        label = f"Joint between rings {lower.number} and {upper.number}"
        if stack.choice is not None:
            label += "; dragged, the heights are no longer chosen"
        yield handle_of(f"joint-{k + 1}", x, lower.top, replace(way, listed=heights), label=label)
