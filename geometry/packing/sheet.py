"""Rectangles laid on a sheet, each as low as it can lie. Whole numbers of any unit.

Maximal rectangles, bottom left (Jylänki, A Thousand Ways to Pack the Bin, 2010).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

Box = tuple[int, int, int, int]  # left, low, right, high


class Room:
    """What is free on a sheet, as the largest rectangles that are; they overlap."""

    def __init__(self, width: int, height: int) -> None:
        self._free: list[Box] = [(0, 0, width, height)]

    def lay(self, width: int, height: int) -> Box | None:
        """Where a rectangle lies, as it is or turned by a quarter, its top lowest; None where it has no room."""
        ways = [
            (left, low, left + wide, low + tall)
            for wide, tall in ((width, height), (height, width))
            for left, low, right, high in self._free
            if left + wide <= right and low + tall <= high
        ]
        if not ways:
            return None
        laid = min(ways, key=lambda way: way[3])
        whole = {box for box in self._free if _apart(box, laid)}
        parts = dict.fromkeys(
            part for box in self._free for part in ([box] if box in whole else _beside(box, laid))
        )
        self._free = [box for box in parts if box in whole or not _within_another(box, parts)]
        return laid


def _apart(one: Box, other: Box) -> bool:
    return other[0] >= one[2] or other[2] <= one[0] or other[1] >= one[3] or other[3] <= one[1]


def _beside(box: Box, laid: Box) -> Iterator[Box]:
    """The largest rectangles of a box that keep off what is laid in it."""
    left, low, right, high = box
    x0, y0, x1, y1 = laid
    if left < x0:
        yield left, low, x0, high
    if x1 < right:
        yield x1, low, right, high
    if y1 < high:
        yield left, y1, right, high
    if low < y0:
        yield left, low, right, y0


def _within_another(box: Box, boxes: Iterable[Box]) -> bool:
    left, low, right, high = box
    holding = [
        other
        for other in boxes
        if other[0] <= left and other[1] <= low and right <= other[2] and high <= other[3]
    ]
    return len(holding) > 1
