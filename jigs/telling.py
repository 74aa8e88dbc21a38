"""What is told on the terminal: nothing that a file wrote can steer it, and what cannot be written is not lost."""

from __future__ import annotations

import os
import re
import sys
from contextlib import suppress
from typing import TextIO

_ODD = re.compile(r"[^\n -~]")


class NotTold(Exception):
    """What was asked is done, but the answer cannot be written."""


def say(text: str) -> None:
    """Print a line, or several. Raises NotTold when they cannot be written."""
    try:
        _write(text, sys.stdout)
    except OSError as error:
        _close(sys.stdout)
        raise NotTold("" if isinstance(error, BrokenPipeError) else error.strerror or str(error)) from error


def say_json(content: object, indent: int | None = None) -> None:
    """Print a JSON document. Raises NotTold when it cannot be written."""
    import json  # a command that tells people has no use for it

    say(json.dumps(content, indent=indent, ensure_ascii=False))


def complain(text: str) -> None:
    """Print to standard error, if that can be."""
    try:
        _write(text, sys.stderr)
    except OSError:
        _close(sys.stderr)


def plain(text: str, encoding: str = "utf-8") -> str:
    """The text with everything that steers a terminal, or that it cannot show, escaped as JSON does: "\\u001b".

    Line ends stay.
    """
    return _ODD.sub(lambda found: found[0] if _shows(found[0], encoding) else _escaped(found[0]), text)


def _shows(character: str, encoding: str) -> bool:
    try:
        character.encode(encoding)
    except UnicodeEncodeError:
        return False
    return character.isprintable() or character == "\N{NO-BREAK SPACE}"


def _escaped(character: str) -> str:
    units = character.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[at : at + 2].hex()}" for at in range(0, len(units), 2))


def _write(text: str, to: TextIO | None) -> None:
    if to is None:  # closed by whoever started this
        raise OSError("it is closed")
    to.write(f"{plain(text, to.encoding or 'utf-8')}\n")
    to.flush()


def _close(stream: TextIO | None) -> None:
    """Let what is left in a stream that cannot be written go nowhere, so that nothing fails on the way out."""
    with suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())  # type: ignore[union-attr]
        os.close(nowhere)
