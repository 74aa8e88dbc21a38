"""Every plate carries its jig's code: above its other lettering, in a place of its own, or beside its title."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from geometry.records import replace
from jigs.parts.part import Lettering, Mark, Part, Point, Words
from jigs.parts.places import ENGRAVED, LEAST_TEXT, SAW_CAUTION, WHOLE, NoRoom, place


def settled(part: Part, title: str) -> Part:
    """The part with all of its lettering in its places, its code at the head of it.

    What has no room is told beside the drawing, where need be the code too. `title` is the job's, as lettered.
    """
    head = _head(part)
    marks: list[Mark] = list(part.marks)
    beside = list(part.beside)
    for k, words in enumerate(part.words):
        wanted = words.without([title]).without([title, *SAW_CAUTION])
        if k == 0 and not carries_code(part, part.marks):
            wanted = wanted.alone(part.code) if _names(part, words) else wanted.headed(head)
        found = _placed(part, wanted, marks)
        marks += _counted(found, head, part.stack)
        lettered = " ".join(_plain(mark.text) for mark in found)
        beside += [row for row in words.choices[0] if row != title and _plain(row) not in lettered]
    if not carries_code(part, marks):
        marks = _with_code(part, title, head, marks)
        beside += [] if carries_code(part, marks) else [part.code]
    return replace(part, marks=tuple(marks), words=(), beside=tuple(dict.fromkeys(beside)))


def carries_code(part: Part, marks: Iterable[Mark]) -> bool:
    """Whether the part's code stands among these marks, as a word of its own."""
    return any(part.code in _split(mark.text) for mark in marks if isinstance(mark, Lettering))


def _names(part: Part, words: Words) -> bool:
    """Whether the code is among the words already."""
    return any(part.code in _split(row) for row in words.choices[0])


def _split(text: str) -> list[str]:
    return text.replace(",", " ").replace(":", " ").replace(WHOLE, " ").split()


def _head(part: Part) -> str:
    """ "SW" or, on the plates of a stack, "SW _ OF 3"; no line break parts it."""
    count = f" {'_' * len(str(part.stack))} OF {part.stack}" if part.stack > 1 else ""
    return f"{part.code}{count}".replace(" ", WHOLE)


def _counted(marks: Iterable[Lettering], head: str, stack: int) -> list[Lettering]:
    """The lettering, its row with the code known to count the plates."""
    row = head.replace(WHOLE, " ")
    return [replace(mark, of=stack) if stack > 1 and row in mark.text else mark for mark in marks]


def _placed(part: Part, words: Words, taken: Sequence[Mark]) -> tuple[Lettering, ...]:
    """Lettering in its place; none where there is no room for any."""
    try:
        return place(words, tuple(taken), _least(part))
    except NoRoom:
        return ()


def _plain(text: str) -> str:
    """However it is broken."""
    return " ".join(_split(text))


def _with_code(part: Part, title: str, head: str, marks: Sequence[Mark]) -> list[Mark]:
    """The marks with the code in a place of its own, or in the title's row; as they are without room for it."""
    for row in dict.fromkeys((head, part.code)) if part.process != "turn" else ():
        try:
            found = place(_bare(part, row), tuple(marks), _least(part))
        except NoRoom:
            continue
        return [*marks, *_counted(found, head, part.stack)]
    return _in_title(part, title, marks)


def _bare(part: Part, row: str, near: Point | None = None) -> Words:
    face = part.bevel.top if part.bevel else part.outline  # what a bevelled edge leaves of the top
    return Words(face, part.holes, (), ((row,),), near, max(ENGRAVED, _least(part)))


def _least(part: Part) -> float:
    """The least size; raised letters are filled by their strokes where they are no larger than four of these."""
    return max(LEAST_TEXT, 4 * part.mark_width) if part.process == "print" else LEAST_TEXT


def _in_title(part: Part, title: str, marks: Sequence[Mark]) -> list[Mark]:
    """The code before the title, which beside a section has all the room it needs; or in its place."""
    own = next((m for m in marks if isinstance(m, Lettering) and m.text and title.startswith(m.text)), None)
    if own is None:
        return list(marks)
    rest = [mark for mark in marks if mark is not own]
    if part.process == "turn":
        return [replace(own, text=f"{part.code} {own.text}"), *rest]
    try:
        return [*rest, *place(_bare(part, part.code, own.origin), tuple(rest), _least(part))]
    except NoRoom:
        return list(marks)
