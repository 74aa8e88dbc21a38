"""Clearance holes against the standard's table."""

import pytest

from geometry.hardware.fasteners import CLEARANCE, bolt_diameter, clearance_hole

# ISO 273:1979, clearance holes for bolts and screws, from a reproduction of its table: fine,
# medium and coarse series, mm.
ISO_273 = {
    "M4": (4.3, 4.5, 4.8),
    "M5": (5.3, 5.5, 5.8),
    "M6": (6.4, 6.6, 7.0),
    "M8": (8.4, 9.0, 10.0),
    "M10": (10.5, 11.0, 12.0),
    "M12": (13.0, 13.5, 14.5),
}
# ASME B18.2.8, table 3a, close, normal and loose, as metric drills (Machinery's Handbook, 31st edition, p. 1743).
ASME_B18_2_8 = {
    "1/4 in": (6.7, 7.1, 7.5),
    "5/16 in": (8.3, 8.7, 9.1),
    "3/8 in": (9.9, 10.2, 10.5),
}


@pytest.mark.parametrize("bolt", CLEARANCE)
def test_every_hole_is_the_standards(bolt: str) -> None:
    ours = (clearance_hole(bolt, "fine"), clearance_hole(bolt, "medium"), clearance_hole(bolt, "coarse"))
    assert ours == (ISO_273 | ASME_B18_2_8)[bolt]
    assert bolt_diameter(bolt) < ours[0]


def test_the_table_is_whole_and_medium_is_the_rule() -> None:
    assert set(CLEARANCE) == set(ISO_273) | set(ASME_B18_2_8)
    assert clearance_hole("M8") == 9.0
    assert bolt_diameter("3/8 in") == pytest.approx(9.525)
