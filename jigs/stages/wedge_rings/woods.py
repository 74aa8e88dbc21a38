"""Which wood each segment of each wedge ring is, and how far a spiral is from closing."""

from __future__ import annotations

from jigs.asked.job import Form

Woods = tuple[str, ...]


def ring_woods(form: Form) -> tuple[Woods, ...]:
    """The wood of every segment, ring by ring, each ring's woods turned on from the last's.

    Both lists repeat, or that by ring is shared out.
    """
    return tuple(_row(form, number) for number in range(1, form.wedge_rings + 1))


def left_open(form: Form) -> int:
    """By how many segments the woods miss ring 1's where the last ring meets it; 0 where they go on as before.

    The fewest, either way round; woods that do not meet at any turn have no answer and give 0.
    """
    first, after = _row(form, 1), _row(form, form.wedge_rings + 1)
    n = form.segments
    fits = [k for k in range(n) if after[k:] + after[:k] == first]
    return min((k if k <= n / 2 else k - n for k in fits), key=abs, default=0)


def _row(form: Form, number: int) -> Woods:
    count, n = len(form.species), form.segments
    names = form.species[((number - 1) * count // form.wedge_rings if form.spread else number - 1) % count]
    by = sum(round(form.turn[k % len(form.turn)]) for k in range(number - 1)) if form.turn else 0
    row = tuple(names[i % len(names)] for i in range(n))
    return tuple(row[(i - by) % n] for i in range(n))
