"""How large an SVG becomes once every `use` in it is drawn: refused before a library draws it."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

from jigs.asked.wrong import Wrong

MOST_DRAWN = 20_000  # elements: a profile is one line
_HREF = ("href", "{http://www.w3.org/1999/xlink}href")


def refuse_too_large(path: Path) -> None:
    """Raise Wrong where elements that use each other come to very many, or to no end; what cannot be read passes."""
    try:
        root = ElementTree.parse(path).getroot()
    except (ElementTree.ParseError, OSError, ValueError):
        return  # the reader that comes next says what is wrong
    named = {name: element for element in root.iter() if (name := element.get("id"))}
    drawn = _drawn(root, named)
    if drawn is None or drawn > MOST_DRAWN:
        many = "no end" if drawn is None else f"{drawn} elements"
        message = f"{path.name} draws {many}: elements in it use each other"
        raise Wrong("too-large", message, "Draw the profile as one plain line, without copies of copies")


def _drawn(root: ElementTree.Element, named: dict[str, ElementTree.Element]) -> int | None:
    """How many elements are drawn, None without end; each element is counted once it is known, without recursion."""
    known: dict[ElementTree.Element, int] = {}
    open_: set[ElementTree.Element] = set()
    waiting = [root]
    while waiting:
        element = waiting[-1]
        if element in known:
            waiting.pop()
            continue
        inside = _inside(element, named)
        missing = [one for one in inside if one not in known]
        if not missing:
            known[element] = 1 + sum(known[one] for one in inside)
            open_.discard(element)
            waiting.pop()
        elif element in open_:
            return None  # what it waits for waits for it
        else:
            open_.add(element)
            waiting += missing
    return known[root]


def _inside(element: ElementTree.Element, named: dict[str, ElementTree.Element]) -> list[ElementTree.Element]:
    """Its children, and what it uses."""
    found = list(element)
    if str(element.tag).rpartition("}")[2] == "use":
        target = next((element.get(key, "") for key in _HREF if element.get(key)), "")
        used = named.get(target.removeprefix("#"))
        found += [used] if used is not None else []
    return found
