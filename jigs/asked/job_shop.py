"""What the user has: machines, sheets, bolts, and how jigs are made; every length in mm."""

from __future__ import annotations

from dataclasses import asdict
from typing import Literal, get_args

from geometry.records import Record
from jigs.asked.job_wood import Glue, Paper, Prices, Spares, Stock
from jigs.asked.key import key

Process = Literal["print", "cut", "turn", "paper"]


SawChoice = Literal["table saw", "bandsaw", "auto"]
MAKINGS = ("print", "cut", "paper")


# fmt: off
class Cutting(Record):
    """Which saw cuts what; "auto" is the table saw where it is tall enough, else the bandsaw."""

    wedge_rings: SawChoice = key("choice", "which saw cuts the wedge rings", "auto", choices=get_args(SawChoice))
    segments: SawChoice = key("choice", "which saw cuts the segments", "auto", choices=get_args(SawChoice))
    plan_angle_sled: bool = key("flag", "whether the sled for flat rings is made too", False)


class Saw(Record):
    """The table saw."""

    kerf: float = key("length", "width of the saw's cut", 3.0, inch_default=3.175, least=0.3, most=12)
    blade_height: float = key("length", "the most that the blade stands above the table", 80.0, inch_default=79.375,
        least=10, most=1500)
    blade_diameter: float = key("length", "of the blade", 250.0, inch_default=254.0, least=100, most=2000)
    throat: float = key("length", "clear distance beside the blade", 600.0, inch_default=609.6, least=50,
        example=400.0)
    table_front: float = key("length", "from the table's front edge to the blade's axle", 300.0, inch_default=304.8,
        least=50, most=2000)
    slot_width: float = key("length", "of the mitre slot", 19.0, inch_default=19.05, least=3, most=60)
    slot_depth: float = key("length", "of the mitre slot", 9.5, inch_default=9.525, least=2, most=40)
    slot_distance: float = key("length", "from the blade's near face to the mitre slot's near edge", 110.0,
        inch_default=111.125, least=5, most=1500)
    tilts: Literal["left", "right"] = key("choice", "the side to which the blade's top tilts, seen from the "
        "operator; look at yours", "left", choices=("left", "right"))


class Bandsaw(Record):
    """The bandsaw; without a height there is none."""

    kerf: float = key("length", "width of the bandsaw's cut", 1.2, inch_default=1.190625, least=0.3, most=8)
    height: float | None = key("length", "the most under the guides", unset="there is no bandsaw", example=200.0,
        least=10, most=1500)
    throat: float = key("length", "clear distance from the blade to the column", 350.0, inch_default=349.25, least=50)
    drift: float = key("number", "measured: degrees that a straight cut leans off the table's left edge as it runs "
        "away from you, + to the left", 0.0, least=-10, most=10)
    table_left: float = key("length", "from the blade to the table's left edge", 200.0, inch_default=203.2, least=30,
        most=1500)
    table_front: float = key("length", "from the teeth to the table's front edge", 200.0, inch_default=203.2,
        least=30, most=1500)


class SledWish(Record):
    """Clearances of the wedge-ring sled, and ends of the wedges."""

    trim: float = key("length", "left on the base beside the blade for its first pass to cut away", 5.0,
        inch_default=4.7625, most=50)
    clear_of_blade: float = key("length", "least room between anything fixed and the blade", 12.0, inch_default=12.7,
        least=5, most=100)
    hands_clear: float = key("length", "least room between the handle and the blade", 150.0, inch_default=152.4,
        least=150, most=600)
    runner_play: float = key("length", "of the runner in the mitre slot's width", 0.1, inch_default=0.1016, most=2)
    runner_clearance: float = key("length", "of the runner above the mitre slot's floor", 0.5, inch_default=0.508,
        most=5)
    past_bearing: float = key("length", "of the sled's wedge past the face that lies on it", 10.0, inch_default=9.525,
        most=100)
    thin_end: float = key("length", "least thickness of the other wedges at their thin end", 5.0, inch_default=4.7625,
        least=1, most=50)


