"""A figure as lines and words at a scale: dimensions and callouts where there is room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain, islice
from typing import TypeAlias

from jigs.figures.boxes import bounds_of
from jigs.figures.clear import clearest
from jigs.figures.dimension import arrow_items, dimension_items
from jigs.figures.figure import WORDS, Arrow, Box, Callout, Caption, Dimension, Item, Shape, Words
from jigs.figures.shapes import line

PITCH = 1.45  # of words above one another, of their size
BESIDE = 4.0  # mm from the drawing to the words beside it
DOT = 0.45  # mm, radius
Movable: TypeAlias = tuple[Item, Words, Iterator[Words]]  # with the first place of its words, and the others


def laid(items: Iterable[Item], scale: float) -> tuple[Shape | Words, ...]:
    """All of it as lines and words, these on dimensions and at arrows where they go first of all."""
    drawn, movable = _laid(items, scale)
    return (*drawn, *(first for _, first, _ in movable))


def laid_clear(items: Sequence[Item], scale: float) -> tuple[Shape | Words, ...]:
    """The same with the words on dimensions and at arrows moved off whatever they would lie on: where there is no such
    place, beside the drawing, with a line to what they tell."""
    drawn, movable = _laid(items, scale)
    shapes = [one for one in drawn if isinstance(one, Shape)]
    words = [one for one in drawn if isinstance(one, Words)]
    crowded: list[Item] = []
    for item, first, others in movable:
        found = clearest(chain((first,), others), shapes, words, scale)
        if found is None:
            crowded.append(item)
        else:
            words.append(found)
    if crowded:
        return laid_clear([other for item in items for other in _beside_it(item, crowded, scale)], scale)
    return (*shapes, *words)


def _beside_it(item: Item, crowded: Sequence[Item], scale: float) -> Iterator[Item]:
    """The item, or its lines and a callout where it is one of these."""
    if isinstance(item, Dimension) and item in crowded:
        lines, _ = dimension_items(item, scale)
        yield from lines
        (x0, y0, _), (x1, y1, _) = lines[2].rows
        yield Callout(item.text, ((x0 + x1) / 2, (y0 + y1) / 2))
    elif isinstance(item, Arrow) and item in crowded:
        yield replace(item, text="")
        yield Callout(item.text, ((item.a[0] + item.b[0]) / 2, (item.a[1] + item.b[1]) / 2))
    else:
        yield item


def _laid(items: Iterable[Item], scale: float) -> tuple[list[Shape | Words], list[Movable]]:
    """What stays where it is, and what has words that may go to one of several places."""
    drawn: list[Shape | Words] = []
    callouts: list[Callout] = []
    captions: list[Caption] = []
    movable: list[Movable] = []
    for item in items:
        if isinstance(item, Shape | Words):
            drawn.append(item)
        elif isinstance(item, Dimension):
            lines, places = dimension_items(item, scale)
            drawn += lines
            movable += [(item, first, places) for first in islice(places, 1)]
        elif isinstance(item, Arrow):
            lines, places = arrow_items(item, scale)
            drawn += lines
            movable += [(item, first, places) for first in islice(places, 1)]
        elif isinstance(item, Callout):
            callouts.append(item)
        else:
            captions.append(item)
    firsts = [first for _, first, _ in movable]
    if callouts:
        drawn += _beside(callouts, bounds_of([*drawn, *firsts], scale), scale)
    for caption in captions:
        drawn += _over(caption, bounds_of([*drawn, *firsts], scale), scale)
    return drawn, movable


def _beside(callouts: Sequence[Callout], box: Box, scale: float) -> list[Shape | Words]:
    """In a column on either side, in the order in which what they name lies, so that no two lines cross."""
    x0, y0, x1, y1 = box
    drawn: list[Shape | Words] = []
    left = [one for one in callouts if one.side == "left" or (not one.side and one.to[0] < (x0 + x1) / 2)]
    right = [one for one in callouts if one not in left]
    for column, x, way in ((left, x0, -1), (right, x1, 1)):
        ordered = sorted(column, key=lambda one: -one.to[1])
        pitch = PITCH * WORDS / scale
        for one, y in zip(ordered, _spread([o.to[1] for o in ordered], pitch, y0, y1), strict=True):
            at = x + way * BESIDE / scale
            dot = DOT / scale
            rows = ((one.to[0] - dot, one.to[1], 1.0), (one.to[0] + dot, one.to[1], 1.0))
            drawn.append(line((at, y), one.to, paint="grey"))
            drawn.append(Shape(rows, closed=True, fill="ink", stroke=None))
            words = (at + way * 0.8 / scale, y - 0.35 * WORDS / scale)
            drawn.append(Words(one.text, words, anchor="end" if way < 0 else "start"))
    return drawn


def _over(caption: Caption, box: Box, scale: float) -> list[Shape | Words]:
    """From the left edge of all else."""
    left, _, _, high = box
    pitch, count = PITCH * WORDS / scale, len(caption.lines)
    return [
        Words(text, (left, high + (count - k - 0.5) * pitch), bold=k == 0)
        for k, text in enumerate(caption.lines)
    ]


def _spread(wanted: Sequence[float], pitch: float, low: float, high: float) -> list[float]:
    """Heights from the top down, near those wanted, none nearer to the next than the pitch."""
    found: list[float] = []
    for y in wanted:
        found.append(min(y, found[-1] - pitch) if found else min(y, high))
    for k in range(len(found) - 1, -1, -1):
        least = low if k == len(found) - 1 else found[k + 1] + pitch
        found[k] = max(found[k], least)
    return found
