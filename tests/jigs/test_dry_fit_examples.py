"""The dry fit of every example: all fits, and every jig is tried."""

from __future__ import annotations

from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.dryfit.files import Files
from jigs.dryfit.fit import lettering
from jigs.dryfit.torus import dry_fit

CONFIGS = Path(__file__).parents[2] / "configs"


@pytest.fixture
def opened(monkeypatch):
    """Names of the parts that groups of the dry fit open; what is looked at of every drawing alike does not count."""
    names, read = set(), Files._found
    counts = [True]

    def found(files, name):
        names.update([name] if counts[0] else [])
        return read(files, name)

    def of_all_alike(files):
        counts[0] = False
        try:
            return lettering(files)
        finally:
            counts[0] = True

    monkeypatch.setattr(Files, "_found", found)
    for room in ("fit.lettering", "vessel.run.lettering"):
        monkeypatch.setattr(f"jigs.dryfit.{room}", of_all_alike)
    return names


def test_every_example_fits_and_every_jig_of_it_is_tried(made, opened):
    found = dry_fit(load(CONFIGS / f"{made.folder.name}.toml"), made.folder)
    assert not found.misfits + found.faults
    assert len(found.checks) > 400
    jigs = {part.piece_of or part.name for part in made.parts if not part.jig.untried}
    assert jigs <= opened
