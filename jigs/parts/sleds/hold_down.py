"""What a hold-down is made of: the window in its plate, slide, finger, cam and lever. Places as in `geometry`."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.hardware.fittings import Fittings
from geometry.hardware.hold_down import (
    DISC,
    DOWEL_AT,
    GAP,
    HAND,
    LEVER,
    LEVER_WIDTH,
    OFF,
    PAPER_CLEAR,
    PIN_CLEAR,
    TENON,
    HoldDown,
)
from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.plane.contour import outline as contour
from jigs.parts.part import Dimension, Line, Part, Point
from jigs.parts.plate import Plate
from jigs.parts.probes import Extent
from jigs.plans.plan import Plan
from jigs.words.lengths import MM_PER_INCH, Unit, limit_length, show_length, weight_text

RELIEF = 1.5  # of a finger above the wood, off its pad
THINNED = 8.0  # mm, height of a thinned foot
TIP = 12.0  # height of a finger's end
DOWN = (
    "Lever up: the hold-down is raised. Level: it presses, the pins in the wood. Press the lever's end as hard as you "
    "press a kitchen scale to {hand}: less does not hold the cut.",
    "The lever must stay down by itself; try that before you switch the saw on.",
)
# Of a brass pin below its edge, or below the paper on it.
PINS_OUT: dict[Unit, float] = {"mm": 1.0, "in": 0.040 * MM_PER_INCH}
UNDER_FOOT = "under the edge that presses, before the pins"
PINS = (
    "Put brass pins, {across} across, into the lower edge at the marks, nearer the side away from the blade. Leave "
    "{out} out; file it to a point. The blade passes {clear} from the nearest."
)
PAPER_KEPT: dict[Unit, str] = {
    "mm": f"{PAPER_CLEAR:g} mm",
    "in": "1/8 in",
}  # off the blade, as a rule shows it
PAPER = (
    "Glue abrasive paper, 80 to 120 grit, {where}; keep it {clear} clear of the blade. The hold is worked out with "
    "it: renew it when it is smooth."
)
NOT_UNDER = (
    "Glue no paper on the base: it would raise the wood, and the tilted blade would cut every segment longer."
)


def openings(
    hold: HoldDown, fittings: Fittings, start: float, wood: float, mirror: bool = False
) -> list[Contour]:
    """The window and the two slots in a plate, where the slide's end nearest the blade is at `start`.

    `wood` is the height of the thickest wood's top on the plate; the slide runs on towards +x, or, mirrored, -x.
    """
    way, r = (-1.0 if mirror else 1.0), fittings.bolt_hole / 2
    x0, low, x1, high = hold.window
    left, right = sorted((start + way * x0, start + way * x1))
    slots = [_slot(start + way * x, wood + z0, wood + z1, r) for x, z0, z1 in hold.slots]
    return [rectangle(left, wood + low, right, wood + high), *slots]


def _slot(x: float, low: float, high: float, r: float) -> Contour:
    return contour((x + r, low), (x + r, high, 1.0), (x - r, high), (x - r, low, 1.0))


def slide(
    plan: Plan,
    name: str,
    hold: HoldDown,
    what: str,
    notes: Sequence[str] = (),
    quantity: int = 1,
    making: Sequence[str] = (),
) -> Part:
    """x from its end nearest the blade, y the height above its lower edge."""
    half, (low, high) = plan.job.workshop.boards.play / 2, TENON
    mortises = [rectangle(x - half, low - half, x + hold.sheet + half, high + half) for x in hold.feet]
    plate = Plate(plan, rectangle(0.0, 0.0, hold.width, hold.height), mortises)
    add_bolts(plate, hold)
    plate.marks += [Line(((a, 1.0), (b, 1.0)), "foot", witness=True) for a, b in hold.bearing]
    plate.letter(f"HOLD {what.upper()} ↓", titled=False)
    return plate.part(
        name,
        f"presses the {what} down while it is cut",
        (*rows_note(hold), *down(plan), *notes),
        quantity=quantity,
        making=making,
    )


def add_bolts(plate: Plate, hold: HoldDown) -> None:
    """The holes of the guide bolts and of the pivot; the first of each is measured."""
    across = plate.plan.job.fittings.bolt_hole
    for places, name in ((hold.bolts, "guide bolt's hole"), (hold.pivots, "pivot's hole")):
        for place in places:
            plate.hole(place, across, name if place == places[0] else "")


def rows_note(hold: HoldDown) -> tuple[str, ...]:
    if len(hold.holes) == 1:
        return ()
    return (
        "Use the pivot's lowest hole for the thickest wood. For thinner wood use the hole in which the pressing lever "
        "is nearest to level.",
    )


def down(plan: Plan) -> tuple[str, ...]:
    """How the lever is worked, and how hard."""
    return tuple(one.format(hand=weight_text(HAND, plan.job.unit)) for one in DOWN)


def paper(plan: Plan, where: str) -> str:
    """Where abrasive paper is glued on."""
    return PAPER.format(where=where, clear=PAPER_KEPT[plan.job.unit])


def brass(plan: Plan, text: str = PINS) -> str:
    """How far the pins stand out, and how near the blade they come."""
    unit = plan.job.unit
    return text.format(
        across=show_length(plan.job.fittings.brass, unit),
        out=show_length(PINS_OUT[unit], unit),
        clear=limit_length(PIN_CLEAR, unit, "most"),
    )


def finger(plan: Plan, name: str, hold: HoldDown, what: str, quantity: int, papered: bool = False) -> Part:
    """Seen from the side: x out from the plate's face, y the height above the wood; the tenon goes into the slide."""
    sheet, low, high = hold.sheet, *(hold.gap + z for z in TENON)
    tip_x, tall, tip = hold.finger_end, hold.foot + hold.finger_height, hold.foot + TIP
    outline = polygon(
        [
            *_lower_edge(hold), (tip_x, tip), (sheet + (tip_x - sheet) / 2, tall), (sheet, tall),
            (sheet, high), (0.0, high), (0.0, low), (sheet, low),
        ]
    )  # fmt: skip
    plate = Plate(plan, outline)
    plate.marks += [Line(((x, 0.5), (x, 2.0)), "pin", witness=True) for x in hold.pins]
    plate.letter("FINGER ↓", titled=False)
    plate.gap("tenon", high - low, (sheet / 2, low), (sheet / 2, high))
    under = (paper(plan, UNDER_FOOT),) if papered else ()
    pins = () if hold.foot else (brass(plan),)
    purpose = f"reaches over the {what} and presses on it"
    return plate.part(name, purpose, quantity=quantity, making=(*thinned(plan, hold), *under, *pins))


