"""What sleds, carriers and boards are put together with: one set of sizes for jobs in mm, one for jobs in inches.

Sizes that are sold side by side in every shop; which of them does what is common practice, no source. Lengths mm.
"""

from __future__ import annotations

from math import inf

from geometry.hardware.fasteners import INCH, NUT_FLATS, NUTS, bolt_diameter, clearance_hole
from geometry.records import dataclass

SHORT = 5.0  # of the wood's other face, that a faceplate's screws end
COUNTS, MOST = ((200.0, 4), (400.0, 6)), 8  # up to so many mm across so many of them

NUT_SIDE_PLAY = 0.3  # of a nut in the window that keeps it from turning
PEG_PLAY = 0.2


LEAST_CORE = {  # that takes a draw rod, across flats
    "M4": 8.5, "M5": 10.0, "M6": 12.5, "M8": 28.0, "M10": 36.0, "M12": 46.0,
    "#8": 11.0, "#10": 12.5, "1/4 in": 14.5, "5/16 in": 38.0, "3/8 in": 42.0, "1/2 in": 52.0,
}  # fmt: skip


@dataclass(frozen=True)
class Fittings:
    """Threads by their names in `fasteners`."""

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


@dataclass(frozen=True)
class Screws:
    """What holds a board, or the retainer, to its faceplate."""

    count: int
    across: float
    depth: float  # in the wood, at most: no point comes through
    within: float = inf  # diameter of the circle that they stay inside, so deep
    beyond: float = 0.0  # in the wood, at most, farther out; 0 where none may be there


def screws_for(fittings: Fittings, diameter: float, thickness: float) -> Screws:
    """For a faceplate on a board or a block of this size."""
    count = next((count for most, count in COUNTS if diameter <= most), MOST)
    across, deep = fittings.wood_screw
    return Screws(count, across, min(deep, thickness - SHORT))
