"""full-size.pdf read back: its pages, what is drawn on them, and tiles put together by their crosses alone."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
import shapely
from pypdf import PageObject

from jigs.parts.part import Part
from jigs.sets.rack import rack
from jigs.sets.shop_book import paper_files
from jigs.words.file_names import FULL_SIZE, LABELS, RINGS, TAPES
from tests.examples import plan_of_example
from tests.render.drawn_pdf import Stroke, page_size, read_pages, reader, strokes

JOBS = ("garland", "tumbler")  # a ring in mm, a vessel in inches
PAPER = {"garland": (210.0, 297.0), "tumbler": (215.9, 279.4)}  # ISO 216 and ANSI, from memory
RULER = {"garland": 100.0, "tumbler": 101.6}
EDGE = 0.25  # mm, of the lines of edges and rulers
OUT = 0.05  # mm
each = pytest.mark.parametrize("name", JOBS)


@cache
def planned(name: str):
    plan = plan_of_example(name)
    return plan, [part for part in rack(plan)[0] if part.family != "coupon"]


@cache
def files(name: str) -> dict[str, bytes]:
    return paper_files(*planned(name))


@cache
def pages(name: str, file: str = FULL_SIZE) -> list[tuple[PageObject, list[Stroke]]]:
    return [(page, strokes(page)) for page in reader(files(name)[file]).pages]


@cache
def texts(name: str) -> list[str]:
    return [" ".join(page.split()) for page in read_pages(files(name)[FULL_SIZE])]


@cache
def places(name: str) -> dict[str, int]:
    """The first page of each part by its bookmark, from 0."""
    book = reader(files(name)[FULL_SIZE])
    return {mark.title.split()[1]: book.get_destination_page_number(mark) for mark in book.outline[1]}


@each
@pytest.mark.parametrize("file", [FULL_SIZE, LABELS, TAPES])
def test_every_page_is_of_the_paper_and_has_a_line_to_measure_by_either_way(name: str, file: str) -> None:
    for page, drawn in pages(name, file):
        width, height = page_size(page)
        assert sorted((width, height)) == pytest.approx(PAPER[name], abs=0.01)
        foot = [s for s in drawn if s.down < 1e-3 and s.points[0, 1] == pytest.approx(height - 10, abs=0.01)]
        side = [s for s in drawn if s.across < 1e-3 and s.points[0, 0] == pytest.approx(width - 10, abs=0.01)]
        assert max(s.across for s in foot) == pytest.approx(RULER[name], abs=0.02)
        assert max(s.down for s in side) == pytest.approx(RULER[name], abs=0.02)


@each
def test_ticks_lie_inside_the_ends_of_their_line(name: str) -> None:
    for page, drawn in pages(name):
        foot = page_size(page)[1] - 10
        ticks = [
            s for s in drawn if s.across < 1e-3 and s.points[:, 1].mean() == pytest.approx(foot, abs=1e-3)
        ]
        ends = sorted(s.points[0, 0] for s in ticks if s.down == pytest.approx(3, abs=1e-3))
        assert ends[-1] - ends[0] + EDGE == pytest.approx(RULER[name], abs=0.02)


@each
@pytest.mark.parametrize("file", [FULL_SIZE, LABELS, RINGS, TAPES])
def test_no_viewer_scales_it_and_its_fonts_are_in_it(name: str, file: str) -> None:
    whole = reader(files(name)[file])
    assert whole.root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"
    for page in whole.pages:
        for font in page["/Resources"]["/Font"].values():
            (inner,) = font.get_object()["/DescendantFonts"]
            assert {"/FontFile2", "/FontFile3"} & inner.get_object()["/FontDescriptor"].get_object().keys()


def test_the_same_set_gives_the_same_bytes() -> None:
    assert paper_files(*planned("garland")) == files("garland")


@each
def test_every_part_has_its_bookmark_and_says_how_many_of_what(name: str) -> None:
    parts = planned(name)[1]
    assert list(places(name)) == [part.name for part in parts]
    for part in parts:
        words = texts(name)[places(name)[part.name]]
        assert f"{part.code} {part.name}" in words
        assert f"Make {part.quantity}. {part.material[0].upper()}{part.material[1:]}" in words
        assert "\ufffd" not in words


@each
def test_the_index_names_each_part_with_its_page(name: str) -> None:
    first = min(places(name).values())
    words = " ".join(texts(name)[:first])
    for part in planned(name)[1]:
        assert f"{part.code} {part.name} {part.quantity} " in words
    assert str(max(places(name).values()) + 1) in words


def outlines(drawn: list[Stroke]) -> list[Stroke]:
    """Edges: closed lines as wide as edges are."""
    return [
        s
        for s in drawn
        if s.width == pytest.approx(EDGE, abs=1e-3) and np.ptp(s.points[[0, -1]], axis=0).max() < 1e-3
    ]


@each
def test_drawings_that_share_a_page_keep_to_it_and_apart(name: str) -> None:
    for page, drawn in pages(name):
        width, height = page_size(page)
        boxes = [
            shapely.box(*s.points.min(axis=0), *s.points.max(axis=0))
            for s in outlines(drawn)
            if s.clip[0] == 0
        ]
        outer = [a for a in boxes if not any(b.contains(a) and b is not a for b in boxes)]
        assert all(shapely.box(10, 10, width - 14, height - 17).contains(box) for box in outer)
        assert not any(a.intersects(b) for k, a in enumerate(outer) for b in outer[:k])


def crosses(drawn: list[Stroke]) -> list[tuple[float, float]]:
    level = [s.points.mean(axis=0) for s in drawn if s.across == pytest.approx(8, abs=1e-3) and s.down < 1e-3]
    upright = [
        s.points.mean(axis=0) for s in drawn if s.down == pytest.approx(8, abs=1e-3) and s.across < 1e-3
    ]
    return [(x, y) for x, y in level if any(np.hypot(x - u, y - v) < 1e-3 for u, v in upright)]


Marks = list[tuple[float, float]]


def shift(one: Marks, other: Marks, axis: int) -> np.ndarray:
    """How far a second page is moved to have the crosses at its near side on those at the first one's far side."""
    far, near = max(p[axis] for p in one), min(p[axis] for p in other)
    ends = [sorted(p for p in marks if abs(p[axis] - at) < 0.01) for marks, at in ((one, far), (other, near))]
    found = np.array(ends[0]) - np.array(ends[1])
    assert len(found) >= 2
    assert np.ptp(found, axis=0).max() < 0.01, "the crosses of neighbours do not lie on each other"
    return found[0]


