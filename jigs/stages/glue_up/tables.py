"""Glue faces, bands and batches: the tables."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.plans.plan import Plan
from jigs.stages.glue_up.plan import Band, GlueFaces, GlueStage
from jigs.work.model import Column, Row, Table, tabled


def tables(plan: Plan) -> Sequence[Table]:
    """Faces and grams, clamp bands, batches by the glue's open time."""
    glue = plan.wood.glue
    return (
        *tabled("glue-faces", "Glue faces", map(_face, glue.faces)),
        *tabled("glue-bands", "Clamp bands", map(_band, glue.bands)),
        *tabled("glue-batches", "Glue batches", (_batch(one, glue.clamp_time) for one in glue.stages)),
    )


def _face(face: GlueFaces) -> Row:
    return (
        (Column("name", "Joints"), face.name),
        (Column("rings", "Rings", "rings"), face.rings),
        (Column("count", "Count", "count"), face.count),
        (Column("area", "Area", "area"), face.area),
        (Column("glue", "Glue", "weight"), face.grams),
    )


def _band(band: Band) -> Row:
    return (
        (Column("of", "Round"), "a ring" if band.rings else "the whole blank"),
        (Column("rings", "Rings", "rings"), band.rings),
        (Column("around", "Round it", "rule"), band.around),
        (Column("length", "With overlap", "rule"), band.length),
    )


def _batch(one: GlueStage, hours: float) -> Row:
    return (
        (Column("assembly", "Glue up"), one.assembly),
        (Column("makes", "To"), one.what),
        (Column("rings", "Rings", "rings"), one.rings),
        (Column("count", "Count", "count"), one.count),
        (Column("joints", "Joints in each", "count"), one.joints),
        (Column("at-once", "At a time", "count"), one.at_once),
        (Column("batches", "Batches", "count"), one.batches),
        (Column("clamps", "In clamps", "hours"), one.batches * hours),
    )
