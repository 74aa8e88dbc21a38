"""Truing and clamping in words: what an error of a half costs, where blocks stand, how long a band is."""

from __future__ import annotations

from math import cos, degrees, radians

from geometry.torus import least_wood
from geometry.truing import half_error, largest_error, to_line, until_clean, wood_left
from jigs.cautions import told
from jigs.families.labels import faces_text
from jigs.lengths import show_length
from jigs.plan.torus import TorusPlan
from jigs.words.sections import Row, Section

ERRORS = (0.1, 0.2, 0.5)  # degrees of a half


def glue_sections(plan: TorusPlan) -> list[Section]:
    """Truing, then clamping."""
    return [_truing(plan), _clamping(plan)]


def _truing(plan: TorusPlan) -> Section:
    spare = plan.job.form.half_sanding
    most = degrees(largest_error(plan.blank, _wood(plan), spare))
    shown = show_length(spare, plan.job.unit)
    return Section(
        "Truing quarters and halves",
        (
            Row("sanded off each end of a half", spare),
            Row("end rings' extra thick edge, as cut", spare / cos(plan.blank.half_wedge)),
            Row(
                "half's error if every ring is 0.1° out",
                degrees(half_error(plan.blank, radians(0.1))),
                "angle",
            ),
            *(_light(plan, error) for error in ERRORS),
            *(row for error in ERRORS for sign in (-1, 1) for row in _cost(plan, sign * error)),
            Row("a half that is short still holds the finished form up to", most, "angle"),
        ),
        (
            *([_ends(plan)] if spare > 0 else []),
            "A half that spans too much is sanded to the planned line at no loss; one that spans too little more than "
            f"the {shown} cover takes wood past that line, from the allowance.",
            "Sand only after the check plate; tune the sled's wedge before the next rings if every half errs alike.",
            *told("sander.manual"),
        ),
    )


def _ends(plan: TorusPlan) -> str:
    """Which rings are cut on the end wedge, at which face."""
    shown = show_length(plan.job.form.half_sanding, plan.job.unit)
    return (
        f"The rings at the ends of halves are cut on the end wedge: {faces_text(plan.half_ends)}. Each keeps {shown} "
        "more on that face, which is the half's end. No other size changes."
    )


def _cost(plan: TorusPlan, error: float) -> tuple[Row, ...]:
    """What a half that spans `error` degrees more (or less) costs, sanded to the planned line."""
    trued = to_line(plan.blank, radians(error), plan.job.form.half_sanding)
    name = f"half {abs(error):g}° {'over' if error > 0 else 'short'}"
    return (
        Row(f"{name}: comes off at the hole", trued.inner),
        Row(f"{name}: comes off at the rim", trued.outer),
        Row(f"{name}: taken from the allowance", trued.shift),
        Row(f"{name}: leaves round the finished form", max(0.0, wood_left(_wood(plan), trued))),
    )


def _light(plan: TorusPlan, error: float) -> Row:
    """What the check plate shows before truing, and the least that makes both ends one plane."""
    return Row(
        f"half {error:g}° out: light under the check plate", until_clean(plan.blank, radians(error)).most
    )


def _clamping(plan: TorusPlan) -> Section:
    blocks, blank = plan.clamping, plan.blank
    ring, whole = plan.wood.glue.band(1), plan.wood.glue.band(None)
    rows = [
        Row("clamps on the flats, from the torus axis", blocks.pull_radius),
        Row("wood between a block's foot and the finished form", _wood(plan)),
        Row("round one ring", ring.around),
        Row("band for a ring, with its overlap", ring.length),
        Row("round the whole blank", whole.around),
        Row("band for the whole blank, with its overlap", whole.length),
    ]
    if not blank.arris_out:
        rows.insert(1, Row("rim blocks, foot to clamp face", degrees(blocks.face_angle), "angle"))
    return Section(
        "Clamping",
        tuple(rows),
        (
            "Two clamps on the flats, above and below, pull through the joint's middle; the rim's only closes the rim.",
            "Blocks are sawn off on the waste side before the lathe.",
            *told("glue.manual"),
        ),
    )


def _wood(plan: TorusPlan) -> float:
    return least_wood(plan.blank, plan.job.form.major_radius, plan.job.form.tube_radius)
