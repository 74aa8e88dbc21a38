"""A vessel's inside: by its wall or as given, with the rebate in its rim."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from geometry.bodies.floor import rebated
from geometry.bodies.wall import inner_from_wall
from geometry.plane.profile import Profile, profile
from jigs.asked.vessel_job import VesselJob


def inside_of(job: VesselJob) -> Profile:
    """From the axis along the floor, or where there is none from the foot, up to the rim's height.

    Raises TooTight, TightCorner or ValueError where the outside, the wall and the rebate allow none.
    """
    inner = _own_inside(job) if job.inside else _by_wall(job)
    rebate = job.rebate
    return rebated(inner, rebate.width, rebate.depth) if rebate.width and rebate.depth else inner


def floor_height(job: VesselJob) -> float:
    """The floor's height over the foot on the axis: its thickness over the hollow in the foot, or as given."""
    if job.inside is not None:
        return job.inside.profile.bottom
    return 0.0 if job.wall.through else wall_floor(job) + job.foot.recess_depth


def wall_floor(job: VesselJob) -> float:
    """Thickness of the floor: as asked, else the wall's at the foot."""
    wish = job.wall
    if wish.floor is not None:
        return wish.floor
    return wish.thickness or (wish.by_height[0][1] if wish.by_height else 0.0)


def _by_wall(job: VesselJob) -> Profile:
    wall = job.wall.by_height or job.wall.thickness or 0.0
    floor = None if job.wall.through else floor_height(job)
    return _beside(job.outside.profile.vertices.tobytes(), wall, floor, job.wall.inner_corner)


@lru_cache(maxsize=4)  # asked for again at each step of a hand that drags something else
def _beside(
    outside: bytes, wall: float | tuple[tuple[float, float], ...], floor: float | None, corner: float
) -> Profile:
    """The inner side, the outside given by its vertices' bytes."""
    return inner_from_wall(Profile(np.frombuffer(outside).reshape(-1, 3)), wall, floor, corner)


def _own_inside(job: VesselJob) -> Profile:
    """The inside as given, its floor led to the axis and its rim to the outside's height."""
    if job.inside is None:
        raise ValueError("there is no inside of its own")
    own = job.inside.profile
    if job.wall.through:
        return own.spanning(0.0, job.outside.profile.end[1])
    side = own.spanning(own.bottom, job.outside.profile.end[1])
    if side.start[0] <= 1e-6:
        return side
    return profile((0.0, side.start[1]), *(tuple(row) for row in side.vertices.tolist()))
