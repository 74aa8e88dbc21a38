"""Which rings share a sled and a setting of its stop, and the staves' own sled."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from geometry.blanks.staves import StaveBand
from geometry.bodies.torus import SegmentCut
from geometry.grouping import gathered
from jigs.asked.table_sled import shop_sizes
from jigs.asked.vessel_job import VesselJob
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
from jigs.stages.flat_segments.plan import FlatSled, SawPlan, StaveCut, StopSetting, Strip
from jigs.stages.held.solve import held_cuts, segment_seconds
from jigs.stages.held.statics.sleds import HeldPiece, flat_pieces
from jigs.stages.held.statics.staves import sled_pieces
from jigs.stages.segments.solve import plan_angle, railed
from jigs.stages.stack.plan import Layer
from jigs.stages.staves.layout import StaveSledLayout

OVER = 1.5  # mm of a stave's board beyond its widest place, on each side: both bevels cut. Common practice, no source
SAME = 0.02  # mm: edges, widths and thicknesses that differ by less are one

Cut = tuple[int, SegmentCut]  # number of the ring, and the segment it is made of


def saw_plan(job: VesselJob, layers: Sequence[Layer], staves: StaveBand | None, glued: int = 0) -> SawPlan:
    """Every sled, and the staves' angles; blocks of layups come on rails, which widen their strips.

    Rings up to `glued` are sawn already: a sled is as all its rings need it, but is left out where no other is sawn.
    """
    cuts = _by_segments(layers)
    return SawPlan(
        sleds=tuple(
            _sled(job, number, segments, cuts[segments], glued)
            for number, segments in enumerate(sorted(cuts), 1)
            if max(ring for ring, _ in cuts[segments]) > glued
        ),
        staves=_stave_cut(job, staves) if staves is not None else None,
    )


def sled_layouts(job: VesselJob, layers: Sequence[Layer]) -> dict[int, PlanAngleLayout]:
    """The sled for each count of segments: the saw plan's, without its statics."""
    return {count: _layout(job, _sizes(job, cuts)) for count, cuts in _by_segments(layers).items()}


def _by_segments(layers: Sequence[Layer]) -> dict[int, list[Cut]]:
    cut = ((layer.ring.segments, layer.number, layer.cut) for layer in layers)
    return gathered((count, (number, of)) for count, number, of in cut if of is not None)


def _sizes(job: VesselJob, cuts: Sequence[Cut]) -> list[SegmentCut]:
    return [railed(cut) if _on_rail(job, number) else cut for number, cut in cuts]


def _layout(job: VesselJob, sizes: Sequence[SegmentCut]) -> PlanAngleLayout:
    return plan_angle(job, sizes, least_edge=min(cut.outer_edge for cut in sizes))


def _sled(job: VesselJob, number: int, segments: int, cuts: Sequence[Cut], glued: int) -> FlatSled:
    """Its stop is set for the rings over the glued ones, and for the smallest of all, which is tried in scrap."""
    sizes = _sizes(job, cuts)
    layout = _layout(job, sizes)
    wide = max(cut.depth for cut in sizes)
    smallest = min(cuts, key=lambda cut: cut[1].outer_edge)[0]
    own = [cut for cut in cuts if cut[0] > glued or cut[0] == smallest]
    return FlatSled(
        number=number,
        segments=segments,
        layout=layout,
        settings=_settings(job, layout, segments, own, glued),
        smallest=smallest,
        held=held_cuts(_extremes(layout, sizes)),
        seconds=segment_seconds(wide),
    )


def _extremes(layout: PlanAngleLayout, cuts: Sequence[SegmentCut]) -> Iterator[HeldPiece]:
    """Of the shortest, the narrowest and the widest segments, and of those most like a wedge."""
    by = (
        min(cuts, key=lambda cut: cut.outer_edge),
        min(cuts, key=lambda cut: cut.depth),
        max(cuts, key=lambda cut: cut.depth),
        min(cuts, key=lambda cut: cut.inner_edge),
    )
    for cut in dict.fromkeys(by):
        yield from flat_pieces(layout, cut.outer_edge, cut.inner_edge, cut.depth, cut.length)


def _on_rail(job: VesselJob, ring: int) -> bool:
    return job.layup is not None and job.layup.covers(ring)


def _settings(
    job: VesselJob, layout: PlanAngleLayout, segments: int, cuts: Sequence[Cut], glued: int
) -> tuple[StopSetting, ...]:
    """Rings by outer edge, the longest first; rings that share a setting get the longest of theirs."""
    groups: list[list[Cut]] = []
    for cut in sorted(cuts, key=lambda cut: (-cut[1].outer_edge, cut[0])):
        if groups and groups[-1][0][1].outer_edge - cut[1].outer_edge <= SAME:
            groups[-1].append(cut)
        else:
            groups.append([cut])
    return tuple(
        StopSetting(
            outer_edge=group[0][1].outer_edge,
            stop=layout.stop_for(group[0][1].outer_edge),
            strips=_strips(layout.held, segments, [cut for cut in group if not _on_rail(job, cut[0])]),
            blocks=tuple(sorted(number for number, _ in group if number > glued and _on_rail(job, number))),
        )
        for group in groups
    )


def _strips(held: float, segments: int, group: Sequence[Cut]) -> tuple[Strip, ...]:
    found: list[list[Cut]] = []
    for cut in sorted(group):
        alike = next((same for same in found if _alike(same[0][1], cut[1])), None)
        if alike is None:
            found.append([cut])
        else:
            alike.append(cut)
    return tuple(_strip(held, segments, same) for same in found)


def _alike(a: SegmentCut, b: SegmentCut) -> bool:
    return abs(a.depth - b.depth) <= SAME and abs(a.length - b.length) <= SAME


def _strip(held: float, segments: int, same: Sequence[Cut]) -> Strip:
    cut, pieces = max((cut for _, cut in same), key=lambda cut: cut.depth), segments * len(same)
    return Strip(
        rings=tuple(number for number, _ in same),
        width=cut.depth,
        thickness=cut.length,
        outer_edge=cut.outer_edge,
        inner_edge=cut.inner_edge,
        pieces=pieces,
        length=cut.strip_length(pieces) + held,
    )


def _stave_cut(job: VesselJob, band: StaveBand) -> StaveCut:
    shop, board = job.workshop, (band.stock_width + 2 * OVER, band.stock_length)
    layout = StaveSledLayout(
        tilt=band.blade_tilt,
        taper=abs(band.gauge_angle),
        wide=band.stock_width,
        board=board,
        height=band.thickness,
        kerf=shop.saw.kerf,
        **shop_sizes(job),
        slot_on_kept_side=shop.saw.tilts == "right",
    )
    return StaveCut(
        count=band.count,
        blade_tilt=band.blade_tilt,
        gauge_angle=band.gauge_angle,
        thickness=band.thickness,
        saw_height=layout.saw_height,
        board=board,
        layout=layout,
        held=held_cuts(sled_pieces(layout) if layout.fits else ()),
        seconds=2 * segment_seconds(band.stock_length),
    )
