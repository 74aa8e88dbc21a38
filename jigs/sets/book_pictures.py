"""What the shop book shows beside its words: pictures by id."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.figures.every import figures_of
from jigs.figures.figure import Figure
from jigs.figures.job import job_figure
from jigs.figures.parts import drawing, thumbnail
from jigs.figures.stack import stack_figure
from jigs.figures.svg import figure_svg
from jigs.figures.turning.holding_plan import holding_plan
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form
from jigs.render.amounts import shown
from jigs.render.pdf.sheets import FullSize
from jigs.words.quantity import Quantity


def book_pictures(plan: Plan, parts: Sequence[Part]) -> dict[str, str]:
    """SVG texts by the ids by which the book asks for them."""

    def show(quantity: Quantity) -> str:
        return shown(quantity, plan.job.unit)

    own = (figure for part in parts for figure in (thumbnail(part), drawing(part, show)))
    figures = (table_figure(plan), job_figure(plan, show), *own, *figures_of(plan, parts, show).values())
    return {figure.id: figure_svg(figure) for figure in figures}


def table_figure(plan: Plan) -> Figure:
    """What stands beside a table, whose id it has: a vessel's section in its rings, a torus's holding plan."""
    return by_form(
        plan,
        torus=holding_plan,
        vessel=lambda own: stack_figure(own, lambda quantity: shown(quantity, own.job.unit)),
    )


def as_printed(pages: Sequence[Figure]) -> list[FullSize]:
    """Pages as they are printed."""
    return [FullSize(page.title, figure_svg(page)) for page in pages]
