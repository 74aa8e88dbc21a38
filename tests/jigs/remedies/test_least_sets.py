"""A set of changes holds what it takes and no more, and what asks least of the turner comes first."""

from __future__ import annotations

from pathlib import Path

import pytest

from jigs.asked import toml_source
from jigs.asked.change import Changes
from jigs.remedies import offered
from jigs.remedies.lessened import lessened
from jigs.remedies.offered import remedies, stating
from jigs.remedies.order import only_if_measured, rank
from jigs.remedies.put_back import put_back
from jigs.remedies.trial import Trials
from jigs.remedies.words import remedy_lines
from tests.unset import letters_unplaced

OPEN = """
[profile]
stations = [[0, 70], [12, 74], [60, 132], [110, 148], [150, 118], [180, 96]]
[wall]
thickness = 8
floor = 10
[rings]
heights = 20
segments = 18
species = "maple"
gap = 4
[reversing]
hold = "none"
"""
PINCHED = OPEN.replace("[60, 132], [110, 148], [150, 118], [180, 96]", "[30, 12], [60, 118]")
LARGE = (
    "[form]\nouter_diameter = 372\ntube_diameter = 62\nwedge_rings = 22\nsegments = 12\ncore_opening = 20\n"
)
FOOT, RIM = [0, 50], [40, 70]
CUP = f"""[profile]
stations = [{FOOT}, {RIM}]
[wall]
thickness = 6
[rings]
heights = 20
segments = 12
species = "maple"
"""
SHOP = "[lathe]\nswing_over_bed = 400\n[saw]\nblade_height = 75\n"
LONG = 3000  # counted: as far as it goes


@pytest.fixture(autouse=True)
def unlettered():
    """Of what refuses a job here nothing is for want of room for letters."""
    with letters_unplaced():
        yield


def trials_of(text: str) -> Trials:
    return Trials(toml_source.parse(text, "hoop.toml"), Path("hoop.toml"), LONG)


def sets_for(text: str, most: int = 3) -> list[Changes]:
    found = remedies(toml_source.parse(text, "hoop.toml"), Path("hoop.toml"), most) or ()
    return [{change.key: change.value for change in remedy.changes} for remedy in found]


def test_what_changes_nothing_or_is_not_needed_is_left_out():
    more = {
        "rings.segments": 11,
        "rings.heights": 20,
        "wall.thickness": 6,
        "wall.floor": 8,
        "rings.base": None,
    }
    trials = trials_of(OPEN)
    with trials.apart(LONG):
        assert set(lessened(trials, more)) == {"rings.segments"}


def test_the_same_length_typed_otherwise_is_no_change():
    trials = trials_of(OPEN.replace("heights = 20", 'heights = "20 mm"'))
    with trials.apart(LONG):
        assert "rings.heights" not in lessened(trials, {"rings.heights": 20, "rings.segments": 11})


def test_numbers_come_back_towards_the_turners_own_and_counts_stay():
    common = {"form.outer_diameter": 250, "form.tube_diameter": 50, "form.wedge_rings": 12, "form.segments": 8,
              "form.hole_diameter": None}  # fmt: skip
    trials = trials_of(LARGE + SHOP)
    with trials.apart(LONG):
        least = lessened(trials, common)
        assert trials.passes(least)
        assert set(least) <= {"form.outer_diameter", "form.tube_diameter", "form.wedge_rings"}
        assert least.get("form.outer_diameter", 372) >= 300
        for key in least:
            assert not trials.passes({other: value for other, value in least.items() if other != key}), key


def test_another_machine_comes_after_what_needs_none():
    trials = trials_of(LARGE + SHOP)
    small = {"form.outer_diameter": 340, "form.tube_diameter": 50}
    smaller = {"form.outer_diameter": 250, "form.tube_diameter": 50}
    machine = {"lathe.swing_over_bed": 500}
    found = sorted((machine, smaller, small), key=lambda changes: rank(trials, changes))
    assert found == [small, smaller, machine]


def test_stations_that_all_stay_are_nearer_than_others():
    """Another width at one of them is a cup of another shape; one more between them is not."""
    trials = trials_of(CUP)
    more, other = ({"profile.stations": rows} for rows in ([FOOT, [20, 66], RIM], [FOOT, [20, 66], [40, 76]]))
    assert rank(trials, more) < rank(trials, other)


def test_where_any_set_needs_no_other_machine_the_first_does_not():
    found = sets_for(LARGE + SHOP.replace("400", "250"))
    assert found
    assert not only_if_measured(found[0])


