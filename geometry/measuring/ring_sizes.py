"""Wedge rings of unlike sizes: how far they miss closing, the order that closes best, and which to sand.

Face to face in order, rings with exact angles turn by 2w each: their outer edges are the sides of a polygon whose
ends miss each other by V = sum thick_k e^(i 2w k); what all have alike closes by itself. Orders are searched by
swapping pairs, from many starts; where there are few orders, each is tried.
"""

from __future__ import annotations

from itertools import permutations
from math import factorial, prod, tan

import numpy as np

from geometry.blanks.truing import half_ends
from geometry.plane.edges import FloatArray
from geometry.plane.sample import IntArray
from geometry.records import Record

MOST_ORDERS = 40_320  # that are tried one by one
STARTS = 60
ENOUGH = 0.5  # mm: |V| that the last joint takes without a ring being sanded
LEAST = 0.02  # mm: less is not sanded


def turns(count: int) -> FloatArray:
    """e^(i 2w k) of the places round the torus, complex (N,)."""
    return np.asarray(np.exp(2j * np.pi / count * np.arange(count)))


def closure(thick: FloatArray) -> complex:
    """V in mm: by how much, and which way, the ends miss each other."""
    return complex((thick - thick.mean()) @ turns(len(thick)))


def centre_radii(thick: FloatArray, half_width: FloatArray) -> FloatArray:
    """R_p of each ring, thick/(2 tan w) - A_x."""
    return np.asarray(thick / (2 * tan(np.pi / len(thick))) - half_width)


class Order(Record):
    """Which ring lies at each place, numbered from 0. No order misses by less than `bound`."""

    rings: tuple[int, ...]
    miss: float
    bound: float


def best_order(thick: FloatArray, sorts: IntArray) -> Order:
    """Rings may only change places with others of their sort (their woods, their end faces), (N,).

    Where every order was tried its miss is the bound; else the bound is nothing, and the miss is all that a better
    order could save.
    """
    groups = [np.flatnonzero(sorts == sort) for sort in np.unique(sorts)]
    free = [group for group in groups if len(group) > 1]
    if not free:
        order, least = np.arange(len(thick)), abs(closure(thick))
        return Order(tuple(order.tolist()), least, least)
    if prod(factorial(len(group)) for group in free) <= MOST_ORDERS:
        order = _of_all(thick, free)
        least = abs(closure(thick[order]))
        return Order(tuple(order.tolist()), least, least)
    noise = np.random.default_rng(1)  # the same order each time
    starts = [np.arange(len(thick)), *(_shuffled(len(thick), free, noise) for _ in range(STARTS))]
    found = [_swapped(thick, start, free) for start in starts]
    order = min(found, key=lambda each: abs(closure(thick[each])))
    return Order(tuple(order.tolist()), abs(closure(thick[order])), 0.0)


def _of_all(thick: FloatArray, free: list[IntArray]) -> IntArray:
    """Every order of each group within every order of those before, at once."""
    orders = np.arange(len(thick))[None, :]
    for group in free:
        own = np.array(list(permutations(group.tolist())))
        orders = np.repeat(orders, len(own), axis=0)
        orders[:, group] = np.tile(own, (len(orders) // len(own), 1))
    return np.asarray(orders[np.abs(thick[orders] @ turns(len(thick))).argmin()])


def _shuffled(count: int, free: list[IntArray], noise: np.random.Generator) -> IntArray:
    order = np.arange(count)
    for group in free:
        order[group] = noise.permutation(group)
    return order


def _swapped(thick: FloatArray, order: IntArray, free: list[IntArray]) -> IntArray:
    """The best swap of two rings of a sort, again and again, until none is better."""
    order, place = order.copy(), turns(len(thick))
    pairs = np.array([(a, b) for group in free for a in group for b in group if a < b])
    first, second = pairs.T
    miss = complex(thick[order] @ place)
    while True:
        here = thick[order]
        after = np.abs(miss + (here[second] - here[first]) * (place[first] - place[second]))
        best = int(after.argmin())
        if after[best] > abs(miss) - 1e-9:
            return order
        a, b = first[best], second[best]
        order[[a, b]] = order[[b, a]]
        miss = complex(thick[order] @ place)


def to_sand(thick: FloatArray) -> FloatArray:
    """What comes off the thickness of each ring, in order, so that the rings close: (N,), some nothing.

    The rings on the side to which the ends miss, by the cosine of how far they are from it: no ring loses more than
    4|V|/N, and the torus stays as round as that allows. Where every cosine counts, their sum is N/4 on that side.
    """
    miss, place = closure(thick), turns(len(thick))
    if abs(miss) < 1e-12:
        return np.zeros(len(thick))
    towards = np.maximum((place * np.conj(miss)).real / abs(miss), 0.0)
    off = abs(miss) * towards / float(towards @ towards)
    return np.where(off < LEAST, 0.0, off)


def sorts_of(woods: list[tuple[str, ...]], ends: bool) -> IntArray:
    """A number for each ring, alike for those that may change places; the ends of halves stay if they are cut so."""
    fixed = half_ends(len(woods)) if ends else {}
    names = [(wood, number if number in fixed else 0) for number, wood in enumerate(woods, 1)]
    known = {name: at for at, name in enumerate(dict.fromkeys(names))}
    return np.array([known[name] for name in names])
