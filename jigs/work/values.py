"""Every value of the job and workshop files that a form looks at, and where it comes from."""

from __future__ import annotations

from typing import cast

from jigs.asked.by_job import by_job
from jigs.asked.job import Job
from jigs.asked.key import Form, Key, Value
from jigs.asked.keys import KEYS
from jigs.asked.lists import show_list
from jigs.words.lengths import Unit
from jigs.words.quantity import Kind, Quantity
from jigs.words.trade import SOLD
from jigs.work.model import Cell, Column, Table

COLUMNS = (Column("key", "Key"), Column("value", "Value"), Column("from", "From"))
# Keys and whole tables that nothing of the form looks at, but for the exceptions.
UNUSED: dict[Form, frozenset[str]] = {
    "torus": frozenset(
        ("layup.rings", "gauges.longest_in_hand", "gauges.widest_gap", "made.glue_up", "made.centring")
    ),
    "vessel": frozenset(
        ("holding", "bandsaw", "cutting", "clamping", "gauges.flats_left", "bolts.braces", "saw.table_front",
         "made.sled", "made.clamping", "spares.rings", "made.standing", "made.mountings", "made.pads")
    ),
}  # fmt: skip
EXCEPT: dict[Form, frozenset[str]] = {
    "torus": frozenset(),
    "vessel": frozenset(("holding.washer", "clamping.band_overlap", "bandsaw.height")),
}
# What numbers that are no lengths are of, in a file in mm and in one in inches where that is another.
UNITS: dict[str, tuple[str, str]] = {
    **dict.fromkeys(("reversing.taper", "layup.angle", "bandsaw.drift", "holding.contact", "holding.least_overlap"),
                    ("°", "°")),
    **dict.fromkeys(("glue.open_time", "glue.joint_time"), (" min", " min")),
    **dict.fromkeys(("glue.clamp_time", "glue.cure"), (" h", " h")),
    **dict.fromkeys(("spares.segments", "spares.layup"), (" %", " %")),
    **{f"{table}.{name}": (" %", " %") for table in ("floating", "lid") for name in ("moisture", "driest", "wettest")},
    "glue.area_time": (" min/m²", " min/ft²"),
    "glue.spread": (" g/m²", " oz/ft²"),
}  # fmt: skip
DRAWN_OUT = ("profile", "inside")  # tables of points that other tables draw out


def values(job: Job, form: Form) -> Table:
    """Key, value, and whether a file states it, it is a default, or it follows from others."""
    owners = {**vars(job), **vars(job.workshop)}
    rows = [
        (key.path, _cell(key, value, job), _origin(key, job))
        for key in KEYS
        if key.table not in DRAWN_OUT
        and is_used(key.path, job, form)
        and (value := getattr(owners.get(key.table), key.name, None)) not in (None, ())
    ]
    return Table("values", "Values used", COLUMNS, tuple(rows))


def is_used(path: str, job: Job, form: Form) -> bool:
    """Whether anything of the form looks at a key."""
    return path in EXCEPT[form] or not {path, path.partition(".")[0]} & _unused(job, form)


def _unused(job: Job, form: Form) -> frozenset[str]:
    """Staves alone are sawn under a vessel's tilted blade; without its height there is no bandsaw."""
    upright = by_job(job, torus=lambda _: False, vessel=lambda own: own.staves is None)
    return UNUSED[form].union(
        ("saw.tilts",) if upright else (), () if job.workshop.bandsaw.height else ("bandsaw",)
    )


def _origin(key: Key, job: Job) -> str:
    if key.path in job.places:
        return "stated"
    return "follows" if key.default is None else "default"


def _cell(key: Key, value: Value, job: Job) -> Cell:
    if key.path == "staves.species":  # one round, not by ring
        return ", ".join(cast("tuple[str, ...]", value))
    if key.kind in ("price", "prices"):
        return _price(key, value, job.unit)
    if isinstance(value, tuple):
        return show_list(key, value, job.unit)
    kind: Kind = "calliper" if key.kind == "length" else "text"
    if key.kind == "flag":
        return "yes" if value else "no"
    if kind == "text":
        of = UNITS.get(key.path, ("", ""))[job.unit == "in"]
        return value if isinstance(value, str) else f"{value * SOLD[key.per][job.unit]:g}{of}"
    return Quantity(key.path, key.path, float(value), kind)


def _price(key: Key, value: Value, unit: Unit) -> str:
    """As it is sold in the job's unit."""
    sold = SOLD[key.per][unit]
    if isinstance(value, tuple):
        prices = cast("tuple[tuple[str, float], ...]", value)
        return ", ".join(f"{wood} {price * sold:.2f}" for wood, price in prices)
    return f"{float(value) * sold:.2f}"
