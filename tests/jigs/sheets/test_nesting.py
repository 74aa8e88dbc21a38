from collections import Counter
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.plane.contour import circle, polygon
from jigs.files.sheets.cells import MICRON, cells_of
from jigs.files.sheets.nesting import Placed, left_out, nest, strips
from tests.geometry.shapes import rotated
from tests.jigs.plates import mouth, wedge
from tests.jigs.sheets.shop import DEVIATION, gap, offcut, plate, racked, shape, shop

EXAMPLES = ("garland", "millwheel", "quoit", "sorrel", "tumbler")
SLACK = 3 * DEVIATION  # of two outlines in chords


def copies(sheets):
    return Counter((item.part.name, item.copy) for sheet in sheets for item in sheet.placed)


def every_copy(parts):
    return Counter((part.name, k) for part in parts for k in range(1, part.quantity + 1))


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_copy_of_every_cut_part_is_laid_down_once(name):
    parts, workshop = racked(name)
    off = (*left_out(parts, workshop), *strips(parts))
    on_sheets = [p for p in parts if p.process == "cut" and p not in off and not p.jig.first]
    assert copies(nest(parts, workshop)) == every_copy(on_sheets)


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_two_outlines_are_nearer_than_the_spacing_nor_any_to_the_edge(name):
    parts, workshop = racked(name)
    for sheet in nest(parts, workshop):
        assert gap(sheet) >= workshop.cutter.spacing - SLACK


def test_the_kerf_has_its_room_too():
    workshop = shop(kerf=3.0, spacing=4.0)
    parts = [
        wedge(quantity=5, material="sheet, as measured", thickness=12.0),
        plate(quantity=7),
        plate("disc", outline=circle((0, 0), 80)),
    ]
    (sheet,) = nest(parts, workshop)
    assert len(sheet.placed) == 13
    assert gap(sheet, grown=1.5) >= 4.0 - SLACK


@st.composite
def random_parts(draw):
    sizes = st.floats(5, 400)
    found = []
    for k in range(draw(st.integers(1, 8))):
        w, h, quantity = draw(sizes), draw(sizes), draw(st.integers(1, 6))
        corner, x, y = draw(st.floats(0.05, 1)), draw(st.floats(-500, 500)), draw(st.floats(-500, 500))
        outline = polygon([(x, y), (x + w, y), (x + w * corner, y + h), (x, y + h * corner)])
        thickness = draw(st.sampled_from((6.0, 12.0)))
        found.append(plate(f"part-{k}", outline=outline, quantity=quantity, thickness=thickness))
    return found


@given(
    random_parts(),
    st.tuples(st.floats(200, 900), st.floats(200, 600)),
    st.just(0.0) | st.floats(0.5, 20),
    st.sampled_from((0.0, 0.4)),
    st.booleans(),
)
@settings(max_examples=12)
def test_random_parts_lie_apart_inside_the_bed_each_once(parts, bed, spacing, kerf, has_offcut):
    offcuts = (offcut(150, 700), offcut(90, 120, count=2)) if has_offcut else ()
    workshop = shop.__wrapped__(bed, spacing, kerf, offcuts)
    sheets = nest(parts, workshop)
    laid = [part for part in parts if part not in left_out(parts, workshop)]
    assert copies(sheets) == every_copy(laid)
    for sheet in sheets:
        assert min(sheet.size) <= min(bed)
        assert max(sheet.size) <= max(bed)
        assert {round(item.part.thickness, 2) for item in sheet.placed} == {round(sheet.thickness, 2)}
        assert gap(sheet, grown=kerf / 2) >= spacing - SLACK


def test_the_same_parts_give_the_same_sheets():
    parts, workshop = racked("quoit")
    first, again = nest(parts, workshop), nest(list(parts), workshop)
    assert first == again
    assert len({sheet.name for sheet in first}) == len(first)


def test_materials_and_thicknesses_are_kept_apart():
    parts = [
        plate("a"),
        plate("b", thickness=6.0),
        plate("c", material="board, as measured"),
        plate("d", thickness=12.004),
    ]
    names = {sheet.name: [item.part.name for item in sheet.placed] for sheet in nest(parts, shop())}
    assert names == {"board-12mm-1": ["c"], "sheet-12mm-1": ["a", "d"], "sheet-6mm-1": ["b"]}


def test_materials_named_alike_do_not_share_a_file():
    parts = [plate("a", material="board"), plate("b", material="board, as measured")]
    assert [sheet.file for sheet in nest(parts, shop())] == [
        "sheets/board-12mm-1.dxf",
        "sheets/board-12mm-2.dxf",
    ]


def test_a_sheets_name_tells_its_thickness_in_the_turners_unit():
    (sheet,) = nest([plate(thickness=11.9)], shop(), "in")
    assert sheet.name == "sheet-0.469in-1"
    assert dict(sheet.facts)["Thickness"] == "15/32 in"


def test_solid_wood_lies_on_no_sheet_and_is_listed_as_strips():
    parts = [plate("runner", material="hardwood"), plate("base"), plate("pad", process="print")]
    assert [item.part.name for sheet in nest(parts, shop()) for item in sheet.placed] == ["base"]
    assert [part.name for part in strips(parts)] == ["runner"]


