"""Every number that anything may print, cut, draw or write: solved once, frozen."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.bandsaw_sled import BandsawLayout
from geometry.clamping import ClampBlocks
from geometry.sawing import WedgeRingCut
from geometry.sled import SledLayout
from geometry.torus import Blank, SegmentCut
from geometry.truing_carrier import TruingLayout
from geometry.turning import Channel, Retainer
from jigs.findings import Finding
from jigs.job import Job
from jigs.plan_cutting import CuttingPlan
from jigs.plan_mountings import MountingsPlan
from jigs.plan_sizes import SizesPlan


@dataclass(frozen=True)
class Stage:
    """One size of gauge: `offset` is what is left to take off the sanded tube's radius."""

    name: str  # for file names, such as "near"
    label: str  # for people, such as "+1 mm"
    offset: float
    edge_radius: float  # of the gauge: tube + offset + fit


@dataclass(frozen=True)
class GaugePlan:
    """Profile gauges. Sizes in mm."""

    stages: tuple[Stage, ...]
    plate: float
    fit: float
    web: float  # width of the outer gauge beside the tube
    hole_web: float  # width of the hole gauge beside the tube, narrow enough to pass
    rim_height: float  # above the tube's centre, at which the hole gauge may widen
    hole_land: float | None  # edge width of the hole gauge where its plate would ride high
    channel_land: float | None  # of the channel gauge's
    channel_radius: float  # edge of the channel gauge
    retainer_radius: float  # edge of the retainer gauge


@dataclass(frozen=True)
class CheckPlan:
    """The inside corner that as many wedge rings as come nearest to 90 degrees must fill."""

    rings: int
    angle: float
    leg: float


@dataclass(frozen=True)
class HoldingPlan:
    """The turned fixtures: boards to glue, bolts and holes."""

    channel: Channel
    retainer: Retainer
    bolt: str
    bolt_hole: float
    bolt_length: float  # least, under the head
    washer: float
    board_diameter: float
    board_thickness: float
    board_layers: int
    layer_thickness: float
    retainer_layers: int
    retainer_blank: float  # diameter of its layers
    braces: int
    brace_bolt: str
    brace_hole: float
    brace_circle: float  # diameter of the bolt circle
    normal_force: float  # for each unit of pull, at the band's foot
    spread: float
    sticks: bool
    first_flat: float  # width of the flat the first board is glued to


@dataclass(frozen=True)
class Plan:
    """A job that can be made. `notes` are findings that do not stop it."""

    job: Job
    blank: Blank
    margins: tuple[float, ...]  # wood beyond the allowance at each flat, the first flat straight down
    wall: float
    segment: SegmentCut
    clean_up: float
    ring_cut: WedgeRingCut
    sled: SledLayout | BandsawLayout
    cutting: CuttingPlan
    truing: TruingLayout
    clamping: ClampBlocks
    check: CheckPlan
    gauges: GaugePlan
    sizes: SizesPlan
    holding: HoldingPlan
    mountings: MountingsPlan
    torus_volume: float
    torus_surface: float
    rim_speed: tuple[int, int]  # rpm
    notes: tuple[Finding, ...]

    @property
    def segments_total(self) -> int:
        return self.blank.wedge_rings * self.blank.segments

    @property
    def rough_tube(self) -> float:
        """Tube radius with its turning allowance."""
        return self.job.form.tube_radius + self.job.form.turning_allowance
