"""What Typst cannot write into a PDF's catalog."""

from __future__ import annotations

import re


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
