"""What the user asked for in a vessel job, a lid's pot among it, as validated: lengths in mm, defaults filled in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from math import radians, sin, tau
from pathlib import Path
from typing import TYPE_CHECKING, Literal, TypeVar, get_args

from geometry.records import Record
from jigs.asked.defaults import ALLOWANCE, ALLOWANCES
from jigs.asked.job import Job
from jigs.asked.key import FEWEST, LEAST_WOOD, key
from jigs.asked.readings.readings import Readings
from jigs.words.called import LID, VESSEL, Called
from jigs.words.lengths import MM_PER_INCH, Unit

if TYPE_CHECKING:
    from geometry.bodies.lid_fit import LidFit
    from geometry.plane.profile import Profile

T = TypeVar("T")

HeightChoice = Literal["fewest rings", "least wood"]
Base = Literal["solid", "segmented", "floating"]
Grain = Literal["across", "upright"]
Hold = Literal["auto", "taper", "inside", "bolt", "none"]
Way = Literal["stations", "edges", "drawing"]
SHAPES = get_args(Way)  # a profile is given in one of these ways
BETWEEN = ("second", "third", "fourth")  # parts between the lower and the upper one, as many as there may be


class Shape(Record, eq=False):
    """A profile as it was given, and as the exact chain it has become; it need not be one that can be turned."""

    way: Way
    profile: Profile
    within: float  # of a smooth curve, that its arcs keep to; 0 for what was given as lines and arcs
    stations: tuple[float, ...]  # heights at which a diameter was stated
    said: tuple[str, ...]  # how a drawing was read
    source: Path | None  # the drawing


# fmt: off
class HalvesWish(Record):
    """Where the parts of a vessel are joined, for a neck or a waist that no tool and no gauge passes; each is hollowed
    first."""

    ring: tuple[int, ...] | None = key("counts", "the last ring of the lower half, by its number from the foot up; of "
        "more parts a list, the last ring of each but the uppermost. Each is turned inside first, then they are "
        "joined", unset="built in one", example=(5,), least=1, most=200)


class KnobWish(Record, kw_only=True, eq=False):
    """A lid's knob, glued into the lid's top: its outside, from there (height 0) up, and the tenon under it."""

    shape: Shape
    tenon_diameter: float = key("length", "of its tenon, and of the hole in the lid: a bit that you have", 10.0,
        inch_default=9.525, least=4, most=60)
    tenon_length: float = key("length", "of its tenon", 6.0, inch_default=6.35, least=3, most=60)
    species: str | None = key("text", "of the knob, its grain along the axis", unset="the lid's lowest ring's first",
        example="walnut", most=40)


class WallWish(Record):
    """The wall: one thickness, or by height (height, wall); neither where there is an inside of its own."""

    thickness: float | None = key("length", "of the wall, square to its surface", unset="by height, or an inside "
        "of its own", example=6.0, least=0.5, most=200)
    by_height: tuple[tuple[float, float], ...] | None = key("points", "heights and the wall's thickness there, in "
        "between in proportion", unset="one thickness", example=((0.0, 8.0), (100.0, 5.0)), most=2000)
    floor: float | None = key("length", "thickness of the floor at the axis", unset="the wall at the foot",
        example=8.0, least=0.5, most=300)
    through: bool = key("flag", "whether the hollow goes right through and there is no floor, as in shades and napkin "
        "rings", False)
    inner_corner: float = key("length", "radius between floor and wall inside; 0 is a sharp corner", 5.0,
        inch_default=4.7625, most=200)
    least: float = key("length", "the thinnest wall that is turned", 2.0, inch_default=1.984375, least=0.2, most=50)


class Foot(Record):
    """The hollow in the foot; zeros are a flat foot."""

    recess_diameter: float = key("length", "of the hollow in the foot; 0 is a flat foot", 0.0, most=2000)
    recess_depth: float = key("length", "of the hollow in the foot", 0.0, most=100)


class RingsWish(Record):
    """The rings, from the foot up; of lists by ring the last entry goes on."""

    heights: tuple[float, ...] | HeightChoice = key("heights", f'one height, a list from the foot up, or chosen '
        f'from the boards in [stock]: "{FEWEST}" or "{LEAST_WOOD}"', example=20.0, least=2, most=300, required=True,
        choices=(FEWEST, LEAST_WOOD))
    segments: tuple[int, ...] = key("counts", "in each ring, or one count for each ring from the foot up; the last "
        "goes on", example=12, least=4, most=96, required=True)
    species: tuple[tuple[str, ...], ...] = key("names", "of all rings, a list by ring (the last goes on), or for a "
        "ring a list that repeats round its segments", example=(("maple",),), required=True)
    repeat: bool = key("flag", "whether species begins again over its last entry, which else goes on", False)
    feature: tuple[int, ...] | None = key("counts", "rings that are of feature_species instead: their numbers from the "
        "foot up", unset="none", example=(5,), least=1, most=200)
    feature_species: tuple[tuple[str, ...], ...] | None = key("names", "of the feature rings in their order, as in "
        "species", unset="needed with feature", example=(("cherry",),))
    turn: tuple[float, ...] | None = key("numbers", "by how much each ring is turned on the one below, in segments, + "
        "counter-clockwise from above; a list begins with ring 2 and repeats. 0 stands joint over joint, 0.25 is a "
        "spiral, 1 moves the woods by a segment", unset="every second ring by half a segment, as bricks",
        example=(0.25,), least=-48, most=48)
    base: Base | None = key("choice", "rings that close over the middle, the base: a solid disc, segments, or a "
        "floating disc that lies loose in a groove", unset="a disc up to 75 mm across, and over 310 or so; else "
        "segments round a core plug; in a job in inches a disc up to 3 in across, and over 12 or so; else segments "
        "round a core plug", example="segmented", choices=get_args(Base))
    core_plug: float | None = key("length", "diameter of a plug glued into the middle of segments that would meet "
        "there in points; 0 is none", unset="the least round which segments have an end, where it fits; wider where "
        "they would be over 130 mm, or 5 1/8 in, deep",
        example=20.0, most=75)
    upright: tuple[int, ...] | None = key("counts", "rings that are one solid piece with its grain along the axis, "
        "as stems are: their numbers from the foot up", unset="none", example=(2, 3), least=1, most=200)
    spacer: float = key("length", "thickness of a strip between segments; 0 is none", 0.0, most=30)
    spacer_species: str | None = key("text", "of the strips", unset="the rings' own", example="walnut", most=40)
    gap: float = key("length", "width of an open gap between segments; 0 is none. Without a floor ring 1 has "
        "none", 0.0, most=50)
    turning_allowance: float = key("length", "wood left all round the finished form for turning", example=3.0,
        inch_example=ALLOWANCES["in"][1],
        unset=ALLOWANCE, least=0.5,
        most=30)
    least_glue: float = key("length", "least finished width of a joint between two rings", 3.0, inch_default=3.175,
        least=1, most=100)
    least_face: float = key("length", "least glue face between segments of two open rings, along the circumference; "
        "one that lets shorter ones pass brings a warning", 8.0, inch_default=7.9375, least=3, most=100)
    least_segment: float = key("length", "least outer edge of a segment, for the hold-down", 8.0, inch_default=7.9375,
        least=2, most=100)
    joint_sanding: float = key("length", "sanded off each end of a segment before gluing", 0.1, inch_default=0.1016,
        most=2)
    flattening: float = key("length", "taken off a ring's two faces together as they are flattened; boards are "
        "planed so much thicker", 0.3, inch_default=0.3048, most=5)
    waste_block: float = key("length", "thickness of the waste block between the faceplate and the lowest ring",
        18.0, inch_default=19.05, least=18, most=200)

    @property
    def between(self) -> float:
        """Width of what stands between two segments of a ring: strip or gap."""
        return self.gap or self.spacer

    def end_sanding(self, spacer: float) -> float:
        """Off each end of a ring's segments; nothing beside an open gap, where no glue goes on."""
        return 0.0 if self.gap and spacer else self.joint_sanding

    def woods(self, ring: int) -> tuple[str, ...]:
        """Of a ring, by its number from the foot up; they repeat round its segments."""
        if self.feature and self.feature_species and ring in self.feature:
            return by_ring(self.feature_species, self.feature.index(ring) + 1)
        if self.repeat:
            return self.species[(ring - 1) % len(self.species)]
        return by_ring(self.species, ring)


