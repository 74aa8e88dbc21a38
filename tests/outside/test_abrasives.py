"""Mean grain sizes of P-graded abrasives in micrometres, FEPA 43, as listed at sizes.com (P80, P120) and stusshed.com
(24 March 2008)."""

import pytest

from geometry.lathe.abrasives import GRAIN

PUBLISHED = {80: 201, 120: 125, 180: 82, 240: 58.5, 320: 46.2, 400: 35.0}


@pytest.mark.parametrize("grit", PUBLISHED)
def test_a_grits_grain(grit: int) -> None:
    assert 1000 * GRAIN[grit] == pytest.approx(PUBLISHED[grit])
