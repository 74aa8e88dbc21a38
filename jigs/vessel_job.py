"""What the user asked for in a vessel job, as validated: lengths in mm, every default filled in."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from geometry.plane.profile import Profile
from jigs.job import Job

HeightChoice = Literal["fewest rings", "least wood"]
Base = Literal["solid", "segmented", "floating"]
Grain = Literal["across", "upright"]
Hold = Literal["auto", "taper", "inside", "bolt", "none"]
Way = Literal["stations", "edges", "drawing"]


@dataclass(frozen=True, eq=False)
class Shape:
    """A profile as it was given, and as the exact chain it has become; it need not be one that can be turned."""

    way: Way
    profile: Profile
    within: float  # of a smooth curve, that its arcs keep to; 0 for what was given as lines and arcs
    stations: tuple[float, ...]  # heights at which a diameter was stated
    said: tuple[str, ...]  # how a drawing was read
    source: Path | None  # the drawing


@dataclass(frozen=True)
class WallWish:
    """The wall: one thickness, or by height (height, wall); neither where there is an inside of its own."""

    thickness: float | None
    by_height: tuple[tuple[float, float], ...] | None
    floor: float | None  # None: the wall at the foot
    inner_corner: float
    least: float


@dataclass(frozen=True)
class Foot:
    """The hollow in the foot; zeros are a flat foot."""

    recess_diameter: float
    recess_depth: float


@dataclass(frozen=True)
class RingsWish:
    """The rings, from the foot up; of lists by ring the last entry goes on."""

    heights: tuple[float, ...] | HeightChoice
    segments: tuple[int, ...]
    species: tuple[tuple[str, ...], ...]  # by ring, then round its segments
    half_turn: bool
    base: Base | None  # None: by how wide a disc would be
    core_plug: (
        float | None
    )  # diameter, in rings of segments that would meet in the middle; 0: none; None: the least
    upright: tuple[int, ...] | None  # rings of one solid piece, the grain along the axis
    spacer: float
    spacer_species: str | None
    gap: float
    turning_allowance: float
    least_glue: float
    least_segment: float  # outer edge
    joint_sanding: float
    flattening: float  # off both faces of a ring together
    waste_block: float

    @property
    def between(self) -> float:
        """Width of what stands between two segments of a ring: strip or gap."""
        return self.gap or self.spacer


@dataclass(frozen=True)
class StavesWish:
    """Tapered staves for a range of heights."""

    low: float
    high: float
    count: int
    species: tuple[str, ...]  # round the staves


@dataclass(frozen=True)
class FloatingWish:
    """The disc of a base that floats; moisture in per cent."""

    species: str | None  # None: the lowest ring's first
    grain: Grain
    moisture: float  # as it is fitted
    driest: float
    wettest: float


@dataclass(frozen=True)
class ReversingWish:
    """Holding the vessel by its mouth."""

    hold: Hold
    base_hole: float
    taper: float  # degrees
    depth: float
    lining: float
    friction: float


@dataclass(frozen=True, kw_only=True, eq=False)
class VesselJob(Job):
    """A bowl, vase or platter of stacked rings."""

    outside: Shape
    inside: Shape | None
    wall: WallWish
    foot: Foot
    rings: RingsWish
    staves: StavesWish | None
    floating: FloatingWish
    reversing: ReversingWish

    @property
    def sources(self) -> tuple[Path, ...]:
        """The files it was read from, drawings among them."""
        shapes = (shape.source for shape in (self.outside, self.inside) if shape is not None)
        return (*super().sources, *(source for source in shapes if source is not None))
