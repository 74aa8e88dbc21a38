"""The keys that every job may state, and those that a workshop file shares."""

from __future__ import annotations

from jigs.keys.key import Key, Table
from jigs.keys.usual import USUAL_STAGES

MAKINGS = ("print", "cut", "paper")
SAWS = ("table saw", "bandsaw", "auto")

SHOP_TABLES = {
    "gauges": Table("The gauges held to the turning work", shared=False),
    "cutting": Table("Which saw cuts what; auto is the table saw where it is tall enough"),
    "saw": Table("The table saw. Common practice for a blade of 250 mm: measure yours"),
    "bandsaw": Table(
        "The bandsaw, where there is one: it has to state its height. Common practice: measure yours"
    ),
    "sled": Table("The wedge-ring sled and the wedges. Common practice"),
    "truing": Table("Truing the ends of quarters and halves. Common practice"),
    "clamping": Table("Blocks that give clamps parallel faces. Common practice"),
    "lathe": Table("The lathe. Common practice: measure yours"),
    "holding": Table("Support board, channel and retainer. Common practice"),
    "bolts": Table("Bolts of the holding fixtures"),
    "boards": Table("Boards and sheets. Common practice: measure yours, nominal sizes are off by 0.5 mm"),
    "made": Table(
        "How each family of jigs is made: printed, cut from sheet, or drawn on paper to be sawn by hand"
    ),
    "printer": Table("The printer of the gauges. Common practice"),
    "cutter": Table("The laser or router. Common practice"),
}


HEAD_KEYS: tuple[Key, ...] = (
    Key("name", "name", "names the output folder", unset="the file's own name", example="hoop"),
    Key("title", "text", "lettered on every jig", unset="the name", example="Hoop", most=40),
    Key("unit", "choice", "of plain numbers in this file, and of what is shown", "mm", choices=("mm", "in")),
    Key("workshop_file", "text", "a workshop file beside this one; .toml may be left off", example="shed",
        unset="nothing is shared", most=200),
)  # fmt: skip

GAUGE_KEYS: tuple[Key, ...] = (
    Key("gauges.stages", "stages", "sizes above the surface as sanded, falling; the last is \"finished\"",
        unset=f"{USUAL_STAGES[0]:g} and {USUAL_STAGES[1]:g} mm where the allowance holds them, and finished",
        example=USUAL_STAGES, most=30),
    Key("gauges.plate_thickness", "length", "of the printed gauges", example=4.0,
        unset="4 mm; 6 over 150 mm long", least=1, most=15),
    Key("gauges.fit", "length", "added to the radius of a gauge's edge, so that it does not rock", 0.1,
        most=2),
    Key("gauges.sanding_allowance", "length", "left for sanding by the finished gauge", 0.25,
        most=3),
    Key("gauges.flats_left", "length", "above the curve, at which roughing by flats stops", 0.3,
        least=0.05, most=5),
    Key("gauges.longest_in_hand", "length", "of a vessel's profile gauges; longer ones come in pieces on a rail",
        150.0, least=40, most=1000),
    Key("gauges.widest_gap", "length", "of a vessel's gap gauges; wider stations get a stick to set callipers by",
        150.0, least=20, most=1000),
)  # fmt: skip

