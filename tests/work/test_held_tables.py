"""What holds each piece is told for every sled, never better than it is."""

from __future__ import annotations

import pytest

from jigs.work.model import Cell
from tests.jigs.wood.whole_jobs import ALL, plan_of
from tests.work.reading import rows, table, values
from tests.work.test_building import whole
from tests.work.works import work_of


def held(name: str) -> list[dict[str, Cell]]:
    return rows(table(work_of(name), "held-pieces"))


@pytest.mark.parametrize("name", ALL)
def test_every_piece_on_a_sled_is_held_against_more_than_the_push(name: str) -> None:
    plan = plan_of(name)
    if plan.kind == "vessel":
        cuts = [*(cut for sled in plan.saws.sleds for cut in sled.held)]
        cuts += plan.saws.staves.held if plan.saws.staves else ()
    else:
        cuts = [*plan.cutting.held, *plan.cutting.flat_held]
        assert sum(row["piece"] == "wedge ring" for row in held(name)) == len(plan.rings_held)
    cuts += [cut for jigs in plan.layup_jigs for cut in jigs.held]
    for what in {cut.what for cut in cuts if cut.held}:
        told = [row["times"] for row in held(name) if row["piece"] == what]
        least = min(cut.grip for cut in cuts if cut.what == what)
        assert 1 < min(told) <= least < min(told) + 0.01


def test_what_the_plan_angle_sled_holds_is_told_of_that_sled() -> None:
    fences = [row for row in rows(table(whole("bandsaw"), "held-pieces")) if "fence" in str(row["piece"])]
    assert len(fences) == 4
    assert {row["where"] for row in fences} == {"plan-angle sled"}


def test_glue_holds_the_blank_on_its_first_board_against_the_tool() -> None:
    plan = plan_of("garland")
    (row,) = [row for row in held("garland") if row["piece"] == "blank"]
    assert row["times"] == pytest.approx(plan.mountings.held[0].strength / 100, abs=0.01)


def test_the_sled_bends_less_than_it_may_and_a_bandsaws_has_a_bridge() -> None:
    table_saw, bandsaw = (values(table(whole(name), "strained")) for name in ("garland", "bandsaw"))
    assert "bridge" not in table_saw
    for told in (table_saw, bandsaw):
        assert told.pop("fence") < told.pop("fence.allowed")
        assert all(0 < share < 1 for share in told.values())
    assert "bridge" in bandsaw
