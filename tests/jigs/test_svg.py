import io
from dataclasses import replace
from math import pi

import numpy as np
import pytest
from hypothesis import given, settings

from geometry.plane.contour import circle, polygon
from jigs.files.svg import read_svg, write_svg
from jigs.parts.readback import measure
from tests.jigs.plates import gauge, part, plates, wedge


def written(plate):
    stream = io.BytesIO()
    write_svg(plate, stream)
    return stream.getvalue()


def read(plate):
    return read_svg(io.BytesIO(written(plate)))


def on_paper(plate):
    return replace(plate, process="paper", thickness=0.0)


PLATES = [on_paper(gauge()), on_paper(wedge())]


@pytest.mark.parametrize("plate", PLATES, ids=["gauge", "wedge"])
def test_a_part_is_measured_back_to_its_nominal_dimensions(plate):
    for item in measure(plate, read(plate)):
        assert item.measured == pytest.approx(item.nominal, abs=1e-6)


@given(plates())
@settings(max_examples=25, deadline=None)
def test_contours_come_back_with_their_areas_and_bounds(plate):
    found = read(on_paper(plate)).contours
    assert found[0].area == pytest.approx(plate.outline.area, rel=1e-8)
    assert found[0].bounds == pytest.approx(plate.outline.bounds, abs=1e-6)
    assert sorted(hole.area for hole in found[1:]) == pytest.approx(
        sorted(hole.area for hole in plate.holes), rel=1e-6
    )


def test_large_and_small_arcs_either_way_come_back():
    for bulge in (0.05, 0.9, 1.0, 3.0):
        for sign in (1, -1):
            shape = polygon([(0, 0), (40, 0), (40, 90), (0, 90)]).vertices.copy()
            shape[0, 2] = sign * (bulge if sign > 0 else min(bulge, 0.9))
            plate = on_paper(part(type(polygon([(0, 0), (1, 0), (0, 1)]))(shape)))
            assert read(plate).contours[0].area == pytest.approx(plate.outline.area, rel=1e-8)


def test_the_page_is_in_millimetres_one_unit_to_each():
    svgelements = pytest.importorskip("svgelements")
    text = written(PLATES[0]).decode()
    picture = svgelements.SVG.parse(io.StringIO(text), reify=False)
    width, height = picture.values["width"], picture.values["height"]
    box = [float(value) for value in picture.values["viewBox"].split()]
    assert (width, height) == (f"{box[2]:g}mm", f"{box[3]:g}mm")


@pytest.mark.parametrize("plate", PLATES, ids=["gauge", "wedge"])
def test_a_second_reader_finds_the_outline_at_full_size(plate):
    svgelements = pytest.importorskip("svgelements")
    picture = svgelements.SVG.parse(io.StringIO(written(plate).decode()), reify=True, ppi=96)
    cut = [e for e in picture.elements() if isinstance(e, svgelements.Path) and e.stroke == "#ff0000"]
    boxes = np.array([path.bbox() for path in cut]) * 25.4 / 96
    largest = max(boxes.tolist(), key=lambda box: box[2] - box[0])
    x0, y0, x1, y1 = plate.outline.bounds
    assert (largest[2] - largest[0], largest[3] - largest[1]) == pytest.approx((x1 - x0, y1 - y0), abs=1e-3)


def test_a_third_reader_finds_true_arcs_of_the_nominal_radius(tmp_path):
    svgpathtools = pytest.importorskip("svgpathtools")
    (tmp_path / "gauge.svg").write_bytes(written(PLATES[0]))
    paths, attributes = svgpathtools.svg2paths(str(tmp_path / "gauge.svg"))
    arcs = [s for path in paths for s in path if isinstance(s, svgpathtools.Arc) and s.radius.real == 38]
    assert sum(abs(arc.delta) for arc in arcs) == pytest.approx(180, abs=1e-4)
    for arc in arcs:
        assert arc.center == pytest.approx(-60j, abs=1e-6)
    assert len(attributes) == len(paths)


def test_lines_of_fifty_millimetres_run_both_ways():
    svgpathtools = pytest.importorskip("svgpathtools")
    paths, _ = svgpathtools.svg2paths(io.StringIO(written(PLATES[0]).decode()))
    spans = {
        (round(abs(s.end.real - s.start.real), 6), round(abs(s.end.imag - s.start.imag), 6))
        for p in paths
        for s in p
    }
    assert {(50, 0), (0, 50)} <= spans


def test_the_page_holds_everything_drawn():
    svgpathtools = pytest.importorskip("svgpathtools")
    for plate in PLATES:
        text = written(plate).decode()
        box = [float(value) for value in text.split('viewBox="')[1].split('"')[0].split()]
        paths, _ = svgpathtools.svg2paths(io.StringIO(text))
        for path in paths:
            x0, x1, y0, y1 = path.bbox()
            assert box[0] < x0 <= x1 < box[0] + box[2]
            assert box[1] < y0 <= y1 < box[1] + box[3]


def test_the_same_part_gives_the_same_bytes():
    assert written(on_paper(wedge())) == written(on_paper(wedge()))


def test_a_round_hole_is_a_circle():
    plate = on_paper(wedge())
    assert b'<circle cx="130" cy="-10" r="2.5"/>' in written(plate)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (lambda text: text.replace(b'mm" height', b'in" height'), "millimetre"),
        (
            lambda text: text.replace(b'id="cut"', b'id="note"').replace(b'id="drill"', b'id="note"'),
            "no closed",
        ),
        (lambda text: text[:-9], "no SVG"),
    ],
)
def test_a_file_that_is_not_as_written_is_refused(change, message):
    with pytest.raises(ValueError, match=message):
        read_svg(io.BytesIO(change(written(on_paper(wedge())))))


def test_a_full_circle_as_an_outline_comes_back():
    plate = on_paper(part(circle((10, 20), 150)))
    assert read(plate).contours[0].area == pytest.approx(pi * 150**2, rel=1e-9)
