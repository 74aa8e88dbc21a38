"""What is metric in words, for what an inch job tells: none of it may be."""

from __future__ import annotations

import re
from collections.abc import Iterator

METRIC = re.compile(
    r"\b(mm[²³]?|MM|cm[²³]?|m[²³]|ml|kg|grams?|litres?|millimet\w*|\w*metres?|M(4|5|6|8|10|12)|EN \d+)\b"
    r"|\d ?(g|N)\b"
)


def strings(content: object) -> Iterator[str]:
    """All that stands in it, however deep."""
    if isinstance(content, str):
        yield content
    elif isinstance(content, dict):
        yield from strings(list(content.values()))
    elif isinstance(content, list | tuple):
        for one in content:
            yield from strings(one)


def metric(content: object) -> list[str]:
    """The strings in it that name a metric unit, thread or standard."""
    return [text for text in strings(content) if METRIC.search(text)]
