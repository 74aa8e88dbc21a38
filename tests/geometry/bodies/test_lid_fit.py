"""A lid's fit against what the wood does: a ring solved as an elastic body, a disc by its own stretch."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import csc_matrix, diags
from scipy.sparse.linalg import spsolve

from geometry.bodies.floating_base import CLOSES
from geometry.bodies.lid_fit import STIFF, LidFit, RimWood, as_narrow, inner_sag, outer_sag, widened

SHARES = st.floats(0.0, 0.03)
WOODS = st.builds(RimWood, st.booleans(), st.floats(3, 20), SHARES, SHARES)
FITS = st.builds(LidFit, st.floats(25, 150), st.floats(0.05, 1), WOODS, WOODS)


@given(FITS)
def test_the_stated_gap_is_left_with_both_at_their_worst_and_more_with_neither(fit):
    swollen = fit.flange + fit.lid.grown(fit.flange)
    closed = fit.mouth - fit.pot.closed(fit.mouth)
    assert closed - swollen == pytest.approx(fit.least, abs=1e-9)
    dry, open_ = fit.flange - fit.lid.shrunk(fit.flange), fit.mouth + fit.pot.opened(fit.mouth)
    assert open_ - dry == pytest.approx(fit.widest, abs=1e-9)
    assert fit.least - 1e-9 <= fit.gap <= fit.widest + 1e-9


def test_a_solid_flange_is_smaller_than_one_in_a_ring_by_what_a_disc_moves():
    """Sugar maple, 0.00353 for each per cent, tangential (GTR-190, table 13-5), from 8 % to 14 %."""
    swells = 6 * 0.00353
    ring, disc = (
        LidFit(44, 0.15, RimWood(False, 8, 0, 0), RimWood(solid, 6, 0, swells)) for solid in (False, True)
    )
    assert ring.flange == pytest.approx(44 - 0.15 - 3 * swells)
    assert disc.flange * (1 + swells) == pytest.approx(44 - 0.15)
    assert disc.gap == pytest.approx(1.06, abs=0.01)
    assert ring.gap == pytest.approx(0.21, abs=0.01)


def ring_faces(inner, outer, swell, stiff):
    """By how much a ring's inner and outer face move: it has its grain round it, and swells across only.

    Radial equilibrium of a cylindrically orthotropic body, by finite differences.
    """
    r = np.linspace(inner, outer, 801)
    h = r[1] - r[0]
    # E_r (r u'' + u' - swell) - E_t u / r = 0; u' = swell at both free faces.
    count = len(r)
    matrix, right = np.zeros((count, count)), np.full(count, swell)
    for k in range(1, count - 1):
        matrix[k, k - 1 : k + 2] = (
            r[k] / h**2 - 0.5 / h,
            -2 * r[k] / h**2 - stiff / r[k],
            r[k] / h**2 + 0.5 / h,
        )
    for row, own, near, next_ in ((0, 0, 1, 2), (count - 1, -1, -2, -3)):
        sign = 1 if row == 0 else -1
        matrix[row, [own, near, next_]] = np.array([-3, 4, -1]) * sign / (2 * h)
    return np.linalg.solve(matrix, right)[[0, -1]]


@pytest.mark.parametrize(("inner", "outer"), [(38, 44), (60, 70), (20, 32)])
def test_a_rings_faces_move_by_about_half_of_what_its_width_changes(inner, outer):
    """Wood is about twelve times as stiff along its grain as across (from memory)."""
    swell = 0.02
    u = ring_faces(inner, outer, swell, 12.0)
    wood = RimWood(False, outer - inner, 0, swell)
    assert 0.6 * wood.grown(outer) <= u[-1] <= 1.01 * wood.grown(outer)
    assert 0.6 * wood.closed(inner) <= -u[0] <= 1.05 * wood.closed(inner)


@pytest.mark.parametrize("inner", [0.5, 20, 60, 86])
def test_a_wide_ring_moves_its_rim_as_an_elastic_body_does(inner):
    """A flat top of segments, 188 mm across, from a point over the middle to a narrow flange."""
    swell = 0.02
    rim = ring_faces(inner, 94, swell, STIFF)[1]
    assert RimWood(False, as_narrow(94, inner), 0, swell).grown(94) == pytest.approx(rim, rel=0.01)
    assert as_narrow(94, inner) <= 1.02 * (94 - inner)


def segment_faces(count, inner, outer, swell, cells=(8, 12)):
    """How far a ring's outer face moves out, and its inner one in, where they move most.

    Half of a segment between its middle and its mitre, in plane stress by four-node elements (any textbook): straight
    grain, free faces, both cuts kept in their planes. Stiffness across is 1, Poisson's ratio 0.4, and in shear 0.8.
    """
    compliance = [[1, -0.4 / STIFF, 0], [-0.4 / STIFF, 1 / STIFF, 0], [0, 0, 1 / 0.8]]
    stiff, free, cut = np.linalg.inv(compliance), np.array([swell, 0, 0]), np.pi / count
    radii, angles = np.linspace(inner, outer, cells[0] + 1), np.linspace(0, cut, cells[1] + 1)
    number = np.arange(len(radii) * len(angles)).reshape(len(radii), -1)
    radius, angle = np.meshgrid(radii, angles, indexing="ij")
    places = np.stack((radius * np.cos(angle), radius * np.sin(angle)), -1).reshape(-1, 2)
    matrix, load = np.zeros((2 * len(places),) * 2), np.zeros(2 * len(places))
    signs, gauss = np.array([[-1, 1, 1, -1], [-1, -1, 1, 1]]), 1 / np.sqrt(3)
    for i, j in np.ndindex(*cells):
        nodes = [number[i, j], number[i + 1, j], number[i + 1, j + 1], number[i, j + 1]]
        freedoms = np.ravel([[2 * node, 2 * node + 1] for node in nodes])
        for s, t in ((a, b) for a in (-gauss, gauss) for b in (-gauss, gauss)):
            local = np.stack((signs[0] * (1 + signs[1] * t), signs[1] * (1 + signs[0] * s))) / 4
            jacobian = local @ places[nodes]
            (dx, dy), weight = np.linalg.solve(jacobian, local), np.linalg.det(jacobian)
            strain = np.zeros((3, 8))
            strain[0, ::2], strain[1, 1::2], strain[2, ::2], strain[2, 1::2] = dx, dy, dy, dx
            matrix[np.ix_(freedoms, freedoms)] += strain.T @ stiff @ strain * weight
            load[freedoms] += strain.T @ stiff @ free * weight
    for normal, nodes in (((0, 1), number[:, 0]), ((-np.sin(cut), np.cos(cut)), number[:, -1])):
        for node in nodes:
            matrix[2 * node : 2 * node + 2, 2 * node : 2 * node + 2] += 1e6 * np.outer(normal, normal)
    moved = np.linalg.solve(matrix, load).reshape(*number.shape, 2)
    outward = moved[..., 0] * np.cos(angle) + moved[..., 1] * np.sin(angle)
    return outward[-1].max(), -outward[0].min()


@pytest.mark.parametrize("count", [6, 24])
@pytest.mark.parametrize("inner", [2, 40, 70, 84])
def test_straight_grain_moves_a_flange_no_more_than_is_counted(count, inner):
    moved, _ = segment_faces(count, inner, 94, 0.02)
    counted = RimWood(False, as_narrow(94, inner) + outer_sag(94, inner, count), 0, 0.02).grown(94)
    assert moved <= 1.01 * counted
    assert counted <= 2 * moved


@pytest.mark.parametrize("count", [6, 12, 24])
@pytest.mark.parametrize("inner", [20, 45, 60, 75, 90])
def test_no_opening_in_a_ring_closes_more_than_is_counted_for_a_floating_base(count, inner):
    _, moved = segment_faces(count, inner, 100, 0.02)
    assert moved <= CLOSES * 100 * 0.02


@pytest.mark.parametrize("count", [6, 24])
@pytest.mark.parametrize("outer", [97, 102, 110])
def test_straight_grain_closes_a_mouth_no_more_than_is_counted(count, outer):
    _, moved = segment_faces(count, 94, outer, 0.02)
    counted = RimWood(False, outer - 94 + inner_sag(94, count), 0, 0.02).closed(94)
    assert moved <= 1.01 * counted <= 2 * moved


def turned_faces(inside, swell, size, height):
    """How far nodes of a turned body move outward: its grain runs round it, and it swells across only.

    `inside` says of the middles of square cells, x and z, whether they are wood. Axial symmetry, four-node elements (a
    textbook has them); stiffness across is 1, Poisson's ratio 0.4, in shear 0.5. Answers {(x, z): outward}.
    """
    compliance = np.eye(4)
    compliance[0, 1] = compliance[1, 0] = -0.4
    compliance[2, :2] = compliance[:2, 2] = -0.4 / STIFF
    compliance[2, 2], compliance[3, 3] = 1 / STIFF, 1 / 0.5
    stiff, free = np.linalg.inv(compliance), np.array([swell, swell, 0, 0])
    x, z = (np.arange(most) + 0.5 for most in (size, height))
    cells = [(i, j) for i, j in np.ndindex(size, height) if inside(x[i], z[j])]
    number: dict[tuple[int, int], int] = {}
    rows, columns, values, gauss = [], [], [], 1 / np.sqrt(3)
    load = np.zeros(2 * (size + 1) * (height + 1))
    for i, j in cells:
        nodes = [
            number.setdefault(at, len(number)) for at in ((i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1))
        ]
        freedoms = np.ravel([[2 * node, 2 * node + 1] for node in nodes])
        element, pull = np.zeros((8, 8)), np.zeros(8)
        for a, b in ((a, b) for a in (-gauss, gauss) for b in (-gauss, gauss)):
            shape = np.array([(1 - a) * (1 - b), (1 + a) * (1 - b), (1 + a) * (1 + b), (1 - a) * (1 + b)]) / 4
            dx = np.array([b - 1, 1 - b, 1 + b, -1 - b]) / 2
            dz = np.array([a - 1, -1 - a, 1 + a, 1 - a]) / 2
            strain, radius = np.zeros((4, 8)), i + (1 + a) / 2
            strain[0, ::2], strain[1, 1::2], strain[2, ::2] = dx, dz, shape / radius
            strain[3, ::2], strain[3, 1::2] = dz, dx
            element += strain.T @ stiff @ strain * radius / 4
            pull += strain.T @ stiff @ free * radius / 4
        load[freedoms] += pull
        rows.append(np.repeat(freedoms, 8))
        columns.append(np.tile(freedoms, 8))
        values.append(element.ravel())
    count = 2 * len(number)
    matrix = csc_matrix(
        (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), (count, count)
    )
    matrix += diags([1e-9] * count)  # nothing holds it along its axis
    moved = spsolve(matrix.tocsc(), load[:count])
    return {at: moved[2 * node] for at, node in number.items()}


@pytest.mark.parametrize(("lean", "wall"), [(45, 8), (60, 8), (70, 5)])
def test_a_dome_spreads_the_flange_on_it_no_more_than_is_counted(lean, wall):
    """A lid 84 mm across in its flange, 3 mm wider over it: a cone that leans so far off the axis."""
    level, rise = wall / np.cos(np.radians(lean)), int(40 / np.tan(np.radians(lean)))

    def wood(x, z):
        edge = 45 + (z - rise) * np.tan(np.radians(lean))
        return 42 - wall < x < 42 if z > rise else edge - level < x < edge

    moved = turned_faces(wood, 0.02, 48, rise + 8)
    most = max(out for (x, z), out in moved.items() if x == 42 and z > rise)
    counted = RimWood(False, as_narrow(42, 42 - widened(wall, 42, [(0, level)])), 0, 0.02).grown(42)
    assert most <= 1.05 * counted <= 2 * most
    assert most > 1.1 * RimWood(False, wall, 0, 0.02).grown(42)


@pytest.mark.parametrize(("lean", "neck"), [(60, 8), (70, 8), (70, 14)])
def test_a_shoulder_closes_the_neck_on_it_no_more_than_is_counted(lean, neck):
    """A jar's mouth 100 mm across, the wall 8 mm, its flange 6 mm down in a short neck."""
    level, drop = 8 / np.cos(np.radians(lean)), int(50 / np.tan(np.radians(lean)))

    def wood(x, z):
        edge = 50 + (drop - z) * np.tan(np.radians(lean))
        return 50 < x < 58 if z > drop else edge < x < edge + level

    moved = turned_faces(wood, 0.02, int(102 + level), drop + neck)
    most = max(-out for (x, z), out in moved.items() if x == 50 and z >= drop + neck - 6)
    counted = RimWood(False, widened(8, 50, [(neck - 6, level)]), 0, 0.02).closed(50)
    assert most <= 1.05 * counted
