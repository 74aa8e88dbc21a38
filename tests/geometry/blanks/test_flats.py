"""Sanding a flat wider, held against clipped polygons."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.flats import flat_after, half_width_at, sanded_for_flat

sides = st.integers(3, 20).map(lambda half: 2 * half)


def gon(n: int, apothem: float) -> shapely.Polygon:
    corners = math.pi / 2 + 2 * math.pi / n * (np.arange(n) + 0.5)
    return shapely.Polygon(
        apothem / math.cos(math.pi / n) * np.column_stack((np.cos(corners), np.sin(corners)))
    )


@given(sides, st.floats(5.0, 80.0), st.floats(0.0, 1.0))
def test_the_width_at_a_height_is_a_clipped_polygons(n: int, apothem: float, share: float) -> None:
    height = share * apothem
    chord = gon(n, apothem).intersection(shapely.LineString([(-200, height), (200, height)]))
    wide = 0.0 if chord.is_empty else chord.bounds[2] - chord.bounds[0]
    if share < 1:
        assert 2 * half_width_at(apothem, n, height) == pytest.approx(wide, rel=1e-9)


@given(sides, st.floats(5.0, 80.0), st.floats(0.01, 1.9))
def test_a_flat_sanded_for_a_width_has_it(n: int, apothem: float, share: float) -> None:
    width = share * apothem
    sanded = sanded_for_flat(apothem, n, width)
    assert 0 <= sanded < apothem
    if sanded:
        assert flat_after(apothem, n, sanded) == pytest.approx(width)
    else:
        assert flat_after(apothem, n, 0.0) >= width - 1e-9


def test_a_width_beyond_the_polygon_is_never_reached() -> None:
    assert sanded_for_flat(20.0, 8, 40.1) == math.inf


@given(sides, st.floats(5.0, 80.0), st.floats(0.0, 0.99))
def test_until_the_neighbours_are_gone_it_is_the_clipped_polygons_top(
    n: int, apothem: float, share: float
) -> None:
    mitre = math.pi / n
    sanded = share * 2 * apothem * math.tan(mitre) * math.sin(2 * mitre)
    rest = gon(n, apothem) & shapely.box(-500, -500, 500, apothem - sanded)
    top = [x for x, y in rest.exterior.coords if y > rest.bounds[3] - 1e-9]
    assert flat_after(apothem, n, sanded) == pytest.approx(max(top) - min(top))
    assert flat_after(apothem, n, sanded) == pytest.approx(
        2 * apothem * math.tan(mitre) + 2 * sanded / math.tan(2 * mitre)
    )
