"""Slabs sawn from stacks at the layup's angle, then trimmed to pieces: the operations."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.parts.part import Part
from jigs.stages.layup.plan import LayupJigs, LayupPlan
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import ON_SLED, SETTING, each
from jigs.work.model import Check, Operation, uses

CAUTIONS = ("table-saw.stop", "saw.bin", "table-saw")
PINNED = ("layup.pin", "saw.bin", "table-saw")


def slabs(of: str, layup: LayupPlan, jigs: LayupJigs, sled: Sequence[Part], end: str) -> Operation:
    """The stack moves on by the pitch between cuts."""
    way = layup.way
    return Operation(
        f"{of}.slabs{end}",
        "table saw",
        "Saw the stacks to slabs on the slanted sled.",
        how=(
            "Lay the stack flat, ply edges up, its first ply against the fence, its tail towards you.",
            "First cut: just clean the steps off the leaning end."
            if way.stagger
            else "First cut: meet the stack's foot at this distance from its end.",
            "Move the stack on until its sawn end meets the pin; both hold-downs tight.",
            "Pull the pin before the blade turns, then cut.",
            "When the blade stands still, lift the slab off with a stick.",
            "Mark the corner of each slab that stood on the stack's foot.",
        ),
        pieces=way.stacks * way.pieces,
        comes="slab",
        rings=layup.rings,
        settings=(
            Quantity("ply-angle", "Cut to the plies", way.cut_angle, "angle"),
            calliper("slab", "Thickness of each slab", way.slab),
            Quantity("pitch", "Along the plies from slab to slab", way.pitch),
            *(
                ()
                if way.stagger
                else (ruled("foot", "First cut from the end of the stack's foot", way.foot),)
            ),
            Quantity("slabs-each", "Slabs from each stack", way.pieces, "count"),
            ruled("blade-height", "Blade above the table", jigs.sled.saw_height),
        ),
        jigs=uses(sled, notes=True),
        trial="a stack of scrap: two slabs",
        checks=(
            Check(
                "slab",
                "Calliper over the slab at both ends: the same, as set",
                if_not="ends differ: the fence is not straight; both off: move the pin",
            ),
            Check(
                "mirror",
                "Two slabs, one turned over about its length: plies meet all along",
                if_not="the angle is off: prove the fence against the base's right edge",
            ),
        ),
        cautions=PINNED,
        minutes=each(way.stacks * way.pieces, ON_SLED, SETTING),
    )


def trimmed(of: str, layup: LayupPlan, jigs: LayupJigs, sled: Sequence[Part], end: str) -> Operation:
    """Both ends of every slab, the one that begins with the first ply first."""
    way, pieces = layup.way, layup.pieces + layup.spares
    sides = (calliper("side-a", "Side a", layup.layup.a), calliper("side-b", "Side b", layup.layup.b))
    return Operation(
        f"{of}.trim{end}",
        "table saw",
        "Trim the slabs to pieces, square, on the trim sled.",
        how=(
            f"First the end that begins with {layup.names[0]}, against the "
            f"{'slanted' if jigs.trim.slanted else 'square'} stop, a sawn side on the fence.",
            *(
                (
                    f"Change to the square stop {way.cut} and turn the slab end for end, the same side on the fence.",
                    "Push its square end to the stop; the corner is just sawn off.",
                )
                if jigs.trim.slanted
                else ("Turn the slab end for end, the same side on the fence, and cut the other end.",)
            ),
            "Hold-down tight on the piece before every cut; nothing stands on the waste side.",
            "Brush the dust from stop and fence before every piece.",
        ),
        pieces=pieces,
        comes="piece",
        rings=layup.rings,
        settings=(
            Quantity("slab-length", "Cut slabs off square to", way.slab_length),
            ruled("blade-height", "Blade above the table", jigs.trim.saw_height),
        ),
        jigs=uses(sled, notes=True),
        trial="two slabs of scrap, which mirror each other edge to edge",
        checks=(
            Check("sides", "Calliper over both sides", sides, "move the stop by the error"),
            Check(
                "mirror",
                "Two pieces laid mirrored: every ply goes on in the other",
                if_not="the wrong end was cut first: sort these out",
            ),
        ),
        cautions=CAUTIONS,
        minutes=each(2 * pieces, ON_SLED, SETTING),
    )
