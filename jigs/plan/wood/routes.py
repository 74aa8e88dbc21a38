"""The two ways to make a torus's rings, side by side."""

from __future__ import annotations

from dataclasses import dataclass

from jigs.job_wood import Route


@dataclass(frozen=True)
class RoutePlan:
    """One way, spares included."""

    route: Route
    chosen: bool
    pieces: int  # sawn from strips
    cuts: int  # that make them, slices among them; ripping of square strips is not counted
    area: float  # of the boards that are taken, mm2
    volume: float  # of these
    bought: int  # boards
    glue_area: float  # of the finished work's joints, mm2
    weak_joints: int  # end grain to end grain with nothing else to hold them
    longest: float  # piece
    short: bool  # the boards that are stated do not give all of it
