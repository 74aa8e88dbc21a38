"""Every flat part and every section at full size on the turner's paper, to glue on, to saw to or to hold against.

Edges are black, lettering and lines thinner, a cross in each round hole. Small ones share a page, in their order; what
is larger than a page lies on several.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from math import ceil, cos, floor, pi, sin, tan

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import Edge, FloatArray
from jigs.asked.job import Job
from jigs.files.drawing import Circle, closed
from jigs.files.marks import centre_lines
from jigs.files.svg import NAMESPACE
from jigs.paper.page import FOOT, MARGIN, SIDE, SIZES
from jigs.paper.tiles import tiling
from jigs.parts.part import Part
from jigs.render.pdf.full_size import Pattern, Share, Sheet, Shown, Size, full_size_document
from jigs.render.pdf.typeset import Document
from jigs.words.lengths import PROOF_LINE, Unit, parse_length, show_length

EDGE, THIN = 0.25, 0.15  # mm, of lines; the middle of a line is the edge
ROOM = 1.0  # round the drawing, for its lines
CROSS = 1.5  # half of a cross in a round hole
OVER = 5.0  # that an axis stands out
DASHES = "6 1.5 1 1.5"


def pattern(part: Part, unit: Unit) -> Pattern:
    """A part's drawing and its caption."""
    x0, y0, x1, y1 = part.outline.bounds
    over = OVER if part.process == "turn" else 0.0
    left, low, right, high = x0 - ROOM, y0 - ROOM - over, x1 + ROOM, y1 + ROOM + over
    size = (right - left, high - low)
    head = (
        f'<svg xmlns="{NAMESPACE}" viewBox="{left:.6f} {-high:.6f} {size[0]:.6f} {size[1]:.6f}" fill="none" '
        f'stroke="#000000" stroke-linejoin="round" stroke-linecap="round">'
    )
    edges = "".join(closed_path(contour.vertices) for contour in (part.outline, *part.holes))
    lines = [line for mark in part.marks for line in centre_lines(mark)]
    lines += [line for hole in part.holes for line in _cross(hole)]
    return Pattern(
        code=part.code,
        name=part.name,
        make=str(part.quantity),
        of=with_thickness(part.material.partition(",")[0], part, unit),
        svg=f"{head}{_path(edges, EDGE)}{_path(open_paths(lines), THIN)}{_axis(part)}</svg>",
        outline=f"{head}{_path(closed_path(part.outline.vertices), size[0] / 60)}</svg>",
        size=size,
    )


def with_thickness(material: str, part: Part, unit: Unit) -> str:
    """What a part is of, and how thick."""
    return f"{material}, {show_length(part.thickness, unit)} thick" if part.thickness else material


def _path(commands: str, width: float, more: str = "") -> str:
    return f'<path d="{commands}" stroke-width="{width:g}"{more}/>' if commands else ""


def _cross(hole: Contour) -> list[FloatArray]:
    circle = closed("drill", hole)
    if not isinstance(circle, Circle):
        return []
    (x, y), far = circle.centre, min(CROSS, circle.radius / 2)
    return [np.array([(x - far, y), (x + far, y)]), np.array([(x, y - far), (x, y + far)])]


def _axis(part: Part) -> str:
    """Of what is turned; it is half a section."""
    if part.process != "turn":
        return ""
    _, low, _, high = part.outline.bounds
    return _path(
        open_paths([np.array([(0.0, low - OVER), (0.0, high + OVER)])]), THIN, f' stroke-dasharray="{DASHES}"'
    )


MOST = pi / 6  # radians in one cubic


def closed_path(vertices: FloatArray) -> str:
    """Of rows (k, 3) of x, y and bulge, y up; in SVG y runs down."""
    rows = vertices.tolist()
    edges = (Edge((a[0], a[1]), (b[0], b[1]), a[2]) for a, b in zip(rows, [*rows[1:], rows[0]], strict=True))
    return f"M{_point(rows[0][:2])}{''.join(command for edge in edges for command in _commands(edge))}Z"


def open_paths(lines: Sequence[FloatArray]) -> str:
    """Of lines of points (k, 2), y up."""
    if not lines:
        return ""
    form = "".join("M%.3f %.3f" + "L%.3f %.3f" * (len(line) - 1) for line in lines)
    return form % tuple((np.concatenate(lines) * (1, -1)).ravel())


def _commands(edge: Edge) -> Iterator[str]:
    if not edge.is_arc:
        yield f"L{_point(edge.end)}"
        return
    count = max(1, ceil(abs(edge.angle) / MOST - 1e-9))  # the flattest arc is still one
    handle = edge.radius * 4 / 3 * abs(tan(edge.angle / count / 4))
    for k in range(count):
        first, last = k / count, (k + 1) / count
        inner = (_along(edge, first, handle), _along(edge, last, -handle), edge.point_at(last))
        yield f"C{' '.join(_point(point) for point in inner)}"


def _along(edge: Edge, t: float, distance: float) -> tuple[float, float]:
    """On the tangent there."""
    (x, y), heading = edge.point_at(t), edge.heading(t)
    return x + distance * cos(heading), y + distance * sin(heading)


def _point(point: Sequence[float]) -> str:
    return f"{point[0]:.3f} {-point[1]:.3f}"


NAME, LINE = 5.5, 4.2  # heights of the lines of a caption
UNDER = 2.0  # below it
LETTER = 1.9  # mm, of a letter as wide as they come
NARROWEST = 62.0  # of a caption
GAP = 7.0  # between drawings
MAP = (64.0, 25.0)  # room for the map of the tiles
ABOVE = MARGIN + 27.0  # of a tile's window
ARROWS = {"\u2190": "left", "\u2191": "up", "\u2192": "right", "\u2193": "down"}
JOIN = "Lay cross over cross, hold the sheets to a light, tape them."


def full_size(parts: Sequence[Part], job: Job) -> Document:
    """What is set as a PDF. A coupon is left out: it measures the machine that makes it."""
    drawn = [part for part in parts if not part.jig.first]
    patterns = [pattern(part, job.unit) for part in drawn]
    words = [_words(part, job) for part in drawn]
    paper, told = SIZES[job.workshop.paper.size], PROOF_LINE[job.unit]
    sheets = list(sheets_of(patterns, words, paper))
    return full_size_document(job.title, paper, (parse_length(told, job.unit), told), patterns, sheets)


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
