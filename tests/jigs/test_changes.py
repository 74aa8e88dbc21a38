"""Which old jigs are now wrong: a whole working edge is judged by how far it lies from the new one."""

from __future__ import annotations

import io
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from geometry.plane.contour import Contour, circle, polygon
from geometry.readback.free_edge import FreeEdge
from jigs.asked.job_shop import Process
from jigs.files.formats import FORMATS
from jigs.parts.part import Dimension, Lettering, Line, Part
from jigs.parts.probes import EdgeGap, EdgeLength, Extent, ProfileForm, Thickness
from jigs.parts.readback import ReadBack
from jigs.sets.changes import LENGTH_TOLERANCE, Difference, difference, judged_by
from jigs.words.lengths import Unit, parse_length

EDGE = ((40.0, 0.0, 0.1), (60.0, 50.0, -0.05), (55.0, 90.0, 0.0))  # with arcs, up


def gauge(out: float = 0.0, up: float = 0.0, back: float = 120.0, process: Process = "print") -> Part:
    """A plate whose edge lies `out` farther from the axis than EDGE, all of it `up` higher."""
    rows = tuple((x + out, y + up, bulge) for x, y, bulge in EDGE)
    down = [(*rows[k][:2], -rows[k - 1][2] if k else 0.0) for k in (2, 1, 0)]
    outline = Contour(np.array([*down, (back, up, 0.0), (back, 90.0 + up, 0.0)]))
    return Part(
        name="gauge",
        purpose="profile",
        process=process,
        material="PLA",
        outline=outline,
        thickness=4.0,
        dimensions=(Dimension("edge, out by", 0.0, ProfileForm(rows)), Dimension("width", 80.0, Extent("x"))),
    )


def against(new: Part, old: Part, file: bool = True, unit: Unit = "mm") -> Difference:
    """What is said of the old part, as it was written, when the new one is made."""
    entry: dict[str, Any] = {
        "dimensions": [{"name": d.name, "value": d.value} for d in old.dimensions],
        "quantity": old.quantity,
        **judged_by(old, 0.0),
    }
    return difference(new, entry, written(old) if file else None, unit)


def written(part: Part) -> ReadBack:
    stream = io.BytesIO()
    FORMATS[part.process].write(part, stream, 0.0)
    return FORMATS[part.process].read(io.BytesIO(stream.getvalue()), 0.0)


@pytest.mark.parametrize("process", ["print", "cut", "paper"])
@pytest.mark.parametrize("out", [0.08, -0.4, 2.0])
def test_an_edge_that_has_moved_is_wrong_by_as_much(out, process):
    found = against(gauge(out, process=process), gauge(process=process))
    assert found.wrong
    (told,) = found.reasons
    assert told.startswith("edge, out by ")
    assert float(told.split()[3]) == pytest.approx(abs(out), abs=0.016)


def test_an_edge_that_has_moved_by_less_than_the_tolerance_is_told_and_still_serves():
    found = against(gauge(0.7 * LENGTH_TOLERANCE), gauge())
    assert not found.wrong
    assert float(found.within[0].split()[3]) == pytest.approx(0.7 * LENGTH_TOLERANCE, abs=0.01)


def stick(width: float, works_to: float = 0.02) -> Part:
    half = width / 2
    gap = Dimension("step 1", width, EdgeGap((half, 10.0), (-half, 10.0)))
    outline = polygon([(-half, 0.0), (half, 0.0), (half, 20.0), (-half, 20.0)])
    return replace(gauge(), outline=outline, dimensions=(gap,), works_to=works_to)


@pytest.mark.parametrize(
    ("thousandths", "unit", "works_to", "wrong"),
    [(0.9, "in", 0.02, False), (1.1, "in", 0.02, True), (0.9, "in", 0.015, True), (0.9, "mm", 0.02, True)],
)
def test_a_width_is_judged_by_what_callipers_show(thousandths, unit, works_to, wrong):
    """0.02 mm is 0.0008 in: a stick was called wrong that nobody can tell from a right one."""
    old, new = (stick(mm, works_to) for mm in (95.0, 95.0 + thousandths * 0.0254))
    assert against(new, old, unit=unit).wrong == wrong


def test_an_edge_is_judged_alike_in_inches_for_it_may_be_out_at_one_end():
    top = EdgeLength((0.0, 20.0))
    old, new = (
        replace(stick(mm), dimensions=(Dimension("top", mm, top),)) for mm in (95.0, 95.0 + 0.9 * 0.0254)
    )
    assert against(new, old, unit="in").wrong


@pytest.mark.parametrize("process", ["print", "cut"])
def test_an_edge_that_is_the_same_is_not_told_whatever_its_plate_is(process):
    found = against(gauge(back=130.0), gauge())
    assert found == Difference("gauge", (), ())
    assert against(gauge(process=process), gauge(process=process)) == Difference("gauge", (), ())


