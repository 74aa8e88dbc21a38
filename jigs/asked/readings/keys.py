"""Values of keys that were typed as readings: the shop's boxes and the coupon's carry the keys' own names.

A file that states a key has the last word: it was written on purpose. Where it says another thing than the reading,
that is pointed out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from geometry.records import Record
from jigs.asked.job import Place
from jigs.asked.key import Key, Value, Wrong
from jigs.asked.keys import KEYS
from jigs.asked.readings.readings import Entry, Readings
from jigs.asked.values import read_value
from jigs.words.findings import Finding
from jigs.words.lengths import Unit, show_length

SECTIONS = (
    "coupon.read",
    "coupon.sheet",
    "shop.table-saw",
    "shop.bandsaw",
    "shop.sheets",
    "shop.lathe",
    "shop.printer-and-cutter",
)
SIDES = ("across", "deep")  # of a bed, a box each
_ALL = {key.path: key for key in KEYS}


class KeyReadings(Record):
    """Values by key, mm, and where each stands."""

    values: Mapping[str, Value]
    places: Mapping[str, Place]
    faults: tuple[Finding, ...]


def key_of(id: str) -> str:
    """The key that a reading's id names: "coupon.read.printer.play" is printer.play; else nothing."""
    section = next((one for one in SECTIONS if id.startswith(f"{one}.")), None)
    if section is None:
        return ""
    key = id.removeprefix(f"{section}.")
    bed, _, side = key.rpartition(".")
    return key if key in _ALL else bed if side in SIDES and bed in _ALL else ""


def key_readings(readings: Readings, known: Mapping[str, Value | None]) -> KeyReadings:
    """What the readings say of keys; the coupon, which is a part, before what was measured of the machine."""
    values: dict[str, Value] = {}
    places: dict[str, Place] = {}
    faults: list[Finding] = []
    for id in sorted(readings.entries, key=lambda id: not id.startswith("coupon.")):
        key, entry = key_of(id), readings.entries[id]
        if not key or (key in values and _ALL[key].kind != "bed"):
            continue
        try:
            values[key] = _value(_ALL[key], id, entry, values.get(key, known.get(key)))
            places[key] = Place(readings.file, entry.line)
        except Wrong as wrong:
            faults.append(Finding(wrong.code, wrong.message, wrong.remedy, id, readings.file, entry.line))
    return KeyReadings(values, places, tuple(faults))


def _value(key: Key, id: str, entry: Entry, before: Value | None) -> Value:
    if key.kind == "bed":
        sides: list[object] = list(before) if isinstance(before, tuple) else [0.0, 0.0]
        sides[SIDES.index(id.rpartition(".")[2])] = entry.lengths[0] if entry.lengths else None
        return read_value(key, sides, "mm")
    if entry.text:
        return read_value(key, entry.text, "mm")
    read = entry.lengths if key.kind == "length" else entry.numbers
    return read_value(key, read[0] if read else None, "mm")


def contradictions(
    readings: Readings, used: Mapping[str, Value], places: Mapping[str, Place], unit: Unit
) -> Iterator[Finding]:
    """Readings of keys that say another thing, beyond their accuracy, than what is used."""
    for id, entry in readings.entries.items():
        key, length = key_of(id), readings.length(id)
        value = used.get(key)
        if length is None or not isinstance(value, int | float) or _ALL[key].kind != "length":
            continue
        if abs(length.value - value) > length.accuracy:
            message = (
                f"{show_length(value, unit)} is used; line {entry.line} of {readings.file} says "
                f"{show_length(length.value, unit)}"
            )
            remedy, place = "Measure again, and leave one of the two out", places[key]
            yield Finding("reading-disagrees", message, remedy, key, place.file, place.line, "warning")
