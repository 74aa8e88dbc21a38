"""Labels and tape layouts: true to size on their paper, one for everything that could be turned the wrong way."""

import io
import re
from functools import cache
from math import cos, pi, tan
from xml.etree import ElementTree

import pytest
from svgelements import SVG, Rect

from jigs.jobfile import load, parse
from jigs.paper.labels import label_pages
from jigs.paper.page import CHECK, LETTER, MARGIN, SIZES, SMALLEST
from jigs.paper.tape import tape_pages
from jigs.solve import solve
from tests.conftest import CONFIGS
from tests.jigs.vessel.jobs import text as vessel_text

NAMES = ("garland", "quoit", "trellis", "sorrel", "tumbler")
ODD = ("open", "staved", "platter", "bowl")
MIXED = """[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = 16
segments = 8
core_opening = 20
species = [["maple", "walnut"], ["walnut"]]
"""
NS = "{http://www.w3.org/2000/svg}"


@cache
def plan_of(name, more=""):
    if name in NAMES:
        return solve(load(CONFIGS / f"{name}.toml"))
    return solve(parse((MIXED if name == "mixed" else vessel_text(name)) + more, f"{name}.toml"))


def pages(plan):
    return [*label_pages(plan), *tape_pages(plan)]


def texts(svg):
    return [element.text for element in ElementTree.fromstring(svg).iter(f"{NS}text")]


def boxes(svg):
    """The open rectangles of a page in mm, as another library measures them."""
    drawn = SVG.parse(io.StringIO(svg), ppi=25.4)
    rects = [element for element in drawn.elements() if isinstance(element, Rect)]
    return [(r.x, r.y, r.width, r.height) for r in rects if r.stroke.value is not None]


@pytest.mark.parametrize("name", [*NAMES, *ODD])
def test_every_page_is_its_papers_size_and_what_is_drawn_keeps_its_margins(name):
    width, height = SIZES["A4"]
    for _, _, svg in pages(plan_of(name)):
        root = ElementTree.fromstring(svg)
        assert (root.attrib["width"], root.attrib["height"]) == (f"{width:g}mm", f"{height:g}mm")
        assert root.attrib["viewBox"] == f"0 0 {width:g} {height:g}"
        for x, y, wide, high in boxes(svg):
            assert MARGIN - 1e-3 <= x <= x + wide <= width - MARGIN
            assert MARGIN <= y <= y + high <= height - MARGIN


def test_two_lines_measure_the_print_by():
    for _, _, svg in pages(plan_of("garland")):
        lines = [e.attrib for e in ElementTree.fromstring(svg).iter(f"{NS}line")]
        across = [float(a["x2"]) - float(a["x1"]) for a in lines if a["y1"] == a["y2"]]
        upright = [float(a["y2"]) - float(a["y1"]) for a in lines if a["x1"] == a["x2"]]
        assert CHECK in across
        assert CHECK in upright
        assert any("100 %" in text and "50 mm" in text for text in texts(svg))


def test_letter_paper_is_as_large_as_it_says():
    plan = plan_of("mixed", '[paper]\nsize = "Letter"\n')
    assert all('width="215.9mm" height="279.4mm"' in svg for _, _, svg in pages(plan))


def test_every_wedge_ring_has_a_label_whose_faces_meet_those_of_its_neighbours():
    told = [text for _, _, svg in label_pages(plan_of("garland")) for text in texts(svg)]
    for ring in range(1, 17):
        assert f"RING {ring} of 16" in told
        assert told.count(f"to ring {ring}") == 2
    assert told.count("END WEDGE") == 4
    assert told.count("SPARE RING") == 1


def test_face_2_of_a_ring_meets_face_1_of_the_next():
    (_, _, svg), *_ = label_pages(plan_of("garland"))
    rows = texts(svg)
    at = rows.index("RING 7 of 16")
    assert rows[at - 2 : at + 4] == [
        "FACE 1",
        "to ring 6",
        "RING 7 of 16",
        "OUTER SIDE",
        "FACE 2",
        "to ring 8",
    ]
    last = rows.index("RING 16 of 16")
    assert rows[last + 2 : last + 5] == ["FACE 2", "to ring 1", "END WEDGE"]


@pytest.mark.parametrize("name", ["sorrel", "tumbler", *ODD])
def test_every_ring_of_a_vessel_has_its_label_and_every_stave(name):
    plan = plan_of(name)
    told = [text for _, _, svg in label_pages(plan) for text in texts(svg)]
    total = len(plan.stack.layers)
    for layer in plan.stack.layers:
        if layer.kind == "staves":
            assert all(f"STAVE {k} of 16" in told for k in range(1, 17))
            assert sum(text in ("WIDE END UP", "NARROW END UP", "UP") for text in told) >= 16
        else:
            assert f"RING {layer.number} of {total}" in told


