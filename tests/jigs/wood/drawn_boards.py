"""Draws boards as they are sawn, from nothing but the lots, the counts in the plan and the job's stock table.

Boards lie along x. Every region is a polygon; volumes are its area times what it is thick, by shapely.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from math import tan

import shapely
from shapely.affinity import translate
from shapely.geometry import Polygon, box

from jigs.asked.job import Job
from jigs.stages.boards.plan import BoardCut, BoardsTaken, Lot, StripCut, WoodClass
from jigs.stages.boards.solve.kinds import ripped


@dataclass
class Tally:
    """Volumes by what they are, mm3, and every leftover's width and length."""

    job: Job
    lots: dict[int, Lot]
    thickness: float
    volumes: Counter[str] = field(default_factory=Counter)
    cut: Counter[int] = field(default_factory=Counter)
    left: Counter[tuple[float, float]] = field(default_factory=Counter)

    def add(self, what: str, area: float, thick: float, count: int) -> None:
        self.volumes[what] += area * thick * count

    def offcut(self, width: float, length: float, thick: float, count: int) -> None:
        if width > 1e-9 and length > 1e-9:
            self.add("offcuts", width * length, thick, count)
            self.left[round(width, 6), round(length, 6)] += count


def tally(job: Job, lots: tuple[Lot, ...], of: WoodClass) -> Tally:
    """Saw all boards of a class."""
    found = Tally(job, {lot.number: lot for lot in lots}, of.thickness)
    for taken in of.taken:
        _whole(found, taken)
    for board in of.boards:
        _length(found, board)
    return found


def covers(parts: list[Polygon], whole: Polygon) -> None:
    """The parts fill the whole and do not overlap."""
    union = shapely.union_all(parts)
    assert abs(union.symmetric_difference(whole).area) < 1e-5
    assert abs(sum(part.area for part in parts) - whole.area) < 1e-5


def _whole(found: Tally, taken: BoardsTaken) -> None:
    """The ends off, and crosscut into lengths; what is left beside them stays in one piece."""
    stock, kerf, width = found.job.workshop.stock, found.job.workshop.saw.kerf, taken.width + taken.narrow
    end, length = stock.end_trim, taken.length
    board, thick = box(0, 0, length, width), taken.thickness + taken.thin
    ends = [box(0, 0, end, width), box(length - end, 0, length, width)]
    x, lengths, cuts = end, [], []
    for section in taken.lengths:
        lengths.append(box(x, 0, x + section, width))
        x += section
        if x < length - end - 1e-6:
            past = min(x + kerf, length - end)
            cuts.append(box(x, 0, past, width))
            x = past
    rest = box(x, 0, max(x, length - end), width)
    covers([*ends, *lengths, *cuts, *([rest] if rest.area > 1e-6 else [])], board)
    found.add("stock", board.area, thick, taken.count)
    found.add("trimmed", sum(part.area for part in ends), thick, taken.count)
    found.add("kerf", sum(part.area for part in cuts), thick, taken.count)
    found.offcut(width, length - end - x, thick, taken.count)


def _length(found: Tally, board: BoardCut) -> None:
    """Planed, an edge off, ripped from y = edge_trim up, a kerf after each strip as far as there is wood."""
    stock, kerf = found.job.workshop.stock, found.job.workshop.saw.kerf
    face, thick = box(0, 0, board.length, board.width), found.thickness
    found.add("planed", face.area, board.thickness - thick, board.count)
    if board.ready:
        (cut,) = board.strips
        assert cut.strips == 1
        return _strip(found, board, cut, face)
    edge = box(0, 0, board.length, stock.edge_trim)
    y, strips, cuts = stock.edge_trim, [], []
    for cut in board.strips:
        for _ in range(cut.strips):
            top = y + ripped(found.job, found.lots[cut.lot])
            strips.append((cut, box(0, y, board.length, top)))
            y = min(board.width, top + kerf)
            cuts.append(box(0, top, board.length, max(top, y)))
            assert top <= board.width + 1e-5
    rest = box(0, y, board.length, board.width)
    covers([p for p in (edge, rest, *cuts, *(strip for _, strip in strips)) if p.area > 1e-5], face)
    found.add("trimmed", edge.area, thick, board.count)
    found.add("kerf", sum(part.area for part in cuts), thick, board.count)
    found.offcut(board.width - y, board.length, thick, board.count)
    for cut, strip in strips:
        _strip(found, board, cut, strip)


def _strip(found: Tally, board: BoardCut, cut: StripCut, ripped: Polygon) -> None:
    """Edges planed, then pieces cut off by slanted kerfs that lean one way and the other."""
    lot, thick = found.lots[cut.lot], found.thickness
    height, across = (thick, lot.width) if lot.way == "turned over" else (lot.width, thick)
    found.add("planed", ripped.area - lot.width * board.length, thick, board.count)
    strip = box(0, 0, board.length, height)
    bands = [_band(lot, height, k).intersection(strip) for k in range(cut.pieces + 1)]
    regions = strip.difference(shapely.union_all(bands))
    parts = sorted(getattr(regions, "geoms", [regions]), key=lambda part: part.centroid.x)
    first = parts.pop(0) if lot.mitre else None
    # Where pieces and cuts take all of a strip, nothing is left of it.
    rest = parts.pop() if len(parts) > cut.pieces else Polygon()
    assert len(parts) == cut.pieces
    for piece in parts:
        left, _, right, _ = piece.bounds
        assert abs(right - left - lot.longer) < 1e-6
        assert abs(piece.area - (lot.longer + lot.shorter) / 2 * height) < 1e-5
    covers([*bands, *parts, rest, *([first] if first else [])], strip)
    starts = [x for x, _ in rest.exterior.coords if x < board.length - 1e-9]
    square = box(max(starts, default=board.length), 0, board.length, height)
    off = sum(piece.area * across for piece in parts) - cut.pieces * lot.volume
    found.add("pieces", sum(piece.area for piece in parts) - off / across, across, board.count)
    found.add("kerf", sum(band.area for band in bands), across, board.count)
    ends = (first.area if first else 0.0) + rest.area - square.area
    found.add("trimmed", ends + off / across, across, board.count)
    found.offcut(lot.width, square.area / height, thick, board.count)
    assert square.area / height >= lot.held - 1e-6
    found.cut[cut.lot] += cut.pieces * board.count


def _band(lot: Lot, height: float, number: int) -> Polygon:
    """The kerf of one cut, from the strip's end on, the first with its foot at the very end."""
    slope = tan(lot.mitre) * (-1 if number % 2 else 1)
    wide = lot.kerf / abs(_cos(lot.mitre))
    middle = tan(lot.mitre) * height / 2 + number * ((lot.longer + lot.shorter) / 2 + wide)
    reach = height  # past both faces, so that clipping makes the ends exact
    low, high = -slope * (height / 2 + reach), slope * (height / 2 + reach)
    band = Polygon(
        [(low, -reach), (low + wide, -reach), (high + wide, height + reach), (high, height + reach)]
    )
    return translate(band, middle, 0.0)


def _cos(angle: float) -> float:
    return 1 / (1 + tan(angle) ** 2) ** 0.5
