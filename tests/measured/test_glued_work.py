"""What readings come to where rings are glued: none is cut anew, no other wood or blank is offered."""

from dataclasses import replace
from math import radians
from pathlib import Path

import pytest

from geometry.bodies.torus import wall_left
from jigs.asked import toml_source
from jigs.asked.change import changed
from jigs.asked.jobfile import job_of, load
from jigs.asked.readings.readings import Readings
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.measured.first_side import turned_advice
from jigs.page.contract_state import Slow
from jigs.page.slow import slow
from jigs.remedies.glued import are_others, as_glued, rings_made
from jigs.remedies.refusal import with_remedies
from jigs.sets.rack import draw, prove
from jigs.words.findings import Finding, Refused, RefusedJob
from tests.measured.garland import read, with_readings
from tests.measured.test_topics import EVEN, GAUGED, LEVEL, SIDE, advice, plan_with, quantities


def test_what_seats_the_first_side_follows_its_sizes(tmp_path: Path):
    planned, plan = plan_with(tmp_path, ""), plan_with(tmp_path, SIDE.format(53.6, 249.6, 142.4))
    assert plan.holding.channel.hollow.wide == pytest.approx(planned.holding.channel.hollow.wide - 0.2)
    assert plan.holding.retainer.major == pytest.approx(98)
    boards = [
        (held.board_diameter, held.brace_circle, held.braces) for held in (plan.holding, planned.holding)
    ]
    assert boards[0] == boards[1], "the boards are glued and bored already"
    assert plan.gauges.stages[-1].edge.wide == pytest.approx(planned.gauges.stages[-1].edge.wide - 0.2)
    assert (plan.blank, plan.sled, plan.asked.form) == (planned.blank, planned.sled, planned.job.form)


@pytest.mark.parametrize(("asked", "verdict", "last"), [
    (8.0, "correct", "asked for."),
    (14.7, "short", "Sand off 0.15 mm at most."),
    (15.0, "short", "if so thin a wall will do."),
])  # fmt: skip
def test_a_side_turned_too_far_hears_what_it_has_left_before_it_is_sanded(
    tmp_path: Path, asked: float, verdict: str, last: str
):
    """1.5 mm under in its width, about the same circle: the core's wall is thinner by half of that."""
    plan = plan_with(tmp_path, GAUGED.format(53.0, 249.0, 143.0))
    form = plan.asked.form
    rings = (plan.blank.wedge_rings, plan.blank.segments, plan.blank.centre, plan.blank.core_apothem)
    planned = wall_left(form.major_radius, form.tube, *rings)
    wished = replace(plan, asked=replace(plan.asked, form=replace(form, least_wall=asked)))
    (told,) = turned_advice(wished)
    values = {one.id: one.value for one in told.found}
    assert (values["under"], planned - values["wall"]) == pytest.approx((0.75, 0.75))
    assert told.verdict == verdict
    assert "past the finished size by 0.50 mm already: they show light" in told.says[1]
    assert told.says[-1].endswith(last)
    assert any(one.startswith("Sand it") for one in told.says) == (asked < 15)


@pytest.mark.parametrize(
    ("key", "value", "others"),
    [("form.species", "cherry", True), ("form.spacer", 2.0, True), ("form.species", "walnut", False)],
)
def test_a_glued_blank_stays_of_its_woods(tmp_path: Path, key: str, value: object, others: bool):
    file = with_readings(tmp_path, "[sanding.first-side]\nouter = 187", "annulet")
    plan = solve(job_of(changed(toml_source.read(file), {key: value}), file))
    assert are_others(rings_made(load(file)), plan) == others


