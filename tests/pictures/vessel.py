"""Draws the README's second picture: python tests/pictures/vessel.py configs/sorrel.toml outputs/vessel.png."""

from __future__ import annotations

import sys
from pathlib import Path

import matplotlib

matplotlib.use("Agg")
import matplotlib.pyplot as plt
from matplotlib.axes import Axes

from geometry.plane.contour import Contour, rectangle
from geometry.plane.sample import sample
from jigs.asked.jobfile import load
from jigs.files.marks import centre_lines
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan

WOOD, DARK, FINISHED, SHEET, PRINT = "#f0e0c2", "#e5cfa6", "#9c6b3c", "#efe3c8", "#8fb8cf"


def fill(ax: Axes, contour: Contour, colour: str, side: int = 1, alpha: float = 1.0) -> None:
    """Draw a contour, mirrored in the axis for side -1."""
    x, y = sample(contour, 0.02).T
    ax.fill(side * x, y, facecolor=colour, edgecolor="#333333", linewidth=0.8, alpha=alpha)


def letter(ax: Axes, part: Part) -> None:
    """Draw a part's marks."""
    for mark in part.marks:
        for stroke in centre_lines(mark):
            ax.plot(stroke[:, 0], stroke[:, 1], color="#333333", linewidth=0.6)


def stack(ax: Axes, plan: VesselPlan) -> None:
    """The section in its rings, gauges held to it."""
    for layer in plan.stack.layers:
        ring = layer.ring
        for side in (1, -1):
            shade = WOOD if ring.number % 2 else DARK
            fill(ax, rectangle(ring.core, ring.bottom, ring.outer, ring.top), shade, side)
    for side in (1, -1):
        fill(ax, plan.section.contour, FINISHED, side)
    for part in parts_of(plan):
        if part.name.startswith(("outside-gauge-finished", "inside-gauge-finished")):
            fill(ax, part.outline, PRINT, alpha=0.8)
            letter(ax, part)
    ax.set_title("section in its rings, gauges held to it", fontsize=9)


def lying(ax: Axes, plan: VesselPlan, start: str, title: str) -> None:
    """The first part whose name starts so."""
    part = next(part for part in parts_of(plan) if part.name.startswith(start))
    fill(ax, part.outline, SHEET)
    for hole in part.holes:
        fill(ax, hole, "white")
    letter(ax, part)
    ax.set_title(title, fontsize=9)


if __name__ == "__main__":
    job, picture = map(Path, sys.argv[1:])
    plan = solve(load(job))
    figure, axes = plt.subplots(1, 3, figsize=(13, 4.6), width_ratios=(1.7, 1.2, 1))
    stack(axes[0], plan)
    lying(axes[1], plan, "plan-angle-base", "the sled for its segments")
    lying(axes[2], plan, "glue-up-board-1", "a glue-up board")
    for ax in axes:
        ax.set_aspect("equal")
        ax.axis("off")
    figure.tight_layout()
    figure.savefig(picture, dpi=80, metadata={"Software": None})
