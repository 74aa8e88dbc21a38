"""Which job `jigs page` opens where none is named."""

import io
import shutil

import pytest

from jigs.cli import main
from jigs.page.serve import jobs_in
from tests.conftest import CONFIGS


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("sys.stdin", io.StringIO())
    return tmp_path


def test_a_folder_without_a_job_says_how_to_make_one(folder, capsys):
    (folder / "broken.toml").write_text("[form\n", "utf-8")
    assert main(["page", "--no-browser"]) == 1
    assert "jigs new" in capsys.readouterr().err


def test_a_file_that_cannot_be_read_is_answered_with_what_would_do(folder, capsys):
    (folder / "cup.toml").mkdir()
    for typed, remedy in (
        ("cup", "Did you mean cup.toml?"),
        ("hoop.toml", "Make one: jigs new hoop.toml"),
        ("cup.toml", "it is a folder. Check the name and the folder"),
    ):
        assert main(["page", "--no-browser", typed]) == 1
        assert remedy in capsys.readouterr().err


def test_several_jobs_are_named_where_nobody_is_here_to_choose(folder, capsys):
    for name in ("garland.toml", "sorrel.toml", "shed.toml"):
        shutil.copy(CONFIGS / name, folder)
    (folder / "garland.readings.toml").write_text("", "utf-8")
    assert [file.name for file in jobs_in(folder)] == ["garland.toml", "sorrel.toml"]
    assert main(["page", "--no-browser"]) == 1
    told = capsys.readouterr().err
    assert "garland.toml, sorrel.toml" in told


def test_a_file_that_is_not_there_is_refused(folder, capsys):
    assert main(["page", "none.toml", "--no-browser"]) == 1
    assert "none.toml" in capsys.readouterr().err
