"""Wedge rings cut on the sled, simulated; and what errors do.

Plan view: the fence is u = 0, the blade's cutting side u = s tan w, the stop s = const.
"""

import math
from dataclasses import dataclass

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.blanks.sawing import WedgeRingCut, half_chord, included_angle_error, wedge_ring_cut
from geometry.bodies.torus import Blank
from geometry.plane.edges import FloatArray
from tests.geometry.tori_blanks import blanks

sandings = st.sampled_from((0.0, 0.1, 0.5))


@dataclass(frozen=True)
class Faults:
    """What is out while cutting: lengths mm, angles radians."""

    first_stop: float = 0.0  # along the fence
    second_stop: float = 0.0  # along the wedge's working face
    wedge: float = 0.0  # the wedge's thickness at the stop
    stock: float = 0.0  # the ring's thickness
    first_angle: float = 0.0  # between fence and blade, in the first cut
    second_angle: float = 0.0  # of the wedge, in the second


@dataclass(frozen=True)
class Face:
    """A flat in plan: a point and a direction away from the apex."""

    point: FloatArray
    angle: float

    @property
    def along(self) -> FloatArray:
        return np.array((math.cos(self.angle), math.sin(self.angle)))


def turned_by(points: FloatArray, angle: float) -> FloatArray:
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(points @ np.array(((c, s), (-s, c))))


def kept(points: FloatArray, face: Face) -> FloatArray:
    """A polygon's corners (n, 2) clipped to the fence's side of the blade; the cut is its last edge."""
    far, left = 1e4 * face.along, 1e4 * np.array((-face.along[1], face.along[0]))
    a, b = face.point - far, face.point + far
    waste = shapely.Polygon([a, b, b + left, a + left])
    rest = shapely.Polygon(points) - waste
    assert rest.geom_type == "Polygon"
    return np.array(rest.exterior.coords[:-1])


def cut_face(points: FloatArray, face: Face) -> FloatArray:
    """The two corners that lie on the blade, apex end first."""
    normal = np.array((-face.along[1], face.along[0]))
    on = points[np.abs((points - face.point) @ normal) < 1e-7]
    return np.asarray(on[np.argsort(on @ face.along)])


@dataclass(frozen=True)
class CutRing:
    """A wedge ring in its stock's frame: x = 0 at its outer flat, going in; y along the tube from face 1."""

    inner: FloatArray  # first cut's face: inner end, outer end
    outer: FloatArray  # second cut's face

    def angle(self, face: FloatArray) -> float:
        dx, dy = face[1] - face[0]
        return math.atan2(dy, dx)

    @property
    def included(self) -> float:
        return abs(self.angle(self.inner) - self.angle(self.outer))

    @property
    def skew(self) -> float:
        """Of the mid-plane from the stock's radial line."""
        return (self.angle(self.inner) + self.angle(self.outer)) / 2

    def edge(self, end: int) -> float:
        """Length along the tube at the inner (0) or outer (1) flat."""
        return float(abs(self.inner[end][1] - self.outer[end][1]))

    @property
    def axis(self) -> FloatArray:
        """Where the two faces meet: the torus axis."""
        d1, d2 = self.inner[1] - self.inner[0], self.outer[1] - self.outer[0]
        t = np.linalg.solve(np.column_stack((d1, -d2)), self.outer[0] - self.inner[0])
        return np.asarray(self.inner[0] + t[0] * d1)

    @property
    def middle(self) -> float:
        """Where the mid-plane leaves the outer flat, from face 1."""
        return float(self.inner[1][1] + self.outer[1][1]) / 2


