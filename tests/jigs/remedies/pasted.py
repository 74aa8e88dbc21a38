"""A job file after a turner has pasted in the lines that a refusal names."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence

HEADING = re.compile(r"\s*\[([^\[\]]+)\]\s*(#.*)?$")
KEY = re.compile(r"\s*([A-Za-z_]+)\s*=")
LEFT_OUT = re.compile(r"# without (\w+)  #")


def pasted(text: str, lines: Sequence[str]) -> str:
    """The text with each line in place of the one that states its key, else new under its table.

    A value over several lines is taken as it stands in these tests' files: up to the bracket that closes it.
    """
    table = ""
    for line in lines:
        if heading := HEADING.match(line):
            table = heading[1]
        elif gone := LEFT_OUT.match(line):
            text = _without(text, table, gone[1])
        else:
            key = KEY.match(line)
            assert key, f"neither a heading nor a key: {line}"
            text = _into(_without(text, table, key[1]), table, line)
    tomllib.loads(text)
    return text


def _without(text: str, table: str, name: str) -> str:
    kept, here, depth = list[str](), "", 0
    for line in text.splitlines():
        if depth:
            depth += _opened(line)
            continue
        if heading := HEADING.match(line):
            here = heading[1]
        key = KEY.match(line)
        if here == table and key and key[1] == name:
            depth = _opened(line)
            continue
        kept.append(line)
    return "\n".join(kept) + "\n"


def _opened(line: str) -> int:
    plain = re.sub(r'"[^"]*"|#.*', "", line)
    return sum(plain.count(mark) for mark in "[{") - sum(plain.count(mark) for mark in "]}")


def _into(text: str, table: str, line: str) -> str:
    rows = text.splitlines()
    for place, row in enumerate(rows):
        heading = HEADING.match(row)
        if heading and heading[1] == table:
            return "\n".join([*rows[: place + 1], line, *rows[place + 1 :]]) + "\n"
    return f"{line}\n{text}" if not table else f"{text}\n[{table}]\n{line}\n"
