"""Glue: faces, grams, bands, and what is glued up at a time."""

from __future__ import annotations

from math import ceil
from typing import Literal

from geometry.records import Record

Assembly = Literal[
    "sheets", "stacks", "blocks", "rails", "bases", "rings", "bands", "torus", "stack", "courses"
]

POSTS = {"upright": "upright blank", "knob": "knob's square"}  # pieces of these are glued face to face


class GlueFaces(Record):
    """Joints of one sort, each wetted once."""

    name: str
    rings: tuple[int, ...]
    count: int
    area: float  # of all of them, as they are glued, mm2
    grams: float
    sanded: bool  # both sides, before they are glued

    @property
    def each(self) -> float:
        """Area of one."""
        return self.area / self.count


class Band(Record):
    """Clamp bands of one length; no rings: the whole blank."""

    rings: tuple[int, ...]
    around: float
    length: float  # with its overlap


class GlueStage(Record):
    """One step of gluing up: so many pieces to each assembly, and as many of these at a time as the glue allows."""

    assembly: Assembly
    rings: tuple[int, ...]
    what: str  # is made: "pairs", "quarters", "halves", "rings"
    pieces: int  # glued together in each, of what the stage before made
    joints: int  # in each, at most
    count: int  # of assemblies
    at_once: int  # in one batch
    in_time: bool  # all joints of one are closed within the open time
    in_band: int = 1  # of one ring, which its band closes together

    @property
    def batches(self) -> int:
        return ceil(self.count / self.at_once)

    @property
    def whole_bands(self) -> bool:
        """Whether all that one band closes is glued in one batch."""
        return self.at_once >= self.in_band


class GluePlan(Record):
    """All of it."""

    faces: tuple[GlueFaces, ...]
    bands: tuple[Band, ...]
    stages: tuple[GlueStage, ...]
    clamp_time: float  # hours
    cure: float  # hours
    dried: tuple[Assembly, ...]  # what has to dry as long before it is sawn

    @property
    def sanded(self) -> float:
        """Both sides of the joints that are sanded first, mm2."""
        return 2 * sum(faces.area for faces in self.faces if faces.sanded)

    @property
    def grams(self) -> float:
        return sum(faces.grams for faces in self.faces)

    def band(self, ring: int | None) -> Band:
        """Of a ring, or of the whole blank. Raises StopIteration where it has none."""
        return next(b for b in self.bands if ring in b.rings or (ring is None and not b.rings))
