"""Which saw cuts what, and the sleds and carriers for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import cos, radians, tan

from geometry.blanks.sawing import WedgeRingCut
from geometry.bodies.torus import Blank, SegmentCut, segment_cut
from geometry.hardware.hold_down import ABOVE
from jigs.asked.job import Job, TorusJob
from jigs.asked.job_shop import SawChoice
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
from jigs.stages.held.solve import held_cuts, segment_seconds
from jigs.stages.held.statics.sleds import HeldPiece, carrier_pieces, flat_pieces
from jigs.stages.held.statics.staves import sliced_ring
from jigs.stages.layup.layout import rail as block_rail
from jigs.stages.segments.layout import CarrierLayout
from jigs.stages.segments.plan import CuttingPlan, SawName
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout, EdgeGuide
from jigs.stages.wedge_rings.layout.sled import BLADE_PAST_RING, SCREW_ABOVE, SledLayout


def saw_height(job: TorusJob, saw: SawName) -> float:
    """The most that a saw cuts above its table; nothing where there is no such saw."""
    return job.workshop.saw.blade_height if saw == "table saw" else job.workshop.bandsaw.height or 0.0


def kerf_of(job: TorusJob, saw: SawName) -> float:
    """Width of a saw's cut."""
    return job.workshop.saw.kerf if saw == "table saw" else job.workshop.bandsaw.kerf


def rings_height(job: TorusJob, apothem: float, saw: SawName) -> float:
    """What a saw has to give for a wedge ring on its sled; a bandsaw's guides also clear fence and jaw."""
    above = SCREW_ABOVE if saw == "bandsaw" else 0.0
    return 2 * apothem + above + job.workshop.boards.sheet + BLADE_PAST_RING


def segments_height(job: TorusJob, blank: Blank) -> float:
    """What a saw has to give along the tilted blade, for a strip on its carrier."""
    depth = blank.apothem - blank.core_apothem
    return (depth + job.workshop.boards.sheet) / cos(blank.mitre) + BLADE_PAST_RING


def carrier_height(job: TorusJob, blank: Blank) -> float:
    """What a bandsaw has to give for the carrier: its guides also clear the fence."""
    return segments_height(job, blank) + ABOVE / cos(blank.mitre)


def saw_for(job: TorusJob, asked: SawChoice, needed: dict[SawName, float]) -> SawName:
    """The saw asked for; left to us, the table saw unless only the bandsaw is tall enough."""
    if asked != "auto":
        return asked
    table = needed["table saw"] <= saw_height(job, "table saw")
    band = needed["bandsaw"] <= saw_height(job, "bandsaw")
    return "bandsaw" if band and not table else "table saw"


def rings_needed(job: TorusJob, blank: Blank) -> dict[SawName, float]:
    """Height that each saw has to give for the wedge rings."""
    saws: tuple[SawName, SawName] = ("table saw", "bandsaw")
    return {saw: rings_height(job, blank.apothem, saw) for saw in saws}


def segments_needed(job: TorusJob, blank: Blank) -> dict[SawName, float]:
    """Height that each saw has to give for the segments."""
    return {"table saw": segments_height(job, blank), "bandsaw": carrier_height(job, blank)}


def saw_for_rings(job: TorusJob, blank: Blank) -> SawName:
    """The saw that cuts the wedge rings."""
    return saw_for(job, job.workshop.cutting.wedge_rings, rings_needed(job, blank))


def saw_for_segments(job: TorusJob, blank: Blank) -> SawName:
    """The saw that cuts the segments."""
    return saw_for(job, job.workshop.cutting.segments, segments_needed(job, blank))


def edge_guide(job: TorusJob) -> EdgeGuide:
    """The rail on the bandsaw's table."""
    saw = job.workshop.bandsaw
    return EdgeGuide(radians(saw.drift), saw.table_left, saw.table_front)


