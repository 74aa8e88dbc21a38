"""Cut parts laid out on sheets, what lies where: offcuts first, then whole sheets of the cutter's bed.

Maximal rectangles, bottom left, filled a sheet at a time. Of the methods tried on the example jobs it took as few
sheets as any and left the largest rest free. Two orders are tried for each kind of sheet; the better one is kept.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from math import cos, pi, sin

import numpy as np

from geometry.grouping import gathered
from geometry.packing.sheet import Room
from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray
from geometry.records import Record, replace
from jigs.asked.job_shop import Cutter, Workshop
from jigs.files.sheets.cells import MICRON, Cell, Cells, cell_of, cells_of, room_on
from jigs.parts.facts import sheet_facts, thickness_word
from jigs.parts.part import Part
from jigs.words.lengths import Unit

THICKNESS_STEP = 2  # decimals of a mm that make two thicknesses one
NEAR = 0.3  # mm that an offcut's thickness may be off
SOLID = "hardwood"  # planed and ripped into strips, not cut from a sheet

Kind = tuple[str, float]  # material and thickness
ORDERS: tuple[Callable[[Cell], int], ...] = (
    lambda cell: -cell.width * cell.height,
    lambda cell: -min(cell.width, cell.height),
)


class Blank(Record):
    """A sheet to fill. `stock` is the place of an offcut's row in the stock; None for a whole sheet."""

    size: tuple[float, float]
    thickness: float
    stock: int | None


class Filled(Record):
    """A blank and what lies on it; `top` is how far up that reaches, in micrometres."""

    blank: Blank
    placed: tuple[Placed, ...]
    top: int


def nest(parts: Iterable[Part], workshop: Workshop, unit: Unit = "mm") -> tuple[Sheet, ...]:
    """Every copy of every part cut from sheet that fits the cutter's bed, on sheets of its material and thickness.

    Two lines drawn on a sheet are at least the cutter's spacing apart and from its edges. The same parts give
    the same sheets; what they are called tells their thickness in `unit`.
    """
    return _nested(tuple(_cut(parts)), workshop, unit)


@lru_cache(maxsize=2)
def _nested(parts: tuple[Part, ...], workshop: Workshop, unit: Unit) -> tuple[Sheet, ...]:
    """Steps, drawings and pictures of one set all show them."""
    cells = {part.name: cells_of(part, workshop.cutter.spacing, workshop.cutter.kerf) for part in parts}
    at_hand = Counter({row: board.count for row, board in enumerate(workshop.stock.sheets)})
    sheets: list[Sheet] = []
    for kind, group in _kinds(cells.values(), workshop.cutter):
        offcuts, whole = _offcuts(kind, workshop, at_hand), Blank(workshop.cutter.bed, kind[1], None)
        filled = laid_out(group, offcuts, whole, workshop.cutter.spacing)
        at_hand.subtract(item.blank.stock for item in filled if item.blank.stock is not None)
        sheets += [_sheet(kind, item, unit) for item in filled]
    return _numbered(sheets)


def left_out(parts: Iterable[Part], workshop: Workshop) -> tuple[Part, ...]:
    """Parts cut from sheet that, with the spacing round them, do not fit the cutter's bed: they are on no sheet."""
    cutter = workshop.cutter
    room = room_on(cutter.bed, cutter.spacing)
    return tuple(p for p in _cut(parts) if not cell_of(p, cutter.spacing, cutter.kerf).fits(room))


def _cut(parts: Iterable[Part]) -> list[Part]:
    """A coupon is cut before the sheets are drawn for good, and alone."""
    return [
        part
        for part in parts
        if part.process == "cut" and not part.jig.first and not part.material.startswith(SOLID)
    ]


def strips(parts: Iterable[Part]) -> list[Part]:
    """Cut parts of solid wood: each its own strip."""
    return [part for part in parts if part.process == "cut" and part.material.startswith(SOLID)]


def _kinds(cells: Iterable[Cells], cutter: Cutter) -> list[tuple[Kind, list[Cells]]]:
    """The parts that fit the bed, by material and thickness."""
    room = room_on(cutter.bed, cutter.spacing)
    fitting = ((item.single.part, item) for item in cells if item.single.fits(room))
    kinds = gathered(((of.material, round(of.thickness, THICKNESS_STEP)), item) for of, item in fitting)
    return sorted(kinds.items())


def _offcuts(kind: Kind, workshop: Workshop, at_hand: Counter[int]) -> list[Blank]:
    """Offcuts of this thickness that are left, as listed, each as far as it lies on the bed."""
    return [
        Blank(_on_bed((board.length, board.width), workshop.cutter.bed), board.thickness, row)
        for row, board in enumerate(workshop.stock.sheets)
        if board.length and board.width and abs(board.thickness - kind[1]) <= NEAR + 1e-9
        for _ in range(at_hand[row])
    ]


def _on_bed(size: tuple[float, float], bed: tuple[float, float]) -> tuple[float, float]:
    """What of a sheet lies on the bed, put down the better way."""
    ways = [(min(w, bed[0]), min(h, bed[1])) for w, h in (size, size[::-1])]
    return max(ways, key=lambda way: way[0] * way[1])


def laid_out(cells: list[Cells], offcuts: list[Blank], whole: Blank, spacing: float) -> list[Filled]:
    """By the order that takes the fewest whole sheets, and of the last one least. Each must fit a whole sheet."""
    ways = [_by(order, cells, offcuts, whole, spacing) for order in ORDERS]
    return min(ways, key=lambda way: (sum(item.blank.stock is None for item in way), way[-1].top))


