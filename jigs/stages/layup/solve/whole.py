"""Patterned layups: for each size of segment, pieces, stacks and sheets; whether plies meet at the joints."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil, cos
from typing import TYPE_CHECKING

from geometry.blanks.layup import Layup
from geometry.bodies.torus import Blank, SegmentCut
from geometry.hardware.sled_sizes import BLADE_PAST_RING
from geometry.records import Record, replace
from jigs.asked.job import Job, TorusJob
from jigs.asked.job_wood import LAYUP, SAME_THICKNESS, LayupWish
from jigs.measured.glued import rings_left
from jigs.stages.glue_up.solve.stages import joints_in_time
from jigs.stages.layup.layout.rail import BlockRail
from jigs.stages.layup.plan import Closing, LayupPlan, Seams, makes_sense
from jigs.stages.layup.solve.closings import at_radius, closings_of
from jigs.stages.layup.solve.pieces import (
    Shown,
    halves,
    left_and_right,
    piece_of,
    shown_on_ring,
    shown_on_torus,
    up_and_down,
)
from jigs.stages.layup.solve.sheets import Sheet, left_at_hand, rest_of_last
from jigs.stages.layup.solve.ways import Supply, volumes_of, ways_of
from jigs.stages.segments.layout import CarrierLayout

if TYPE_CHECKING:  # a torus is worked out without what only a vessel has
    from jigs.asked.vessel_job import VesselJob
    from jigs.stages.stack.plan import Layer, StackPlan


class Size(Record):
    """Segments of one size: whose they are, and what shows of them."""

    rings: tuple[tuple[int, int], ...]  # number, count of segments to cut
    cut: SegmentCut
    shown: Shown
    spare_rings: int  # whole ones
    rings_in_all: int  # that have the layup
    held: float  # of a strip of theirs in the last cut
    rail: float  # thickness of the rail beside their blocks, as that of a strip on the saw's sled

    @property
    def segments(self) -> int:
        return sum(count for _, count in self.rings)


def torus_layups(job: TorusJob, blank: Blank, carrier: CarrierLayout) -> tuple[LayupPlan, ...]:
    """One entry for the segments of all rings; none without a layup, or with one that cannot be."""
    wish = job.layup
    if wish is None or not makes_sense(wish):
        return ()
    left = rings_left(job.readings, blank.wedge_rings)
    rings = tuple((k, blank.segments if k in left else 0) for k in range(1, blank.wedge_rings + 1))
    spare, shown = job.workshop.spares.rings, shown_on_torus(job, blank)
    size = Size(rings, carrier.cut, shown, spare, len(rings), carrier.held, carrier.cut.depth)
    plan, _ = _layup(job, wish, size, _at_hand(job, wish), 0)
    if (
        wish.plane != "end" and not job.form.tube.round
    ):  # seams unequally far apart end no pattern whole all round
        return (replace(plan, closings=()),)
    return (plan if wish.plane == "face" else replace(plan, closings=_on_form(job, plan)),)


def _on_form(job: TorusJob, plan: LayupPlan) -> tuple[Closing, ...]:
    """The closings with their radius; those that end whole beside the finished form are left out."""
    form = job.form
    low, high = form.major_radius - form.tube_radius, form.major_radius + form.tube_radius
    per_radius = plan.shown_up / form.major_radius
    found = (at_radius(closing, per_radius, low, high) for closing in plan.closings)
    return tuple(closing for closing in found if closing.radius is not None or closing.what == "segment")


def vessel_layups(job: VesselJob, stack: StackPlan, held: Mapping[int, float]) -> tuple[LayupPlan, ...]:
    """One entry for each size of segment among the rings that have the layup, from the foot up; none for a size
    whose rings are all stated to be glued.

    `held` is how much of a strip the sled for so many segments holds, mm.
    """
    wish = job.layup
    if wish is None or not makes_sense(wish):
        return ()
    hand, plans, sizes = _at_hand(job, wish), list[LayupPlan](), _by_size(stack, wish)
    rests = list[Sheet]()
    for layers in sizes:
        cut = layers[0].cut
        if cut is not None and layers[-1].number > stack.stated:
            rings = tuple((la.number, la.ring.segments if la.number > stack.stated else 0) for la in layers)
            shown = shown_on_ring(layers[0], stack.allowance)
            size = Size(rings, cut, shown, 0, sum(map(len, sizes)), held[rings[-1][1]], cut.length)
            plan, left = _layup(job, wish, size, hand, len(plans))
            rests += [sheet for sheet in left if sheet.rest_of == len(plans)]
            plans.append(plan)
            hand = left
    return _without(plans, [sheet for sheet in rests if sheet not in hand])


def _without(plans: Sequence[LayupPlan], used: Sequence[Sheet]) -> tuple[LayupPlan, ...]:
    """A rest that strips of a later ring come from is of that ring's stock alone."""
    areas = {sheet.rest_of: sheet.area for sheet in used}
    found = []
    for number, plan in enumerate(plans):
        gone, of = areas.get(number, 0.0) * plan.layup.sheet, plan.volumes
        shares = replace(of, stock=of.stock - gone, offcuts=of.offcuts - gone)
        found.append(replace(plan, volumes=shares))
    return tuple(found)


