"""Every flat part and every section at full size on the turner's paper, to glue on, to saw to or to hold against.

Small ones share a page, in their order; what is larger than a page lies on several.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from math import floor

from jigs.asked.job import Job
from jigs.paper.page import FOOT, MARGIN, SIDE, SIZES
from jigs.paper.pattern import pattern, with_thickness
from jigs.paper.tiles import tiling
from jigs.parts.part import Part
from jigs.render.pdf.full_size import Pattern, Share, Sheet, Shown, Size, full_size_pdf
from jigs.words.lengths import PROOF_LINE, parse_length

NAME, LINE = 5.5, 4.2  # heights of the lines of a caption
UNDER = 2.0  # below it
LETTER = 1.9  # mm, of a letter as wide as they come
NARROWEST = 62.0  # of a caption
GAP = 7.0  # between drawings
MAP = (64.0, 25.0)  # room for the map of the tiles
ABOVE = MARGIN + 27.0  # of a tile's window
ARROWS = {"\u2190": "left", "\u2191": "up", "\u2192": "right", "\u2193": "down"}
JOIN = "Lay cross over cross, hold the sheets to a light, tape them."


def full_size(parts: Sequence[Part], job: Job) -> bytes:
    """The PDF. A coupon is left out: it measures the machine that makes it."""
    drawn = [part for part in parts if not part.jig.first]
    patterns = [pattern(part, job.unit) for part in drawn]
    words = [_words(part, job) for part in drawn]
    paper, told = SIZES[job.workshop.paper.size], PROOF_LINE[job.unit]
    sheets = list(sheets_of(patterns, words, paper))
    return full_size_pdf(job.title, paper, (parse_length(told, job.unit), told), patterns, sheets)


def _words(part: Part, job: Job) -> str:
    of = with_thickness(part.material[0].upper() + part.material[1:], part, job.unit)
    half = " Half a section; the dashed line is the axis." if part.process == "turn" else ""
    letter = f" Write on it: {'; '.join(map(_spelt, part.beside))}." if part.beside else ""
    return f"{job.title}. Make {part.quantity}. {of}.{half}{letter}"


def _spelt(words: str) -> str:
    """With arrows as words, which the font lacks."""
    for arrow, way in ARROWS.items():
        words = words.replace(arrow, f"(arrow {way})")
    return words


def sheets_of(patterns: Sequence[Pattern], words: Sequence[str], paper: Size) -> Iterator[Sheet]:
    """The pages in the order of the patterns, `words` above each."""
    row = _Rows(paper)
    for number, (one, said) in enumerate(zip(patterns, words, strict=True)):
        wide, high = one.size
        across = max(wide, NARROWEST)
        caption = _wrapped(said, across)
        tall = _caption_height(caption) + high
        if row.takes_alone(across, tall):
            if not row.has_room(across, tall):
                yield row.page()
            row.add(number, caption, across, tall)
        else:
            if row.shown:
                yield row.page()
            yield from _tiles(number, one, said, paper)
    if row.shown:
        yield row.page()


class _Rows:
    """A page that is being filled, from left to right and down."""

    def __init__(self, paper: Size) -> None:
        self.paper = paper
        self.right, self.bottom = paper[0] - MARGIN - SIDE, paper[1] - MARGIN - FOOT
        self._clear()

    def _clear(self) -> None:
        self.shown: list[Shown] = []
        self.x, self.y, self.high = MARGIN, MARGIN, 0.0

    def takes_alone(self, wide: float, tall: float) -> bool:
        """Whether an empty page has room for it."""
        return MARGIN + wide <= self.right and MARGIN + tall <= self.bottom

    def has_room(self, wide: float, tall: float) -> bool:
        x, y = self._next(wide)
        return x + wide <= self.right and y + tall <= self.bottom

    def _next(self, wide: float) -> tuple[float, float]:
        if self.x + wide <= self.right or self.x == MARGIN:
            return self.x, self.y
        return MARGIN, self.y + self.high + GAP

    def add(self, number: int, caption: tuple[str, ...], wide: float, tall: float) -> None:
        x, y = self._next(wide)
        if y > self.y:
            self.high = 0.0
        drawing = (x, y + _caption_height(caption))
        self.shown.append(Shown(number, drawing, (x, y), caption, first=True))
        self.x, self.y, self.high = x + wide + GAP, y, max(self.high, tall)

    def page(self) -> Sheet:
        """The page as it is; the next one is empty."""
        made = Sheet(self.paper, tuple(self.shown))
        self._clear()
        return made


def _tiles(number: int, one: Pattern, said: str, paper: Size) -> Iterator[Sheet]:
    """On as many pages as it takes, one for a part that fits on one as long as it lies."""
    way = tiling(one.size, _window(paper), _window((paper[1], paper[0])))
    size = (paper[1], paper[0]) if way.turned else paper
    wide = size[0] - 2 * MARGIN - MAP[0]
    for k, tile in enumerate(way.tiles):
        told = f"{said} Sheet {k + 1} of {len(way.tiles)}. {JOIN}" if len(way.tiles) > 1 else said
        caption = _wrapped(told, wide)
        x, y = MARGIN - tile.corner[0], ABOVE - tile.corner[1]
        share = Share(
            corner=(MARGIN, ABOVE),
            size=way.window,
            tiles=tuple(other.corner for other in way.tiles),
            number=k,
            crosses=tuple((x + cx, y + cy) for cx, cy in tile.crosses),
        )
        yield Sheet(size, (Shown(number, (x, y), (MARGIN, MARGIN), caption, first=k == 0),), share)


def _window(paper: Size) -> Size:
    return paper[0] - 2 * MARGIN - SIDE, paper[1] - ABOVE - MARGIN - FOOT


def _wrapped(text: str, wide: float) -> tuple[str, ...]:
    return tuple(textwrap.wrap(text, floor(wide / LETTER)))


def _caption_height(lines: Sequence[str]) -> float:
    return NAME + LINE * len(lines) + UNDER
