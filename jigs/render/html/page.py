"""book.html: one file for a double-click, and for a phone at the lathe. It asks for nothing from outside."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from pathlib import Path

from jigs.render.book.content import MANY
from jigs.render.book.gather import DRAWING, book_of
from jigs.work.model import Work

HERE = Path(__file__).parent
NO_PICTURES: Mapping[str, str] = {}


def book_html(work: Work, pictures: Mapping[str, str] = NO_PICTURES) -> bytes:
    """The book of a work. `pictures` are SVG texts by id: they are shown as images, so no script in one runs.

    Ticks and readings are kept by the browser under the job's name and the operation's id.
    """
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(HERE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    style, script = _own("book.css"), _own("book.js")
    text = environment.get_template("book.html.j2").render(
        book=book_of(work, pictures),
        data={
            id: f"data:image/svg+xml;base64,{b64encode(svg.encode()).decode()}"
            for id, svg in pictures.items()
        },
        policy=_policy(style, script),
        style=style,
        script=script,
        MANY=MANY,
        DRAWING=DRAWING,
    )
    return text.encode()


@cache
def _own(name: str) -> str:
    return (HERE / name).read_text("utf-8")


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