def saw(cut: WedgeRingCut, faults: Faults) -> CutRing:
    """Both cuts of one ring: face 1 on the fence; then turned over about its radial line, on the wedge."""
    w, depth, thick = cut.half_wedge, 2 * cut.half_width, cut.ring_thickness + faults.stock
    stock = np.array([(-depth, 0.0), (0.0, 0.0), (0.0, thick), (-depth, thick)])
    stop = np.array((cut.stop + faults.first_stop, 0.0))
    first = Face(np.zeros(2), w + faults.first_angle)
    once = kept(stock + stop, first)
    face = cut_face(once, first) - stop

    # Turned over: the radial line keeps its direction, the tube's direction turns round.
    over = (once - stop) * (1, -1)
    bearing = face * (1, -1)
    slope = -(w + faults.second_angle)  # the wedge: its thin end at the stop, thicker to the apex
    turn = slope - math.atan2(*(bearing[1] - bearing[0])[::-1])
    over, bearing = turned_by(over, turn), turned_by(bearing, turn)
    at_stop = np.array((cut.stop, cut.wedge_at_stop + faults.wedge))
    working = Face(at_stop, slope)
    over_shift = at_stop - bearing[1]
    over = over + over_shift
    # Slid along the wedge until its outermost corner is at the stop.
    slide = (cut.stop - over[:, 0].max()) / working.along[0] + faults.second_stop
    over = over + slide * working.along
    shift = over_shift + slide * working.along
    blade = Face(np.zeros(2), w)
    second = cut_face(kept(over, blade), blade)
    return CutRing(face, turned_by(second - shift, -turn) * (1, -1))


@st.composite
def sawn(draw: st.DrawFn) -> tuple[Blank, WedgeRingCut, float, float]:
    blank, clean_up = draw(blanks()), draw(st.floats(3.0, 8.0))
    assume(blank.thin_edge > 3.0)
    sanding = draw(sandings)
    return blank, wedge_ring_cut(blank, clean_up, sanding), clean_up, sanding


Sawn = tuple[Blank, WedgeRingCut, float, float]
small = st.floats(-0.5, 0.5)
tiny_angles = st.floats(-0.005, 0.005)


@given(sawn())
def test_two_cuts_on_one_stop_give_the_planned_ring(job: Sawn) -> None:
    blank, cut, clean_up, sanding = job
    ring = saw(cut, Faults())
    assert ring.included == pytest.approx(2 * blank.half_wedge, abs=1e-9)
    assert ring.edge(1) == pytest.approx(cut.thick_edge, abs=1e-6)
    assert ring.edge(0) == pytest.approx(cut.thin_edge, abs=1e-6)
    assert -ring.axis[0] == pytest.approx(cut.outer_radius, abs=1e-6)
    assert ring.skew == pytest.approx(0.0, abs=1e-9)
    assert ring.middle == pytest.approx(cut.ring_thickness / 2, abs=1e-6)
    assert cut.ring_thickness - cut.thick_edge == pytest.approx(2 * clean_up)
    assert np.hypot(*(ring.inner[1] - ring.inner[0])) == pytest.approx(cut.bearing)
    assert np.hypot(*(ring.outer[1] - ring.outer[0])) == pytest.approx(cut.bearing)

    # Sanding moves each face square to itself, towards the other.
    moved = sanding / math.cos(blank.half_wedge)
    assert ring.edge(1) - 2 * moved == pytest.approx(blank.thick_edge, abs=1e-6)
    assert ring.edge(0) - 2 * moved == pytest.approx(blank.thin_edge, abs=1e-6)
    sanded = CutRing(ring.inner - np.array((0.0, moved)), ring.outer + np.array((0.0, moved)))
    assert -sanded.axis[0] == pytest.approx(blank.outer_radius, abs=1e-6)


@given(sawn())
def test_the_wedge_meets_the_blade_at_the_torus_axis(job: Sawn) -> None:
    cut = job[1]
    w = cut.half_wedge
    # Along the wedge from the stop until its face crosses the blade.
    distance = 0.0
    at = np.array((cut.stop, cut.wedge_at_stop))
    towards = np.array((-math.cos(w), math.sin(w)))
    low, high = 0.0, cut.stop / math.cos(w)
    for _ in range(80):
        distance = (low + high) / 2
        s, u = at + distance * towards
        low, high = (distance, high) if u < cut.gap(s) else (low, distance)
    assert distance == pytest.approx(cut.outer_radius / math.cos(w), rel=1e-9)
    assert cut.stop == pytest.approx(2 * cut.outer_radius + cut.wedge_at_stop / math.tan(w))


