"""What the mountings of a torus share: bolts by hand, a dial, a start at the lowest speed."""

from __future__ import annotations

from math import tau

from geometry.bodies.tube import Tube
from geometry.hardware.fittings import called, head_place
from geometry.lathe.mountings import Mounting
from jigs.plans.torus import TorusPlan
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.hardware import piece
from jigs.work.lathe import runout_check, scaled, start, tightened
from jigs.work.minutes import MOUNTED
from jigs.work.model import Check, Goods, Operation, at_lathe, right_if

CAP = "Cap the centre bolt's end with a round of wood, bored through and screwed on flush: it spins before your hands."
CHANNELLED = ("braced_mounting", "last_mounting")
CAP_AGAIN = "Where the bolt stands out past its nut, screw the cap on again."


def capped(plan: TorusPlan) -> tuple[Quantity, ...]:
    """The size of the wood on the centre bolt's end."""
    return (
        ruled("cap", "Bolt's cap, across at most", plan.mountings.cap, bound="most"),
        ruled("cap-thick", "Bolt's cap, thick, about", plan.mountings.cap_thick),
    )


def let_in(plan: TorusPlan, bolt: str) -> str:
    """How a head is let into a back."""
    across, deep = (plan.job.show(mm) for mm in head_place(bolt))
    return f"{across} across and {deep} deep. Glue a slip of hardwood beside a flat: it cannot turn"


ROUND = (
    "Angles run round the tube: 0° the rim, 90° the face turned first, 180° the hole, 270° the glued flat."
)
FACES = "On a tube that is not round, an angle tells which way its surface faces there."


def round_tube(plan: TorusPlan) -> tuple[str, ...]:
    """What angles mean."""
    return (ROUND,) if plan.job.form.tube.round else (ROUND, FACES)


def tube_sizes(tube: Tube) -> tuple[Quantity, ...]:
    """Its width; its height too where it is not round."""
    wide = calliper("tube", "Tube" if tube.round else "Tube, wide", 2 * tube.wide)
    return (wide,) if tube.round else (wide, calliper("tube-high", "Tube, along the axis", 2 * tube.high))


def pulled(plan: TorusPlan, mounting: str) -> tuple[Quantity, ...]:
    """What the bolts of a mounting have to be drawn with."""
    drawn = plan.mountings.bolts(mounting)
    return (
        Quantity("bolt", "Bolt", called(drawn.bolt), "text"),
        Quantity("pull", "Pull of each bolt, at least", drawn.pull, "force", bound="least"),
        *tightened(drawn.torque, drawn.most_torque),
    )


def scale(plan: TorusPlan, mounting: str) -> tuple[Quantity, ...]:
    """What a scale on the wrench shows meanwhile."""
    drawn = plan.mountings.bolts(mounting)
    return scaled(plan.job.unit, drawn.torque, drawn.most_torque)


def head_holds(bolt: str) -> Check:
    """Of what is sunk into a board's back, before the work hides it."""
    return Check("head", f"Turn {bolt} by its end: the head holds", if_not="glue a block beside the head")


def centre_bolt(plan: TorusPlan) -> Goods:
    """One that the retainer and then the channel board carry."""
    held = plan.holding
    length = ruled("length", "Length at least", plan.mountings.centre_bolt, bound="least")
    washer = ruled("washer", "Washer across", held.washer)
    what = f"{called(held.bolt)} hexagon bolt, threaded all along, with nut and large washer"
    return piece("bolt.centre", what, 1, length, washer, again=True)


def balanced(
    of: str, where: str, depth: float, within: tuple[Quantity, ...] = (), stays: tuple[str, ...] = ()
) -> Operation:
    """Weight against the heavy side: woods differ, and a blank is not round yet."""
    return at_lathe(
        f"{of}.balance",
        "Balance the work before it runs.",
        how=(
            "Take the belt off, or the drive out of gear, and let the work swing until it rests.",
            "The heavy side hangs down: mark it.",
            f"Screw a block of scrap to {where}.",
            "Shift it until the work stays where you leave it; it has to clear the headstock.",
            *stays,
        ),
        settings=(*within, ruled("screws.depth", "Screws at most", depth, bound="most")),
        checks=right_if(
            "rests",
            "Leave it in four places: it does not swing back",
            if_not="shift the block, or take a smaller one",
        ),
        cautions=("lathe.screws",),
        minutes=MOUNTED / 2,
    )


def turned(mounting: Mounting) -> tuple[Quantity, ...]:
    """From where to where round the tube, both from 0 to a whole turn."""
    arc = mounting.turns
    if arc is None:
        return ()
    return (
        Quantity("turn.from", "Turn round the tube from", arc.start % tau, "angle"),
        Quantity("turn.to", "to", arc.end % tau, "angle"),
    )


def runout(plan: TorusPlan, where: str, if_not: str) -> Check:
    """By a dial, one turn by hand."""
    return runout_check(plan.mountings.runout, where, if_not)


def started(
    plan: TorusPlan, of: str, where: str = "", if_not: str = "", bolted: bool = False, braced: bool = False
) -> Operation:
    """The start of a mounting; of one that a bolt draws no tailstock is in the way. Braces reach past the work.

    In the channel the first face is hidden; the waste flats lie in one plane with the first board's face.
    """
    tailstock = "" if bolted else "Bring up the tailstock."
    face = "the waste flats" if of in CHANNELLED else "the face"
    return start(
        of, plan.rim_speed, plan.mountings.runout, where, if_not, tailstock, face, braced, plan.slowed
    )
