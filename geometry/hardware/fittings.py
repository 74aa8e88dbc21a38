"""Bolts, and what else sleds, carriers and boards are put together with: one set of sizes in mm, one in inches.

Metric bolts are coarse after ISO 261, inch ones UNC after ASME B1.1: clearance holes, nuts, washers, and how long bolts
have to be. An inch thread is named by its size alone, as "1/4 in" or "#8"; `called` is what it is bought by.

Fittings are of sizes that are sold side by side in every shop; which of them does what is common practice, no source.
Lengths mm.
"""

from __future__ import annotations

from math import ceil, floor, inf
from typing import Literal

from geometry.records import Record

Fit = Literal["fine", "medium", "coarse"]
INCH = 25.4


def _inches(fine: float, medium: float, coarse: float) -> dict[Fit, float]:
    return {"fine": fine * INCH, "medium": medium * INCH, "coarse": coarse * INCH}


CLEARANCE: dict[str, dict[Fit, float]] = {
    # ISO 273
    "M4": {"fine": 4.3, "medium": 4.5, "coarse": 4.8},
    "M5": {"fine": 5.3, "medium": 5.5, "coarse": 5.8},
    "M6": {"fine": 6.4, "medium": 6.6, "coarse": 7.0},
    "M8": {"fine": 8.4, "medium": 9.0, "coarse": 10.0},
    "M10": {"fine": 10.5, "medium": 11.0, "coarse": 12.0},
    "M12": {"fine": 13.0, "medium": 13.5, "coarse": 14.5},
    # ASME B18.2.8, least diameters: close, normal and loose
    "#8": _inches(0.180, 0.196, 0.213),
    "#10": _inches(0.206, 0.221, 0.238),
    "1/4 in": _inches(0.266, 0.281, 0.297),
    "5/16 in": _inches(0.328, 0.344, 0.359),
    "3/8 in": _inches(0.391, 0.406, 0.422),
    "1/2 in": _inches(0.531, 0.562, 0.609),
}
PER_INCH = {"#8": 32, "#10": 24, "1/4 in": 20, "5/16 in": 18, "3/8 in": 16, "1/2 in": 13}  # UNC, ASME B1.1
_NUMBERED = {"#8": 0.164, "#10": 0.190}  # in, of numbered sizes: ASME B1.1
NUTS = {  # across corners, height: ISO 4032; ASME B18.6.3, from 1/4 in on B18.2.2
    "M4": (7.66, 3.2), "M5": (8.79, 4.7), "M6": (11.05, 5.2), "M8": (14.38, 6.8), "M10": (17.77, 8.4),
    "M12": (20.03, 10.8),
    "#8": (10.08, 3.3), "#10": (11.0, 3.3), "1/4 in": (12.83, 5.74), "5/16 in": (14.66, 6.93),
    "3/8 in": (16.5, 8.56), "1/2 in": (22.0, 11.38),
}  # fmt: skip
HEADS = {  # of hexagon bolts, across corners as their nuts are, height: ISO 4017; ASME B18.2.1; from memory
    "M6": 4.2, "M8": 5.5, "M10": 6.6, "M12": 7.7, "1/4 in": 4.2, "5/16 in": 5.4, "3/8 in": 6.2, "1/2 in": 8.2,
}  # fmt: skip
SUNK_BELOW = 0.8  # of a head or a nut under the face
NUT_FLATS = {"M6": 10.0, "1/4 in": 7 / 16 * INCH}  # across: the same standards

# Under the head, as they are sold; nuts high at most, washers thick. From memory.
LENGTHS = (*range(10, 20, 2), *range(20, 70, 5), *range(70, 160, 10), *range(160, 220, 20))  # ISO 4762
INCH_LENGTHS = (*(n / 4 for n in range(2, 17)), *(n / 2 for n in range(9, 17)))
LOCK_NUTS = {
    **{"M4": 5.0, "M5": 6.8, "M6": 8.0, "M8": 9.5, "M10": 11.9, "M12": 14.9},  # ISO 7040
    **{"#8": 6.0, "#10": 6.0, "1/4 in": 8.3, "5/16 in": 9.5, "3/8 in": 11.5},  # ASME B18.16.6
}
WASHERS = {
    **{"M4": 0.8, "M5": 1.0, "M6": 1.6, "M8": 1.6, "M10": 2.0, "M12": 2.5},  # ISO 7089
    **{"#8": 1.3, "#10": 1.3, "1/4 in": 2.1, "5/16 in": 2.1, "3/8 in": 2.1},  # ASME B18.22.1
}
PAST_NUT = 1.0  # of thread
MOST_WASHERS = 5  # a higher pile leans as it is tightened: common practice, no source


