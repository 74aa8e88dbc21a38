"""The dial's readings: what is within the limit, what is a slip, which row it stands in."""

from math import cos, pi
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.measured.wobble import wobble_advice
from tests.measured.garland import with_readings
from tests.measured.test_topics import DIAL, WAVE, turned


@pytest.mark.parametrize(
    ("inches", "verdict"), [(0.008, "right"), (0.009, "correct"), (0.012, "correct"), (0.013, "unclear")]
)
def test_a_runout_at_the_limit_that_the_book_shows_is_within_it(tmp_path: Path, inches: float, verdict: str):
    """0.2 and 0.3 mm are shown as 0.008 and 0.012 in, a hair more."""
    job = with_readings(tmp_path, f"[braced_mounting.start]\nrunout = {inches}", "quoit")
    plan = solve(load(job))
    (told,) = wobble_advice(plan, plan.runout, ("braced_mounting",))
    assert told.verdict == verdict


@pytest.mark.parametrize("at", range(8))
def test_a_slip_that_would_throw_the_work_is_named_an_oval_is_not(tmp_path: Path, at: int):
    """By 0.61 mm the runout found moves by 0.31 mm, more than may run out; an oval throws nothing."""
    oval = [one + 1.5 * cos(2 * 2 * pi * k / 8 + at) for k, one in enumerate(WAVE)]
    for wave, slip, verdict in ((WAVE, 0.61, "unclear"), (oval, 0.61, "unclear"), (oval, 0, "correct")):
        read = [round(one + slip * (k == at), 2) for k, one in enumerate(wave)]
        job = load(with_readings(tmp_path, DIAL.format(read, turned([-one for one in wave], 1)), "garland"))
        plan = solve(job)
        (told,) = wobble_advice(plan, plan.runout, ("reversed_mounting",))
        assert told.verdict == verdict
        assert (f"at angle {at + 1} " in told.says[0]) == (verdict == "unclear")


@pytest.mark.parametrize(
    ("first", "other", "named"),
    [
        ([*WAVE[:7], 21], turned(WAVE, -1), "The radial reading at angle 8 "),
        (WAVE, turned([-30, *WAVE[1:]], -1), "The radial-turned reading at angle 1 "),
    ],
)
def test_a_stray_reading_is_named_with_the_row_that_it_stands_in(tmp_path, first, other, named):
    plan = solve(load(with_readings(tmp_path, DIAL.format(first, other))))
    (told,) = wobble_advice(plan, plan.runout, ("reversed_mounting",))
    assert told.says[0].startswith(named)


@pytest.mark.parametrize("wave", [(0.0, 0.6, 0.0), (0.24, 0.0, -0.59)], ids=["oval", "hidden by a slip"])
def test_what_is_centred_and_not_round_is_not_left_as_it_stands(
    tmp_path: Path, wave: tuple[float, float, float]
):
    """1.2 mm of oval, or 0.48 mm that a slip of 0.59 mm hides, once were right: leave it."""
    out, oval, slip = wave
    turns = [2 * pi * k / 8 for k in range(8)]
    read = [round(out * cos(a) + oval * cos(2 * a) + slip * (a == 0), 2) for a in turns]
    plan = solve(load(with_readings(tmp_path, DIAL.format(read, ""), "garland")))
    (told,) = wobble_advice(plan, plan.runout, ("reversed_mounting",))
    assert told.verdict == "correct"
    assert "Leave it" not in " ".join(told.says)
    again, blend = told.says[-2:]
    assert again.startswith("Read all angles again: now,")
    assert blend.endswith("blend it by hand.")
