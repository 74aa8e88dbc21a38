"""A sheet with cut parts on it: what lies where."""

from __future__ import annotations

from collections import Counter
from math import cos, pi, sin

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray
from geometry.records import dataclass
from jigs.parts.part import Part


@dataclass(frozen=True)
class Placed:
    """One copy of a part: turned about its own origin, counter-clockwise, then moved by (x, y), mm."""

    part: Part
    copy: int  # from 1
    x: float
    y: float
    turns: int  # quarter turns, 0 to 3

    @property
    def plate(self) -> int:
        """Which plate of its stack it is, from 1."""
        return (self.copy - 1) % self.part.stack + 1

    def points(self, own: FloatArray) -> FloatArray:
        """Points (k, 2) of the part's own drawing as they lie on the sheet."""
        return np.asarray(own @ quarter_turn(self.turns) + (self.x, self.y), dtype=np.float64)

    def contour(self, own: Contour) -> Contour:
        """One of the part's contours as it lies on the sheet; exact, since a quarter turn is."""
        return Contour(np.column_stack((self.points(own.points), own.vertices[:, 2])))


@dataclass(frozen=True)
class Sheet:
    """One sheet on the cutter's bed, its lower left corner at the origin. `name` is that of its file, mm."""

    name: str
    material: str
    thickness: float  # of the offcut itself, else of the parts
    size: tuple[float, float]
    offcut: bool
    placed: tuple[Placed, ...]
    facts: tuple[tuple[str, str], ...] = ()  # name and value, for whoever finds its file alone

    @property
    def file(self) -> str:
        return f"sheets/{self.name}.dxf"

    @property
    def contents(self) -> str:
        """ "3 SG sled-gusset, SB sled-base": each part, once, in the order in which they were laid down."""
        return ", ".join(self.rows)

    @property
    def rows(self) -> tuple[str, ...]:
        """The same, one by one."""
        counts = Counter(f"{item.part.code} {item.part.name}" for item in self.placed)
        return tuple(f"{count} {name}" if count > 1 else name for name, count in counts.items())

    @property
    def used(self) -> float:
        """Share of its area that lies under parts, their holes counted."""
        return sum(abs(item.part.outline.area) for item in self.placed) / (self.size[0] * self.size[1])


def quarter_turn(turns: int) -> FloatArray:
    """Matrix (2, 2) that turns rows of points by so many quarter turns, of whole numbers only."""
    c, s = round(cos(turns * pi / 2)), round(sin(turns * pi / 2))
    return np.array(((c, s), (-s, c)), dtype=np.float64)
