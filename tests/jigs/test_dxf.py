import io
import os
import subprocess
import sys
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf import bbox, recover
from ezdxf.math import Vec2, Vec3
from ezdxf.path import make_path
from hypothesis import given

from geometry.plane.contour import circle, polygon
from jigs.files.dxf import FRAME, read_dxf, write_dxf, write_lines_and_arcs
from jigs.files.dxf_frame import frame_text
from jigs.parts.readback import measure
from tests.jigs.plates import RADIUS, gauge, part, plates, wedge


def written(part, kerf=0.0):
    stream = io.BytesIO()
    write_dxf(part, stream, kerf)
    return stream.getvalue()


def opened(part, kerf=0.0):
    return ezdxf.read(io.StringIO(written(part, kerf).decode()))


def on_layer(document, layer):
    return list(document.modelspace().query(f'*[layer=="{layer}"]'))


def test_the_bytes_do_not_depend_on_the_run():
    code = "import sys; from tests.jigs.test_dxf import *; sys.stdout.buffer.write(written(wedge()))"
    root = Path(__file__).parents[2]
    other = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONHASHSEED": "1", "PYTHONPATH": str(root)},
        cwd=root,
        capture_output=True,
        check=True,
    )
    assert other.stdout == written(wedge())


def test_a_file_does_not_depend_on_what_was_written_before():
    before = written(wedge())
    written(gauge(process="cut"))
    assert written(wedge()) == before


def test_the_frame_is_what_a_drawing_library_makes():
    assert FRAME.read_text("utf-8") == frame_text()


def test_handles_are_the_entities_own():
    document = opened(wedge())
    handles = [entity.dxf.handle for entity in document.modelspace()]
    assert len(set(handles)) == len(handles)
    assert all(int(handle, 16) < int(document.header["$HANDSEED"], 16) for handle in handles)
    space = document.modelspace()
    assert {entity.dxf.owner for entity in space} == {space.block_record_handle}


@pytest.mark.parametrize("plate", [gauge(process="cut"), wedge(), gauge(process="turn", thickness=0.0)])
def test_the_audit_is_clean_and_the_header_says_millimetres(plate):
    document, audit = recover.read(io.BytesIO(written(plate)))
    assert not audit.errors
    assert not audit.fixes
    assert not document.audit().errors
    assert document.dxfversion == "AC1024"
    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1


def test_the_outline_is_one_closed_polyline_with_true_arcs():
    (outline,) = on_layer(opened(gauge(process="cut")), "cut")
    assert outline.dxftype() == "LWPOLYLINE"
    assert outline.closed
    assert np.array(outline.get_points("xyb")) == pytest.approx(gauge().outline.vertices, abs=1e-12)


def test_a_straight_edge_has_no_bulge_not_even_nothing():
    """FreeCAD takes every edge with one for an arc."""
    tags = written(gauge(process="cut")).decode().split("  2\nENTITIES\n")[1].split("ENDSEC")[0]
    arcs = sum(1 for bulge in gauge().outline.vertices[:, 2] if bulge)
    assert tags.count("\n 42\n") == arcs == 1
    assert all(bulge == 0 for *_, bulge in on_layer(opened(wedge()), "cut")[1].get_points("xyb"))


@pytest.mark.parametrize(("process", "layer"), [("cut", "cut"), ("turn", "section")])
def test_a_round_outline_is_a_circle_and_reads_back_as_one(process, layer):
    """OpenSCAD takes a disc of two arcs for nothing."""
    disc = part(circle((30, 40), 25), process=process, holes=(circle((30, 40), 5).cw(),))
    document = opened(disc)
    outline = on_layer(document, layer)[0]
    assert (outline.dxftype(), outline.dxf.radius) == ("CIRCLE", 25)
    read = read_dxf(io.BytesIO(written(disc)))
    outer, inner = (contour.bounds for contour in read.contours)
    assert outer == pytest.approx((5, 15, 55, 65))
    assert inner == pytest.approx((25, 35, 35, 45))


