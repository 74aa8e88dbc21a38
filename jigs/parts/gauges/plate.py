"""What printed gauges have in common: the lettered panel, the arc, the plate."""

from __future__ import annotations

from collections.abc import Callable

from geometry.bodies.tube import Tube
from geometry.plane.contour import Contour, circle
from geometry.records import Record
from jigs.parts import places
from jigs.parts.families import family_named, jig_of
from jigs.parts.part import Bevel, Dimension, Mark, Part
from jigs.parts.probes import ArcRadius, Extent, ProfileForm, Thickness
from jigs.plans.plan import Plan
from jigs.words.lengths import Unit, show_length

HANG = 2.5  # radius of the hanging hole
MARGIN = 3.0  # round lettering


class Panel(Record):
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
            places.block_width(self.lines, self.height) + 2 * MARGIN + self.hang_column,
            places.block_height(self.lines, self.height) + 2 * MARGIN,
        )

    def lettering(self, left: float, top: float) -> tuple[Mark, ...]:
        return places.block(self.lines, left + MARGIN, top - MARGIN, self.height)


def hang_hole(x: float, y: float) -> Contour:
    """The hole about (x, y) that a gauge hangs by."""
    return circle((x, y), HANG).cw()


def gauge_panel(plan: Plan, *lines: str) -> Panel:
    """Title, these lines and the caution."""
    title = plan.job.title.upper()
    return Panel((title, *lines, *places.LATHE_CAUTION), places.raised_height(plan.job.workshop.printer))


def tube_text(tube: Tube, unit: Unit) -> str:
    """Its radius, or its width and height."""
    if tube.round:
        return f"R {show_length(tube.wide, unit, exact=True)}"
    wide, high = (show_length(2 * half, unit, exact=True) for half in (tube.wide, tube.high))
    return f"{wide} WIDE, {high} HIGH"


def tube_dimension(name: str, tube: Tube, start: float, end: float, x: float = 0.0) -> Dimension:
    """Of a working edge along a tube between two angles: its radius, or how far it is out where it is not round."""
    if tube.round:
        return Dimension(f"{name} radius", tube.wide, ArcRadius((x, 0.0), start, end))
    last = tube.at(end)
    rows = [*tube.run(tube.at(start), last, ccw=True), (*last, 0.0)]
    return Dimension(f"{name} form", 0.0, ProfileForm(tuple((x + px, py, bulge) for px, py, bulge in rows)))


def bevelled(
    outline_at: Callable[[Tube, int], Contour], edge: Tube, top: Tube | None, land: float | None
) -> tuple[Contour, Bevel | None]:
    """A plate's outline and its bevel's, with as many edges each; `outline_at` halves so many of its working edge's."""
    outline = outline_at(edge, 0)
    if top is None or land is None:
        return outline, None
    sloped = outline_at(top, 0)
    more = len(sloped) - len(outline)
    return (
        outline_at(edge, more) if more > 0 else outline,
        Bevel(land, outline_at(top, -more) if more < 0 else sloped),
    )


def printed_gauge(
    plan: Plan, name: str, purpose: str, outline: Contour, hole: Contour,
    marks: tuple[Mark, ...], dimensions: tuple[Dimension, ...], notes: tuple[str, ...],
    bevel: Bevel | None = None,
) -> Part:  # fmt: skip
    """A gauge as the printer makes it, its overall sizes added."""
    printer, thick = plan.job.workshop.printer, plan.gauges.plate_of(family_named(jig_of(name).name))
    sizes = (
        Dimension("width", outline.bounds[2] - outline.bounds[0], Extent("x")),
        Dimension("height", outline.bounds[3] - outline.bounds[1], Extent("y")),
        Dimension("thickness", thick, Thickness()),
    )
    return Part(
        name=name,
        purpose=purpose,
        process="print",
        material="PLA or PETG, flat on the bed, no supports",
        outline=outline,
        thickness=thick,
        holes=(hole,),
        marks=marks,
        dimensions=(*dimensions, *sizes),
        bevel=bevel,
        mark_width=places.raised_width(printer),
        mark_height=places.raised_rise(printer),
        notes=notes,
    )