def test_a_bulge_alone_is_seen():
    old = gauge()
    rows = ((40.0, 0.0, 0.11), *EDGE[1:])
    new = replace(old, dimensions=(Dimension("edge, out by", 0.0, ProfileForm(rows)),))
    sagitta = (0.11 - 0.1) * np.hypot(20.0, 50.0) / 2
    assert float(against(new, old).reasons[0].split()[3]) == pytest.approx(sagitta, abs=0.016)


def test_heights_counted_from_another_place_change_no_edge():
    assert not against(gauge(up=7.0), gauge()).wrong
    assert against(gauge(out=1.0, up=7.0), gauge()).wrong


def test_a_longer_edge_is_wrong():
    """Where the new edge goes on, an old one has none."""
    old = gauge()
    rows = (*EDGE[:2], (55.0, 90.0, 0.0), (55.0, 96.0, 0.0))
    new = replace(old, dimensions=(Dimension("edge, out by", 0.0, ProfileForm(rows)),))
    assert against(new, old).wrong


def test_without_the_old_file_nothing_is_said_of_its_edge():
    assert against(gauge(2.0), gauge(), file=False) == Difference("gauge", (), ())


def test_a_plate_whose_witness_lines_have_moved_is_wrong_and_one_whose_others_have_is_not():
    for witness in (True, False):
        old, new = (
            replace(gauge(), marks=(Line(((70.0, y), (90.0, y)), "ply", witness=witness),))
            for y in (20.0, 21.0)
        )
        found = against(new, old)
        assert found.wrong == witness
        assert found.reasons == (("its witness lines lie elsewhere",) if witness else ())
        assert not against(old, old).wrong


def thick(mm: float) -> Part:
    return replace(gauge(), dimensions=(Dimension("land", mm, Thickness()),), thickness=mm)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_size_is_told_in_the_jobs_unit_as_it_was_as_it_is_and_by_how_much(unit):
    (told,) = against(thick(58.664), thick(57.070), unit=unit).reasons
    assert told.startswith("land: ")
    was, now = told.removeprefix("land: ").partition(" (")[0].split(" -> ")
    more = told.partition(" (")[2].removesuffix(")")
    assert more.startswith("+")
    assert [text.split()[-1] for text in (was, now, more)] == [unit] * 3
    lengths = [parse_length(text.removeprefix("+"), "mm") for text in (was, now, more)]
    assert lengths == pytest.approx([57.070, 58.664, 1.594], abs=0.013)
    assert "(-" in against(thick(57.070), thick(58.664), unit=unit).reasons[0]


def test_an_edge_and_an_outline_are_told_in_inches_in_a_job_in_inches():
    assert against(gauge(2.54), gauge(), unit="in").reasons == ("edge, out by 0.100 in",)
    wider, old = (replace(gauge(back=back, process="cut"), dimensions=()) for back in (122.54, 120.0))
    assert against(wider, old, unit="in").reasons == ("its edges or holes are out by up to 0.100 in",)
    assert against(wider, old).reasons == ("its edges or holes are out by up to 2.54 mm",)


def plate(longer: float = 0.0, title: str = "HOOP", sheet: float = 12.0, quantity: int = 1) -> Part:
    """A wedge whose thick end is free."""
    outline = polygon([(0, 0), (100 + longer, 0), (100 + longer, 24 + 0.2 * longer), (0, 4)])
    return Part(
        name="sled-wedge",
        purpose="second cut",
        process="cut",
        material="sheet, as measured",
        outline=outline,
        thickness=sheet,
        holes=(circle((90 + longer, 8), 2.5).cw(),),
        marks=(Lettering(title, (40, 3), 3.0),),
        dimensions=(
            Dimension("thickness at the stop", 4.0, EdgeLength((0.0, 2.0))),
            Dimension("height", 24 + 0.2 * longer, EdgeLength((100.0 + longer, 12.0)), "differ"),
        ),
        free=(FreeEdge((100 + longer, 12.0), 5.0, 30.0),),
        quantity=quantity,
    )


def test_a_longer_wedge_with_its_hole_elsewhere_is_still_right():
    assert against(plate(), plate(longer=8)) == Difference("sled-wedge", (), ())
    assert against(plate(), plate(longer=-3)) == Difference("sled-wedge", (), ())
    assert against(plate(), plate(longer=-9)).wrong


def test_lettering_out_of_date_makes_no_jig_wrong_and_what_to_letter_is_told():
    assert against(plate(), plate(title="LOOP")) == Difference("sled-wedge", (), (), ("re-letter it: HOOP",))


def test_of_another_sheet_it_is_wrong_and_how_many_are_missing_is_told():
    (told,) = against(plate(sheet=12.2), plate()).reasons
    assert (
        told
        == "it is drawn for sheet 0.20 mm thinner than yours is now: keep it if it was cut from the one you measured"
    )
    assert against(plate(quantity=4), plate(quantity=3)).to_do == ("make 1 more",)


def test_a_dimension_that_may_differ_is_no_reason():
    old = plate()
    longer = replace(old.dimensions[1], value=29.0)
    assert not against(replace(old, dimensions=(old.dimensions[0], longer)), old).wrong
    assert against(replace(old, dimensions=(old.dimensions[0], replace(longer, may=""))), old).wrong
