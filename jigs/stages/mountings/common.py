"""What every mounting has: a faceplate's screws, bolts by hand, a dial, a start at the lowest speed."""

from __future__ import annotations

from math import tau

from geometry.mountings import Mounting
from jigs.plan.mountings import Screws
from jigs.plan.torus import TorusPlan
from jigs.quantity import Quantity, calliper, ruled
from jigs.work.hardware import piece
from jigs.work.minutes import MOUNTED
from jigs.work.model import Check, Goods, Operation, Reading

ROUND = (
    "Angles run round the tube: 0° the rim, 90° the face turned first, 180° the hole, 270° the glued flat."
)


def screwed(screws: Screws) -> tuple[Quantity, ...]:
    """Of a faceplate."""
    return (
        Quantity("screws", "Screws through the faceplate", screws.count, "count"),
        calliper("screws.across", "Screws, across", screws.across),
        ruled("screws.depth", "Screws, deep in the wood, at most", screws.depth),
    )


def pulled(plan: TorusPlan, mounting: str) -> tuple[Quantity, ...]:
    """What the bolts of a mounting have to be drawn with."""
    drawn = plan.mountings.bolts(mounting)
    return (
        Quantity("bolt", "Bolt", drawn.bolt, "text"),
        Quantity("pull", "Pull of each bolt, at least", drawn.pull, "force"),
        Quantity("torque", "Turn its nut with, at least", drawn.torque, "torque"),
    )


def centre_bolt(plan: TorusPlan) -> Goods:
    """One that the retainer and then the channel board carry."""
    held = plan.holding
    length = ruled("length", "Length at least", held.bolt_length)
    washer = ruled("washer", "Washer across", held.washer)
    return piece("bolt.centre", f"{held.bolt} bolt with nut and large washer", 1, length, washer, again=True)


def turned(mounting: Mounting) -> tuple[Quantity, ...]:
    """From where to where round the tube, both from 0 to a whole turn."""
    arc = mounting.turns
    if arc is None:
        return ()
    return (
        Quantity("turn.from", "Turn round the tube from", arc.start % tau, "angle"),
        Quantity("turn.to", "to", arc.end % tau, "angle"),
    )


def runout(plan: TorusPlan, where: str, mend: str) -> Check:
    """By a dial, one turn by hand."""
    limits = plan.mountings.runout
    return Check(
        "runout",
        f"Dial on {where}, one turn by hand: total reading",
        (
            calliper("runout.accepted", "Good enough, for it sands out", limits.accepted),
            calliper("runout.most", "Centre it again over", limits.most),
        ),
        mend,
    )


def started(plan: TorusPlan, of: str, where: str = "", mend: str = "", bolted: bool = False) -> Operation:
    """One turn by hand, the dial where something is true already, then the lowest speed."""
    slow, fast = plan.rim_speed
    limit = calliper("planned", "at most", plan.mountings.runout.most)
    return Operation(
        f"{of}.start",
        of,
        "lathe",
        "Turn the work once by hand, then start at the lowest speed.",
        how=(
            "Turn it once past the rest and the bed: nothing touches.",
            *(("Set a dial to the work and turn it once more.",) if where else ()),
            *(() if bolted else ("Bring up the tailstock.",)),
            "Stand out of the plane of the work and switch on at the lowest speed.",
            "Go faster in steps while nothing shakes; stop at once if it creeps or sounds dull.",
        ),
        settings=(
            Quantity("speed.from", "Usual speed for this rim, from", slow, "speed"),
            Quantity("speed.to", "to, and never past the lathe's rating", fast, "speed"),
        ),
        checks=(runout(plan, where, mend),) if where else (),
        cautions=("lathe.turn-by-hand", "lathe.speed-bolted" if bolted else "lathe.speed", "lathe.stand"),
        readings=(Reading("runout", f"Runout at {where}", limit, 2),) if where else (),
        minutes=MOUNTED,
    )
