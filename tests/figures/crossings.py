"""What words of a figure lie over, found by shapely from what is drawn: lines that are not covered, other words."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise
from math import atan, atan2, cos, hypot, sin

from shapely import LineString, Polygon, STRtree, union_all

from jigs.figures.clear import text_width
from jigs.figures.figure import Figure
from jigs.figures.items import Shape, Words

STEP = 0.1  # radians of an arc to a chord
NO_LENGTH = 1e-6


def crossings(figure: Figure) -> list[tuple[str, str]]:
    """Each line of words with what it lies over."""
    scale = figure.scale
    drawn = figure.drawn(scale)
    words = [(one, around(one, scale)) for one in drawn if isinstance(one, Words) and one.text]
    shapes = [one for one in drawn if isinstance(one, Shape)]
    paths = [_path(one) for one in shapes]
    tree = STRtree(paths)
    found = [
        (one.text, f"a line of {shapes[k].stroke or shapes[k].fill}")
        for one, box in words
        for k in tree.query(box, predicate="intersects")
        if _seen(paths[k].intersection(box), shapes, paths, k)
    ]
    met = (
        (one.text, other.text)
        for (one, a), (other, b) in combinations(words, 2)
        if a.intersection(b).area > NO_LENGTH
    )
    return [*found, *met]


def _seen(line: LineString, shapes: list[Shape], paths: list[LineString], number: int) -> bool:
    """Whether some of it is left that no area drawn later covers."""
    later = range(number + 1, len(shapes))
    over = [Polygon(paths[k].coords) for k in later if shapes[k].fill and paths[k].envelope.intersects(line)]
    return bool(line.difference(union_all(over).buffer(NO_LENGTH)).length > NO_LENGTH)


def around(words: Words, scale: float) -> Polygon:
    """From the base line to the top of its capitals, and under it where a letter reaches there."""
    wide, size = text_width(words.text, words.size) / scale, words.size / scale
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[words.anchor]
    low = -0.22 * size if set(words.text) & set("gjpqy,;()Q/") else 0.0
    c, s = cos(words.angle), sin(words.angle)
    corners = ((start, low), (start + wide, low), (start + wide, 0.73 * size), (start, 0.73 * size))
    return Polygon([(words.at[0] + x * c - y * s, words.at[1] + x * s + y * c) for x, y in corners])


def _path(shape: Shape) -> LineString:
    rows = [*shape.rows, *(shape.rows[:1] if shape.closed else ())]
    points = [rows[0][:2], *(point for a, b in pairwise(rows) for point in _along(a, b))]
    return LineString(points)


def _along(a: tuple[float, float, float], b: tuple[float, float, float]) -> Iterator[tuple[float, float]]:
    """The bulge is the tangent of a quarter of the arc's angle."""
    if a[2]:
        up = (1 - a[2] ** 2) / (4 * a[2])
        x, y = (a[0] + b[0]) / 2 - (b[1] - a[1]) * up, (a[1] + b[1]) / 2 + (b[0] - a[0]) * up
        radius, start, turn = hypot(a[0] - x, a[1] - y), atan2(a[1] - y, a[0] - x), 4 * atan(a[2])
        count = max(2, int(abs(turn) / STEP))
        yield from ((x + radius * cos(start + turn * k / count), y + radius * sin(start + turn * k / count))
                    for k in range(1, count))  # fmt: skip
    yield b[:2]
