"""The finished half section of a vessel, what it holds, and what a blank must leave round it.

Frame: x is the radius, y the height; the foot stands at 0 and the rim is up. Lengths mm, volumes mm³.
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from geometry.bodies.wall import TooTight as TooTight
from geometry.bodies.wall import inner_from_wall as inner_from_wall
from geometry.bodies.wall_measure import least_wall as least_wall
from geometry.plane.contour import Contour
from geometry.plane.edges import SAME_POINT, Edge, lengths_of
from geometry.plane.loops import chain, cut
from geometry.plane.offset import offset
from geometry.plane.profile import Profile, revolved_volume
from geometry.records import Record, cached_property

_TOUCH = 1e-6  # mm
_ON_AXIS = 1e-6  # mm; what lies no farther out is on the axis


class Section(Record, eq=False):
    """The section of a turned vessel on one side of its axis.

    `outer` rises from the foot at height 0 to the rim; `inner` runs from the axis out along the floor and rises
    to the mouth, at the rim's height; one that starts beside the axis, at height 0, goes right through, and there
    is no floor. A hollow of `recess_radius` and `recess_depth` may be turned into the foot. Raises ValueError where
    these do not fit together.
    """

    outer: Profile
    inner: Profile
    recess_radius: float = 0.0
    recess_depth: float = 0.0

    def __post_init__(self) -> None:
        if abs(self.outer.start[1]) > _ON_AXIS or (self.through and abs(self.inner.start[1]) > _ON_AXIS):
            raise ValueError("a vessel's outside starts at height 0, and its inside on the axis or there too")
        if self.through and (self.recess_radius or self.inner.start[0] >= self.foot_radius):
            raise ValueError("a hollow that goes right through leaves a foot, and none of it is hollowed")
        if abs(self.inner.end[1] - self.height) > _ON_AXIS or self.mouth_radius > self.rim_radius + _ON_AXIS:
            raise ValueError("the inside has to end at the height of the rim, within the outside")
        if not 0.0 <= self.recess_radius <= self.foot_radius or self.recess_depth < 0.0:
            raise ValueError(
                f"the recess in the foot must stay within the foot's radius of {self.foot_radius:.6g} mm"
            )
        if not self.through and not self.floor_thickness > 0.0:
            raise ValueError("there must be wood between the floor and the recess in the foot")

    @property
    def height(self) -> float:
        return self.outer.end[1]

    @property
    def foot_radius(self) -> float:
        return self.outer.start[0]

    @property
    def rim_radius(self) -> float:
        return self.outer.end[0]

    @property
    def mouth_radius(self) -> float:
        return self.inner.end[0]

    @property
    def through(self) -> bool:
        """Whether the hollow goes right through, as in a shade or a napkin ring."""
        return self.inner.start[0] > _ON_AXIS

    @property
    def floor_thickness(self) -> float:
        """Wood under the floor on the axis; 0 where there is no floor."""
        return self.inner.start[1] - (self.recess_depth if self.recess_radius else 0.0)

    @cached_property
    def contour(self) -> Contour:
        """The closed section, counter-clockwise from the axis under the floor."""
        r, d = self.recess_radius, self.recess_depth
        under = [(0.0, d, 0.0), (r, d, 0.0), (r, 0.0, 0.0)] if r and d else [(0.0, 0.0, 0.0)]
        chains = (self.outer.vertices, self.inner.reversed().vertices)
        rows = np.concatenate(chains if self.through else (np.array(under), *chains))
        steps = np.roll(rows[:, :2], -1, axis=0) - rows[:, :2]
        return Contour(rows[lengths_of(steps) > SAME_POINT])

    @property
    def volume(self) -> float:
        """Of the finished wood: 2π times the section's moment about the axis (Pappus)."""
        return 2.0 * math.pi * self.contour.moments.x

    @property
    def capacity(self) -> float:
        """What the vessel holds, filled to the brim."""
        return 0.0 if self.through else revolved_volume(self.inner)

    def holds_below(self, height: float) -> float:
        """What the vessel holds, filled to a height."""
        return 0.0 if self.through else _turned(self.inner, self.inner.bottom, height)

    @property
    def centre_height(self) -> float:
        """Height of the centre of mass, for wood of one density."""
        moments = self.contour.moments
        return moments.xy / moments.x

    def volume_between(self, low: float, high: float) -> float:
        """Of the finished wood between two heights."""
        recess = max(0.0, min(high, self.recess_depth) - max(low, 0.0)) * math.pi * self.recess_radius**2
        return _turned(self.outer, low, high) - _turned(self.inner, low, high) - recess

    def wall_at(self, z: float) -> tuple[float, float]:
        """Inner and outer finished radius at a height; on the floor the inner one is that of its flat.

        Raises ValueError outside the vessel's height.
        """
        return self._hollow_at(z), self.outer.radius_at(z)

    def _hollow_at(self, z: float) -> float:
        if z >= self.inner.bottom:
            return self.inner.radius_at(z)
        return self.recess_radius if z <= self.recess_depth else 0.0

    def dilated(self, allowance: float) -> Contour:
        """The section grown by `allowance` square to itself, corners rounded, cut back to the axis.

        The axis is no surface: what grows across it is solid there. Raises ValueError unless the allowance is
        0 or more.
        """
        return _dilated(self, allowance)

    def needs(self, low: float, high: float, allowance: float) -> tuple[float, float] | None:
        """Least and largest radius of the dilated section between two heights, exact with arcs.

        The least is 0.0 where it reaches the axis; None where there is nothing of it. What only touches either
        height, such as a floor that ends at a joint, is not between them.
        """
        return _needs(self, low, high, allowance)


