"""The sheet of each ring: all of its segments in their colours, at their places, with what is set for them."""

import io
import math
import re
from functools import cache

import pytest
import shapely
from svgelements import SVG, Path

from jigs.asked.jobfile import parse
from jigs.figures.colours import colour_of
from jigs.figures.items import Shape
from jigs.figures.svg import PAINTS, figure_svg
from jigs.forms.solve import solve
from jigs.paper.ring_facts import of_vessel, woods_of
from jigs.paper.ring_sheets import ring_pages
from tests.examples import plan_of_example
from tests.jigs.paper.sheets import kept_to, plan_of, sheet
from tests.jigs.vessel.jobs import text

NAMES = ("garland", "sorrel", "trellis", "tumbler")
BELOW = 'species = [["maple", "walnut", "cherry"]]\nturn = 0.25'


def wood(name):
    return "#{:02x}{:02x}{:02x}".format(*colour_of(name))


@cache
def vessel(kind):
    return solve(parse(text(kind), "v.toml"))


@cache
def pages_of(kind):
    """Each ring's page of a vessel of this kind, read."""
    return [sheet(page) for page in ring_pages(vessel(kind))]


def segments(page):
    """Polygons of four corners by their colour, those of the view alone."""
    found = []
    for element in SVG.parse(io.StringIO(figure_svg(page)), ppi=25.4).elements():
        if isinstance(element, Path) and element.fill.value is not None:
            points = list(dict.fromkeys((round(p.x, 6), round(p.y, 6)) for p in element.as_points()))
            if len(points) == 4 and max(y for _, y in points) < 155.0:
                found.append((element.fill.hex, shapely.Polygon(points)))
    return found


@pytest.fixture(scope="module")
def turned():
    return solve(parse(text("vase").replace('species = "maple"', BELOW), "v.toml"))


@pytest.fixture(scope="module")
def views(turned):
    """Each ring, and the segments drawn on its page."""
    pages = zip(turned.stack.layers, ring_pages(turned), strict=True)
    return [(layer, segments(page)) for layer, page in pages]


@pytest.mark.parametrize("name", NAMES)
def test_sheets_keep_the_margins_and_have_titles_of_their_own(name):
    pages = ring_pages(plan_of(name))
    assert len({page.title for page in pages}) == len(pages)
    assert all(kept_to(sheet(page)) for page in pages)


@pytest.mark.parametrize("kind", ["bottle", "open", "staved", "bowl", "cup"])
def test_every_sort_of_ring_has_its_sheet(kind):
    layers, pages = vessel(kind).stack.layers, pages_of(kind)
    assert [page.title.split(": ")[1] for page in pages] == [
        f"ring {layer.number} of {len(layers)}" for layer in layers
    ]
    assert all(map(kept_to, pages))


def test_rings_of_a_torus_that_are_alike_share_a_sheet():
    assert len(ring_pages(plan_of("garland"))) == len(set(plan_of("garland").species))
    assert len(ring_pages(plan_of("trellis"))) == 2  # every other ring is the mirror image


def test_segments_are_drawn_in_their_woods_where_they_stand(views):
    """Round the axis, ring 1's first segment straight down, numbers counter-clockwise seen from above."""
    for layer, drawn in views:
        if layer.cut is None:
            continue
        assert len(drawn) == layer.ring.segments
        whole = shapely.union_all([polygon for _, polygon in drawn])
        centre = whole.convex_hull.centroid
        for colour, polygon in drawn:
            at = polygon.centroid
            angle = math.atan2(-(at.y - centre.y), at.x - centre.x) + math.pi / 2 - layer.turned
            place = round(angle / (2 * math.pi / layer.ring.segments)) % layer.ring.segments
            assert colour == wood(layer.species[place])


def test_no_wood_is_drawn_in_the_colour_of_another(turned):
    assert any(layer.plug for layer in turned.stack.layers)
    for page in (*ring_pages(plan_of("garland")), *ring_pages(turned)):
        assert PAINTS["wood"] not in figure_svg(page), "what stands for any wood"


def test_a_view_is_the_ring_in_proportion(views):
    for layer, drawn in views:
        if layer.cut is None or layer.plug:
            continue
        area = sum(polygon.area for _, polygon in drawn)
        hull = shapely.union_all([polygon for _, polygon in drawn]).convex_hull.area
        assert area / hull == pytest.approx(1 - (layer.ring.core / layer.ring.outer) ** 2, rel=1e-3)


def direction(start, end):
    return math.atan2(end[1] - start[1], end[0] - start[0])


def test_the_ring_below_is_drawn_as_it_lies_under_its_own_segment_1(turned):
    """Ticks point away from the axis: the wide one is the ring's own, the thin one that of the ring below."""
    layers = turned.stack.layers
    for below, layer, page in zip(layers, layers[1:], ring_pages(turned)[1:], strict=False):
        ticks = {
            item.width: direction(*item.rows)
            for item in page.items
            if isinstance(item, Shape) and item.width in (0.7, 0.4) and item.stroke == "ink"
        }
        assert math.cos(ticks[0.7] - ticks[0.4] - layer.turned + below.turned) == pytest.approx(1)


def test_a_sheet_tells_the_cut_the_turn_and_the_boards_of_its_ring(turned):
    for layer, page in zip(turned.stack.layers, ring_pages(turned), strict=True):
        told = " ".join(sheet(page).texts)
        lots = [lot for lot in turned.wood.lots if layer.number in lot.rings]
        for lot in lots:
            assert f"lot {lot.number}: {lot.count} + {lot.spares} spare" in told
            assert f"{lot.thickness:.2f} mm" in told or lot.piece == "plug"
        if layer.cut is not None:
            cut = next(lot for lot in lots if lot.piece == "segment")
            assert f"{cut.longer:.2f} mm" in told
            assert f"{cut.stop:.1f} mm" in told
        for joint in turned.stack.joints:
            if joint.upper == layer.number and joint.over:
                assert f"of segment {joint.over} of ring {joint.lower}" in re.sub(r"\s+", " ", told)
                assert f"{abs(joint.past):.1f} mm" in told


def test_the_wood_of_strips_between_segments_is_among_them():
    for layer, page in zip(vessel("bottle").stack.layers, pages_of("bottle"), strict=True):
        assert ("walnut" in " ".join(page.texts)) is (layer.ring.spacer > 0)


def test_a_lids_knob_is_on_no_rings_sheet():
    """It is sawn along with ring 1, from a thicker board and of its own wood."""
    plan = plan_of_example("acorn-lid")
    knob = next(lot for lot in plan.wood.lots if lot.piece == "knob")
    sawn = next(lot for lot in plan.wood.lots if lot.piece == "segment" and 1 in lot.rings)
    facts = {fact.id: fact.value for fact in of_vessel(plan, plan.stack.layers[0])}
    assert facts["board"] == pytest.approx(sawn.thickness)
    assert facts["longer"] == pytest.approx(sawn.longer)
    assert facts["stop"] == pytest.approx(sawn.stop)
    told = [board for wood in woods_of(plan, (1,), ("maple",)) for board in wood.boards]
    assert any(board.startswith(f"lot {sawn.number}:") for board in told)
    assert not any(board.startswith(f"lot {knob.number}:") for board in told)