class StavesWish(Record):
    """Tapered staves for a range of heights."""

    low: float = key("length", "height at which the staves begin", unset="no staves", example=20.0, most=2000)
    high: float = key("length", "height at which they end", unset="no staves", example=120.0, most=2000)
    count: int = key("count", "how many staves", unset="no staves", example=16, least=4, most=96)
    species: tuple[str, ...] = key("names", "of all staves, or a list that repeats round them",
        unset="the rings' own", example=(("cherry",),))


class FloatingWish(Record):
    """The disc of a base that floats; moisture in per cent."""

    species: str | None = key("text", "of the disc", unset="the lowest ring's first", example="cherry", most=40)
    grain: Grain = key("choice", "across the disc, or upright: along the axis", "across", choices=get_args(Grain))
    moisture: float = key("number", "per cent of moisture in the disc when it is turned to its groove, by a meter",
        8.0, least=6, most=14)
    driest: float = key("number", "per cent of moisture to which it may dry where it will stand", 6.0, least=6,
        most=14)
    wettest: float = key("number", "per cent of moisture to which it may come there", 14.0, least=6, most=14)


class ReversingWish(Record):
    """Holding the vessel by its mouth."""

    hold: Hold = key("choice", "what holds the mouth: a taper jammed into it, a plug turned to the inside, a bolt "
        "through a hole in the floor, or none: the foot is finished by hand", "auto", choices=get_args(Hold))
    base_hole: float = key("length", "diameter of a hole through the floor for a bolt; 0 is none", 0.0, most=60)
    taper: float = key("number", "degrees of the jammed taper's side off the axis", 2.0, least=0.5, most=5)
    depth: float = key("length", "that the plug reaches into the mouth", 15.0, inch_default=15.875, least=5, most=100)
    lining: float = key("length", "thickness of a soft lining of the plug; 0 is bare wood", 0.0, most=10)
    friction: float = key("number", "of the finished inside on the plug", 0.35, least=0.05, most=1.5)


