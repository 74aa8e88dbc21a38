"""What is sanded and finished, what it weighs, in words."""

from __future__ import annotations

from math import isnan

from jigs.cautions import told
from jigs.job import Job, Unit
from jigs.plan.wood.finish import Weight
from jigs.plan.wood.whole import WoodPlan
from jigs.words.amounts import volume_text, weight_text
from jigs.words.sections import Row, Section


def finish_section(job: Job, wood: WoodPlan) -> Section:
    """Surfaces; blank, turnings, finished; weights by wood."""
    finish, unit = wood.finish, job.unit
    several = len(finish.surfaces) > 1
    known = [weight for weight in finish.weights if not isnan(weight.before)]
    total = (
        (Row("weight in all, before and after turning", _grams(known, unit), "text"),)
        if len(known) == len(finish.weights)
        else ()
    )
    return Section(
        "Finish and weight",
        (
            *(
                Row(f"surface, {surface.name}", surface.area, "area")
                for surface in finish.surfaces
                if several
            ),
            Row("surface to sand and finish", finish.area, "area"),
            Row("wood in the blank", finish.blank, "volume"),
            Row("wood turned away", finish.turnings, "volume"),
            Row("wood in the finished work", finish.finished, "volume"),
            *(
                Row(f"{weight.species}, before and after turning", _weight(weight, unit), "text")
                for weight in finish.weights
            ),
            *total,
        ),
        (
            *told("finish.rags", "finish.fumes"),
            "Weights at 12 % moisture; your boards' own differ by a tenth and more.",
        ),
    )


def _weight(weight: Weight, unit: Unit) -> str:
    volumes = f"{volume_text(weight.blank, unit)} and {volume_text(weight.finished, unit)}"
    if isnan(weight.before):
        return f"{volumes}; weight not known"
    return f"{weight_text(weight.before, unit)} and {weight_text(weight.after, unit)}; {volumes}"


def _grams(weights: list[Weight], unit: Unit) -> str:
    before, after = sum(weight.before for weight in weights), sum(weight.after for weight in weights)
    return f"{weight_text(before, unit)} and {weight_text(after, unit)}"
