"""Which saw cuts what, what is refused, and the sleds and carriers that follow."""

from math import radians
from pathlib import Path

import numpy as np
import pytest

from jigs.asked.jobfile import parse
from jigs.files.dxf import read_dxf, write_dxf
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.parts.readback import measure
from jigs.plans.torus import TorusPlan
from jigs.stages.segments.parts import segment_carrier
from jigs.stages.segments.steps import plan_angle_sled
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout
from jigs.stages.wedge_rings.layout.sled import SledLayout
from jigs.stages.wedge_rings.parts.bandsaw import bandsaw_sled
from jigs.stages.wedge_rings.parts.sled import sled
from jigs.words.findings import Finding, Refused
from tests.jigs.inspection import faults, text_of
from tests.work.reading import operation, work_for

JOB = """\
title = "Garland"
[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = 18
segments = 8
core_opening = 20
"""
BANDSAW = "[bandsaw]\nheight = 260\nthroat = 500\ndrift = 2.5\ntable_left = 180\ntable_front = 160\n"


def plan_of(*tables: str) -> TorusPlan:
    return solve(parse(JOB + "".join(tables), "garland.toml"))


def refusals(*tables: str) -> tuple[Finding, ...]:
    with pytest.raises(Refused) as caught:
        plan_of(*tables)
    return caught.value.findings


def cutting(rings: str = "auto", segments: str = "auto") -> str:
    return f'[cutting]\nwedge_rings = "{rings}"\nsegments = "{segments}"\n'


INCHES = """\
unit = "in"
[form]
outer_diameter = 9
tube_diameter = 2.125
wedge_rings = 16
segments = 12
core_opening = 0.75
[boards]
sheet = 0.47
[saw]
blade_height = "{blade} in"
"""
LOW, VERY_LOW = "[saw]\nblade_height = 60\n", "[saw]\nblade_height = 30\n"


def test_the_table_saw_cuts_all_unless_it_is_too_low() -> None:
    assert plan_of(BANDSAW).cutting.rings_on == plan_of().cutting.segments_on == "table saw"
    low = plan_of(BANDSAW, LOW)
    assert (low.cutting.rings_on, low.cutting.segments_on) == ("bandsaw", "table saw")
    assert plan_of(BANDSAW, VERY_LOW).cutting.segments_on == "bandsaw"


def test_each_saw_has_its_own_sled_and_only_that_one_is_made() -> None:
    table, band = plan_of(BANDSAW), plan_of(BANDSAW, cutting(rings="bandsaw"))
    assert isinstance(table.sled, SledLayout)
    assert isinstance(band.sled, BandsawLayout)
    assert (bandsaw_sled(table), sled(band)) == ([], [])
    names = {part.name for part in bandsaw_sled(band)}
    assert {
        "sled-base",
        "sled-bridge",
        "sled-rail",
        "sled-strip",
        "sled-batten",
        "sled-fence",
        "sled-jaw",
    } < names
    assert not names & {"sled-runner", "sled-exit-block"}


def test_each_cut_allows_for_the_kerf_of_its_own_saw() -> None:
    both = plan_of(BANDSAW + "kerf = 0.9\n", "[saw]\nkerf = 3.2\n", cutting("table saw", "bandsaw"))
    assert (both.clean_up, both.segment.kerf) == (4.2, 0.9)
    other = plan_of(BANDSAW + "kerf = 0.9\n", "[saw]\nkerf = 3.2\n", cutting("bandsaw", "table saw"))
    assert (other.clean_up, other.segment.kerf) == (3.0, 3.2)


def test_a_ring_too_tall_for_one_saw_is_offered_the_other() -> None:
    (found,) = refusals(BANDSAW, LOW, cutting(rings="table saw"))
    assert (found.code, found.key) == ("ring-too-tall", "saw.blade_height")
    assert 'cutting.wedge_rings = "bandsaw" would do' in found.remedy
    (found,) = refusals("[bandsaw]\nheight = 80\n", cutting(rings="bandsaw"))
    assert (found.code, found.key) == ("ring-too-tall", "bandsaw.height")
    assert 'cutting.wedge_rings = "table saw" would do' in found.remedy


def test_the_blade_that_a_ring_needs_is_rounded_up_so_that_it_does() -> None:
    """3.006 in, which the nearest 1/64 would call 3: no more than this saw gives."""
    inches = INCHES.format(blade="3")
    with pytest.raises(Refused, match="needs a blade 3 1/64 in high; this saw gives 3 in"):
        solve(parse(inches, "loop.toml"))
    solve(parse(INCHES.format(blade="3 1/64"), "loop.toml"))


