"""How the grain runs in every piece, and how it meets the joints."""

from __future__ import annotations

from math import radians
from typing import Literal

from geometry.records import Record

# The grain's angle with a joint's normal, up to which the glue holds end grain. Common practice, no source:
# scarf joints, which hold, are at 80 degrees or more.
END_GRAIN = radians(30.0)

Direction = Literal[
    "along the outer flat",
    "along the stave",
    "along the axis",
    "across the disc",
    "across the wall",
    "from rim to hole",
    "as the plies lie",
]
Sort = Literal[
    "mitres", "strips", "strips between rings", "ring faces", "wedge faces", "stave edges", "stave ends"
]
Backing = Literal["crossed", "in line", "none"]


class Grain(Record):
    """Its direction in the pieces of these rings."""

    piece: str
    rings: tuple[int, ...]
    runs: Direction


class GrainJoint(Record):
    """Joints of one sort: on each side the angle between the grain and the joint's normal, radians.

    0 is end grain, a right angle long grain. `backing` tells whether long grain glued beside the joint crosses
    it, stands in line with it, or there is none and the joint holds alone.
    """

    sort: Sort
    rings: tuple[int, ...]
    count: int
    angles: tuple[float, float]
    backing: Backing
    solid: bool  # not of plies

    @property
    def end_to_end(self) -> bool:
        """Whether end grain meets end grain."""
        return max(self.angles) <= END_GRAIN

    @property
    def weak(self) -> bool:
        """Whether nothing but end grain on end grain holds the two."""
        return self.end_to_end and self.backing == "none" and self.solid


class GrainPlan(Record):
    """Pieces and joints."""

    pieces: tuple[Grain, ...]
    joints: tuple[GrainJoint, ...]
