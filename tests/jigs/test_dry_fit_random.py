"""Any job is refused beforehand, or all of its files fit each other."""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from jigs.asked.job import Job
from jigs.asked.jobfile import load
from jigs.dryfit.report import fit_text
from jigs.dryfit.torus import dry_fit
from jigs.sets.make import make
from jigs.words.findings import Refused
from tests.jigs.random_jobs import job_texts, tenths
from tests.unset import jigs_and_sheets, jigs_made

QUICK = (Phase.explicit, Phase.reuse, Phase.generate)  # a failing job is slow to shrink
SAWS = ("table saw", "bandsaw", "auto")


@st.composite
def shops(draw: st.DrawFn) -> str:
    """Tables of a workshop that does some things otherwise."""
    bandsaw = draw(st.booleans())
    choice = (
        draw(st.sampled_from(SAWS if bandsaw else SAWS[::2])),
        draw(st.sampled_from(SAWS if bandsaw else SAWS[::2])),
    )
    made = draw(st.sampled_from([("gauges", "cut"), ("gauges", "paper"), ("sizes", "print"), ("sizes", "paper"),
                                 ("angles", "print"), ("angles", "paper"), ("holding", "paper")]))  # fmt: skip
    kerf = draw(tenths(0, 0.3))
    lines = [
        "[cutting]",
        f'wedge_rings = "{choice[0]}"',
        f'segments = "{choice[1]}"',
        f"plan_angle_sled = {str(draw(st.booleans())).lower()}",
        "[made]",
        f'{made[0]} = "{made[1]}"',
        "[cutter]",
        f'kerf = "{kerf} mm"',
        'bed = ["3000 mm", "3000 mm"]',
    ]
    band = ["[bandsaw]", 'height = "400 mm"', 'throat = "5000 mm"', f"drift = {draw(st.floats(-3, 3)):.2f}"]
    return "\n".join([*lines, *(band if bandsaw else [])])


def made_otherwise() -> st.SearchStrategy[str]:
    """Jobs on other saws, of other materials, cut by a cutter with a kerf."""
    return st.tuples(job_texts(), shops()).map(lambda pair: f"{pair[0]}\n{pair[1]}\n")


def made_with_sheets(job: Job, root: Path) -> Path:
    with jigs_and_sheets():
        return make(job, root).folder


def check(text: str, sheets: bool) -> None:
    """Make what is not refused, and put it together"""
    with tempfile.TemporaryDirectory() as root:
        file = Path(root) / "hoop.toml"
        file.write_text(text, "utf-8")
        job = load(file)
        try:
            folder = made_with_sheets(job, Path(root)) if sheets else jigs_made(job, Path(root))
        except Refused:
            assume(False)
        found = dry_fit(job, folder, sheets)
        assert not found.misfits, fit_text(found)


@settings(max_examples=3, deadline=None, phases=QUICK, suppress_health_check=list(HealthCheck))
@given(job_texts())
def test_what_is_not_refused_fits(text: str) -> None:
    check(text, sheets=False)


@settings(max_examples=2, deadline=None, phases=QUICK, suppress_health_check=list(HealthCheck))
@given(made_otherwise())
def test_what_is_not_refused_fits_however_it_is_made(text: str) -> None:
    check(text, sheets=True)