def test_a_saw_that_would_not_do_either_is_not_offered() -> None:
    for tables in (
        (LOW,),
        ("[bandsaw]\nheight = 80\n", LOW),
        ("[bandsaw]\nheight = 80\n", LOW, cutting("bandsaw")),
    ):
        (found,) = refusals(*tables)
        assert found.code == "ring-too-tall"
        assert "would do" not in found.remedy


def test_a_strip_too_thick_for_one_saw_is_offered_the_other() -> None:
    found = refusals(BANDSAW, VERY_LOW, cutting(segments="table saw"))
    assert [f.code for f in found] == ["strip-too-thick"]
    assert 'cutting.segments = "bandsaw" would do' in found[0].remedy


def test_a_bandsaw_that_is_asked_for_has_to_be_there() -> None:
    assert [f.code for f in refusals(cutting("bandsaw", "bandsaw"))] == ["no-bandsaw"] * 2
    (found,) = refusals("[bandsaw]\nkerf = 1\n")
    assert (found.code, found.key, found.line) == ("missing-key", "bandsaw.height", 9)


def test_a_sled_wider_than_the_throat_is_refused_with_the_least_that_would_do() -> None:
    (found,) = refusals(BANDSAW.replace("500", "200"), cutting(rings="bandsaw"))
    assert (found.code, found.key) == ("throat", "bandsaw.throat")
    reach = -plan_of(BANDSAW, cutting(rings="bandsaw")).sled.left_edge
    least = float(found.remedy.partition("at least ")[2].partition(" mm")[0])
    assert reach <= least < reach + 0.1
    assert plan_of(BANDSAW.replace("500", str(least)), cutting(rings="bandsaw")).sled.left_edge == -reach


def rack() -> list[Part]:
    asked = '[cutting]\nwedge_rings = "bandsaw"\nsegments = "bandsaw"\nplan_angle_sled = true\n'
    band, table = plan_of(BANDSAW, asked), plan_of(BANDSAW)
    return [*bandsaw_sled(band), *segment_carrier(band), *plan_angle_sled(band), *segment_carrier(table)]


def test_every_part_is_sound_and_measures_back(tmp_path: Path) -> None:
    for part in rack():
        assert faults(part) == []
        file = tmp_path / f"{part.name}.dxf"
        write_dxf(part, file)
        for found in measure(part, read_dxf(file)):
            assert found.measured == pytest.approx(found.nominal, abs=0.01), (part.name, found)


def test_the_base_of_the_bandsaw_sled_is_open_in_front_and_whole_behind() -> None:
    plan = plan_of(BANDSAW, cutting(rings="bandsaw"))
    layout = plan.sled
    assert isinstance(layout, BandsawLayout)
    base = next(part for part in bandsaw_sled(plan) if part.name == "sled-base")
    x = sum(layout.slot_sides) / 2
    y = np.linspace(layout.operator_edge + 1, layout.far_edge - 1, 200)
    inside = base.outline.contains(np.column_stack((np.full_like(y, x), y)))
    assert not inside[y > layout.slot_end].any()
    assert inside[y < layout.slot_end].all()
    assert layout.slot_end - layout.operator_edge > 60


def test_what_can_hurt_is_lettered_where_it_is_done() -> None:
    parts = {part.name: part for part in rack()}
    for name in ("sled-base", "segment-base", "segment-fence", "plan-angle-base", "plan-angle-fence"):
        assert "POWER OFF" in text_of(parts[name])
    assert "NEVER CUT THROUGH" in text_of(parts["sled-bridge"])


def test_the_flat_rings_sled_is_made_only_when_asked_for() -> None:
    assert plan_angle_sled(plan_of()) == []
    assert plan_angle_sled(plan_of("[cutting]\nplan_angle_sled = true\n"))


def test_each_cut_is_told_at_its_own_saw_and_where_the_stop_stands() -> None:
    plan = plan_of(BANDSAW, cutting(rings="bandsaw"))
    told = work_for(plan)
    assert operation(told, "wedge_rings.first").place == "bandsaw"
    assert operation(told, "segments.mitre").place == "table saw"
    assert operation(told, "shop.bandsaw").setting("bandsaw.drift").value == radians(2.5)
    cut = plan.segment
    stop = operation(told, "segments.stop").setting("stop").value
    assert stop == pytest.approx((cut.outer_edge + cut.inner_edge) / 2)
