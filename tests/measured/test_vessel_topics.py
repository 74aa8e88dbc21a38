"""A vessel's readings: the stack as it grew, the outside at its stations, the wall round the rim."""

from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.forms.vessel.plan import VesselPlan
from jigs.forms.work import work
from jigs.measured.advice import Advice
from jigs.sets.measured import measured
from jigs.sets.proof import Proof, draw
from tests.measured.garland import with_readings

STACK = "[stack.rings]\nup-to.2 = {}\nup-to.5 = {}"
EVEN = [7.05] * 8


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Proof:
    return draw(solve(load(with_readings(tmp_path_factory.mktemp("job"), "", "sorrel"))))


def advice(folder: Path, planned: Proof, readings: str) -> list[Advice]:
    """Jigs do not depend on these readings: they are those of the plan without any."""
    plan = solve(load(with_readings(folder, readings, "sorrel")))
    assert isinstance(plan, VesselPlan)
    return list(measured(plan, planned.parts, work(plan, planned.parts), folder / "out").advice)


@pytest.mark.parametrize(
    ("readings", "id", "verdict"),
    [
        ("[flat-segments.trial]\nring.light-at-rim = 0.4", "segment-angle.fences-n12", "correct"),
        ("[flat-segments.trial]\nring.light-at-core = 0.02", "segment-angle.fences-n12", "right"),
        (STACK.format(42.1, 105.3), "vessel.stack", "right"),
        (STACK.format(42, 107), "vessel.stack", "correct"),
        (STACK.format(42, 130), "vessel.stack", "short"),
        ("[outside.finished-stations]\nacross.rim = 100.6", "vessel.stations", "right"),
        ("[outside.finished-stations]\nacross.rim = 100.9\nacross.foot = 71", "vessel.stations", "correct"),
        (f"[inside.sand]\nwall = {EVEN}", "vessel.wall", "right"),
        ("[inside.sand]\nwall = [7, 7.14, 7.2, 7.14, 7, 6.86, 6.8, 6.86]", "vessel.wall", "correct"),
        (f"[inside.sand]\nwall = {EVEN[:5]}", "vessel.wall", "unclear"),
    ],
)
def test_a_vessels_topics(tmp_path: Path, planned: Proof, readings: str, id: str, verdict: str):
    found = advice(tmp_path, planned, readings)
    assert [(one.id, one.verdict) for one in found] == [(id, verdict)]


def test_the_next_ring_takes_up_what_the_stack_is_too_high(tmp_path: Path, planned: Proof):
    (found,) = advice(tmp_path, planned, STACK.format(42, 107))
    assert "Flatten ring 6 to 19.0 mm instead of 21.0 mm" in " ".join(found.says)


def test_an_inside_off_the_axis_is_found_with_its_place(tmp_path: Path, planned: Proof):
    (found,) = advice(tmp_path, planned, "[inside.sand]\nwall = [7, 7.14, 7.2, 7.14, 7, 6.86, 6.8, 6.86]")
    assert {q.id: q.value for q in found.found}["off"] == pytest.approx(0.2, abs=0.01)