class TruingWish(Record):
    """Truing the ends of quarters and halves."""

    abrasive: float = key("length", "thickness of the abrasive on its board", 0.8, inch_default=0.79375, most=5)


class ClampingWish(Record):
    """Blocks that give clamps parallel faces."""

    height: float = key("length", "of the clamps' faces above the wood", 30.0, inch_default=31.75, least=20, most=100)
    set_back: float = key("length", "of a block from the joint, so that glue does not bridge it", 3.0,
        inch_default=3.175, most=20)
    clear_of_form: float = key("length", "least wood between a block's foot and the finished form", 1.0,
        inch_default=1.190625, least=0.5, most=20)
    band_overlap: float = key("length", "of a clamp band, beyond what it goes round", 200.0, inch_default=203.2,
        most=2000)


class Lathe(Record):
    """The lathe."""

    swing_over_bed: float = key("length", "the largest diameter that turns over the bed", 400.0, inch_default=406.4,
        least=200)


class HoldingWish(Record):
    """How the support board and the retainer hold."""

    contact: float = key("number", "degrees up each flank of the tube that the channel touches", 50.0, least=30,
        most=65)
    relief_width: float = key("length", "of the groove along the channel's bottom", 8.0, inch_default=7.9375, least=1,
        most=50)
    relief_depth: float = key("length", "of the groove along the channel's bottom", 1.0, inch_default=1.190625,
        least=0.2, most=10)
    solid_under: float = key("length", "least board under the channel", 18.0, inch_default=19.05, least=6, most=200)
    beyond_rim: float = key("length", "of the support board's diameter over the outer diameter", 60.0,
        inch_default=63.5, most=500)
    least_flat: float = key("length", "least width of the flat that is glued to the first board", 20.0,
        inch_default=20.6375, least=5, most=200)
    tool_room: float = key("length", "least room for the tool beside whatever holds the work", 3.0,
        inch_default=3.175, least=0.5, most=30)
    least_overlap: float = key("number", "degrees round the tube that two mountings both turn", 10.0, least=5,
        most=25)
    spigot_height: float = key("length", "of the first board's spigot in the blank", 2.0, inch_default=2.38125,
        least=0.5, most=10)
    spigot_clearance: float = key("length", "between the spigot and the blank's inner flats", 0.2,
        inch_default=0.2032, most=2)
    saw_short: float = key("length", "of the waste flat, where turning the first board away stops", 2.0,
        inch_default=2.38125, least=2, most=10)
    neck_clearance: float = key("length", "round the retainer's neck in the hole", 1.5, inch_default=1.5875,
        least=0.2, most=20)
    board_clearance: float = key("length", "between the retainer and the support board", 3.0, inch_default=3.175,
        least=0.5, most=30)
    washer: float = key("length", "diameter of the retainer's washer", 50.0, inch_default=50.8, least=10, most=150)


class Bolts(Record):
    """Bolts of the holding fixtures; None means that the plan decides by the work's size."""

    centre: str | None = key("choice", "thread of the retainer's one bolt, or of a plug's; with an inch one the "
        "braces' bolts are 5/16 in, else M8; in a job in inches thread of the retainer's one bolt, or of a plug's",
        example="M10", inch_example="3/8 in",
        unset="M10, M8 below 200 mm across; in a job in inches 3/8 in, 5/16 in below 8 in across",
        choices=("M6", "M8", "M10", "M12", "1/4 in", "5/16 in", "3/8 in"))
    braces: int | None = key("count", "how many braces hold the rim", unset="one for each 125 mm of rim, 4 to 12; in a "
        "job in inches one for each 5 in of rim, 4 to 12", example=7, least=3, most=24)


class Boards(Record):
    """Sheet goods, as measured."""

    thickness: float = key("length", "measured, of one layer of a support board or retainer", 18.0,
        inch_default=18.25625, least=3, most=100)
    sheet: float = key("length", "measured, of the sheet that the sled is cut from", 12.0, inch_default=11.90625,
        least=3, most=60)
    play: float = key("length", "of a slot over the sheet that enters it", 0.15, inch_default=0.1524, most=2)


