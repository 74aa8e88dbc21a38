"""Where the finished form is looked at from, and how it looks from there.

A camera's plane lies square to its direction through the form's middle; a and b run in it to the right and up,
mm. Pixels count from the picture's upper left corner, pixel (0, 0) lying about (0.5, 0.5).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, inf, pi, radians, sin

import numpy as np
import numpy.typing as npt

from geometry.bodies.meridian import Meridian, turned_surface
from geometry.plane.edges import FloatArray
from geometry.records import Record
from jigs.looks.solid import Hits, Rays, Solid, hits

Image = npt.NDArray[np.uint8]  # (height, width, 3)
Paint = Callable[[FloatArray, FloatArray], FloatArray]  # colours of points and normals, (n, 3) each, 0 to 255

MARGIN = 0.04  # of the picture's longer side, all round
LIGHT = np.array((-0.45, 0.65, 0.75))  # right, up and towards the eye, of where it comes from
DARKEST = 0.38  # lightness of what is turned away from the lamp
SAMPLES = 2  # across a pixel in which the colour changes
CHANGE = 24.0  # of 255, by which neighbouring pixels differ there
ELEVATION = radians(33)
AT_ONCE = 32768  # places to colour: what fits the processor's cache
FAR = 3.2  # of the form's size, the eye's distance


class Camera(Record, eq=False):
    """An eye `distance` before the plane, infinite for a parallel view; `scale` in pixels for each mm of the plane."""

    middle: FloatArray
    right: FloatArray
    up: FloatArray
    distance: float
    scale: float
    width: int
    height: int
    corner: tuple[float, float]  # (a, b) of the upper left corner

    @property
    def back(self) -> FloatArray:
        """Towards the eye."""
        return np.cross(self.right, self.up)

    def rays(self, x: FloatArray, y: FloatArray) -> Rays:
        """Through places (n,) in pixels."""
        a, b = self.corner[0] + x / self.scale, self.corner[1] - y / self.scale
        places = self.middle + a[:, None] * self.right + b[:, None] * self.up
        if self.distance == inf:
            return Rays(places + 1e4 * self.back, np.broadcast_to(-self.back, places.shape))
        eye = self.middle + self.distance * self.back
        return Rays(np.broadcast_to(eye, places.shape), places - eye)


def _on_plane(
    points: FloatArray, right: FloatArray, up: FloatArray, distance: float
) -> tuple[FloatArray, FloatArray]:
    nearer = 1.0 if distance == inf else 1.0 - (points @ np.cross(right, up)) / distance
    return points @ right / nearer, points @ up / nearer


def cameras(meridian: Meridian, upright: bool, size: int, over: bool = False) -> dict[str, Camera]:
    """By the picture's name; their longer side is `size` pixels. An upright form's front is its side; `over` is one
    that is turned upside down."""
    points, _ = turned_surface(
        meridian.at(meridian.chords(0.05)), np.linspace(0, 2 * pi, 120, endpoint=False)
    )
    cloud = points.reshape(-1, 3) * ((1.0, -1.0, -1.0) if over else 1.0)
    above, beside = pi / 2, 0.0
    front, edge = (beside, above) if upright else (above, beside)
    far = FAR * float(np.ptp(cloud, axis=0).max())
    return {
        "perspective": _camera(cloud, ELEVATION, far, size),
        "front": _camera(cloud, front, inf, size),
        "edge": _camera(cloud, edge, inf, size),
    }


def _camera(cloud: FloatArray, elevation: float, distance: float, size: int) -> Camera:
    """Looking at the form's middle from -y, raised by the elevation, all of the cloud (n, 3) in the picture."""
    middle = np.array((0.0, 0.0, (cloud[:, 2].min() + cloud[:, 2].max()) / 2))
    right, level = np.array((1.0, 0.0, 0.0)), round(cos(elevation), 15)
    up = np.array((0.0, sin(elevation), level))
    a, b = _on_plane(cloud - middle, right, up, distance)
    wide, high = np.ptp(a), np.ptp(b)
    margin = MARGIN * max(wide, high)
    scale = size / (max(wide, high) + 2 * margin)
    width, height = (round(scale * (side + 2 * margin)) for side in (wide, high))
    corner = ((a.min() + a.max()) / 2 - width / scale / 2, (b.min() + b.max()) / 2 + height / scale / 2)
    return Camera(middle, right, up, distance, scale, width, height, corner)


def drawn(solid: Solid, camera: Camera, paints: Sequence[Paint]) -> list[Image]:
    """The solid as it looks with each of these paints, on white.

    Pixels in which a colour changes are looked at several times over.
    """
    high, wide = camera.height, camera.width
    row, column = (grid.ravel() for grid in np.mgrid[:high, :wide].astype(np.float64))
    middles = hits(solid, camera.rays(column + 0.5, row + 0.5))
    pictures = [_coloured(high * wide, camera, middles, paint) for paint in paints]
    changing = np.logical_or.reduce([_changing(picture.reshape(high, wide, 3)) for picture in pictures])
    chosen = np.flatnonzero(changing)
    steps = (np.arange(SAMPLES) + 0.5) / SAMPLES
    x, y = column[chosen, None] + np.tile(steps, SAMPLES), row[chosen, None] + np.repeat(steps, SAMPLES)
    fine = hits(solid, camera.rays(x.ravel(), y.ravel()))
    for picture, paint in zip(pictures, paints, strict=True):
        samples = _coloured(x.size, camera, fine, paint)
        picture[chosen] = sum(samples[k :: SAMPLES**2] for k in range(SAMPLES**2)) / SAMPLES**2
    return [np.round(picture).astype(np.uint8).reshape(high, wide, 3) for picture in pictures]


def _coloured(count: int, camera: Camera, found: Hits, paint: Paint) -> FloatArray:
    """Colours (count, 3) of rays; white where they meet nothing."""
    colours = np.full((count, 3), 255.0)
    for k in range(0, len(found.rays), AT_ONCE):
        part = Hits(*(value[k : k + AT_ONCE] for value in vars(found).values()))
        colours[part.rays] = paint(part.points, part.normals) * shade(camera, part)[:, None]
    return colours


def shade(camera: Camera, found: Hits) -> FloatArray:
    """Lightness (k,) by one lamp over the left shoulder, and a little from all round."""
    lamp = LIGHT[0] * camera.right + LIGHT[1] * camera.up + LIGHT[2] * camera.back
    lit = (1.0 + found.normals @ (lamp / np.linalg.norm(lamp))) / 2
    return np.asarray(DARKEST + (1.0 - DARKEST) * lit)


def _changing(picture: FloatArray) -> npt.NDArray[np.bool_]:
    """Pixels (h, w) beside, above or below which the colour differs."""
    changing = np.zeros(picture.shape[:2], dtype=bool)
    across = np.abs(np.diff(picture, axis=1)).max(axis=2) > CHANGE
    down = np.abs(np.diff(picture, axis=0)).max(axis=2) > CHANGE
    changing[:, 1:] |= across
    changing[:, :-1] |= across
    changing[1:] |= down
    changing[:-1] |= down
    return changing
