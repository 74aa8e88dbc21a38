"""The commands as a user meets them: exit status, --json, and never a traceback."""

from __future__ import annotations

import json
import resource
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from jigs.cli import main

ROOT = Path(__file__).parents[2]
CONFIGS = ROOT / "configs"
DEMO = str(CONFIGS / "garland.toml")
JOBS = ["garland", "millwheel", "quoit"]


def ran(*arguments: str, cwd: Path = ROOT, **more) -> subprocess.CompletedProcess[str]:
    environment = {"PYTHONPATH": str(ROOT), "PATH": "/usr/bin:/bin", "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        [sys.executable, "-m", "jigs", *arguments], cwd=cwd, capture_output=True, text=True, check=False,
        timeout=60, env=environment, stdin=subprocess.DEVNULL, **more,
    )  # fmt: skip


def test_it_runs_as_a_module_from_any_folder(tmp_path):
    ended = ran("check", DEMO, cwd=tmp_path)
    assert (ended.returncode, ended.stderr) == (0, "")
    assert "Outer diameter" in ended.stdout
    assert list(tmp_path.iterdir()) == []


def test_it_says_its_version(capsys):
    from jigs import __version__

    with pytest.raises(SystemExit) as ended:
        main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr().out == f"jigs {__version__}\n"


@pytest.mark.parametrize("job", JOBS)
def test_check_proves_every_example(job, capsys):
    assert main(["check", str(CONFIGS / f"{job}.toml")]) == 0
    shown = capsys.readouterr().out
    assert "wedge rings" in shown
    assert "nan" not in shown.split()


