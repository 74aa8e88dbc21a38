"""Sizes of boards to buy: those that boards are sold in, by the job's unit."""

from dataclasses import replace

import pytest

from jigs.asked.jobfile import load, parse
from jigs.forms.solve import solve
from jigs.stages.boards.solve.boards import widened
from tests.jigs.wood.whole_jobs import TORI, VESSELS, plan_of
from tests.jigs.wood.wood_jobs import torus_text
from tests.work.reading import operation, work_for

INCH = 25.4
each = pytest.mark.parametrize("name", [*TORI, *VESSELS])
STEPS = {"mm": (0.5, 10.0), "in": (INCH / 16, INCH)}  # of thickness, and of width and length


def whole(size, step):
    return abs(size / step - round(size / step)) < 1e-9


@each
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_boards_are_bought_in_whole_sizes_and_at_least_so_thick(name, unit):
    plan = plan_of(name, unit)
    thick, across = STEPS[unit]
    for of in plan.wood.classes:
        for taken in (taken for taken in of.taken if taken.bought):
            assert whole(taken.thickness, thick)
            assert whole(taken.width, across)
            assert whole(taken.length, across)
            assert 0 <= taken.thickness - of.thickness - plan.job.workshop.stock.planing + 1e-6 < thick + 2e-6


@pytest.mark.parametrize(("unit", "size"), [("mm", (150.0, 2000.0)), ("in", (6 * INCH, 96 * INCH))])
def test_what_is_to_be_bought_is_told_with_its_size(unit, size):
    pick = operation(work_for(plan_of("woods by rings", unit)), "boards.pick")
    bought = [one.id for one in pick.settings if one.label.endswith(", to buy")]
    assert bought
    for id in bought:
        assert (pick.setting(f"{id}.width").value, pick.setting(f"{id}.length").value) == pytest.approx(size)


def test_boards_of_one_size_that_are_cut_differently_are_bought_in_one_line():
    text = (
        'title = "Hoop"\n[form]\nouter_diameter = 310\ntube_diameter = 50\nwedge_rings = 20\nsegments = 12\n'
        'core_opening = 26\nspecies = "cherry"\n'
    )
    plan = solve(parse(text, "hoop.toml"))
    ((one, other),) = (of.taken for of in plan.wood.classes)
    assert one.lengths != other.lengths
    pick = operation(work_for(plan), "boards.pick")
    assert [one.value for one in pick.settings if one.label.endswith(", to buy")] == [one.count + other.count]


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_stated_size_is_taken_as_it_is_stated(unit):
    stated = '[stock]\nbought_width = "171 mm"\nbought_length = "1717 mm"\n'
    (of,) = solve(parse(torus_text(more=stated, unit=unit), "loop.toml")).wood.classes
    assert {(round(taken.width, 6), round(taken.length, 6)) for taken in of.taken} == {(171.0, 1717.0)}


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_boards_are_widened_and_lengthened_in_whole_steps(unit):
    plan = plan_of("platter", unit)
    stock, step = plan.job.workshop.stock, STEPS[unit][1]
    larger = widened(plan.job, [replace(lot, width=333.0, held=3000.0) for lot in plan.wood.lots])
    for key in ("bought_width", "bought_length"):
        assert getattr(larger.workshop.stock, key) > getattr(stock, key)
        assert whole(getattr(larger.workshop.stock, key), step)


def test_a_workshop_in_mm_does_not_make_a_job_in_inches_buy_in_mm(tmp_path):
    (tmp_path / "shed.toml").write_text('unit = "mm"\n[saw]\nkerf = 2.8\n')
    job = tmp_path / "loop.toml"
    job.write_text(torus_text(unit="in").replace('unit = "in"\n', 'unit = "in"\nworkshop_file = "shed"\n'))
    stock = load(job).workshop.stock
    assert (stock.bought_width, stock.bought_length) == pytest.approx((6 * INCH, 96 * INCH))