# fmt: on
MOUTH = "lid_pot.measure.mouth"
FAR = 0.1  # share of its plan by which it may differ; more is a slip of the pen

Fit = Literal["loose", "snug"]
# Least gap all round at the worst moisture, mm. Common practice, no source.
GAPS: dict[Unit, dict[Fit, float]] = {
    "mm": {"loose": 0.5, "snug": 0.15},
    "in": {"loose": 0.020 * MM_PER_INCH, "snug": 0.006 * MM_PER_INCH},
}


# fmt: off
class LidWish(Record):
    """The job is the lid of a pot, another job; moisture in per cent."""

    pot: str = key("text", "the job file of its pot, beside this one; .toml may be left off", unset="no lid",
        example="acorn", most=200)
    fit: Fit = key("choice", "how its flange fits the mouth: snug leaves 0.15 mm all round at the worst moisture, "
        "loose 0.5 mm; in a job in inches how its flange fits the mouth: snug leaves 0.006 in all round at the worst "
        "moisture, loose 0.020 in", "snug", choices=("loose", "snug"))
    gap: float | None = key("length", "all round between flange and mouth, left at the worst moisture",
        unset="by the fit", example=0.25, least=0.05, most=10)
    seat: float = key("length", "how far the flange reaches into the mouth", 8.0, inch_default=7.9375, least=3,
        most=200)
    mouth_diameter: float | None = key("length", "of the pot's mouth as you measured it, turned and sanded",
        unset="by your readings, else as the pot's job has it", example=90.0, least=10, most=3000)
    moisture: float = key("number", "per cent of moisture in the lid when its flange is fitted, by a meter", 8.0,
        least=6, most=14)
    driest: float = key("number", "per cent of moisture to which lid and pot may dry where they will stand", 6.0,
        least=6, most=14)
    wettest: float = key("number", "per cent of moisture to which they may come there", 14.0, least=6, most=14)


