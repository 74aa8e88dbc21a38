"""The sled for flat rings: two fences on one side of an upright blade, each the mitre angle off square.

x = 0 is the blade's kept side, y runs away from the operator, 0 half-way between the fences. The fences lie at
x < 0 and open away from the blade, the strip between them, first against one, then slid across to the other,
the same face up: each cut leaves its tip at the edge that bears next. The segment is kept at x > 0. Distances
without a formula are common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, floor, hypot, sin, tan

from geometry.blanks.sawing import half_chord
from geometry.hardware import hold_down
from geometry.hardware.sled_sizes import (
    ARM,
    ARM_FOOT,
    BLADE_PAST_RING,
    HANDLE_BORDER,
    HANDLE_LENGTH,
    LEFT,
    PAST_STRIP,
    TAB,
    TIE,
    TableSled,
)
from jigs.stages.flat_segments.layout.carriage import SWEPT, StopCarriage

FENCE_LENGTH = 220.0
PAST_TIP = 5.0  # of the stop's nose past a segment's tip
EXIT_LEFT, EXIT_RIGHT = 30.0, 45.0  # of the exit block: past what stays clear on the left, of the blade
EXIT_BEHIND, EXIT_DEPTH, LEAST_EXIT = 20.0, 60.0, 20.0  # behind and before the end of the cut
LEG = 40.0  # of the gallows, along the blade
PAST_NOSE = 12.0  # of the near leg, past the arm's nose as it swings
UNDER = 8.0  # of the gallows above the thickest strip
OVER_ARM = 4.0  # of the gallows above the stop's arm, which is a sheet thick
OVER_BRIDGE = 18.0  # from its lower edge to the lowest guide bolt, the cam not turned down
LEAST_TIP = 4.0  # of a finger beyond its slide
FINGERS_APART = 2.0  # of one fence's from the other's
BETWEEN = 3.0  # of the exit block and whatever stands beside it


class PlanAngleLayout(TableSled):
    """Where everything stands on the sled.

    With one ring to cut the stop is fixed. For several rings its arm stands on a carriage, set between the
    nearest and the farthest stop.
    """

    mitre: float
    outer_edge: float  # as cut; of several rings the longest
    depth: float  # the strip's width; of several the widest
    height: float  # the strip's thickness; of several the greatest
    kerf: float
    least_edge: float | None = None  # of several rings the shortest outer edge
    least_depth: float | None = None  # the narrowest strip
    heights: tuple[float, ...] = ()  # of all

    @property
    def stop(self) -> float:
        """Where the stop stands, of several the farthest."""
        return self.stop_for(self.outer_edge)

    def stop_for(self, outer_edge: float) -> float:
        """From the blade's kept side, square to it: with it both fences give the outer edge."""
        return outer_edge * cos(self.mitre)

    @property
    def carriage(self) -> StopCarriage | None:
        """What the stop's arm stands on; None where the stop is fixed."""
        if self.least_edge is None:
            return None
        beside = self.gallows[1]
        return StopCarriage(
            self.stop_for(self.least_edge),
            self.stop,
            self.span,
            self.clear_of_blade,
            beside,
            fittings=self.fittings,
        )

    @property
    def hold(self) -> hold_down.HoldDown:
        """On the strip, one on either fence; their fingers end before they meet in the middle."""
        start, end = hold_down.pad(self.depth, self.sheet, self.least_depth)
        reach = self._finger_room
        return hold_down.HoldDown(self.woods, (start, min(end, reach)), self.sheet, reach=reach)

    @property
    def _finger_room(self) -> float:
        """Square to a fence, from its face to the middle between both, beside the finger nearest the blade."""
        c, s, along = cos(self.mitre), sin(self.mitre), self.fence_start + hold_down.MARGIN
        return (self.opening / 2 + along * s - FINGERS_APART / 2) / c

    @property
    def press(self) -> hold_down.HoldDown:
        """On the segment, under its gallows: a slide whose own edge bears, over all of the tips' reach."""
        above_carriage = 3 * self.sheet + hold_down.LEVER_WIDTH
        lowered = self.under - self.height + OVER_BRIDGE + hold_down.falls(self.woods)[-1]
        return hold_down.HoldDown(
            self.woods,
            (0.0, 0.0),
            self.sheet,
            fingers=0,
            gap=0.0,
            pivot=max(hold_down.PIVOT, lowered, above_carriage - self.height),
            least_width=2 * self.span,
            nose=self.press_foot[1] - self.press_foot[0],
        )

    @property
    def press_foot(self) -> tuple[float, float]:
        """x from and to, of the edge that bears: on the shortest segment too, near the blade, where it is widest."""
        _, thick = hold_down.foot(self.stop_for(self.least_edge or self.outer_edge), self.sheet)
        start = max(hold_down.FOOT_CLEAR, hold_down.PIN_CLEAR - thick / 2)
        return (start, start + thick)

    @property
    def press_pins(self) -> float:
        """x of the brass pins in that edge."""
        left, right = self.press_foot
        return max(hold_down.PIN_CLEAR, left + min(hold_down.PIN_IN, (right - left) / 2))

    @property
    def press_pin_places(self) -> tuple[float, ...]:
        """y of these pins: all along, so that two or more are over any segment on either fence."""
        apart = min(hold_down.PINS_APART, max(hold_down.LEAST_APART, self._least_wood / 2))
        count = floor((self.span - hold_down.PIN_END) / apart)
        return tuple(apart * i for i in range(-count, count + 1))

    @property
    def _least_wood(self) -> float:
        """Along the line of these pins: of the shortest and narrowest segment, with wood left round its pins."""
        edge, depth = self.least_edge or self.outer_edge, self.least_depth or self.depth
        c, t = cos(self.mitre), tan(self.mitre)
        left = min(1.0, (edge * c - self.press_pins) / (2 * depth * t * c))
        return depth / c * left - 2 * hold_down.PIN_EDGE * (1 + t)

    @property
    def gallows(self) -> tuple[float, float]:
        """x of its two faces."""
        return (self.press_foot[1], self.press_foot[1] + self.sheet)

    @property
    def gallows_legs(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """y of both legs' sides: before the swinging arm's nose, and beyond its rear end; wider for a wide press."""
        near, far = -self.span - PAST_NOSE, self.span + PAST_STRIP + SWEPT + BETWEEN
        half = self.press.width / 2
        return ((min(near - LEG, -half), near), (far, max(far + LEG, half)))

    @property
    def under(self) -> float:
        """Height of the gallows' lower edge above the base: over the strip, and the arm that swings there."""
        return max(self.height + UNDER, self.sheet + OVER_ARM)

    @property
    def gallows_height(self) -> float:
        return self.height + self.press.window[3] + 12

    @property
    def opening(self) -> float:
        """Between the fences where they meet the blade's line; both hold-downs have room."""
        c, s, along = cos(self.mitre), sin(self.mitre), self.fence_start + hold_down.MARGIN
        held = 2 * ((self.sheet + LEAST_TIP) * c - along * s) + FINGERS_APART
        return max(self.depth / c + self.sheet, held)

    @property
    def span(self) -> float:
        """The stop's nose reaches this far before and behind the middle, past the tips on either fence."""
        half, edges = self.opening / 2, (self.outer_edge, self.least_edge or self.outer_edge)
        return max(half, *(abs(half - edge * sin(self.mitre)) + PAST_TIP for edge in edges))

    @property
    def saw_height(self) -> float:
        return self.blade_over(self.height)

    @property
    def woods(self) -> tuple[float, ...]:
        """Thicknesses of the strips."""
        return self.heights or (self.height,)

    @property
    def varied(self) -> bool:
        """Whether strips differ in thickness by more than a blade is set to."""
        return self.height - min(self.woods) > 0.1

    def blade_over(self, height: float) -> float:
        """The blade above the table for a strip so thick. No higher: a thinned press spreads over the blade."""
        return height + self.sheet + BLADE_PAST_RING

    def fence(self, side: int, along: float, outward: float = 0.0) -> tuple[float, float]:
        """A place `along` from the blade's line on a fence's working face, or `outward` of it; side 1 is far."""
        c, s = cos(self.mitre), sin(self.mitre)
        return (outward * s - along * c, side * (self.opening / 2 + along * s + outward * c))

    @property
    def fence_start(self) -> float:
        """Along a fence: its end nearest the blade, clear of it."""
        return (self.clear_of_blade + self.sheet * sin(self.mitre)) / cos(self.mitre)

    @property
    def fence_end(self) -> float:
        return self.fence_start + FENCE_LENGTH

    @property
    def held(self) -> float:
        """Strip, along a fence from the blade, that has to be left for the hold-down in the last cut."""
        return self.fence_start + hold_down.MARGIN + hold_down.HOLD_WIDTH

    @property
    def tabs(self) -> tuple[float, float]:
        """Along a fence: where its two tabs start."""
        return (self.fence_start + 20, self.fence_end - 20 - TAB)

    @property
    def fence_height(self) -> float:
        return self.height + hold_down.ABOVE

    @property
    def pivot(self) -> tuple[float, float]:
        """Of a fixed stop's arm; y of any."""
        return (self.stop + self.nose, self.span + PAST_STRIP)

    @property
    def nose(self) -> float:
        """From the arm's nose edge to its pivot: its rear end swings clear of the gallows."""
        if self.carriage:
            return self.carriage.nose
        return max(ARM / 2, self.gallows[1] + BETWEEN + SWEPT - self.stop)

    @property
    def arm_reach(self) -> float:
        """From the pivot to the arm's nose, past both tips."""
        return self.pivot[1] + self.span

    @property
    def pin(self) -> tuple[float, float]:
        return (self.pivot[0] + ARM / 2 + self.fittings.pin / 2, self.pivot[1] - self.arm_reach + 8)

    @property
    def far_edge(self) -> float:
        stop = self.carriage.base_far if self.carriage else self.pivot[1] + ARM_FOOT + 10
        return max(self.fence(1, self.fence_end, self.sheet)[1] + 15, stop, self.gallows_legs[1][1] + 15)

    @property
    def free_behind(self) -> float:
        """y that the near fence, over the exit block's width, the swinging arm and the gallows leave free."""
        left = self.clear_of_blade + EXIT_LEFT
        along = (left + self.sheet * sin(self.mitre)) / cos(self.mitre)
        swept = self.pivot[1] - hypot(self.nose, self.arm_reach)
        return min(self.fence(-1, along, self.sheet)[1], swept, self.gallows_legs[0][0]) - BETWEEN

    @property
    def cut_end(self) -> float:
        """y of the blade's front edge when the strip is cut through on either fence, inside the exit block."""
        through = -self.opening / 2 - half_chord(self.blade_diameter, self.saw_height) - 10
        return min(through, self.free_behind - LEAST_EXIT)

    @property
    def exit_block(self) -> tuple[float, float, float, float]:
        """x and y of its lower left and its upper right corner."""
        right = self.carriage.nearest_edge - BETWEEN if self.carriage else EXIT_RIGHT
        far = min(self.cut_end + EXIT_DEPTH, self.free_behind)
        return (-self.clear_of_blade - EXIT_LEFT, self.cut_end - EXIT_BEHIND, min(EXIT_RIGHT, right), far)

    @property
    def operator_edge(self) -> float:
        tied = min(self.cut_end, self.fence(-1, self.fence_end, self.sheet)[1]) - TIE
        return min(tied, self.carriage.base_near) if self.carriage else tied

    @property
    def runner(self) -> tuple[float, float]:
        """x of the mitre slot's two sides."""
        near = -self.kerf - self.slot_distance
        return (near - self.slot_width, near)

    @property
    def left_edge(self) -> float:
        hands = -self.kerf - self.hands_clear - HANDLE_LENGTH - HANDLE_BORDER
        return min(self.fence(1, self.fence_end)[0] - 25, self.runner[0] - 20, -LEFT, hands)

    @property
    def right_edge(self) -> float:
        return self.carriage.base_right if self.carriage else self.stop + max(self.arm_reach + ARM, 100.0)
