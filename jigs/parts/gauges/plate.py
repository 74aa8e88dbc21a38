"""What printed gauges have in common: the lettered panel, the arc, the plate."""

from __future__ import annotations

from geometry.plane.arcs import bulge_about
from geometry.plane.contour import Contour, circle
from geometry.records import dataclass
from jigs.asked.job_shop import Family
from jigs.parts.labels import (
    LATHE_CAUTION,
    block,
    block_height,
    block_width,
    raised_height,
    raised_rise,
    raised_width,
)
from jigs.parts.part import Bevel, Dimension, Extent, Mark, Part, Point, Thickness
from jigs.plans.plan import Plan

HANG = 2.5  # radius of the hanging hole
MARGIN = 3.0  # round lettering


@dataclass(frozen=True)
class Panel:
    """The lettered part of a gauge: its size, and the lettering once it is placed."""

    lines: tuple[str, ...]
    height: float

    @property
    def hang_column(self) -> float:
        """Kept free on the right for the hanging hole."""
        return 2 * HANG + 2 * MARGIN

    @property
    def size(self) -> tuple[float, float]:
        return (
            block_width(self.lines, self.height) + 2 * MARGIN + self.hang_column,
            block_height(self.lines, self.height) + 2 * MARGIN,
        )

    def lettering(self, left: float, top: float) -> tuple[Mark, ...]:
        return block(self.lines, left + MARGIN, top - MARGIN, self.height)


def hang_hole(x: float, y: float) -> Contour:
    """The hole about (x, y) that a gauge hangs by."""
    return circle((x, y), HANG).cw()


def gauge_panel(plan: Plan, *lines: str) -> Panel:
    """Title, these lines and the caution."""
    title = plan.job.title.upper()
    return Panel((title, *lines, *LATHE_CAUTION), raised_height(plan.job.workshop.printer))


def arc_to(start: Point, end: Point, ccw: bool) -> tuple[float, float, float]:
    """The vertex that starts an arc about the origin."""
    return (*start, bulge_about((0.0, 0.0), start, end, ccw))


def printed_gauge(
    plan: Plan, name: str, family: Family, purpose: str, outline: Contour, hole: Contour,
    marks: tuple[Mark, ...], dimensions: tuple[Dimension, ...], notes: tuple[str, ...],
    bevel: Bevel | None = None,
) -> Part:  # fmt: skip
    """A gauge as the printer makes it, its overall sizes added."""
    printer = plan.job.workshop.printer
    sizes = (
        Dimension("width", outline.bounds[2] - outline.bounds[0], Extent("x")),
        Dimension("height", outline.bounds[3] - outline.bounds[1], Extent("y")),
        Dimension("thickness", plan.gauges.plate_of(family), Thickness()),
    )
    return Part(
        name=name,
        family=family,
        purpose=purpose,
        process="print",
        material="PLA or PETG, flat on the bed, no supports",
        outline=outline,
        thickness=plan.gauges.plate_of(family),
        holes=(hole,),
        marks=marks,
        dimensions=(*dimensions, *sizes),
        bevel=bevel,
        mark_width=raised_width(printer),
        mark_height=raised_rise(printer),
        notes=notes,
    )