SHOP_KEYS: tuple[Key, ...] = (
    Key("cutting.wedge_rings", "choice", "which saw cuts the wedge rings", "auto", choices=SAWS),
    Key("cutting.segments", "choice", "which saw cuts the segments", "auto", choices=SAWS),
    Key("cutting.plan_angle_sled", "flag", "whether the sled for flat rings is made too", False),

    Key("saw.kerf", "length", "width of the saw's cut", 3.0, least=0.3, most=12),
    Key("saw.blade_height", "length", "the most that the blade stands above the table", 80.0,
        least=10, most=1500),
    Key("saw.blade_diameter", "length", "of the blade", 250.0, least=100, most=2000),
    Key("saw.throat", "length", "clear distance beside the blade", 600.0, least=50),
    Key("saw.table_front", "length", "from the table's front edge to the blade's axle", 300.0, least=50, most=2000),
    Key("saw.slot_width", "length", "of the mitre slot", 19.0, least=3, most=60),
    Key("saw.slot_depth", "length", "of the mitre slot", 9.5, least=2, most=40),
    Key("saw.slot_distance", "length", "from the blade's near face to the mitre slot's near edge", 110.0,
        least=5, most=1500),

    Key("saw.tilts", "choice", "the side to which the blade's top tilts, seen from the operator; look at yours", "left",
        choices=("left", "right")),

    Key("bandsaw.kerf", "length", "width of the bandsaw's cut", 1.2, least=0.3, most=8),
    Key("bandsaw.height", "length", "the most under the guides", unset="there is no bandsaw", example=200.0,
        least=10, most=1500),
    Key("bandsaw.throat", "length", "clear distance from the blade to the column", 350.0, least=50),
    Key("bandsaw.drift", "number", "measured: degrees that a straight cut leans off the table's left edge as it "
        "runs away from you, + to the left", 0.0, least=-10, most=10),
    Key("bandsaw.table_left", "length", "from the blade to the table's left edge", 200.0, least=30, most=1500),
    Key("bandsaw.table_front", "length", "from the teeth to the table's front edge", 200.0, least=30, most=1500),

    Key("sled.trim", "length", "left on the base beside the blade for its first pass to cut away", 5.0, most=50),
    Key("sled.clear_of_blade", "length", "least room between anything fixed and the blade", 12.0, least=5, most=100),
    Key("sled.hands_clear", "length", "least room between the handle and the blade", 150.0, least=150, most=600),
    Key("sled.runner_play", "length", "of the runner in the mitre slot's width", 0.1, most=2),
    Key("sled.runner_clearance", "length", "of the runner above the mitre slot's floor", 0.5, most=5),
    Key("sled.past_bearing", "length", "of the sled's wedge past the face that lies on it", 10.0, most=100),
    Key("sled.thin_end", "length", "least thickness of the other wedges at their thin end", 5.0, least=1, most=50),

    Key("truing.abrasive", "length", "thickness of the abrasive on its board", 0.8, most=5),
    Key("clamping.height", "length", "of the clamps' faces above the wood", 30.0, least=20, most=100),
    Key("clamping.set_back", "length", "of a block from the joint, so that glue does not bridge it", 3.0, most=20),
    Key("clamping.clear_of_form", "length", "least wood between a block's foot and the finished form", 1.0,
        least=0.5, most=20),
    Key("clamping.band_overlap", "length", "of a clamp band, beyond what it goes round", 200.0, most=2000),

    Key("lathe.swing_over_bed", "length", "the largest diameter that turns over the bed", 400.0, least=200),

    Key("holding.contact", "number", "degrees up each flank of the tube that the channel bears on", 50.0,
        least=30, most=65),
    Key("holding.relief_width", "length", "of the groove along the channel's bottom", 8.0, least=1, most=50),
    Key("holding.relief_depth", "length", "of the groove along the channel's bottom", 1.0, least=0.2, most=10),
    Key("holding.solid_under", "length", "least board under the channel", 18.0, least=6, most=200),
    Key("holding.beyond_rim", "length", "of the support board's diameter over the outer diameter", 60.0, most=500),
    Key("holding.least_flat", "length", "least width of the flat that is glued to the first board", 20.0,
        least=5, most=200),
    Key("holding.tool_room", "length", "least room for the tool beside whatever holds the work", 3.0,
        least=0.5, most=30),
    Key("holding.least_overlap", "number", "degrees round the tube that two mountings both turn", 10.0,
        least=5, most=25),
    Key("holding.spigot_height", "length", "of the first board's spigot in the blank", 2.0, least=0.5, most=10),
    Key("holding.spigot_clearance", "length", "between the spigot and the blank's inner flats", 0.2, most=2),
    Key("holding.saw_short", "length", "of the waste flat, where turning the first board away stops", 2.0,
        least=2, most=10),
    Key("holding.neck_clearance", "length", "round the retainer's neck in the hole", 1.5, least=0.2, most=20),
    Key("holding.board_clearance", "length", "between the retainer and the support board", 3.0, least=0.5, most=30),
    Key("holding.washer", "length", "diameter of the retainer's washer", 50.0, least=10, most=150),

    Key("bolts.centre", "choice", "thread of the retainer's one bolt, or of a plug's; with an inch one the braces' "
        "bolts are 5/16 in, else M8", unset="M10; M8 below 200 mm across", example="M10",
        choices=("M6", "M8", "M10", "M12", "1/4 in", "5/16 in", "3/8 in")),
    Key("bolts.braces", "count", "how many braces hold the rim", unset="one for each 125 mm of rim, 4 to 12", example=7,
        least=3, most=24),

    Key("boards.thickness", "length", "measured, of one layer of a support board or retainer", 18.0,
        least=3, most=100),
    Key("boards.sheet", "length", "measured, of the sheet that the sled is cut from", 12.0, least=3, most=60),
    Key("boards.play", "length", "of a slot over the sheet that enters it", 0.15, most=2),

    Key("made.gauges", "choice", "profile gauges", "print", choices=MAKINGS),
    Key("made.sizes", "choice", "width forks and sticks", "cut", choices=MAKINGS),
    Key("made.angles", "choice", "angle plates and wedges", "cut", choices=MAKINGS),
    Key("made.coupon", "choice", "coupon that measures the machine; paper shrinks with the weather", "print",
        choices=MAKINGS[:2]),
    Key("made.sled", "choice", "sled; what carries work past a blade is not printed", "cut", choices=MAKINGS[1:]),
    Key("made.segments", "choice", "segment carriers; what carries work past a blade is not printed", "cut",
        choices=MAKINGS[1:]),
    Key("made.truing", "choice", "truing carriers, their boards and the check of a half; slots are the sheet's", "cut",
        choices=MAKINGS[1:]),
    Key("made.clamping", "choice", "clamping blocks; they are glued on and sawn off, so wood", "cut",
        choices=MAKINGS[1:]),
    Key("made.glue_up", "choice", "glue-up boards of flat rings", "cut", choices=MAKINGS),
    Key("made.centring", "choice", "plates that centre a ring on the tailstock", "cut", choices=MAKINGS[:2]),
    Key("made.standing", "choice", "standing gauges and the flats gauge", "print", choices=MAKINGS),
    Key("made.mountings", "choice", "braces; what spins with the work is not printed, but for their pads", "cut",
        choices=MAKINGS[1:]),
    Key("made.pads", "choice", "pads of the braces, printed or planed from wood", "print", choices=MAKINGS[:2]),
    Key("made.holding", "choice", "boards and retainer; what spins with the work is not printed", "cut",
        choices=MAKINGS[1:]),
    Key("made.layup", "choice", "sleds, tray and holder of a layup; what carries work past a blade is not printed",
        "cut", choices=MAKINGS[1:]),

    Key("printer.bed", "bed", "across and deep", (220.0, 220.0), least=50, most=2000),
    Key("printer.nozzle", "length", "diameter of the nozzle", 0.4, least=0.1, most=2),
    Key("printer.layer", "length", "height of a layer", 0.2, least=0.04, most=1),
    Key("printer.play", "length", "of a printed slot or socket over what enters it", 0.1, most=2),

    Key("cutter.bed", "bed", "across and deep", (900.0, 600.0), least=100),
    Key("cutter.kerf", "length", "width of its cut; 0 leaves that to its own software", 0.0, most=10),
    Key("cutter.spacing", "length", "between parts on a sheet, and to its edges", 5.0, most=50),
)  # fmt: skip
