"""What every sled on a table saw is laid out for: the shop's sheet, saw and fittings. Lengths mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypedDict

from geometry.hardware.fittings import Fittings


@dataclass(frozen=True, kw_only=True)
class TableSled:
    """The sizes that the shop has, not the work."""

    sheet: float  # measured
    play: float  # of a slot over its sheet
    clear_of_blade: float  # least room between anything fixed and the blade
    hands_clear: float  # least room between the handle and the blade
    blade_diameter: float
    slot_distance: float
    slot_width: float
    fittings: Fittings


class ShopSizes(TypedDict):
    """The same, to build a layout with."""

    sheet: float
    play: float
    clear_of_blade: float
    hands_clear: float
    blade_diameter: float
    slot_distance: float
    slot_width: float
    fittings: Fittings