EACH = pytest.mark.parametrize(
    "plate",
    [
        gauge(process="cut"),
        wedge(),
        part(circle((-300, 40), 250), process="cut"),
        gauge(process="turn", thickness=0),
    ],
)


@EACH
def test_a_page_is_as_large_as_its_drawing_in_whole_points_and_whole_millimetres(plate):
    """LibreCAD makes pages of whole points, counts them in whole millimetres, and stretches the drawing to match."""
    document = opened(plate)
    size = bbox.extents(document.modelspace(), fast=False).size
    page = Vec2(document.header["$PLIMMAX"])
    for side, drawn in ((page.x, size.x), (page.y, size.y)):
        assert drawn + 20 <= side < drawn + 100
        assert side / 25.4 * 72 == pytest.approx(round(side / 25.4 * 72), abs=1e-6)
        assert side == pytest.approx(round(side), rel=1e-4)


@EACH
def test_extents_limits_and_view_are_those_of_what_is_drawn(plate):
    document = opened(plate)
    box = bbox.extents(document.modelspace(), fast=False)
    low, high, header = box.extmin, box.extmax, document.header
    assert Vec3(header["$EXTMIN"]).isclose(low, abs_tol=1e-6)
    assert Vec3(header["$EXTMAX"]).isclose(high, abs_tol=1e-6)
    assert Vec2(header["$LIMMIN"]).isclose(low.vec2, abs_tol=1e-6)
    assert Vec2(header["$LIMMAX"]).isclose(high.vec2, abs_tol=1e-6)
    view = document.viewports.get("*Active")[0].dxf
    assert view.center.isclose(box.center.vec2, abs_tol=1e-6)
    assert high.y - low.y < view.height
    assert high.x - low.x <= view.height * 2


def test_lines_and_arcs_run_end_to_end_round_the_same_outline():
    stream = io.BytesIO()
    assert write_lines_and_arcs(gauge(process="cut"), stream)
    document = ezdxf.read(io.StringIO(stream.getvalue().decode()))
    assert not document.audit().errors
    edges = on_layer(document, "cut")
    assert sorted(edge.dxftype() for edge in edges) == ["ARC", *["LINE"] * 5]
    ends = [(p.x, p.y) for e in edges for path in [make_path(e)] for p in (path.start, path.end)]
    places = np.array(ends)
    near = np.abs(places[:, None] - places[None]).max(axis=2) < 1e-9
    assert (near.sum(axis=1) == 2).all()
    (arc,) = (edge for edge in edges if edge.dxftype() == "ARC")
    assert (arc.dxf.radius, arc.dxf.center.y) == pytest.approx((RADIUS, 60))
    middle = (arc.dxf.start_angle + (arc.dxf.end_angle - arc.dxf.start_angle) % 360 / 2) % 360
    assert middle == pytest.approx(270)  # concave: below its centre


def test_a_drawing_without_an_arc_has_none_in_lines_and_arcs():
    stream = io.BytesIO()
    assert not write_lines_and_arcs(wedge(), stream)
    assert not stream.getvalue()


def test_a_file_tells_what_it_is_though_it_be_found_alone():
    facts = (("Job", "Größe Ø 12"), ("Quantity", "3"), ("Material", "sheet"), ("Thickness", "11.9 mm"))
    document = opened(wedge(facts=facts))
    assert document.header.custom_vars.properties == [("Part", "SW sled-wedge"), *facts]
    told, bare = (len(on_layer(opened(wedge(facts=own)), "note")) for own in (facts, ()))
    assert told > bare + 40  # strokes


def test_round_holes_are_circles_and_other_holes_are_cut():
    document = opened(wedge())
    (hole,) = on_layer(document, "drill")
    assert (hole.dxftype(), hole.dxf.center.x, hole.dxf.center.y, hole.dxf.radius) == ("CIRCLE", 130, 10, 2.5)
    square, outline = on_layer(document, "cut")
    assert (len(square), len(outline)) == (4, 4)
    assert square.closed


