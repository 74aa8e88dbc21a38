"""Which saw cuts what, and the sleds and carriers for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import tan
from typing import TYPE_CHECKING

from geometry.bodies.torus import Blank, SegmentCut, segment_cut
from geometry.records import replace
from jigs.asked.job import Job, TorusJob
from jigs.asked.table_sled import shop_sizes
from jigs.stages.held.solve import held_cuts, segment_seconds
from jigs.stages.held.statics.sleds import HeldPiece, carrier_pieces, flat_pieces
from jigs.stages.segments.layout import CarrierLayout
from jigs.stages.segments.plan import CuttingPlan
from jigs.stages.segments.saws import edge_guide, kerf_of, saw_for_rings, saw_for_segments

if TYPE_CHECKING:  # a job without that sled need not load it
    from jigs.stages.flat_segments.layout.sled import PlanAngleLayout


def segment_of(job: TorusJob, blank: Blank, ring_thickness: float) -> SegmentCut:
    """The segment as its own saw cuts it, longer along the tube by what the ring's faces lose as they are flattened."""
    kerf = kerf_of(job, saw_for_segments(job, blank))
    return segment_cut(blank, ring_thickness + job.form.flattening, kerf, job.form.joint_sanding)


def cutting_plan(job: TorusJob, blank: Blank, segment: SegmentCut) -> CuttingPlan:
    """Saws and carriers of the segments."""
    carrier, flat = carrier_of(job, blank, segment), _flat_sled(job, segment)
    return CuttingPlan(
        rings_on=saw_for_rings(job, blank),
        segments_on=saw_for_segments(job, blank),
        guide=edge_guide(job),
        carrier=carrier,
        plan_angle=flat,
        held=held_cuts(carrier_pieces(carrier)),
        flat_held=held_cuts(_flat_pieces(job, segment, flat) if flat else ()),
        seconds=segment_seconds(carrier.width),
    )


def _flat_pieces(job: TorusJob, segment: SegmentCut, flat: PlanAngleLayout) -> Iterator[HeldPiece]:
    cut = railed(segment) if job.layup else segment
    return flat_pieces(flat, cut.outer_edge, cut.inner_edge, cut.depth, cut.length)


def _flat_sled(job: TorusJob, segment: SegmentCut) -> PlanAngleLayout | None:
    """Only where it is asked for, and there are segments to cut on it."""
    if not job.workshop.cutting.plan_angle_sled:
        return None
    return plan_angle(job, [railed(segment) if job.layup else segment])


def carrier_of(job: TorusJob, blank: Blank, segment: SegmentCut) -> CarrierLayout:
    """The carrier on the saw that cuts the segments."""
    shop, saw = job.workshop, saw_for_segments(job, blank)
    return CarrierLayout(
        cut=segment,
        **shop_sizes(job),
        guide=edge_guide(job) if saw == "bandsaw" else None,
        rail=_rail_width() if job.layup else 0.0,
        slot_on_kept_side=saw == "table saw" and shop.saw.tilts == "right",
    )


def _rail_width() -> float:
    from jigs.stages.layup.layout.rail import WIDTH  # only pieces of a layup are held by rails

    return WIDTH


def railed(cut: SegmentCut) -> SegmentCut:
    """Of a block with its rail, which lies on the inner side where the strip is slid across and is cut with it."""
    depth = cut.depth + _rail_width()
    return replace(cut, depth=depth, inner_edge=max(0.0, cut.outer_edge - 2 * depth * tan(cut.tilt)))


def plan_angle(job: Job, cuts: Sequence[SegmentCut], least_edge: float | None = None) -> PlanAngleLayout:
    """The sled for flat rings of one count of segments, for the largest of their cuts; a rail is in their depth."""
    from jigs.stages.flat_segments.layout.sled import PlanAngleLayout

    shop = job.workshop
    return PlanAngleLayout(
        mitre=cuts[0].tilt,
        outer_edge=max(cut.outer_edge for cut in cuts),
        depth=max(cut.depth for cut in cuts),
        height=max(cut.length for cut in cuts),
        kerf=shop.saw.kerf,
        **shop_sizes(job),
        least_edge=least_edge,
        least_depth=min(cut.depth for cut in cuts),
        heights=tuple(cut.length for cut in cuts),
    )
