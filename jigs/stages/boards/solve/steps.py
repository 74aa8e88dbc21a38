"""What the steps of both forms share: pieces cut off square, layups, the cut list."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import replace
from math import cos
from typing import TypeVar

from jigs.asked.job import Job
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.steps import CutLine, Machine, Step, Work
from jigs.stages.boards.plan.stock import WoodClass
from jigs.stages.boards.solve.kinds import ripped, rough_thickness
from jigs.stages.layup.layout.rail import WIDTH
from jigs.stages.layup.plan.layup import LayupPlan, columns_and_rows
from jigs.words.quantity import Quantity, calliper, ruled

SLIP_BOX = ("slip-box-base", "slip-box-hold")
T = TypeVar("T")
K = TypeVar("K", bound=Hashable)

Rings = tuple[int, ...]


def step(
    work: Work,
    machine: Machine,
    rings: Rings,
    lots: Iterable[Lot],
    pieces: int,
    settings: Sequence[Quantity] = (),
    jigs: Sequence[str] = (),
    checks: Sequence[Quantity] = (),
) -> Step:
    """A step whose number comes later."""
    numbers = tuple(lot.number for lot in lots)
    return Step(0, work, machine, rings, numbers, pieces, tuple(settings), tuple(jigs), tuple(checks))


def numbered(steps: Iterable[Step]) -> tuple[Step, ...]:
    """In the order given, from 1."""
    return tuple(replace(step, number=number) for number, step in enumerate(steps, 1))


def angle(id: str, label: str, radians: float) -> Quantity:
    """An angle that is set."""
    return Quantity(id, label, radians, "angle")


def grouped(items: Iterable[T], key: Callable[[T], K]) -> dict[K, list[T]]:
    """By key, in the order met."""
    found: dict[K, list[T]] = {}
    for item in items:
        found.setdefault(key(item), []).append(item)
    return found


def rings_of(lots: Iterable[Lot]) -> Rings:
    """All rings of some lots."""
    return tuple(sorted({ring for lot in lots for ring in lot.rings}))


def wanted(lots: Iterable[Lot]) -> int:
    """Pieces of some lots, spares among them."""
    return sum(lot.wanted for lot in lots)


def square_steps(lots: Iterable[Lot]) -> Iterator[Step]:
    """Pieces cut off square, one step for each length, the longest first.

    Those whose strip has to keep a length to be held by are too short for the table saw: sawn by hand.
    """
    square = [lot for lot in lots if lot.way in ("square", "bevelled")]
    ordered = sorted(square, key=lambda lot: (-lot.longer, lot.number))
    for same in grouped(ordered, lambda lot: round(lot.longer, 2)).values():
        held, long = max(lot.held for lot in same), ruled("length", "Length", same[0].longer)
        if held:
            last = ruled("set-aside", "Keep of each strip, at least", held, bound="least")
            yield step("square", "bench", rings_of(same), same, wanted(same), (long, last))
        else:
            settings = (
                angle("gauge", "Mitre gauge off square", 0.0),
                Quantity("stop", "Stop to blade", long.value),
            )
            yield step("square", "table saw", rings_of(same), same, wanted(same), settings)


def slip_steps(lots: Iterable[Lot]) -> Iterator[Step]:
    """Slips cut to length by hand, one step for each length, the longest first."""
    slips = [lot for lot in lots if lot.slip]
    ordered = sorted(slips, key=lambda lot: (-lot.longer, lot.number))
    for same in grouped(ordered, lambda lot: round(lot.longer, 2)).values():
        settings = (Quantity("block", "Clamped block to the saw line", same[0].longer),)
        yield step("slips", "bench", rings_of(same), same, wanted(same), settings, SLIP_BOX)


def leaf_steps(lots: Iterable[Lot]) -> Iterator[Step]:
    """Strips between rings cut off square by hand."""
    own = [lot for lot in lots if lot.piece == "ring strip"]
    if own:
        settings = (ruled("length", "Length", own[0].longer),)
        yield step("leaves", "bench", rings_of(own), own, wanted(own), settings)


def layup_steps(layups: Sequence[LayupPlan]) -> Iterator[Step]:
    """From plies to the blocks that segments are cut from."""
    for plan in layups:
        way, rings = plan.way, plan.rings
        if len(plan.layup.plies) > 1 and way.sheets:
            thickness = (calliper("sheet", "Thickness of the sheet", plan.layup.sheet),)
            yield step("sheet", "bench", rings, (), way.sheets, thickness)
        yield step("strips", "table saw", rings, (), way.strips_in_all, _strips_of(plan))
        if way.strips > 1:
            stagger = (Quantity("stagger", "Set each strip back by", way.stagger),) if way.stagger else ()
            stacked = (
                Quantity("strips-each", "Strips in each stack", way.strips, "count"),
                *stagger,
                _tail(plan),
            )
            yield step("stacks", "bench", rings, (), way.stacks, stacked)
        sides = (
            calliper("side-a", "Side a", plan.layup.a),
            calliper("side-b", "Side b", plan.layup.b),
        )
        yield step("pieces", "table saw", rings, (), plan.pieces + plan.spares, _pieces(plan), checks=sides)
        if plan.per_segment > 1:
            yield step("blocks", "bench", rings, (), plan.blocks, _blocks(plan), checks=_block_sides(plan))
        yield step("rails", "bench", rings, (), plan.rail.rails, _rails(plan))


def _tail(plan: LayupPlan) -> Quantity:
    return ruled("tail", "Scrap of the same section behind each, at least", plan.way.tail, bound="least")


def _blocks(plan: LayupPlan) -> tuple[Quantity, ...]:
    return (Quantity("pieces-each", "Pieces in each block", plan.per_segment, "count"),)


def _block_sides(plan: LayupPlan) -> tuple[Quantity, ...]:
    columns, rows = columns_and_rows(plan)
    return (
        calliper("along-a", "Block along a", columns * plan.across),
        calliper("along-b", "Block along b", rows * plan.up),
    )


def _rails(plan: LayupPlan) -> tuple[Quantity, ...]:
    rail = plan.rail
    return (
        Quantity("blocks-each", "Blocks on each rail", rail.each, "count"),
        Quantity("gap", "Gap between blocks", rail.gap),
        ruled("rail.length", "Rail of scrap, length", rail.length),
        ruled("rail.width", "Rail width", WIDTH),
        calliper("rail.thickness", "Rail thickness, as the blocks", rail.thickness),
        ruled("rail.held", "Scrap behind the last block", rail.held),
    )


def _strips_of(plan: LayupPlan) -> tuple[Quantity, ...]:
    return (
        Quantity("rip-fence", "Rip fence to blade", plan.strip_width),
        calliper("width", "Plane to width", plan.layup.depth),
        ruled("strip-length", "Length of each strip", plan.way.strip_length),
    )


def _pieces(plan: LayupPlan) -> tuple[Quantity, ...]:
    way = plan.way
    return (
        angle("ply-angle", "Cut to the plies", way.cut_angle),
        calliper("slab", "Thickness of each slab", way.slab),
        Quantity("pitch", "Along the plies from slab to slab", way.pitch),
        Quantity("slab-length", "Cut slabs off square to", way.slab_length),
    )


def layup_segments(layups: Sequence[LayupPlan], rings: Iterable[int]) -> int:
    """Segments that come from layups for some rings, spares among them."""
    wanted_rings = set(rings)
    return sum(plan.blocks for plan in layups if wanted_rings & set(plan.rings))


def cut_lines(
    job: Job,
    lots: Iterable[Lot],
    classes: Sequence[WoodClass],
    steps: Sequence[Step],
    sanding: float,
    gauge: float,
) -> tuple[CutLine, ...]:
    """The cut list in the order of the cuts.

    `sanding` comes off each face that is mitred or bevelled; `gauge` is what is set for tapered staves.
    """
    lines = (_line(lot, _rough(job, lot, classes), _cut_in(steps, lot), sanding, gauge) for lot in lots)
    return tuple(sorted(lines, key=lambda line: (line.step, line.lot)))


def _cut_in(steps: Sequence[Step], lot: Lot) -> int:
    cutting = ("mitre", "slide", "square", "slips", "slit", "leaves")
    own = [s for s in steps if s.work in cutting and lot.number in s.lots]
    return max(own, key=lambda s: s.number).number


def _rough(job: Job, lot: Lot, classes: Sequence[WoodClass]) -> tuple[tuple[float, float], ...]:
    """Of the boards that are taken for a lot; of one to buy where none that can be had would do."""
    boards = [board for of in classes for board in of.boards]
    sawn = {(board.thickness, cut.width) for board in boards for cut in board.strips if cut.lot == lot.number}
    return tuple(sorted(sawn)) or ((rough_thickness(job, lot.thickness), ripped(job, lot)),)


def _line(
    lot: Lot, rough: tuple[tuple[float, float], ...], number: int, sanding: float, gauge: float
) -> CutLine:
    """Angles: a strip turned over is cut by a tilted blade, one slid across by two fences."""
    off = 2 * sanding / cos(lot.mitre) if lot.mitre else 0.0
    off_width = 2 * sanding / cos(lot.bevel) if lot.bevel else 0.0
    return CutLine(
        lot=lot.number,
        step=number,
        tilt=lot.mitre if lot.way == "turned over" else lot.bevel,
        gauge=lot.mitre if lot.way == "slid across" else gauge if lot.way == "bevelled" else 0.0,
        sanded=sanding if lot.mitre or lot.bevel else 0.0,
        width=lot.width - off_width,
        longer=lot.longer - off,
        shorter=max(0.0, lot.shorter - off),
        rough=rough,
        each=lot.mean + lot.slant,
        strip=lot.strip_length(lot.wanted),
    )
