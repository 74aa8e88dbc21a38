"""Staves that their sled does not hold are refused; wider ones are offered."""

from __future__ import annotations

from pathlib import Path

import pytest

from jigs.asked.jobfile import parse
from jigs.asked.toml_source import parse as read
from jigs.forms.solve import solve
from jigs.remedies.offered import remedies
from jigs.words.findings import Finding, Refused
from tests.jigs.vessel.jobs import text as vessel_text

NARROW = vessel_text("staved").replace("count = 16", "count = 24")


def refusals(text: str) -> list[Finding]:
    try:
        solve(parse(text, "job.toml"))
    except Refused as refused:
        return list(refused.findings)
    return []


def test_staves_too_narrow_for_their_sled_are_refused_and_wider_ones_are_offered() -> None:
    assert "stave-not-held" in {finding.code for finding in refusals(NARROW)}
    sets = remedies(read(NARROW, "job.toml"), Path("job.toml"), most=1)
    assert sets
    assert {change.key for change in sets[0].changes} <= {"staves.count", "staves.high"}


@pytest.mark.parametrize("sheet", [12, 30])
def test_staves_lower_than_their_stops_are_refused(sheet: int) -> None:
    found = {finding.code for finding in refusals(vessel_text("staved", more=f"[boards]\nsheet = {sheet}\n"))}
    assert ("stave-not-held" in found) == (sheet == 30)
