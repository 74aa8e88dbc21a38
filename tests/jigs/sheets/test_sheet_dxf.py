import io
from dataclasses import replace
from math import acos, cos, pi, sin

import ezdxf
import numpy as np
import pytest
from ezdxf import bbox, recover
from ezdxf.math import Vec3, bulge_to_arc
from shapely import LineString, Point, Polygon, STRtree

import jigs.files.sheet_dxf as writer
from geometry.plane.contour import Contour, circle, polygon
from geometry.plane.sample import sample
from jigs.files.drawing import Polyline, drawing, without_notes
from jigs.files.sheet_dxf import write_sheet
from jigs.files.sheets.nesting import Placed, Sheet, nest
from jigs.parts.part import Lettering, Line
from tests.geometry.shapes import rotated
from tests.jigs.plates import mouth, wedge
from tests.jigs.sheets.shop import DEVIATION, plate, racked, shop

PLATES = (
    plate("gauge", outline=mouth(38.0), quantity=2, holes=(circle((50, -50), 3).cw(),)),
    wedge(quantity=3, material="sheet, as measured", thickness=12.0),
    plate(
        "lettered", 120, 40, marks=(Lettering("POWER OFF", (5, 10), 5), Line(((0, 30), (120, 30)), "100 %"))
    ),
)


def written(sheet, kerf=0.0):
    stream = io.BytesIO()
    write_sheet(sheet, stream, kerf)
    return stream.getvalue()


def one_sheet(parts=PLATES, **fields):
    (sheet,) = nest(parts, shop(**fields))
    return sheet


def shapes_in(content, layers=("cut", "drill")):
    """The closed shapes of a file, as another library reads them."""
    found = []
    for entity in ezdxf.read(io.StringIO(content.decode())).modelspace():
        if entity.dxf.layer not in layers:
            continue
        if entity.dxftype() == "CIRCLE":
            found.append(Point(entity.dxf.center.x, entity.dxf.center.y).buffer(entity.dxf.radius, 256))
        elif entity.closed:
            found.append(Polygon(outline(entity)))
    return found


def outline(entity):
    """A polyline's points, its arcs in chords; the library's own paths keep to arcs within 0.02 mm only."""
    rows = entity.get_points("xyb")
    for (x, y, bulge), (to_x, to_y, _) in zip(rows, [*rows[1:], rows[0]], strict=True):
        yield x, y
        if bulge:
            centre, start, end, radius = bulge_to_arc((x, y), (to_x, to_y), bulge)
            turn = (end - start) % (2 * pi)
            angles = np.linspace(start, start + turn, 2 + int(turn / acos(1 - DEVIATION / radius)))[1:-1]
            yield from (
                (centre.x + radius * cos(a), centre.y + radius * sin(a))
                for a in angles[:: 1 if bulge > 0 else -1]
            )


def nominal(sheet):
    """All outlines and holes where they should lie."""
    return [
        Polygon(sample(item.contour(contour), DEVIATION))
        for item in sheet.placed
        for contour in (*item.part.holes, item.part.outline)
    ]


@pytest.mark.parametrize("name", ["garland", "sorrel"])
def test_another_library_reads_every_outline_and_hole_where_it_was_laid(name):
    """Without lettering, which is nine tenths of a file."""
    parts, workshop = racked(name)
    for sheet in nest([replace(part, marks=()) for part in parts], workshop):
        found, wanted = shapes_in(written(sheet)), nominal(sheet)
        assert len(found) == len(wanted)
        for one, other in zip(found, wanted, strict=True):
            assert one.area == pytest.approx(other.area, rel=2e-3, abs=DEVIATION * other.length)
            assert one.symmetric_difference(other).area <= 2 * DEVIATION * other.length