def test_a_machine_that_was_never_stated_is_offered_its_size():
    trials = trials_of(LARGE + "[bandsaw]\nheight = 200\n")
    with trials.apart(LONG):
        own = stating(trials)
        assert own is not None
        assert set(own) == {"lathe.swing_over_bed"}
        assert trials.passes(own)


def test_a_stated_machine_is_not_asked_again():
    trials = trials_of(LARGE + SHOP + "[bandsaw]\nheight = 200\n")
    with trials.apart(LONG):
        assert stating(trials) is None


def test_its_line_says_that_it_has_to_be_measured():
    source = toml_source.parse(LARGE, "hoop.toml")
    found = remedies(source, Path("hoop.toml"), most=2)
    assert found
    lines = [line for remedy in found for line in remedy_lines(remedy, source)]
    swing = [line for line in lines if line.startswith("swing_over_bed")]
    assert swing
    assert all(line.endswith("# if yours measures so much") for line in swing)


SMALL_BED = '[printer]\nbed = [90, 90]\n[made]\ngauges = "print"\n'


def test_a_job_that_only_its_jigs_refuse_is_put_back_to_what_does():
    trials = trials_of(LARGE.replace("372", "250").replace("62", "54").replace("22", "12") + SMALL_BED)
    assert trials.can_be_solved({})
    assert not trials.passes({}), "only the jigs refuse it"
    with trials.apart(LONG):
        few = put_back(trials)
        assert few is not None
        assert trials.passes(few)
        assert {key.partition(".")[0] for key in few} == {"made"}


MUCH_WRONG = """
[form]
outer_diameter = 700
tube_diameter = 260
wedge_rings = 40
segments = 24
core_opening = 4
lining = 3
turning_allowance = 1
[layup]
plies = [["maple", 3], ["walnut", 2]]
angle = 88
[lathe]
swing_over_bed = 300
[saw]
throat = 420
[holding]
tool_room = 25
"""


@pytest.mark.parametrize(
    "text",
    [MUCH_WRONG, PINCHED + "[lathe]\nswing_over_bed = 200\n[boards]\nsheet = 3\n"],
    ids=["torus", "vessel"],
)
def test_however_much_is_wrong_a_set_is_offered_that_needs_no_other_machine(text):
    found = sets_for(text, most=1)
    assert found
    assert not only_if_measured(found[0])
    assert trials_of(text).passes(found[0])


def test_what_is_put_back_holds_nothing_that_is_not_needed():
    trials = trials_of(MUCH_WRONG)
    with trials.apart(LONG):
        few = put_back(trials)
        assert few is not None
        for key in few:
            if not key.startswith("layup."):  # these only make sense together
                assert not trials.passes({other: value for other, value in few.items() if other != key}), key


def test_a_vessel_too_wide_for_the_lathe_keeps_its_shape():
    rows = [[0, 140], [60, 264], [110, 296], [180, 192]]
    trials = trials_of(f"""
[profile]
stations = {rows}
[wall]
thickness = 8
floor = 10
[rings]
heights = 20
segments = 12
species = "maple"
[lathe]
swing_over_bed = 220
""")
    with trials.apart(LONG):
        few = put_back(trials)
    assert few is not None
    assert set(few) == {"profile.stations"}
    smaller = few["profile.stations"]
    assert [row[0] for row in smaller] == [row[0] for row in rows]
    assert [new[1] / old[1] for new, old in zip(smaller, rows, strict=True)] == pytest.approx(
        [0.595] * 4, rel=0.01
    )


def test_rings_of_common_height_that_end_at_the_rim_are_no_end_of_it():
    """Rings of 20 mm end 0.2 mm over this rim; staves leave 20 mm sheet no room."""
    text = 'species = "maple"\n[staves]\nlow = 32\nhigh = 81\ncount = 18\n[boards]\nsheet = 20\n'
    trials = trials_of(
        "[profile]\nedges = [[0, 190.3], [156.8, 166.4]]\n[wall]\nthickness = 7\nfloor = 10.1\n"
        "[rings]\nheights = 22.7\nsegments = 18\n" + text
    )
    with trials.apart(LONG):
        few = put_back(trials)
        assert few is not None
        assert trials.passes(few)


def test_a_set_is_offered_once(monkeypatch):
    """Levers find it twice, and so does putting the job back to common proportions."""
    larger = {"lathe.swing_over_bed": 500}
    monkeypatch.setattr(offered, "sets_that_pass", lambda trials: iter([larger, larger]))
    monkeypatch.setattr(offered, "_afresh", lambda trials: [larger])
    assert sets_for(LARGE + SHOP) == [larger]
