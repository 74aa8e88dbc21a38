"""Regular polygons against printed tables."""

import math

import pytest

from geometry.bodies.torus import Blank, segment_cut
from geometry.plane.contour import Contour, regular_polygon

# Machinery's Handbook, 31st edition (2020), p. 82: sides, then A/S², R/S, r/S, S/R, S/r, r/R with S the
# side, R the circumscribed and r the inscribed radius.
HANDBOOK = {
    8: (4.8284, 1.3066, 1.2071, 0.7654, 0.8284, 0.9239),
    12: (11.196, 1.9319, 1.8660, 0.5176, 0.5359, 0.9659),
    16: (20.109, 2.5629, 2.5137, 0.3902, 0.3978, 0.9808),
    24: (45.575, 3.8306, 3.7979, 0.2611, 0.2633, 0.9914),
    64: (325.69, 10.190, 10.178, 0.0981, 0.0983, 0.9988),
}


def side_and_radius(contour: Contour) -> tuple[float, float]:
    return contour.edges()[0].length, math.hypot(*contour.points[0])


def printed(value: float) -> float:
    """Half a unit in the last place of a figure printed to five digits, at most four of them decimals."""
    return 0.5 * 10.0 ** max(-4, math.floor(math.log10(value)) - 4)


@pytest.mark.parametrize("n", HANDBOOK)
def test_ratios_are_the_handbooks(n: int) -> None:
    inscribed = 37.0
    contour = regular_polygon(n, inscribed)
    side, around = side_and_radius(contour)
    ratios = (
        contour.area / side**2,
        around / side,
        inscribed / side,
        side / around,
        side / inscribed,
        inscribed / around,
    )
    for ratio, book in zip(ratios, HANDBOOK[n], strict=True):
        assert ratio == pytest.approx(book, rel=0, abs=1.0001 * printed(book))


def test_the_handbooks_twelve_sided_example() -> None:
    # Machinery's Handbook, 31st edition, p. 78: 12 sides in a circle of radius 8 cm: side 4.141 cm,
    # area 191.98 cm² (by rounded factors; it is 192).
    contour = regular_polygon(12, 8.0 * math.cos(math.pi / 12))
    side, around = side_and_radius(contour)
    assert around == pytest.approx(8.0)
    assert side == pytest.approx(4.141, abs=5e-4)
    assert contour.area == pytest.approx(191.98, abs=0.021)


@pytest.mark.parametrize(
    # Mitre angle 180/n: Machinery's Handbook, 31st edition, p. 82, half of the table's central angle.
    ("n", "mitre"),
    [(6, 30.0), (8, 22.5), (10, 18.0), (12, 15.0), (16, 11.25)],
)
def test_mitres_are_half_the_central_angle(n: int, mitre: float) -> None:
    cut = segment_cut(Blank(16, n, 40.0, 12.0, 120.0), 50.0, 3.0, 0.0)
    assert math.degrees(cut.tilt) == pytest.approx(mitre)
    leaning = math.atan2(cut.outer_edge / 2 - cut.inner_edge / 2, cut.depth)
    assert math.degrees(leaning) == pytest.approx(mitre)


@pytest.mark.parametrize(
    # Marks of old framing-square tables against 12 in. From memory, not seen in print.
    ("n", "mark"),
    [(6, 6 + 15 / 16), (8, 4 + 31 / 32), (10, 3 + 29 / 32), (12, 3 + 7 / 32)],
)
def test_half_flats_are_the_framing_squares(n: int, mark: float) -> None:
    assert Blank(16, n, 12.0, 3.0, 40.0).flat_width / 2 == pytest.approx(mark, abs=1 / 64)
