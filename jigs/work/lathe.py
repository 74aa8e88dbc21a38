"""What every mounting on a lathe has: a faceplate's screws, a dial, a start at the lowest speed."""

from __future__ import annotations

from math import cos, inf, pi

from geometry.hardware.fittings import Screws, screw_number
from geometry.lathe.turning import SWING_CLEARANCE, Runout
from jigs.words.lengths import MM_PER_INCH, Unit
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import MOUNTED
from jigs.work.model import Check, Operation, Reading, at_lathe

G = 9.81  # N/kg
# At arm's length and elbow height a man lifts 15 kg without a closer look, a woman 10 (HSE, Manual handling at work,
# INDG143, its filter, from memory).
ONE_LIFTS = 10 * G
# Close to the body a man lifts 25 kg (the same filter, seen in others' words); two lift two thirds of what both do
# alone (guidance on the Manual Handling Operations Regulations, L23, on handling in teams, seen in a copy).
TWO_LIFT = 2 / 3 * 2 * 25 * G
SHAPE = Check(
    "shape",
    "Lathe stopped, a lamp behind: the gauge's edge shows an even line of light, and does not rock",
    if_not="it rocks on a high place: chalk the edge, and turn off what it marks",
)


def screwed(screws: Screws) -> tuple[Quantity, ...]:
    """Of a faceplate."""
    number = screw_number(screws.across)
    on = ruled("screws.on", "Screws, on a circle across, at least", screws.on, bound="least")
    rows = (
        Quantity("screws", "Screws through the faceplate", screws.count, "count"),
        calliper("screws.across", f"Screws{number and ', '}{number}, across", screws.across),
        ruled("screws.depth", "Screws, in the wood at most", screws.depth, bound="most"),
        *((on,) if screws.on else ()),
    )
    if screws.within == inf:
        return rows
    if not screws.beyond:
        return (*rows, ruled("screws.within", "Screws, all inside Ø", screws.within, bound="most"))
    return (
        *rows,
        ruled("screws.within", "Screws, so deep inside Ø", screws.within, bound="most"),
        ruled("screws.beyond", "Screws farther out, in the wood at most", screws.beyond, bound="most"),
    )


def clear_of_bed(across: float, swing: float) -> tuple[str, ...]:
    """How more is sawn off what is round within eight sides, where these swing too wide."""
    wide = across / cos(pi / 8) > swing - SWING_CLEARANCE
    return ("Saw off more corners, until all clear the lathe's bed: eight sides would not.",) if wide else ()


def lifted(newtons: float, mounted: str) -> tuple[Quantity, ...]:
    """What work weighs at most, with what it is `mounted` on, where that is too much for one at a spindle."""
    label = f"Weighs, its {mounted} with it, up to"
    weight = Quantity("lifted", label, newtons / G * 1000, "weight", bound="most")
    return (weight,) if newtons > ONE_LIFTS else ()


def by_two(newtons: float, *does: str) -> tuple[str, ...]:
    """What two do, or how, where work weighs too much for one; else nothing."""
    heavy = ("It is too heavy even for two: let a hoist carry it.",) if newtons > TWO_LIFT else ()
    return (*does, *heavy) if newtons > ONE_LIFTS else ()


UNTIL = "Two lift the work, and one holds it until {}."
OFF = "One holds the work while another {}; two lift it off."


def runout_check(limits: Runout, where: str, if_not: str) -> Check:
    """By a dial, one turn by hand."""
    return Check(
        "runout",
        f"Dial on {where}, one turn by hand: total reading",
        (
            calliper("runout.accepted", "Sand it out, up to", limits.accepted),
            calliper("runout.most", "Centre again over", limits.most),
        ),
        if_not,
    )


def speeds(speed: tuple[int, int]) -> tuple[Quantity, ...]:
    """The usual ones, rpm, of the widest thing that spins."""
    slow, fast = speed
    return (
        Quantity("speed.from", "Usual speed, from", slow, "speed"),
        Quantity("speed.to", "to", fast, "speed"),
    )


