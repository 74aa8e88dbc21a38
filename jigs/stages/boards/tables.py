"""Every piece, and which board it comes from: the tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.plans.plan import Plan, by_form
from jigs.stages.boards.plan import CutLine, KeptLong, Lot, WoodClass
from jigs.work.model import Cell, Column, Row, Table, tabled

STOCK = (
    Column("what", "What"),
    Column("species", "Wood"),
    Column("planed", "Planed thickness", "calliper"),
    Column("count", "Count", "count"),
    Column("thickness", "Thickness", "rule"),
    Column("width", "Width", "rule"),
    Column("length", "Length", "rule"),
    Column("crosscut", "Crosscut to", "rule"),
    Column("whole", "Stays in one piece", "rule"),
    Column("lot", "Lot", "count"),
    Column("pieces-each", "Pieces from each", "count"),
    Column("note", "Note"),
)
SLIVER = 3.0  # mm; what is thinner goes with the sawdust
TOO_SHORT = "too short once a piece is cut: glue scrap on for the hold-down, or rip longer boards"


def tables(plan: Plan) -> Sequence[Table]:
    """The cut list, the boards, where their wood goes; none where nothing is sawn from boards."""
    wood = plan.wood
    if not wood.lots:
        return ()
    tilt = "Table tilt" if plan.segments_on == "bandsaw" else "Blade tilt"
    high = by_form(
        plan, torus=lambda own: own.cutting.carrier.called_height, vessel=lambda _: "Blade above the table"
    )
    return (
        *tabled("cut-list", "Cut list", (_lot(wood.lot(line.lot), line, tilt, high) for line in wood.lines)),
        Table(
            "stock", "Boards, strips, offcuts", STOCK, tuple(row for of in wood.classes for row in _stock(of))
        ),
        *tabled("kept-long", "Strips that end too short to hold", map(_kept_long, wood.kept_long)),
        *tabled("wood", "Where the wood goes", map(_wood, wood.classes)),
    )


def _kept_long(one: KeptLong) -> Row:
    """Of strips that end too short to be held again, and what keeps them long enough."""
    return (
        (Column("lot", "Lot", "count"), one.lot),
        (Column("strips", "Strips", "count"), one.strips),
        (Column("left", "Left of each, as planned", "rule"), one.left),
        (Column("fewer", "Cut so many pieces fewer from each", "count"), one.fewer),
        (Column("length", "Then left of each", "rule"), one.length),
        (Column("note", "Note"), TOO_SHORT if one.fewer is None else None),
    )


def _lot(lot: Lot, line: CutLine, tilt: str, high: str) -> Row:
    """`tilt` is what tilts, `high` what stands so high over the table."""
    return (
        (Column("lot", "Lot", "count"), lot.number),
        (Column("pieces", "Pieces"), lot.name),
        (Column("rings", "Rings", "rings"), lot.rings),
        (Column("species", "Wood"), lot.species),
        (Column("count", "Count", "count"), lot.count),
        (Column("spares", "Spares", "count"), lot.spares),
        (Column("way", "Way"), lot.way),
        (Column("tilt", tilt, "angle"), line.tilt),
        (Column("gauge", "Gauge off square", "angle"), line.gauge),
        (Column("stop", "Stop", "length"), lot.stop),
        (Column("blade-height", high, "rule"), lot.blade),
        (Column("thickness", "Thickness", "calliper"), lot.thickness),
        (Column("width", "Width", "calliper"), lot.width),
        (Column("longer", "Longer edge", "calliper"), lot.longer),
        (Column("shorter", "Shorter edge", "calliper"), lot.shorter),
        (Column("glued-width", "Width as glued", "calliper"), line.width),
        (Column("glued-longer", "Longer edge as glued", "calliper"), line.longer),
        (Column("glued-shorter", "Shorter edge as glued", "calliper"), line.shorter),
        (Column("sanded", "Sanded off each face", "calliper"), line.sanded),
        (Column("rough-thickness", "Board thickness", "rule"), tuple(thick for thick, _ in line.rough)),
        (Column("rough-width", "Ripped width", "length"), tuple(width for _, width in line.rough)),
        (Column("strip-each", "Strip for each piece", "rule"), line.each),
        (Column("strip-all", "Strip for all in one", "rule"), line.strip),
    )


def _stock(of: WoodClass) -> Iterator[tuple[Cell, ...]]:
    """Whole boards, how each length is ripped, what is left over."""
    head = (of.species, of.thickness)
    for taken in of.taken:
        size = (taken.thickness, taken.width, taken.length)
        whose = "buy, at least this size" if taken.bought else "in stock"
        yield "board", *head, taken.count, *size, taken.lengths, taken.rest or None, None, None, whose
    for board in of.boards:
        for strip in board.strips:
            count = board.count * strip.strips
            size = (of.thickness, strip.width, strip.length)
            note = "as it is" if board.ready else "ripped"
            yield "strip", *head, count, *size, None, None, strip.lot, strip.pieces, note
    for offcut in of.offcuts:
        note = "keep" if offcut.kept else "too short to hold safely" if offcut.short else "too narrow to keep"
        size = (offcut.thickness, offcut.width, offcut.length)
        if not offcut.kept and min(size) < SLIVER:
            continue
        yield "offcut", *head, offcut.count, *size, None, None, None, None, note


def _wood(of: WoodClass) -> Row:
    v = of.volumes
    waste = v.kerf + v.planed + v.trimmed + v.offcuts - v.kept
    bought = sum(board.count for board in of.taken if board.bought)
    width, length = of.would_do or (None, None)
    return (
        (Column("species", "Wood"), of.species),
        (Column("planed", "Planed thickness", "calliper"), of.thickness),
        (Column("boards-bought", "Boards to buy", "count"), bought),
        (Column("boards-least", "Least that any plan buys", "count"), of.least),
        (Column("sawn", "Cut out of boards", "area"), of.area),
        (Column("sawn-least", "Least that any plan takes", "area"), of.bound),
        (Column("stock", "Wood in these boards", "volume"), v.stock),
        (Column("pieces", "In pieces", "volume"), v.pieces),
        (Column("spares", "In spares", "volume"), v.spares),
        (Column("kerf", "Sawdust", "volume"), v.kerf),
        (Column("planed-off", "Planed off", "volume"), v.planed),
        (Column("trimmed", "Trimmed off", "volume"), v.trimmed),
        (Column("offcuts", "Offcuts", "volume"), v.offcuts),
        (Column("waste", "Waste, without offcuts to keep", "share"), waste / v.stock if v.stock else 0.0),
        (Column("offcut-width", "One offcut is enough: width", "rule"), width),
        (Column("offcut-length", "One offcut is enough: length", "rule"), length),
    )
