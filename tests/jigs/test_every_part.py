"""Every part of every job in configs/, torus or vessel: sound, told, legible, and its file as other readers have it."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path

import ezdxf
import numpy as np

from jigs.parts.part import Part
from jigs.parts.probes import ProfileForm
from tests.jigs.inspection import faults
from tests.jigs.shops import TORI, VESSELS, bulged, document, drawn, each_job, mesh, shop
from tests.unset import unlettered


@each_job
def test_every_part_can_be_made_and_its_marks_lie_on_it(path):
    assert [fault for part in shop(path).parts for fault in faults(part)] == []


@each_job
def test_every_part_says_what_it_is_for_of_what_and_how_many(path):
    parts = shop(path).parts
    assert [name for name, count in Counter(part.name for part in parts).items() if count > 1] == []
    for part in parts:
        assert part.purpose, part.name
        assert part.material, part.name
        assert part.process in ("print", "cut", "turn")
        assert part.quantity >= 1
        assert part.dimensions, part.name
        assert len({dimension.name for dimension in part.dimensions}) == len(part.dimensions), part.name
        for dimension in part.dimensions:
            without = isinstance(dimension.probe, ProfileForm)
            assert dimension.value == 0 if without else dimension.value > 0, part.name


@each_job
def test_raised_text_is_large_enough_for_the_nozzle(path):
    nozzle = shop(path).plan.job.workshop.printer.nozzle
    for part in shop(path).of("print"):
        heights = [mark.height for mark in part.marks if hasattr(mark, "height")]
        assert part.mark_width >= 1.5 * nozzle, part.name  # no slicer drops it as a single line
        assert min(heights) >= 4 * part.mark_width, part.name


@each_job
def test_every_mesh_is_one_closed_body_the_right_way_out(path):
    """A third of them, as the next job another: the writer itself holds each mesh against this."""
    for part in shop(path).of("print")[which(path) % 3 :: 3]:
        seen = mesh(part)
        assert seen.is_watertight, part.name
        assert seen.is_winding_consistent, part.name
        assert seen.body_count == 1, part.name
        assert seen.volume > 0, part.name


@cache
def kinds() -> list[Part]:
    """One part of each kind that any job draws, unlettered: to read all of each job as ezdxf does takes long."""
    found = dict[str, Part]()
    for path in (*TORI, *VESSELS):
        for part in drawn(path):
            found.setdefault(re.sub(r"[-\d]", "", part.name), unlettered(part))
    return [*found.values()]


def which(path: Path) -> int:
    return [*TORI, *VESSELS].index(path)


def test_drawings_are_clean_and_in_millimetres_and_their_outlines_closed():
    assert len(kinds()) > 100
    for part in kinds():
        audit = document(part).audit()
        assert not audit.errors, part.name
        assert not audit.fixes, part.name
        assert document(part).header["$INSUNITS"] == 4
        assert document(part).header["$MEASUREMENT"] == 1
        cut = [e for e in document(part).modelspace() if e.dxf.layer in ("cut", "drill", "section")]
        assert len(cut) == 1 + len(part.holes), part.name
        assert all(e.dxftype() == "CIRCLE" or e.closed for e in cut), part.name


def test_every_arc_of_a_part_is_an_arc_in_its_drawing():
    checked = 0
    for part in kinds():
        wanted = [(*e.centre, e.radius) for c in (part.outline, *part.holes) for e in c.edges() if e.is_arc]
        found = np.array([*bulged(document(part)), *circled(document(part))]).reshape(-1, 3)
        for arc in wanted:
            # A flat arc's centre is far off: what its file rounds by a millionth moves it by much more.
            assert (np.abs(found - arc).max(axis=1) <= 1e-6 * arc[2] ** 2 + 1e-4).any(), part.name
            checked += 1
    assert checked > 500


def circled(drawing: ezdxf.document.Drawing) -> list[tuple[float, float, float]]:
    circles = drawing.modelspace().query("CIRCLE")
    return [(c.dxf.center.x, c.dxf.center.y, c.dxf.radius) for c in circles]


@each_job
def test_no_drawing_stands_in_for_an_arc_with_chords(path):
    """A run of many short chords with small turns would be one."""
    most = 60 if path in TORI else 100
    for part in drawn(path):
        for contour in (part.outline, *part.holes):
            chords = [edge for edge in contour.edges() if not edge.is_arc]
            assert sum(edge.length < 1.0 for edge in chords) <= 2, part.name
            assert len(chords) <= 40, part.name
            assert len(contour) <= most, part.name
