"""Draws the README's picture: python tests/pictures/rack.py configs/garland.toml outputs/rack.png."""

from __future__ import annotations

import sys
from math import cos, pi, sin
from pathlib import Path

import matplotlib

matplotlib.use("Agg")
import matplotlib.pyplot as plt
import numpy as np
from matplotlib.axes import Axes

from geometry.plane.contour import Contour, circle, polygon, regular_polygon
from geometry.plane.sample import sample
from jigs.asked.jobfile import load
from jigs.files.marks import centre_lines
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan

WOOD, SHEET, PRINT, STEEL = "#d9b382", "#efe3c8", "#8fb8cf", "#777777"


def fill(
    ax: Axes, contour: Contour, colour: str, holes: tuple[Contour, ...] = (), line: str = "#333333"
) -> None:
    """Draw a contour with its holes."""
    for loop, shade in ((contour, colour), *((hole, "white") for hole in holes)):
        points = sample(loop, 0.02)
        ax.fill(*points.T, facecolor=shade, edgecolor=line, linewidth=0.8)


def letter(ax: Axes, part: Part) -> None:
    """Draw a part's marks."""
    for mark in part.marks:
        for stroke in centre_lines(mark):
            ax.plot(stroke[:, 0], stroke[:, 1], color="#333333", linewidth=0.6)


def front(ax: Axes, plan: TorusPlan) -> None:
    """The blank from the front, the finished form inside it."""
    blank = plan.blank
    for k in range(blank.wedge_rings):
        turn = 2 * pi * k / blank.wedge_rings
        corners = [
            (r / cos(blank.half_wedge) * cos(turn + side), r / cos(blank.half_wedge) * sin(turn + side))
            for r, side in (
                (blank.inner_radius, -blank.half_wedge),
                (blank.outer_radius, -blank.half_wedge),
                (blank.outer_radius, blank.half_wedge),
                (blank.inner_radius, blank.half_wedge),
            )
        ]
        fill(ax, polygon(corners), WOOD)
    form = plan.job.form
    for diameter in (form.outer_diameter, form.hole_diameter):
        points = sample(circle((0, 0), diameter / 2), 0.02)
        ax.plot(*np.vstack([points, points[:1]]).T, color="#8b2a1a", linewidth=1.5)
    ax.set_title(f"{blank.wedge_rings} wedge rings of {blank.segments} segments")


def sled_plan(ax: Axes, plan: TorusPlan, parts: dict[str, Part]) -> None:
    """The sled from above with a ring in its second cut."""
    layout, base = plan.sled, parts["sled-base"]
    fill(ax, base.outline, SHEET, base.holes)
    letter(ax, base)

    def box(s0: float, s1: float, u0: float, u1: float, colour: str) -> None:
        fill(ax, polygon([layout.plan(s, u) for s, u in ((s0, u0), (s1, u0), (s1, u1), (s0, u1))]), colour)

    cut, t = plan.ring_cut, layout.sheet
    box(layout.fence_start, layout.fence_end, -t, 0, STEEL)
    for u in layout.cheeks:
        box(cut.stop, cut.stop + layout.cheek_length, u, u + t, STEEL)
    thin, far = cut.stop, cut.stop - 2 * cut.half_width
    rise = 2 * cut.half_width * np.tan(cut.half_wedge)
    b = cut.wedge_at_stop
    wedge = [(thin, 0.0), (far, 0.0), (far, b + rise), (thin, b)]
    ring = [(thin, b), (far, b + rise), (far, cut.gap(far)), (thin, cut.gap(thin))]
    fill(ax, polygon([layout.plan(*p) for p in wedge]), PRINT)
    fill(ax, polygon([layout.plan(*p) for p in ring]), WOOD)
    rod = layout.rod
    box(
        rod.place - rod.core / 2,
        rod.place + rod.core / 2,
        rod.rubber_end - rod.rubber,
        rod.rubber_end,
        "#333333",
    )
    ends = [layout.plan(rod.fence_place, rod.tip - rod.length), layout.plan(rod.place, rod.tip)]
    ax.plot(*np.array(ends).T, color="#333333", linewidth=2.0)
    ax.axvline(0.0, color="#8b2a1a", linewidth=1.0, linestyle="--")
    ax.set_title("second cut: the ring on its wedge, drawn to the fence")


def section(ax: Axes, plan: TorusPlan, parts: dict[str, Part]) -> None:
    """The tube's section, held in its channel by the retainer, with the finished gauges."""
    form, held = plan.job.form, plan.holding
    middle = (plan.blank.centre - form.major_radius, 0.0)
    fill(
        ax, regular_polygon(plan.blank.segments, plan.blank.apothem, pi / 2, middle), "white", line="#bbbbbb"
    )
    for name in ("channel-section", "retainer-section"):
        part = parts[name]
        fill(ax, part.outline.moved(-form.major_radius, 0), SHEET)
    fill(ax, circle((0, 0), form.tube_radius), WOOD)
    fill(ax, regular_polygon(plan.blank.segments, plan.blank.core_apothem, pi / 2, middle), "white")
    outer = parts["outer-gauge-finished"]
    fill(ax, outer.outline, PRINT, outer.holes)
    letter(ax, outer)
    ax.axvline(-form.major_radius, color=STEEL, linewidth=1.0, linestyle="-.")
    ax.set_title(f"in its channel, drawn down by one {held.bolt} bolt; the finished gauge on it")


def main(job: Path, picture: Path) -> None:
    """Draw the three panels."""
    plan = solve(load(job))
    parts = {part.name: part for part in parts_of(plan)}
    figure, axes = plt.subplots(1, 3, figsize=(18, 6), width_ratios=(1, 1.05, 1.3))
    front(axes[0], plan)
    sled_plan(axes[1], plan, parts)
    section(axes[2], plan, parts)
    for ax in axes:
        ax.set_aspect("equal")
        ax.axis("off")
    figure.tight_layout()
    figure.savefig(picture, dpi=80, bbox_inches="tight", metadata={"Software": None})


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