def test_with_a_kerf_outlines_are_grown_and_holes_shrunk_by_half_of_it():
    sheet = one_sheet(kerf=0.4)
    for one, other in zip(shapes_in(written(sheet, 0.4)), nominal(sheet), strict=True):
        is_hole = other.area < 1000
        assert one.area == pytest.approx(
            other.buffer(-0.2 if is_hole else 0.2, join_style="mitre").area, rel=2e-3
        )
        assert one.centroid.distance(other.centroid) < 0.3


def test_the_header_says_millimetres_and_the_audit_is_clean():
    document, audit = recover.read(io.BytesIO(written(one_sheet())))
    assert not audit.errors
    assert not audit.fixes
    assert document.header["$INSUNITS"] == 4
    assert {entity.dxf.layer for entity in document.modelspace()} == {"cut", "drill", "engrave", "note"}
    handles = [entity.dxf.handle for entity in document.modelspace()]
    assert len(set(handles)) == len(handles)


def test_arcs_stay_arcs_and_outlines_are_closed():
    document = ezdxf.read(io.StringIO(written(one_sheet()).decode()))
    cut = [e for e in document.modelspace() if e.dxf.layer == "cut"]
    assert all(entity.closed for entity in cut)
    assert (
        sum(any(row[2] for row in entity.get_points("xyb")) for entity in cut) == 2
    )  # the two gauges' mouths
    assert sum(entity.dxftype() == "CIRCLE" for entity in document.modelspace()) == 5


def test_a_parts_lines_on_a_sheet_are_those_of_its_own_file():
    for part in (*PLATES, *(p for p in racked("sorrel")[0] if p.process == "cut")):
        part = replace(part, marks=tuple(m for m in part.marks if getattr(m, "of", 1) == 1))
        own = [shape for shape in drawing(part, 0.2) if shape.layer != "note"]
        here = [shape for shape in writer._lines(part, 0.2) if shape.layer != "note"]
        assert len(own) == len(here)
        for one, other in zip(own, here, strict=True):
            assert (type(one), one.layer, getattr(one, "name", "")) == (
                type(other),
                other.layer,
                getattr(other, "name", ""),
            )
            if hasattr(one, "vertices"):
                assert np.array_equal(one.vertices, other.vertices)
            else:
                assert one == other


@pytest.mark.parametrize("name", ["garland", "tumbler"])
def test_no_name_runs_across_engraving_a_hole_or_an_edge(name):
    """Of each part's lines as a sheet has them; that they lie together there is tested above and below."""
    named = 0
    for part in racked(name)[0]:
        lines = {"note": [], "engrave": [], "cut": [], "drill": []}
        for shape in (
            *without_notes(part),
            *(one for one in writer._lines(part, 0.0) if one.layer == "note"),
        ):
            lines[shape.layer].append(line_of(shape))
        others = [*lines["engrave"], *lines["cut"], *lines["drill"]]
        assert not len(STRtree(others).query(lines["note"], predicate="dwithin", distance=0.5)[0]), part.name
        named += part.process == "cut" and bool(lines["note"])
    assert named > 30


def line_of(shape):
    """A shape of a drawing, curves within DEVIATION."""
    if not isinstance(shape, Polyline):
        return Point(shape.centre).buffer(shape.radius, 64).exterior
    if shape.closed:
        return Polygon(sample(Contour(shape.vertices), DEVIATION)).exterior
    return LineString(shape.vertices[:, :2])


def test_a_name_lies_on_the_note_layer_within_its_part_and_a_small_part_has_its_code_alone():
    def strokes(part):
        sheet = Sheet("one", "sheet", 12.0, (300, 200), False, (Placed(part, 1, 100, 80, 0),))
        document = ezdxf.read(io.StringIO(written(sheet).decode())).modelspace()
        notes = [e for e in document if e.dxf.layer == "note"]
        return [np.array(e.get_points("xy")) for e in notes if min(e.get_points("xy"))[1] > 0]

    points = np.concatenate(strokes(plate("clamp-block-flat", 128, 29)))
    assert (points.min(axis=0) >= (100, 80)).all()
    assert (points.max(axis=0) <= (228, 109)).all()
    whole, code = (len(strokes(plate("clamp-block-flat", *size))) for size in ((128, 29), (24, 14)))
    assert 0 < code < whole
    assert not strokes(plate("clamp-block-flat", 6, 4))


