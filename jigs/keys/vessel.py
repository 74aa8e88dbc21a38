"""The keys of a vessel job."""

from __future__ import annotations

from jigs.keys.key import FEWEST, LEAST_WOOD, Key, Table
from jigs.keys.usual import LARGE_ALLOWANCE, SMALL_ACROSS, SMALL_ALLOWANCE, WIDE_DISC

SHAPES = ("stations", "edges", "drawing")  # a profile is given in one of these ways
BASES = ("solid", "segmented", "floating")
GRAINS = ("across", "upright")
HOLDS = ("auto", "taper", "inside", "bolt", "none")

VESSEL_TABLES = {
    "profile": Table("The vessel's outside, from the foot (height 0) up to the rim", False, "vessel"),
    "inside": Table("An inside of its own, from its floor up to the rim, instead of a wall", False, "vessel"),
    "wall": Table("The wall and the floor", False, "vessel"),
    "foot": Table("The foot", False, "vessel"),
    "rings": Table("The rings the vessel is turned from, from the foot up", False, "vessel"),
    "staves": Table("Tapered staves instead of rings for a range of heights", False, "vessel"),
    "floating": Table('The disc of base = "floating"', False, "vessel"),
    "reversing": Table("Holding the vessel by its mouth while the foot is turned", False, "vessel"),
}


def _shape(table: str, none: str = "") -> tuple[Key, ...]:
    """The keys of a profile; `none` is what holds without one."""
    return (
        Key(f"{table}.stations", "points", "heights and diameters through which a smooth curve passes",
            unset=none or "given by edges or a drawing", example=((0.0, 70.0), (40.0, 110.0), (90.0, 80.0)), most=2000),
        Key(f"{table}.edges", "points", "corners as height and diameter; a third number makes the edge that ends "
            "there an arc of this radius, + swelling outward, - hollow",
            unset=none or "given by stations or a drawing", example=((0.0, 70.0), (60.0, 100.0, 120.0)), least=-5000.0,
            sizes=(2, 3)),
        Key(f"{table}.drawing", "text", "a DXF or SVG file beside this one with one open line",
            unset=none or "given by stations or edges", example="profile.dxf", most=200),
        Key(f"{table}.layer", "text", "the drawing's layer that holds the line", unset="the only one that holds one",
            example="outside", most=100),
        Key(f"{table}.drawing_unit", "choice", "of a drawing that does not say its own", unset="as the drawing says",
            example="mm", choices=("mm", "in")),
        Key(f"{table}.axis", "number", "the x at which the axis stands in the drawing, in the drawing's unit",
            unset="0, where the line reaches it; else you are asked", example=0.0, least=-1e5, most=1e5),
    )  # fmt: skip


