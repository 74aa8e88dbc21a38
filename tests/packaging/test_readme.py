"""What the README shows of a job is what the tool answers."""

from pathlib import Path
from shutil import copy

from jigs.cli import main

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text("utf-8")


def test_the_refusal_shown_is_that_of_the_job_shown_with_too_large_a_core(tmp_path, monkeypatch, capsys):
    job = README.partition("A torus has a `[form]`:\n\n```toml\n")[2].partition("```")[0]
    assert "core_opening = 20 " in job
    (tmp_path / "hoop.toml").write_text(job.replace("core_opening = 20 ", "core_opening = 44 "), "utf-8")
    copy(ROOT / "configs" / "shed.toml", tmp_path)
    monkeypatch.chdir(tmp_path)
    assert main(["check", "hoop.toml"]) == 1
    shown = README.partition("$ jigs check hoop.toml\n")[2].partition("```")[0]
    said = capsys.readouterr()
    assert said.err + said.out == shown