def _by_size(stack: StackPlan, wish: LayupWish) -> list[list[Layer]]:
    sizes: dict[tuple[float, ...], list[Layer]] = {}
    for layer in stack.layers:
        if layer.cut is not None and layer.plied(wish):
            cut = layer.cut
            key = tuple(round(side, 6) for side in (cut.outer_edge, cut.length, cut.depth))
            sizes.setdefault(key, []).append(layer)
    return list(sizes.values())


def _at_hand(job: Job, wish: LayupWish) -> tuple[Sheet, ...]:
    """Sheets of these plies among the stock, of known size."""
    thick = sum(ply.thickness for ply in wish.plies)
    return tuple(
        Sheet(board.width, board.length, board.count)
        for board in job.workshop.stock.sheets
        if board.species == LAYUP and abs(board.thickness - thick) <= SAME_THICKNESS
        and board.width is not None and board.length is not None
    )  # fmt: skip


def _spares(job: Job, size: Size, per_segment: int) -> tuple[int, int]:
    """Segments, and pieces: those of the spare segments, and a share of all for what fails on the way."""
    rule = job.workshop.spares
    spare = max(rule.least, ceil(size.segments * rule.segments / 100 - 1e-9))
    spare += size.spare_rings * size.rings[0][1]
    if per_segment == 1:
        return spare, spare
    return spare, per_segment * spare + ceil(per_segment * size.segments * rule.layup / 100 - 1e-9)


def _shown(wish: LayupWish, layup: Layup, whole: Shown) -> Shown:
    """Of a piece: halves where the segment is mirrored; through the depth, all of it."""
    half_a, half_b = halves(wish)
    low, high = whole.up_range
    parts = 2 if half_b else 1
    across, farthest = (
        layup.a if wish.plane == "end" else seams / (1 + half_a) for seams in (whole.across, whole.farthest)
    )
    if wish.plane == "face":
        return Shown(across, layup.b, (layup.b, layup.b), farthest)
    return Shown(across, whole.up / parts, (low / parts, high / parts), farthest)


def _supply(job: Job, wish: LayupWish, hand: Sequence[Sheet]) -> Supply:
    shop, new = job.workshop, Sheet(wish.sheet_width, wish.sheet_length)
    stock, clear = shop.stock, shop.sled.clear_of_blade
    return Supply(
        tuple(hand), new, stock.strip_clean_up, shop.saw.kerf, stock.edge_trim, stock.end_trim, clear
    )


