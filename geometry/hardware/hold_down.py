"""A hold-down worked by one hand: a slide on an upright plate, fingers under it, a cam that presses it down.

The slide hangs on two bolts in upright slots of the plate. A round disc fills a window of the plate; a bolt
through the slide turns it, off its middle, by a lever behind the plate. With the lever up the slide is raised;
turned level, it bears on the wood. The cam stays where it is left: the force on the disc passes beside its pivot
by the eccentricity at most, and friction at its rim holds more than that (e < f R, statics). Fingers stand under
the slide, square to the plate, and bear on the wood over their pads alone.

Brass pins in the fingers' feet, filed to points, go 1 mm into the wood: they alone keep it from sliding, and count
in the statics. The marks lie in faces that are flattened, turned away, or inside.

Places on a slide: x from its end nearest the blade, z from its lower edge, which lies GAP above the wood. Fingers
are seen from the side: out from the plate's face, z from the wood. Distances without a formula are common
practice, no source. Lengths mm, forces N.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import count
from math import dist, floor, inf

from geometry.records import Record

Point = tuple[float, float]
Box = tuple[float, float, float, float]

HOLD_WIDTH = 70.0  # of wood under two fingers, from outside to outside
NARROW = 3.0  # sheets: on wood narrower than this, fingers bear from under the slide on
GAP = 6.0  # of a slide above the wood, when its fingers bear
DISC = 20.0  # radius of the cam
OFF = 2.5  # its eccentricity: the slide's lift; under DISC times the friction of wood on wood
FREE = 0.2  # round the disc in its window, above and below
BESIDE = 1.0  # beside the disc in its window, at the ends of its turn
LEVER = 100.0  # from the pivot to its end
LEVER_WIDTH = 24.0
DOWEL_AT = 10.0  # of what keeps disc and lever together, from the pivot, towards the lever's end
PIVOT = 37.0  # of the nominal hole above the slide's lower edge
BOLT = 31.0  # of a guide bolt from the slide's middle
BOLT_TO_EDGE = 10.0
MARGIN = 4.0  # of slide before the first finger
LEAST_FINGER = 18.0  # of a finger beyond the slide
NEAR = 0.8  # of wood thinner than its hole is for: 24° more of the lever press it, and the base is clear
COLUMN = 9.0  # of the pivot's holes beside one another, and least from one to another
TENON = (3.0, 23.0)  # z of the fingers' tenon on the slide
ABOVE = 76.0  # of the plate above the wood: window and 12 mm over it
HAND = 45.0  # N at the lever's end: 5 kg on a kitchen scale, as the notes ask for
DRY = 0.3  # friction at the cam, wood that is not waxed: the most, so that it presses least; common practice
PIVOT_RADIUS = 3.2  # of the cam's bolt, M6 or 1/4 in
CLAMP = 420.0  # N, counted on: the cam presses with more (`cam_presses`)
FOOT_CLEAR = 3.0  # of a foot of wood from the blade
PIN_CLEAR = 6.0  # of a brass pin from the blade: its foot of wood stands between them, and brass is soft
PAPER_CLEAR = 3.0  # of abrasive paper from the blade, whose teeth grit would blunt
PIN_IN = 5.0  # of a pin from the far side of a foot of thick sheet
PIN_END = 2.0  # of a pin from the ends of its pad
PIN_EDGE = 1.5  # least wood round a pin
TO_STOP = 1.0  # from a foot to the stop
LEAST_FOOT = 5.0  # thickness of a thinned foot
LEAST_ROOM = PIN_CLEAR + LEAST_FOOT / 2 + TO_STOP  # of a piece, for such a foot
NARROW_APART = 5.0  # of the pins under a finger on narrow wood, at least
LEAST_APART = 2.0  # of the pins in a press, where strips are narrow
PINS_APART = 3.5  # along a foot that bears on wood of several sizes


class HoldDown(Record):
    """The slide of one hold-down and its fingers."""

    woods: tuple[float, ...]  # thicknesses of all that it presses
    pad: tuple[float, float]  # out from the plate's face: where the fingers bear
    sheet: float
    fingers: int = 2
    gap: float = GAP  # of the slide above the wood when it bears; 0 where its own edge bears
    pivot: float = PIVOT  # of the nominal hole above the slide's lower edge
    least_width: float = 0.0  # of the slide
    foot: float = 0.0  # thickness of what lies between its finger and the wood
    reach: float = inf  # of a finger out from the plate's face, at most
    nose: float | None = None  # thickness of its fingers where they bear; None: that of the sheet

    @property
    def wood(self) -> float:
        """Thickness of the thickest."""
        return max(self.woods)

    @property
    def holes(self) -> tuple[Point, ...]:
        """From the first, the pivot's holes, one for each thickness: the cam lifts no more than its pins need."""
        found: list[Point] = []
        for down in falls(self.woods):
            beside = (COLUMN * (i // 2 + i % 2) * (1 if i % 2 else -1) for i in count())
            found.append(next(at for x in beside if _clear(at := (x, down), found)))
        return tuple(found)

    @property
    def fall(self) -> float:
        """Of the slide, from the first hole to the last."""
        return falls(self.woods)[-1]

    @property
    def spread(self) -> float:
        """How far holes lie beside the middle."""
        return max(abs(x) for x, _ in self.holes)

    @property
    def width(self) -> float:
        return max(self.least_width, 2 * (BOLT + self.spread + BOLT_TO_EDGE))

    @property
    def height(self) -> float:
        return self.pivot + self.fall + 12.0

    @property
    def middle(self) -> float:
        return self.width / 2

    @property
    def bolts(self) -> tuple[Point, Point]:
        aside = BOLT + self.spread
        return ((self.middle - aside, self.pivot), (self.middle + aside, self.pivot))

    @property
    def pivots(self) -> tuple[Point, ...]:
        """The hole for the thickest wood first."""
        return tuple((self.middle + x, self.pivot + down) for x, down in self.holes)

    @property
    def feet(self) -> tuple[float, ...]:
        """x of each finger's end nearest the blade."""
        return (MARGIN, MARGIN + HOLD_WIDTH - self.sheet)[: self.fingers]

    @property
    def bearing(self) -> tuple[tuple[float, float], ...]:
        """x from and to, where each finger bears: it is thinned on its side nearest the blade."""
        thick = self.sheet if self.nose is None else self.nose
        return tuple((x + self.sheet - thick, x + self.sheet) for x in self.feet)

    @property
    def window(self) -> Box:
        """In the plate: x from the slide's end, z from the top of the thickest wood."""
        half, middle = DISC + OFF + BESIDE + self.spread, self.gap + self.pivot
        return (self.middle - half, middle - DISC - FREE, self.middle + half, middle + DISC + FREE)

    @property
    def slots(self) -> tuple[tuple[float, float, float], ...]:
        """In the plate, for the guide bolts: x, and the lowest and the highest place of a bolt's middle, z."""
        nominal = self.gap + self.pivot
        low = nominal - OFF - self.fall
        return tuple((x, low, nominal + OFF + 1.0) for x, _ in self.bolts)

    @property
    def finger_height(self) -> float:
        """From the wood up, at the slide: stiff enough for its reach."""
        return min(self.gap + self.height - 2.0, max(32.0, 0.45 * self.pad[1]))

    @property
    def finger_end(self) -> float:
        """Out from the plate's face: past a pad that ends near the slide, so that the finger has its height."""
        return max(self.pad[1], min(self.sheet + LEAST_FINGER, self.reach))

    @property
    def pins(self) -> tuple[float, ...]:
        """Out from the plate's face: where a finger's pins are; on narrow wood closer together."""
        first, last = self.pad[0] + PIN_END, self.pad[1] - PIN_END
        if self.foot:
            return ()
        count = 1 + max(1, floor((last - first) / NARROW_APART)) if self.pad[0] < self.sheet else 2
        return tuple(first + (last - first) * i / (count - 1) for i in range(count))


def cam_presses(hand: float, friction: float) -> float:
    """N on the wood, with the lever level, when a hand presses its end: moments about the pivot.

    The disc's force passes OFF beside the pivot; friction at its rim and at the bolt takes its own part.
    """
    return hand * LEVER / (OFF + friction * (DISC + PIVOT_RADIUS))


def foot(room: float, sheet: float) -> tuple[float, float]:
    """A foot on a piece that is `room` long from the blade to its stop: its start from the blade, and its thickness.

    In the middle, as thick as the sheet where there is room for that, else thinned; pins clear of the blade.
    """
    most = min(room - FOOT_CLEAR - TO_STOP, 2 * (room - TO_STOP - PIN_CLEAR))
    thick = min(sheet, max(LEAST_FOOT, most))
    least = max(FOOT_CLEAR, PIN_CLEAR - pin_from(thick))
    return min(max((room - thick) / 2, least), room - TO_STOP - thick), thick


def pin_from(thick: float) -> float:
    """Of a foot's pins, from its side nearest the blade."""
    return thick - min(PIN_IN, thick / 2)


def falls(woods: Iterable[float]) -> list[float]:
    """How much thinner than the thickest the wood is that each of the pivot's holes is for, none first."""
    thick_first = sorted(woods, reverse=True)
    found: list[float] = []
    for wood in thick_first:
        if not found or thick_first[0] - wood - found[-1] > NEAR:
            found.append(thick_first[0] - wood)
    return found


def _clear(at: Point, others: Iterable[Point]) -> bool:
    return all(dist(at, other) >= COLUMN - 1e-9 for other in others)


def pad(width: float, sheet: float, least: float | None = None) -> tuple[float, float]:
    """Out from the face: where fingers bear on wood of this width, the narrowest being `least` wide.

    Beyond the slide, but on narrow wood from under it.
    """
    narrow = width if least is None else least
    return (sheet + 1.0 if narrow >= NARROW * sheet else 0.15 * narrow, 0.8 * width)
