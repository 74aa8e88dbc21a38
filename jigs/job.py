"""What the user asked for, as validated: every length in mm, every default filled in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from jigs.findings import Finding, Severity
from jigs.job_wood import Glue, LayupWish, Paper, Prices, Route, Spares, Stock
from jigs.measured.readings import Readings

if TYPE_CHECKING:
    from jigs.part import Process

Unit = Literal["mm", "in"]
SawChoice = Literal["table saw", "bandsaw", "auto"]


@dataclass(frozen=True)
class Place:
    """Where a key was written."""

    file: str
    line: int


@dataclass(frozen=True)
class Form:
    """The finished torus and the blank it is turned from.

    `wedge_rings` (N) and `segments` (n) are even and at least 6. `core_opening` and
    `ring_across_flats` are measured across flats. None means that the plan decides.
    """

    major_radius: float
    tube_radius: float
    wedge_rings: int
    segments: int
    core_opening: float
    turning_allowance: float
    least_wall: float
    least_segment: float  # outer edge
    least_thin_edge: float
    ring_across_flats: float | None  # the turner's own larger ring
    clean_up: float | None  # wood cut off each wedge face
    joint_sanding: float  # sanded off each end of a segment
    flattening: float  # off both faces of a ring together, before its wedge faces are cut
    face_sanding: float  # sanded off each face of a wedge ring
    half_sanding: float  # sanded off each end of a half
    lining: float  # soft lining between the finished side and the board or retainer; 0 is bare wood
    friction: float  # of the finished side on the retainer
    species: tuple[tuple[str, ...], ...]  # by wedge ring, then round its segments; both lists repeat
    route: Route  # what the rings are made of: mitred segments, or slices of a tube of staves

    @property
    def outer_diameter(self) -> float:
        return 2 * (self.major_radius + self.tube_radius)

    @property
    def hole_diameter(self) -> float:
        return 2 * (self.major_radius - self.tube_radius)


@dataclass(frozen=True)
class GaugeWish:
    """The gauges asked for.

    `stages` are offsets above the sanded tube radius, descending; the last is the finished
    stage and equals `sanding_allowance`.
    """

    stages: tuple[float, ...]
    plate_thickness: float | None  # None: by the gauge's length
    fit: float  # added to the radius of the gauge's edge
    sanding_allowance: float
    flats_left: float  # above the curve, at which roughing by flats stops
    longest_in_hand: float  # of a vessel's profile gauges
    widest_gap: float  # of a vessel's gap gauges


@dataclass(frozen=True)
class Cutting:
    """Which saw cuts what; "auto" is the table saw where it is tall enough, else the bandsaw."""

    wedge_rings: SawChoice
    segments: SawChoice
    plan_angle_sled: bool  # also the sled for flat rings


@dataclass(frozen=True)
class Saw:
    """The table saw."""

    kerf: float
    blade_height: float  # most that the blade stands above the table
    blade_diameter: float
    throat: float  # clear distance beside the blade
    table_front: float  # from the table's front edge to the blade's axle
    slot_width: float
    slot_depth: float
    slot_distance: float  # from the blade's near face to the slot's near edge
    tilts: Literal["left", "right"]  # the blade's top, seen from the operator


@dataclass(frozen=True)
class Bandsaw:
    """The bandsaw; without a height there is none."""

    kerf: float
    height: float | None  # under the guides
    throat: float
    drift: float  # degrees off the table's left edge, + to the left as the cut runs away from the operator
    table_left: float  # from the blade
    table_front: float  # from the teeth


@dataclass(frozen=True)
class SledWish:
    """Clearances of the wedge-ring sled, and ends of the wedges."""

    trim: float  # left beside the blade for the first pass
    clear_of_blade: float
    hands_clear: float
    runner_play: float
    runner_clearance: float
    past_bearing: float
    thin_end: float


@dataclass(frozen=True)
class TruingWish:
    """Truing the ends of quarters and halves."""

    abrasive: float  # thickness


@dataclass(frozen=True)
class ClampingWish:
    """Blocks that give clamps parallel faces."""

    height: float
    set_back: float  # from the joint
    clear_of_form: float
    band_overlap: float


@dataclass(frozen=True)
class Lathe:
    """The lathe."""

    swing_over_bed: float  # the largest diameter that turns


@dataclass(frozen=True)
class HoldingWish:
    """How the support board and the retainer hold."""

    contact: float  # degrees up each flank
    relief_width: float
    relief_depth: float
    solid_under: float
    beyond_rim: float
    least_flat: float
    tool_room: float  # beside whatever holds the work
    least_overlap: float  # degrees round the tube that two mountings both turn
    spigot_height: float  # of the first board
    spigot_clearance: float
    saw_short: float  # of the waste flat, where turning the first board away stops
    neck_clearance: float
    board_clearance: float
    washer: float


@dataclass(frozen=True)
class Bolts:
    """Bolts of the holding fixtures; None means that the plan decides by the work's size."""

    centre: str | None  # a thread such as "M10"
    braces: int | None  # how many braces


