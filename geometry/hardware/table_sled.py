"""What every sled on a table saw is laid out for: the shop's sheet, saw and fittings. Lengths mm."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import TypedDict

from geometry.hardware.fittings import Fittings
from geometry.hardware.sled_sizes import BEFORE_HANDLE, HANDLE_BORDER
from geometry.plane.edges import Point
from geometry.records import Record


class TableSled(Record, ABC, kw_only=True):
    """The sizes that the shop has, not the work."""

    sheet: float  # measured
    play: float  # of a slot over its sheet
    clear_of_blade: float  # least room between anything fixed and the blade
    hands_clear: float  # least room between the handle and the blade
    blade_diameter: float
    slot_distance: float
    slot_width: float
    fittings: Fittings

    @property
    @abstractmethod
    def left_edge(self) -> float:
        """x of the base's edge on the side of the handle."""

    @property
    @abstractmethod
    def operator_edge(self) -> float:
        """y of the base's edge nearest the operator."""

    @property
    def handle(self) -> Point:
        """The handle's left end, on its side away from the operator; it lies along x, clear of the blade's line."""
        return (self.left_edge + HANDLE_BORDER, self.operator_edge + BEFORE_HANDLE + self.sheet)


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