def test_pieces_of_a_layup_are_sorted_by_labels_with_their_counts():
    plan = plan_of("trellis")
    (layup,) = plan.layups
    told = [text for _, _, svg in label_pages(plan) for text in texts(svg)]
    over, as_cut = (int(told[told.index(kind) + 1]) for kind in ("TURNED OVER", "PIECES AS CUT"))
    assert over + as_cut == layup.pieces + layup.spares
    assert 0 <= as_cut - over <= 1


@pytest.mark.parametrize("name", [*NAMES, *ODD])
def test_no_word_is_wider_than_its_label_or_too_small_to_read(name):
    for _, _, svg in label_pages(plan_of(name)):
        (width,) = {round(box[2], 3) for box in boxes(svg)}
        for element in ElementTree.fromstring(svg).iter(f"{NS}text"):
            size = float(element.attrib["font-size"])
            if element.attrib["text-anchor"] == "middle":
                assert size >= SMALLEST, element.text
                assert LETTER * size * len(element.text) <= 0.4 * width


def developed(plan):
    """Ring number to its all-round length, and count, from the polygons."""
    if plan.kind == "torus":
        edge = 2 * plan.blank.apothem * tan(pi / plan.blank.segments)
        return {
            k: (edge * plan.blank.segments, plan.blank.segments) for k in range(1, plan.blank.wedge_rings + 1)
        }
    rings = [la.ring for la in plan.stack.layers if la.cut is not None]
    return {
        ring.number: (2 * ring.outer * tan(pi / ring.segments) * ring.segments, ring.segments)
        for ring in rings
    }


def rings_of(svg):
    """The rings that a tape sheet's heading names."""
    heading = texts(svg)[0].split(":")[1]
    found = []
    for first, last in re.findall(r"(\d+)(?: to (\d+))?", heading):
        found += range(int(first), int(last or first) + 1)
    return found


@pytest.mark.parametrize("name", [*NAMES, *ODD, "mixed"])
def test_a_rings_segments_lie_side_by_side_as_long_as_it_is_round(name):
    plan = plan_of(name)
    lengths, seen = developed(plan), []
    for file, _, svg in tape_pages(plan):
        if "-page-" in file:
            continue
        rings = rings_of(svg)
        seen += rings
        drawn = [box for other, _, text in tape_pages(plan) if other.removesuffix(".svg").split("-page-")[0] ==
                 file.removesuffix(".svg") for box in boxes(text)]  # fmt: skip
        length, segments = lengths[rings[0]]
        assert sum(box[2] for box in drawn) == pytest.approx(length, abs=0.01)
        assert len(drawn) in (segments, 2 * segments)
    assert sorted(seen) == sorted(lengths)


def test_strips_between_segments_have_their_room_on_the_tape():
    plan = plan_of("tumbler")
    layer = next(la for la in plan.stack.layers if la.cut is not None and la.ring.spacer)
    svg = next(text for _, _, text in tape_pages(plan) if layer.number in rings_of(text))
    widths = sorted({round(box[2], 3) for box in boxes(svg)})
    assert widths[0] == pytest.approx(layer.ring.spacer / cos(pi / layer.ring.segments), abs=2e-3)
    assert widths[-1] == pytest.approx(layer.ring.outer_edge, abs=2e-3)


def test_a_row_says_which_segment_follows_and_which_it_follows():
    told = next(texts(svg) for file, _, svg in tape_pages(plan_of("sorrel")) if "ring-5" in file)
    assert {"5 follows", "after 4", "9 follows", "after 8"} <= set(told)
    assert "tape starts; 12 closes here" in told


def test_a_segment_wider_than_the_paper_is_marked_by_rule():
    stations = 'title = "Dish"\n[profile]\nstations = [[0, 500], [60, 700]]\n[wall]\nthickness = 12\n'
    more = '[rings]\nheights = 30\nsegments = 8\nspecies = "ash"\n[lathe]\nswing_over_bed = 900\n'
    shop = "[cutter]\nbed = [1500, 1500]\n[saw]\nblade_height = 120\nblade_diameter = 300\n"
    plan = solve(parse(stations + more + shop, "dish.toml"))
    found = [texts(svg) for _, _, svg in tape_pages(plan)]
    assert found
    assert all(any("mark the tape by rule, every" in text for text in told) for told in found)


def test_rings_of_other_woods_have_sheets_of_their_own():
    files = [file for file, _, _ in tape_pages(plan_of("mixed"))]
    assert files == ["paper/tape-ring-1.svg", "paper/tape-ring-2.svg"]