def tiles(name: str, part: Part) -> list[list[Stroke]]:
    """What the pages of a part draw, those it has for itself alone."""
    found = []
    for number in range(places(name)[part.name], len(pages(name))):
        if f"{part.code} {part.name}" not in texts(name)[number]:
            break
        found.append(pages(name)[number][1])
    return found


def put_together(sheets: list[list[Stroke]]) -> shapely.Geometry:
    """The edges that pages show, each page laid on its neighbours by the crosses."""
    marks, origins, row, seen = [crosses(drawn) for drawn in sheets], [np.zeros(2)], 0, []
    for k, drawn in enumerate(sheets):
        edges = [s for s in drawn if s.clip[0] > 0 and s.width == pytest.approx(EDGE, abs=1e-3)]
        left = edges[0].clip[0]
        if k and any(x < left + 6 for x, _ in marks[k]):
            origins.append(origins[k - 1] + shift(marks[k - 1], marks[k], 0))
        elif k:
            origins.append(origins[row] + shift(marks[row], marks[k], 1))
            row = k
        for s in edges:
            shown = shapely.LineString(s.points).intersection(shapely.box(*s.clip))
            seen.append(shapely.transform(shown, lambda points, k=k: points + origins[k]))
    return shapely.union_all(seen)


def edges_of(part: Part) -> shapely.Geometry:
    """Outline and holes by the arcs' own formula, y down."""
    loops = []
    for contour in (part.outline, *part.holes):
        points = [e.point_at(t) for e in contour.edges() for t in np.linspace(0, 1, 300 if e.is_arc else 2)]
        loops.append(shapely.LineString([(x, -y) for x, y in points]))
    return shapely.MultiLineString(loops)


def apart(one: shapely.Geometry, other: shapely.Geometry) -> float:
    """The worst distance, both ways."""
    rows = ((one, other), (other, one))
    points = [(shapely.points(shapely.get_coordinates(shapely.segmentize(a, 2.0))), b) for a, b in rows]
    return max(float(shapely.distance(p, b).max()) for p, b in points)


@each
def test_sheets_laid_on_each_other_by_their_crosses_give_the_part(name: str) -> None:
    several = 0
    for part in planned(name)[1]:
        sheets = tiles(name, part)
        if len(sheets) > 1:
            several += 1
            found, wanted = put_together(sheets), edges_of(part)
            x, y = (np.array(a.bounds[:2]) for a in (wanted, found))
            moved = shapely.transform(found, lambda points, by=x - y: points + by)
            assert apart(moved, wanted) < OUT, part.name
    assert several >= 3


def _size(line: shapely.Geometry) -> tuple[float, float]:
    x0, y0, x1, y1 = line.bounds
    return x1 - x0, y1 - y0


@pytest.mark.parametrize("name", ["garland"])
def test_a_part_on_one_page_is_drawn_as_it_is(name: str) -> None:
    """Each outline is looked for among the closed lines of its page by its size, then compared."""
    for part in planned(name)[1]:
        if len(tiles(name, part)) > 1:
            continue
        wanted = shapely.LineString(edges_of(part).geoms[0])
        fits = []
        for line in outlines(pages(name)[places(name)[part.name]][1]):
            found = shapely.LineString(line.points)
            if np.abs(np.subtract(_size(found), _size(wanted))).max() > 2 * OUT:
                continue
            by = np.array(wanted.bounds[:2]) - np.array(found.bounds[:2])
            fits.append(apart(shapely.transform(found, lambda points, by=by: points + by), wanted))
        assert min(fits, default=1.0) < OUT, part.name
