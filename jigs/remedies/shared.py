"""What may be changed about jobs of both forms."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from jigs.asked.by_job import by_job
from jigs.asked.change import rounded, typed
from jigs.asked.jobfile.units import in_the_other
from jigs.asked.key import FINISHED
from jigs.remedies.ladder import ALL, Rung
from jigs.remedies.lever import Lever, View, down, one_of, up, up_from, without
from jigs.remedies.order import of_a_machine
from jigs.stages.held.strength import ALLOWED, ALLOWED_ALONG, allowed_across, allowed_along


def _fewer_stages(view: View) -> Sequence[Rung]:
    """The stages that the allowance holds; then one fewer at a time."""
    job = view.job
    allowance = by_job(
        job, torus=lambda own: own.form.turning_allowance, vessel=lambda own: own.rings.turning_allowance
    )
    stages = [stage for stage in job.gauges.stages[:-1] if stage <= allowance + 1e-9]
    stages = stages if len(stages) < len(job.gauges.stages) - 1 else stages[1:]
    return [
        Rung({"gauges.stages": [*(typed(stage, job.unit) for stage in stages[k:]), FINISHED]}, k / 10)
        for k in range(len(stages) + 1)
    ]


def _larger_bed(view: View) -> Sequence[Rung]:
    bed, unit = max(view.job.workshop.printer.bed), view.job.unit
    least = view.finding.wants.get("printer.bed", bed * 1.25)
    sizes = [rounded(max(least, bed) * times / 10 + 1, unit) for times in range(10, 40, 5)]
    return [Rung({"printer.bed": [typed(size, unit)] * 2}, size / bed - 1, size) for size in sizes]


def _cut_instead(view: View) -> Sequence[Rung]:
    """The printed families of a job cut from sheet instead, one of them or all."""
    printed = [name for name, process in view.job.workshop.made.by_family().items() if process == "print"]
    each = [Rung({f"made.{name}": "cut"}, 0.0) for name in printed]
    return [*each, Rung({f"made.{name}": "cut" for name in printed}, 1.0)]


def _other_units(view: View) -> Sequence[Rung]:
    """The numbers that look as if they were typed in the other unit: each key's, then all. A machine's size is none of
    those alone: a saw that is smaller than usual is what the turner has."""
    stated = in_other_units(view)
    each = [Rung({key: value}, 0.0) for key, value in stated.items() if not of_a_machine(key)]
    return [*each, Rung(stated, 0.5)] if len(stated) > 1 else each


def in_other_units(view: View) -> dict[str, Any]:
    """Each key that is asked about, with its value in the other unit."""
    raw = {question.key: view.raw(question.key) for question in view.job.questions}
    return {
        key: in_the_other(ALL[key], value, view.job.unit) for key, value in raw.items() if value is not None
    }


def _stronger(view: View) -> Sequence[Rung]:
    """Maple for each wood that is weaker than the usual ones."""
    raw = {key: view.raw(key) for key in WOODS}
    changes = {key: new for key, names in raw.items() if (new := _no_weak(names)) != names}
    return [Rung(changes, 0.0)] if changes else []


def _no_weak(names: Any) -> Any:
    if isinstance(names, list):
        return [_no_weak(name) for name in names]
    return "maple" if isinstance(names, str) and _weak(names) else names


def _weak(name: str) -> bool:
    return allowed_across([name]) < ALLOWED or allowed_along([name]) < ALLOWED_ALONG


WOODS = ("form.species", "form.spacer_species", "rings.species", "rings.feature_species", "rings.spacer_species",
         "staves.species")  # fmt: skip
STRONGER = Lever("rings.species", _stronger, None, False)
OTHER_UNITS = Lever("units", _other_units, None, False, 0.2)
FEWER_STAGES = Lever("gauges.stages", _fewer_stages, None, False)
LARGER_BED = Lever("printer.bed", _larger_bed, "up")
CUT_INSTEAD = Lever("made", _cut_instead, None, False)
MACHINES = (
    up("saw.blade_height"), up("saw.throat"), up_from("bandsaw.height", 100.0), up("bandsaw.throat"),
    up("lathe.swing_over_bed"), LARGER_BED,
)  # fmt: skip

_LESS_SLANTED = one_of("layup.angle", 0, 90, 30, 45, 60)
_MIRRORED = one_of("layup.mirrored", "left and right", "up and down", "none")
LAYUP: Mapping[str, Sequence[Lever]] = {
    "not-mirrored": (_MIRRORED, one_of("layup.plane", "flat")),
    "no-segments": (without("layup.rings"),),
    "sheet-too-narrow": (up("layup.sheet_width"),),
    "sheet-too-short": (up("layup.sheet_length"), _MIRRORED),
    "stack-too-tall": (one_of("layup.plane", "face", "end", "flat"), up("saw.blade_height")),
    "layup-piece-short": (_MIRRORED, down("form.segments"), down("rings.segments")),
    "layup-block-small": (without("layup.rings"), down("form.segments"), down("rings.segments")),
    "layup-angle": (up("layup.angle"), down("layup.angle"), _LESS_SLANTED),
    "board-too-narrow": (up("stock.bought_width"),),
    "board-too-short": (up("stock.bought_length"),),
    "larger-than-bed": (CUT_INSTEAD, LARGER_BED),
}  # fmt: skip
