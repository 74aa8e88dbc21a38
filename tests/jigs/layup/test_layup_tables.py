"""Ways, seams and closings of a layup as tables; the numbers of its steps."""

from dataclasses import replace

import pytest

from jigs.plans.torus import TorusPlan
from jigs.render.lines import table_text
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.layup.steps.whole import STAGE
from jigs.stages.layup.tables import tables
from jigs.work.model import Table
from tests.jigs.layup.layup_jobs import hoop, of_hoop, of_vessel, vessel, with_layup
from tests.work.reading import operation, rows, values
from tests.work.works import proof_of, work_of


def told(layup: LayupPlan | None = None) -> dict[str, Table]:
    plan = replace(hoop(), layups=(layup or of_hoop(),))
    return {table.id: table for table in tables(plan)}


def test_every_way_is_told_the_chosen_one_first_and_why_less_wood_is_not_taken() -> None:
    layup = of_hoop()
    found = rows(told(layup)["layup-ways"])
    assert [row["wood"] for row in found] == [way.wood for way in layup.ways]
    assert {row["way"] for row in found} == {"rows, staggered", "rows, square", "pieces one by one"}
    for row, way in zip(found, layup.ways, strict=True):
        assert (row["why"] is not None) == (way.against is not None and way.wood < layup.way.wood)


def test_a_way_with_less_wood_says_why_it_is_not_taken() -> None:
    layup = of_hoop()
    chosen, other, *_ = layup.ways
    less = replace(other, wood=chosen.wood - 1, against="short strips")
    found = rows(told(replace(layup, ways=(chosen, less)))["layup-ways"])
    assert found[0]["why"] is None
    assert "too short to be held by hand" in str(found[1]["why"])


def test_closings_are_told_with_the_radius() -> None:
    layup = of_hoop()
    found = rows(told(layup)["layup-closings"])
    assert [row["radius"] for row in found] == [closing.radius for closing in layup.closings]
    assert found[0]["radius"] == pytest.approx(103.06, abs=0.005)


@pytest.mark.parametrize("angle", [0.0, 90.0])
def test_no_number_is_infinite(angle: float) -> None:
    found = told(of_hoop(angle=angle))
    for table in found.values():
        for row in table_text(table, "mm")[1]:
            assert not [cell for cell in row if "inf" in cell.split() or "nan" in cell]
    if not angle:
        assert values(found["layup-seams"])["period.a"] == "none: the plies run along it"


def test_each_size_of_a_vessels_segments_has_its_rows() -> None:
    layups = of_vessel("vase")
    assert len(layups) > 1
    plan = replace(vessel("vase"), job=with_layup(vessel("vase").job), layups=tuple(layups))
    for table in tables(plan):
        assert {row["rings"] for row in rows(table)} == {layup.rings for layup in layups}
    bought = [row for row in rows(tables(plan)[0]) if str(row["what"]).startswith("ply of")]
    sheets = sum(layup.way.sheets for layup in layups)
    for name in ("maple", "black", "walnut"):
        assert sum(int(row["count"]) for row in bought if name in str(row["what"])) == sheets


def test_a_job_without_a_layup_has_no_such_table() -> None:
    assert [found for asked in STAGE.tables for found in asked(hoop())] == []


def test_a_whole_segment_is_not_glued_from_pieces() -> None:
    """Neither a table of what is lost at a glued corner."""
    assert "lost" in values(told()["layup-seams"])
    assert "lost" not in values(told(of_hoop(mirrored="none"))["layup-seams"])


def test_the_steps_are_set_by_the_plans_numbers() -> None:
    plan, work = proof_of("plied torus").plan, work_of("plied torus")
    assert isinstance(plan, TorusPlan)
    (layup,) = plan.layups
    slabs = operation(work, "layup.slabs")
    set_to = [setting.value for setting in slabs.settings]
    assert layup.way.cut_angle in set_to
    assert layup.way.pitch in set_to
    assert operation(work, "layup.strips").pieces == layup.way.strips_in_all
    assert operation(work, "layup.trim").pieces == layup.pieces + layup.spares
    assert operation(work, "segments.mitre").pieces == layup.blocks
