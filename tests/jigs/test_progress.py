"""What takes over a second shows on a terminal how far it is, and nowhere else."""

import io
import sys

import pytest

from jigs.asked.jobfile import load
from jigs.asked.toml_source import parse as parse_source
from jigs.compare.run import compare
from jigs.compare.wish import Options
from jigs.files.written import prove_files
from jigs.progress import progress_bar
from jigs.remedies.offered import remedies
from jigs.sets.rack import prove
from tests.conftest import CONFIGS


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("stream", "quiet", "shows"),
    [(Terminal, False, True), (Terminal, True, False), (io.StringIO, False, False)],
)
def test_a_bar_is_drawn_on_a_terminal_alone_and_taken_away_again(monkeypatch, stream, quiet, shows) -> None:
    monkeypatch.setattr("jigs.progress.PATIENCE", 0.0)
    monkeypatch.setattr(sys, "stderr", shown := stream())
    with progress_bar(quiet) as progress:
        progress(1, 4, "second")
    assert ("1/4 second" in shown.getvalue()) == shows
    assert shown.getvalue().endswith("\r" if shows else "")


@pytest.mark.parametrize(("columns", "room"), [("1", 1), ("50", 49), ("80", 79), ("200", 79)])
def test_no_line_is_longer_than_the_terminal(monkeypatch, columns, room) -> None:
    """What wraps stays on the screen, a line more with each step."""
    monkeypatch.setenv("COLUMNS", columns)
    monkeypatch.setattr("jigs.progress.PATIENCE", 0.0)
    monkeypatch.setattr(sys, "stderr", shown := Terminal())
    with progress_bar() as progress:
        progress(123, 150, "looking for what would do, and then for what else there may be")
    assert {len(line) for line in shown.getvalue().split("\r") if line} == {room}
    assert columns == "1" or "123/150" in shown.getvalue()


def steps_of(work) -> list[tuple[int, int]]:
    found = []
    work(lambda done, total, name: found.append((done, total)))
    return found


def test_the_proof_of_files_counts_every_part() -> None:
    proof = prove(load(CONFIGS / "quoit.toml"))
    found = steps_of(lambda progress: prove_files(proof.parts, proof.plan.job, progress))
    assert found == [(k, len(proof.parts)) for k in range(len(proof.parts))]


def test_the_search_for_what_would_do_never_goes_back() -> None:
    text = (CONFIGS / "garland.toml").read_text("utf-8").replace("core_opening = 20", "core_opening = 44")
    text = text.replace('workshop_file = "shed"', "")
    found = steps_of(
        lambda progress: remedies(parse_source(text, "hoop.toml"), CONFIGS / "hoop.toml", 1, progress)
    )
    assert [done for done, _ in found] == sorted(done for done, _ in found)
    assert len(found) > 3


def test_a_comparison_counts_the_ways_that_passed() -> None:
    ways = Options("16-20", "8-10", best=2)
    found = steps_of(lambda progress: compare(CONFIGS / "garland.toml", ways, progress=progress))
    assert sorted({*found}) == [(0, 4), (1, 4), (2, 4), (3, 4)]
    assert found == sorted(found)
