"""A wedge ring as the drawn sled and wedge cut it, and the tube in it as the job states it.

By arithmetic of the dry fit's own: an ellipse, and the curves parallel to it. A place has the angle of its normal, in
degrees from straight out; of a circle that is the angle round it.
"""

from __future__ import annotations

from math import cos, pi, sin, tan

import numpy as np
import shapely

from geometry.bodies.torus import flat_normals, outer_flat
from geometry.plane.contour import Edge
from geometry.plane.edges import FloatArray
from geometry.records import Record
from jigs.asked.job import Form, Job, TorusJob
from jigs.dryfit.bench import Bench
from jigs.dryfit.model import Drawn

ALL_ROUND = np.linspace(0.0, 360.0, 1441)
_HALVINGS = 40
_GOLDEN = (5**0.5 - 1) / 2


def half_sizes(form: Form) -> tuple[float, float]:
    """Half the tube's width and half its height, finished."""
    return form.tube_diameter / 2, (form.tube_height or form.tube_diameter) / 2


def places(form: Form, more: float, angles: FloatArray) -> FloatArray:
    """Points (m, 2) so far outside the finished tube, about its centre, at these angles (m,) in degrees."""
    wide, high = half_sizes(form)
    c, s = np.cos(np.radians(angles)), np.sin(np.radians(angles))
    if wide == high:
        return np.column_stack([(wide + more) * c, (wide + more) * s])
    support = np.hypot(wide * c, high * s)
    return np.column_stack([wide**2 * c / support + more * c, high**2 * s / support + more * s])


def place(form: Form, more: float, angle: float) -> tuple[float, float]:
    """One of them."""
    x, y = places(form, more, np.array([angle]))[0].tolist()
    return x, y


def section(form: Form, more: float, centre: float) -> shapely.Polygon:
    """The tube so much larger, its centre so far from the axis."""
    return shapely.Polygon(places(form, more, ALL_ROUND[:-1]) + np.array((centre, 0.0)))


def seen(form: Form, points: FloatArray) -> tuple[FloatArray, FloatArray]:
    """How far points (m, 2) lie outside the finished tube (m,), and the angles of its places nearest to them.

    That distance is the greatest of n·p - h over the normals n: looked for all round, then by golden sections.
    """
    wide, high = half_sizes(form)
    if wide == high:
        off, turn = np.hypot(points[:, 0], points[:, 1]), np.arctan2(points[:, 1], points[:, 0])
        return off - wide, np.degrees(turn) % 360

    def beyond(turn: FloatArray) -> FloatArray:
        c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))
        return np.asarray(points[:, :1] * c + points[:, 1:] * s - np.hypot(wide * c, high * s))

    best = ALL_ROUND[beyond(ALL_ROUND[None, :]).argmax(axis=1)][:, None]
    low, top = best - 0.25, best + 0.25
    for _ in range(_HALVINGS):
        one, two = top - _GOLDEN * (top - low), low + _GOLDEN * (top - low)
        higher = beyond(one) > beyond(two)
        low, top = np.where(higher, low, one), np.where(higher, two, top)
    middle = (low + top) / 2
    return beyond(middle)[:, 0], middle[:, 0] % 360


def widths(form: Form, more: float, heights: FloatArray) -> FloatArray:
    """Half widths (m,) of the tube so much larger at heights (m,); 0 past its top."""
    wide, high = half_sizes(form)
    if wide == high:
        return np.sqrt(np.maximum((wide + more) ** 2 - heights**2, 0.0))
    x, y = places(form, more, np.linspace(-90.0, 90.0, 20001)).T
    return np.asarray(np.interp(heights, y, x, left=0.0, right=0.0))


def angle_at(form: Form, more: float, height: float) -> float:
    """The angle, -90 to 90 degrees, at which the tube so much larger has this height."""
    turns = np.linspace(-90.0, 90.0, 20001)
    return float(np.interp(height, places(form, more, turns)[:, 1], turns))


