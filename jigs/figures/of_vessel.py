"""The pictures of a vessel's work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from jigs.figures import of_layup
from jigs.figures.bench.rings import on_board
from jigs.figures.bench.slips import slip_box
from jigs.figures.bench.truing import flat_half
from jigs.figures.figure import Figure
from jigs.figures.saws import flat_sled, stave_sled, stop_carriage
from jigs.figures.saws.hold_down import hold_down
from jigs.figures.saws.rip import ripping
from jigs.figures.told import Show
from jigs.figures.turning import halves, on_block, sizes, turned
from jigs.figures.turning import vessel as lathe
from jigs.figures.turning.lid import knob, on_pot
from jigs.figures.turning.stacking import ring_on
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan


def figures(plan: VesselPlan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """In the order of the work."""
    if rip := ripping(plan, show):
        yield rip
    yield from _saws(plan, show)
    yield from of_layup.figures(plan, parts, show)
    if plan.slip_box:
        yield slip_box(plan.slip_box, show)
    for drawn in (on_board(plan, parts, show), flat_half(plan, parts, show), ring_on(plan)):
        if drawn:
            yield drawn
    yield from sizes.of_vessel(plan, parts, show)
    yield from lathe.figures(plan, parts, show)
    yield from on_block.figures(plan, show)
    if plan.halves:
        yield from halves.figures(plan, plan.halves, parts, show)
    if plan.lid:
        yield on_pot(plan.section, plan.lid, plan.knob, show)
    if plan.knob:
        yield from knob(plan.section, plan.knob, show)
    if plan.reversing.plug:
        yield turned.plug(plan.reversing.plug, parts, show)


def _saws(plan: VesselPlan, show: Show) -> Iterator[Figure]:
    for sled in plan.saws.sleds:
        end, held = f"-n{sled.segments}", sled.layout.hold
        yield flat_sled.built(sled.layout, end, f"building.flat-sled{end}", sled.called, show)
        id = f"building.flat-sled{end}-holds"
        yield hold_down(id, "plan-angle", end, f"plan-angle-hold{end}", held, sled.layout.fence_height, show)
        if sled.layout.carriage:
            yield stop_carriage.side(sled.layout, sled.layout.carriage, end)
        yield from flat_sled.set_up(sled, f"-{sled.number}" if sled.number > 1 else "", show)
    if plan.saws.staves:
        own, turned = plan.saws.staves.layout, plan.job.workshop.saw.tilts == "left"
        yield stave_sled.built(own, turned, show)
        yield hold_down(
            "building.stave-sled-holds", "stave", "", "stave-hold", own.hold, own.fence_height, show
        )
        for cut in (1, 2):
            yield stave_sled.edge(own, cut, turned, show)
