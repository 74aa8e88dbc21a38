"""The hold-downs on the two fences of a sled for flat rings: both stand there at once."""

from math import pi

import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.hardware.fittings import METRIC
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout


@given(st.integers(4, 48), st.floats(12, 110), st.floats(12, 60), st.floats(6, 19))
def test_the_fingers_of_one_fence_end_before_those_of_the_other(
    segments: int, depth: float, edge: float, sheet: float
):
    """Seen from above, on strips of any width; each still reaches past the slide that carries it, over the wood."""
    sled = PlanAngleLayout(
        mitre=pi / segments, outer_edge=edge, depth=depth, height=20, sheet=sheet, play=0.15, clear_of_blade=10,
        hands_clear=100, blade_diameter=250, kerf=3, slot_distance=100, slot_width=19, fittings=METRIC,
    )  # fmt: skip
    sides = [
        shapely.union_all([
            shapely.Polygon([
                sled.fence(side, sled.fence_start + x, out)
                for x, out in ((a, 0), (a + sheet, 0), (a + sheet, -sled.hold.finger_end), (a, -sled.hold.finger_end))
            ])
            for a in sled.hold.feet
        ])
        for side in (1, -1)
    ]  # fmt: skip
    assert sides[0].distance(sides[1]) > 0.5
    assert sled.hold.finger_end >= sled.hold.pad[1] > sled.hold.pad[0]
    assert sled.hold.finger_end > sheet
    assert sled.hold.pad[1] >= min(0.8 * depth, depth / 2)
