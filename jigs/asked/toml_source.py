"""A TOML file with the line of each key: tomllib reads the values, a small scanner finds the lines.

What never ends or is no file is not read.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from errno import EFBIG, EINVAL, EISDIR
from functools import lru_cache
from pathlib import Path
from stat import S_ISDIR, S_ISREG
from typing import Any, NoReturn

from geometry.records import Record
from jigs.words.findings import Finding, Refused, near_names

READINGS = ".readings.toml"
MOST = 50_000_000  # bytes; a drawing of ten thousand points has one


def readings_file(job: Path) -> Path:
    """Where the readings of a job file stand: hoop.toml has hoop.readings.toml beside it."""
    return job.with_name(job.stem + READINGS)


def check_ordinary(path: Path) -> None:
    """Raises OSError where the path is not that of a file that can be read to its end: a pipe, a device, too large."""
    status = path.stat()
    if S_ISDIR(status.st_mode):
        raise OSError(EISDIR, "it is a folder")
    if not S_ISREG(status.st_mode):
        raise OSError(EINVAL, "it is a pipe or a device, not a file")
    if status.st_size > MOST:
        raise OSError(EFBIG, f"it is larger than {MOST // 1_000_000} MB")


def read_ordinary(path: Path) -> bytes:
    """The content of a file. Raises OSError, also as `check_ordinary` does."""
    check_ordinary(path)
    return path.read_bytes()


_TOKEN = re.compile(
    r"""(?P<skip>[ \t]+|\#[^\n]*)
      | (?P<text>\"{3}(?:\\.|[^\\])*?\"{3,5}|'{3}.*?'{3,5}|"(?:\\.|[^"\\\n])*"|'[^'\n]*')
      | (?P<word>[A-Za-z0-9_-]+)
      | (?P<mark>.)""",
    re.VERBOSE | re.DOTALL,
)
_BARE = re.compile(r"[A-Za-z0-9_-]+")
Parts = tuple[str, ...]


class Source(Record):
    """A file's values as tomllib gives them, and the line of each dotted key and table."""

    file: str
    data: Mapping[str, Any]
    lines: Mapping[str, int]


def read(path: Path) -> Source:
    """Read a TOML file. Raises Refused when it is missing, not UTF-8 or not TOML."""
    file = str(path)
    try:
        raw = read_ordinary(path)
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        reason = getattr(error, "strerror", None) or str(error)
        near = near_file(path)
        remedy = f"Did you mean {near}?" if near else "Check the name and the folder"
        _refuse("no-file", f"cannot be read: {reason}", remedy, file)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        _refuse("not-utf8", "is not UTF-8 text", "Save the file as UTF-8", file, line)
    return parse(text, file)


def near_file(path: Path) -> Path | None:
    """The TOML file beside a path of nothing whose name, without its ending, is nearest to it, if any is near."""
    try:
        known = {} if path.exists() else {file.stem: file for file in path.parent.glob("*.toml")}
    except (OSError, ValueError):  # a name that the system cannot even look up
        return None
    near = near_names(path.name.removesuffix(".toml"), known)
    return known[near[0]] if near else None


@lru_cache(maxsize=16)  # a job that is changed over and over has one workshop file
def parse(text: str, file: str) -> Source:
    """Read TOML text; `file` is its name in findings. Raises Refused when it is not TOML."""
    text = text.replace("\r\n", "\n")
    try:
        return Source(file, tomllib.loads(text), key_lines(text))
    except RecursionError:
        _refuse("not-toml", "is nested too deeply", "Use plain sections and lists", file)
    except ValueError as error:
        from jigs.asked.toml_faults import fault_of  # few files have one

        raise Refused([fault_of(str(error), text, file)]) from error


def dotted(path: Parts) -> str:
    """Write a key as TOML does: bare parts as they are, others in quotes."""
    return ".".join(part if _BARE.fullmatch(part) else quoted(part) for part in path)


def quoted(text: str) -> str:
    """Write a text as TOML does."""
    import json  # few files have such a key or lack such quotes

    return json.dumps(text, ensure_ascii=False)


def key_lines(text: str) -> dict[str, int]:
    """Return the line (from 1) of each key and table heading of a valid TOML text, by dotted key."""
    scanner = _Scanner(text)
    scanner.document()
    return {dotted(path): line for path, line in scanner.lines.items()}


def _refuse(code: str, message: str, remedy: str, file: str, line: int = 0) -> NoReturn:
    raise Refused([Finding(code, message, remedy, file=file, line=line)])


class _Token(Record):
    kind: str  # text, word, mark or end
    text: str
    line: int


class _Scanner:
    """Walks the tokens of a valid document and notes where each key stands."""

    def __init__(self, text: str) -> None:
        self.lines: dict[Parts, int] = {}
        self._tokens = _tokens(text)
        self._at = 0

    @property
    def _now(self) -> _Token:
        return self._tokens[self._at]

    def document(self) -> None:
        table: Parts = ()
        while self._now.kind != "end":
            if self._now.text == "[":
                table = self._heading()
            elif self._now.text == "\n":
                self._at += 1
            else:
                self._pair(table, "\n")

    def _heading(self) -> Parts:
        self._skip(lambda token: token.text == "[")
        table = self._key((), "]")
        self._skip(lambda token: token.text == "]")
        return table

    def _pair(self, table: Parts, ends: str) -> None:
        path = self._key(table, "=")
        self._at += 1
        self._value(path, ends)

    def _key(self, table: Parts, end: str) -> Parts:
        path = table
        while self._now.text != end or self._now.kind == "text":
            if self._now.kind in ("word", "text"):
                path = (*path, _unquoted(self._now))
                self.lines.setdefault(path, self._now.line)
            self._at += 1
        return path

    def _value(self, path: Parts, ends: str) -> None:
        opening = self._now.text
        if opening not in ("[", "{"):
            self._skip(lambda token: token.kind in ("text", "word") or token.text not in ends)
            return
        closing = "]" if opening == "[" else "}"
        self._at += 1
        self._skip_between()
        while self._now.text != closing:
            if opening == "[":
                self._value(path, ",]\n")
            else:
                self._pair(path, ",}\n")
            self._skip_between()
        self._at += 1

    def _skip_between(self) -> None:
        self._skip(lambda token: token.text in (",", "\n"))

    def _skip(self, wanted: Callable[[_Token], bool]) -> None:
        while self._now.kind != "end" and wanted(self._now):
            self._at += 1


def _tokens(text: str) -> list[_Token]:
    tokens, line = [], 1
    for match in _TOKEN.finditer(text):
        if match.lastgroup != "skip":
            tokens.append(_Token(match.lastgroup or "mark", match[0], line))
        line += match[0].count("\n")
    return [*tokens, _Token("end", "", line)]


def _unquoted(token: _Token) -> str:
    if token.kind == "word":
        return token.text
    text: str = tomllib.loads(f"key = {token.text}")["key"]
    return text
