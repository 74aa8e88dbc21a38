import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.affinity import rotate

from geometry.blanks.glue_width import finished_width, glued_share, open_face, turned_width
from geometry.blanks.ring_stack import Ring, ring
from geometry.blanks.ring_turns import width_turned
from geometry.bodies.section import Section
from geometry.plane.contour import FloatArray, regular_polygon
from geometry.plane.profile import profile
from tests.geometry.shapes import dense
from tests.geometry.vessels import sections

CUP = Section(profile((30, 0), (30, 50)), profile((0, 8), (25, 8), (25, 50)))
COUNTS = (3, 4, 6, 7, 8, 12, 24)

counts = st.sampled_from(COUNTS)
radii = st.floats(20.0, 100.0)
allowances = st.floats(0.5, 5.0)


def swept(section: Section, allowance: float) -> FloatArray:
    """Points (m, 2) of the finished section moved by the allowance all ways, on this side of the axis."""
    ways = np.linspace(0.0, 2.0 * np.pi, 32, endpoint=False)
    circle = allowance * np.column_stack((np.cos(ways), np.sin(ways)))
    edges = section.contour.edges()
    places = np.array([edge.point_at(t) for edge in edges for t in np.linspace(0.0, 1.0, 6)])
    found = (places[:, None] + circle).reshape(-1, 2)
    return found[found[:, 0] >= 0.0]


def holds(made: Ring, points: FloatArray, slack: float = 1e-6) -> bool:
    """Whether the ring's wood has every point (radius, height) in it, whatever way the ring is turned."""
    angles = np.linspace(0.0, 2.0 * made.mitre, 10, endpoint=False)  # from a flat's middle to the next
    around = np.column_stack((np.cos(angles), np.sin(angles)))
    places = (points[:, None, :1] * around).reshape(-1, 2)
    held = regular_polygon(made.segments, made.outer + slack).contains(places).all()
    if made.core > slack:
        held &= not regular_polygon(made.segments, made.core - slack).contains(places).any()
    return bool(held)


def stack(section: Section, n: int, allowance: float, rings: int = 4) -> list[Ring]:
    height = (section.height + 2 * allowance) / rings
    return [ring(section, k + 1, k * height - allowance, height, n, allowance) for k in range(rings)]


def annulus(made: Ring, turn: float = 0.0) -> shapely.Geometry:
    """The ring from above: a polygon with its core, or a disc."""
    n = made.segments
    if not n:
        return shapely.Point(0.0, 0.0).buffer(made.outer, quad_segs=400)
    body = shapely.Polygon(regular_polygon(n, made.outer).points)
    if made.core:
        body = body.difference(shapely.Polygon(regular_polygon(n, made.core).points))
    return rotate(body, turn, origin=(0.0, 0.0), use_radians=True)


def least_radial(a: shapely.Geometry, b: shapely.Geometry, n: int) -> float:
    """The least length of a ray from the centre within both."""
    both = a.intersection(b)
    angles = np.linspace(0.0, 2.0 * np.pi, 24 * n, endpoint=False) + 1e-9
    rays = [shapely.LineString([(0.0, 0.0), (500.0 * math.cos(t), 500.0 * math.sin(t))]) for t in angles]
    return float(shapely.length(shapely.intersection(both, rays)).min())


@settings(max_examples=8)
@given(sections(), counts, allowances)
def test_a_ring_holds_its_part_of_the_wall_with_the_allowance_at_any_turn(
    s: Section, n: int, allowance: float
) -> None:
    points = swept(s, allowance)
    for made in stack(s, n, allowance):
        inside = (points[:, 1] >= made.bottom) & (points[:, 1] <= made.top)
        assert holds(made, points[inside])


