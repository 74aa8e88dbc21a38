"""What the user asked for, as validated: every length in mm, every default filled in; and nearest values that work."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from math import ceil, floor
from pathlib import Path

from geometry.bodies.tube import Tube, tube_of
from geometry.hardware.fittings import Fittings, fittings_for
from geometry.records import Record
from jigs.asked.defaults import ALLOWANCE, ALLOWANCES, CLEAN_UP, PRINTED_PLATE, STAGES, USUAL_STAGES
from jigs.asked.job_shop import Workshop
from jigs.asked.job_wood import LayupWish
from jigs.asked.key import key
from jigs.asked.readings.readings import Readings
from jigs.words.findings import Finding, Severity
from jigs.words.lengths import MM_PER_INCH, Unit, show_length

_TWO_OF_THREE = "give two of the three diameters"


class Place(Record):
    """Where a key was written."""

    file: str
    line: int


# fmt: off
class Form(Record):
    """The finished torus and the blank it is turned from.

    `wedge_rings` (N) and `segments` (n) are even and at least 6. `core_opening` and
    `ring_across_flats` are measured across flats. None means that the plan decides.
    """

    outer_diameter: float = key("length", f"finished, across the rim; {_TWO_OF_THREE}", unset="follows from the "
        "other two", example=250.0, least=30, most=3000)
    hole_diameter: float = key("length", f"finished, across the hole; {_TWO_OF_THREE}", unset="follows from the "
        "other two", example=142.0, least=1, most=3000)
    tube_diameter: float = key("length", f"finished, through the tube; {_TWO_OF_THREE}", unset="follows from the "
        "other two", example=54.0, least=5, most=1000)
    tube_height: float | None = key("length", "finished, of the tube along the axis: an ellipse", unset="as "
        "tube_diameter: round", example=48.0, least=5, most=1000)
    wedge_rings: int = key("count", "how many wedge rings close the torus (even)", example=18, least=6, most=180,
        even=True, required=True)
    segments: int = key("count", "how many segments make a ring (even)", example=10, least=6, most=96, even=True,
        required=True)
    core_opening: float = key("length", "across the flats of the opening in the middle of a ring", example=20.0,
        least=1, most=1000, required=True)
    turning_allowance: float = key("length", "wood left all round the finished form for turning", example=3.0,
        inch_example=ALLOWANCES["in"][1],
        unset=ALLOWANCE, least=0.5,
        most=30)
    least_wall: float = key("length", "least wood between the core and the finished surface", 8.0,
        inch_default=7.9375, least=1, most=200)
    ring_across_flats: float | None = key("length", "your own, larger ring, across its flats", example=80.0,
        unset="the least that holds the finished form and its allowance", least=10, most=1500)
    least_segment: float = key("length", "least outer edge of a segment, for the hold-down", 8.0, inch_default=7.9375,
        least=2, most=100)
    least_thin_edge: float = key("length", "least length of a wedge ring at its inner flat, for the jaw", 8.0,
        inch_default=7.9375, least=1, most=100)
    clean_up: float | None = key("length", "wood cut off each face of a wedge ring at its outer edge", example=4.0,
        unset=CLEAN_UP, least=0.5, most=50)
    joint_sanding: float = key("length", "sanded off each end of a segment before gluing", 0.1, inch_default=0.1016,
        most=2)
    flattening: float = key("length", "taken off a ring's two faces together as they are flattened; strips are "
        "planed so much wider", 0.3, inch_default=0.3048, most=5)
    face_sanding: float = key("length", "sanded off each face of a wedge ring before gluing", 0.1,
        inch_default=0.1016, most=2)
    half_sanding: float = key("length", "sanded off each end of a half before it is glued to the other; face_sanding "
        "is not taken there", 0.5, inch_default=0.508, most=5)
    lining: float = key("length", "thickness of a soft lining of channel and retainer; 0 is bare wood", 0.0,
        most=10)
    friction: float = key("number", "of the finished side on the retainer", 0.35, least=0.05, most=1.5)
    species: tuple[tuple[str, ...], ...] = key("names", "of all rings, a list by ring that repeats, or for a ring "
        "a list that repeats round its segments", (("maple",),))
    spread: bool = key("flag", "whether the list by ring is shared out over all rings once, as in a hoop of two "
        "coloured halves, and does not repeat", False)
    turn: tuple[float, ...] | None = key("numbers", "by how many segments the woods of each ring are turned against "
        "the ring before; a list begins with ring 2 and repeats. 1 is a spiral", unset="0: they stand in line",
        example=(1.0,), least=-48, most=48)
    spacer: float = key("length", "thickness of the strips between segments; 0 is none", 0.0, most=4)
    ring_spacer: float = key("length", "thickness of the strips between wedge rings; 0 is none", 0.0, most=4)
    spacer_species: str | None = key("text", "of the strips", unset="that of the segment before each; between rings "
        "that of the first segment of the ring before", example="walnut", most=40)

    @property
    def major_radius(self) -> float:
        """From the axis to the centre of the tube."""
        return (self.outer_diameter - self.tube_diameter) / 2

    @property
    def tube_radius(self) -> float:
        """Half its width, square to the axis."""
        return self.tube_diameter / 2

    def ring_strip_wood(self, segments: tuple[str, ...]) -> str:
        """Of the strip that follows a ring whose segments are of these woods."""
        return self.spacer_species or segments[0]

    def strip_woods(self, segments: tuple[str, ...]) -> tuple[str, ...]:
        """Of the strips of a ring whose segments are of these woods: each follows its segment; none without strips."""
        if not self.spacer:
            return ()
        return segments if self.spacer_species is None else (self.spacer_species,) * len(segments)

    @property
    def tube(self) -> Tube:
        """Cut through, as finished."""
        return tube_of(self.tube_radius, (self.tube_height or self.tube_diameter) / 2)

    @property
    def rough(self) -> Tube:
        """With its turning allowance."""
        return self.tube.beyond(self.turning_allowance)

    @property
    def end_spare(self) -> float:
        """What the end wedge leaves more on an END face than the sled's wedge, square to it: no glue sanding there."""
        return self.half_sanding - self.face_sanding if self.half_sanding > 0 else 0.0


