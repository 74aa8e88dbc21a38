"""The sheet of each ring: all of its segments in their colours, at their places, with what is set for them."""

import io
import math
import re

import pytest
import shapely
from svgelements import SVG, Path

from jigs.asked.jobfile import parse
from jigs.figures.colours import colour_of
from jigs.figures.svg import PAINTS, figure_svg
from jigs.forms.solve import solve
from jigs.paper.ring_sheets import ring_pages
from tests.jigs.paper.sheets import kept_to, plan_of, sheet
from tests.jigs.vessel.jobs import text

NAMES = ("garland", "sorrel", "trellis", "tumbler")
BELOW = 'species = [["maple", "walnut", "cherry"]]\nturn = 0.25'


def wood(name):
    return "#{:02x}{:02x}{:02x}".format(*colour_of(name))


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


@pytest.mark.parametrize("name", NAMES)
def test_sheets_keep_the_margins_and_have_titles_of_their_own(name):
    pages = ring_pages(plan_of(name))
    assert len({page.title for page in pages}) == len(pages)
    assert all(kept_to(sheet(page)) for page in pages)


@pytest.mark.parametrize("kind", ["bottle", "open", "staved", "bowl", "cup"])
def test_every_sort_of_ring_has_its_sheet(kind):
    plan = solve(parse(text(kind), "v.toml"))
    pages = ring_pages(plan)
    assert [page.title.split(": ")[1] for page in pages] == [
        f"ring {layer.number} of {len(plan.stack.layers)}" for layer in plan.stack.layers
    ]
    assert all(kept_to(sheet(page)) for page in pages)


def test_rings_of_a_torus_that_are_alike_share_a_sheet():
    assert len(ring_pages(plan_of("garland"))) == len(set(plan_of("garland").species))
    assert len(ring_pages(plan_of("trellis"))) == 2  # every other ring is the mirror image


def test_segments_are_drawn_in_their_woods_where_they_stand(turned):
    """Round the axis, ring 1's first segment straight down, numbers counter-clockwise seen from above."""
    for layer, page in zip(turned.stack.layers, ring_pages(turned), strict=True):
        if layer.cut is None:
            continue
        drawn = segments(page)
        assert len(drawn) == layer.ring.segments
        whole = shapely.union_all([polygon for _, polygon in drawn])
        centre = whole.convex_hull.centroid
        for colour, polygon in drawn:
            at = polygon.centroid
            angle = math.atan2(-(at.y - centre.y), at.x - centre.x) + math.pi / 2 - layer.turned
            place = round(angle / (2 * math.pi / layer.ring.segments)) % layer.ring.segments
            assert colour == wood(layer.species[place])


def test_no_wood_is_drawn_in_the_colour_of_another():
    garland = plan_of("garland")
    vase = solve(parse(text("vase").replace('species = "maple"', 'species = "walnut"'), "v.toml"))
    assert any(layer.plug for layer in vase.stack.layers)
    for page in (*ring_pages(garland), *ring_pages(vase)):
        assert PAINTS["wood"] not in figure_svg(page), "what stands for any wood"


def test_a_view_is_the_ring_in_proportion(turned):
    for layer, page in zip(turned.stack.layers, ring_pages(turned), strict=True):
        if layer.cut is None or layer.plug:
            continue
        area = sum(polygon.area for _, polygon in segments(page))
        hull = shapely.union_all([polygon for _, polygon in segments(page)]).convex_hull.area
        assert area / hull == pytest.approx(1 - (layer.ring.core / layer.ring.outer) ** 2, rel=1e-3)


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
    plan = solve(parse(text("bottle"), "v.toml"))
    told = [" ".join(sheet(page).texts) for page in ring_pages(plan)]
    for layer, one in zip(plan.stack.layers, told, strict=True):
        assert ("walnut" in one) is (layer.ring.spacer > 0)