@settings(max_examples=8)
@given(sections(), counts, allowances)
def test_a_ring_any_smaller_does_not_hold_it(s: Section, n: int, allowance: float) -> None:
    edge = shapely.LineString(dense(s.dilated(allowance), 200)).segmentize(0.05)
    points = shapely.get_coordinates(edge)
    for made in stack(s, n, allowance):
        inside = points[(points[:, 1] >= made.bottom - 0.05) & (points[:, 1] <= made.top + 0.05)]
        least, largest = inside[:, 0].min(), inside[:, 0].max()
        assert largest > made.outer - 0.01
        assert made.core == 0.0 or least < made.core_radius + 0.01
        extremes = np.array([(least, 0.0), (largest, 0.0)])
        assert not holds(made, extremes[1:] - (0.1, 0.0), slack=-0.2)
        assert made.core == 0.0 or not holds(made, extremes[:1] - (0.2, 0.0), slack=0.0)


@given(radii, st.floats(0.1, 0.8), counts, st.floats(0.0, 2.0))
def test_segments_are_what_the_strips_leave_of_the_polygon(a: float, share: float, n: int, s: float) -> None:
    made = Ring(1, 0.0, 10.0, n, a, share * a, s)
    assume(made.inner_edge > 0.01)
    corners = [
        (2.0 * a * math.cos((k + 0.5) * 2 * made.mitre), 2.0 * a * math.sin((k + 0.5) * 2 * made.mitre))
        for k in range(n)
    ]
    strips = [shapely.LineString([(0.0, 0.0), corner]).buffer(s / 2, cap_style="flat") for corner in corners]
    left = annulus(made).difference(shapely.union_all(strips)) if s else annulus(made)
    assert made.wood_volume == pytest.approx(left.area * 10.0, rel=1e-6)
    assert made.volume == pytest.approx(annulus(made).area * 10.0, rel=1e-9)
    for apothem, edge in ((a - 1e-7, made.outer_edge), (made.core + 1e-7, made.inner_edge)):
        half = apothem * math.tan(made.mitre)
        assert shapely.LineString([(apothem, -half), (apothem, half)]).intersection(
            left
        ).length == pytest.approx(edge, abs=1e-5)


@given(radii, counts, st.floats(0.0, 2.0))
def test_segments_that_run_to_the_axis_end_in_points(a: float, n: int, s: float) -> None:
    made = Ring(1, 0.0, 10.0, n, a, 0.0, s)
    assert made.inner_edge == 0.0
    assert made.segment_volume == pytest.approx(made.outer_edge**2 / (4 * math.tan(made.mitre)) * 10.0)


def test_a_disc_is_as_wide_as_the_section_is_there() -> None:
    made = ring(CUP, 1, -3, 20, 0, 3)
    assert (made.outer, made.core, made.mitre, made.radius, made.outer_edge) == (
        pytest.approx(33),
        0,
        0,
        made.outer,
        0,
    )
    assert made.volume == made.wood_volume == pytest.approx(math.pi * 33**2 * 20)


def test_a_straight_cup_has_rings_of_its_radii() -> None:
    made = ring(CUP, 2, 17, 20, 12, 3, 1.5)
    assert (made.outer, made.core) == (pytest.approx(33), pytest.approx(22 * math.cos(math.pi / 12)))
    assert (made.core_radius, made.depth) == (pytest.approx(22), pytest.approx(33 - made.core))
    assert (made.top, made.spacer) == (37, 1.5)


@pytest.mark.parametrize(
    ("bottom", "height", "segments", "spacer", "words"),
    [
        (60, 10, 12, 0, "ring 4, from 60 mm up, lies wholly off the vessel"),
        (10, 0, 12, 0, "thicker than 0 mm"),
        (10, 10, 2, 0, "3 or more segments"),
        (20, 10, 24, 7, r"no edge 21.8\d* mm from the axis; they must be thinner than 5.69"),
        (-3, 10, 24, 9, r"no edge 33 mm from the axis"),
    ],
)
def test_a_ring_that_cannot_be_is_refused(bottom, height, segments, spacer, words) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError, match=words):
        ring(CUP, 4, bottom, height, segments, 3.0, spacer)