@pytest.mark.parametrize("job", JOBS)
def test_check_answers_scripts_in_json(job, capsys):
    assert main(["check", str(CONFIGS / f"{job}.toml"), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out, parse_constant=pytest.fail)
    assert isinstance(answer, dict)
    assert "sled-wedge" in json.dumps(answer)


def test_make_tells_its_files_and_a_second_one_that_nothing_changed(tmp_path, capsys):
    assert main(["make", DEMO, "--into", str(tmp_path), "--json"]) == 0
    made = json.loads(capsys.readouterr().out)
    assert made["verdict"] == "made"
    assert all((Path(made["folder"]) / file).is_file() for file in made["files"])
    assert main(["make", DEMO, "--into", str(tmp_path), "--json"]) == 0
    again = json.loads(capsys.readouterr().out)
    assert (again["verdict"], sorted(again["files"])) == ("unchanged", sorted(made["files"]))
    assert main(["make", DEMO, "--into", str(tmp_path)]) == 0
    assert "nothing changed" in capsys.readouterr().out


@pytest.fixture
def refused_job(tmp_path):
    text = Path(DEMO).read_text("utf-8").replace("core_opening = 20", "core_opening = 50")
    shutil.copy(CONFIGS / "shed.toml", tmp_path)
    (tmp_path / "hoop.toml").write_text(text, "utf-8")
    return str(tmp_path / "hoop.toml")


@pytest.mark.parametrize("command", ["check", "make"])
def test_a_refusal_ends_with_1_and_names_file_line_key_and_what_would_do(
    command, refused_job, capsys, monkeypatch
):
    monkeypatch.chdir(Path(refused_job).parent)
    assert main([command, refused_job]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert "hoop.toml:12: form.core_opening: " in said.err
    assert "\n  core_opening = " in said.err
    assert not (Path(refused_job).parent / "outputs" / "hoop").exists()


@pytest.mark.parametrize("command", ["check", "make"])
def test_a_refusal_in_json_has_every_finding(command, refused_job, capsys, tmp_path):
    extra = ["--into", str(tmp_path / "out")] if command == "make" else []
    assert main([command, refused_job, "--json", *extra]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert answer["verdict"] == "refused"
    keys = [finding["key"] for finding in answer["findings"]]
    assert keys == ["form.core_opening"] * 2, "too wide for the wall, and for the draw rod's plug"
    assert answer["findings"][0]["line"] == 12


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["mak", "job.toml"],
        ["make"],
        ["check", "a", "b"],
        ["check", DEMO, "--yaml"],
        ["new", "x.toml", "--unit", "ell"],
        ["new", "x.toml", "--form", "ball"],
    ],
    ids=" ".join,
)
def test_wrong_usage_ends_with_2(arguments, capsys):
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    assert "usage: jigs" in capsys.readouterr().err


GARBAGE = {
    "empty": b"",
    "words": b"make me a ring",
    "binary": bytes(range(256)),
    "unclosed": b'title = "ring',
    "wrong types": b'title = 3\nunit = []\nform = "x"\n[saw]\nkerf = {}\n',
    "deep": b"a = " + b"[" * 5000,
    "huge numbers": b"[form]\nouter_diameter = 1e400\ntube_diameter = 999999999999999999999999\nwedge_rings = nan",
    "negative": b"[form]\nouter_diameter = -5\ntube_diameter = -1\nwedge_rings = -2\nsegments = 0\ncore_opening = -1",
    "nul": b'title = "a\\u0000b"\nname = "../../etc"\nworkshop_file = "\\u0000"\n',
}  # fmt: skip


@pytest.mark.parametrize("as_json", [[], ["--json"]], ids=["people", "scripts"])
@pytest.mark.parametrize("command", ["check", "make"])
@pytest.mark.parametrize("name", GARBAGE)
def test_garbage_is_refused_in_words(name, command, as_json, tmp_path, capsys):
    job = tmp_path / "ring.toml"
    job.write_bytes(GARBAGE[name])
    extra = ["--into", str(tmp_path / "out")] if command == "make" else []
    assert main([command, str(job), *as_json, *extra]) == 1
    said = capsys.readouterr()
    if as_json:
        assert json.loads(said.out)["findings"]
    else:
        assert said.err.startswith("refused: ")
        assert "ring.toml" in said.err
    assert not (tmp_path / "out" / "ring").exists()


@pytest.mark.parametrize("path", ["missing.toml", ".", "a/b/c.toml", "x" * 300, "nul\0.toml"])
def test_a_job_that_cannot_be_read_is_refused(path, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["check", path]) == 1
    assert "refused: " in capsys.readouterr().err


@pytest.mark.parametrize("typed", ["cup", "cpu.toml", "Cup.toml"])
def test_a_job_whose_name_is_a_slip_is_answered_with_the_one_beside_it(tmp_path, capsys, typed):
    (tmp_path / "cup.toml").write_text("", "utf-8")
    assert main(["check", str(tmp_path / typed)]) == 1
    assert f"Did you mean {tmp_path / 'cup.toml'}?" in capsys.readouterr().err
    assert main(["check", str(tmp_path / "hoop.toml")]) == 1
    assert "Check the name and the folder" in capsys.readouterr().err


def test_wrong_usage_of_the_module_ends_with_2_and_no_traceback():
    ended = ran("nonsense")
    assert ended.returncode == 2
    assert "Traceback" not in ended.stderr


def test_a_reader_that_goes_away_is_no_error_to_shout_about(tmp_path):
    piped = f"{sys.executable} -m jigs check {DEMO} | head -n 1"
    ended = subprocess.run(
        piped, shell=True, cwd=ROOT, capture_output=True, text=True, check=False, timeout=60
    )
    assert "Traceback" not in ended.stderr
    assert "Exception" not in ended.stderr


def test_new_writes_a_job_that_checks(tmp_path, capsys):
    file = tmp_path / "my hoop.toml"
    sizes = ["--outer-diameter", "300 mm", "--tube-diameter", "50", "--wedge-rings", "18", "--segments", "8"]
    assert main(["new", str(file), *sizes]) == 0
    assert capsys.readouterr().out.endswith(f'next: jigs check "{file}"\n')
    assert main(["check", str(file)]) == 0
    assert "300" in capsys.readouterr().out


def test_new_takes_inches_and_a_workshop(tmp_path, capsys):
    shutil.copy(CONFIGS / "shed.toml", tmp_path)
    file = tmp_path / "hoop.toml"
    sizes = [
        "--outer-diameter",
        "9 3/4",
        "--tube-diameter",
        "2 1/8 in",
        "--wedge-rings",
        "16",
        "--segments",
        "8",
    ]
    assert main(["new", str(file), *sizes, "--unit", "in", "--workshop", "shed", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["file"] == str(file)
    assert main(["check", str(file)]) == 0
    assert "9.750 in (9 3/4)" in capsys.readouterr().out


VESSEL = ["--form", "vessel", "--wall", "6", "--ring-height", "20", "--segments", "12", "--species", "maple"]


def test_new_writes_a_vessel_that_loads(tmp_path, capsys):
    from jigs.asked.jobfile import load

    file = tmp_path / "bowl.toml"
    assert main(["new", str(file), *VESSEL, "--stations", "0 70, 40 110, 90 80"]) == 0
    assert "jigs check" in capsys.readouterr().out
    job = load(file)
    assert (job.outside.stations, job.wall.thickness, job.rings.species) == ((0, 40, 90), 6, (("maple",),))
    assert main(["new", str(tmp_path / "no.toml"), *VESSEL, "--stations", "0 70, 40"]) == 1
    assert "refused: --stations: " in capsys.readouterr().err
    assert not (tmp_path / "no.toml").exists()


def test_new_refuses_an_option_of_the_other_form(tmp_path, capsys):
    file = tmp_path / "bowl.toml"
    assert main(["new", str(file), *VESSEL, "--stations", "0 70, 40 110", "--tube-diameter", "50"]) == 1
    assert "--tube-diameter is not asked of a vessel" in capsys.readouterr().err
    assert main(["new", str(file), "--wall", "6"]) == 1
    assert "use --form vessel" in capsys.readouterr().err
    assert not file.exists()


TORUS = ["--outer-diameter", "250", "--tube-diameter", "54", "--wedge-rings", "18", "--segments", "8"]


def test_new_says_where_the_species_of_a_torus_are_written(tmp_path, capsys):
    from jigs.asked.jobfile import load

    file = tmp_path / "hoop.toml"
    assert main(["new", str(file), *TORUS, "--species", "ash"]) == 1
    said = capsys.readouterr().err
    assert "--species is not asked of a torus" in said
    assert "write species in [form]" in said
    assert "vessel" not in said
    assert main(["new", str(file), *TORUS]) == 0
    text = file.read_text("utf-8").replace('# species = ["maple"]', 'species = "ash"')
    file.write_text(text, "utf-8")
    assert load(file).form.species == (("ash",),)


def test_new_without_a_terminal_makes_no_answers_up(tmp_path):
    ended = ran("new", "hoop.toml", cwd=tmp_path)
    assert ended.returncode == 1
    assert "--outer-diameter" in ended.stderr
    assert "--segments" in ended.stderr, "all that is missing at once"
    assert "--wood" not in ended.stderr, "it may be left out"
    assert "Traceback" not in ended.stderr
    assert list(tmp_path.iterdir()) == []


def test_new_never_writes_over_a_file(tmp_path, capsys):
    file = tmp_path / "hoop.toml"
    file.write_text("mine", "utf-8")
    assert main(["new", str(file)]) == 1
    assert "there already" in capsys.readouterr().err
    assert file.read_text("utf-8") == "mine"


@pytest.mark.parametrize(
    ("option", "value"), [("--wedge-rings", "15"), ("--outer-diameter", "12 ells"), ("--segments", "many")]
)
def test_new_refuses_wrong_answers_and_writes_nothing(tmp_path, capsys, option, value):
    answers = {"--outer-diameter": "250", "--tube-diameter": "54", "--wedge-rings": "18", "--segments": "8"}
    flags = [word for pair in {**answers, option: value}.items() for word in pair]
    assert main(["new", str(tmp_path / "hoop.toml"), *flags]) == 1
    assert f"refused: {option}: " in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_new_where_nothing_can_be_written_is_refused(tmp_path, capsys):
    answers = ["--outer-diameter", "250", "--tube-diameter", "54", "--wedge-rings", "18", "--segments", "8"]
    assert main(["new", str(tmp_path / "no" / "such" / "hoop.toml"), *answers]) == 1
    assert "refused: " in capsys.readouterr().err


@pytest.mark.parametrize(
    "asked",
    [
        ["new", "ring.toml", "--form", "vessel", "--stations", "0 70, 60 90", "--wall", "6", "--ring-height", "20",
         "--segments", "12", "--species", "ash"],
        ["measured", "garland.toml", "--blank"],
        ["compare", "garland.toml", "--rings", "16", "--segments", "8", "--write"],
        ["schema", "."],
    ],
    ids=lambda asked: asked[0],
)  # fmt: skip
def test_a_file_that_the_disk_has_no_room_for_leaves_nothing_and_what_was_there(tmp_path, asked):
    """Cut off, it would be refused as there already, or stand in the place of one that was whole."""
    for name in ("garland.toml", "shed.toml", "job.schema.json"):
        shutil.copy(CONFIGS / name, tmp_path)
    before = {file.name: file.read_bytes() for file in tmp_path.iterdir()}
    ended = ran(*asked, cwd=tmp_path, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (60, 60)))
    assert ended.returncode == 1
    assert "too large" in ended.stderr
    assert {file.name: file.read_bytes() for file in tmp_path.iterdir()} == before


def test_schema_writes_the_files_that_are_checked_in(tmp_path, capsys):
    assert main(["schema", str(tmp_path), "--json"]) == 0
    names = json.loads(capsys.readouterr().out)["files"]
    assert names == sorted(file.name for file in tmp_path.iterdir())
    assert names == sorted(file.name for file in CONFIGS.glob("*.schema.json"))
    for name in names:
        assert (tmp_path / name).read_text("utf-8") == (CONFIGS / name).read_text("utf-8")


def test_schema_names_the_files_that_it_wrote(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert main(["schema", "."]) == 0
    told = capsys.readouterr().out.split()
    assert told == ["job.schema.json", "workshop.schema.json"]
    assert all((tmp_path / name).is_file() for name in told)


def test_schema_into_no_folder_is_refused(tmp_path, capsys):
    assert main(["schema", str(tmp_path / "none")]) == 1
    assert "none" in capsys.readouterr().err


def copied(folder):
    for name in ("garland.toml", "shed.toml"):
        (folder / name).write_text((CONFIGS / name).read_text("utf-8"), "utf-8")
    return folder / "garland.toml"


def test_a_dry_fit_names_no_folder_that_is_taken_anyway(tmp_path, capsys, monkeypatch):
    job = copied(tmp_path)
    monkeypatch.chdir(tmp_path)
    assert main(["dry-fit", job.name]) == 1
    assert f"Run jigs make {job.name} first" in capsys.readouterr().err


def test_a_dry_fit_needs_a_set_made_from_this_job(tmp_path, capsys):
    job = copied(tmp_path)
    into = ["--into", str(tmp_path / "out")]
    assert main(["dry-fit", str(job), *into]) == 1
    told = capsys.readouterr().err
    assert f"{tmp_path / 'out' / 'garland'} is not there" in told
    assert f"jigs make {job} --into {tmp_path / 'out'}" in told
    assert main(["make", str(job), *into]) == 0
    capsys.readouterr()
    assert main(["dry-fit", str(job), *into, "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["verdict"] == "fits"
    assert all(check["fits"] for check in answer["checks"])
    assert (tmp_path / "out" / "garland" / "dry-fit.svg").read_text("utf-8").startswith("<svg")
    job.write_text(job.read_text("utf-8").replace("tube_diameter = 54", "tube_diameter = 53"), "utf-8")
    assert main(["dry-fit", str(job), *into]) == 1
    assert "as it stands now" in capsys.readouterr().err
