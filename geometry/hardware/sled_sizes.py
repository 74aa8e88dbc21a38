"""Sizes that sleds share, what every one on a table saw is laid out for, and the guide along a bandsaw's table.

Common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from math import cos, tan
from typing import TypedDict

from geometry.hardware.fittings import Fittings
from geometry.plane.edges import Point
from geometry.records import Record

RAIL = 40.0  # width at its narrow end
STRIP = 30.0
ENGAGED = 120.0  # of the strip on the rail before the blade reaches the wood
ARM = 30.0  # width of the stop's arm
ARM_FOOT = 18.0  # from the pivot to the arm's rear end
PAST_STRIP = 35.0  # of the pivot in front of the strip
TIE = 85.0  # of base behind the cut
LEFT = 330.0
HANDLE_BORDER = 15.0  # of base beside the handle
BEFORE_HANDLE = 25.0  # of base, towards the operator
TAB = 30.0
BATTEN = 40.0  # width of what ends the feed, under the base
GUSSET_DEPTH = 70.0
BLADE_PAST_RING = 3.0
GUSSET_TAB = 20.0  # from the fence's rear face to the gusset's tab
HANDLE_LENGTH = 150.0
HANDLE_TABS = (10.0, HANDLE_LENGTH - 10 - TAB)


class EdgeGuide(Record):
    """A rail on the table's left edge and the strip that runs on it.

    `drift` is how far the cut leans off the table's edge as it runs away from the operator, + to the left.
    """

    drift: float
    table_left: float  # from the blade to the table's edge
    table_front: float  # from the teeth to the table's front edge

    @property
    def rail_length(self) -> float:
        return self.table_front + ENGAGED

    @property
    def rail_widths(self) -> tuple[float, float]:
        """Width of the rail at the table's front edge and at its far end."""
        taper = self.rail_length * tan(self.drift)
        return (RAIL + max(0.0, -taper), RAIL + max(0.0, taper))

    @property
    def strip(self) -> float:
        """x of the strip's working edge, beside the teeth: the rail's outer edge there."""
        near, far = self.rail_widths
        beside = near + (far - near) * self.table_front / self.rail_length
        return -(self.table_left + beside) * cos(self.drift)

    @property
    def base_edge(self) -> float:
        """x that the base must reach so that its strip is wholly under it."""
        return self.strip - STRIP

    def table_front_line(self, feed_end: float, x: float) -> float:
        """y, at `x`, of the table's front edge as it lies under the sled when the teeth are at `feed_end`."""
        return feed_end - self.table_front / cos(self.drift) - x * tan(self.drift)


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
