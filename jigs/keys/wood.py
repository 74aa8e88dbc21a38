"""The keys of the wood: stock, spares, glue, layups."""

from __future__ import annotations

from jigs.job_wood import Board, Ply
from jigs.keys.key import Key, Table

WOOD_TABLES = {
    "stock": Table("Wood at hand, what can be bought, and what sawing it takes. Common practice"),
    "spares": Table("Pieces beyond those of the work. Common practice"),
    "glue": Table("The glue: its maker's times come first. Common practice"),
    "paper": Table("The paper printer"),
    "layup": Table("Segments from a patterned layup of plies", shared=False),
}

WOOD_KEYS: tuple[Key, ...] = (
    Key("stock.boards", "boards", "boards and strips at hand, each with species and thickness as planed, and where "
        "known width, length and count",
        unset="none are listed", example=(Board("ash", 22.0, 150.0, 1200.0, 2),), most=5000),
    Key("stock.sheets", "boards", "offcuts of sheet for cut jigs, each with what it is as its species, thickness, "
        "width, length and count", unset="whole sheets of the cutter's bed",
        example=(Board("birch ply", 12.0, 400.0, 600.0, 1),), most=5000),
    Key("stock.bought_width", "length", "of a board that can be bought; not stated, it is as wide as a strip asks, at "
        "least 150 mm, or 6 in in jobs in inches", 150.0, 152.4, least=20, most=1000),
    Key("stock.bought_length", "length", "of a board that can be bought; not stated, it is as long as a strip asks, at "
        "least 2 m, or 96 in in jobs in inches", 2000.0, 2438.4, least=300, most=5000),
    Key("stock.planing", "length", "planed off the thickness of a bought board, at least", 3.0, most=20),
    Key("stock.edge_trim", "length", "off one edge of each board, to begin with a straight one", 5.0, most=50),
    Key("stock.end_trim", "length", "off each end of a board", 20.0, most=200),
    Key("stock.strip_clean_up", "length", "planed off the width of a ripped strip", 1.0, most=10),
    Key("stock.least_offcut", "length", "shorter ones cannot be held safely and are not counted on", 300.0,
        least=50, most=1000),

    Key("spares.segments", "number", "per cent of the segments", 5.0, most=100),
    Key("spares.least", "count", "at least so many of each size", 4, most=100),
    Key("spares.rings", "count", "whole wedge rings", 1, most=10),
    Key("spares.layup", "number", "per cent of the pieces of a layup", 10.0, most=100),

    Key("glue.open_time", "number", "minutes from the first drop to the clamps", 8.0, least=0.5, most=240),
    Key("glue.joint_time", "number", "minutes to lay and close one joint", 0.5, least=0.05, most=60),
    Key("glue.area_time", "number", "minutes to spread a square metre of joint, beside that", 4.0, most=240),
    Key("glue.clamp_time", "number", "hours in clamps", 1.0, least=0.05, most=72),
    Key("glue.cure", "number", "hours before turning", 24.0, most=720),
    Key("glue.spread", "number", "grams on a square metre of joint; from memory of data sheets", 180.0,
        least=20, most=1000),

    Key(
        "paper.size", "choice", "of the shop book, labels, tape layouts and other sheets", "A4",
        inch_default="Letter", choices=("A4", "Letter"),
    ),

    Key("layup.plies", "plies", "from one face of the sheet to the other, each a wood or a colour's name, its "
        "thickness and, if wished, its colour", unset="segments are of solid wood",
        example=(Ply("maple", 3.0), Ply("walnut", 1.5), Ply("black", 0.6, "#202020")), most=50),
    Key("layup.angle", "number", "degrees from the flat's length (on the ends: from the depth) to the plies", 30.0,
        least=0, most=90),
    Key("layup.plane", "choice", "where the pattern shows: flat, the outer flats; end, the ends; face, the faces",
        "flat", choices=("flat", "end", "face")),
    Key("layup.mirrored", "choice", "about which middle lines of a segment the pattern is mirrored: 1, 2 or 4 pieces",
        "both", choices=("none", "left and right", "up and down", "both")),
    Key("layup.stacking", "choice", "of the strips; auto is whichever glues fewer stacks for little more wood", "auto",
        choices=("auto", "square", "staggered")),
    Key("layup.turned", "flag", "whether the pieces are turned end for end, so that the pattern points the other way",
        False),
    Key("layup.sanding", "length", "off each face of a piece that is glued", 0.1, most=2),
    Key("layup.rings", "counts", "of a vessel, that have the layup", unset="all that have segments", example=(2, 3),
        least=1, most=500),
    Key("layup.sheet_width", "length", "of a sheet of plies", 300.0, least=30, most=3000),
    Key("layup.sheet_length", "length", "of a sheet of plies", 600.0, least=50, most=5000),
)  # fmt: skip
