"""The torus, its blank, and what errors cost: facts and tables."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, radians

from geometry.blanks.sawing import included_angle_error
from geometry.blanks.truing import half_error, largest_error, to_line, until_clean, wood_left
from geometry.bodies.torus import least_wood
from jigs.plans.torus import TorusPlan
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.model import Cell, Column, Table, listed

ERRORS = (0.1, 0.2, 0.5)  # degrees
ERROR_COLUMNS = (
    Column("half", "Half spans"),
    Column("light", "Light under the half check", "calliper"),
    Column("hole", "Comes off at the hole", "calliper"),
    Column("rim", "Comes off at the rim", "calliper"),
    Column("allowance", "Taken from the allowance", "calliper"),
    Column("left", "Least wood then left round the finished form", "calliper"),
)


def facts(plan: TorusPlan) -> tuple[Quantity, ...]:
    """The job in short."""
    form, blank = plan.job.form, plan.blank
    return (
        ruled("outer-diameter", "Outer diameter", form.outer_diameter),
        ruled("hole-diameter", "Hole", form.hole_diameter),
        ruled("tube-diameter", "Tube", 2 * form.tube_radius),
        *(() if form.tube.round else (ruled("tube-height", "Tube, along the axis", 2 * form.tube.high),)),
        Quantity("wedge-rings", "Wedge rings", blank.wedge_rings, "count"),
        Quantity("segments", "Segments in each ring", blank.segments, "count"),
        Quantity("segments-total", "Segments in all", plan.segments_total, "count"),
        calliper("wall", "Wall left at the core", plan.wall),
        ruled("swing", "Swing over the bed, at least", plan.least_swing, bound="least"),
    )


def tables(plan: TorusPlan) -> Sequence[Table]:
    """The blank's sizes, then what an angle that is out costs."""
    return (_blank(plan), _tolerance(plan), _halves(plan))


def _blank(plan: TorusPlan) -> Table:
    blank, form = plan.blank, plan.job.form
    return listed(
        "blank",
        "The blank",
        (
            calliper("across-flats", "Ring across the flats", 2 * blank.apothem),
            calliper("core", "Core opening", 2 * blank.core_apothem),
            calliper("centre", "Axis to the rings' centres", blank.centre),
            calliper("thick-edge", "Thick edge, as glued", blank.thick_edge),
            calliper("thin-edge", "Thin edge, as glued", blank.thin_edge),
            calliper("allowance", "Turning allowance", form.turning_allowance),
            calliper("beyond", _beyond(plan), max(0.0, min(plan.margins))),
            Quantity("volume", "Wood in the blank", blank.volume, "volume"),
            Quantity("torus-volume", "Wood in the finished torus, solid", plan.torus_volume, "volume"),
            Quantity("surface", "Surface", plan.torus_surface, "area"),
        ),
    )


def _beyond(plan: TorusPlan) -> str:
    """The least ring has nothing to spare, by design: that is no fault."""
    label = "Wood beyond the allowance, where there is least"
    return (
        label if plan.job.form.ring_across_flats else f"{label}; 0 in the smallest ring that holds the form"
    )


def _tolerance(plan: TorusPlan) -> Table:
    """What a tenth of a degree does to the last joint, and how much a half forgives."""
    spare, tenth = plan.job.form.half_sanding, radians(0.1)
    most = largest_error(plan.blank, _wood(plan), spare)
    return listed(
        "tolerance",
        "What an error costs",
        (
            calliper(
                "gap", "Gap at the rim if every ring is 0.1° out", included_angle_error(plan.blank, tenth)
            ),
            Quantity(
                "half", "Half out by, if every ring is 0.1° out", half_error(plan.blank, tenth), "angle"
            ),
            Quantity("half-most", "Most a half may be short", most, "angle"),
            Quantity("ring-most", "That is for each ring", 2 * most / plan.blank.wedge_rings, "angle"),
            calliper("half-sanding", "Cover on each end of a half", spare),
            calliper("half-left", "Wood over the form by a half as planned, where flats lean", _wood(plan)),
        ),
    )


def _halves(plan: TorusPlan) -> Table:
    rows = tuple(
        _half(plan, error) for error in (0.0, *(sign * error for error in ERRORS for sign in (-1, 1)))
    )
    return Table("half-errors", "A half that is out, sanded to the planned line", ERROR_COLUMNS, rows)


def _half(plan: TorusPlan, error: float) -> tuple[Cell, ...]:
    angle = radians(error)
    trued = to_line(plan.blank, angle, plan.job.form.half_sanding)
    span = f"{degrees(abs(angle)):.1f}° too {'much' if error > 0 else 'little'}" if error else "as planned"
    left = max(0.0, wood_left(_wood(plan), trued))
    light = until_clean(plan.blank, abs(angle)).most
    return span, light, trued.inner, trued.outer, trued.shift, left


def _wood(plan: TorusPlan) -> float:
    return least_wood(plan.blank, plan.job.form.major_radius, plan.job.form.tube)