@given(sawn())
def test_the_rings_close_into_a_torus(job: Sawn) -> None:
    blank, cut, *_ = job
    ring = saw(cut, Faults())
    face, other = ring.outer - ring.axis, ring.inner - ring.axis
    for k in range(1, blank.wedge_rings + 1):
        other_next = turned_by(other, k * ring.included)
        face_here = turned_by(face, k * ring.included)
        assert face_here == pytest.approx(turned_by(other, (k - 1) * ring.included), abs=1e-5)
    assert other_next == pytest.approx(other, abs=1e-5)


@given(sawn(), small)
def test_the_second_stop_sets_the_size(job: Sawn, off: float) -> None:
    blank, cut, *_ = job
    w = blank.half_wedge
    ring = saw(cut, Faults(second_stop=off))
    assert ring.edge(1) == pytest.approx(cut.thick_edge + 2 * off * math.sin(w), abs=1e-6)
    assert -ring.axis[0] == pytest.approx(cut.outer_radius + off * math.cos(w), abs=1e-6)
    assert ring.included == pytest.approx(2 * w, abs=1e-9)


@given(sawn(), small)
def test_a_thicker_wedge_makes_a_smaller_torus(job: Sawn, off: float) -> None:
    blank, cut, *_ = job
    ring = saw(cut, Faults(wedge=off))
    less = off / (2 * math.tan(blank.half_wedge))
    assert -ring.axis[0] == pytest.approx(cut.outer_radius - less, abs=1e-6)
    assert ring.included == pytest.approx(2 * blank.half_wedge, abs=1e-9)


@given(sawn(), small, small)
def test_first_stop_and_stock_only_move_the_mid_plane(job: Sawn, stop: float, stock: float) -> None:
    blank, cut, *_ = job
    w = blank.half_wedge
    ring = saw(cut, Faults(first_stop=stop, stock=stock))
    assert (ring.edge(0), ring.edge(1)) == pytest.approx((cut.thin_edge, cut.thick_edge), abs=1e-6)
    assert -ring.axis[0] == pytest.approx(cut.outer_radius, abs=1e-6)
    moved = ring.middle - (cut.ring_thickness + stock) / 2
    assert moved == pytest.approx(stop * math.tan(w) - stock / 2, abs=1e-6)


@given(sawn(), tiny_angles, tiny_angles)
def test_the_second_cut_sets_the_angle_and_the_first_only_skews(
    job: Sawn, first: float, second: float
) -> None:
    blank, cut, *_ = job
    ring = saw(cut, Faults(first_angle=first, second_angle=second))
    assert ring.included == pytest.approx(2 * blank.half_wedge + second, abs=1e-9)
    assert ring.skew == pytest.approx(first - second / 2, abs=1e-9)


@given(blanks(), st.floats(-2e-4, 2e-4))
def test_equal_angle_errors_open_the_rim(blank: Blank, error: float) -> None:
    start = np.array((blank.outer_radius / math.cos(blank.half_wedge), 0.0))
    end = start
    for _ in range(blank.wedge_rings):
        end = turned_by(end, 2 * blank.half_wedge - error)
    gap = np.hypot(*(end - start))
    assert abs(included_angle_error(blank, error)) == pytest.approx(gap, rel=1e-4, abs=1e-9)


@given(st.floats(150.0, 400.0), st.floats(0.1, 0.7))
def test_the_blade_occupies_a_chord_of_the_table(diameter: float, share: float) -> None:
    height = share * diameter
    angles = np.linspace(0.0, 2 * math.pi, 7201)
    disc = shapely.Polygon(
        diameter / 2 * np.column_stack((np.cos(angles), np.sin(angles))) + (0.0, height - diameter / 2)
    )
    x0, _, x1, _ = disc.intersection(shapely.LineString([(-500, 0), (500, 0)])).bounds
    assert half_chord(diameter, height) == pytest.approx((x1 - x0) / 2, rel=1e-4)


def test_a_blade_below_the_table_occupies_nothing() -> None:
    assert half_chord(250.0, 0.0) == 0.0
    assert half_chord(250.0, -5.0) == 0.0