WRENCH: dict[Unit, float] = {"mm": 100.0, "in": 4 * MM_PER_INCH}  # from the nut to where a scale pulls
SCALE: dict[Unit, str] = {
    "mm": "Tighten by a wrench. Hook a luggage scale on it 100 mm from the nut and pull square: 10 N are 1 kg.",
    "in": "Tighten by a wrench. Hook a luggage scale on it 4 in from the nut and pull square: lbf are its pounds.",
}


def tightened(torque: float, most: float) -> tuple[Quantity, ...]:
    """N m at a nut, at least and at most."""
    return (
        Quantity("torque.from", "Tighten to, from", torque, "torque", "least"),
        Quantity("torque.to", "to", most, "torque", bound="most"),
    )


def scaled(unit: Unit, torque: float, most: float) -> tuple[Quantity, ...]:
    """What a scale shows that pulls at the nut's wrench, by the lever alone."""
    arm = WRENCH[unit] / 1000
    return (
        Quantity("scale.from", "Scale on the wrench, from", torque / arm, "force", "least"),
        Quantity("scale.to", "to", most / arm, "force", "most"),
    )


PUSHED: dict[Unit, str] = {
    "mm": "Learn that push first, lathe off, a bathroom scale and a block between quill and plug: 10 N are 1 kg.",
    "in": "Learn that push first, lathe off, a bathroom scale and a block between quill and plug: lbf are its pounds.",
}
# N that most bathroom scales read, 150 kg: common practice, no source.
SCALE_READS = 1470.0
STRONG: dict[Unit, str] = {
    "mm": "Check that your scale reads so much: most end at 150 kg.",
    "in": "Check that your scale reads so much: most end at 330 lb.",
}
EIGHT = 8  # equal angles of the spindle


def _dialled(where: str, face: str) -> tuple[Reading, ...]:
    """By dial; the board's own where the work seems to wobble, and half a turn on it where it does."""
    each = "at 8 equal angles of the spindle"
    return (
        Reading("runout", f"Runout at {where}", count=2, by="dial"),
        Reading(
            "radial", f"Over the limit: dial at {where}, + is the plunger in, {each}", count=EIGHT, by="dial"
        ),
        Reading("axial", f"Dial at {face}, {each}", count=EIGHT, by="dial"),
        Reading(
            "radial-turned",
            f"The work turned half round on its board: dial at {where}",
            count=EIGHT,
            by="dial",
        ),
        Reading("axial-turned", f"The same at {face}", count=EIGHT, by="dial"),
        Reading("board-radial", "Dial at the board's own rim", count=EIGHT, by="dial"),
        Reading("board-axial", "Dial at the board's own face", count=EIGHT, by="dial"),
    )


UNEVEN = (
    "One side is, or by a wood not known here may be, heavier and pulls as it turns: never go faster than listed, here "
    "or in any later step."
)


def start(
    of: str,
    speed: tuple[int, int],
    limits: Runout,
    where: str = "",
    if_not: str = "",
    tailstock: str = "Bring up the tailstock.",
    face: str = "the face",
    braced: bool = False,
    slowed: bool = False,
) -> Operation:
    """One turn by hand, the dial where something is true already, then the lowest speed.

    `tailstock` says how it is brought up; nothing where a bolt is in its way.
    """
    return at_lathe(
        f"{of}.start",
        "Turn the work by hand, then start at the lowest speed.",
        how=(
            "Turn it once past the rest, its base and the bed: nothing touches.",
            *(("Set a dial to the work and turn it once more.",) if where else ()),
            *((tailstock,) if tailstock else ()),
            "Stand out of the plane of the work and switch on at the lowest speed.",
            "Go faster in steps while nothing shakes, never past the lathe's rating.",
            "Stop at once if it creeps or sounds dull.",
            *((UNEVEN,) if slowed else ()),
        ),
        settings=speeds(speed),
        checks=(runout_check(limits, where, if_not),) if where else (),
        cautions=(
            "lathe.turn-by-hand" if braced else "lathe.turn-past-rest",
            "lathe.speed" if tailstock else "lathe.speed-bolted",
            "lathe.stand",
        ),
        readings=_dialled(where, face) if where else (),
        minutes=MOUNTED,
    )
