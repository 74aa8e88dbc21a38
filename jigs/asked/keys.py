"""Every key of a job or workshop file: the reader, the schema and the starter all follow it.

A key is declared once, as a field of the record that holds what was asked (`jigs.asked.job`,
`job_shop`, `job_wood`, `halves`, `lid`, `knob`, `vessel_job`).
"""

from __future__ import annotations

from collections.abc import Mapping

from jigs.asked import job, job_shop, job_wood, vessel_job
from jigs.asked.key import FileKind, Form, Key, Table, keys_in

DIAMETERS = ("form.outer_diameter", "form.hole_diameter", "form.tube_diameter")
HEAD_KEYS: tuple[Key, ...] = (
    Key("name", "name", "names the output folder", unset="the file's own name", example="hoop"),
    Key("title", "text", "lettered on every jig", unset="the name", example="Hoop", most=40),
    Key("unit", "choice", "of plain numbers in this file, and of what is shown", "mm", choices=("mm", "in")),
    Key("workshop_file", "text", "a workshop file beside this one; .toml may be left off", example="shed",
        unset="nothing is shared", most=200),
)  # fmt: skip


Rows = tuple[tuple[float, ...], ...]
STATIONS: Rows = ((0.0, 70.0), (40.0, 110.0), (90.0, 80.0))
KNOB: Rows = ((0.0, 18.0), (6.0, 12.0), (16.0, 24.0), (24.0, 14.0))
EDGES: Rows = ((0.0, 70.0), (60.0, 100.0, 120.0))


def _shape_keys(
    table: str, none: str = "", stations: Rows = STATIONS, edges: Rows = EDGES
) -> tuple[Key, ...]:
    """The keys of a profile of about the size of these rows; `none` is what holds without one."""
    return (
        Key(f"{table}.stations", "points", "heights and diameters through which a smooth curve passes",
            unset=none or "given by edges or a drawing", example=stations, most=2000),
        Key(f"{table}.edges", "points", "corners as height and diameter; a third number makes the edge that ends "
            "there an arc of this radius, + swelling outward, - hollow",
            unset=none or "given by stations or a drawing", example=edges, least=-5000.0,
            sizes=(2, 3)),
        Key(f"{table}.drawing", "text", "a DXF or SVG file beside this one with one open line",
            unset=none or "given by stations or edges", example="profile.dxf", most=200),
        Key(f"{table}.layer", "text", "the drawing's layer that holds the line", unset="the only one that holds one",
            example="outside", most=100),
        Key(f"{table}.drawing_unit", "choice", "of a drawing that does not say its own", unset="as the drawing says",
            example="mm", inch_example="in", choices=("mm", "in")),
        Key(f"{table}.axis", "number", "the x at which the axis stands in the drawing, in the drawing's unit",
            unset="0, where the line reaches it; else you are asked", example=0.0, least=-1e5, most=1e5),
    )  # fmt: skip


def _of(
    record: type, name: str, help: str, form: Form | None = None, *, shared: bool = False
) -> tuple[str, Table]:
    return name, Table(help, keys_in(name, record), shared, form, record)


def _of_vessel(record: type, name: str, help: str) -> tuple[str, Table]:
    return _of(record, name, help, "vessel")


def _of_shop(record: type, name: str, help: str) -> tuple[str, Table]:
    return _of(record, name, help, shared=True)


