"""How the grain runs in every piece, and how it meets the joints."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import acos, cos, pi, sin
from typing import TYPE_CHECKING

from geometry.bodies.torus import Blank
from geometry.grouping import grouped
from jigs.stages.grain.plan import Backing, Direction, Grain, GrainJoint, GrainPlan, Sort

if TYPE_CHECKING:  # a torus is worked out without what only a vessel or a layup has
    from geometry.blanks.staves import StaveBand
    from jigs.stages.layup.plan import LayupPlan
    from jigs.stages.stack.plan import Layer, StackPlan

Vector = tuple[float, float, float]  # u along the flat, v the depth, y along the tube or up

LONG = pi / 2
RUNS: dict[str, tuple[str, Direction]] = {
    "disc": ("disc", "across the disc"),
    "segments": ("segments", "along the outer flat"),
    "open": ("segments", "along the outer flat"),
    "staves": ("staves", "along the stave"),
}


UPRIGHT: tuple[str, Direction] = ("upright piece", "along the axis")


def torus_grain(blank: Blank, layups: Sequence[LayupPlan]) -> GrainPlan:
    """Of solid segments, or of those of layups."""
    rings = tuple(range(1, blank.wedge_rings + 1))
    if layups:
        return _plied_torus(blank, layups[0], rings)
    return _mitred(blank, rings)


def _mitred(blank: Blank, rings: tuple[int, ...]) -> GrainPlan:
    """The mitres of all rings stand in line; the wedge faces are long grain, off square to it by w at most."""
    count, segments = len(rings) * blank.segments, Grain("segments", rings, "along the outer flat")
    pieces, face = [segments], LONG - blank.half_wedge
    within = GrainJoint("mitres", rings, count, (blank.mitre,) * 2, "in line", True)
    between = GrainJoint("wedge faces", rings, len(rings), (face,) * 2, "crossed", True)
    if blank.spacer:
        within = GrainJoint("strips", rings, 2 * count, (blank.mitre, LONG), "in line", True)
        pieces.append(Grain("strips", rings, "across the wall"))
    if blank.ring_spacer:
        between = GrainJoint("strips between rings", rings, 2 * len(rings), (face, LONG), "crossed", True)
        pieces.append(Grain("strips between rings", rings, "from rim to hole"))
    return GrainPlan(tuple(pieces), (within, between))


def _plied_torus(blank: Blank, layup: LayupPlan, rings: tuple[int, ...]) -> GrainPlan:
    faces = _met(layup, (0.0, sin(blank.half_wedge), cos(blank.half_wedge)))
    joints = (
        GrainJoint(
            "mitres", rings, len(rings) * blank.segments, _mitre(layup, blank.mitre), "in line", False
        ),
        GrainJoint("wedge faces", rings, len(rings), (faces, faces), "crossed", False),
    )
    return GrainPlan((Grain("segments", rings, "as the plies lie"),), joints)


def _strips_grain(layup: LayupPlan) -> Vector:
    """Along the plies' strips, in the plane of the pattern."""
    c, s = cos(layup.layup.angle), sin(layup.layup.angle)
    return {"flat": (c, 0.0, s), "face": (c, s, 0.0), "end": (0.0, c, s)}[layup.plane]


def _met(layup: LayupPlan, normal: Vector) -> float:
    """The least angle of the strips' grain with a normal, over the piece and its mirror images."""
    grain = _strips_grain(layup)
    return acos(min(1.0, sum(abs(g) * abs(n) for g, n in zip(grain, normal, strict=True))))


def _mitre(layup: LayupPlan, mitre: float) -> tuple[float, float]:
    met = _met(layup, (cos(mitre), sin(mitre), 0.0))
    return met, met


