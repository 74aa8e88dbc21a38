"""A wedge ring as the drawn sled and wedge cut it."""

from __future__ import annotations

from math import cos, pi, sin, tan

import numpy as np

from geometry.bodies.torus import flat_normals, outer_flat
from geometry.plane.contour import Edge
from geometry.records import dataclass
from jigs.asked.job import Job, TorusJob
from jigs.dryfit.bench import Bench
from jigs.dryfit.model import Drawn
from jigs.dryfit.tube import places


@dataclass(frozen=True)
class CutRing:
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
