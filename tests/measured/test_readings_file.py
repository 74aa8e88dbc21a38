"""The readings file: read with every fault at its line, written blank with every box of the book."""

from pathlib import Path

import pytest

from jigs.asked import toml_source
from jigs.asked.jobfile import load
from jigs.asked.key import Form
from jigs.asked.readings.read import readings_of
from jigs.asked.readings.readings import Readings
from jigs.forms.work import work
from jigs.measured.blank import blank_text
from jigs.measured.glued import OF_TORUS, OF_VESSEL
from jigs.measured.known import boxes
from jigs.sets.rack import prove
from jigs.words.findings import Refused
from tests.measured.garland import with_readings
from tests.work.works import work_of


def of(text: str, unit: str = "mm") -> Readings:
    return readings_of(toml_source.parse(text, "hoop.readings.toml"), unit)


def test_a_reading_has_its_instruments_accuracy_or_its_own():
    readings = of("[a.b]\ngap = 0.8\nfine = {reading = 0.81, accuracy = 0.01}\n[accuracy]\nfeeler = 0.04\n")
    assert readings.length("a.b.gap", "feeler").accuracy == 0.04
    assert (readings.length("a.b.fine").value, readings.length("a.b.fine").accuracy) == (0.81, 0.01)
    assert readings.length("a.b.none") is None


def test_lengths_are_in_the_files_unit_or_name_their_own():
    readings = of('unit = "in"\n[a.b]\ngap = 0.1\nlong = "38 mm"\n"up-to.2" = 1')
    assert readings.length("a.b.gap").value == pytest.approx(2.54)
    assert readings.length("a.b.long").value == 38
    assert readings.length("a.b.up-to.2").value == 25.4
    assert of("[a]\nb = 1", "in").length("a.b").value == 25.4


def test_dots_in_an_id_need_no_quotes():
    assert of("[shop.saws]\nsaw.kerf = 2.6").length("shop.saws.saw.kerf").value == 2.6
    assert of('[shop.saws]\n"saw.kerf" = 2.6').length("shop.saws.saw.kerf").value == 2.6


def test_a_box_left_out_of_several_is_no_reading():
    readings = of('[a.b]\nthick = [45.1, "", 45.3]\nno = ["", ""]')
    assert [one and one.value for one in readings.each("a.b.thick")] == [45.1, None, 45.3]
    assert readings.length("a.b.thick").value == pytest.approx(45.2)
    assert readings.length("a.b.no") is None


def test_angles_are_degrees_and_words_are_words():
    readings = of('[a.b]\nwedge = 10.25\ntilts = "left"')
    assert readings.angle("a.b.wedge").value == pytest.approx(0.178896, abs=1e-6)
    assert readings.entries["a.b.tilts"].text == "left"


@pytest.mark.parametrize(
    ("text", "code", "line"),
    [
        ("[a.b]\n\ngap = true", "bad-length", 3),
        ('[a.b]\ngap = "0.8 parsecs"', "bad-length", 2),
        ("[a.b]\ngap = 1e7", "out-of-range", 2),
        ("[a.b]\ngap = {reading = 1, accurate = 2}", "unknown-key", 2),
        ("[a.b]\ngap = {reading = 1, accuracy = 0}", "out-of-range", 2),
        ("[accuracy]\nruler = 1", "unknown-key", 2),
        ("[accuracy]\nrule = -1", "out-of-range", 2),
        ("accuracy = 3", "wrong-type", 1),
        ('unit = "ft"', "not-a-choice", 1),
        (f"[a.b]\ngap = [{', '.join(['1'] * 1001)}]", "too-many", 2),
    ],
)
def test_what_is_no_reading_is_refused_at_its_line(text: str, code: str, line: int):
    with pytest.raises(Refused) as refused:
        of(text)
    assert [(fault.code, fault.line) for fault in refused.value.findings] == [(code, line)]


def test_a_box_that_the_book_has_not_is_refused_with_the_nearest(tmp_path: Path):
    job = with_readings(tmp_path, "[wedge_rings.trial]\ngap-at-rym = 1\nthick-edge = [1, 2, 3, 4, 5]")
    proof = prove(load(job))
    with pytest.raises(Refused) as refused:
        work(proof.plan, proof.parts, proof.notes)
    first, second = refused.value.findings
    assert (first.code, first.line) == ("unknown-reading", 2)
    assert "wedge_rings.trial.gap-at-rim" in first.remedy
    assert (second.code, second.line) == ("too-many", 3)


def test_a_folder_in_the_place_of_the_readings_is_refused(tmp_path: Path):
    job = with_readings(tmp_path, "")
    readings = tmp_path / "garland.readings.toml"
    readings.unlink()
    readings.mkdir()
    with pytest.raises(Refused, match=r"garland\.readings\.toml: cannot be read: it is a folder"):
        load(job)


@pytest.mark.parametrize(("job", "form"), [("garland", "torus"), ("quoit", "torus"), ("sorrel", "vessel")])
def test_a_blank_file_has_every_box_of_the_book_and_reads_as_no_reading(job: str, form: Form):
    told = work_of(job)
    text = blank_text(told, form)
    assert not of(text).entries
    filled = text.replace('["",', "[1,").replace('[""]', "[1]").replace("=   #", "= 1  #")
    lines = [
        line.removeprefix("# ") if " = 1  #" in line or "= [1" in line else line
        for line in filled.splitlines()
    ]
    glued = OF_VESSEL if form == "vessel" else OF_TORUS
    assert of("\n".join(lines)).entries.keys() == {*boxes(told.operations), *glued}
