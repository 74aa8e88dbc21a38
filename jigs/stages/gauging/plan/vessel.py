"""The gauges of a vessel: profile gauges outside and inside, and the wall."""

from __future__ import annotations

from geometry.measuring.turned import Station
from geometry.plane.profile import Profile
from geometry.records import Record


class VesselStage(Record, eq=False):
    """One size of gauge: `offset` is what is left to take off, square to the finished surface."""

    name: str  # for file names: "finished", "stage-1"
    label: str  # for people, such as "+1 MM"
    offset: float
    outside: Profile  # working edge of the outer gauges, from the foot up to the rim
    inside: Profile | None  # of the inner gauge, from its lowest place up to the rim; None without one
    work_outside: Profile  # the work itself at this stage
    work_inside: Profile | None  # None where the wood still fills the hollow


class GaugePiece(Record):
    """One piece of the outer gauge, all stages alike: it covers these heights, the first from the faceplate."""

    number: int  # from the faceplate up
    low: float
    high: float
    bolts: tuple[float, float]  # heights of its holes for the rail


class OutsideBody(Record):
    """What the plates of the outer gauge are beside their working edges. Radii from the axis."""

    stand: float  # inner edge of the foot, beside the waste block
    rail: float  # inner edge of the rail, beyond every working edge
    bolts: float  # line of the bolts
    back: float  # of pieces and rail
    bolt: str  # thread
    bolt_hole: float


class InsideReach(Record):
    """How far the inner gauge gets, all stages alike."""

    low: float  # lowest height that it covers
    back: float  # x of its back when it touches
    width: float  # least between back and edge above a wider place
    hook: float  # x to which it reaches out over the rim
    land: float | None  # width of the edge where the plate would ride high


class WallSlots(Record):
    """Slots that go over the rim: as deep, and one width for each stage."""

    wall: float  # finished
    depth: float
    widths: tuple[float, ...]


class FloatingGauges(Record):
    """For a floating base: a stepped plate across groove and opening, and a slot over the disc's tongue."""

    groove: float  # width of the upper step: what a plate this thick measures of the groove's diameter
    depth: float  # of that step, of the groove
    opening: float  # width of the lower step
    nose: float  # its depth
    arm: float  # of the plate on the ring, to either side
    slot: float
    slot_depth: float


class VesselGauges(Record, eq=False):
    """Every gauge's sizes, mm."""

    stages: tuple[VesselStage, ...]
    fit: float
    plate: float
    faceplate: float  # height of the faceplate's face, below the foot
    body: OutsideBody
    pieces: tuple[GaugePiece, ...]
    stations: tuple[Station, ...]  # the most important first
    reach: InsideReach | None
    unguided: tuple[float, float] | None  # heights inside that no gauge reaches
    wall: WallSlots | None  # None where the wall at the rim is too curved for a slot
    floating: FloatingGauges | None

    @property
    def railed(self) -> bool:
        """Whether there are several pieces, on a rail."""
        return len(self.pieces) > 1

    def plate_of(self, family: str) -> float:
        """Thickness of the plates of a family of gauges."""
        return self.plate
