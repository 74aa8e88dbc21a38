"""A figure: what is drawn, in mm of the work, y up; and how large it is on paper.

Words, line widths and arrows are in mm of the paper, so that they read alike whatever the scale. Paints are names:
what each looks like, in colour and without, is the back end's.
"""

from __future__ import annotations

from functools import cached_property
from typing import Literal, TypeAlias

from geometry.records import dataclass

Paint = Literal[
    "ink",
    "grey",
    "pale",
    "paper",
    "wood",
    "other wood",
    "waste",
    "finished",
    "turned",
    "jig",
    "metal",
    "blade",
]
Point: TypeAlias = tuple[float, float]
Rows: TypeAlias = tuple[tuple[float, float, float], ...]
Box: TypeAlias = tuple[float, float, float, float]
Anchor = Literal["start", "middle", "end"]
THIN, THICK = 0.18, 0.5  # mm of line
WORDS = 3.4  # mm, of the size of words
LARGEST = 2.0  # mm of paper for one of the work
MARGIN = 2.0  # mm round a figure


@dataclass(frozen=True)
class Shape:
    """A chain of straight and circular edges, as rows of x, y and bulge; filled, stroked, or both.

    `colour` is that of a fill which is no paint: a wood's own, as "#dfc79b".
    """

    rows: Rows
    closed: bool = False
    fill: Paint | None = None
    stroke: Paint | None = "ink"
    width: float = THIN
    dashes: tuple[float, ...] = ()  # mm of paper
    holes: tuple[Rows, ...] = ()
    colour: str = ""
    opacity: float = 1.0  # of the fill
    name: str = ""  # shown where a pointer rests on it

    @cached_property
    def box(self) -> Box:
        """Round it, arcs too."""
        from jigs.figures.boxes import shape_box

        return shape_box(self)


@dataclass(frozen=True)
class Words:
    """One line; `at` is on its base line."""

    text: str
    at: Point
    size: float = WORDS
    anchor: Anchor = "start"
    bold: bool = False
    angle: float = 0.0  # radians
    paint: Paint = "ink"


@dataclass(frozen=True)
class Dimension:
    """A length between two places, its line to the left of the way from one to the other: `off` mm of paper and
    `away` mm of the work, to the right where they are negative.

    `times`: how much larger than the rest of the figure it is drawn.
    """

    a: Point
    b: Point
    text: str
    off: float = 8.0
    away: float = 0.0
    times: float = 1.0


@dataclass(frozen=True)
class Arrow:
    """A way that something moves, its head at `b`; with words beside its middle, or over it where it is level."""

    a: Point
    b: Point
    text: str = ""
    side: Literal["left", "right"] = "left"
    paint: Paint = "ink"


@dataclass(frozen=True)
class Callout:
    """Words beside the drawing, with a line to what they name; on its nearer side where none is given."""

    text: str
    to: Point
    side: Literal["", "left", "right"] = ""


@dataclass(frozen=True)
class Caption:
    """Lines above all else, the first one bold."""

    lines: tuple[str, ...]


Item: TypeAlias = Shape | Words | Dimension | Arrow | Callout | Caption


@dataclass(frozen=True)
class Figure:
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
        from jigs.figures.fitting import fitted
        from jigs.figures.laid import laid_clear

        if self.page:
            return 1.0, laid_clear(self.items, 1.0)
        return fitted(self.items, self.width, self.height, LARGEST)

    def drawn(self, scale: float) -> tuple[Shape | Words, ...]:
        """All of it as lines and words, at this scale."""
        from jigs.figures.laid import laid_clear

        return self._fitted[1] if scale == self.scale else laid_clear(self.items, scale)

    def bounds(self, scale: float) -> Box:
        """Of all that is drawn, in mm of the work, at this scale; of a page all of it, from its upper left corner."""
        from jigs.figures.boxes import bounds_of

        if self.page:
            return 0.0, -self.page[1], self.page[0], 0.0
        return bounds_of(self.drawn(scale), scale)