def bolt_length(bolt: str, through: float, washers: int = 2) -> float | None:
    """Length (mm) under the head of the shortest bolt sold that goes through so much wood, washers and a lock nut.

    None where none is long enough: threaded rod does it. Raises KeyError for an unknown bolt.
    """
    least = through + washers * WASHERS[bolt] + LOCK_NUTS[bolt] + PAST_NUT
    return next((length for length in _sold(bolt) if length >= least), None)


def washed(bolt: str, through: float) -> tuple[float, int, float] | None:
    """Length (mm) of the shortest bolt sold, its head in the wood, how many washers bring its end to its lock nut, and
    how thick (mm) a block goes under one washer where they were too many; 0 for none.

    What then stands out is less than a washer and a turn of thread. None where no bolt is long enough.
    """
    length = bolt_length(bolt, through, washers=1)
    if length is None:
        return None
    spare = length - (through + LOCK_NUTS[bolt] + PAST_NUT)
    washers, step = floor(spare / WASHERS[bolt] + 1e-9), INCH / 16 if in_inches(bolt) else 1.0
    if washers <= MOST_WASHERS:
        return length, washers, 0.0
    return length, 1, step * floor((spare - WASHERS[bolt]) / step + 1e-9)


def head_place(bolt: str) -> tuple[float, float]:
    """Across and depth of a bore that takes a hexagon head, as a drill is sold: whole mm, or sixteenths of an inch."""
    return _bored(bolt, HEADS[bolt])


def nut_place(bolt: str) -> tuple[float, float]:
    """Across and depth of a bore that takes a nut."""
    return _bored(bolt, NUTS[bolt][1])


def _bored(bolt: str, high: float) -> tuple[float, float]:
    step = INCH / 16 if in_inches(bolt) else 1.0
    return step * ceil((NUTS[bolt][0] + 0.2) / step), step / 2 * ceil((high + SUNK_BELOW) / (step / 2))


def sunk_length(bolt: str, through: float) -> float:
    """Length (mm) of the longest bolt sold that ends below the wood's face, its nut let in."""
    return max(length for length in _sold(bolt) if length <= through - 0.5)


def _sold(bolt: str) -> list[float]:
    return [INCH * inches for inches in INCH_LENGTHS] if in_inches(bolt) else [float(mm) for mm in LENGTHS]


def clearance_hole(bolt: str, fit: Fit = "medium") -> float:
    """Diameter (mm) of the clearance hole for `bolt`, such as "M8" or "3/8 in". Raises KeyError if unknown."""
    return CLEARANCE[bolt][fit]


def bolt_diameter(bolt: str) -> float:
    """Nominal diameter (mm) of `bolt`."""
    if bolt in _NUMBERED:
        return INCH * _NUMBERED[bolt]
    if in_inches(bolt):
        above, _, below = bolt.removesuffix(" in").partition("/")
        return INCH * (int(above) / int(below or 1))
    return float(bolt.removeprefix("M"))


def screw_number(across: float) -> str:
    """By which a wood screw so wide (mm) is sold in inches, "#10"; "" for others. Machine screws have the same."""
    return next((name for name, inches in _NUMBERED.items() if abs(across - INCH * inches) < 1e-6), "")


def in_inches(bolt: str) -> bool:
    """Whether `bolt` has an inch thread."""
    return bolt in PER_INCH


def called(bolt: str) -> str:
    """The name by which `bolt` is bought: "M6", "1/4-20", "#8-32"."""
    return f"{bolt.removesuffix(' in')}-{PER_INCH[bolt]}" if in_inches(bolt) else bolt


SHORT = 5.0  # of the wood's other face, that a faceplate's screws end
COUNTS, MOST = ((200.0, 4), (400.0, 6)), 8  # up to so many mm across so many of them
# N/mm2 that a wood screw may be pulled with for its diameter and its depth in the side grain of a hardwood of 0.5
# g/cm3: 2850 G2 lb for each inch of both (engineeringtoolbox.com, wood screws, allowable withdrawal load).
HOLDS = 2850 * 0.5**2 * 4.448 / INCH**2
FACEPLATE = 60.0  # mm across the circle of a small faceplate's screws: common practice, no source

NUT_SIDE_PLAY = 0.3  # of a nut in the window that keeps it from turning
PEG_PLAY = 0.2


LEAST_CORE = {  # that takes a draw rod, across flats
    "M4": 8.5, "M5": 10.0, "M6": 12.5, "M8": 28.0, "M10": 36.0, "M12": 46.0,
    "#8": 11.0, "#10": 12.5, "1/4 in": 14.5, "5/16 in": 38.0, "3/8 in": 42.0, "1/2 in": 52.0,
}  # fmt: skip


