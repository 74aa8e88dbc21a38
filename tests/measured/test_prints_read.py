"""What a coupon and the first gauges come to as they were read."""

from pathlib import Path

import pytest

from jigs.asked.readings.machine import drawn_size, machine_fit
from jigs.parts.probes import ArcRadius
from jigs.parts.processes import as_chosen
from jigs.sets.measured import measured
from jigs.sets.rack import done_with, draw
from jigs.stages.coupon.parts import coupon
from tests.measured.garland import read
from tests.measured.test_topics import COUPON, SHRUNK, advice, plan_with, quantities
from tests.unset import jigs_made


def test_play_felt_on_a_coupon_that_errs_is_less_between_prints_that_do_not(tmp_path: Path):
    """Tabs 0.1 too large and, by the same wall, notches 0.1 too small: of 0.3 drawn, 0.1 is left between them."""
    large = "[coupon.read]" + COUPON.format(80.1, 40.1, 20.1, 10.1, 79.85, 39.85, 19.85, 9.85)
    plan = plan_with(tmp_path, f"{large}printer.play = 0.3\n")
    assert plan.job.workshop.printer.play == pytest.approx(0.1, abs=0.02)
    assert not [note for note in plan.notes if note.code == "reading-disagrees"]
    assert plan_with(tmp_path, "[coupon.read]\nprinter.play = 0.3").job.workshop.printer.play == 0.3
    assert plan_with(tmp_path, "[coupon.sheet]\nboards.play = 0.05").job.workshop.boards.play == 0.05


def told_by(folder: Path, readings: str, id: str) -> str:
    return " ".join(sentence for one in advice(folder, readings) if one.id == id for sentence in one.says)


def test_gauges_are_said_to_be_out_by_what_they_are_out_by(tmp_path: Path):
    errors = quantities(tmp_path, SHRUNK, "machine.made")
    worst = max(error for error in errors.values() if error <= 0.5)
    assert f"out by up to {worst:.2f} mm:" in told_by(tmp_path, SHRUNK, "machine.made")


def test_a_gauge_is_judged_by_what_the_machine_makes_of_its_outline(tmp_path: Path):
    """A hollow arc is as much too large as its wall makes outsides too small. Judged as an opening closed all round it
    would be out by three times as much, and what make draws for it too."""
    errors = quantities(tmp_path, SHRUNK, "machine.made")
    plan = plan_with(tmp_path, SHRUNK)
    machine, parts = drawn_size(plan.job), {part.name: part for part in draw(plan).parts}
    for name in ("outer-gauge-finished", "channel-gauge"):
        outline = parts[name].outline
        wanted = next(one.value for one in parts[name].dimensions if isinstance(one.probe, ArcRadius))
        made = zip(outline.edges(), machine.made_outline(outline).edges(), strict=True)
        radius = next(after.radius for edge, after in made if abs(edge.radius - wanted) < 1e-3)
        assert errors[f"error.{name}"] == pytest.approx(2 * abs(radius - wanted), abs=0.01)
    assert errors["error.outer-gauge-finished"] < 0.1 < errors["error.channel-gauge"]


def test_a_tilt_that_is_out_is_set_with_a_leaf_under_the_tilt_plate(tmp_path: Path):
    readings = "[segments.trial]\nring.light-at-{} = 0.4"
    more = told_by(tmp_path, readings.format("rim"), "segment-angle.tilt")
    less = told_by(tmp_path, readings.format("core"), "segment-angle.tilt")
    assert "at its end at the blade" in more
    assert "at its end away from the blade" in less
    assert "scale" not in more + less
    plate = next(part for part in draw(plan_with(tmp_path, "")).parts if part.name == "tilt-plate")
    on_table = [x for x, y in plate.outline.points.tolist() if y == 0]
    off = quantities(tmp_path, readings.format("rim"), "segment-angle.tilt")["tilt"]
    leaf = (max(on_table) - min(on_table)) * abs(off)
    assert f"leaf of {leaf:.2f} mm" in more


def test_a_key_that_was_read_is_acknowledged(tmp_path: Path):
    assert "Used for play in [printer]" in told_by(
        tmp_path, "[coupon.read]\nprinter.play = 0.3", "keys.printer.play"
    )


def test_a_coupon_in_inches_is_read_by_the_thousandths_that_its_boxes_are_named_by(tmp_path):
    boxes = ((500, 0.494, 0.488), (750, 0.744, 0.738), (1500, 1.494, 1.488), (3000, 2.994, 2.988))
    lines = [f"outside-{n}thou = {outside}\ninside-{n}thou = {inside}" for n, outside, inside in boxes]
    fit = machine_fit(read(tmp_path, "\n".join(["[coupon.read]", *lines]), "quoit").readings)
    assert fit is not None
    assert (fit.outside.value, fit.inside.value) == pytest.approx((-0.006 * 25.4, -0.012 * 25.4), abs=1e-6)
    assert fit.scale.value == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(("readings", "wrong"), [("", True), (SHRUNK, False)])
def test_a_coupon_of_another_shape_that_was_read_is_done_with(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, readings: str, wrong: bool
):
    """Its readings name the sizes that they are of, and these are the same on it. It was to be printed again."""
    plan = plan_with(tmp_path, readings)
    parts = draw(plan).parts
    out = jigs_made(plan.job, tmp_path / "out").parent
    monkeypatch.setattr("jigs.stages.coupon.parts.STEP", 10.0)
    other = as_chosen(coupon(plan)[0], plan.job.workshop)
    parts = tuple(other if part.name == "coupon" else part for part in parts)
    assert ("coupon" in dict(measured(plan, parts, out).wrong)) == wrong
    assert done_with(plan, parts) == (set() if wrong else {"coupon"}), (
        "the sheets' own coupon is not read by that"
    )
