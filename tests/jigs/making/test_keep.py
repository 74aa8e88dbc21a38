"""A key that only follows another: as it was, it keeps old jigs right; the line that says so has been tried."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.sets.changes_told import changes_text
from jigs.sets.keep import typed
from jigs.sets.made import Made
from jigs.sets.make import make

SLEDS = True

CONFIGS = Path(__file__).parents[3] / "configs"
SLED = {"sled-wedge", "sled-base", "sled-rod-stick", "end-wedge"}  # its runner serves either kerf


def with_kerf(folder: Path, kerf: float, more: str = "", into: str = "made") -> Made:
    """Garland made with this kerf, and another line under [form]."""
    shutil.copy(CONFIGS / "shed.toml", folder)
    text = (CONFIGS / "garland.toml").read_text("utf-8").replace("[form]\n", f"[form]\n{more}")
    file = folder / "garland.toml"
    file.write_text(f"{text}\n[saw]\nkerf = {kerf}\n", "utf-8")
    return make(load(file), folder / into)


def test_another_kerf_says_which_clean_up_keeps_the_sled_and_it_does(tmp_path):
    with_kerf(tmp_path, 2.8)
    shutil.copytree(tmp_path / "made", tmp_path / "again")
    made = with_kerf(tmp_path, 3.4)
    (keep,) = made.keep
    assert (keep.table, keep.line) == ("form", "clean_up = 3.8")
    assert set(keep.jigs) >= SLED
    assert {name for name, _ in made.wrong} >= SLED
    assert "  clean_up = 3.8" in changes_text(made).splitlines()
    kept = with_kerf(tmp_path, 3.4, f"{keep.line}\n", "again")
    assert not set(keep.jigs) & {name for name, _ in kept.wrong}
    assert kept.keep == ()


@pytest.mark.parametrize(("kerf", "more"), [(4.2, ""), (3.4, "clean_up = 5\n")])
def test_no_clean_up_is_offered_that_is_less_than_the_kerf_or_that_the_job_states(kerf, more, tmp_path):
    """The old set's followed its kerf; a turner who states another wants it."""
    with_kerf(tmp_path, 2.8)
    made = with_kerf(tmp_path, kerf, more)
    assert {name for name, _ in made.wrong} >= {"sled-wedge", "sled-base"}
    assert made.keep == ()


def test_what_is_kept_is_typed_in_the_jobs_own_unit() -> None:
    """To a millionth of an inch, for the sled's stop follows it."""
    assert (typed(4.365625, "in"), typed(3.8, "mm")) == (0.171875, 3.8)