def test_a_sheet_tells_its_size_its_facts_and_what_lies_on_it():
    sheet = one_sheet()
    document = ezdxf.read(io.StringIO(written(sheet).decode()))
    box = bbox.extents(document.modelspace())
    assert Vec3(document.header["$EXTMIN"]).isclose(box.extmin, abs_tol=1e-6)
    assert Vec3(document.header["$EXTMAX"]).isclose(box.extmax, abs_tol=1e-6)
    told = dict(document.header.custom_vars.properties)
    assert told == {
        "Material": "sheet, as measured", "Thickness": "12.0 mm", "Sheet": "900.0 mm x 600.0 mm",
    }  # fmt: skip
    assert sheet.rows == ("2 GA gauge", "3 SW sled-wedge", "LE lettered")


def test_the_sheets_edge_and_a_line_of_fifty_millimetres_are_noted():
    notes = [
        np.array(e.get_points("xy"))
        for e in ezdxf.read(io.StringIO(written(one_sheet()).decode())).modelspace()
        if e.dxf.layer == "note"
    ]
    assert any(len(rows) == 4 and np.ptp(rows, axis=0) == pytest.approx((900, 600)) for rows in notes)
    assert any(len(rows) == 2 and np.ptp(rows, axis=0) == pytest.approx((50, 0)) for rows in notes)


def test_the_same_sheet_gives_the_same_bytes(tmp_path):
    first = written(one_sheet())
    written(one_sheet((plate("other"),)))
    write_sheet(one_sheet(), tmp_path / "sheet.dxf")
    assert (tmp_path / "sheet.dxf").read_bytes() == first


def test_a_file_that_does_not_hold_its_parts_is_an_error(monkeypatch):
    sheet = one_sheet()
    true = writer.dxf_text

    def moved(entities, box, facts):
        return true((entity.replace(" 40\n2.5\n", " 40\n2.5003\n") for entity in entities), box)

    monkeypatch.setattr(writer, "dxf_text", moved)
    with pytest.raises(ValueError, match=r"sled-wedge, copy 1, reads back 0\.0003 mm off"):
        written(sheet)
    monkeypatch.setattr(
        writer, "dxf_text", lambda entities, box, facts: true((e for e in entities if "CIRCLE" not in e), box)
    )
    with pytest.raises(ValueError, match="outlines and holes were written"):
        written(sheet)


def test_a_part_out_of_its_place_or_bent_is_an_error(monkeypatch):
    sheet = one_sheet()
    true = writer.contours_in

    def bent(content):
        return [replace(c, vertices=c.vertices * (1, 1, 1.0001)) for c in true(content)]

    monkeypatch.setattr(writer, "contours_in", bent)
    with pytest.raises(ValueError, match="gauge"):
        written(sheet)
    monkeypatch.setattr(writer, "contours_in", lambda content: [c.moved(0.001, 0) for c in true(content)])
    with pytest.raises(ValueError, match=r"0\.001 mm off"):
        written(sheet)


def test_a_kerf_that_closes_a_hole_is_refused():
    with pytest.raises(ValueError, match="kerf"):
        written(one_sheet((plate(holes=(circle((20, 20), 0.5).cw(),)),)), kerf=1.2)


def test_turned_copies_are_written_turned():
    part = plate("flag", outline=polygon([(0, 0), (60, 0), (60, 20)]))
    for turns in range(4):
        (shape,) = shapes_in(
            written(Sheet("s", "m", 12.0, (300, 200), False, (Placed(part, 1, 100, 90, turns),)))
        )
        wanted = rotated(part.outline, turns * pi / 2).moved(100, 90)
        assert shape.symmetric_difference(Polygon(wanted.points)).area < 1e-3