def test_no_other_blank_is_offered_to_a_side_that_is_turned_too_far(tmp_path: Path):
    """A smaller core would hold the retainer's bolt, but these rings are glued."""
    job = with_readings(tmp_path, "[sanding.first-side]\ntube = 38.5\nouter = 187", "annulet")
    with pytest.raises(Refused, match="a bolt has to pull") as side:
        prove(load(job))
    misread = [one.key for one in side.value.findings if one.code == "misread"]
    assert misread == ["sanding.first-side.tube", "sanding.first-side.outer"]
    with (
        pytest.raises(Refused, match="glued rings cannot be cut anew") as refused,
        with_remedies(job, quiet=True),
    ):
        prove(load(job))
    assert not isinstance(refused.value, RefusedJob), "remedies are offered"
    (page,) = {
        one.findings[0].text for one in slow(job.read_text("utf-8"), job, tmp_path) if isinstance(one, Slow)
    }
    for told in (str(refused.value), page):
        assert "smaller core" not in told
        assert "thicker tube" not in told


def test_what_glue_does_not_exclude_stays_in_a_refusal(tmp_path: Path):
    glued = read(tmp_path, "[glue_up.check-halves]\nlight-at-rim = [0, 0]").readings
    own = [
        Finding("bolt-opens-joints", "the joints open", "use a smaller core", "form.core_opening"),
        Finding("brace-bends", "a brace bends", "use thicker boards", "boards.thickness"),
        Finding("glued-short", "they are short", "make the tube thinner", "form.turning_allowance"),
    ]
    assert as_glued(own, Readings()) == tuple(own)
    assert [one.remedy for one in as_glued(own, glued)][1:] == [one.remedy for one in own][1:]
    assert as_glued(own, glued)[0].remedy != own[0].remedy


def test_a_halfs_light_is_typed_as_one_end_shows_it(tmp_path: Path):
    """The book's own example: the light that it lists for a half half a degree out is read as half a degree."""
    plan = plan_with(tmp_path, "")
    check = next(one for one in work(plan, draw(plan).parts).operations if one.id == "glue_up.check-halves")
    example = check.known[2]
    assert example.label == "Half out by 0.5°: light at each end"
    read = f"[glue_up.check-halves]\nlight-at-hole = [{example.value}, 0]"
    assert quantities(tmp_path, read, "halves.half-1")["error"] == pytest.approx(radians(0.5), rel=1e-3)
    assert [box.label.partition(", ")[2] for box in check.readings] == ["at one end: half 1, half 2"] * 2
    assert any("add both and write half" in line for line in check.how)


GLUED_BY_NOW = """
[wedge_rings.second]
gap-at-rim = 0.4
thick-edge = 46.2
[glue_up.faces]
thick = {}
[glue_up.check-halves]
light-at-rim = [0.2, 0]
"""


def test_what_is_glued_by_now_is_not_to_be_sorted_sanded_or_cut_again(tmp_path: Path):
    thick = [edge - 0.5 + 0.06 * k for k, edge in enumerate(EVEN)]
    halves = advice(tmp_path, GLUED_BY_NOW.format(thick))
    assert [one.id for one in halves] == [
        "stop.size", "wedge-angle.wedge", "ring-sizes.radius", "halves.half-1", "halves.half-2"
    ]  # fmt: skip
    assert not any("cut already" in sentence for one in halves for sentence in one.says)
    level = LEVEL.format([30.4, 30.5, 30.6, 30.5, 30.4, 30.3, 30.2, 30.3])
    joined = advice(tmp_path, GLUED_BY_NOW.format(thick) + level)
    assert [one.id for one in joined][3:] == ["flattening.level", "other-readings"]
    turned_side = advice(
        tmp_path, GLUED_BY_NOW.format(thick) + level + "\n" + GAUGED.format(54.5, 250.5, 141.5)
    )
    assert [one.id for one in turned_side][3:] == ["first-side-turned.sizes", "other-readings"]


@pytest.mark.parametrize("where", ["rim", "hole"])
def test_no_correction_is_of_nothing(tmp_path: Path, where: str):
    """Trued to the line, one side of a half that is out loses nothing."""
    read = f"[wedge_rings.second]\ngap-at-{where} = 0.22\n[glue_up.check-halves]\nlight-at-{where} = [0.4, 0]"
    says = [line for one in advice(tmp_path, read) if one.verdict == "correct" for line in one.says]
    assert any("comes off each end" in line for line in says)
    assert not any("0.00 mm" in line for line in says), says
