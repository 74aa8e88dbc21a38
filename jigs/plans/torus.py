"""Every number that anything may print, cut, draw or write: solved once, frozen."""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING, Literal

from geometry.blanks.sawing import WedgeRingCut
from geometry.bodies.torus import Blank, SegmentCut
from geometry.lathe.turning import SWING_CLEARANCE, Runout, rough_speed_limits
from geometry.records import Record
from geometry.statics.holding import Holding
from jigs.asked.job import TorusJob
from jigs.stages.blank.plan import ErrorsPlan
from jigs.stages.boards.plan import WoodPlan
from jigs.stages.gauging.plan.torus import CheckPlan, GaugePlan
from jigs.stages.glue_up.layout import ClampBlocks, TruingLayout
from jigs.stages.held.statics.stiffness import Strained
from jigs.stages.mountings.plan import HoldingPlan, MountingsPlan
from jigs.stages.segments.plan import CuttingPlan, SawName
from jigs.stages.sizes.plan.torus import SizesPlan
from jigs.stages.slips.layout import SlipBox
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout
from jigs.stages.wedge_rings.layout.sled import SledLayout
from jigs.words.findings import Finding

if TYPE_CHECKING:  # a job without a layup loads none of them
    from jigs.stages.layup.plan import LayupJigs, LayupPlan


class TorusPlan(Record):
    """A job that can be made. `notes` are findings that do not stop it."""

    job: TorusJob  # with the sizes that the first side has, once it is measured
    asked: TorusJob  # as its file states it
    blank: Blank
    margins: tuple[float, ...]  # wood beyond the allowance at each flat, the first flat straight down
    wall: float
    segment: SegmentCut
    clean_up: float
    ring_cut: WedgeRingCut
    sled: SledLayout | BandsawLayout
    rings_held: tuple[Holding, ...]  # in either cut on the sled, in the second on the end wedge; no friction
    sled_strained: Strained
    cutting: CuttingPlan
    truing: TruingLayout
    left: tuple[int, ...]  # numbers of the rings to make, from 1: those after them are glued already
    half_ends: dict[int, int]  # of these, ring number to the face that is the end of a half
    spare_rings: tuple[tuple[int, ...], ...]  # for each whole ring to spare those that it can stand in for
    clamping: ClampBlocks
    check: CheckPlan
    errors: ErrorsPlan
    gauges: GaugePlan
    sizes: SizesPlan
    holding: HoldingPlan
    mountings: MountingsPlan
    layups: tuple[LayupPlan, ...]
    layup_jigs: tuple[LayupJigs, ...]  # one for each layup
    wood: WoodPlan
    slip_box: SlipBox | None  # where there are strips between segments
    species: tuple[tuple[str, ...], ...]  # of each segment of each wedge ring, (N, n)
    torus_volume: float
    torus_surface: float
    off_axis: float  # of the blank, by its woods: grams times mm
    rim_speed: tuple[int, int]  # rpm, of the wider of blank and board's disc: the braces stay inside it
    notes: tuple[Finding, ...]
    kind: Literal["torus"] = field(default="torus", init=False)

    @property
    def segments_total(self) -> int:
        return self.blank.wedge_rings * self.blank.segments

    @property
    def slowed(self) -> bool:
        """Whether a heavy side keeps it slower than its width does."""
        return self.rim_speed != rough_speed_limits(max(2 * self.blank.swing_radius, self.holding.board_disc))

    @property
    def half_glued(self) -> bool:
        """Whether one half is there already, and only the other is to be glued."""
        return 2 * len(self.left) == self.blank.wedge_rings

    @property
    def least_swing(self) -> float:
        """Of the lathe: the wider of blank and board, with the clearance that the checks ask for."""
        return max(2 * self.blank.swing_radius, self.holding.board_diameter) + SWING_CLEARANCE

    @property
    def bolted(self) -> bool:
        """Whether a bolt draws the work to what holds it: the retainer's."""
        return True

    @property
    def bandsaw_used(self) -> bool:
        return self.cutting.bandsaw_used

    @property
    def segments_on(self) -> SawName:
        """The saw that cuts the segments."""
        return self.cutting.segments_on

    @property
    def reversed_speed(self) -> tuple[int, int]:
        """rpm, of the widest that spins once the work is turned round."""
        return self.rim_speed

    @property
    def across(self) -> float:
        """The finished form's largest diameter."""
        return self.job.form.outer_diameter

    @property
    def thinnest_ring(self) -> float:
        """The least height of a ring that shows."""
        return self.blank.thick_edge

    @property
    def woods(self) -> frozenset[str]:
        """Names of all woods, but those of layups."""
        form = self.job.form
        strips = {name for ring in self.species for name in form.strip_woods(ring)}
        strips |= {form.ring_strip_wood(ring) for ring in self.species} if form.ring_spacer else set()
        return frozenset({*strips, *(name for ring in self.species for name in ring)})

    @property
    def runout(self) -> Runout:
        """That remounted work may have."""
        return self.mountings.runout

    @property
    def by_hand(self) -> bool:
        """Whether the job leaves any of it to the hand."""
        return False

    @property
    def corrections(self) -> dict[str, float]:
        """What readings have changed of what its jigs are drawn to, by id: mm or radians."""
        return {"wedge-turn": self.ring_cut.wedge_turn} if self.ring_cut.wedge_turn != 0 else {}
