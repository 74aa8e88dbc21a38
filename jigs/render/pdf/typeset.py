"""A PDF set by Typst from a template beside this, in the fonts beside it, with the same bytes each time."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from jigs.render.pdf.catalog import unscaled

CHILD = Path(__file__).with_name("typeset_child.py")
# What the fonts are known to have (a test looks); what they lack is shown as U+FFFD.
LACKING = re.compile(
    "[^\n -~\u00a0-\u0377\u0391-\u03a1\u03a3-\u03e1\u0400-\u052f\u1e00-\u1eff\u2010-\u2027\u2030-\u205e"
    "\u2070\u2071\u2074-\u208e\u20a0-\u20bf\u2150-\u215f]"
)
SHOWN = "\ufffd"


def typeset(template: str, content: Mapping[str, Any]) -> bytes:
    """PDF/UA, text selectable, fonts embedded, never scaled by a viewer; the template gets the content as JSON.

    Raises RuntimeError for what the template cannot set.
    """
    return unscaled(_set(template, json.dumps(_known(content)).encode()))


def _set(template: str, content: bytes) -> bytes:
    command = [sys.executable, "-P", str(CHILD), template]
    done = subprocess.run(command, input=content, capture_output=True, check=False)
    if done.returncode:
        raise RuntimeError(done.stderr.decode(errors="replace"))
    return done.stdout


def _known(content: Any) -> Any:
    """The same with what the fonts lack shown as that, in whatever it is made of."""
    if isinstance(content, str):
        return LACKING.sub(SHOWN, content.replace("\u2212", "\u2013"))
    if isinstance(content, Mapping):
        return {key: _known(value) for key, value in content.items()}
    return [_known(value) for value in content] if isinstance(content, list | tuple) else content
