"""What is larger than a page on several: how many lie beside each other, where each begins, where they meet."""

from __future__ import annotations

from math import ceil

from geometry.records import Record

OVERLAP = 10.0  # mm that neighbours both show
INSET = 20.0  # mm from a tile's edges to the crosses along a seam

Size = tuple[float, float]
Point = tuple[float, float]


class Tile(Record):
    """One page's share: its column and row, its corner on what is drawn, and the crosses that it shows.

    Lengths in mm from the upper left corner of what is drawn, y down.
    """

    column: int
    row: int
    corner: Point
    crosses: tuple[Point, ...]


class Tiling(Record):
    """Tiles as large as `window`, row by row; `turned` on pages that lie on their long side."""

    columns: int
    rows: int
    window: Size
    turned: bool
    tiles: tuple[Tile, ...]


def tiling(size: Size, window: Size, turned_window: Size) -> Tiling:
    """On as few pages as either way of the paper takes; upright where both take as many."""
    upright, lying = (_tiled(size, own, own is turned_window) for own in (window, turned_window))
    return lying if len(lying.tiles) < len(upright.tiles) else upright


def _tiled(size: Size, window: Size, turned: bool) -> Tiling:
    columns, rows = (_count(long, room) for long, room in zip(size, window, strict=True))
    crosses = _crosses(columns, rows, window)
    tiles = tuple(
        Tile(column, row, corner, tuple(cross for cross in crosses if _shows(corner, window, cross)))
        for row in range(rows)
        for column in range(columns)
        for corner in [(column * (window[0] - OVERLAP), row * (window[1] - OVERLAP))]
    )
    return Tiling(columns, rows, window, turned, tiles)


def _count(long: float, room: float) -> int:
    return max(1, ceil((long - OVERLAP) / (room - OVERLAP) - 1e-9))


def _crosses(columns: int, rows: int, window: Size) -> list[Point]:
    """In the middle of each overlap: where four pages meet, and near both ends of each seam of two."""
    (xs, own_x), (ys, own_y) = (_stations(n, long) for n, long in zip((columns, rows), window, strict=True))
    return [*((x, y) for x in xs for y in (*ys, *own_y)), *((x, y) for y in ys for x in own_x)]


def _stations(count: int, long: float) -> tuple[list[float], list[float]]:
    """Along one axis: the middles of the overlaps, and two places in each tile's own part."""
    step = long - OVERLAP
    seams = [k * step + OVERLAP / 2 for k in range(1, count)]
    return seams, [k * step + place for k in range(count) for place in (INSET, long - INSET)]


def _shows(corner: Point, window: Size, point: Point) -> bool:
    return all(low <= at <= low + long for low, long, at in zip(corner, window, point, strict=True))