class CutRing(Record):
    """A wedge ring as the drawn sled cuts it, sanded."""

    included: float  # angle between its faces, radians
    outer_radius: float  # of its outer flat or arris from the axis
    inner_radius: float
    thick: float
    skew: float  # mid-plane off square, radians
    parted: float = 0.0  # how far from the axis its faces would meet: strips between the rings move it out


def cut_ring(
    job: TorusJob,
    frame: Bench,
    stands: tuple[float, float, float],
    wedge: Drawn,
    apothem: float,
    turned: float = 0.0,
) -> CutRing:
    """Both cuts: face 1 on the fence; turned over, the cut face on the wedge, the same stop.

    `stands` is the fence's face (u), the stop (s), and how far its arms reach. The wedge lies with its longest edge on
    the fence, its thin end at the stop, or at its arms; it is `turned` (radians) for a saw that errs as much.
    """
    face, stop, arms = stands
    blade, taper = frame.angle, wedge_taper(wedge) - turned
    gap = (stop - face / tan(blade)) * tan(blade)  # from the fence's face to the blade, at the stop
    included = blade + taper
    thick = gap - at_stop(wedge, arms)
    sanded = thick - 2 * job.form.face_sanding / cos(included / 2)
    parted = job.form.ring_spacer / 2 / sin(included / 2)
    outer = sanded / (2 * tan(included / 2)) + parted
    inner = outer - 2 * outer_flat(apothem, job.form.segments)
    return CutRing(included, outer, inner, sanded, (blade - abs(taper)) / 2, parted)


def glued_already(job: Job) -> int:
    """How many rings the readings say are glued."""
    entry = job.readings.entries.get("glued.rings")
    return int(entry.numbers[0] or 0) if entry and entry.numbers else 0


def wedge_taper(wedge: Drawn) -> float:
    """Angle between the edge on the fence and the one opposite, + where it grows from the stop to the apex."""
    bed, work = _wedge_edges(wedge)
    slope = work.heading(0.0) - bed.heading(0.0)
    taper = abs((slope + pi / 2) % pi - pi / 2)
    return taper if _thick_at_far_end(bed, work) else -taper


def thin_end(wedge: Drawn) -> float:
    """Its thickness where it touches the stop, or its arms."""
    return min(wedge.straight(), key=lambda e: e.midpoint[0]).length


def at_stop(wedge: Drawn, arms: float) -> float:
    """Its thickness at the stop, were it so long, when its thin end touches arms that reach so far past the stop."""
    return thin_end(wedge) - arms * tan(wedge_taper(wedge))


def _wedge_edges(wedge: Drawn) -> tuple[Edge, Edge]:
    """The edge on the fence (level, low) and the one opposite."""
    by_length = sorted(wedge.straight(), key=lambda e: -e.length)[:2]
    bed, work = sorted(by_length, key=lambda e: e.midpoint[1])
    return bed, work


def _thick_at_far_end(bed: Edge, work: Edge) -> bool:
    """Whether the wedge grows towards +x, from the stop to the apex."""
    right = max((work.start, work.end), key=lambda p: p[0])
    left = min((work.start, work.end), key=lambda p: p[0])
    return right[1] - left[1] > bed.end[1] - bed.start[1]


def ring_margins(job: TorusJob, ring: CutRing, apothem: float) -> float:
    """Least wood between the torus with its allowance and the rings as cut, by sampling, mm."""
    form = job.form
    centre = ring.outer_radius - outer_flat(apothem, form.segments)
    phi = np.linspace(-ring.included / 2, ring.included / 2, 41)[:, None]
    out, up = places(form, form.turning_allowance, np.linspace(0.0, 360.0, 721)).T
    x = (form.major_radius + out[None, :]) * np.cos(phi) - centre
    z = up[None, :] * np.ones_like(phi)
    normals = flat_normals(form.segments)
    return float(min((apothem - (x * cos(a) + z * sin(a))).min() for a in normals))


def ring_apothem(jaw: Drawn) -> float:
    """Half the height of the jaw's flat, the lower of its edges that run to its far end."""
    far = jaw.outline.bounds[0]
    level = [e for e in jaw.straight() if e.apart[1] < 1e-6 and e.ends[0] < far + 1e-6]
    return min(e.start[1] for e in level) / 2
