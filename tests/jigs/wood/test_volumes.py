"""The wood of the boards goes where the plan says it goes, by a drawing of every cut."""

from dataclasses import replace
from math import pi, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.asked.job_wood import Board
from jigs.stages.boards.plan import Lot
from jigs.stages.boards.solve.boards import wood_classes
from tests.jigs.wood.drawn_boards import tally
from tests.jigs.wood.wood_jobs import ALL, lots_of, plan_of, stocked, with_stock

MM3 = 1.0  # "to the cubic millimetre"


def agree(job, lots):
    """The plan's volumes are those of the drawing, and both close; of all classes to the boards."""
    classes, _ = wood_classes(job, lots)
    closed(job, lots, classes)
    return classes


def closed(job, lots, classes):
    boards = sum(taken.count * taken.section * taken.length for of in classes for taken in of.taken)
    assert sum(of.volumes.stock for of in classes) == pytest.approx(boards, abs=MM3)
    for of in classes:
        own = tuple(lot for lot in lots if lot.number in of.lots)
        drawn, said = tally(job, own, of), of.volumes
        work = said.pieces + said.spares
        assert drawn.volumes["pieces"] == pytest.approx(work, abs=MM3)
        for what in ("stock", "kerf", "planed", "trimmed", "offcuts"):
            assert drawn.volumes[what] == pytest.approx(getattr(said, what), abs=MM3), what
        assert abs(said.left) < MM3
        listed = [(o.width, o.length) for o in of.offcuts for _ in range(o.count)]
        found = np.sort(np.array(list(drawn.left.elements())).reshape(-1, 2), axis=0)
        assert found == pytest.approx(np.sort(np.array(listed).reshape(-1, 2), axis=0), abs=1e-5)
        assert said.pieces == pytest.approx(sum(lot.count * lot.volume for lot in own))
        assert drawn.cut == {lot.number: lot.wanted for lot in own}  # none is sawn that nobody wants
        assert said.kept == pytest.approx(sum(o.volume for o in of.offcuts if o.kept))


@pytest.mark.parametrize("name", ALL)
def test_every_jobs_wood_goes_where_a_drawing_of_every_cut_has_it_go(name):
    plan = plan_of(name)
    assert agree(plan.job, lots_of(plan))


def tenths(low, high):
    return st.integers(int(low * 10), int(high * 10)).map(lambda tenth: tenth / 10)


@st.composite
def lots(draw, thickness):
    """One to six lots of one wood and thickness."""
    found = []
    for number in range(1, draw(st.integers(1, 6)) + 1):
        way = draw(st.sampled_from(["turned over", "slid across", "square", "bevelled"]))
        mitre = 0.0 if way in ("square", "bevelled") else pi / draw(st.integers(4, 48))
        width, shorter = draw(tenths(1, 90)), draw(tenths(0.2, 60))
        across = thickness if way == "turned over" else width
        longer = shorter + 2 * across * tan(mitre)
        found.append(
            Lot(
                piece="segment",
                number=number,
                name=f"lot {number}",
                rings=(number,),
                species="ash",
                count=draw(st.integers(1, 150)),
                spares=draw(st.integers(0, 12)),
                thickness=thickness,
                width=width,
                longer=longer,
                shorter=shorter,
                mitre=mitre,
                kerf=draw(tenths(0.5, 5)),
                held=draw(tenths(0, 120)),
                way=way,
                stop=None,
                off=draw(st.just(0.0) | st.floats(0, 0.4)) * shorter * width * thickness,
            )
        )
    return tuple(found)


@st.composite
def cases(draw):
    """A job with any stock, and lots."""
    thickness = draw(tenths(5, 50))
    boards = st.builds(
        Board,
        species=st.just("ash"),
        thickness=st.sampled_from([thickness, thickness + 2, thickness + 5.5]),
        width=tenths(10, 220),
        length=tenths(200, 2500),
        count=st.integers(1, 4),
    )
    job = with_stock(
        plan_of("garland").job,
        boards=tuple(draw(st.lists(boards, max_size=4))),
        bought_width=draw(tenths(40, 300)),
        bought_length=draw(tenths(300, 3000)),
        planing=draw(tenths(0, 5)),
        edge_trim=draw(tenths(0, 10)),
        end_trim=draw(tenths(0, 40)),
        strip_clean_up=draw(tenths(0, 3)),
        least_offcut=draw(tenths(50, 500)),
    )
    shop = replace(job.workshop, saw=replace(job.workshop.saw, kerf=draw(tenths(0.5, 5))))
    return replace(job, workshop=shop), draw(lots(thickness))


@given(cases())
def test_any_lots_from_any_boards_close_to_the_cubic_millimetre_and_keep_to_their_bounds(case):
    """A lot is planned unless no board gives it. Each case is planned once for all of this."""
    job, asked = case
    classes, shortages = wood_classes(job, asked)
    closed(job, asked, classes)
    bounded(job, classes)
    assert_planned(job, asked, classes, shortages)


def bounded(job, classes):
    for of in classes:
        assert of.bound <= of.area * (1 + 1e-9)
        assert of.least <= sum(taken.count for taken in of.taken if taken.bought)
        for taken in of.taken:
            size = (taken.thickness, taken.width, taken.length)
            listed = sum(
                b.count for b in job.workshop.stock.boards if (b.thickness, b.width, b.length) == size
            )
            used = sum(t.count for t in of.taken if not t.bought and (t.thickness, t.width, t.length) == size)
            assert taken.bought or used <= listed


def assert_planned(job, asked, classes, shortages):
    planned = {number for of in classes for number in of.lots}
    lacking = {shortage.lot for shortage in shortages}
    assert {lot.name for lot in asked if lot.number not in planned} == lacking
    stock = job.workshop.stock
    for lot in asked:
        wide = lot.width + stock.strip_clean_up + stock.edge_trim <= stock.bought_width
        long = lot.strip_length(1) <= stock.bought_length - 2 * stock.end_trim
        assert lot.number in planned or not (wide and long)


def test_with_another_kerf_the_drawing_and_the_plan_do_not_agree():
    plan = plan_of("garland")
    asked = lots_of(plan)
    (of,), _ = stocked(plan.job, asked)
    drawn = tally(plan.job, tuple(replace(lot, kerf=lot.kerf - 0.001) for lot in asked), of)
    assert abs(drawn.volumes["kerf"] - of.volumes.kerf) > MM3
