"""Drawings at full size and SVG of cut parts, as other programs show, print and read them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from svgpathtools import svg2paths

from jigs.files.svg import write_svg
from jigs.paper.full_size import full_size
from jigs.render.pdf.typeset import typeset
from jigs.sets.rack import rack
from tests.clients.test_librecad import grey, longest_run
from tests.examples import parts_of_example, plan_of_example
from tests.render.drawn_pdf import reader, strokes

RULER = {"garland": 100.0, "quoit": 101.6}
DPI = 254
OUT = 0.15  # mm: a pixel and a half


@pytest.fixture(scope="module", params=RULER)
def drawn(request, tmp_path_factory):
    plan = plan_of_example(request.param)
    parts = rack(plan)[0]
    file = tmp_path_factory.mktemp("paper") / "full-size.pdf"
    file.write_bytes(*typeset(full_size(parts, plan.job)))
    return RULER[request.param], file


def shown(ink, row, around=3):
    """The longest run in any of a few rows."""
    return max(longest_run(ink[k]) for k in range(row - around, row + around + 1)) / DPI * 25.4


def test_poppler_draws_both_lines_of_every_page_at_their_length(run, drawn, tmp_path):
    long, file = drawn
    run("pdftoppm", "-gray", "-r", DPI, "-l", 12, file, tmp_path / "page")
    pages = sorted(tmp_path.glob("page-*.pgm"))
    assert len(pages) == 12
    for page in pages:
        ink, end = grey(page) < 160, round(10 / 25.4 * DPI)
        assert shown(ink, len(ink) - end) == pytest.approx(long, abs=OUT), page.name
        assert shown(ink.T, ink.shape[1] - end) == pytest.approx(long, abs=OUT), page.name


def test_the_browsers_own_engine_draws_them_so_too(drawn):
    """PDFium is what Chromium shows and prints a PDF with."""
    pdfium = pytest.importorskip("pypdfium2")
    long, file = drawn
    document = pdfium.PdfDocument(file)
    for number in (0, 2, 5, len(document) - 1):
        picture = document[number].render(scale=DPI / 72, grayscale=True).to_numpy()
        ink, end = picture.reshape(picture.shape[:2]) < 160, round(10 / 25.4 * DPI)
        assert shown(ink, len(ink) - end) == pytest.approx(long, abs=OUT)
        assert shown(ink.T, ink.shape[1] - end) == pytest.approx(long, abs=OUT)


@pytest.fixture(scope="module")
def cut(tmp_path_factory):
    """Cut parts as SVG, with round holes, arcs and slots among them."""
    folder = tmp_path_factory.mktemp("laser")
    parts = {p.name: p for p in parts_of_example("garland")}
    chosen = [parts[name] for name in ("segment-cam", "sled-base", "support-board-layer", "check-corner")]
    for part in chosen:
        write_svg(part, folder / f"{part.name}.svg")
    return folder, chosen


def test_inkscape_finds_each_outline_at_its_size_and_area(run, cut):
    """All in one run; it writes each again beside it."""
    folder, parts = cut
    files = [folder / f"{part.name}.svg" for part in parts]
    run(
        "inkscape",
        "--actions=select-all:all;object-to-path",
        "--export-type=svg",
        "--export-plain-svg",
        *files,
    )
    for part in parts:
        paths, _ = svg2paths(str(folder / f"{part.name}_out.svg"))
        outline = max((p for p in paths if p.isclosed()), key=lambda p: abs(enclosed(p)))
        x0, x1, y0, y1 = outline.bbox()
        left, low, right, high = part.outline.bounds
        assert (x1 - x0, y1 - y0) == pytest.approx((right - left, high - low), abs=0.01), part.name
        assert abs(enclosed(outline)) == pytest.approx(part.outline.area, rel=1e-3), part.name


def enclosed(path):
    points = np.array([segment.point(t) for segment in path for t in np.linspace(0, 1, 40)])
    x, y = points.real, points.imag
    return (x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


def test_chromium_prints_each_outline_at_its_size(chromium, cut):
    """All in one run, a page each."""
    folder, parts = cut
    svgs = [(folder / f"{part.name}.svg").read_text("utf-8").partition("?>")[2] for part in parts]
    page = chromium.new_page()
    page.set_content(
        "<style>@page {size: 700mm 700mm; margin: 0} body {margin: 0} div {break-after: page}</style>"
        + "".join(f"<div>{svg}</div>" for svg in svgs)
    )
    pages = reader(page.pdf(prefer_css_page_size=True)).pages
    page.close()
    for part, printed in zip(parts, pages, strict=True):
        lines = strokes(printed)
        left, low, right, high = part.outline.bounds
        sizes = [(line.across, line.down) for line in lines]
        off = min(math.dist(size, (right - left, high - low)) for size in sizes)
        assert off < 0.05, part.name
