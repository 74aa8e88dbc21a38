"""What is wrong with a text that is not TOML, by the message of tomllib, and what would do."""

from __future__ import annotations

import re
from collections.abc import Sequence

from jigs.asked.key import Wrong
from jigs.asked.keys import KEYS
from jigs.asked.toml_source import quoted
from jigs.asked.values import read_value
from jigs.words.findings import Finding

_LONG = re.compile(r"[0-9][0-9_]{999,}")
_COMMA = re.compile(r"\d+,\d+")
_NO_QUOTES = re.compile(
    r"""
    \s*("?[\w.-]+"?)\s*=\s*
    (\d+(?:\.\d+)?(?:,\d+|\s*(?:mm|cm|in|")|(?:\s+\d+)?/\d+(?:\s*(?:in|"))?)|(?!true|false)[A-Za-z][\w\ -]*?)
    \s*(?:\#.*)?
    """,
    re.VERBOSE | re.IGNORECASE,
)
_HEADING = re.compile(r"\s*\[\s*([\w.]+)\s*\]")
_COLON = re.compile(r"\s*(\"?[\w.-]+\"?)\s*:\s*([^=#]*[^=#\s])\s*(?:#.*)?")
_CURLY = re.compile(r"\s*\"?[\w.-]+\"?\s*=[\s\[]*[“”„‘’]")
_FAULTS = {  # what tomllib says begins so: what the message says of the line, and its remedy
    "Cannot overwrite": ("states a key a second time", "Leave one of its two lines out"),
    "Cannot declare": ("begins a section a second time", "Put all its keys under the first one"),
    "Illegal character '\\n'": (
        "has a text without its closing quote",
        "End it with the quote that it begins with",
    ),
    "Unescaped": ("has a \\ in a text", "Write / instead"),
    "Unclosed array": ("has a list that is not closed", "Write it as [1, 2, 3], commas between its entries"),
    "": ("cannot be read", "Fix this line: text needs quotes, a section's name stands in [brackets]"),
}
_PLACE = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")


def fault_of(error: str, text: str, file: str) -> Finding:
    """The fault of a text, the first, of which tomllib says `error`; `file` is its name."""
    place, long = _PLACE.search(error), _LONG.search(text)
    if long and "digits" in error:  # Python reads no decimal number that long
        line = text.count("\n", 0, long.start()) + 1
        message, remedy = f"has a number of {len(long[0])} digits", "Write the number that you mean"
        return Finding("not-toml", message, remedy, file=file, line=line)
    last = text.rstrip().count("\n") + 1
    line = int(place[1]) if place and place[1] else last
    *above, written = text.split("\n")[:line]
    written = written.rstrip("\r")
    wrong = _other_kind(written, above)
    if wrong:
        path, told = wrong
        return Finding(told.code, told.message, told.remedy, path, file, line)
    message, remedy = _wrong_with(written) or next(
        told for said, told in _FAULTS.items() if error.startswith(said)
    )
    return Finding("not-toml", message, remedy, file=file, line=line)


def _other_kind(written: str, above: Sequence[str]) -> tuple[str, Wrong] | None:
    """A key, and what is wrong with its value without quotes, which would not do in quotes either."""
    bare = _NO_QUOTES.fullmatch(written)
    if not bare or _COMMA.fullmatch(bare[2]):
        return None
    table = next((found[1] for one in reversed(above) if (found := _HEADING.match(one))), "")
    path = ".".join(part for part in (table, bare[1].strip('"')) if part)
    for key in KEYS:
        if key.path == path and key.kind in ("count", "number", "flag"):
            try:
                read_value(key, bare[2], "mm")
            except Wrong as wrong:
                return path, wrong
    return None


def _wrong_with(line: str) -> tuple[str, str] | None:
    """What is wrong with a line that shows it by itself, and what would do."""
    if _CURLY.match(line):
        return "has curly quotes", 'Type straight ones: "'
    if colon := _COLON.fullmatch(line):
        key, value = colon.groups()
        return "has a colon", f"Write {key} = {value}"
    bare = _NO_QUOTES.fullmatch(line)
    if not bare:
        return None
    key, value = bare.groups()
    if _COMMA.fullmatch(value):
        return f"{value} has a comma", f"Write {key} = {value.replace(',', '.')}"
    return f"{value} has no quotes", f"Write {key} = " + quoted(value.replace('"', " in"))
