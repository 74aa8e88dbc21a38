"""Cutting flat rings and staves: one sled for each count of segments, its stop set for each ring."""

from __future__ import annotations

from geometry.records import Record
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
from jigs.stages.held.plan import HeldCut
from jigs.stages.staves.layout import StaveSledLayout


class Strip(Record):
    """A strip for the segments of rings of one size."""

    rings: tuple[int, ...]
    width: float
    thickness: float
    outer_edge: float  # of the segments, as cut
    inner_edge: float
    pieces: int  # segments of all these rings
    length: float  # least, for all of them and what the hold-down needs in the last cut


class StopSetting(Record):
    """Where the stop stands: strips whose segments share an outer edge share it, and its stick."""

    outer_edge: float  # as cut
    stop: float  # from the blade's kept side, square to it
    strips: tuple[Strip, ...]
    blocks: tuple[int, ...]  # rings whose segments come as blocks of a layup, on rails

    @property
    def rings(self) -> tuple[int, ...]:
        return tuple(sorted((*self.blocks, *(number for strip in self.strips for number in strip.rings))))


class FlatSled(Record):
    """The sled for one count of segments."""

    number: int  # among those for all rings, glued ones too
    segments: int
    layout: PlanAngleLayout  # for the widest, thickest strip and the farthest stop
    settings: tuple[StopSetting, ...]  # the farthest first
    smallest: int  # ring, whose like is tried in scrap
    held: tuple[HeldCut, ...]  # pieces of its extreme sizes in each cut
    seconds: float  # for each segment, by `segment_seconds`

    @property
    def called(self) -> str:
        return f"plan-angle sled for rings of {self.segments}"


class StaveCut(Record):
    """How both edges of the staves are cut."""

    count: int
    blade_tilt: float  # from upright
    gauge_angle: float  # taper of each edge from the middle line; negative where the staves narrow upward
    thickness: float
    saw_height: float  # along the tilted blade, from the table
    board: tuple[float, float]  # for each: width, over size for two bevels, and length, its ends square
    layout: StaveSledLayout
    held: tuple[HeldCut, ...]  # in both cuts
    seconds: float  # for both edges of one, an estimate


class SawPlan(Record):
    """Every sled, by count of segments, and the cut of the staves; None where there are none."""

    sleds: tuple[FlatSled, ...]
    staves: StaveCut | None

    @property
    def strips_held(self) -> dict[int, float]:
        """How much of a strip the sled for each number of segments holds, mm."""
        return {sled.segments: sled.layout.held for sled in self.sleds}