@dataclass(frozen=True)
class Boards:
    """Sheet goods, as measured."""

    thickness: float  # one layer of a support board or retainer
    sheet: float  # the sled's sheet
    play: float  # of a slot over the sheet that enters it


@dataclass(frozen=True)
class Made:
    """How each family of jigs is made, where it is not made otherwise anyhow."""

    gauges: Process
    sizes: Process
    angles: Process
    coupon: Process
    sled: Process
    segments: Process
    truing: Process
    clamping: Process
    glue_up: Process
    centring: Process
    standing: Process
    mountings: Process
    pads: Process
    holding: Process
    layup: Process

    def by_family(self) -> dict[str, Process]:
        return asdict(self)


@dataclass(frozen=True)
class Printer:
    """The 3D printer; `bed` is x by y."""

    bed: tuple[float, float]
    nozzle: float
    layer: float
    play: float  # of a printed slot or socket over what enters it


@dataclass(frozen=True)
class Cutter:
    """The laser or router; `bed` is x by y. A `kerf` of 0 leaves the offset to its own software."""

    bed: tuple[float, float]
    kerf: float
    spacing: float  # between parts on a sheet, and to its edges


@dataclass(frozen=True)
class Workshop:
    """Machines and materials that jobs share."""

    cutting: Cutting
    saw: Saw
    bandsaw: Bandsaw
    sled: SledWish
    truing: TruingWish
    clamping: ClampingWish
    lathe: Lathe
    holding: HoldingWish
    bolts: Bolts
    boards: Boards
    stock: Stock
    spares: Spares
    glue: Glue
    paper: Paper
    made: Made
    printer: Printer
    cutter: Cutter
    prices: Prices


@dataclass(frozen=True, kw_only=True)
class Job:
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
    readings: Readings = field(default_factory=Readings)  # what was measured, beside the job
    unlettered: str = (
        ""  # what the title had of characters that the jigs' lettering has not; they are left out
    )

    @property
    def sources(self) -> tuple[Path, ...]:
        """The files it was read from."""
        read = Path(self.readings.file) if self.readings.file else None
        return tuple(file for file in (self.source, self.workshop_source, read) if file is not None)

    @property
    def tilt_stated(self) -> bool:
        """Whether the side to which the saw's blade tilts is the turner's own word."""
        return "saw.tilts" in self.places

    @property
    def tilts_text(self) -> str:
        """That side, with what has to be looked at where it is not stated."""
        side = self.workshop.saw.tilts
        return side if self.tilt_stated else f"{side}, assumed: look, and state tilts in [saw]"

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


@dataclass(frozen=True, kw_only=True)
class TorusJob(Job):
    """A closed ring of wedge rings."""

    form: Form
