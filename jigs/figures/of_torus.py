"""The pictures of a torus's work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from jigs.figures import of_layup
from jigs.figures.bench import halves, rings, truing, uprights
from jigs.figures.bench.halves import check_corner
from jigs.figures.bench.slips import slip_box
from jigs.figures.figure import Figure
from jigs.figures.saws import carrier, flat_sled, ring_held, ring_sled
from jigs.figures.saws.hold_down import hold_down
from jigs.figures.saws.rip import ripping
from jigs.figures.told import Show
from jigs.figures.turning import gauges, rounding, sizes, turned
from jigs.figures.turning.mountings import mounting_a, mounting_b, mounting_c, mounting_d
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan


def figures(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """In the order of the work."""
    if rip := ripping(plan, show):
        yield rip
    yield carrier.built(plan)
    yield from of_layup.figures(plan, parts, show)
    own = plan.cutting.carrier
    holds = "building.segment-carrier-holds"
    yield hold_down(holds, "segment", "", "segment-hold-strip", own.hold, own.fence_height, show)
    yield carrier.tilt(plan, show)
    yield carrier.set_up(plan, show)
    if flat := plan.cutting.plan_angle:
        yield flat_sled.built(flat, "", "building.plan-angle-sled", "plan-angle sled", show)
        id = "building.plan-angle-sled-holds"
        yield hold_down(id, "plan-angle", "", "plan-angle-hold", flat.hold, flat.fence_height, show)
    if plan.slip_box:
        yield slip_box(plan.slip_box, show)
    yield ring_sled.built(plan, parts, show)
    yield from (
        uprights.wedge(plan, parts[name], show) for name in ("sled-wedge", "end-wedge") if name in parts
    )
    yield ring_held.side(plan, parts, show)
    yield ring_held.plug(plan, show)
    yield ring_sled.first_cut(plan, show)
    yield ring_sled.second_cut(plan, show)
    if plan.job.form.half_sanding > 0:
        yield ring_sled.end_cut(plan, show)
    yield check_corner(plan, parts, show)
    yield rings.in_band(plan, show)
    yield halves.in_band(plan)
    yield halves.checked(plan, show)
    yield uprights.sanding_board(plan, parts)
    yield truing.carrier(plan, parts, show)
    blocks = plan.clamping.made
    yield halves.blank_at_blocks(plan, parts, show) if blocks else halves.in_band(plan, "blank")
    if halves.quartered(plan):
        yield halves.half_at_blocks(plan, parts, show) if blocks else halves.in_band(plan, "halves")
    for mounting in (mounting_a, mounting_b, mounting_c, mounting_d):
        yield mounting(plan, parts, show)
    yield sizes.of_torus(plan, parts, show)
    for number, step in enumerate(plan.mountings.flats, 1):
        yield rounding.corners(step, number, show)
    yield from gauges.figures(plan, parts, show)
    for drawn in (turned.first_board, turned.retainer, turned.channel):
        yield drawn(plan, parts, show)