class Fittings(Record):
    """Threads by their names."""

    bolt: str  # of sleds: guides, pivots, stops, jaw
    screw: str  # countersunk, its nut let in; also of the gauges' rail
    pin: float  # of steel, across
    dowel: float  # keeps cam and lever together
    peg: float  # keeps a wedge on its fence
    middle: float  # hole in the middle of what is centred on a pin
    brass: float  # pins, filed to points
    rods: tuple[str, ...]  # of a wedge-ring sled, the slimmest first
    flush: tuple[float, float]  # across: a countersink for the heads of countersunk bolts, and of screws
    sink: tuple[float, float]  # across and depth of a counterbore for a cap screw's head on a washer
    head: float  # of these, how high
    jaw_screw: float  # long, under its head
    wood_screw: tuple[float, float]  # across, and in the wood at most, of a faceplate's
    brace: str
    centre: tuple[str, str]  # of the retainer, for small work and for other
    plugs: tuple[str, ...]  # of a plug for the mouth, the thickest first
    drill: float  # large bores are rounded to multiples of it
    step: float  # lengths of rods and bolts are rounded up to multiples of it

    @property
    def bolt_hole(self) -> float:
        return clearance_hole(self.bolt)

    @property
    def screw_hole(self) -> float:
        return clearance_hole(self.screw)

    @property
    def bolt_radius(self) -> float:
        """Of the bolt itself."""
        return bolt_diameter(self.bolt) / 2

    @property
    def nut_window(self) -> float:
        """Across the window in which a bolt's nut cannot turn."""
        return NUT_FLATS[self.bolt] + NUT_SIDE_PLAY

    @property
    def nut_height(self) -> float:
        """Of a bolt's plain nut."""
        return NUTS[self.bolt][1]

    @property
    def smallest_core(self) -> float:
        """Across the flats of the smallest core that takes a rod."""
        return LEAST_CORE[self.rods[0]]

    @property
    def peg_hole(self) -> float:
        """In the fence."""
        return self.peg + PEG_PLAY


METRIC = Fittings(
    bolt="M6",
    screw="M4",
    pin=6.0,
    dowel=4.0,
    peg=8.0,
    middle=3.0,
    brass=2.0,
    rods=("M4", "M5", "M6", "M8", "M10", "M12"),
    flush=(13.0, 8.5),  # ISO 10642, ISO 7046; from memory
    sink=(13.0, 9.0),  # ISO 4762 on ISO 7089
    head=7.6,
    jaw_screw=50.0,
    wood_screw=(5.0, 30.0),
    brace="M8",
    centre=("M8", "M10"),
    plugs=("M12", "M10", "M8", "M6"),
    drill=1.0,
    step=5,
)
IN_INCHES = Fittings(
    bolt="1/4 in",
    screw="#8",
    pin=INCH / 4,
    dowel=3 / 16 * INCH,
    peg=5 / 16 * INCH,
    middle=INCH / 8,
    brass=INCH / 16,
    rods=("#8", "#10", "1/4 in", "5/16 in", "3/8 in", "1/2 in"),
    flush=(17 / 32 * INCH, 11 / 32 * INCH),  # ASME B18.3, B18.6.3; from memory
    sink=(11 / 16 * INCH, 3 / 8 * INCH),  # ASME B18.3 on B18.22.1, narrow; from memory
    head=8.1,
    jaw_screw=2 * INCH,
    wood_screw=(0.190 * INCH, 9 / 8 * INCH),  # number 10
    brace="5/16 in",
    centre=("5/16 in", "3/8 in"),
    plugs=("3/8 in", "5/16 in", "1/4 in"),
    drill=INCH / 16,
    step=INCH / 4,
)


def fittings_for(inches: bool) -> Fittings:
    """Those of a job in inches, or of one in mm."""
    return IN_INCHES if inches else METRIC


class Screws(Record):
    """What holds a board, or the retainer, to its faceplate."""

    count: int
    across: float
    depth: float  # in the wood, at most: no point comes through
    within: float = inf  # diameter of the circle that they stay inside, so deep
    beyond: float = 0.0  # in the wood, at most, farther out; 0 where none may be there
    on: float = 0.0  # diameter of their circle, at least; 0 where any faceplate's will do


def screws_for(fittings: Fittings, diameter: float, thickness: float, moment: float = 0.0) -> Screws:
    """For a faceplate on a board or a block of this size, which N mm tip off: about the far side of the screws'
    circle, the nearest pulled most. More of them before a wider circle."""
    fewest = next((count for most, count in COUNTS if diameter <= most), MOST)
    across, deep = fittings.wood_screw
    depth = min(deep, thickness - SHORT)
    circles = {n: 8 * moment / (3 * n * HOLDS * across * depth) for n in range(fewest, MOST + 1, 2)}
    count = next((n for n, circle in circles.items() if circle <= FACEPLATE), MOST)
    return Screws(count, across, depth, on=circles[count] if circles[count] > FACEPLATE else 0.0)
