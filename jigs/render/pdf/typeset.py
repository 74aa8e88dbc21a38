"""PDFs set by Typst from templates beside this, in the fonts beside it, with the same bytes each time."""

from __future__ import annotations

import json
import marshal
import re
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple, cast

from geometry.records import Record, fields

CHILD = Path(__file__).with_name("typeset_child.py")
# What the fonts are known to have (a test looks); what they lack is shown as U+FFFD.
LACKING = re.compile(
    "[^\n -~\u00a0-\u0377\u0391-\u03a1\u03a3-\u03e1\u0400-\u052f\u1e00-\u1eff\u2010-\u2027\u2030-\u205e"
    "\u2070\u2071\u2074-\u208e\u20a0-\u20bf\u2150-\u215f]"
)
SHOWN = "\ufffd"


class Document(NamedTuple):
    """What becomes one PDF; the template gets the content as JSON, records as what they are made of."""

    template: str
    content: Mapping[str, Any]


def typeset(*documents: Document) -> list[bytes]:
    """PDF/UA, text selectable, fonts embedded, never scaled by a viewer; all set by one process, which takes as long
    to start as a page of labels.

    Raises RuntimeError for what a template cannot set.
    """
    contents = [json.dumps(plain(one.content)).encode() for one in documents]
    return [unscaled(pdf) for pdf in _set([one.template for one in documents], contents)]


def _set(templates: Sequence[str], contents: Sequence[bytes]) -> list[bytes]:
    command = [sys.executable, "-P", str(CHILD), *templates]
    done = subprocess.run(command, input=b"\n".join(contents), capture_output=True, check=False)
    if done.returncode:
        raise RuntimeError(done.stderr.decode(errors="replace"))
    return cast("list[bytes]", marshal.loads(done.stdout))


def plain(content: Any) -> Any:
    """The same with what the fonts lack shown as that, in whatever it is made of."""
    if isinstance(content, str):
        return LACKING.sub(SHOWN, content.replace("\u2212", "\u2013"))
    if isinstance(content, Record):
        return {field.name: plain(getattr(content, field.name)) for field in fields(content)}
    if isinstance(content, Mapping):
        return {key: plain(value) for key, value in content.items()}
    return [plain(value) for value in content] if isinstance(content, list | tuple) else content


def unscaled(pdf: bytes) -> bytes:
    """The document asking viewers to print it at full size: its catalog anew, appended as an update.

    ISO 32000-1, 7.5.6 and table 150. Raises ValueError for a PDF that is not built as Typst builds it.
    """
    trailer = pdf[pdf.rindex(b"trailer") :]
    root = _first(rb"/Root (\d+) 0 R", trailer)
    before = _first(rb"startxref\s+(\d+)", trailer)
    start = pdf.rindex(b"\n%s 0 obj" % root) + 1
    catalog = pdf[start : pdf.index(b"endobj", start)]
    head, mark, tail = catalog.partition(b"/ViewerPreferences<<")
    if not mark:
        raise ValueError("the catalog has no viewer preferences")
    new = head + mark + b"/PrintScaling/None" + tail + b"endobj\n"
    whole = pdf.rstrip(b"\n") + b"\n"
    dictionary = _first(rb"<<(.*)>>", trailer) + b"/Prev %s" % before
    table = b"xref\n%s 1\n%010d 00000 n \n" % (root, len(whole))
    at = len(whole) + len(new)
    return b"%s%s%strailer\n<<%s>>\nstartxref\n%d\n%%%%EOF\n" % (whole, new, table, dictionary, at)


def _first(pattern: bytes, text: bytes) -> bytes:
    found = re.search(pattern, text, re.DOTALL)
    if not found:
        raise ValueError(f"the trailer has no {pattern.decode()}")
    return found[1]
