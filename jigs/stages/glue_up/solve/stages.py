"""How many joints close in time, hence in how many steps a ring is glued up."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from math import ceil
from operator import mul

from jigs.asked.job_wood import Glue
from jigs.stages.glue_up.plan import Assembly, GlueStage

Rings = tuple[int, ...]

MM2_PER_M2 = 1e6


def joints_in_time(glue: Glue, area: float) -> int:
    """That are spread and closed within the open time, each of `area` mm2."""
    return int(glue.open_time / minutes(glue, area) + 1e-9)


def minutes(glue: Glue, area: float) -> float:
    """To spread and close a joint."""
    return glue.joint_time + glue.area_time * area / MM2_PER_M2


def stage(
    assembly: Assembly,
    rings: Rings,
    what: str,
    pieces: int,
    joints: int,
    count: int,
    in_time: int,
    in_band: int = 1,
) -> GlueStage:
    """As many at a time as close together: whole bands where one closes in time."""
    at_once = max(1, in_time // max(1, joints))
    at_once -= at_once % in_band if at_once >= in_band else 0
    return GlueStage(assembly, rings, what, pieces, joints, count, at_once, joints <= in_time, in_band)


def ring_stages(
    assembly: Assembly, rings: Rings, segments: int, count: int, in_time: int, strips: bool = False
) -> list[GlueStage]:
    """`count` rings: to halves, which are trued, and these to rings; an odd count has no halves.

    Strips between segments are pieces of the first stage like the segments.
    """
    each = 2 if strips else 1
    if segments % 2:
        return _whole(assembly, rings, segments * each, count, in_time)
    sizes = arc_sizes(segments // 2 * each, in_time)
    stages = _arcs(assembly, rings, segments * each, segments // 2 * each, sizes, 2 * count, in_time, 2)
    return [*stages, stage(assembly, rings, "rings", 2, 2, count, in_time)]


def _whole(assembly: Assembly, rings: Rings, pieces: int, count: int, in_time: int) -> list[GlueStage]:
    """Arcs until the ring closes in time, at best of three or fewer."""
    sizes: list[int] = []
    left = pieces
    while left > max(in_time, 2):
        sizes.append(ceil(left / ceil(left / (max(in_time, 1) + 1))))
        left = ceil(left / sizes[-1])
    stages = _arcs(assembly, rings, pieces, pieces, sizes, count, in_time, 1)
    return [*stages, stage(assembly, rings, "rings", left, left, count, in_time)]


def arc_sizes(pieces: int, in_time: int) -> list[int]:
    """How many are glued together in each stage until they are one, so that each stage closes in time.

    Arcs of a stage are as alike as they can be; where they are not all, these are the longest.
    """
    if pieces - 1 <= max(in_time, 1):
        return [pieces]
    arcs = ceil(pieces / (max(in_time, 1) + 1))
    return [ceil(pieces / arcs), *arc_sizes(arcs, in_time)]


def _arcs(
    assembly: Assembly,
    rings: Rings,
    ring: int,
    arc: int,
    sizes: Sequence[int],
    count: int,
    in_time: int,
    banded: int = 0,
) -> list[GlueStage]:
    """The stages of `count` arcs of `arc` pieces each, of rings of `ring`; `banded` of them close in one band."""
    found, left = [], arc
    for size, longest in zip(sizes, accumulate(sizes, mul), strict=True):
        left = ceil(left / size)
        name = _named(min(longest, arc), ring)
        found.append(
            stage(assembly, rings, name, size, size - 1, count * left, in_time, max(1, banded * left))
        )
    return found


def _named(pieces: int, ring: int) -> str:
    if 2 * pieces == ring:
        return "halves"
    if 4 * pieces == ring:
        return "quarters"
    return "pairs" if pieces == 2 else f"arcs of {pieces}"


def torus_stages(rings: Rings, in_time: int, strips: bool = False, halves: int = 2) -> list[GlueStage]:
    """Wedge rings to quarters, where there are four alike, to halves, to the torus; with strips, one in each joint.
    `halves` is 1 where the second half is there already."""
    count, own = len(rings), rings[: halves * len(rings) // 2]
    part = 4 if count % 4 == 0 else 2
    sizes = arc_sizes(count // part, in_time // 2 if strips else in_time)
    stages = _arcs("torus", own, count, count // part, sizes, part * halves // 2, in_time)
    quarters = [stage("torus", own, "halves", 2, 1, halves, in_time)] if part == 4 else []
    found = [*stages, *quarters, stage("torus", rings, "torus", 2, 2, 1, in_time)]
    return [_with_strips(one, in_time) for one in found] if strips else found


def _with_strips(one: GlueStage, in_time: int) -> GlueStage:
    """A strip in each joint is a piece more, and has two faces."""
    joints, pieces = one.joints, one.pieces + one.joints
    return stage(one.assembly, one.rings, one.what, pieces, 2 * joints, one.count, in_time, one.in_band)