class Rebate(Record):
    """A step turned into the inside of the rim; zeros are a plain rim."""

    width: float = key("length", "how much wider the mouth is there, at each side; 0 is a plain rim", 0.0, most=200)
    depth: float = key("length", "from the rim down to the ledge", 0.0, most=200)


# fmt: on
class Pot(Record, eq=False):
    """The pot that a lid is for, and how the flange fits its mouth."""

    job: VesselJob
    fit: LidFit


def mouths_read(readings: Readings) -> tuple[float, ...]:
    """Every diameter that was read, mm."""
    found = readings.each(MOUTH) if MOUTH in readings else ()
    return tuple(one.value for one in found if one is not None)


def is_slip(mouth: float, planned: float) -> bool:
    return abs(mouth - planned) > FAR * planned


class VesselJob(Job, kw_only=True, eq=False):
    """A bowl, vase or platter of stacked rings."""

    outside: Shape
    inside: Shape | None
    wall: WallWish
    foot: Foot
    rings: RingsWish
    staves: StavesWish | None
    floating: FloatingWish
    reversing: ReversingWish
    rebate: Rebate = field(default_factory=Rebate)
    halves: HalvesWish = field(default_factory=HalvesWish)
    lid: LidWish | None = None  # it is the lid of another job
    knob: KnobWish | None = None  # of a lid
    pot: Pot | None = None  # that job, and how the lid's flange fits it

    @property
    def called(self) -> Called:
        """What people call it and its places."""
        return LID if self.lid else VESSEL

    def woods_of(self, ring: int) -> tuple[str, ...]:
        """All that move a ring: its segments' or their plies', and the strips' between them."""
        strips = (self.rings.spacer_species,) if self.rings.spacer and self.rings.spacer_species else ()
        if self.layup is not None and self.layup.covers(ring):
            return (*(ply.name for ply in self.layup.plies), *strips)
        return (*self.rings.woods(ring), *strips)

    def grows_round(self, ring: int, radius: float) -> float:
        """Of a radius in a ring, what grows by the share that wood swells since its grain does not run round: strips,
        and plies by their slant, those on the ends wholly.
        """
        strips = by_ring(self.rings.segments, ring) * self.rings.spacer / tau
        if self.layup is None or not self.layup.covers(ring):
            return strips
        return strips + radius * (1.0 if self.layup.plane == "end" else sin(radians(self.layup.angle)) ** 2)

    @property
    def sources(self) -> tuple[Path, ...]:
        """The files it was read from, drawings among them."""
        knob = self.knob.shape if self.knob else None
        shapes = (shape.source for shape in (self.outside, self.inside, knob) if shape is not None)
        pot = self.pot.job.sources if self.pot else ()
        drawings = (source for source in shapes if source is not None)
        return tuple(dict.fromkeys((*super().sources, *drawings, *pot)))


def by_ring(given: Sequence[T], number: int) -> T:
    """What a list by ring gives for a ring: its last entry goes on."""
    return given[min(number, len(given)) - 1]


def round_ring(names: Sequence[str], count: int) -> tuple[str, ...]:
    """Names that repeat round a ring."""
    return tuple(names[k % len(names)] for k in range(count))
