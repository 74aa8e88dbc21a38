"""A rack for those who own sleds: which jigs are left out of it, and what is done with the turner's own instead.

What no other shop has is essential: gauges, sizes, reference plates and wedges, and what holds this work on the lathe.
What carries, clamps or centres work is left out, but for the wedges and checks among it.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from geometry.records import replace
from jigs.parts.families import Own, family_of
from jigs.parts.part import Part
from jigs.work.model import Operation

OURS = "Where a line below names a part of a sled or board that you do not have, do the same with yours."
CAUTION = "sled.own"
BUILDING = "building"
SLOTS = "coupon.sheet"  # what the slots of our own sleds are cut to
SAWS = ("table saw", "bandsaw")
OF_OURS = ("wedge_rings.plug", "flat-segments.holds")  # settings that only our own sleds have


def left_out(parts: Sequence[Part]) -> tuple[Part, ...]:
    """Those that a lean rack does without."""
    return tuple(
        part for part in parts if part.jig.slots or (family_of(part.family).own and not part.jig.kept)
    )


def with_own(operations: Sequence[Operation], without: Sequence[Part]) -> tuple[Operation, ...]:
    """The same work without these parts: none of them is built, and where one is used the turner's own is.

    Whatever is sawn in a stage that had such a sled is sawn on the turner's.
    """
    own = {part.name: found for part in without if (found := family_of(part.family).own)}
    lost = {
        one.id: tuple(dict.fromkeys(own[u.part] for u in one.jigs if u.part in own)) for one in operations
    }
    sawn = {one.stage for one in operations if any(of.sawn for of in lost[one.id]) and one.place in SAWS}
    return tuple(
        _with_own(one, lost[one.id], own, one.stage in sawn and one.place in SAWS)
        for one in operations
        if not _of_ours(one, bool(lost[one.id]))
    )


def _of_ours(one: Operation, lost: bool) -> bool:
    """Whether it is about our own sleds alone; their first pass over the blade takes no jig."""
    if one.id == SLOTS:
        return True
    if one.stage == BUILDING:
        return lost or not one.jigs
    return lost and one.id.startswith(OF_OURS)


def _with_own(one: Operation, lost: Sequence[Own], left: Collection[str], sawn: bool) -> Operation:
    if not lost and not sawn:
        return one
    instead = f" Use {' and '.join(dict.fromkeys(own.name for own in lost))}." if lost else ""
    return replace(
        one,
        does=f"{one.does}{instead}",
        how=(*(own.instead for own in lost), OURS, *one.how),
        jigs=tuple(use for use in one.jigs if use.part not in left),
        cautions=(CAUTION, *one.cautions)[:3] if sawn else one.cautions,
        figure="",
    )
