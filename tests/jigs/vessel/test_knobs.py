"""A lid's knob: what stands and how it is made; and what a lid that cannot be made is offered."""

import re

import pytest

from jigs.asked import toml_source
from jigs.asked.jobfile import load
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.remedies.offered import remedies
from jigs.remedies.words import remedy_lines
from jigs.words.findings import Refused
from tests.jigs.remedies.pasted import pasted
from tests.jigs.vessel.lids import LID, REBATE, example, plan_of, refusal, written

KNOB = LID[LID.index("[knob]") :]
STATIONS = KNOB[: KNOB.index("tenon")]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("tenon_length = 8", "tenon_length = 10", "knob-deep"),
        ("tenon_length = 8", "tenon_length = 8\ntenon_diameter = 16", "knob-shoulder"),
        ("[0, 18]", "[0, 34]", "knob-stands-over"),
        (STATIONS, "[knob]\nedges = [[0, 12], [10, 40, 9]]\n", "knob-folds"),
    ],
)
def test_a_knob_that_does_not_stand_is_refused(tmp_path, old, new, code):
    assert code in refusal(tmp_path, lid=[(old, new)])


@pytest.mark.parametrize(("wood", "neck", "least"), [("walnut", 5, 7.2), ("western redcedar", 7, 8.0)])
def test_a_knob_whose_neck_a_push_at_its_top_may_break_says_how_thick_would_stand_it(
    tmp_path, wood, neck, least
):
    """30 N, 18 mm over the neck: d cubed is 32 x 540 / pi over 15 N/mm2 of walnut, 11.25 of cedar."""

    def told(across):
        lid = [("[6, 12]", f"[6, {across}]"), (KNOB[-len('species = "walnut"\n') :], f'species = "{wood}"\n')]
        return [one for one in plan_of(tmp_path, lid).notes if one.code == "knob-slim"]

    (found,) = told(neck)
    assert found.severity == "warning"
    enough = float(re.search(r"at least ([\d.]+) mm", found.remedy)[1])
    assert enough == pytest.approx(least, abs=0.3)
    assert told(enough) == []


@pytest.mark.parametrize(("across", "glued"), [(24, 0), (64, 1)])
def test_a_knob_wider_than_boards_are_thick_is_glued_up_before_it_is_turned(tmp_path, across, glued):
    plan = plan_of(tmp_path, [("[16, 24]", f"[16, {across}]")])
    (lot,) = (lot for lot in plan.wood.lots if lot.piece == "knob")
    assert lot.count == 1 + glued
    told = work(plan, parts_of(plan)).operations
    ids = [one.id for one in told]
    faces = [one for one in told if one.does == "Glue the pieces of the knob's square face to face."]
    assert len(faces) == glued
    assert all(ids.index("pieces.square") < ids.index(one.id) < ids.index("knob.turn") for one in faces)
    assert all(not one.rings for one in faces)


def test_a_knob_that_ends_in_a_point_is_not_weak_for_its_tip(tmp_path):
    lid = [("[24, 14]", "[24, 1]")]
    assert not [one for one in plan_of(tmp_path, lid).notes if one.code == "knob-slim"]


@pytest.mark.parametrize(
    ("edges", "told"),
    [
        (
            "[[0, 18], [10, 18], [10, 60], [10.1, 60], [10.1, 18], [20, 18]]",
            [],
        ),  # a flange as thin as a sheet
        ("[[0, 18], [10, 12], [10, 5], [10.1, 5], [10.1, 18], [28, 18]]", ["5.0 mm across, 10.0 mm over"]),
    ],
)
def test_a_knob_is_bent_at_its_corners_too(tmp_path, edges, told):
    lid = [(STATIONS, f"[knob]\nedges = {edges}\n")]
    found = [one.message for one in plan_of(tmp_path, lid).notes if one.code == "knob-slim"]
    assert [part in message for part, message in zip(told, found, strict=True)] == [True] * len(told)


def test_a_knob_belongs_to_a_lid(tmp_path):
    written(tmp_path, pot=[("[rings]", KNOB + "\n[rings]")])
    with pytest.raises(Refused) as caught:
        load(tmp_path / "acorn.toml")
    assert [(found.code, found.key.partition(".")[0]) for found in caught.value.findings] == [
        ("misplaced-key", "knob")
    ]


def test_the_knob_is_sawn_from_its_wood_turned_to_its_gauge_and_glued_in_before_the_finish():
    plan = example()
    (lot,) = [lot for lot in plan.wood.lots if lot.piece == "knob"]
    widest = max(plan.knob.profile.radius_at(z / 10) for z in range(241))
    assert lot.species == "walnut"
    assert lot.thickness >= 2 * widest
    assert lot.longer >= 24 + 8
    assert lot.longer == plan.knob.long, "the list and the step name one length"
    assert plan.knob.left == pytest.approx(12 - 8 - 0.5)
    ids = [operation.id for operation in work(plan, parts_of(plan)).operations]
    assert (
        ids.index("reversing.held")
        < ids.index("knob.turn")
        < ids.index("knob.glue")
        < ids.index("finish.coats")
    )


def test_a_lid_without_a_knob_has_none_of_it(tmp_path):
    plan = plan_of(tmp_path, lid=[(KNOB, "")])
    assert plan.knob is None
    assert "knob-gauge" not in {part.name for part in parts_of(plan)}


def test_a_knob_too_deep_for_an_inside_of_its_own_is_offered_a_thicker_top_too(tmp_path):
    file = written(tmp_path, [("tenon_length = 8", "tenon_length = 12")])
    offers = [{change.key for change in offer.changes} for offer in remedies(toml_source.read(file), file)]
    assert offers == [{"knob.tenon_length"}, {"inside.edges"}]


THIN_UNDER_ITS_KNOB = [
    ("least = 4", 'thickness = 5\nfloor = 4\n[reversing]\nhold = "none"'),
    (
        LID[LID.index("[profile]") : LID.index("[wall]")],
        "[profile]\nedges = [[0, 60], [8, 100], [14, 106]]\n",
    ),
]


@pytest.mark.parametrize(
    ("lid", "pot", "table"),
    [
        ([("[25, 106]", "[25, 88]")], [], "[profile]"),
        ([("seat = 8", "seat = 4.5")], [REBATE], "[lid]"),
        ([("seat = 8", "seat = 5")], [REBATE], "[lid]"),
        (THIN_UNDER_ITS_KNOB, [], "[wall]"),
    ],
)
def test_the_first_offer_makes_it_pass(tmp_path, lid, pot, table):
    file = written(tmp_path, lid, pot)
    source = toml_source.read(file)
    lines = remedy_lines(next(iter(remedies(source, file, most=1) or ())), source)
    assert lines[0] == table
    file.write_text(pasted(file.read_text("utf-8"), lines), "utf-8")
    assert solve(load(file)).lid.bears >= 1.5
