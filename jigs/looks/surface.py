"""The colour of the finished wood at any of its points, by which way its fibres run there.

Solid segments have one direction each. In a layup the fibres run along the plies' strips: cos angle · a + or
- sin angle · b, a and b the pattern's axes; the sign changes wherever the pattern is mirrored.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, pi, sin, tan

import numpy as np
import numpy.typing as npt

from geometry.blanks.pattern import Pattern
from geometry.bodies.flat_rings import FlatRing, first_normal
from geometry.bodies.places import (
    Places,
    joint_distance,
    torus_grain,
    torus_grid_places,
    torus_places,
    vessel_grain,
    vessel_grid_places,
    vessel_places,
)
from geometry.bodies.torus import Blank
from geometry.plane.edges import FloatArray, IntArray
from geometry.records import Record
from jigs.figures.colours import colour_of
from jigs.looks.lid import knob_ring, over, shown_knob
from jigs.looks.mistakes import Mistakes, rings_out, torus_joints
from jigs.looks.spots import Spots, at_points
from jigs.looks.views import Paint
from jigs.looks.woods import Layups, Woods, flat_rings, torus_woods, vessel_woods
from jigs.plans.plan import Shown, by_form
from jigs.plans.shape import TorusShape, VesselShape
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan

AXES = {"flat": ("u", "y"), "end": ("v", "y"), "face": ("u", "v")}  # a and b, in the segment's own frame


class Grain(Record, eq=False):
    """By segment, (rings, columns, 3): `along`, and what a layup adds or takes off, nothing in other rings."""

    along: FloatArray
    across: FloatArray
    layups: tuple[Layups, ...]

    def into_surface(self, spots: Spots, places: Places) -> FloatArray:
        """How far the fibres point into the surface or out of it, -1 to 1, in the places' shape."""
        columns = self.along.shape[1]
        row = places.ring * columns + places.segment % columns
        found = _dot(self.along, row, spots)
        if self.layups:
            found = found + self._hands(places) * _dot(self.across, row, spots)
        return found

    def _hands(self, places: Places) -> FloatArray:
        """1 or -1. Layups of one job seldom differ in this, so it is worked out once where they do not."""
        hands = {(one.pattern.flip_segments, one.pattern.flip_rings) for one in self.layups}
        if len(hands) == 1:
            return _hand(places, self.layups[0].pattern)
        found = np.ones(np.broadcast_shapes(places.ring.shape, places.u.shape))
        for layup in self.layups:
            found = np.where(np.isin(places.ring, layup.rings), _hand(places, layup.pattern), found)
        return found


def _dot(table: FloatArray, row: IntArray, spots: Spots) -> FloatArray:
    x, y, z = (table[..., k].take(row) for k in range(3))
    return np.asarray((x * np.cos(spots.phi) + y * np.sin(spots.phi)) * spots.out + z * spots.up)


def _hand(places: Places, pattern: Pattern) -> FloatArray:
    """The sign of b's share, a's taken as positive."""
    a = b = np.ones(())
    if "u" in AXES[pattern.plane]:
        a = _sense(places.u, places.segment, pattern.flip_segments, pattern.left_and_right, pattern.off[0])
    if "y" in AXES[pattern.plane]:
        b = _sense(places.y, places.ring, pattern.flip_rings, pattern.up_and_down, pattern.off[1])
    return np.asarray(a * b if pattern.turned else -a * b)


def _sense(x: FloatArray, counted: IntArray, flip: bool, mirrored: bool, off: float) -> FloatArray:
    """1 where the pattern's distance grows with x, else -1."""
    turned = np.where(counted & 1, -1.0, 1.0) if flip else np.ones(())
    return np.asarray(turned * np.where(turned * x + off < 0, -1.0, 1.0) if mirrored else turned)


def torus_grains(
    blank: Blank, joints: FloatArray | None, shape: tuple[int, int], layups: Sequence[Layups]
) -> Grain:
    """Of segments that lie along the flats."""
    u, y = (torus_grain(_every(*shape), blank, joints, along) for along in (False, True))
    return _plied(u, {"u": u, "v": np.cross(u, y), "y": y}, layups)