def wedge_ring_sled(
    job: TorusJob, blank: Blank, cut: WedgeRingCut, saw: SawName
) -> SledLayout | BandsawLayout:
    """The wedge-ring sled for the chosen saw."""
    shop, wish = job.workshop, job.workshop.sled
    if saw == "bandsaw":
        return BandsawLayout(
            cut=cut,
            apothem=blank.apothem,
            core_apothem=blank.core_apothem,
            mitre=blank.mitre,
            sheet=shop.boards.sheet,
            play=shop.boards.play,
            kerf=shop.bandsaw.kerf,
            trim=wish.trim,
            clear_of_blade=wish.clear_of_blade,
            hands_clear=wish.hands_clear,
            guide=edge_guide(job),
        )
    return SledLayout(
        cut=cut,
        apothem=blank.apothem,
        core_apothem=blank.core_apothem,
        mitre=blank.mitre,
        sheet=shop.boards.sheet,
        play=shop.boards.play,
        kerf=shop.saw.kerf,
        trim=wish.trim,
        clear_of_blade=wish.clear_of_blade,
        hands_clear=wish.hands_clear,
        blade_diameter=shop.saw.blade_diameter,
        slot_distance=shop.saw.slot_distance,
        slot_width=shop.saw.slot_width,
        slot_depth=shop.saw.slot_depth,
        table_front=shop.saw.table_front,
    )


def segment_of(job: TorusJob, blank: Blank, ring_thickness: float) -> SegmentCut:
    """The segment as its own saw cuts it, longer along the tube by what the ring's faces lose as they are flattened."""
    kerf = kerf_of(job, saw_for_segments(job, blank))
    return segment_cut(blank, ring_thickness + job.form.flattening, kerf, job.form.joint_sanding)


def cutting_plan(job: TorusJob, blank: Blank, segment: SegmentCut) -> CuttingPlan:
    """Saws and carriers of the segments."""
    carrier, flat = _carrier(job, segment, saw_for_segments(job, blank)), _flat_sled(job, segment)
    return CuttingPlan(
        rings_on=saw_for_rings(job, blank),
        segments_on=saw_for_segments(job, blank),
        guide=edge_guide(job),
        carrier=carrier,
        plan_angle=flat,
        held=held_cuts(
            _pieces(carrier, flat, railed(segment) if job.layup else segment)
            if job.form.route == "segments"
            else [sliced_ring(blank.segments, blank.apothem, segment.length)]
        ),
        seconds=segment_seconds(carrier.width),
    )


def _pieces(carrier: CarrierLayout, flat: PlanAngleLayout | None, cut: SegmentCut) -> Iterator[HeldPiece]:
    yield from carrier_pieces(carrier)
    if flat is not None:
        yield from flat_pieces(flat, cut.outer_edge, cut.inner_edge, cut.depth, cut.length)


def _flat_sled(job: TorusJob, segment: SegmentCut) -> PlanAngleLayout | None:
    """Only where it is asked for, and there are segments to cut on it."""
    if not job.workshop.cutting.plan_angle_sled:
        return None
    return plan_angle(job, [railed(segment) if job.layup else segment])


def _carrier(job: TorusJob, segment: SegmentCut, saw: SawName) -> CarrierLayout:
    shop = job.workshop
    return CarrierLayout(
        cut=segment,
        sheet=shop.boards.sheet,
        play=shop.boards.play,
        clear_of_blade=shop.sled.clear_of_blade,
        hands_clear=shop.sled.hands_clear,
        blade_diameter=shop.saw.blade_diameter,
        slot_distance=shop.saw.slot_distance,
        slot_width=shop.saw.slot_width,
        guide=edge_guide(job) if saw == "bandsaw" else None,
        rail=block_rail.WIDTH if job.layup else 0.0,
        slot_on_kept_side=saw == "table saw" and shop.saw.tilts == "right",
    )


def railed(cut: SegmentCut) -> SegmentCut:
    """Of a block with its rail, which lies on the inner side where the strip is slid across and is cut with it."""
    depth = cut.depth + block_rail.WIDTH
    return replace(cut, depth=depth, inner_edge=max(0.0, cut.outer_edge - 2 * depth * tan(cut.tilt)))


def plan_angle(job: Job, cuts: Sequence[SegmentCut], least_edge: float | None = None) -> PlanAngleLayout:
    """The sled for flat rings of one count of segments, for the largest of their cuts; a rail is in their depth."""
    shop = job.workshop
    return PlanAngleLayout(
        mitre=cuts[0].tilt,
        outer_edge=max(cut.outer_edge for cut in cuts),
        depth=max(cut.depth for cut in cuts),
        height=max(cut.length for cut in cuts),
        sheet=shop.boards.sheet,
        play=shop.boards.play,
        clear_of_blade=shop.sled.clear_of_blade,
        hands_clear=shop.sled.hands_clear,
        blade_diameter=shop.saw.blade_diameter,
        kerf=shop.saw.kerf,
        slot_distance=shop.saw.slot_distance,
        slot_width=shop.saw.slot_width,
        least_edge=least_edge,
        least_depth=min(cut.depth for cut in cuts),
        least_height=min(cut.length for cut in cuts),
    )
