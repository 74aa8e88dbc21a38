"""The command: what it writes, what it keeps, what it refuses."""

import hashlib
import json
import shutil

import numpy as np
import pytest
from PIL import Image

from jigs.asked.jobfile import load
from jigs.cli import main
from jigs.files.manifest import input_print
from jigs.sets.look_stamp import stale_looks
from tests.jigs.looks.looking import CONFIGS

NAMES = ["perspective", "front", "edge", "unrolled"]


def looked(job, into, *options):
    return main(["look", str(job), "--into", str(into), "--size", "200", *options])


def digests(folder):
    return {file.name: hashlib.sha256(file.read_bytes()).hexdigest() for file in sorted(folder.iterdir())}


@pytest.fixture
def job(tmp_path):
    for name in ("garland", "shed"):
        shutil.copy(CONFIGS / f"{name}.toml", tmp_path)
    return tmp_path / "garland.toml"


def narrow(patch):
    """Draw the surface a quarter as wide: most of the time goes into its places."""
    patch.setattr("jigs.looks.run.UNROLLED", 512)


@pytest.fixture(autouse=True)
def quick(monkeypatch):
    narrow(monkeypatch)


@pytest.fixture(scope="module")
def trellis(tmp_path_factory):
    into = tmp_path_factory.mktemp("out")
    with pytest.MonkeyPatch.context() as patch:
        narrow(patch)
        assert looked(CONFIGS / "trellis.toml", into) == 0
    return into / "trellis" / "look"


def test_a_layup_is_drawn_both_ways(trellis):
    found = {file.name for file in trellis.iterdir()}
    pictures = {f"{name}{way}.png" for name in NAMES for way in ("", "-turned")}
    assert found == pictures | {"finished.glb", "look.json"}
    for name in NAMES:
        assert (trellis / f"{name}.png").read_bytes() != (trellis / f"{name}-turned.png").read_bytes()


@pytest.mark.parametrize("name", NAMES[:3])
def test_a_picture_has_the_size_asked_for_its_longer_side(trellis, name):
    with Image.open(trellis / f"{name}.png") as picture:
        assert picture.format == "PNG"
        assert picture.width == 200
        assert "date" not in " ".join(picture.info).lower()


def test_an_unrolled_picture_is_as_wide_as_is_meant(job, tmp_path, monkeypatch):
    monkeypatch.undo()
    assert looked(job, tmp_path) == 0
    with Image.open(tmp_path / "garland" / "look" / "unrolled.png") as picture:
        assert picture.width == 2048
        assert 442 < picture.height < 590  # the tube goes round as 54 to 250 at the rim; words