def thinned(plan: Plan, hold: HoldDown) -> tuple[str, ...]:
    """How a foot is made thinner than its sheet."""
    if hold.nose is None or hold.nose > hold.sheet - 0.05:
        return ()
    low, thick = plan.job.show(THINNED), plan.job.at_most(hold.nose)
    return (
        f"Thin the lowest {low} of a finger that presses between blade and stop to {thick}: take wood off the side "
        "towards the blade.",
    )


def _lower_edge(hold: HoldDown) -> list[Point]:
    """From the slide out: its pad on the wood, relieved beside it; or all of it on a foot."""
    (start, end), sheet, tip = hold.pad, hold.sheet, hold.finger_end
    if hold.foot:
        return [(sheet, hold.foot), (tip, hold.foot)]
    first = [(sheet, RELIEF), (start, RELIEF)] if start > sheet else [(sheet, GAP), (start, GAP)]
    past = [(end, RELIEF), (tip, RELIEF)] if tip > end else []
    return [*first, (start, 0.0), (end, 0.0), *past]


def cam(plan: Plan, name: str, quantity: int) -> Part:
    """The pivot is the origin; the disc's middle lies beside it, away from the lever."""
    plate = Plate(plan, circle((-OFF, 0.0), DISC))
    plate.dimensions.append(Dimension("across", 2 * DISC, Extent("y")))
    _add_pivot(plate)
    plate.letter("CAM", titled=False)
    return plate.part(name, "turns in the plate's window and presses the hold-down", quantity=quantity)


def _add_pivot(plate: Plate) -> None:
    """What cam and lever turn on, and the dowel that keeps them together."""
    plate.hole((0.0, 0.0), plate.plan.job.fittings.bolt_hole, "pivot's hole")
    plate.hole((DOWEL_AT, 0.0), plate.plan.job.fittings.dowel, "dowel's hole")


def lever(plan: Plan, name: str, quantity: int) -> Part:
    """Its pivot is the origin, its end towards +x."""
    half = LEVER_WIDTH / 2
    outline = contour((0.0, -half), (LEVER - half, -half, 1.0), (LEVER - half, half), (0.0, half, 1.0))
    plate = Plate(plan, outline)
    _add_pivot(plate)
    plate.letter("LEVEL: HELD", titled=False)
    return plate.part(name, "turns the cam, behind the plate", quantity=quantity)
