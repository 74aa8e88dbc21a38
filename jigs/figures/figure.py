"""A figure: what is drawn, and at what scale it has room on paper."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from math import inf

from geometry.records import Record
from jigs.figures.clear import bounds_of
from jigs.figures.items import Box, Item, Point, Shape, Words
from jigs.figures.laid import laid, laid_clear

LARGEST = 2.0  # mm of paper for one of the work
MARGIN = 2.0  # mm round a figure
NEAR = 0.004  # of a scale, how near the largest one is found
STEP = 0.2  # of a scale: after a smaller step than this the next would be next to nothing
TRIES = 3  # until words that had to be moved fit on the paper too


class Figure(Record):
    """`alt` says in words what it shows, for those who cannot see it."""

    id: str
    title: str
    alt: str
    items: tuple[Item, ...]
    width: float = 165.0  # mm of paper at most
    height: float = 105.0
    margin: float = MARGIN
    page: Point | None = None  # width and height of the paper that it is printed on at its true size

    @cached_property
    def scale(self) -> float:
        """mm of paper for each mm of the work: as large as it fits, words and all, never larger than life twice."""
        return self._fitted[0]

    @cached_property
    def _fitted(self) -> tuple[float, tuple[Shape | Words, ...]]:
        """The scale with what is drawn at it; smaller where words had to be moved out of the paper."""
        if self.page:
            return 1.0, laid_clear(self.items, 1.0)
        return fitted(self.items, self.width, self.height, LARGEST)

    def drawn(self, scale: float) -> tuple[Shape | Words, ...]:
        """All of it as lines and words, at this scale."""
        return self._fitted[1] if scale == self.scale else laid_clear(self.items, scale)

    def bounds(self, scale: float) -> Box:
        """Of all that is drawn, in mm of the work, at this scale; of a page all of it, from its upper left corner."""
        if self.page:
            return 0.0, -self.page[1], self.page[0], 0.0
        return bounds_of(self.drawn(scale), scale)


def fitted(
    items: Sequence[Item], width: float, height: float, most: float
) -> tuple[float, tuple[Shape | Words, ...]]:
    """That scale, and what is drawn at it."""
    wide, high = width, height
    for _ in range(TRIES):
        scale = fitting(items, wide, high, most)
        drawn = laid_clear(items, scale)
        x0, y0, x1, y1 = bounds_of(drawn, scale)
        over = (x1 - x0) * scale - width, (y1 - y0) * scale - height
        if max(over) <= NEAR * width:
            break
        wide, high = wide - max(over[0], 0.0), high - max(over[1], 0.0)
    return scale, drawn


def fitting(items: Sequence[Item], width: float, height: float, most: float) -> float:
    """The largest scale at which all of it has room. Words take the same room at any scale, so that only what the
    shapes take can shrink."""
    small = _framed(items)
    scale = min(most, _bare(small, width, height))
    for _ in range(12):
        drawn = laid(small, scale)
        x0, y0, x1, y1 = bounds_of(drawn, scale)
        left, low, right, high = bounds_of([one for one in drawn if isinstance(one, Shape)] or drawn, scale)
        spare = ((width - scale * (x1 - x0), right - left), (height - scale * (y1 - y0), high - low))
        step = min(room / size for room, size in spare if size > 0)
        if scale + step >= most and scale == most:
            return most
        scale, before = min(most, max(scale + step, 0.3 * scale)), scale
        if abs(step) <= STEP * before:
            break
    return scale


def _bare(items: Iterable[Item], width: float, height: float) -> float:
    """The scale at which the shapes alone would fill the paper."""
    boxes = [item.box for item in items if isinstance(item, Shape)]
    sizes = [
        (high - low, room)
        for x0, y0, x1, y1 in boxes
        for low, high, room in ((x0, x1, width), (y0, y1, height))
    ]
    return min((room / size for size, room in sizes if size > 0), default=inf)


def _framed(items: Sequence[Item]) -> list[Item]:
    """The same with one rectangle round all shapes in their stead."""
    boxes = [item.box for item in items if isinstance(item, Shape)]
    rest: list[Item] = [item for item in items if not isinstance(item, Shape)]
    if not boxes:
        return rest
    left, low, right, high = zip(*boxes, strict=True)
    x0, y0, x1, y1 = min(left), min(low), max(right), max(high)
    return [Shape(((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)), closed=True), *rest]
