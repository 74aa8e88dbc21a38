"""Whole rings to spare: one for every order of woods that several rings have, however they lie."""

from dataclasses import replace
from types import SimpleNamespace

from hypothesis import given
from hypothesis import strategies as st

from jigs.forms.form import parts_of
from jigs.forms.work import work
from jigs.stages.wedge_rings.woods import spare_rings
from tests.jigs.wood.wood_jobs import lots_of, plan_of


def wish(rings, layup=None):
    return SimpleNamespace(workshop=SimpleNamespace(spares=SimpleNamespace(rings=rings)), layup=layup)


def lies_as(spare, woods):
    """Whether a ring turned about its axis, and over, shows these woods: tried one by one."""
    n = len(woods)
    ways = [[spare[(sign * (i + k)) % n] for i in range(n)] for k in range(n) for sign in (1, -1)]
    return list(woods) in ways


@given(
    species=st.lists(st.tuples(*[st.sampled_from(["ash", "elm"])] * 6), min_size=6, max_size=12),
    each=st.integers(0, 3),
)
def test_a_spare_ring_stands_in_for_every_ring_that_it_can_lie_as_and_no_other(species, each):
    spares = spare_rings(wish(each), species)
    for rings in spares:
        spare = species[rings[0] - 1]
        assert list(rings) == [k for k, woods in enumerate(species, 1) if lies_as(spare, woods)]
        assert spares.count(rings) == each
    for woods in species:
        others = sum(lies_as(other, woods) for other in species)
        found = [rings for rings in set(spares) if lies_as(species[rings[0] - 1], woods)]
        assert len(found) == (1 if others > 1 and each else 0)


def test_rings_of_a_layup_are_all_of_one_sort():
    assert spare_rings(wish(2, layup=object()), [("ash",) * 6, ("elm",) * 6] * 3) == (tuple(range(1, 7)),) * 2


def test_each_wood_has_what_its_whole_spare_rings_are_made_of():
    plan = plan_of("one wood by rings")
    assert plan.spare_rings == (tuple(range(1, 19, 2)), tuple(range(2, 19, 2)))
    with_them = lots_of(plan)
    without = lots_of(replace(plan, spare_rings=()))
    for more, fewer in zip(with_them, without, strict=True):
        assert more.wanted - fewer.wanted == plan.blank.segments


def test_where_two_woods_alternate_each_ones_spare_rings_are_named_by_their_wood():
    plan = plan_of("one wood by rings")
    does = [one.does for one in work(plan, parts_of(plan)).operations if ".spare" in one.id]
    assert len(set(does)) == len(does) == 2
    assert [woods[0] in told for woods, told in zip(plan.species, does, strict=False)] == [True, True]
