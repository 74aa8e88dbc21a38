"""Which wood each segment is, as the page shows and changes it."""

from __future__ import annotations

from collections import Counter
from math import pi

from jigs.figures.colours import RGB, WOODS, colour_of
from jigs.page.contract import RingView, WoodView
from jigs.plans.plan import Shape, by_form
from jigs.plans.shape import TorusShape, VesselShape


def _wood(name: str, colour: RGB, count: int) -> WoodView:
    return WoodView(name, "#{:02x}{:02x}{:02x}".format(*colour), count)


PALETTE = [_wood(name, colour, 0) for name, colour in WOODS.items()]  # the usual ones first


def legend(shape: Shape) -> list[WoodView]:
    """The woods of all segments with how many are of each; then the plies of layups, in whose pieces all are."""
    rings = rings_of(shape)
    counts = Counter(name for ring in rings for name in ring.woods if not _plied(shape, ring.number))
    woods = [_wood(name, colour_of(name), count) for name, count in counts.most_common()]
    plies: dict[str, WoodView] = {}
    for layup in shape.layups:
        pieces = sum(len(ring.woods) for ring in rings if ring.number in layup.rings)
        for name, colour in zip(layup.names, layup.colours, strict=True):
            held = plies[name].count if name in plies else 0
            plies[name] = _wood(name, colour_of(name, colour), held + pieces)
    return [*woods, *plies.values()]


def rings_of(shape: Shape) -> list[RingView]:
    return by_form(shape, torus=_torus_rings, vessel=_vessel_rings)


def _plied(shape: Shape, ring: int) -> bool:
    return any(ring in layup.rings for layup in shape.layups)


def _torus_rings(shape: TorusShape) -> list[RingView]:
    w, segments = shape.blank.half_wedge, shape.blank.segments
    return [
        RingView(k + 1, (2 * k - 1) * w, (2 * k + 1) * w, segments, -pi / 2, list(woods),
                 not _plied(shape, k + 1))
        for k, woods in enumerate(shape.species)
    ]  # fmt: skip


def _vessel_rings(shape: VesselShape) -> list[RingView]:
    return [
        RingView(one.number, one.ring.bottom, one.ring.top, one.ring.segments, one.turned, list(one.species),
                 one.kind != "staves" and not _plied(shape, one.number), one.plug / 2)
        for one in shape.stack.layers
    ]  # fmt: skip