def vessel_grains(rings: Sequence[FlatRing], shape: tuple[int, int], layups: Sequence[Layups]) -> Grain:
    """Strips between segments, the later half of the columns, keep their own."""
    u = vessel_grain(_every(*shape), rings)
    y = np.broadcast_to((0.0, 0.0, 1.0), u.shape)
    return _plied(u, {"u": u, "v": np.cross(y, u), "y": y}, layups, shape[1] // 2)


def _plied(
    plain: FloatArray, axes: dict[str, FloatArray], layups: Sequence[Layups], columns: int | None = None
) -> Grain:
    along, across = plain.copy(), np.zeros_like(plain)
    for layup in layups:
        a, b = (axes[name][layup.rings, :columns] for name in AXES[layup.pattern.plane])
        along[layup.rings, :columns] = cos(layup.pattern.angle) * a
        across[layup.rings, :columns] = sin(layup.pattern.angle) * b
    return Grain(along, across, tuple(layups))


def _every(rings: int, columns: int) -> Places:
    """A place in every segment, (rings, columns)."""
    ring, segment = np.mgrid[:rings, :columns]
    nothing = np.zeros(ring.shape)
    return Places(ring, segment, nothing, nothing, nothing)


END_GRAIN = 0.32  # of its lightness that wood loses where its fibres end: by eye
JOINT = 0.45  # and in the middle of a joint's line
LEVELS = 256  # of lightness in a grid's colours


class Surface(Record, eq=False):
    """What shows on a finished form. `from_joint` is measured along the surface, mm."""

    woods: Woods
    grain: Grain
    places: Callable[[Spots], Places]  # of any spots
    grid_places: Callable[[Spots], Places]  # the same of a grid, faster
    from_joint: Callable[[Spots, Places], FloatArray]
    shift: tuple[float, float]  # from the form's axis to the blank's

    def colours(self, spots: Spots, line: float) -> FloatArray:
        """Colours (n, 3), 0 to 255, of spots (n,). A joint is a line that fades out over `line` mm on both sides."""
        own = spots.moved(*self.shift) if any(self.shift) else spots
        places = self.places(own)
        light = self._light(spots, own, places, line)
        return np.asarray(self.woods.palette[self.woods.at(places)] * light[:, None])

    def grid_colours(self, spots: Spots, line: float) -> npt.NDArray[np.uint8]:
        """The same of a grid of spots, (h, w, 3), in whole numbers."""
        own = spots.moved(*self.shift) if any(self.shift) else spots
        places = self.places(own) if any(self.shift) else self.grid_places(spots)
        light = self._light(spots, own, places, line)
        lightness = np.arange(LEVELS) / (LEVELS - 1)
        table = np.round(self.woods.palette[:, None] * lightness[:, None]).astype(np.uint8).reshape(-1, 3)
        index = (light * (LEVELS - 1) + 0.5).astype(np.int32) + LEVELS * self.woods.at(places)
        return table.take(index, axis=0)

    def _light(self, spots: Spots, own: Spots, places: Places, line: float) -> FloatArray:
        """By end grain and joints, 0 to 1, in the shape of the places."""
        end = self.grain.into_surface(spots, places)
        near = np.maximum(1.0 - self.from_joint(own, places) / line, 0.0)
        return np.asarray((1.0 - END_GRAIN * end**2) * (1.0 - JOINT * near))


def surface_of(plan: Shown, turned: bool = False, mistakes: Mistakes | None = None) -> Surface:
    """The surface of a plan; `turned` has its layups the other way, `mistakes` put in."""
    wrong = mistakes or Mistakes()
    return by_form(
        plan,
        torus=lambda own: _torus_surface(own, turned, wrong),
        vessel=lambda own: _vessel_surface(own, turned, wrong),
    )


def _torus_surface(plan: TorusPlan | TorusShape, turned: bool, mistakes: Mistakes) -> Surface:
    blank, form, joints = plan.blank, plan.job.form, torus_joints(plan.blank, mistakes)

    def on_grid(spots: Spots) -> Places:
        radius, z = spots.radius[:, 0], spots.z[:, 0]
        if form.tube.round:
            theta = np.arctan2(spots.up, spots.out)[:, 0]
            radius, z = form.major_radius + form.tube_radius * np.cos(theta), form.tube_radius * np.sin(theta)
        return torus_grid_places(blank, radius, z, spots.phi, joints)

    woods = torus_woods(plan, turned, mistakes)
    return Surface(
        woods,
        torus_grains(blank, joints, woods.segments.shape, woods.layups),
        lambda spots: torus_places(spots.points, blank, joints),
        on_grid,
        lambda spots, places: torus_from_joint(spots, places, blank, joints),
        mistakes.shift,
    )


def _vessel_surface(plan: VesselPlan | VesselShape, turned: bool, mistakes: Mistakes) -> Surface:
    rings, woods = rings_out(flat_rings(plan), mistakes), vessel_woods(plan, turned, mistakes)
    if knob := shown_knob(plan):
        rings, woods = knob_ring(rings, knob), woods.below(colour_of(knob.species))
    return Surface(
        woods,
        vessel_grains(rings, woods.segments.shape, woods.layups),
        lambda spots: vessel_places(spots.points, rings),
        lambda spots: vessel_grid_places(spots.radius[:, 0], spots.z[:, 0], spots.phi, rings),
        lambda spots, places: vessel_from_joint(spots, places, rings),
        mistakes.shift,
    )


def paint_of(surface: Surface, line: float, lid: bool) -> Paint:
    """What colours the form as it is shown, its joints so wide in mm."""
    if lid:
        return lambda points, normals: surface.colours(at_points(over(points), over(normals)), line)
    return lambda points, normals: surface.colours(at_points(points, normals), line)


def torus_from_joint(
    spots: Spots, places: Places, blank: Blank, joints: FloatArray | None = None
) -> FloatArray:
    """From the nearest mitre or wedge face, in the shape of the places; a strip has two faces."""
    between = joint_distance(blank, spots.phi, spots.radius, joints)
    mitre = ((blank.apothem - places.v) * tan(blank.mitre) - np.abs(places.u)) * cos(blank.mitre)
    if blank.spacer:
        mitre = np.abs(np.where(places.segment < 0, np.abs(places.u), mitre) - blank.spacer / 2)
    if blank.ring_spacer:
        between = np.abs(between - blank.ring_spacer / 2)
        mitre = np.where(places.segment == blank.segments, np.inf, mitre)
    return np.asarray(np.minimum(between, mitre))


def vessel_from_joint(spots: Spots, places: Places, rings: Sequence[FlatRing]) -> FloatArray:
    """From the nearest upright or level face, the latter measured down the surface, or a plug's side."""
    bottoms = np.array([one.bottom for one in rings])
    tops = np.array([one.bottom + one.height for one in rings])
    level = np.minimum(np.abs(spots.z - bottoms[places.ring]), np.abs(tops[places.ring] - spots.z))
    level = level / np.maximum(np.abs(spots.out), 1e-9)
    pitch = 2 * pi / np.array([max(one.segments, 1) for one in rings])[places.ring]
    turn = np.abs(spots.phi - np.array([first_normal(one) for one in rings])[places.ring]) / pitch
    turn = pitch * np.abs(turn - np.round(turn))
    gap = np.array([one.gap for one in rings])[places.ring]
    disc = np.array([not one.segments for one in rings])[places.ring]
    upright = np.abs(spots.radius * np.sin(pitch / 2 - turn) - gap / 2)
    plug = np.array([one.plug for one in rings])[places.ring]
    upright = np.where(disc | (spots.radius < plug), np.inf, upright)
    side = np.where(plug > 0, np.abs(spots.radius - plug), np.inf)
    return np.asarray(np.minimum(level, np.minimum(upright, side)))