def _rail(size: Size, blocks: int) -> BlockRail:
    cut = size.cut
    return BlockRail(blocks, cut.outer_edge, size.rail, cut.kerf / cos(cut.tilt), size.held)


def _layup(
    job: Job, wish: LayupWish, size: Size, hand: Sequence[Sheet], number: int
) -> tuple[LayupPlan, tuple[Sheet, ...]]:
    """The plan of one size of segment, and the sheets that are at hand after it: what it leaves of its own too."""
    layup = piece_of(wish, size.cut, job.workshop.saw.kerf)
    half_a, half_b = halves(wish)
    per_segment = (1 + half_a) * (1 + half_b)
    pieces = per_segment * size.segments
    spare_segments, spares = _spares(job, size, per_segment)
    supply = _supply(job, wish, hand)
    ways = ways_of(layup, pieces + spares, wish.stacking, supply)
    taken = supply.taken(ways[0], layup)
    shown = _shown(wish, layup, size.shown)
    plan = LayupPlan(
        rings=tuple(number for number, _ in size.rings),
        layup=layup,
        names=tuple(ply.name for ply in wish.plies),
        colours=tuple(ply.colour for ply in wish.plies),
        plane=wish.plane,
        mirrored=wish.mirrored,
        turned=wish.turned,
        sanding=wish.sanding,
        across=layup.a - half_a * wish.sanding,
        up=layup.b - half_b * wish.sanding,
        segments=size.segments,
        spare_segments=spare_segments,
        per_segment=per_segment,
        pieces=pieces,
        spares=spares,
        ways=ways,
        closings=closings_of(layup, wish.plane, shown.across, shown.up),
        seams=seams_of(wish, layup, size.rings, size.rings_in_all),
        seam_loss=wish.sanding * (half_a * layup.sine + half_b * layup.cosine),
        shown_across=shown.across,
        shown_farthest=shown.farthest,
        shown_up=shown.up,
        shown_up_range=shown.up_range,
        strip_width=layup.depth + supply.clean_up,
        batch=max(1, joints_in_time(job.workshop.glue, ways[0].strip_length * layup.depth)),
        rail=_rail(size, size.segments + spare_segments),
        saw_height=layup.depth + job.workshop.boards.sheet + BLADE_PAST_RING,
        volumes=volumes_of(layup, ways[0], pieces, spares, supply, taken),
    )
    rest = rest_of_last(taken, supply.size(layup, ways[0].strip_length), number)
    return plan, (*rest, *left_at_hand(hand, taken))


def seams_of(wish: LayupWish, layup: Layup, rings: Sequence[tuple[int, int]], rings_in_all: int) -> Seams:
    """What joints ask for; `rings` are (number, count of segments), some of all that have the layup.

    Neighbours mirror each other in their joint's plane. A pattern that differs to the left and to the right of a
    segment's middle breaks at mitres unless segments alternate, and one that differs above and below it breaks
    between rings unless these alternate. A segment that differs in one way only is turned about its radial line
    for its mirror image; one that differs in both needs pieces of the other hand. Of one hand nothing alternates:
    plies meet only where whole repeats lie from joint to joint.
    """
    if wish.one_hand:
        return Seams(False, False, 0, 0)
    across = wish.plane != "end" and layup.sine > 0 and not left_and_right(wish.mirrored)
    up = wish.plane != "face" and layup.cosine > 0 and not up_and_down(wish.mirrored)
    return Seams(
        alternate_segments=across,
        alternate_rings=up and rings_in_all > 1,
        broken=sum(1 for _, count in rings if count % 2) if across else 0,
        other_hand=sum(_other(number, count, rings_in_all > 1) for number, count in rings)
        if across and up
        else 0,
    )


def _other(number: int, count: int, rings_alternate: bool) -> int:
    """Segments of a ring that mirror its first ring's first: every other one, as on a chessboard."""
    return (count + 1) // 2 if rings_alternate and number % 2 == 0 else count // 2
