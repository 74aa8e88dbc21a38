"""What a ring's sheet tells: sizes, settings and boards, all from the plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from geometry.records import Record
from jigs.plans.plan import Plan
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.plan import Lot
from jigs.stages.stack.plan import Layer
from jigs.words.quantity import Quantity, calliper, count_text, ruled


class Wood(Record):
    """One wood of a ring: its colour's name, which places round the ring have it, and where it is sawn from."""

    name: str
    places: tuple[int, ...]  # from 1; none of a disc
    boards: tuple[str, ...]


def of_vessel(plan: VesselPlan, layer: Layer) -> Iterator[Quantity]:
    """As it is cut, glued and finished."""
    ring, section = layer.ring, plan.section
    yield calliper("height", "Height as glued", ring.height)
    yield from _cut(plan, layer.number)
    across = "Across, as glued" if layer.cut is None else "Across its flats, as glued"
    yield calliper("across", across, 2 * ring.outer)
    if ring.core:
        yield calliper("opening", "Opening, across its flats", 2 * ring.core)
    if ring.spacer:
        what = "Open gap between segments" if layer.kind == "open" else "Strip between segments"
        yield calliper("between", what, ring.spacer)
    if layer.plug:
        yield calliper("plug", "Bore for the core plug", layer.plug)
    low, high = max(0.0, ring.bottom), min(section.height, ring.top)
    if low < high:
        yield ruled("finished", "Finished, widest across", 2 * section.outer.radii(low, high)[1])


def of_torus(plan: TorusPlan) -> Iterator[Quantity]:
    """Of any wedge ring: all are cut alike."""
    blank, cut = plan.blank, plan.segment
    yield from _cut(plan, 1)
    if plan.layups:
        yield calliper("longer", "Outer edge, as cut", cut.outer_edge)
        yield calliper("shorter", "Inner edge, as cut", cut.inner_edge)
        yield calliper("depth", "Depth", cut.depth)
        yield Quantity("mitre", "Each end off square", blank.mitre, "angle")
    yield calliper("across", "Across its flats, as glued", 2 * blank.apothem)
    yield calliper("opening", "Opening, across its flats", 2 * blank.core_apothem)
    if blank.spacer:
        yield calliper("between", "Strip between segments", blank.spacer)
    if blank.ring_spacer:
        yield calliper("between-rings", "Strip between rings", blank.ring_spacer)
    yield calliper("thickness", "Thickness, flattened", plan.ring_cut.ring_thickness)
    yield Quantity("wedge", "Each face off the middle", blank.half_wedge, "angle")
    yield calliper("thick", "Thick edge, as glued up", blank.thick_edge)
    yield calliper("thin", "Thin edge, as glued up", blank.thin_edge)


def _cut(plan: Plan, ring: int) -> Iterator[Quantity]:
    """Of the pieces that come off the saw for this ring; alike for all its woods."""
    lots = [lot for lot in _lots(plan, (ring,)) if lot.piece not in ("spacer", "ring strip", "plug")]
    if not lots:
        return
    lot = lots[0]
    line = next(line for line in plan.wood.lines if line.lot == lot.number)
    if line.tilt:
        yield Quantity("tilt", "Blade tilt", line.tilt, "angle")
    if line.gauge:
        yield Quantity("gauge", "Fence or gauge off square", line.gauge, "angle")
    if lot.stop is not None:
        yield Quantity("stop", "Stop from the blade", lot.stop)
    yield calliper("board", "Board, planed to", lot.thickness)
    yield calliper("strip", "Strip, planed to", lot.width)
    yield calliper("longer", "Longer edge, as cut", lot.longer)
    if lot.mitre:
        yield calliper("shorter", "Shorter edge, as cut", lot.shorter)


def woods_of(plan: Plan, rings: Sequence[int], names: Sequence[str]) -> list[Wood]:
    """Each wood once, in the order in which it is met; then those of strips and plugs alone."""
    found: dict[str, list[int]] = {}
    for place, name in enumerate(names, 1):
        found.setdefault(name, []).append(place)
    for lot in _lots(plan, rings):
        found.setdefault(lot.species, [])
    several = len(names) > 1
    return [
        Wood(name, tuple(places) if several else (), tuple(_boards(plan, rings, name)))
        for name, places in found.items()
    ]


def _boards(plan: Plan, rings: Sequence[int], wood: str) -> Iterator[str]:
    """The lots of this wood that these rings are cut from, each with its strips' boards."""
    for lot in _lots(plan, rings):
        if lot.species == wood:
            what = {"spacer": " strips", "ring strip": " strips between rings", "plug": " plugs"}.get(
                lot.piece, ""
            )
            yield f"lot {lot.number}: {lot.count} + {lot.spares} spare{what}"
            yield from _strips(plan, lot)


def _lots(plan: Plan, rings: Sequence[int]) -> list[Lot]:
    """Those that these rings are made of; a lid's knob is in none, though it is sawn along with the first."""
    return [
        lot for lot in plan.wood.lots if lot.piece not in ("rest", "knob") and set(lot.rings) & set(rings)
    ]


def _strips(plan: Plan, lot: Lot) -> Iterator[str]:
    """How many strips come off boards of one thickness, planed alike."""
    found = [
        ((board.bought, board.thickness), board.count * strip.strips)
        for kind in plan.wood.classes
        if lot.number in kind.lots
        for board in kind.boards
        for strip in board.strips
        if strip.lot == lot.number
    ]
    for (bought, thickness), same in groupby(sorted(found), key=lambda one: one[0]):
        count = count_text(sum(strips for _, strips in same), "strip")
        thick = plan.job.show(thickness)
        yield f"{count} off {'boards bought' if bought else 'boards at hand'} {thick} thick"


def numbers(places: Sequence[int]) -> str:
    """ "1, 4, 7" or "1 to 12" """
    if len(places) > 2 and list(places) == list(range(places[0], places[-1] + 1)):
        return f"{places[0]} to {places[-1]}"
    return ", ".join(map(str, places))
