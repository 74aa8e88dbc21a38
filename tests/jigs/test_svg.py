import io
from dataclasses import replace
from math import pi
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from svgelements import SVG, Arc, Close, Shape
from svgelements import Path as SvgPath
from svgpathtools import Arc as OtherArc
from svgpathtools import svg2paths

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
    cut = [e for e in picture.elements() if isinstance(e, svgelements.Path) and e.stroke == "#000000"]
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


def test_nothing_is_drawn_but_what_is_cut_and_lettered_each_in_its_colour():
    colours = {"engrave": "#c06000", "drill": "#008080", "cut": "#102030"}
    stream = io.BytesIO()
    write_svg(replace(gauge(), facts=(("Job", "Hoop & Co"), ("Quantity", "1"))), stream, 0.2, colours)
    root = ElementTree.fromstring(stream.getvalue())
    title, desc, *groups = root
    assert title.text == f"{gauge().code} {gauge().name}"
    assert desc.text == "Job: Hoop & Co; Quantity: 1"
    assert [(group.get("id"), group.get("stroke")) for group in groups] == [
        (layer, colour) for layer, colour in colours.items() if layer in {g.get("id") for g in groups}
    ]
    assert groups[-1].get("id") == "cut"  # the outline last


def enclosed(segments, arcs):
    """Area inside a closed chain of segments, each with `point(t)`, straight but for those of the type `arcs`."""
    steps = [np.linspace(0, 1, 60 if isinstance(s, arcs) else 2) for s in segments]
    points = [s.point(t) for s, own in zip(segments, steps, strict=True) for t in own]
    x, y = np.array([(p.real, p.imag) for p in points]).T
    return abs(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


def by_svgelements(text):
    """Area of each closed path and circle in mm2 of the page as it is printed."""
    shapes = SVG.parse(io.StringIO(text), ppi=25.4).elements()
    paths = [SvgPath(shape) for shape in shapes if isinstance(shape, Shape)]
    return sorted(enclosed(path[1:], Arc) for path in paths if isinstance(path[-1], Close))


def by_svgpathtools(text):
    paths, attributes = svg2paths(io.StringIO(text))
    pairs = zip(paths, attributes, strict=True)
    return sorted(enclosed(list(path), OtherArc) for path, own in pairs if own.get("d", "Z")[-1] == "Z")


@given(plates())
def test_two_readers_find_every_contour_closed_and_of_its_area(plate):
    text = written(plate).decode()
    wanted = sorted(abs(contour.area) for contour in (plate.outline, *plate.holes))
    assert by_svgelements(text) == pytest.approx(wanted, rel=1e-3)
    assert by_svgpathtools(text) == pytest.approx(wanted, rel=1e-3)


def test_the_kerf_is_half_outside_the_outline_and_half_inside_holes():
    wide = io.BytesIO()
    write_svg(wedge(), wide, 0.4)
    grown = read_svg(io.BytesIO(wide.getvalue())).contours
    plain = read(wedge()).contours
    assert grown[0].bounds[1] == pytest.approx(plain[0].bounds[1] - 0.2, abs=1e-6)
    assert max(c.area for c in grown[1:]) == pytest.approx(-pi * (2.5 - 0.2) ** 2, rel=1e-6)


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
