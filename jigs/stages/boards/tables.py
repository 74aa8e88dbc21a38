"""Every piece, and which board it comes from: the tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.plans.plan import Plan
from jigs.stages.boards.plan import BoardsTaken, CutLine, KeptLong, Lot, WoodClass
from jigs.work.model import Cell, Column, Table

CUT_LIST = (
    Column("lot", "Lot", "count"),
    Column("pieces", "Pieces"),
    Column("rings", "Rings", "rings"),
    Column("species", "Wood"),
    Column("count", "Count", "count"),
    Column("spares", "Spares", "count"),
    Column("way", "Way"),
    Column("tilt", "Blade tilt", "angle"),
    Column("gauge", "Gauge off square", "angle"),
    Column("stop", "Stop", "length"),
    Column("thickness", "Thickness", "calliper"),
    Column("width", "Width", "calliper"),
    Column("longer", "Longer edge", "calliper"),
    Column("shorter", "Shorter edge", "calliper"),
    Column("glued-width", "Width as glued", "calliper"),
    Column("glued-longer", "Longer edge as glued", "calliper"),
    Column("glued-shorter", "Shorter edge as glued", "calliper"),
    Column("sanded", "Sanded off each face", "calliper"),
    Column("rough-thickness", "Board thickness", "rule"),
    Column("rough-width", "Ripped width", "length"),
    Column("strip-each", "Strip for each piece", "rule"),
    Column("strip-all", "Strip for all in one", "rule"),
)
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
WOOD = (
    Column("species", "Wood"),
    Column("planed", "Planed thickness", "calliper"),
    Column("boards-bought", "Boards to buy", "count"),
    Column("boards-least", "Least that any plan buys", "count"),
    Column("sawn", "Cut out of boards", "area"),
    Column("sawn-least", "Least that any plan takes", "area"),
    Column("stock", "Wood in these boards", "volume"),
    Column("pieces", "In pieces", "volume"),
    Column("spares", "In spares", "volume"),
    Column("kerf", "Sawdust", "volume"),
    Column("planed-off", "Planed off", "volume"),
    Column("trimmed", "Trimmed off", "volume"),
    Column("offcuts", "Offcuts", "volume"),
    Column("waste", "Waste, without offcuts to keep", "share"),
    Column("offcut-width", "One offcut is enough: width", "rule"),
    Column("offcut-length", "One offcut is enough: length", "rule"),
)
KEPT_LONG = (
    Column("lot", "Lot", "count"),
    Column("strips", "Strips", "count"),
    Column("left", "Left of each, as planned", "rule"),
    Column("fewer", "Cut so many pieces fewer from each", "count"),
    Column("length", "Then left of each", "rule"),
    Column("note", "Note"),
)
SLIVER = 3.0  # mm; what is thinner goes with the sawdust
TOO_SHORT = "too short once a piece is cut: glue scrap on for the hold-down, or rip longer boards"


def tables(plan: Plan) -> Sequence[Table]:
    """The cut list, the boards, where their wood goes; none where nothing is sawn from boards."""
    wood = plan.wood
    if not wood.lots:
        return ()
    return (
        Table(
            "cut-list",
            "Cut list",
            _columns(plan),
            tuple(_lot(wood.lot(line.lot), line) for line in wood.lines),
        ),
        Table(
            "stock", "Boards, strips, offcuts", STOCK, tuple(row for of in wood.classes for row in _stock(of))
        ),
        *_kept_long(wood.kept_long),
        Table("wood", "Where the wood goes", WOOD, tuple(_wood(of) for of in wood.classes)),
    )


def _columns(plan: Plan) -> tuple[Column, ...]:
    """Of a bandsaw the table tilts."""
    tilt = Column("tilt", "Table tilt" if plan.segments_on == "bandsaw" else "Blade tilt", "angle")
    return tuple(tilt if column.id == "tilt" else column for column in CUT_LIST)


def _kept_long(ends: Sequence[KeptLong]) -> Iterator[Table]:
    """Strips that end too short to be held again, and what keeps them long enough."""
    rows = tuple(
        (one.lot, one.strips, one.left, one.fewer, one.length, TOO_SHORT if one.fewer is None else None)
        for one in ends
    )
    if rows:
        yield Table("kept-long", "Strips that end too short to hold", KEPT_LONG, rows)


def _lot(lot: Lot, line: CutLine) -> tuple[Cell, ...]:
    return (
        lot.number,
        lot.name,
        lot.rings,
        lot.species,
        lot.count,
        lot.spares,
        lot.way,
        line.tilt,
        line.gauge,
        lot.stop,
        lot.thickness,
        lot.width,
        lot.longer,
        lot.shorter,
        line.width,
        line.longer,
        line.shorter,
        line.sanded,
        tuple(thickness for thickness, _ in line.rough),
        tuple(width for _, width in line.rough),
        line.each,
        line.strip,
    )


def _stock(of: WoodClass) -> Iterator[tuple[Cell, ...]]:
    """Whole boards, how each length is ripped, what is left over."""
    head = (of.species, of.thickness)
    for taken in of.taken:
        size = (taken.thickness, taken.width, taken.length)
        yield "board", *head, taken.count, *size, taken.lengths, taken.rest or None, None, None, _whose(taken)
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


def _whose(board: BoardsTaken) -> str:
    return "buy, at least this size" if board.bought else "in stock"


def _wood(of: WoodClass) -> tuple[Cell, ...]:
    v = of.volumes
    waste = v.kerf + v.planed + v.trimmed + v.offcuts - v.kept
    bought = sum(board.count for board in of.taken if board.bought)
    offcut = of.would_do or (None, None)
    return (
        of.species,
        of.thickness,
        bought,
        of.least,
        of.area,
        of.bound,
        v.stock,
        v.pieces,
        v.spares,
        v.kerf,
        v.planed,
        v.trimmed,
        v.offcuts,
        waste / v.stock if v.stock else 0.0,
        *offcut,
    )
