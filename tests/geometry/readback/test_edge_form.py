import math

import numpy as np
import pytest

from geometry.plane.contour import Contour, polygon, rectangle
from geometry.plane.profile import Profile, profile
from geometry.plane.sample import sample
from geometry.readback.edge_form import edge_form

# A corner, a hollow, a swelling; the plate lies to the right of it.
EDGE = profile((20.0, 0.0), (30.0, 15.0, -0.3), (24.0, 40.0, 0.25), (35.0, 70.0))


def plate(edge: Profile, back: float = 60.0, foot: float = 0.0) -> Contour:
    """Closed counter-clockwise: up the back, down the edge."""
    down = edge.reversed().vertices
    (x0, y0), (_, y1) = edge.start, edge.end
    rest = [(x0, y0 - foot, 0.0)] if foot else []
    return Contour(np.array([*down.tolist(), *rest, (back, y0 - foot, 0.0), (back, y1, 0.0)]))


def meshed(contour: Contour) -> Contour:
    return polygon(sample(contour, 0.004).astype(np.float32).astype(np.float64))


@pytest.mark.parametrize("foot", [0.0, 12.0])
@pytest.mark.parametrize("as_file", [lambda c: c, meshed], ids=["arcs", "mesh"])
def test_an_edge_that_is_right_measures_nothing_out(as_file, foot):
    assert edge_form([as_file(plate(EDGE, foot=foot))], EDGE) < 0.0045
    assert edge_form([as_file(plate(EDGE, foot=foot)).reversed()], EDGE.reversed()) < 0.0045


@pytest.mark.parametrize(("dx", "dy"), [(0.02, 0.0), (-0.02, 0.0), (0.0, 0.03)])
def test_an_edge_shifted_by_two_hundredths_is_found(dx, dy):
    assert edge_form([meshed(plate(EDGE.moved(dx, dy)))], EDGE) > 0.012


@pytest.mark.parametrize("row", [1, 2])
def test_an_edge_bent_by_two_hundredths_is_found(row):
    """One vertex moved: its neighbours stay where they are."""
    rows = EDGE.vertices.copy()
    rows[row, 0] += 0.02
    assert edge_form([meshed(plate(Profile(rows)))], EDGE) > 0.012


def test_an_arc_bent_by_two_hundredths_is_found():
    rows = EDGE.vertices.copy()
    chord = math.dist(rows[1, :2], rows[2, :2])
    rows[1, 2] += 0.02 / (chord / 2)
    found = edge_form([meshed(plate(Profile(rows)))], EDGE)
    assert found == pytest.approx(0.02, abs=0.005)


def test_a_spike_between_the_samples_is_found():
    points = sample(plate(EDGE), 0.004)
    k = 20
    along = points[k + 1] - points[k]
    spike = (points[k] + points[k + 1]) / 2 + 0.3 * np.array((along[1], -along[0])) / math.hypot(*along)
    spiked = np.vstack((points[: k + 1], spike, points[k + 1 :]))
    assert edge_form([polygon(spiked)], EDGE) == pytest.approx(0.3, abs=0.01)


def test_a_part_of_the_edge_that_is_cut_off_is_found():
    whole = plate(EDGE)
    short = plate(EDGE.between(0.0, 65.0))
    assert edge_form([whole], EDGE) < 1e-6
    assert edge_form([short], EDGE) > 4.0


def test_an_outline_that_lies_elsewhere_is_no_such_edge():
    assert edge_form([rectangle(100.0, 100.0, 120.0, 130.0)], EDGE) == math.inf


def test_nothing_to_measure_is_said():
    with pytest.raises(ValueError, match="no outline"):
        edge_form([], EDGE)
