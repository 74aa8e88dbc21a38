"""What book.html says: the book's words and numbers between tags, each of them escaped here, by `safe`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from jigs.render.book.content import (
    MANY,
    Book,
    Box,
    Chapter,
    Jig,
    Line,
    Proof,
    Racked,
    Reference,
    Sheet,
    Step,
)
from jigs.render.book.gather import DRAWING

WORDED = 24  # letters; what has more is no number, and has a row of its own
ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&#34;", "'": "&#39;"})
Lines = Iterator[str]


class Body:
    """Of a book whose pictures are `data`, addresses by id."""

    def __init__(self, book: Book, data: Mapping[str, str]) -> None:
        self.book, self.data = book, data

    def lines(self) -> Lines:
        """All of it, without the script that works it."""
        book = self.book
        yield f'<body data-job="{safe(book.job)}">\n<header>\n<p class="kind">Shop book</p>'
        yield f'<h1>{safe(book.title)}</h1>\n<p class="verdict">{safe(book.verdict)}</p>'
        if book.picture:
            yield self._image(book.picture, "the finished work", "wide")
        yield from _values(book.facts, "facts")
        yield "</header>\n<main>"
        yield from _first(book)
        yield from _contents(book)
        for chapter in book.chapters:
            yield _section(f"stage-{chapter.id}", chapter.title)
            for step in chapter.steps:
                yield from self._step(step)
            yield "</section>"
        if book.sheets:
            yield from _machines(book.sheets)
        if book.goods:
            yield _section("goods", "Shopping list")
            for group in book.goods:
                yield f"<h3>{safe(group.title.capitalize())}</h3>"
                yield from _values(group.rows, "facts")
            yield "</section>"
        for table in book.tables:
            yield from self._table(table)
        yield _section("rack", "The rack")
        yield '<ul class="jigs">'
        for entry in book.rack:
            yield from self._racked(entry)
        yield "</ul>\n</section>\n</main>"
        yield '<div id="bar" hidden>\n<p id="progress" role="status"></p>'
        yield '<a id="next" href="#contents-head">Next step</a>'
        yield '<button type="button" id="clear">Clear</button>\n</div>'
        yield '<dialog id="large" aria-label="Picture">\n<button type="button" id="close">Close</button>'
        yield '<div id="view"><img alt="" id="shown"></div>\n</dialog>'

    def _image(self, id: str, what: str, kind: str, drawing: str = "") -> str:
        """A picture that a press enlarges, or shows a drawing of."""
        large = f' data-drawing="{safe(drawing)}"' if drawing in self.data else ""
        shown = f'<img src="{self.data[id]}" alt="{safe(what)}">'
        head = f'<button type="button" class="zoom {kind}"{large} aria-label="Enlarge the picture: {safe(what)}">'
        return f"{head}{shown}</button>"

    def _step(self, step: Step) -> Lines:
        yield from _head(step)
        if step.settings:
            yield from _values(step.settings, "set")
        if step.cautions or step.reminder:
            told = (*step.cautions, *((step.reminder,) if step.reminder else ()))
            yield from _listed(told, 'ul class="caution" aria-label="Caution"')
        if step.picture:
            yield self._image(step.picture, f"step {step.number}, {step.does}", "wide")
        if step.jigs:
            yield from self._jigs(step.jigs)
        if step.drawings:
            yield from self._drawings(step.drawings)
        if step.trial:
            yield f"<h4>Try first</h4>\n<p>{safe(step.trial)}</p>"
        if step.how:
            yield "<h4>How</h4>"
            yield from _listed(step.how, 'ol class="how"')
        if step.known:
            yield "<h4>To judge by</h4>"
            yield from _values(step.known, "facts")
        for check in step.checks:
            yield from _check(check)
        if step.readings:
            yield f'<h4>Write down <span class="key">[{safe(step.id)}]</span></h4>\n<div class="readings">'
            for box in step.readings:
                yield from _boxes(box, step.number)
            yield "</div>"
        yield "</article>"

    def _jigs(self, jigs: Sequence[Jig]) -> Lines:
        few = len(jigs) <= MANY
        yield f'<h4>Jigs</h4>\n<ul class="{"jigs" if few else "jigs many"}">'
        for jig in jigs:
            yield "<li>"
            if jig.picture and few:
                yield self._thumbnail(jig)
            count = f" × {jig.count}" if jig.count > 1 else ""
            yield f"<div>{_named(jig)}{count}"
            if jig.for_what and few:
                yield f"<p>{safe(jig.for_what)}</p>"
            if jig.notes:
                yield from _listed(jig.notes, 'ul class="notes"')
            yield "</div>\n</li>"
        yield "</ul>"

    def _thumbnail(self, jig: Jig | Racked) -> str:
        return self._image(jig.picture, f"{jig.code}, {jig.name}", "thumb", DRAWING + jig.name)

    def _drawings(self, ids: Sequence[str]) -> Lines:
        yield '<details class="drawings">\n<summary>Drawings of these parts, with their sizes</summary>\n<div>'
        for id in ids:
            shown = self._image(id, f"drawing of {id.removeprefix(DRAWING)}", "drawing")
            yield f'<span id="{safe(id)}">{shown}</span>'
        yield "</div>\n</details>"

    def _table(self, table: Reference) -> Lines:
        yield _section(f"table-{table.id}", table.title)
        yield from (self._image(id, table.title, "wide") for id in table.pictures)
        if not table.columns:
            yield from _values([Line(*row) for row in table.rows], "facts", worded=False)
        elif table.by_row:
            for row in table.rows:
                pairs = zip(table.columns, row, strict=True)
                yield from _values([Line(*pair) for pair in pairs if pair[1]], "row", worded=False)
        else:
            yield f'<div class="scroll" role="group" tabindex="0" aria-label="{safe(table.title)}, rows">\n<table>'
            heads = "".join(f'<th scope="col">{safe(column)}</th>' for column in table.columns)
            yield f"<thead><tr>{heads}</tr></thead>\n<tbody>"
            for row in table.rows:
                yield f"<tr>{''.join(f'<td>{_value(cell)}</td>' for cell in row)}</tr>"
            yield "</tbody>\n</table>\n</div>"
        yield "</section>"

    def _racked(self, entry: Racked) -> Lines:
        yield "<li>"
        if entry.picture:
            yield self._thumbnail(entry)
        yield f"<div>{_named(entry)}\n<p>{safe(entry.purpose)}</p>"
        yield f'<p class="made">{safe(entry.how_many)} · {safe(entry.size)}</p>\n</div>\n</li>'


def safe(text: str) -> str:
    """With nothing left in it that a browser would take for a tag, or for the end of an attribute."""
    return text.translate(ESCAPES)


def _section(id: str, title: str) -> str:
    """Its beginning."""
    id = safe(id)
    return f'<section id="{id}" aria-labelledby="{id}-head">\n<h2 id="{id}-head">{safe(title)}</h2>'


def _listed(texts: Iterable[str], tag: str = "ul") -> Lines:
    yield f"<{tag}>"
    yield from (f"<li>{safe(text)}</li>" for text in texts)
    yield f"</{tag[:2]}>"


def _values(rows: Iterable[Line], kind: str, worded: bool = True) -> Lines:
    """Labels and values; if `worded`, one that is words and no number is set apart."""
    yield f'<dl class="{kind}">'
    for row in rows:
        words = ' class="words"' if worded and len(row.value) > WORDED else ""
        yield f"<div{words}><dt>{safe(row.label)}</dt><dd>{_value(row.value)}</dd></div>"
    yield "</dl>"


def _value(text: str) -> str:
    """The fraction beside an inch's decimals small."""
    head, mark, fraction = (text, "", "") if "×" in text else text.partition("\u00a0(")
    return f"{safe(head)} <small>({safe(fraction)}</small>" if mark else safe(head)


