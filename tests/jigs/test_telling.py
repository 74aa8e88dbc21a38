"""What reaches a terminal or a spreadsheet: nothing in a file steers it, and no made set is called refused."""

from __future__ import annotations

import csv
import io
import json
import os
import shutil
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.render.tables_csv import csv_tables
from jigs.telling import plain
from tests.jigs.job_texts import CONFIGS, ROOT, SOUND
from tests.work.reading import work_for


def jigs(*arguments: object, **options) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "jigs", *map(str, arguments)]
    wanted = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True, "timeout": 120, **options}
    return subprocess.run(command, cwd=ROOT, check=False, **wanted)


@pytest.fixture
def job_file(tmp_path):
    for name in ("garland.toml", "shed.toml"):
        shutil.copy(CONFIGS / name, tmp_path)
    return tmp_path / "garland.toml"


@given(st.text())
def test_what_is_printed_shows_and_steers_nothing(text: str) -> None:
    told = plain(text)
    assert all(one.isprintable() or one in "\n\N{NO-BREAK SPACE}" for one in told)
    assert plain(text, "ascii").isascii()


@given(st.text())
def test_escaped_json_says_the_same(text: str) -> None:
    written = json.dumps({"said": text}, ensure_ascii=False)
    for encoding in ("utf-8", "ascii", "cp1252"):
        assert json.loads(plain(written, encoding)) == {"said": text}


def test_a_file_cannot_colour_clear_or_turn_round_the_terminal(tmp_path) -> None:
    file = tmp_path / "evil.toml"
    file.write_text(SOUND + 'lining = "\\u001b[2J\\u009b31m\\u202e"\n"\\u001b]0;x\\u0007" = 3\n', "utf-8")
    ended = jigs("check", file)
    assert ended.returncode == 1
    assert "\\u001b[2J" in ended.stderr
    assert all(one.isprintable() or one == "\n" for one in ended.stderr)
    answered = jigs("check", file, "--json")
    assert all(one.isprintable() or one == "\n" for one in answered.stdout)
    assert any("\x1b" in finding["message"] for finding in json.loads(answered.stdout)["findings"])


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="a device that is always full is Linux's")
def test_a_set_whose_report_cannot_be_written_is_made_and_not_refused(job_file) -> None:
    with open("/dev/full", "w") as full:
        ended = jigs("make", job_file, "--only", "coupon", "--into", job_file.parent, stdout=full)
    assert ended.returncode == 3
    assert ended.stderr.startswith("done, but the answer could not be written: No space left")
    assert "refused" not in ended.stderr
    assert "Traceback" not in ended.stderr
    assert (job_file.parent / "garland" / "manifest.json").exists()


def test_characters_that_the_terminal_cannot_show_stop_nothing(job_file) -> None:
    text = job_file.read_text("utf-8").replace('"Garland"', '"Größe Ø ↑"')
    job_file.write_text(text, "utf-8")
    ascii_only = {**os.environ, "PYTHONIOENCODING": "ascii"}
    ended = jigs("check", job_file, env=ascii_only)
    assert ended.returncode == 0
    assert "Gr\\u00f6\\u00dfe" in ended.stdout
    answered = jigs("check", job_file, "--json", env=ascii_only)
    assert answered.stdout.isascii()
    assert json.loads(answered.stdout)["verdict"] == "can be made"


def test_a_reader_that_stops_reading_is_no_fault(job_file) -> None:
    read, write = os.pipe()
    os.close(read)
    ended = jigs("check", job_file, stdout=write)
    os.close(write)
    assert (ended.returncode, ended.stderr) == (3, "")


@pytest.mark.parametrize("name", ["=1+1", "+49", "-walnut", "@ash"])
def test_a_wood_is_no_formula_and_negative_numbers_stay_numbers(name: str) -> None:
    plan = solve(parse(SOUND + f'species = "{name}"\n', "hoop.toml"))
    tables = csv_tables(work_for(plan))
    cells = {cell for text in tables.values() for row in csv.reader(io.StringIO(text)) for cell in row}
    assert f"'{name}" in cells
    starts = [cell for cell in cells if cell.startswith(("=", "+", "-", "@"))]
    assert all(float(cell) < 0 for cell in starts)