@lru_cache(maxsize=8)  # asked for each ring by several in turn
def _needs(section: Section, low: float, high: float, allowance: float) -> tuple[float, float] | None:
    grown = _dilated_edge(section, allowance)
    if high - low > 4 * _TOUCH:
        low, high = low + _TOUCH, high - _TOUCH
    if high <= grown.bottom or low >= grown.top:
        return None
    least, most = grown.radii(max(low, grown.bottom), min(high, grown.top))
    return (least if least > _ON_AXIS else 0.0), most


def _turned(profile: Profile, low: float, high: float) -> float:
    """Volume inside a profile between two heights."""
    low, high = max(low, profile.bottom), min(high, profile.top)
    return revolved_volume(profile.between(low, high)) if high - low > SAME_POINT else 0.0


@lru_cache(maxsize=32)
def _dilated(section: Section, allowance: float) -> Contour:
    if not 0.0 <= allowance < math.inf:
        raise ValueError(f"an allowance must be 0 mm or more, not {allowance:.9g}")
    # The nearest wood to a point beside the axis lies on the point's own side of it, so half a section is
    # enough; its edge along the axis moves out of the way.
    return section.contour if allowance <= _ON_AXIS else _beside_axis(offset(section.contour, allowance))


def _beside_axis(grown: tuple[Contour, ...]) -> Contour:
    """The part of counter-clockwise contours at x > 0, closed along the axis."""
    edges = [edge for contour in grown for edge in contour.edges()]
    low, high = min(c.bounds[1] for c in grown), max(c.bounds[3] for c in grown)
    pieces = cut([*edges, Edge((0.0, high + 1.0), (0.0, low - 1.0))])
    axis = [piece for piece in pieces if piece.source == len(edges)]
    beside = np.array([(2.0 * _ON_AXIS, piece.edge.midpoint[1]) for piece in axis])
    solid = np.logical_or.reduce([contour.contains(beside) for contour in grown])
    kept = [piece for piece in pieces[: -len(axis)] if piece.edge.midpoint[0] > _ON_AXIS]
    kept += [piece for piece, is_solid in zip(axis, solid, strict=True) if is_solid]
    return max(chain(kept), key=lambda contour: contour.area)


@lru_cache(maxsize=32)
def _dilated_edge(section: Section, allowance: float) -> Profile:
    """The dilated section's whole outline as one chain."""
    rows = section.dilated(allowance).vertices
    return Profile(np.concatenate((rows, [(*rows[0, :2], 0.0)])))
