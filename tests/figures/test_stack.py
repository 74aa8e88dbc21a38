"""A vessel's section in its rings: whole, each ring in its woods' colours."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shapely import Polygon

from geometry.plane.contour import Contour
from jigs.figures.colours import colour_of
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Shape, Words
from jigs.figures.laid import laid_clear
from jigs.figures.stack import PALE, stack_figure
from jigs.figures.turning.vessel import both
from jigs.plans.vessel import VesselPlan
from jigs.render.lines import shown
from tests.jigs.wood.whole_jobs import vessel

WOODS = ("maple", "cherry", "walnut", "purpleheart", "red oak", "white oak", "paper birch", "basswood")
each = pytest.mark.parametrize("name", ["vase", "bottle", "staved", "platter"])


def _figure(plan: VesselPlan) -> Figure:
    return stack_figure(plan, lambda quantity: shown(quantity, "mm"))


def _coloured(figure: Figure) -> tuple[list[Shape], list[Shape]]:
    """What is pale, what is full."""
    shapes = [item for item in figure.items if isinstance(item, Shape) and item.colour]
    return [one for one in shapes if one.opacity == PALE], [one for one in shapes if one.opacity == 1.0]


@each
def test_every_ring_is_in_its_woods_colours_full_where_it_stays(name: str) -> None:
    plan = vessel(name)
    pairs = [(WOODS[k % 8], WOODS[k % 3]) for k in range(len(plan.stack.layers))]
    layers = tuple(replace(one, species=pair) for one, pair in zip(plan.stack.layers, pairs, strict=True))
    pale, full = _coloured(_figure(replace(plan, stack=replace(plan.stack, layers=layers))))
    colours = ["#" + bytes(colour_of(wood)).hex() for pair in pairs for wood in pair]
    assert [one.colour for one in pale] == colours
    kept = [one.colour for one in full if one.stroke is None]
    assert set(kept) == set(colours)


@each
def test_what_stays_of_the_rings_is_the_finished_section(name: str) -> None:
    plan = vessel(name)
    _, full = _coloured(_figure(plan))
    kept = [Polygon([row[:2] for row in one.rows]) for one in full if one.stroke is None]
    assert sum(one.area for one in kept) == pytest.approx(2 * _area(plan.section.contour), rel=2e-3)
    heights = {(layer.ring.bottom, layer.ring.top) for layer in plan.stack.layers}
    for one in kept:
        _, low, _, high = one.bounds
        assert any(bottom - 1e-6 <= low and high <= top + 1e-6 for bottom, top in heights)


def _area(contour: Contour) -> float:
    return abs(contour.area)


@pytest.mark.parametrize("count", [1, 3, 8])
def test_a_ring_tells_its_woods_or_the_first_and_how_many_more(count: int) -> None:
    plan = vessel("vase")
    layers = tuple(replace(layer, species=WOODS[:count]) for layer in plan.stack.layers)
    figure = _figure(replace(plan, stack=replace(plan.stack, layers=layers)))
    told = [item.text for item in figure.items if isinstance(item, Callout)]
    rest = f"{WOODS[0]} and 7 more woods" if count == 8 else ", ".join(WOODS[:count])
    assert len(told) == len(layers)
    assert all(f", {rest}; " in text for text in told)


@pytest.mark.parametrize("name", ["vase", "bottle", "staved"])
def test_the_height_is_on_its_own_line_between_however_many_rings(name: str) -> None:
    plan = vessel(name)
    figure = _figure(plan)
    height = next(item.text for item in figure.items if isinstance(item, Dimension))
    found = [one for one in laid_clear(figure.items, 0.7) if isinstance(one, Words) and one.text == height]
    assert [0 < one.at[1] < plan.section.height for one in found] == [True]


def test_a_disc_and_a_floor_are_one_piece_from_side_to_side_and_an_open_ring_is_two() -> None:
    plan = vessel("vase")
    foot, *_, rim = (both(plan.stack.cut_through(layer)) for layer in plan.stack.layers)
    assert (len(foot), len(rim)) == (1, 2)
    (body,) = both(plan.section.contour)
    assert body.area == pytest.approx(2 * plan.section.contour.area)
    assert body.bounds[0] == pytest.approx(-body.bounds[2])