def test_text_is_engraved_as_open_strokes():
    document = opened(wedge())
    engraved = on_layer(document, "engrave")
    assert len(engraved) > 10
    assert not any(stroke.closed for stroke in engraved)
    assert {entity.dxftype() for entity in document.modelspace()} == {"LWPOLYLINE", "CIRCLE"}


def test_the_note_below_the_part_has_a_line_of_fifty_millimetres():
    notes = on_layer(opened(wedge()), "note")
    spans = [np.ptp(np.array(note.get_points("xy")), axis=0) for note in notes]
    assert any(span[0] == pytest.approx(50) and span[1] == 0 for span in spans)
    assert max(y for note in notes for _, y in note.get_points("xy")) < 0


def test_the_kerf_goes_outside_the_outline_and_inside_the_holes():
    document = opened(wedge(), kerf=0.2)
    square, outline = (np.array(entity.get_points("xy")) for entity in on_layer(document, "cut"))
    assert np.ptp(square, axis=0) == pytest.approx([9.8, 9.8])
    assert outline[:, 0].min() == pytest.approx(19.9)
    assert outline[:, 0].max() == pytest.approx(150.1)
    assert on_layer(document, "drill")[0].dxf.radius == pytest.approx(2.4)


@pytest.mark.parametrize("kerf", [0.0, 0.2])
@pytest.mark.parametrize("plate", [gauge(process="cut"), wedge()], ids=["gauge", "wedge"])
def test_a_part_is_measured_back_to_its_nominal_dimensions(plate, kerf):
    found = measure(plate, read_dxf(io.BytesIO(written(plate, kerf)), kerf))
    assert [item.name for item in found] == [item.name for item in plate.dimensions][:-1]
    for item in found:
        assert item.measured == pytest.approx(item.nominal, abs=1e-6)


def test_a_kerf_that_closes_a_hole_is_refused():
    with pytest.raises(ValueError, match="kerf"):
        written(wedge(holes=(circle((130, 10), 0.5).cw(),)), kerf=1.2)


def test_a_turned_part_is_drawn_as_a_section_about_its_centre_line():
    document = opened(gauge(process="turn", thickness=0.0, holes=(), marks=()))
    (section,) = on_layer(document, "section")
    assert section.closed
    assert not on_layer(document, "cut")
    axis = [(0, -65), (0, 65)]
    lines = [note.get_points("xy") for note in on_layer(document, "note") if len(note) == 2]
    assert any(np.allclose(line, axis) for line in lines)


def test_the_same_part_gives_the_same_bytes_whatever_was_written_before(tmp_path):
    alone = written(wedge())
    written(gauge(process="cut"))
    write_dxf(wedge(), tmp_path / "wedge.dxf")
    assert (tmp_path / "wedge.dxf").read_bytes() == alone


@given(plates())
def test_contours_come_back_as_they_were(plate):
    found = read_dxf(io.BytesIO(written(plate)))
    assert found.thickness is None
    assert found.contours[0].vertices == pytest.approx(plate.outline.vertices, abs=1e-9)
    areas = sorted(hole.area for hole in plate.holes)
    assert sorted(contour.area for contour in found.contours[1:]) == pytest.approx(areas)


def test_a_file_without_contours_is_refused():
    stream = io.StringIO()
    ezdxf.new("R2010").write(stream)
    with pytest.raises(ValueError, match="no closed contour"):
        read_dxf(io.BytesIO(stream.getvalue().encode()))


def test_the_kerf_keeps_a_corner_sharp_and_an_arc_round():
    outline = opened(gauge(process="cut"), kerf=0.3)
    rows = np.array(on_layer(outline, "cut")[0].get_points("xyb"))
    start, end = rows[rows[:, 2] != 0][0, :2], rows[(np.flatnonzero(rows[:, 2]) + 1) % len(rows)][0, :2]
    assert np.hypot(*(start - (0, 60))) == pytest.approx(RADIUS - 0.15)
    assert np.hypot(*(end - (0, 60))) == pytest.approx(RADIUS - 0.15)
    thin = part(polygon([(0, 0), (100, 0), (100, 30)]), process="cut")
    assert len(on_layer(opened(thin, kerf=0.3), "cut")[0]) == 3