def _named(jig: Jig | Racked) -> str:
    return f'<span class="code">{safe(jig.code)}</span> {safe(jig.name)}'


def _first(book: Book) -> Lines:
    yield _section("first", "Before you start")
    yield from _listed(book.cautions, 'ul class="caution"')
    if book.assumed:
        yield "<h3>Never measured, so assumed</h3>"
        yield "<p>Measure yours, state them in the job or workshop file, and make the set again before you cut.</p>"
        yield from _values(book.assumed, "facts")
    if book.notes:
        yield "<h3>Worth knowing</h3>"
        yield from _listed(book.notes)
    yield "</section>"


def _contents(book: Book) -> Lines:
    yield '<nav aria-labelledby="contents-head">\n<h2 id="contents-head">Contents</h2>'
    for chapter in book.chapters:
        yield from _chapter(chapter)
    links = [
        *([("machines", "Settings for each machine")] if book.sheets else []),
        *([("goods", "Shopping list")] if book.goods else []),
        *((f"table-{table.id}", table.title) for table in book.tables),
        ("rack", "The rack"),
    ]
    yield '<ul class="links">'
    yield from (f'<li><a href="#{safe(id)}">{safe(title)}</a></li>' for id, title in links)
    yield "</ul>\n</nav>"


def _chapter(chapter: Chapter) -> Lines:
    first, last = chapter.steps[0].number, chapter.steps[-1].number
    numbers = f"{first} to {last}" if last > first else f"{first}"
    yield f'<details>\n<summary>{safe(chapter.title)}<span class="count">{numbers}</span></summary>'
    yield f'<ol start="{first}">'
    yield from (f'<li><a href="#{safe(step.id)}">{safe(step.does)}</a></li>' for step in chapter.steps)
    yield "</ol>\n</details>"