def _by(
    order: Callable[[Cell], int], cells: list[Cells], offcuts: list[Blank], whole: Blank, spacing: float
) -> list[Filled]:
    left = Counter({item.single.part.name: item.single.part.quantity for item in cells})
    waiting, filled = list(offcuts), list[Filled]()
    while left.total():
        blank = waiting.pop(0) if waiting else whole
        found = _fill(blank, order, cells, left, spacing)
        filled += [found] if found.placed else []
    return filled


def _fill(
    blank: Blank, order: Callable[[Cell], int], cells: Sequence[Cells], left: Counter[str], spacing: float
) -> Filled:
    """Lay what fits on one sheet, and take it off what is left."""
    room = room_on(blank.size, spacing)
    if min(room) <= 0:
        return Filled(blank, (), 0)
    free = Room(*room)
    placed: list[Placed] = []
    top = 0
    for cell in sorted((cell for item in cells for cell in _to_lay(item, left, room)), key=order):
        found = free.lay(cell.width, cell.height)
        if found is not None:
            lies = cell if found[2] - found[0] == cell.width else cell.turned()
            placed += _placed(lies, found[0], found[1], left, spacing)
            top = max(top, found[3])
    return Filled(blank, tuple(placed), top)


def _to_lay(cells: Cells, left: Counter[str], room: tuple[int, int]) -> list[Cell]:
    """Pairs as far as they go and fit, then single ones."""
    count = left[cells.single.part.name]
    pair = cells.pair if cells.pair and cells.pair.fits(room) else None
    pairs = count // 2 if pair else 0
    single = [cells.single] * (count - 2 * pairs) if cells.single.fits(room) else []
    return ([pair] * pairs if pair else []) + single


def _placed(cell: Cell, x: int, y: int, left: Counter[str], spacing: float) -> list[Placed]:
    """The copies in a cell; the last copies of a part are laid down last."""
    name, total = cell.part.name, cell.part.quantity
    found = []
    for turns, dx, dy in cell.places:
        copy = total - left[name] + 1
        found.append(
            Placed(cell.part, copy, spacing / 2 + x / MICRON + dx, spacing / 2 + y / MICRON + dy, turns)
        )
        left[name] -= 1
    return found


def _sheet(kind: Kind, filled: Filled, unit: Unit) -> Sheet:
    material, thickness = kind
    slug = re.sub(r"[^a-z0-9]+", "-", material.partition(",")[0].lower()).strip("-")
    blank = filled.blank
    offcut = blank.stock is not None
    facts = sheet_facts(filled.placed[0].part, blank.size, blank.thickness, offcut, unit)
    name = f"{slug}-{thickness_word(thickness, unit)}"
    return Sheet(name, material, blank.thickness, blank.size, offcut, filled.placed, facts)


def _numbered(sheets: Iterable[Sheet]) -> tuple[Sheet, ...]:
    """Each name with its number; materials that differ only after a comma are counted on."""
    seen = Counter[str]()
    found = []
    for sheet in sheets:
        seen[sheet.name] += 1
        found.append(replace(sheet, name=f"{sheet.name}-{seen[sheet.name]}"))
    return tuple(found)


class Placed(Record):
    """One copy of a part: turned about its own origin, counter-clockwise, then moved by (x, y), mm."""

    part: Part
    copy: int  # from 1
    x: float
    y: float
    turns: int  # quarter turns, 0 to 3

    @property
    def plate(self) -> int:
        """Which plate of its stack it is, from 1."""
        return (self.copy - 1) % self.part.stack + 1

    def points(self, own: FloatArray) -> FloatArray:
        """Points (k, 2) of the part's own drawing as they lie on the sheet."""
        return np.asarray(own @ quarter_turn(self.turns) + (self.x, self.y), dtype=np.float64)

    def contour(self, own: Contour) -> Contour:
        """One of the part's contours as it lies on the sheet; exact, since a quarter turn is."""
        return Contour(np.column_stack((self.points(own.points), own.vertices[:, 2])))


class Sheet(Record):
    """One sheet on the cutter's bed, its lower left corner at the origin. `name` is that of its file, mm."""

    name: str
    material: str
    thickness: float  # of the offcut itself, else of the parts
    size: tuple[float, float]
    offcut: bool
    placed: tuple[Placed, ...]
    facts: tuple[tuple[str, str], ...] = ()  # name and value, for whoever finds its file alone

    @property
    def file(self) -> str:
        return f"sheets/{self.name}.dxf"

    @property
    def contents(self) -> str:
        """ "3 SG sled-gusset, SB sled-base": each part, once, in the order in which they were laid down."""
        return ", ".join(self.rows)

    @property
    def rows(self) -> tuple[str, ...]:
        """The same, one by one."""
        counts = Counter(f"{item.part.code} {item.part.name}" for item in self.placed)
        return tuple(f"{count} {name}" if count > 1 else name for name, count in counts.items())


def quarter_turn(turns: int) -> FloatArray:
    """Matrix (2, 2) that turns rows of points by so many quarter turns, of whole numbers only."""
    c, s = round(cos(turns * pi / 2)), round(sin(turns * pi / 2))
    return np.array(((c, s), (-s, c)), dtype=np.float64)
