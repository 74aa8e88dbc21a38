"""Clearance holes against the standard's table."""

import pytest

from geometry.hardware.fittings import CLEARANCE, NUTS, bolt_diameter, clearance_hole

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
# ASME B18.2.8, table 1a, least diameters of close, normal and loose holes, in (Machinery's Handbook, 31st edition,
# p. 1741; of close and normal ones the drills alone were seen, their decimals are from memory).
ASME_B18_2_8 = {
    "#8": (0.180, 0.196, 0.213),
    "#10": (0.206, 0.221, 0.238),
    "1/4 in": (0.266, 0.281, 0.297),
    "5/16 in": (0.328, 0.344, 0.359),
    "3/8 in": (0.391, 0.406, 0.422),
    "1/2 in": (0.531, 0.562, 0.609),
}
# Its table 3a: the same holes as metric drills (p. 1743), normal fit, mm.
METRIC_DRILLS = {"#10": 5.6, "1/4 in": 7.1, "5/16 in": 8.7, "3/8 in": 10.2, "1/2 in": 14.25}
# Across corners and height at most, in: hexagon machine screw nuts of ASME B18.6.3, from a maker's copy of its table;
# hex nuts of ASME B18.2.2, table 7, flats and heights (Machinery's Handbook, 31st edition, p. 1677).
SCREW_NUTS = {"#8": (0.397, 0.130), "#10": (0.433, 0.130)}
HEX_NUTS = {"1/4 in": (7 / 16, 0.226), "5/16 in": (1 / 2, 0.273), "3/8 in": (9 / 16, 0.337)}


@pytest.mark.parametrize("bolt", CLEARANCE)
def test_every_hole_is_the_standards(bolt: str) -> None:
    ours = (clearance_hole(bolt, "fine"), clearance_hole(bolt, "medium"), clearance_hole(bolt, "coarse"))
    inches = tuple(25.4 * each for each in ASME_B18_2_8.get(bolt, ()))
    assert ours == pytest.approx(ISO_273.get(bolt, inches), abs=1e-9)
    assert bolt_diameter(bolt) < ours[0]


def test_the_table_is_whole_and_medium_is_the_rule() -> None:
    assert set(CLEARANCE) == set(ISO_273) | set(ASME_B18_2_8)
    assert clearance_hole("M8") == 9.0
    assert bolt_diameter("3/8 in") == pytest.approx(9.525)


@pytest.mark.parametrize("bolt", METRIC_DRILLS)
def test_an_inch_hole_is_its_metric_drill_within_a_fifth(bolt: str) -> None:
    assert clearance_hole(bolt) == pytest.approx(METRIC_DRILLS[bolt], abs=0.2)


@pytest.mark.parametrize("bolt", SCREW_NUTS)
def test_machine_screw_nuts_are_the_standards(bolt: str) -> None:
    assert NUTS[bolt] == pytest.approx([25.4 * each for each in SCREW_NUTS[bolt]], abs=0.01)


@pytest.mark.parametrize("bolt", HEX_NUTS)
def test_hex_nuts_are_the_standards(bolt: str) -> None:
    flats, high = HEX_NUTS[bolt]
    assert NUTS[bolt] == pytest.approx((25.4 * flats * 2 / 3**0.5, 25.4 * high), abs=0.01)