def _head(step: Step) -> Lines:
    id, number = safe(step.id), step.number
    yield f'<article class="step" id="{id}" data-step="{id}" aria-labelledby="{id}-head">\n<div class="head">'
    yield f'<span class="number" aria-hidden="true">{number}</span>\n<span class="place">{safe(step.place)}</span>'
    done = f'<span>Done<span class="unseen">: step {number}</span></span>'
    yield f'<label class="done"><input type="checkbox" data-keep="done">{done}</label>\n</div>'
    yield f'<h3 id="{id}-head"><span class="unseen">Step {number}: </span>{safe(step.does)}</h3>'
    if step.made:
        yield f'<p class="made">{safe(" · ".join(step.made))}</p>'


def _check(check: Proof) -> Lines:
    yield f'<div class="check">\n<h4>Check</h4>\n<p>{safe(check.how)}</p>'
    if check.sizes:
        yield from _values(check.sizes, "sizes")
    if check.if_not:
        yield f'<p class="if-not"><strong>If not:</strong> {safe(check.if_not)}</p>'
    yield "</div>"


def _boxes(box: Box, step: int) -> Lines:
    id, label = safe(box.id), safe(box.label)
    planned = f' <span class="planned">planned {safe(box.planned)}</span>' if box.planned else ""
    yield f'<fieldset>\n<legend>{label}{planned} <span class="key">{id}</span></legend>'
    for k in range(1, box.count + 1):
        which = f", {k} of {box.count}" if box.count > 1 else ""
        head = f'<input type="text" inputmode="decimal" autocomplete="off" data-keep="{id}-{k}"'
        yield f'{head} aria-label="{label}{which}, step {step}">'
    yield "</fieldset>"


def _machines(sheets: Iterable[Sheet]) -> Lines:
    yield _section("machines", "Settings for each machine")
    for sheet in sheets:
        yield f"<h3>{safe(sheet.place.capitalize())}</h3>"
        yield from (f'<p class="standing">{safe(caution)}</p>' for caution in sheet.cautions)
        for step in sheet.steps:
            yield f'<div class="pinned">\n<p><a href="#{safe(step.id)}"><b>{step.number}</b> {safe(step.does)}</a></p>'
            yield from _values(step.settings, "set")
            yield "</div>"
    yield "</section>"
