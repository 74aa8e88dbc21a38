"""A shop's sizes, as sleds on its table saw are laid out for them."""

from __future__ import annotations

from geometry.hardware.fittings import METRIC
from geometry.hardware.sled_sizes import ShopSizes


def a_shop(sheet: float, play: float = 0.15, slot_distance: float = 110.0) -> ShopSizes:
    return ShopSizes(
        sheet=sheet,
        play=play,
        clear_of_blade=12.0,
        hands_clear=150.0,
        blade_diameter=250.0,
        slot_distance=slot_distance,
        slot_width=19.0,
        fittings=METRIC,
    )