def test_what_is_printed_turned_or_on_paper_lies_on_no_sheet():
    assert nest([plate(process=process) for process in ("print", "turn", "paper")], shop()) == ()


def test_offcuts_are_used_before_whole_sheets_as_listed():
    workshop = shop(offcuts=(offcut(120, 130), offcut(220, 230, thickness=11.8)))
    sheets = nest([plate(quantity=9)], workshop)
    assert [(sheet.offcut, sheet.size, sheet.thickness, len(sheet.placed)) for sheet in sheets] == [
        (True, (130, 120), 12.0, 2),
        (True, (230, 220), 11.8, 6),
        (False, (900, 600), 12.0, 1),
    ]


def test_an_offcut_of_another_thickness_or_too_small_is_left_alone():
    workshop = shop(offcuts=(offcut(500, 500, thickness=12.31), offcut(104, 59)))
    assert [sheet.offcut for sheet in nest([plate()], workshop)] == [False]


def test_each_offcut_is_used_once_though_two_thicknesses_agree_with_it():
    workshop = shop(offcuts=(offcut(120, 120),))
    sheets = nest([plate("a"), plate("b", thickness=12.2)], workshop)
    assert [sheet.offcut for sheet in sheets] == [True, False]


def test_an_offcut_larger_than_the_bed_is_used_as_far_as_the_bed_goes():
    (sheet,) = nest([plate(quantity=3)], shop(offcuts=(offcut(700, 2000),)))
    assert sheet.size == (900, 600)
    assert sheet.offcut


def test_an_offcut_without_a_width_or_length_is_not_counted_on():
    workshop = shop(offcuts=(offcut(None, 500), offcut(500, None)))
    assert [sheet.offcut for sheet in nest([plate()], workshop)] == [False]


def test_a_part_that_fits_no_sheet_is_left_out_and_named():
    long, turned = plate("long", 895, 40), plate("upright", 40, 880)
    parts = [long, turned]
    assert left_out(parts, shop()) == (long,)
    assert [item.part.name for sheet in nest(parts, shop()) for item in sheet.placed] == ["upright"]


def test_a_part_as_large_as_the_bed_allows_is_laid_down():
    (sheet,) = nest([plate("whole", 890, 590)], shop())
    assert gap(sheet) == pytest.approx(5)
    (turned,) = nest([plate("whole", 590, 890)], shop())
    assert gap(turned) == pytest.approx(5)


def test_two_long_triangles_lie_head_to_tail_in_one_rectangle():
    triangle = plate("wedge", outline=polygon([(0, 0), (200, 0), (200, 30)]), quantity=2)
    cells = cells_of(triangle, 5.0, 0.0)
    assert cells.pair is not None
    assert cells.pair.width * cells.pair.height < 0.75 * 2 * cells.single.width * cells.single.height
    first, second = (Placed(triangle, k, x, y, turns) for k, (turns, x, y) in enumerate(cells.pair.places, 1))
    assert shape(first).distance(shape(second)) == pytest.approx(5.0, abs=0.2)
    assert shape(first).distance(shape(second)) >= 5.0 - 1e-9


@given(
    st.lists(st.tuples(st.floats(-50, 50), st.floats(-50, 50)), min_size=3, max_size=9, unique=True),
    st.floats(0.5, 10),
)
def test_a_pair_keeps_the_spacing_inside_its_rectangle_whatever_its_shape(points, spacing):
    from shapely.geometry import MultiPoint

    hull = MultiPoint(points).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 1:
        return
    part = plate(outline=polygon(list(hull.exterior.coords)[:-1]).ccw(), quantity=2)
    pair = cells_of(part, spacing, 0.0).pair
    if pair is None:
        return
    for cell in (pair, pair.turned()):
        one, two = (shape(Placed(part, 1, x, y, turns)) for turns, x, y in cell.places)
        assert one.distance(two) >= spacing - 1e-6
        x0, y0, x1, y1 = one.union(two).bounds
        assert min(x0, y0) >= spacing / 2 - 1e-6
        assert x1 <= cell.width / MICRON - spacing / 2 + 1e-6
        assert y1 <= cell.height / MICRON - spacing / 2 + 1e-6


def test_shapes_with_a_mouth_are_paired_by_their_hull():
    part = plate(outline=mouth(38.0), quantity=2)
    pair = cells_of(part, 5.0, 0.0).pair
    assert pair is None or pair.width * pair.height <= 2 * (125 * MICRON) ** 2


def test_a_part_four_times_turned_lies_as_before():
    part = plate(outline=polygon([(3, 1), (40, 2), (20, 30)]))
    cell = cells_of(part, 5.0, 0.0).single
    around = cell.turned().turned().turned().turned()
    assert (around.width, around.height) == (cell.width, cell.height)
    assert around.places[0] == pytest.approx(cell.places[0], abs=2e-3)
    quarter = Placed(part, 1, 0, 0, 1).contour(part.outline).vertices
    assert quarter == pytest.approx(rotated(part.outline, pi / 2).vertices)


def test_a_sheet_without_parts_is_never_written():
    assert nest([], shop()) == ()
    fitting = nest([plate()], shop(offcuts=(offcut(50, 40), offcut(3, 3))))
    assert [sheet.offcut for sheet in fitting] == [False]