TABLES: Mapping[str, Table] = dict((
    _of(job.Form, "form", "The finished torus and the blank it is turned from", "torus"),
    ("profile", Table("The vessel's outside, from the foot (height 0) up to the rim", _shape_keys("profile"),
                      form="vessel")),
    ("inside", Table("An inside of its own, from its floor up to the rim, instead of a wall",
                     _shape_keys("inside", "it follows from the wall"), form="vessel")),
    _of_vessel(vessel_job.WallWish, "wall", "The wall and the floor"),
    _of_vessel(vessel_job.Foot, "foot", "The foot"),
    _of_vessel(vessel_job.RingsWish, "rings", "The rings the vessel is turned from, from the foot up"),
    _of_vessel(vessel_job.StavesWish, "staves", "Tapered staves instead of rings for a range of heights"),
    _of_vessel(vessel_job.FloatingWish, "floating", 'The disc of base = "floating"'),
    _of_vessel(vessel_job.ReversingWish, "reversing", "Holding the vessel by its mouth while the foot is turned"),
    _of_vessel(vessel_job.Rebate, "rebate", "A step turned into the inside of the rim, on which a lid lies"),
    _of_vessel(vessel_job.HalvesWish, "halves", "A vessel built in two halves, or in more parts"),
    _of_vessel(vessel_job.LidWish, "lid", "The job is a lid, turned upside down: its profile begins at its top, height "
               "0, and ends where it lies on its pot; the flange is added"),
    ("knob", Table("A lid's knob, turned on its own; its heights begin at the lid's top",
                   (*_shape_keys("knob", "no knob", KNOB, ((0.0, 18.0), (20.0, 28.0, 40.0))),
                    *keys_in("knob", vessel_job.KnobWish)), form="vessel")),
    _of(job.GaugeWish, "gauges", "The gauges held to the turning work"),
    _of_shop(job_wood.Stock, "stock", "Wood at hand, what can be bought, and what sawing it takes. Common practice"),
    _of_shop(job_wood.Spares, "spares", "Pieces beyond those of the work. Common practice"),
    _of_shop(job_wood.Glue, "glue", "The glue: its maker's times come first. Common practice"),
    _of_shop(job_wood.Paper, "paper", "The paper printer"),
    _of(job_wood.LayupWish, "layup", "Segments from a patterned layup of plies"),
    _of_shop(job_shop.Cutting, "cutting", "Which saw cuts what; auto is the table saw where it is tall enough"),
    _of_shop(job_shop.Saw, "saw", "The table saw. Common practice: measure yours"),
    _of_shop(job_shop.Bandsaw, "bandsaw",
             "The bandsaw, where there is one: it has to state its height. Common practice: measure yours"),
    _of_shop(job_shop.SledWish, "sled", "The wedge-ring sled and the wedges. Common practice"),
    _of_shop(job_shop.TruingWish, "truing", "Truing the ends of quarters and halves. Common practice"),
    _of_shop(job_shop.ClampingWish, "clamping", "Blocks that give clamps parallel faces. Common practice"),
    _of_shop(job_shop.Lathe, "lathe", "The lathe. Common practice: measure yours"),
    _of_shop(job_shop.HoldingWish, "holding", "Support board, channel and retainer. Common practice"),
    _of_shop(job_shop.Bolts, "bolts", "Bolts of the holding fixtures"),
    _of_shop(job_shop.Boards, "boards",
             "Boards and sheets. Common practice: measure yours, nominal sizes are off by 0.5 mm"),
    _of_shop(job_shop.Made, "made",
             "How each family of jigs is made: printed, cut from sheet, or drawn on paper to be sawn by hand"),
    _of_shop(job_shop.Printer, "printer", "The printer of the gauges. Common practice"),
    _of_shop(job_shop.Cutter, "cutter", "The laser or router. Common practice"),
    _of_shop(job_wood.Prices, "prices",
             "What things cost, for the shopping list; without a price nothing is reckoned"),
))  # fmt: skip
KEYS: tuple[Key, ...] = (*HEAD_KEYS, *(key for table in TABLES.values() for key in table.keys))


def keys_of(kind: FileKind) -> tuple[Key, ...]:
    """The keys that may stand in a job file, or in a workshop file."""
    if kind == "job":
        return KEYS
    return tuple(key for key in KEYS if key.path == "unit" or (key.table and TABLES[key.table].shared))


def keys_of_form(form: Form) -> tuple[Key, ...]:
    """The keys that a job of this form may state."""
    return tuple(key for key in KEYS if not key.table or TABLES[key.table].form in (None, form))
