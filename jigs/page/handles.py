"""What of a section can be dragged, and which values of the job file that changes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import cos

from jigs.asked.job import TorusJob
from jigs.asked.vessel_job import Shape as Line
from jigs.asked.vessel_job import VesselJob
from jigs.forms.by_form import by_form
from jigs.forms.shape import Shape, TorusShape, VesselShape
from jigs.page.contract import Bend, Handle, Role, Way

OUTER, TUBE, HOLE = "form.outer_diameter", "form.tube_diameter", "form.hole_diameter"
OUT, UP, DOWN = (1.0, 0.0), (0.0, 1.0), (0.0, -1.0)
TURNED: list[Role] = ["finished", "allowance"]
WHERE_WALL = 0.55  # of a vessel's height, at which its wall is dragged: between most stations


def handles_of(shape: Shape) -> list[Handle]:
    return [*by_form(shape, torus=_torus, vessel=_vessel)]


def _torus(shape: TorusShape) -> Iterator[Handle]:
    """Rim, hole and tube, two of which are stated; the core; the ring where its size is."""
    job, blank = shape.job, shape.blank
    major, tube = job.form.major_radius, job.form.tube_radius
    yield _handle("rim", major + tube, 0.0, _rim(job))
    yield _handle("hole", major - tube, 0.0, _hole(job))
    if TUBE in job.places:
        yield _handle("tube", major, tube, _tube_size(job, UP, 2.0))
    if blank.core_apothem > 0:
        bend = Bend(["core"], False, (blank.centre, 0.0), 1 / blank.core_apothem)
        way = _way("form.core_opening", "Core, across its flats", DOWN, 2.0, 2 * blank.core_apothem, bend)
        yield _handle("core", blank.centre, -blank.core_apothem, way)
    if job.form.ring_across_flats is not None:
        bend = Bend(["blank"], False, (blank.centre, 0.0), 1 / blank.apothem)
        way = _way("form.ring_across_flats", "Ring, across its flats", DOWN, 2.0, 2 * blank.apothem, bend)
        yield _handle("ring", blank.centre, -blank.apothem, way)


def _rim(job: TorusJob) -> Way:
    form = job.form
    if OUTER not in job.places:
        return _tube_size(job, OUT, 1.0)
    if TUBE in job.places:
        return _way(OUTER, "Outer diameter", OUT, 2.0, form.outer_diameter, _moved(1.0))
    return _way(OUTER, "Outer diameter", OUT, 2.0, form.outer_diameter, _grown(job, 0.5, 0.5))


def _hole(job: TorusJob) -> Way:
    form = job.form
    if HOLE not in job.places:
        return _tube_size(job, OUT, -1.0)
    bend = _moved(1.0) if TUBE in job.places else _grown(job, 0.5, -0.5)
    return _way(HOLE, "Hole diameter", OUT, 2.0, 2 * (form.major_radius - form.tube_radius), bend)


def _tube_size(job: TorusJob, along: tuple[float, float], rate: float) -> Way:
    """The tube's diameter; where the rim is stated it grows inward, else outward."""
    out = -rate / 2 if OUTER in job.places else rate / 2
    return _way(TUBE, "Tube diameter", along, rate, job.form.tube_diameter, _grown(job, out, rate / 2))


def _moved(share: float) -> Bend:
    """The whole ring, out from the axis."""
    return Bend([*TURNED, "blank", "core"], True, out=[(0.0, share)])


def _grown(job: TorusJob, out: float, radius: float) -> Bend:
    """The tube, its centre out from the axis and its radius, mm for each that is dragged."""
    grow = radius / job.form.tube_radius
    return Bend([*TURNED, "blank"], True, (job.form.major_radius, 0.0), grow, out=[(0.0, out)])


def _vessel(shape: VesselShape) -> Iterator[Handle]:
    job = shape.job
    yield from _points("profile", "outside", job.outside, job)
    if job.inside is not None:
        yield from _points("inside", "inside", job.inside, job)
    yield from _wall(shape)
    yield from _joints(shape)


def _points(table: str, name: str, line: Line, job: VesselJob) -> Iterator[Handle]:
    """The heights and diameters that the file states; of a lid's outside, to which a flange was added, none."""
    if line.way == "drawing" or (table == "profile" and job.lid is not None):
        return
    if line.way == "stations":
        places = [(line.profile.radius_at(z), z) for z in line.stations]
    elif line.within:  # of so many edges that their corners are gone
        return
    else:
        places = [(float(x), float(y)) for x, y in line.profile.points]
    heights = [y for _, y in places]
    for k, (x, y) in enumerate(places):
        label = f"Point {k + 1} of the {name}"
        across = _way(f"{table}.{line.way}", f"{label}: diameter", OUT, 2.0, 2 * x, _hat(heights, k, OUT),
                      [k, 1])  # fmt: skip
        up = _way(f"{table}.{line.way}", f"{label}: height", UP, 1.0, y, _hat(heights, k, UP), [k, 0])
        fixed = k == 0 and table == "profile"  # the foot stands at height 0
        yield _handle(f"{name}-{k + 1}", x, y, *([across] if fixed else [across, up]), label=label)


def _hat(heights: Sequence[float], k: int, along: tuple[float, float]) -> Bend:
    """As far as to the neighbours."""
    near = [(heights[i], float(i == k)) for i in (k - 1, k, k + 1) if 0 <= i < len(heights)]
    shares = [one for one, other in pairwise([*near, (float("inf"), 0.0)]) if one[0] < other[0]]
    return Bend(TURNED, True, out=shares) if along == OUT else Bend(TURNED, True, up=shares)


def _wall(shape: VesselShape) -> Iterator[Handle]:
    """One thickness of wall, and the floor, where they are stated."""
    job, inner = shape.job, shape.section.inner
    if job.wall.thickness is not None and job.inside is None:
        z = max(WHERE_WALL * shape.section.height, inner.bottom)
        rate = cos(inner.lean_at(z))
        way = _way("wall.thickness", "Wall", (-1.0, 0.0), rate, job.wall.thickness, None)
        yield _handle("wall", inner.radius_at(z), z, way)
    if job.wall.floor is not None and job.inside is None:
        x, y = inner.start
        yield _handle("floor", x, y, _way("wall.floor", "Floor", UP, 1.0, job.wall.floor, None))


def _joints(shape: VesselShape) -> Iterator[Handle]:
    """The joints between rings whose heights are stated: what the ring below gains, the one above loses."""
    stack = shape.stack
    if stack.choice is not None or stack.staves or stack.floating or stack.glued:
        return
    rings = [layer.ring for layer in stack.layers]
    heights = [ring.height for ring in rings]
    for k, (lower, upper) in enumerate(pairwise(rings)):
        shares = [(lower.bottom, 0.0), (lower.top, 1.0), (upper.top, 0.0)]
        way = _way("rings.heights", f"Height of ring {lower.number}", UP, 1.0, lower.height,
                   Bend(["blank"], False, up=shares), [k])  # fmt: skip
        x = max(lower.outer, upper.outer)
        label = f"Joint between rings {lower.number} and {upper.number}"
        yield _handle(f"joint-{k + 1}", x, lower.top, replace(way, listed=heights), label=label)


def _way(
    key: str, label: str, along: tuple[float, float], rate: float, value: float, bend: Bend | None,
    place: Sequence[int] = (),
) -> Way:  # fmt: skip
    return Way(key, list(place), label, along, rate, value, [], bend)


def _handle(id: str, x: float, y: float, *ways: Way, label: str = "") -> Handle:
    return Handle(id, label or ways[0].label, x, y, list(ways))
