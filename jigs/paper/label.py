"""One label: its words, how small they may be on its piece, and how it is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor

from geometry.records import dataclass
from jigs.figures.boxes import text_width
from jigs.figures.figure import Item, Point, Words
from jigs.paper.page import SMALLEST, arrow, line, outline, rectangle, words

PAD = 1.0  # between words and the box
PITCH = 1.2  # from line to line, of the size of the words
EDGE = 1.0  # thickness of the edge that lies to the outer side
LARGEST, TIED = 3.6, 3.1  # sizes of words
ROUND = 1.0  # of the piece's own side that the label leaves free
TICK = 1.0
BESIDE_ARROW = 1.8  # of the size of the words, from a label's side to its title
APART = 0.6  # the same, between what stands side by side
TIE_ON = "tie on"


@dataclass(frozen=True)
class Label:
    """Lines below each other, the title beside the arrow; `left` and `right` stand side by side below them.

    `space` is the width and the height of the side that it is stuck on; without one it is as large as it likes.
    `edge` names the side to which its thick edge lies.
    """

    title: str
    lines: tuple[str, ...]
    left: tuple[str, ...] = ()
    right: tuple[str, ...] = ()
    edge: str = "outer side"
    arrow: bool = True
    middle: bool = False  # a tick at its middle, to be laid on that of its piece
    space: tuple[float, float] | None = None

    @property
    def tied(self) -> bool:
        """Whether its piece is too small for it."""
        return self.space is not None and self._largest(self.space) < SMALLEST

    @property
    def size(self) -> float:
        """Of its words."""
        if self.space is None or self.tied:
            return TIED
        return min(LARGEST, self._largest(self.space))

    @property
    def foot(self) -> tuple[str, ...]:
        """The last lines."""
        return (*((TIE_ON,) if self.tied else ()), *((self.edge,) if self.edge else ()))

    @property
    def box(self) -> tuple[float, float]:
        """Width and height in mm: as large as its words ask, to a whole millimetre where there is room."""
        size = self.size
        rows = self._rows + self.tied
        asked = (self._wide * size + 2 * PAD, rows * PITCH * size + 2 * PAD + EDGE)
        if self.space is None or self.tied:
            return float(ceil(asked[0])), float(ceil(asked[1]))
        most = [floor(mm - 2 * ROUND) for mm in self.space]
        width, height = (min(ceil(mm - 1e-9), limit) for mm, limit in zip(asked, most, strict=True))
        return float(width), float(height)

    @property
    def _wide(self) -> float:
        """Of the longest line, in its own size; the arrow takes as much again on the title's other side."""
        beside = max((text_width(text, 1.0) for text in (*self.left, *self.right)), default=0.0)
        title = text_width(self.title, 1.0) + (2 * BESIDE_ARROW if self.arrow else 0.0)
        rest = (text_width(text, 1.0) for text in (*self.lines, self.edge, TIE_ON))
        return max(title, *rest, 2 * (beside + APART))

    @property
    def _rows(self) -> int:
        beside = max(len(self.left), len(self.right))
        return 1 + len(self.lines) + beside + bool(self.edge)

    def _largest(self, space: tuple[float, float]) -> float:
        """Size of words on a side of the piece."""
        across, up = (floor(mm - 2 * ROUND) - 2 * PAD for mm in space)
        return min(across / self._wide, (up - EDGE) / (PITCH * self._rows))


def drawn(label: Label, at: Point) -> list[Item]:
    """The label with its upper left corner there."""
    (x, y), (width, height), size = at, label.box, label.size
    pitch, middle = PITCH * size, x + width / 2
    rows: list[Item] = [*_lines((label.title, *label.lines), middle, y + PAD + size, size)]
    below = y + PAD + size + pitch * (1 + len(label.lines))
    quarter = width / 4
    rows += _lines(label.left, middle - quarter, below, size)
    rows += _lines(label.right, middle + quarter, below, size)
    last = y + height - EDGE - PAD - pitch * (len(label.foot) - 1)
    rows += _lines(label.foot, middle, last, size)
    if label.edge:
        rows.append(line((x, y + height - EDGE / 2), (x + width, y + height - EDGE / 2), EDGE))
    if label.arrow:
        rows.append(arrow((x + PAD + 0.6 * size, y + PAD), 1.1 * size))
    if label.middle:
        rows.append(line((middle, y), (middle, y + TICK)))
    return [outline(rectangle(x, y, width, height)), *rows]


def _lines(texts: Sequence[str], middle: float, first: float, size: float) -> list[Words]:
    """Centred below each other; an empty one keeps its place."""
    places = ((middle, first + k * PITCH * size) for k in range(len(texts)))
    return [words(at, text, size, "middle") for at, text in zip(places, texts, strict=False) if text]
