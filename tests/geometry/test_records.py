"""Records behave as the standard library's frozen dataclasses do."""

from __future__ import annotations

import dataclasses
import pickle
from dataclasses import FrozenInstanceError, asdict, field, replace
from functools import cached_property
from typing import Any

import pytest

from geometry import records
from geometry.records import Record


def both(**options: Any) -> tuple[type[Any], type[Any]]:
    """The same class, built by either."""

    def made(decorated: Any, *bases: Any, **of: Any) -> type[Any]:
        class Base(*bases, **of):
            first: int
            second: str = "b"

        class Point(decorated(Base), **of):  # type: ignore[misc]
            many: tuple[int, ...] = ()
            notes: dict[str, int] = field(default_factory=dict, compare=False)
            sort: str = field(default="point", init=False)

            def __post_init__(self) -> None:
                if self.first < 0:
                    raise ValueError(self.first)

            @cached_property
            def double(self) -> int:
                return 2 * self.first

        return decorated(Point)

    return made(lambda cls: cls, Record, **options), made(dataclasses.dataclass(frozen=True, **options))


@pytest.mark.parametrize("options", [{}, {"eq": False}, {"kw_only": True}])
def test_a_record_is_built_told_changed_and_compared_as_a_dataclass(options: dict[str, bool]) -> None:
    mine, theirs = both(**options)
    given = {"first": 3, "many": (1, 2), "notes": {"x": 1}}
    a, b = mine(**given), theirs(**given)
    assert repr(a) == repr(b)
    assert asdict(a) == asdict(b)
    assert [(one.name, one.compare) for one in records.fields(a)] == [
        (one.name, one.compare) for one in dataclasses.fields(b)
    ]
    for changed in (replace, records.replace):
        assert asdict(changed(a, second="c")) == asdict(replace(b, second="c"))
    assert (a == mine(**given)) == (b == theirs(**given))
    assert (a == mine(**{**given, "notes": {}})) == (b == theirs(**{**given, "notes": {}}))
    assert a != mine(first=4)
    assert a != b
    if options.get("eq", True):
        assert hash(a) == hash(mine(**given))
    assert a.double == 6
    assert mine.__match_args__ == theirs.__match_args__
    for refused in (lambda cls: cls(), lambda cls: cls(first=-1), lambda cls: cls(1, 2, 3, 4, 5)):
        with pytest.raises((TypeError, ValueError)) as of_theirs:
            refused(theirs)
        with pytest.raises(of_theirs.type):
            refused(mine)


def test_the_many_th_is_as_the_first() -> None:
    mine, theirs = both(kw_only=True)
    made = [mine(many=(i,), first=i) for i in range(50)]
    assert [asdict(one) for one in made] == [asdict(theirs(many=(i,), first=i)) for i in range(50)]


def test_what_is_given_wrongly_is_told_of_the_class() -> None:
    mine, _ = both()
    for wrong in (
        lambda: mine(1, 2, first=3),
        lambda: mine(1, other=2),
        lambda: mine(1, sort="x"),
        lambda: mine(),
        lambda: records.replace(mine(1), other=2),
        lambda: records.replace(mine(1), sort="x"),
    ):
        with pytest.raises(TypeError, match=r"Point\.__init__\(\)"):
            wrong()


def test_a_records_own_dict_is_its_own() -> None:
    mine, _ = both()
    assert mine(1).notes is not mine(1).notes


def test_nothing_of_a_record_is_changed_or_deleted() -> None:
    mine, _ = both()
    with pytest.raises(FrozenInstanceError):
        mine(1).first = 2
    with pytest.raises(FrozenInstanceError):
        del mine(1).first
    with pytest.raises(FrozenInstanceError):
        mine(1).other = 2


class Kept(Record):
    one: int
    other: tuple[str, ...] = ("a",)


def test_a_record_is_pickled() -> None:
    assert pickle.loads(pickle.dumps(Kept(2))) == Kept(2)


class Apart(Kept, eq=False):
    more: int = 0


def test_a_record_that_is_not_to_be_compared_equals_itself_alone_whatever_its_base_is() -> None:
    one = Apart(1, more=2)
    assert one == one
    assert one != Apart(1, more=2)
    assert {one: "a", Apart(1, more=3): "b"}[one] == "a"


class Late(Record):
    one: int
    other: str = "a"


def test_one_that_is_unpickled_before_any_is_built_is_replaced() -> None:
    unpickled = object.__new__(Late)
    unpickled.__dict__.update(one=1, other="b")
    assert records.replace(unpickled, one=2) == Late(2, "b")