VESSEL_KEYS: tuple[Key, ...] = (
    *_shape("profile"),
    *_shape("inside", "it follows from the wall"),

    Key("wall.thickness", "length", "of the wall, square to its surface", unset="by height, or an inside of its own",
        example=6.0, least=0.5, most=200),
    Key("wall.by_height", "points", "heights and the wall's thickness there, in between in proportion",
        unset="one thickness", example=((0.0, 8.0), (100.0, 5.0)), most=2000),
    Key("wall.floor", "length", "thickness of the floor at the axis", unset="the wall at the foot", example=8.0,
        least=0.5, most=300),
    Key("wall.inner_corner", "length", "radius between floor and wall inside; 0 is a sharp corner", 5.0, most=200),
    Key("wall.least", "length", "the thinnest wall that is turned", 2.0, least=0.2, most=50),

    Key("foot.recess_diameter", "length", "of the hollow in the foot; 0 is a flat foot", 0.0, most=2000),
    Key("foot.recess_depth", "length", "of the hollow in the foot", 0.0, most=100),

    Key("rings.heights", "heights", "one height, a list from the foot up, or chosen from the boards in [stock]: "
        f'"{FEWEST}" or "{LEAST_WOOD}"', example=20.0, least=2, most=300, required=True,
        choices=(FEWEST, LEAST_WOOD)),
    Key("rings.segments", "counts", "in each ring, or one count for each ring from the foot up; the last goes on",
        example=12, least=4, most=96, required=True),
    Key("rings.species", "names", "of all rings, a list by ring (the last goes on), or for a ring a list that "
        "repeats round its segments", example=(("maple",),), required=True),
    Key("rings.half_turn", "flag", "whether each ring is turned by half a segment on the one below", True),
    Key("rings.base", "choice", "rings that close over the middle, the base: a solid disc, segments, or a "
        "floating disc that lies loose in a groove",
        unset=f"a disc up to {WIDE_DISC:g} mm across, and over 250 or so; else segments round a core plug",
        example="segmented", choices=BASES),
    Key("rings.core_plug", "length", "diameter of a plug glued into the middle of segments that would meet there in "
        "points; 0 is none", unset="the least round which segments have an end, where it fits",
        example=20.0, most=75),
    Key("rings.upright", "counts", "rings that are one solid piece with its grain along the axis, as stems are: their "
        "numbers from the foot up", unset="none", example=(2, 3), least=1, most=200),
    Key("rings.spacer", "length", "thickness of a strip between segments; 0 is none", 0.0, most=30),
    Key("rings.spacer_species", "text", "of the strips", unset="the rings' own", example="walnut", most=40),
    Key("rings.gap", "length", "width of an open gap between segments; 0 is none", 0.0, most=50),
    Key("rings.turning_allowance", "length", "wood left all round the finished form for turning", example=3.0,
        unset=f"{SMALL_ALLOWANCE:g} mm up to {SMALL_ACROSS:g} mm across, {LARGE_ALLOWANCE:g} above",
        least=0.5, most=30),
    Key("rings.least_glue", "length", "least finished width of a joint between two rings", 3.0, least=1, most=100),
    Key("rings.least_segment", "length", "least outer edge of a segment, for the hold-down", 8.0, least=2, most=100),
    Key("rings.joint_sanding", "length", "sanded off each end of a segment before gluing", 0.1, most=2),
    Key("rings.flattening", "length", "taken off a ring's two faces together as they are flattened; boards are planed "
        "so much thicker", 0.3, most=5),
    # Least: the faceplate's screws take hold in 13 mm of it; common practice, no source.
    Key("rings.waste_block", "length", "thickness of the waste block between the faceplate and the lowest ring", 18.0,
        least=18, most=200),

    Key("staves.low", "length", "height at which the staves begin", unset="no staves", example=20.0, most=2000),
    Key("staves.high", "length", "height at which they end", unset="no staves", example=120.0, most=2000),
    Key("staves.count", "count", "how many staves", unset="no staves", example=16, least=4, most=96),
    Key("staves.species", "names", "of all staves, or a list that repeats round them", unset="the rings' own",
        example=(("cherry",),)),

    Key("floating.species", "text", "of the disc", unset="the lowest ring's first", example="cherry", most=40),
    Key("floating.grain", "choice", "across the disc, or upright: along the axis", "across", choices=GRAINS),
    Key("floating.moisture", "number", "per cent of moisture in the disc when it is turned to its groove, by a meter",
        8.0, least=6, most=14),
    Key("floating.driest", "number", "per cent of moisture to which it may dry where it will stand", 6.0, least=6,
        most=14),
    Key("floating.wettest", "number", "per cent of moisture to which it may come there", 14.0, least=6, most=14),

    Key("reversing.hold", "choice", "what holds the mouth: a taper jammed into it, a plug turned to the inside, "
        "a bolt through a hole in the floor, or none: the foot is finished by hand", "auto", choices=HOLDS),
    Key("reversing.base_hole", "length", "diameter of a hole through the floor for a bolt; 0 is none", 0.0, most=60),
    Key("reversing.taper", "number", "degrees of the jammed taper's side off the axis", 2.0, least=0.5, most=5),
    Key("reversing.depth", "length", "that the plug reaches into the mouth", 15.0, least=5, most=100),
    Key("reversing.lining", "length", "thickness of a soft lining of the plug; 0 is bare wood", 0.0, most=10),
    Key("reversing.friction", "number", "of the finished inside on the plug", 0.35, least=0.05, most=1.5),
)  # fmt: skip
