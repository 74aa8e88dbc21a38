"""Every part as a drawing: its own sizes, its code, where it is made."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Caption, Dimension, Words
from jigs.figures.parts import drawing, thumbnail
from jigs.parts.part import Part
from jigs.parts.probes import HoleDiameter
from jigs.render.book.gather import book_of
from jigs.render.lines import shown
from tests.jigs.wood.whole_jobs import plan_of
from tests.work.works import proof_of, work_of

JOBS = ("garland", "tumbler", "plied torus")  # a ring, a vessel in inches, a layup
each = pytest.mark.parametrize("name", JOBS)


@cache
def drawings(name: str) -> list[tuple[Part, Figure]]:
    unit = plan_of(name).job.unit
    return [(part, drawing(part, lambda quantity: shown(quantity, unit))) for part in proof_of(name).parts]


def _in(figure: Figure, kind: type) -> list[str]:
    return [
        item.text for item in figure.items if isinstance(item, kind) and isinstance(item, Dimension | Callout)
    ]


def _mm(text: str) -> float:
    number, unit = text.partition(" (")[0].replace("Ø ", "").replace("R ", "").split()
    return float(number) * (25.4 if unit == "in" else 1.0)


@each
def test_a_part_is_drawn_with_both_its_outer_sizes(name: str) -> None:
    for part, figure in drawings(name):
        x0, y0, x1, y1 = part.outline.bounds
        told = [_mm(text) for text in _in(figure, Dimension)]
        for size in (x1 - x0, y1 - y0):
            assert any(mm == pytest.approx(size, abs=0.06) for mm in told), part.name


@each
def test_no_part_shrinks_to_nothing_beside_its_sizes(name: str) -> None:
    for part, figure in drawings(name):
        x0, y0, x1, y1 = part.outline.bounds
        longer = max(x1 - x0, y1 - y0)
        assert figure.scale * longer >= min(25.0, 2 * longer), part.name


@each
def test_every_hole_that_is_measured_is_called_out_in_its_size(name: str) -> None:
    for part, figure in drawings(name):
        sizes = Counter(round(one.value, 2) for one in part.dimensions if isinstance(one.probe, HoleDiameter))
        for text in (text for text in _in(figure, Callout) if "Ø" in text):
            count, _, size = text.rpartition(" × ")
            assert sizes.pop(min(sizes, key=lambda mm: abs(mm - _mm(size)))) == int(count or 1), part.name
        assert not sizes


@each
def test_a_part_is_drawn_with_its_code_its_thickness_and_how_many(name: str) -> None:
    for part, figure in drawings(name):
        (caption,) = [item for item in figure.items if isinstance(item, Caption)]
        assert caption.lines[0] == f"{part.code}  {part.name}"
        assert f"{part.quantity}" in caption.lines[1]
        assert ("thick" in caption.lines[1]) == (part.process != "turn")


@each
def test_the_book_draws_every_part_once_in_the_step_that_makes_it(name: str) -> None:
    parts = proof_of(name).parts
    book = book_of(work_of(name), [f"drawing.{part.name}" for part in parts])
    shown_in = {id: step for chapter in book.chapters for step in chapter.steps for id in step.drawings}
    told = [id for chapter in book.chapters for step in chapter.steps for id in step.drawings]
    assert sorted(told) == sorted(f"drawing.{part.name}" for part in parts if part.process != "turn")
    for part in parts:
        if part.process == "print":
            assert shown_in[f"drawing.{part.name}"].place == "printer"


def test_a_thumbnail_has_no_words() -> None:
    for part in proof_of("garland").parts:
        figure = thumbnail(part)
        assert not any(isinstance(one, Words) for one in figure.drawn(figure.scale))
