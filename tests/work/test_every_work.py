"""The work of every job: ids, jigs, cautions, numbers."""

from __future__ import annotations

import pytest

from jigs.forms.solve import solve
from jigs.work.cautions import CAUTIONS, STANDING
from tests.jigs.strips.test_between_rings import BOTH, plan_of
from tests.jigs.vessel.test_stems import UPRIGHT, goblet
from tests.jigs.wood.whole_jobs import ALL
from tests.work.reading import work_for
from tests.work.test_building import whole
from tests.work.works import work_of

each = pytest.mark.parametrize("name", ALL)


@each
def test_no_two_operations_have_one_id_nor_two_settings_of_one(name: str) -> None:
    ids = [operation.id for operation in work_of(name).operations]
    assert len(set(ids)) == len(ids)
    for operation in work_of(name).operations:
        for own in (operation.settings, operation.readings, operation.checks):
            assert len({one.id for one in own}) == len(own)
        assert operation.id.startswith(f"{operation.stage}.")


@each
def test_no_step_has_more_than_three_cautions_and_each_is_known(name: str) -> None:
    told = {caution.id for caution in work_of(name).cautions}
    for operation in work_of(name).operations:
        assert len(operation.cautions) <= 3
        assert set(operation.cautions) <= told <= set(CAUTIONS)
        assert not [id for id in operation.cautions if work_of(name).caution(id).standing]


@each
def test_a_step_uses_jigs_that_are_in_the_rack_and_no_more_than_there_are(name: str) -> None:
    rack = {entry.name: entry.quantity for entry in work_of(name).rack}
    for operation in work_of(name).operations:
        for use in operation.jigs:
            assert 0 < use.quantity <= rack[use.part]


@each
def test_no_two_tables_have_one_id_and_none_is_empty(name: str) -> None:
    tables = work_of(name).tables
    assert len({table.id for table in tables}) == len(tables)
    assert all(table.rows for table in tables)


@each
def test_a_row_of_a_list_says_by_itself_what_its_value_is(name: str) -> None:
    listed = [
        table
        for table in work_of(name).tables
        if [column.id for column in table.columns] == ["what", "value"]
    ]
    assert listed
    assert [row[0] for table in listed for row in table.rows if str(row[0])[0].islower()] == []


def test_every_caution_is_met_in_some_job() -> None:
    told = [*map(work_of, ALL), whole("bandsaw"), work_for(solve(goblet(**UPRIGHT))), work_for(plan_of(BOTH))]
    met = {id for work in told for one in work.operations for id in one.cautions}
    assert set(CAUTIONS) - set(STANDING) - met == {
        "wood.irritant",
        "sled.own",
    }  # the latter of lean racks alone