class Made(Record):
    """How each family of jigs is made, where it is not made otherwise anyhow."""

    gauges: Process = key("choice", "profile gauges", "print", choices=MAKINGS)
    sizes: Process = key("choice", "width forks and sticks", "cut", choices=MAKINGS)
    angles: Process = key("choice", "angle plates and wedges", "cut", choices=MAKINGS)
    coupon: Process = key("choice", "coupon that measures the machine; paper shrinks with the weather", "print",
        choices=MAKINGS[:2])
    sled: Process = key("choice", "sled; what carries work past a blade is not printed", "cut", choices=MAKINGS[1:])
    segments: Process = key("choice", "segment carriers; what carries work past a blade is not printed", "cut",
        choices=MAKINGS[1:])
    truing: Process = key("choice", "truing carriers, their boards and the check of a half; slots are the sheet's",
        "cut", choices=MAKINGS[1:])
    clamping: Process = key("choice", "clamping blocks; they are glued on and sawn off, so wood", "cut",
        choices=MAKINGS[1:])
    glue_up: Process = key("choice", "glue-up boards of flat rings", "cut", choices=MAKINGS)
    centring: Process = key("choice", "plates that centre a ring on the tailstock", "cut", choices=MAKINGS[:2])
    standing: Process = key("choice", "standing gauges and the flats gauge", "print", choices=MAKINGS)
    mountings: Process = key("choice", "braces; what spins with the work is not printed, but for their pads", "cut",
        choices=MAKINGS[1:])
    pads: Process = key("choice", "pads of the braces, printed or planed from wood", "print", choices=MAKINGS[:2])
    holding: Process = key("choice", "boards and retainer; what spins with the work is not printed", "cut",
        choices=MAKINGS[1:])
    layup: Process = key("choice", "sleds, tray and holder of a layup; what carries work past a blade is not "
        "printed", "cut", choices=MAKINGS[1:])

    def by_family(self) -> dict[str, Process]:
        return asdict(self)


class Printer(Record):
    """The 3D printer; `bed` is x by y."""

    bed: tuple[float, float] = key("bed", "across and deep", (220.0, 220.0), inch_default=(215.9, 215.9), least=50,
        most=2000)
    nozzle: float = key("length", "diameter of the nozzle", 0.4, least=0.1, most=2)
    layer: float = key("length", "height of a layer", 0.2, least=0.04, most=1)
    play: float = key("length", "of a printed slot or socket over what enters it", 0.1, inch_default=0.1016, most=2)


class Cutter(Record):
    """The laser or router; `bed` is x by y. A `kerf` of 0 leaves the offset to its own software."""

    bed: tuple[float, float] = key("bed", "across and deep", (900.0, 600.0), inch_default=(914.4, 609.6), least=100)
    kerf: float = key("length", "width of its cut; 0 leaves that to its own software", 0.0, most=10)
    cut_colour: str = key("colour", "in SVG files, of outlines and openings; programs tell by it what to do", "#000000")
    drill_colour: str = key("colour", "in SVG files, of round holes", "#008080")
    engrave_colour: str = key("colour", "in SVG files, of lettering and lines", "#c06000")
    spacing: float = key("length", "between parts on a sheet, and to its edges", 5.0, inch_default=4.7625, most=50)


class Workshop(Record):
    """Machines and materials that jobs share."""

    cutting: Cutting
    saw: Saw
    bandsaw: Bandsaw
    sled: SledWish
    truing: TruingWish
    clamping: ClampingWish
    lathe: Lathe
    holding: HoldingWish
    bolts: Bolts
    boards: Boards
    stock: Stock
    spares: Spares
    glue: Glue
    paper: Paper
    made: Made
    printer: Printer
    cutter: Cutter
    prices: Prices
# fmt: on