@given(radii, radii, st.floats(0.3, 0.9), st.floats(0.3, 0.9), counts)
def test_widths_before_turning_are_those_of_the_polygons_that_overlap(
    a: float, b: float, inner_a: float, inner_b: float, n: int
) -> None:
    lower, upper = Ring(1, 0, 10, n, a, inner_a * a), Ring(2, 10, 10, n, b, inner_b * b)
    aligned, half = width_turned(lower, upper, 0.0), turned_width(lower, upper)
    assert half <= aligned + 1e-9
    assert width_turned(lower, upper, lower.mitre) == pytest.approx(half, abs=1e-9)
    found = least_radial(annulus(lower), annulus(upper), n)
    assert found == pytest.approx(max(aligned, 0.0), abs=1e-6)
    assert least_radial(annulus(lower), annulus(upper, lower.mitre), n) == pytest.approx(
        max(half, 0.0), abs=1e-6
    )


@given(
    radii,
    radii,
    st.floats(0.3, 0.9),
    st.floats(0.3, 0.9),
    counts,
    st.sampled_from((0, *COUNTS)),
    st.floats(0.0, 1.0),
)
def test_rings_of_unlike_segments_overlap_by_at_least_the_width_at_any_turn(
    a: float, b: float, inner_a: float, inner_b: float, n: int, m: int, turn: float
) -> None:
    lower, upper = Ring(1, 0, 10, m, a, inner_a * a if m else 0.0), Ring(2, 10, 10, n, b, inner_b * b)
    found = least_radial(annulus(lower), annulus(upper, turn), n)
    assert found >= turned_width(lower, upper) - 1e-3
    if m == 0:
        unturned = least_radial(annulus(lower), annulus(upper), n)
        assert unturned == pytest.approx(max(turned_width(lower, upper), 0.0), abs=2e-3)


def test_the_finished_width_is_the_wall_across() -> None:
    assert finished_width(CUP, 20) == pytest.approx(5)
    leaning = Section(profile((30, 0), (60, 30)), profile((0, 8), (30, 8), (52, 30)))
    assert finished_width(leaning, 20) == pytest.approx(8)


@given(st.integers(6, 24), st.floats(0.0, 3.0), st.floats(0.0, 3.0))
def test_open_rings_are_glued_where_segments_lie_over_segments(n: int, g: float, h: float) -> None:
    lower, upper = Ring(1, 10, 10, n, 33, 20, g), Ring(2, 20, 10, n, 33, 20, h)
    mean, mitre = 27.5, math.pi / n
    face = open_face(CUP, lower, upper, mitre)
    # Along the mean circle, where the gaps of one lie over the middles of the other.
    angles = (np.arange(200000) + 0.5) * (2 * np.pi / 200000)
    off_joint = [np.abs((angles - turn + mitre) % (2 * mitre) - mitre) * mean for turn in (mitre, 0.0)]
    glued = (off_joint[0] >= g / 2) & (off_joint[1] >= h / 2)
    assert glued.mean() == pytest.approx(glued_share(CUP, lower, upper, mitre), abs=1e-3)
    assert glued.mean() * 2 * np.pi * mean / (2 * n) == pytest.approx(face.length, rel=1e-2)
    assert (face.width, face.area) == (pytest.approx(5), pytest.approx(5 * face.length))


def test_the_glued_share_is_the_area_of_the_overlapping_segments() -> None:
    lower, upper = Ring(1, 10, 10, 12, 33, 20, 2.0), Ring(2, 20, 10, 12, 33, 20, 3.0)
    wall = shapely.Point(0, 0).buffer(30, quad_segs=200) - shapely.Point(0, 0).buffer(25, quad_segs=200)
    glued = wall
    for made, turn in ((lower, math.pi / 12), (upper, 0.0)):
        for k in range(12):
            angle = turn + k * math.pi / 6
            line = shapely.LineString([(0, 0), (50 * math.cos(angle), 50 * math.sin(angle))])
            glued -= line.buffer(made.spacer / 2, cap_style="flat")
    assert glued_share(CUP, lower, upper, math.pi / 12) == pytest.approx(glued.area / wall.area, rel=2e-3)


@pytest.mark.parametrize(("m", "gap", "words"), [(10, 1.0, "same number"), (12, 15.0, "wider than a face")])
def test_open_rings_without_a_face_are_refused(m: int, gap: float, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        open_face(CUP, Ring(1, 10, 10, m, 33, 20, gap), Ring(2, 20, 10, 12, 33, 20, 1.0), math.pi / 12)
