"""A rack for those who own sleds: which jigs are left out of it, and what is done with the turner's own instead.

What no other shop has is essential: gauges, sizes, reference plates and wedges, and what holds this work on the lathe.
What carries, clamps or centres work is left out, but for the wedges and checks among it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from jigs.parts.part import Part
from jigs.work.model import Operation

CHECKS = {"end-wedge", "half-check", "half-ring-check"}  # reference pieces of a family that is left out
INSTEAD = {
    "sled": "Use your own sled for whole rings: clamps press the ring down and to the fence, a stop behind it takes "
    "the thrust. The check corner proves its angle.",
    "segments": "Use your own sled: a clamp on the strip and one on the segment, a stop that swings clear before the "
    "cut. The plates listed and a dry ring of scrap prove its angle.",
    "truing": "Use abrasive on your own flat board: sand up to a pencilled line, both ends in one plane.",
    "clamping": "Use scraps of your own that give the clamps parallel faces; wax what must not stick.",
    "glue_up": "Use a flat board of your own, waxed, with the ring's outline drawn by the sizes on its ring sheet.",
    "centring": "Centre it by its outline, drawn from the axis on the ring below.",
    "layup": "Use your own sled at the angle listed, the stack clamped down, and two fences at right angles to glue up "
    "in.",
}
OWN = {
    "sled": "your own sled",
    "segments": "your own sled",
    "truing": "your own sanding board",
    "clamping": "your own blocks",
    "glue_up": "your own flat board",
    "centring": "its drawn outline",
    "layup": "your own sled and fences",
}  # in the listing, which has no room for more
OURS = "Where a line below names a part of a sled or board that you do not have, do the same with yours."
SAWN = ("sled", "segments", "layup")  # families that carry work past a blade
CAUTION = "sled.own"
MAKING = ("coupon", "printing", "cutting_out")  # stages that make jigs: they know no others than the rack's
BUILDING = "building"
SAWS = ("table saw", "bandsaw")
OF_OURS = ("wedge_rings.plug", "flat-segments.holds")  # settings that only our own sleds have


def left_out(parts: Sequence[Part]) -> tuple[Part, ...]:
    """Those that a lean rack does without."""
    return tuple(
        p for p in parts if p.family in INSTEAD and p.name not in CHECKS and p.piece_of not in CHECKS
    )


def with_own(operations: Sequence[Operation], without: Sequence[Part]) -> tuple[Operation, ...]:
    """The same work without these parts: none of them is built, and where one is used the turner's own is.

    Whatever is sawn in a stage that had such a sled is sawn on the turner's.
    """
    family = {part.name: part.family for part in without}
    lost = {
        one.id: tuple(dict.fromkeys(family[u.part] for u in one.jigs if u.part in family))
        for one in operations
    }
    sawn = {one.stage for one in operations if {*lost[one.id]} & {*SAWN} and one.place in SAWS}
    return tuple(
        _with_own(one, lost[one.id], family, one.stage in sawn and one.place in SAWS)
        for one in operations
        if not _of_ours(one, bool(lost[one.id]))
    )


def _of_ours(one: Operation, lost: bool) -> bool:
    """Whether it is about our own sleds alone; their first pass over the blade takes no jig."""
    if one.stage == BUILDING:
        return lost or not one.jigs
    return lost and one.id.startswith(OF_OURS)


def _with_own(one: Operation, lost: Sequence[str], family: Mapping[str, str], sawn: bool) -> Operation:
    if not lost and not sawn:
        return one
    instead = f" Use {' and '.join(dict.fromkeys(OWN[name] for name in lost))}." if lost else ""
    return replace(
        one,
        does=f"{one.does}{instead}",
        how=(*(INSTEAD[name] for name in lost), OURS, *one.how),
        jigs=tuple(use for use in one.jigs if use.part not in family),
        cautions=(CAUTION, *one.cautions)[:3] if sawn else one.cautions,
        figure="",
    )