class GaugeWish(Record):
    """The gauges asked for.

    `stages` are offsets above the sanded tube radius, descending; the last is the finished
    stage and equals `sanding_allowance`.
    """

    stages: tuple[float, ...] = key("stages", 'sizes above the surface as sanded, falling; the last is "finished"',
        unset=USUAL_STAGES, example=STAGES["mm"], inch_example=STAGES["in"], most=30)
    plate_thickness: float | None = key("length", "of the printed gauges", example=4.0,
        unset=PRINTED_PLATE, least=1, most=15)
    fit: float = key("length", "added to the radius of a gauge's edge, so that it does not rock", 0.1,
        inch_default=0.1016, most=2)
    sanding_allowance: float = key("length", "left for sanding by the finished gauge", 0.25, inch_default=0.254, most=3)
    flats_left: float = key("length", "above the curve, at which roughing by flats stops", 0.3, inch_default=0.3048,
        least=0.05, most=5)
    longest_in_hand: float = key("length", "of a vessel's profile gauges; longer ones come in pieces on a rail",
        150.0, inch_default=152.4, least=40, most=1000)
    widest_gap: float = key("length", "of a vessel's gap gauges; wider stations get a stick to set callipers by",
        150.0, inch_default=152.4, least=20, most=1000)


# fmt: on
class Job(Record, kw_only=True):
    """What every job states; `places` tells where each dotted key was written, so that findings can say so."""

    name: str  # also the name of the output folder
    title: str
    unit: Unit  # for showing numbers; inside, all are mm
    source: Path | None
    gauges: GaugeWish
    workshop: Workshop
    layup: LayupWish | None = None
    places: Mapping[str, Place] = field(default_factory=dict, compare=False)
    workshop_source: Path | None = None
    questions: tuple[Finding, ...] = field(
        default=(), compare=False
    )  # on values that may not be what was meant
    readings: Readings = field(default_factory=Readings, hash=False)  # what was measured, beside the job
    # What the title had of characters that the jigs' lettering has not; they are left out.
    unlettered: str = ""

    @property
    def sources(self) -> tuple[Path, ...]:
        """The files it was read from; one of readings that has none yet changes nothing and is none."""
        read = Path(self.readings.file) if self.readings.entries else None
        return tuple(file for file in (self.source, self.workshop_source, read) if file is not None)

    @property
    def fittings(self) -> Fittings:
        """The bolts, screws and pins that its jigs are put together with."""
        return fittings_for(self.unit == "in")

    @property
    def tilt_assumed(self) -> str:
        """What has to be looked at where the side to which the saw's blade tilts is not the turner's own word."""
        stated = "saw.tilts" in self.places
        return "" if stated else " That side is assumed: look at your saw, and state tilts in [saw]."

    def finding(
        self, code: str, message: str, *, key: str = "", remedy: str = "", severity: Severity = "refused",
        wants: Mapping[str, float] | None = None,
    ) -> Finding:  # fmt: skip
        """Return a finding about this job, placed where `key` (dotted, as "saw.kerf") or its table stands.

        `wants` are values of keys, in mm, that look as if they would do; trying begins with them.
        """
        unwritten = Place(str(self.source) if self.source else "", 0)
        place = self.places.get(key) or self.places.get(key.partition(".")[0], unwritten)
        return Finding(code, message, remedy, key, place.file, place.line, severity, wants or {})

    def warning(self, code: str, message: str, *, key: str = "", remedy: str = "") -> Finding:
        """A finding with which the job can be made."""
        return self.finding(code, message, key=key, remedy=remedy, severity="warning")

    def note(self, code: str, message: str, *, key: str = "", remedy: str = "") -> Finding:
        """What is worth knowing."""
        return self.finding(code, message, key=key, remedy=remedy, severity="note")

    def show(self, mm: float, exact: bool = False) -> str:
        """A length as this job shows it."""
        return show_length(mm, self.unit, exact)

    def at_least(self, mm: float) -> str:
        """A length as text, rounded up so that it still does."""
        return self.show(ceil(mm / self._step - 1e-9) * self._step)

    def at_most(self, mm: float) -> str:
        """A length as text, rounded down so that it still does."""
        return self.show(floor(mm / self._step + 1e-9) * self._step)

    @property
    def _step(self) -> float:
        return 0.1 if self.unit == "mm" else MM_PER_INCH / 64


class TorusJob(Job, kw_only=True):
    """A closed ring of wedge rings."""

    form: Form


def largest_that_fits(fits: Callable[[float], bool], low: float, high: float, step: float = 0.1) -> float:
    """Largest multiple of `step` from `low` to `high` that fits, `fits` falling from true to false."""
    few, many = floor(low / step), ceil(high / step)
    while many - few > 1:
        middle = (few + many) // 2
        few, many = (middle, many) if fits(middle * step) else (few, middle)
    return few * step
