"""A vessel's candidates: stacks estimated at once, tried, ordered, written as jobs that can be made."""

import json
from pathlib import Path

import numpy as np
import pytest

from jigs.asked.jobfile import load
from jigs.cli import main
from jigs.compare.run import Comparison, compare
from jigs.compare.vessel import cuts, minutes, ranked_stacks
from jigs.compare.wish import BY, By, Options, wish
from jigs.forms.solve import solve
from jigs.sets.rack import prove
from jigs.words.findings import Refused
from tests.measured.garland import with_readings

PRICES = '\n[prices]\ncurrency = "EUR"\nwood = [["walnut", 5000], ["maple", 3000]]\n'


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Comparison:
    job = with_readings(tmp_path_factory.mktemp("compare"), "", "sorrel")
    job.write_text(job.read_text("utf-8") + PRICES, "utf-8")
    return compare(job, Options(segments="10-12", boards="19,25", by="cost", best=2), write=True)


def figures(found: Comparison) -> list[dict[str, float]]:
    return [{figure.id: figure.value for figure in one.figures} for one in found.best]


def test_the_best_come_first_beside_the_job_itself(found: Comparison):
    costs = [one["cost"] for one in figures(found)]
    assert len(costs) == 2
    assert costs == sorted(costs)
    assert {figure.id for figure in found.own.figures} == set(figures(found)[0])


def test_of_several_files_none_stays_where_one_has_no_room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    job = with_readings(tmp_path, "", "sorrel")
    before, wrote = {*tmp_path.iterdir()}, []

    def full(path: Path, content: bytes) -> None:
        if wrote:
            raise OSError(28, "No space left on device")
        wrote.append(path)
        path.write_bytes(content)

    monkeypatch.setattr("jigs.compare.tried.swap_in", full)
    with pytest.raises(Refused, match="No space left"):
        compare(job, Options(segments="10-12", boards="19,25", best=2), write=True)
    assert wrote
    assert {*tmp_path.iterdir()} == before


def test_each_is_written_and_can_be_made(found: Comparison):
    for file, one in zip(found.files, figures(found), strict=True):
        plan = prove(load(file)).plan
        assert {layer.ring.segments for layer in plan.stack.layers} == {one["segments"]}
        assert plan.stack.layers[2].ring.height == pytest.approx(one["ring"])
        assert plan.job.name == file.stem


def test_the_figures_are_the_plans_own(found: Comparison):
    """Against the job as it is: 9 rings of 12, blade over base and strip, the gap of the widest ring by hand."""
    own, plan = {figure.id: figure.value for figure in found.own.figures}, solve(found.job)
    assert (own["rings"], own["segments"], own["cuts"]) == (9, 12, 108)
    assert own["segment-height"] == max(sled.layout.saw_height for sled in plan.saws.sleds)
    assert own["gap"] == pytest.approx(plan.stack.largest_radius * 12 * np.radians(0.05))
    assert own["board"] == pytest.approx(21.3)


def test_estimates_agree_with_plans_where_they_are_counted(tmp_path: Path):
    job = load(with_readings(tmp_path, "", "sorrel"))
    many = ranked_stacks(job, wish(job, Options(segments="12", by="cuts", boards="21.3"))).found
    stack = solve(job).stack
    assert len(many) == 1  # the board is the job's own
    assert many.outer[0] == pytest.approx([layer.ring.outer for layer in stack.layers], abs=0.12)
    assert many.radius[0] == pytest.approx(stack.largest_radius, abs=0.12)
    assert cuts(many, 1)[0] == sum(layer.ring.segments for layer in stack.layers)
    glue = job.workshop.glue
    joints = sum(
        12 * layer.ring.depth / np.cos(layer.ring.mitre) * layer.ring.height for layer in stack.layers
    )
    by_hand = 108 * (2.0 + glue.joint_time) + 9 * (13.0 + glue.joint_time) + glue.area_time * joints * 1e-6
    assert minutes(job, many, 1)[0] == pytest.approx(by_hand, rel=0.03)  # and the rings' faces


@pytest.mark.parametrize("by", [one for one in BY if one != "cost"])
def test_a_thousand_are_ordered_by_each_thing_that_may_matter(tmp_path: Path, by: By):
    job = load(with_readings(tmp_path, "", "sorrel"))
    boards = ",".join(str(16 + k / 4) for k in range(40))
    many = ranked_stacks(job, wish(job, Options(segments="6-56", boards=boards, by=by)))
    assert many.tried >= 1000
    assert len(many.found) == len(many.mirrored) > 100
    assert (many.found.smallest(0.0) >= job.rings.least_segment).all()
    assert (many.found.glue >= job.rings.least_glue).all()


@pytest.mark.parametrize("ways", [{"rings": "12"}, {"by": "cost"}])
def test_what_is_not_asked_of_a_vessel_is_refused(tmp_path: Path, ways: dict[str, str]):
    """Nor a cost without a price."""
    with pytest.raises(Refused) as refused:
        compare(with_readings(tmp_path, "", "sorrel"), Options(**ways))
    assert [finding.code for finding in refused.value.findings] == ["wrong-option"]


def test_the_command_names_a_file_by_what_it_changes(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    job = str(with_readings(tmp_path, "", "sorrel"))
    assert (
        main(["compare", job, "--segments", "8", "--boards", "25", "--best", "1", "--by", "cuts", "--json"])
        == 0
    )
    told = json.loads(capsys.readouterr().out)
    assert told["best"][0]["changes"] == {"rings.segments": 8, "rings.heights": 24.7}


def test_open_rings_have_no_last_joint(tmp_path: Path):
    """The foot is the one closed ring; the wider open ones are placed segment by segment."""
    job = with_readings(tmp_path, "", "sorrel")
    text = job.read_text("utf-8")
    assert "[rings]\n" in text
    job.write_text(text.replace("[rings]\n", '[reversing]\nhold = "none"\n\n[rings]\ngap = 3\n'), "utf-8")
    found = compare(job, Options(segments="12", best=1))
    stack = solve(found.job).stack
    closed = [layer.ring.radius for layer in stack.layers if layer.kind == "segments"]
    own = {figure.id: figure.value for figure in found.own.figures}
    assert own["gap"] == pytest.approx(max(closed) * 12 * np.radians(0.05))
    assert own["gap"] < 0.8 * stack.largest_radius * 12 * np.radians(0.05)
