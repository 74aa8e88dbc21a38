"""Glue in words: faces, bands, what is glued up at a time, how long it takes."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.cautions import told
from jigs.job import Job, Unit
from jigs.lengths import MM_PER_INCH
from jigs.plan.wood.glue import GlueFaces, GluePlan, GlueStage
from jigs.plan.wood.whole import WoodPlan
from jigs.words.amounts import area_text, weight_text
from jigs.words.sections import Row, Section
from jigs.words.wood.numbers import count_text, ring_list


def glue_section(job: Job, wood: WoodPlan) -> Section:
    """Faces and grams, then batches by the open time, then days."""
    glue, unit, wish = wood.glue, job.unit, job.workshop.glue
    return Section(
        "Glue",
        (
            *(Row(name, _faces(same, unit), "text") for name, same in _by_name(glue.faces).items()),
            Row(
                "faces in all",
                f"{area_text(glue.area, unit)}, {weight_text(glue.grams, unit)} of glue",
                "text",
            ),
            Row("glue stays open", f"{wish.open_time:g} minutes", "text"),
            Row(
                "a joint takes",
                f"{wish.joint_time:g} minutes, and {_each_area(wish.area_time, unit)} of it",
                "text",
            ),
            *(Row(_stage_name(stage), _stage(stage), "text") for stage in glue.stages),
            Row("batches in all", glue.batches, "count"),
            Row("in clamps, one after another", f"{glue.hours:g} hours", "text"),
            *([_dried(glue)] if glue.dried else []),
            Row("then, before turning", f"{glue.cure:g} hours of curing", "text"),
            Row("days at least", glue.days, "count"),
        ),
        (
            *told("glue.manual"),
            "A dry run with every clamp at hand before each batch.",
            "The weights are what the joints take; as much again is lost in the pot and squeezed out. Common practice.",
        ),
    )


def _dried(glue: GluePlan) -> Row:
    return Row("dry before they are sawn", f"{', '.join(glue.dried)}: {glue.cure:g} hours each", "text")


def _each_area(minutes: float, unit: Unit) -> str:
    """Minutes for a square metre as they are, or for 100 square inches, of which one alone takes hardly any."""
    if unit == "mm":
        return f"{minutes:g} for each square metre"
    return f"{minutes * 100 * MM_PER_INCH**2 / 1e6:.2g} for each 100 in²"


def _by_name(faces: Sequence[GlueFaces]) -> dict[str, list[GlueFaces]]:
    found: dict[str, list[GlueFaces]] = {}
    for of in faces:
        found.setdefault(of.name, []).append(of)
    return found


def _faces(faces: Sequence[GlueFaces], unit: Unit) -> str:
    """All of one name."""
    count = count_text(sum(of.count for of in faces), "joint")
    area, grams = sum(of.area for of in faces), sum(of.grams for of in faces)
    return f"{count}, {area_text(area, unit)}, {weight_text(grams, unit)}"


def _stage_name(stage: GlueStage) -> str:
    return f"glue {stage.assembly}: {stage.what}, {ring_list(stage.rings)}"


def _stage(stage: GlueStage) -> str:
    each = (
        f"{stage.count}, {count_text(stage.joints, 'joint')} in each"
        if stage.pieces > 1
        else str(stage.count)
    )
    late = "" if stage.in_time else "; longer than the glue stays open"
    return f"{each}, {stage.at_once} at a time: {count_text(stage.batches, 'batch', 'batches')}{late}"