def test_words_stand_under_the_picture(trellis):
    for name in NAMES:
        pixels = np.asarray(Image.open(trellis / f"{name}.png").convert("L"))
        assert (pixels[-max(40, pixels.shape[1] // 20) :] < 120).any()
        assert (pixels[-3:] == 255).all()


def test_the_same_job_gives_the_same_bytes(job, tmp_path):
    for into in ("a", "b"):
        assert looked(job, tmp_path / into) == 0
    assert digests(tmp_path / "a" / "garland" / "look") == digests(tmp_path / "b" / "garland" / "look")


def test_pictures_with_mistakes_stand_beside_those_without(job, tmp_path, capsys):
    assert looked(job, tmp_path) == 0
    plain = digests(tmp_path / "garland" / "look")
    capsys.readouterr()
    assert looked(job, tmp_path, "--ring-size", "0.4", "--off-centre", "1/16 in", "--json") == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["verdict"] == "drawn"
    assert [said.split()[0] for said in answer["mistakes"]] == ["rings", "mounted"]
    assert answer["files"] == [*(f"{name}-mistakes.png" for name in NAMES), "finished-mistakes.glb"]
    both = digests(tmp_path / "garland" / "look")
    assert {name: both[name] for name in plain if name != "look.json"} == {
        name: digest for name, digest in plain.items() if name != "look.json"
    }
    assert both["front-mistakes.png"] != both["front.png"]
    assert looked(job, tmp_path) == 0
    assert digests(tmp_path / "garland" / "look") == both


def test_pictures_of_an_earlier_job_do_not_stay(job, tmp_path):
    assert looked(job, tmp_path, "--ring-size", "0.4") == 0
    (tmp_path / "garland" / "look" / "mine.txt").write_text("kept", "utf-8")
    job.write_text(job.read_text("utf-8").replace("tube_diameter = 54", "tube_diameter = 53"), "utf-8")
    assert looked(job, tmp_path) == 0
    found = {file.name for file in (tmp_path / "garland" / "look").iterdir()}
    assert found == {*(f"{name}.png" for name in NAMES), "finished.glb", "look.json", "mine.txt"}


def test_pictures_are_stale_once_the_job_changes_and_only_they(job, tmp_path):
    assert looked(job, tmp_path) == 0
    folder = tmp_path / "garland"
    (folder / "look" / "mine.txt").write_text("kept", "utf-8")
    before = input_print(load(job).sources)
    assert stale_looks(folder, before) == set()
    job.write_text(job.read_text("utf-8") + "# once more\n", "utf-8")
    after = input_print(load(job).sources)
    drawn = {*(f"look/{name}.png" for name in NAMES), "look/finished.glb", "look/look.json"}
    assert stale_looks(folder, after) == drawn
    assert stale_looks(tmp_path / "none", after) == set()


def test_a_failure_half_way_leaves_what_stood_there(job, tmp_path, monkeypatch, capsys):
    assert looked(job, tmp_path) == 0
    before = digests(tmp_path / "garland" / "look")

    def full(*_):
        raise OSError(28, "No space left on device", "finished.glb")

    monkeypatch.setattr("jigs.looks.run.glb", full)
    assert looked(job, tmp_path, "--ring-size", "0.3") == 1
    assert "No space left" in capsys.readouterr().err
    assert digests(tmp_path / "garland" / "look") == before
    assert [file.name for file in (tmp_path / "garland").iterdir()] == ["look"]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--layup-off", "0.5"], "no layup"),
        (["--ring-size", "-1"], "no minus, or leave it out"),
        (["--ring-size=-1 mm"], "no minus, or leave it out"),
        (["--off-centre", "90"], "use at most"),
        (["--ring-size", "thick"], "not a length"),
        (["--size", "10"], "--size"),
        (["--size", "1e3"], '--size: "1e3" is not a whole number. write up to 9 digits'),
        (["--seed", "-4"], "--seed"),
        (["--seed", "lucky"], '--seed: "lucky" is not a whole number'),
    ],
    ids=lambda value: value if isinstance(value, str) else " ".join(value),
)
def test_wrong_options_are_refused_and_nothing_is_written(job, tmp_path, capsys, options, said):
    asked = ["look", str(job), "--into", str(tmp_path / "out"), *options]
    assert main(asked) == 1
    assert said in capsys.readouterr().err.lower()
    assert not (tmp_path / "out" / "garland" / "look").exists()


@pytest.mark.parametrize("value", ["-3mm", "-1/8in", "--json"])
def test_a_value_that_looks_like_an_option_is_wrong_usage_and_says_what_would_do(
    job, tmp_path, capsys, value
):
    with pytest.raises(SystemExit) as ended:
        looked(job, tmp_path, "--ring-size", value)
    assert ended.value.code == 2
    assert (
        "--ring-size: expected one argument; write its value after it, without a minus"
        in capsys.readouterr().err
    )


def test_names_without_a_colour_are_said(job, tmp_path, capsys):
    text = job.read_text("utf-8").replace("core_opening = 20", 'core_opening = 20\nspecies = "snakewood"')
    job.write_text(text, "utf-8")
    assert looked(job, tmp_path, "--json") == 0
    assert json.loads(capsys.readouterr().out)["made_up_colours"] == ["snakewood"]
