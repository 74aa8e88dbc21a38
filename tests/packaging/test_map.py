"""The map in DEVELOPERS.md names every room and is short; a room from which all is made names its modules itself."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MAP = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def _modules(room: str) -> set[str]:
    return {path.stem for path in (ROOT / room).glob("*.py") if not path.stem.startswith("__")}


def test_every_room_and_the_modules_at_the_root_are_on_the_map():
    rooms = {
        path.parent.name for room in ("jigs", "geometry") for path in (ROOT / room).glob("*/__init__.py")
    }
    assert rooms
    assert (rooms | _modules("jigs")) - set(re.findall(r"\w+", MAP)) == set()


def test_the_map_is_read_at_a_glance():
    rows = [
        row for row in MAP.partition("## The map")[2].partition("\n## ")[0].splitlines() if row[:1] == "|"
    ]
    assert len(rows) < 30
    assert max(map(len, rows)) < 200


@pytest.mark.parametrize("room", ["jigs/asked", "jigs/parts"])
def test_a_room_from_which_all_is_made_names_its_modules(room):
    said = set(re.findall(r"\w+", (ROOT / room / "__init__.py").read_text("utf-8")))
    assert _modules(room) - said == set()
