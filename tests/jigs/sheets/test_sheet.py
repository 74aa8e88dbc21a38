"""What lies on a sheet, and what is told of one of another thickness."""

from dataclasses import replace

from jigs.files.sheets.nesting import nest
from jigs.stages.cutting_out.steps import operations
from jigs.work.model import Rack
from tests.jigs.sheets.shop import offcut, plate, racked, shop
from tests.work.works import proof_of


def test_a_sheet_names_every_part_on_it():
    parts, workshop = racked("garland")
    for sheet in nest(parts, workshop):
        assert all(f"{item.part.code} {item.part.name}" in sheet.contents for item in sheet.placed)


def test_counts_are_those_of_the_sheet():
    (sheet,) = nest([plate("a", quantity=3), plate("b", 20, 20)], shop())
    assert sheet.contents == "3 A a, B b"


def told(*offcuts):
    """How one plate is cut out in a shop with these offcuts."""
    plan = proof_of("garland").plan
    plan = replace(plan, job=replace(plan.job, workshop=shop(offcuts=offcuts)))
    (cut,) = operations(plan, Rack((plate(),)))
    return cut.how


def test_an_offcut_of_another_thickness_is_to_be_tried_first():
    assert not any("another thickness" in move for move in told(offcut(300, 300)))
    assert [move for move in told(offcut(300, 300, thickness=11.8)) if "another thickness" in move]
