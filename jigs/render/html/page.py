"""book.html: one file for a double-click, and for a phone at the lathe. It asks for nothing from outside."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from pathlib import Path

from jigs.render.book.gather import book_of
from jigs.render.html.body import Body, safe
from jigs.work.model import Work

HERE = Path(__file__).parent
HEAD = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{title}: shop book</title>
<style>{style}</style>
</head>"""
NO_PICTURES: Mapping[str, str] = {}


def book_html(work: Work, pictures: Mapping[str, str] = NO_PICTURES) -> bytes:
    """The book of a work. `pictures` are SVG texts by id: they are shown as images, so no script in one runs.

    Ticks and readings are kept by the browser under the job's name and the operation's id.
    """
    style, script = _own("book.css"), _own("book.js")
    book = book_of(work, pictures)
    body = Body(book, {id: _data(svg) for id, svg in pictures.items()}).lines()
    head = HEAD.format(policy=safe(_policy(style, script)), title=safe(book.title), style=style)
    return "\n".join([head, *body, f"<script>{script}</script>\n</body>\n</html>"]).encode()


@cache
def _own(name: str) -> str:
    return (HERE / name).read_text("utf-8")


def _data(svg: str) -> str:
    return "data:image/svg+xml;base64," + b64encode(svg.encode()).decode()


def _policy(style: str, script: str) -> str:
    """Nothing but the page's own style and script runs; nothing is fetched."""
    own = {
        name: f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"
        for name, text in (("style-src", style), ("script-src", script))
    }
    allowed = [f"{name} {digest}" for name, digest in own.items()]
    return "; ".join(
        ["default-src 'none'", "img-src data:", *allowed, "base-uri 'none'", "form-action 'none'"]
    )
