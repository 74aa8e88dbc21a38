"""Staves, and slices of their tubes, are refused where no sled holds them."""

from __future__ import annotations

from pathlib import Path

import pytest

from jigs.findings import Finding, Refused
from jigs.jobfile import parse
from jigs.remedies.offered import remedies
from jigs.solve import solve
from jigs.toml_source import parse as read
from tests.jigs.vessel.jobs import text as vessel_text
from tests.jigs.wood.wood_jobs import STAVES, torus_text

OWN = "own_stave_sled = true"
TEXTS = {"vessel": vessel_text("staved"), "torus": torus_text(STAVES)}
KEYS = {"vessel": "staves.low", "torus": "form.route"}


def refusals(text: str) -> list[Finding]:
    try:
        solve(parse(text, "job.toml"))
    except Refused as refused:
        return list(refused.findings)
    return []


@pytest.mark.parametrize("form", TEXTS)
def test_staves_without_a_sled_of_ones_own_are_refused(form: str) -> None:
    (finding,) = refusals(TEXTS[form].replace(OWN, ""))
    assert (finding.code, finding.key) == ("stave-not-held", KEYS[form])
    assert "under the cut" in finding.message


@pytest.mark.parametrize("form", TEXTS)
def test_staves_on_a_sled_of_ones_own_are_not(form: str) -> None:
    assert refusals(TEXTS[form]) == []


@pytest.mark.parametrize(
    ("form", "first"),
    [
        ("vessel", {"staves.low": None, "staves.high": None, "staves.count": None}),
        ("torus", {"form.route": "segments"}),
    ],
)
def test_segments_instead_are_offered_and_pass(form: str, first: dict[str, object]) -> None:
    sets = remedies(read(TEXTS[form].replace(OWN, ""), "job.toml"), Path("job.toml"), most=1)
    assert sets is not None
    assert {change.key: change.value for change in sets[0].changes} == first
    assert all("own_stave_sled" not in change.key for one in sets for change in one.changes)
