"""The map in DEVELOPERS.md names every room, and every module of those that everything is made from."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
EACH = ("jigs", "jigs/asked", "jigs/parts")  # of the other rooms the map says what their modules are


def test_every_room_and_the_modules_at_the_root_of_all_are_on_the_map():
    named = set(re.findall(r"\w+", (ROOT / "DEVELOPERS.md").read_text("utf-8")))
    rooms = [path.parent for room in ("jigs", "geometry") for path in (ROOT / room).glob("*/__init__.py")]
    modules = [path for room in EACH for path in (ROOT / room).glob("*.py") if not path.stem.startswith("__")]
    assert rooms
    assert {path.stem for path in (*rooms, *modules)} - named == set()
