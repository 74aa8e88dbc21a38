from math import cos, hypot, pi, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.plane.sample import sample
from geometry.plane.split import Key, line_meetings, split
from tests.geometry.validity import problems

shapely = pytest.importorskip("shapely")


def region(contour):
    return shapely.Polygon(sample(contour, 0.002))


def line(*points):
    return np.array([(x, y, 0.0) for x, y in points])


def test_a_rectangle_falls_into_left_and_right_of_the_path():
    left, right = split(rectangle(0, 0, 10, 4), line((6, -1), (6, 5)))
    assert left.bounds == pytest.approx((0, 0, 6, 4))
    assert right.bounds == pytest.approx((6, 0, 10, 4))
    assert (left.area, right.area) == pytest.approx((24, 16))


@given(st.floats(5, 200), st.floats(0, 2 * pi), st.floats(-0.9, 0.9), st.floats(-0.4, 0.4))
def test_the_halves_of_a_disc_keep_its_arc_and_its_area(radius, turn, off, bulge):
    along, across = np.array((cos(turn), sin(turn))), np.array((-sin(turn), cos(turn)))
    ends = off * radius * across + np.array((-2, 2))[:, None] * radius * along
    path = np.column_stack((ends, (bulge if 0.01 < abs(bulge) < (0.95 - abs(off)) / 2 else 0.0, 0.0)))
    disc = circle((0, 0), radius)
    left, right = split(disc, path)
    assert left.area + right.area == pytest.approx(disc.area, rel=1e-9)
    for half in (left, right):
        assert half.area > 0
        assert problems(half) == ()
        own = [edge for edge in half.edges() if edge.is_arc and hypot(*edge.centre) < 1e-6 * radius]
        assert own
        # A cut beside a vertex leaves an arc of a few nanometres, from which no radius can be told.
        assert all(edge.radius == pytest.approx(radius, rel=1e-9) for edge in own if edge.length > 1e-3)


def test_the_left_half_lies_to_the_left_of_the_path():
    left, right = split(circle((0, 0), 5), line((-9, 0), (9, 0)))
    assert left.centroid[1] > 0 > right.centroid[1]


def test_a_path_through_a_corner_meets_it_once():
    left, right = split(rectangle(0, 0, 10, 10), line((-1, -1), (11, 11)))
    assert left.area == pytest.approx(50)
    assert right.area == pytest.approx(50)
    assert len(left) == len(right) == 3


@pytest.mark.parametrize(
    "path",
    [
        line((20, 0), (20, 9)),
        line((-1, 2), (3, 2)),
        line((-1, 4), (11, 4)),
        line((2, -1), (2, 5), (6, 5), (6, -1)),
    ],
    ids=["beside", "ends inside", "along an edge", "in and out again"],
)
def test_a_path_that_does_not_divide_is_refused(path):
    with pytest.raises(ValueError, match="path that splits"):
        split(rectangle(0, 0, 10, 4), path)


def test_a_contour_crossed_four_times_is_refused():
    horseshoe = polygon([(0, 0), (9, 0), (9, 9), (6, 9), (6, 3), (3, 3), (3, 9), (0, 9)])
    with pytest.raises(ValueError, match="4 times"):
        split(horseshoe, line((-1, 6), (10, 6)))


def test_a_line_tells_where_and_how_squarely_it_meets_a_contour():
    met = line_meetings(circle((0, 0), 5), (-9.0, 3.0), (9.0, 3.0))
    assert np.array([point for point, _ in met]) == pytest.approx(np.array([(-4, 3), (4, 3)]))
    assert [angle for _, angle in met] == pytest.approx([np.arcsin(0.8)] * 2)


keys = st.builds(
    lambda length, turn, share, neck: Key(
        (3.0, -2.0),
        (3.0 + length * cos(turn), -2.0 + length * sin(turn)),
        share * length,
        neck * length,
        0.6 * neck * length,
    ),
    st.floats(20, 200),
    st.floats(0, 2 * pi),
    st.floats(0.3, 0.45),
    st.floats(0.1, 0.3),
)


@given(keys, st.floats(0, 0.3))
def test_a_key_has_its_play_on_flanks_and_tip_alone(key, play):
    tight, loose = key.path(), key.path(play)
    ux, uy = (tight[-1, :2] - tight[0, :2]) / key.length
    assert loose[[0, -1]] == pytest.approx(tight[[0, -1]])
    socket, tenon = (shapely.LineString(path[1:5, :2]) for path in (tight, loose))
    out = (loose[:, :2] - tight[0, :2]) @ (uy, -ux)
    assert out == pytest.approx([0, 0, key.depth - play, key.depth - play, 0, 0], abs=1e-9)
    for a, b, c, d in ((1, 2, 1, 2), (3, 4, 3, 4)):
        flank = shapely.LineString(tight[[a, b], :2])
        gaps = [
            np.linalg.norm(
                np.cross(np.append(tight[b] - tight[a], 0)[:3], np.append(loose[k] - tight[a], 0)[:3])
            )
            / flank.length
            for k in (c, d)
        ]
        assert gaps == pytest.approx([play / 2] * 2, abs=1e-6)
    assert tenon.length < socket.length or play < 1e-9


@given(keys, st.floats(0.05, 0.3))
def test_keyed_halves_meet_without_overlap_and_cannot_be_drawn_apart_or_mated_mirrored(key, play):
    ux, uy = (np.array(key.end) - key.start) / key.length
    corners = [
        (key.start[0] + a * ux - b * uy, key.start[1] + a * uy + b * ux)
        for a, b in ((0, -60), (key.length, -60), (key.length, 60), (0, 60))
    ]
    plate = Contour(np.column_stack((np.array(corners), np.zeros(4)))).ccw()
    over = np.array((ux, uy, 0))
    tight, loose = key.path(), key.path(play)
    for path in (tight, loose):
        path[0] -= over
        path[-1] += over
    tenon, socket = split(plate, loose)[0], split(plate, tight)[1]
    a, b = region(tenon), region(socket)
    assert a.intersection(b).area < 1e-6
    gap = plate.area - a.area - b.area
    assert 0 < gap < play * 3.0 * (key.neck + key.depth)
    apart = shapely.affinity.translate(b, uy * (play + 0.5), -ux * (play + 0.5))
    assert a.intersection(apart).area > 1e-3
    middle = ((key.start[0] + key.end[0]) / 2, (key.start[1] + key.end[1]) / 2)
    turned = socket.mirrored(middle, (-uy, ux))
    assert a.intersection(region(turned)).area > 1.0
