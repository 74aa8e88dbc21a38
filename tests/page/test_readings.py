"""Readings typed into the page reach the file beside the job, and what they come to is answered."""

import tomllib

import pytest

from jigs.asked.edited import BadEdit
from jigs.page.noted import Box, noted, stated
from tests.page.asking import until


@pytest.fixture
def file(kept_job):
    return kept_job.with_name("garland.readings.toml")


@pytest.fixture
def ready(kept_page, file):
    """The work is there, and no reading."""
    file.unlink(missing_ok=True)
    until(kept_page, lambda state: not state["readings"] and "work" in state["pieces"])


def note(page, id, *texts):
    return page.post("/api/reading", json={"id": id, "texts": list(texts)})


def test_a_reading_is_written_into_a_blank_file_and_answered(kept_page, file, ready):
    assert not file.exists()
    answer = note(kept_page, "wedge_rings.trial.gap-at-rim", "0.42")
    assert answer.status_code == 200
    assert answer.json()["readings"]["wedge_rings.trial.gap-at-rim"] == ["0.42"]
    text = file.read_text("utf-8")
    assert tomllib.loads(text)["wedge_rings"]["trial"] == {"gap-at-rim": 0.42}
    assert "# gap-at-hole = " in text
    read = until(kept_page, lambda state: state["slow"]["measured"])["slow"]["measured"]
    assert any(one["id"].startswith("wedge") and "correct" in one["head"] for one in read["advice"])

    note(kept_page, "wedge_rings.trial.thick-edge", "", "61.2", "", "61 1/4")
    assert tomllib.loads(file.read_text("utf-8"))["wedge_rings"]["trial"]["thick-edge"] == [
        "",
        61.2,
        "",
        "61 1/4",
    ]
    note(kept_page, "wedge_rings.trial.gap-at-rim", " ")
    assert "gap-at-rim" not in tomllib.loads(file.read_text("utf-8"))["wedge_rings"]["trial"]


def test_a_tab_that_enters_the_notch_without_play_is_a_reading(kept_page, file, ready):
    """The coupon has such a notch; the play planned until then is more than nothing."""
    assert note(kept_page, "coupon.read.printer.play", "0").status_code == 200
    assert tomllib.loads(file.read_text("utf-8"))["coupon"]["read"] == {"printer.play": 0}


def test_what_is_no_reading_is_not_written(kept_page, file, ready):
    for id, text in (
        ("wedge_rings.trial.gap-at-rim", "about 4"),
        ("wedge_rings.trial.gap-at-rim", "none"),
        ("wedge_rings.trial.gap-at-rim", "-0.1"),
        ("wedge_rings.trial.chord", "0"),
        ("shop.printer-and-cutter.cutter.kerf", "wide"),
        ("shop.printer-and-cutter.cutter.kerf", "11"),
        ("coupon.read.printer.play", "3"),
    ):
        assert note(kept_page, id, text).status_code == 422, (id, text)
        assert not file.exists()
    for text in (
        "9999",
        "9" * 4000,
        "1e400",
        "-1e400",
        "nan",
        "1979-05-27",
        "[1]",
        "1\n[x]\ny = 2",
        '"',
        "\0",
    ):
        assert note(kept_page, "wedge_rings.trial.gap-at-rim", text).status_code in (400, 422), text
    for id, texts in (("wedge_rings.trial.none", ["1"]), ("../garland", ["1"]), (3, ["1"]),
                      ("wedge_rings.trial.gap-at-rim", ["1", "2"]), ("wedge_rings.trial.gap-at-rim", [1])):  # fmt: skip
        assert kept_page.post("/api/reading", json={"id": id, "texts": texts}).status_code == 400, id
    assert not file.exists()


def test_a_reading_that_stops_the_job_is_taken_back(kept_page, file, ready):
    """A kerf out of all measure is one that no job is read with."""
    assert note(kept_page, "shop.printer-and-cutter.cutter.kerf", "900").status_code == 422
    assert not file.exists()


def test_a_readings_file_written_by_hand_is_followed(kept_page, file, ready):
    file.write_text("[wedge_rings.trial]\ngap-at-rim = 0.3 # mine\n", "utf-8")
    state = until(kept_page, lambda state: state["readings"])
    assert state["readings"] == {"wedge_rings.trial.gap-at-rim": ["0.3"]}
    until(kept_page, lambda state: "work" in state["pieces"])
    note(kept_page, "wedge_rings.trial.chord", "12")
    assert "gap-at-rim = 0.3 # mine" in file.read_text("utf-8")


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ('[a.b]\n"c.d" = 1 # here\n', {"a": {"b": {"c.d": 5}}}),
        ("[a]\nb.c.d = 1\n", {"a": {"b": {"c": {"d": 5}}}}),
        ("[a.b]\nc.d = { reading = 1, accuracy = 0.1 }\n", {"a": {"b": {"c": {"d": {"reading": 5, "accuracy": 0.1}}}}}),
        ("[a.b]\n# x = 1\n[e]\nf = 1\n", {"a": {"b": {"c.d": 5}}, "e": {"f": 1}}),
        ("[a.x]\ny = 1\n", {"a": {"x": {"y": 1}, "b": {"c.d": 5}}}),
        ("", {"a": {"b": {"c.d": 5}}}),
    ],
)  # fmt: skip
def test_a_reading_lands_where_its_file_has_it(text, after):
    fresh = noted(text, Box("a.b", "c.d", 1), ["5"])
    assert tomllib.loads(fresh) == after
    assert stated(fresh)["a.b.c.d"] == ["5"]
    assert [line for line in text.splitlines() if "#" in line and "here" not in line] == [
        line for line in fresh.splitlines() if "#" in line and "here" not in line
    ]


@pytest.mark.parametrize("text", ["[a", "a = 1\n", "[a]\nb = 1\n"])
def test_a_file_that_has_it_elsewhere_is_left_to_the_hand(text):
    with pytest.raises(BadEdit):
        noted(text, Box("a.b", "c.d", 1), ["5"])
