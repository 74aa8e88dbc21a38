"""Glue faces, bands and batches: the tables."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.plans.plan import Plan
from jigs.stages.glue_up.plan import GluePlan
from jigs.work.model import Column, Table

FACES = (
    Column("name", "Joints"),
    Column("rings", "Rings", "rings"),
    Column("count", "Count", "count"),
    Column("area", "Area", "area"),
    Column("glue", "Glue", "weight"),
)
BANDS = (
    Column("of", "Round"),
    Column("rings", "Rings", "rings"),
    Column("around", "Round it", "rule"),
    Column("length", "With overlap", "rule"),
)
BATCHES = (
    Column("assembly", "Glue up"),
    Column("makes", "To"),
    Column("rings", "Rings", "rings"),
    Column("count", "Count", "count"),
    Column("joints", "Joints in each", "count"),
    Column("at-once", "At a time", "count"),
    Column("batches", "Batches", "count"),
    Column("clamps", "In clamps", "hours"),
)


def tables(plan: Plan) -> Sequence[Table]:
    """Faces and grams, clamp bands, batches by the glue's open time."""
    glue = plan.wood.glue
    return (_faces(glue), *([_bands(glue)] if glue.bands else []), _batches(glue))


def _faces(glue: GluePlan) -> Table:
    rows = tuple((f.name, f.rings, f.count, f.area, f.grams) for f in glue.faces)
    return Table("glue-faces", "Glue faces", FACES, rows)


def _bands(glue: GluePlan) -> Table:
    rows = tuple(
        ("a ring" if band.rings else "the whole blank", band.rings, band.around, band.length)
        for band in glue.bands
    )
    return Table("glue-bands", "Clamp bands", BANDS, rows)


def _batches(glue: GluePlan) -> Table:
    rows = tuple(
        (s.assembly, s.what, s.rings, s.count, s.joints, s.at_once, s.batches, s.batches * glue.clamp_time)
        for s in glue.stages
    )
    return Table("glue-batches", "Glue batches", BATCHES, rows)
