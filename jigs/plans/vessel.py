"""Every number of a vessel job that anything may print, cut, draw or write: solved once, frozen."""

from __future__ import annotations

from dataclasses import field
from math import inf
from typing import TYPE_CHECKING, Literal

from geometry.bodies.section import Section
from geometry.lathe.turning import SWING_CLEARANCE, Runout, rough_speed_limits
from geometry.records import Record
from jigs.asked.vessel_job import VesselJob
from jigs.stages.boards.plan import WoodPlan
from jigs.stages.flat_rings.plan import RingBoards
from jigs.stages.flat_segments.plan import SawPlan
from jigs.stages.gauging.plan.vessel import VesselGauges
from jigs.stages.halves.plan import HalvesPlan
from jigs.stages.holding_by_mouth.plan import ReversingPlan
from jigs.stages.knob.plan import KnobPlan
from jigs.stages.lid.plan import LidPlan
from jigs.stages.segments.plan import SawName
from jigs.stages.sizes.plan.vessel import VesselSizes
from jigs.stages.slips.layout import SlipBox
from jigs.stages.stack.plan import StackPlan
from jigs.stages.waste_block.plan import WasteBlock
from jigs.words.findings import Finding

if TYPE_CHECKING:  # a job without a layup loads none of them
    from jigs.stages.layup.plan import LayupJigs, LayupPlan


class VesselPlan(Record, eq=False):
    """A vessel that can be made. `notes` are findings that do not stop it."""

    job: VesselJob  # its outside as far in as it was turned
    asked: VesselJob
    section: Section
    within: float  # of the curve that was given, that its arcs keep to
    wall: tuple[float, float]  # the thinnest, and its height
    stack: StackPlan  # round the rings that are glued already
    planned: StackPlan  # before any was
    saws: SawPlan
    gauges: VesselGauges
    sizes: VesselSizes
    asked_sizes: VesselSizes  # before the outside was turned
    lid: LidPlan | None  # where the job is a lid
    knob: KnobPlan | None  # of a lid
    halves: HalvesPlan | None  # where it is built in parts
    ring_boards: RingBoards
    waste: WasteBlock
    reversing: ReversingPlan
    layups: tuple[LayupPlan, ...]
    layup_jigs: tuple[LayupJigs, ...]  # one for each layup
    wood: WoodPlan
    slip_box: SlipBox | None  # where there are strips between segments too thin for a machine
    off_axis: float  # of the blank, by its woods: grams times mm
    rim_speed: tuple[int, int]  # rpm, of the blank
    notes: tuple[Finding, ...]
    kind: Literal["vessel"] = field(default="vessel", init=False)

    @property
    def slowed(self) -> bool:
        """Whether a heavy side keeps the blank slower than its width does."""
        return self.rim_speed != rough_speed_limits(2 * self.stack.largest_radius)

    @property
    def least_swing(self) -> float:
        """Of the lathe: the widest of what spins, with the clearance that the checks ask for."""
        plug = self.reversing.plug
        return max(2 * self.stack.largest_radius, plug.back_blank if plug else 0.0) + SWING_CLEARANCE

    @property
    def least_length(self) -> float:
        """From faceplate to tailstock: the stack on its waste block, a board over its rim, or the work on its plug."""
        upper = self.halves.tiers[-1].waste.thickness if self.halves else 0.0
        stands, plug = self.stack.top - self.stack.bottom + upper, self.reversing.plug
        return max(
            self.waste.thickness + stands + self.job.workshop.boards.thickness, plug.back if plug else 0.0
        )

    @property
    def reversed_speed(self) -> tuple[int, int]:
        """rpm, of the wider of vessel and flange."""
        plug = self.reversing.plug
        return min(self.rim_speed, plug.speed) if plug else self.rim_speed

    @property
    def parting_neck(self) -> tuple[float, float]:
        """Radii of what the parting tool leaves under the foot for the saw.

        A third of the foot's; half of the wood round a hollow."""
        floats, section = self.stack.floating, self.section
        hollow = floats.base.opening if floats else section.inner.start[0] if section.through else 0.0
        return hollow, (hollow + section.foot_radius) / 2 if hollow else section.foot_radius / 3

    @property
    def stem_top(self) -> float:
        """Height down to which the outside is turned before the hollow, a stem after it."""
        return self.section.inner.bottom if self.stack.stemmed else -inf

    @property
    def bolted(self) -> bool:
        """Whether a bolt draws the work to what holds it: the plug's."""
        return self.reversing.plug is not None and self.reversing.plug.bolt is not None

    @property
    def bandsaw_used(self) -> bool:
        return False

    @property
    def segments_on(self) -> SawName:
        """The saw that cuts the segments."""
        return "table saw"

    @property
    def across(self) -> float:
        """The finished form's largest diameter."""
        return 2 * self.section.outer.radii(0.0, self.section.height)[1]

    @property
    def thinnest_ring(self) -> float:
        """The least height of a ring that shows."""
        return min(layer.ring.height for layer in self.stack.layers)

    @property
    def woods(self) -> frozenset[str]:
        """Names of all woods, but those of layups."""
        names = {name for layer in self.stack.layers for name in layer.species}
        spacer = self.job.rings.spacer_species
        return frozenset({*names, spacer} if spacer else names)

    @property
    def runout(self) -> Runout:
        """That remounted work may have."""
        return self.waste.runout

    @property
    def by_hand(self) -> bool:
        """Whether the job leaves any of it to the hand: its foot."""
        return self.reversing.by_hand

    @property
    def corrections(self) -> dict[str, float]:
        """What readings have changed of what its jigs are drawn to: nothing yet."""
        return {}