def vessel_grain(stack: StackPlan, layups: Sequence[LayupPlan]) -> GrainPlan:
    """Pieces by kind, joints within each ring, joints from ring to ring."""
    plied = {ring: layup for layup in layups for ring in layup.rings}
    within = [
        _within(stack, layer, plied.get(layer.number))
        for layer in stack.layers
        if layer.kind in ("segments", "staves")
    ]
    between = [_between(a, b, stack.staves, plied) for a, b in pairwise(stack.layers)]
    return GrainPlan(_pieces(stack.layers, plied), tuple(_gathered([*within, *between])))


def _pieces(layers: Sequence[Layer], plied: dict[int, LayupPlan]) -> tuple[Grain, ...]:
    found: dict[tuple[str, Direction], list[int]] = {}
    for layer in layers:
        piece, runs = UPRIGHT if layer.upright else RUNS[layer.kind]
        found.setdefault((piece, "as the plies lie" if layer.number in plied else runs), []).append(
            layer.number
        )
        if layer.kind == "segments" and layer.ring.spacer:
            found.setdefault(("strips", "across the wall"), []).append(layer.number)
    return tuple(Grain(piece, tuple(rings), runs) for (piece, runs), rings in found.items())


def _within(stack: StackPlan, layer: Layer, layup: LayupPlan | None) -> GrainJoint:
    """Of the joints round one ring: a strip between segments has long grain on both its faces."""
    ring, numbers = layer.ring, (layer.number,)
    if layer.kind == "staves":
        met = acos(sin(ring.mitre) * sin(abs(stack.staves.lean if stack.staves else 0.0)))
        return GrainJoint("stave edges", numbers, ring.segments, (met, met), "none", True)
    met = _mitre(layup, ring.mitre)[0] if layup else ring.mitre
    if ring.spacer:
        return GrainJoint(
            "strips", numbers, 2 * ring.segments, (met, LONG), _backing(stack, layer), layup is None
        )
    return GrainJoint("mitres", numbers, ring.segments, (met, met), _backing(stack, layer), layup is None)


def _backing(stack: StackPlan, layer: Layer) -> Backing:
    """Whether a ring above or below lies across this one's mitres."""
    beside = [other for other in stack.layers if abs(other.number - layer.number) == 1]
    if not beside:
        return "none"
    return "in line" if all(_in_line(layer, other) for other in beside) else "crossed"


def _in_line(a: Layer, b: Layer) -> bool:
    if a.ring.segments != b.ring.segments or b.kind not in ("segments", "open"):
        return False
    share = (a.turned - b.turned) / (2 * a.ring.mitre)
    return abs(share - round(share)) < 1e-6


def _between(lower: Layer, upper: Layer, staves: StaveBand | None, plied: dict[int, LayupPlan]) -> GrainJoint:
    """From ring to ring, the normal upright."""
    numbers = (lower.number, upper.number)
    a, b = (_upright(layer, staves, plied.get(layer.number)) for layer in (lower, upper))
    solid = not any(number in plied for number in numbers)
    sort: Sort = "stave ends" if "staves" in (lower.kind, upper.kind) else "ring faces"
    return GrainJoint(sort, numbers, 1, (a, b), "none", solid)


def _upright(layer: Layer, staves: StaveBand | None, layup: LayupPlan | None) -> float:
    if layup:
        return _met(layup, (0.0, 0.0, 1.0))
    if layer.upright:
        return 0.0
    return abs(staves.lean) if layer.kind == "staves" and staves else LONG


def _alike(joint: GrainJoint) -> tuple[object, ...]:
    return joint.sort, tuple(round(angle, 6) for angle in joint.angles), joint.backing, joint.solid


def _gathered(joints: Sequence[GrainJoint]) -> list[GrainJoint]:
    """Alike joints of several rings as one line."""
    found = grouped(joints, _alike)
    return [
        GrainJoint(
            same[0].sort,
            tuple(sorted({ring for joint in same for ring in joint.rings})),
            sum(joint.count for joint in same),
            same[0].angles,
            same[0].backing,
            same[0].solid,
        )
        for same in found.values()
    ]
