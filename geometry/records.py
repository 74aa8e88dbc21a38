"""What every record is, of which every command builds hundreds before it begins: a frozen data class. The standard
library writes out six methods for each and compiles them one by one, an eighth of a short command. Here a class has
its own `__init__` only when many of it are made, its fields only when asked for them, and shares the other methods.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError
from functools import cache
from inspect import get_annotations
from operator import attrgetter
from typing import TYPE_CHECKING, Any, ClassVar, NoReturn, dataclass_transform

_FEW = 40  # made in the time that it takes to compile an `__init__`

if TYPE_CHECKING:
    from dataclasses import fields as fields
    from dataclasses import replace as replace
    from functools import cached_property as cached_property
else:

    def fields(of: Any) -> tuple[Field[Any], ...]:
        """As the standard library's, which works each class through first."""
        return tuple(_declared(of if isinstance(of, type) else type(of)).values())

    def replace(one: Any, /, **changes: Any) -> Any:
        """As the standard library's."""
        return type(one)(**{name: getattr(one, name) for name in one.__given__} | changes)

    class cached_property:
        """As the standard library's is from Python 3.12 on: before, each is made under a lock."""

        def __init__(self, make: Callable[[Any], Any]) -> None:
            self._make, self.__doc__ = make, make.__doc__

        def __set_name__(self, _of: type, name: str) -> None:
            self._name = name

        def __get__(self, one: Any, _of: type | None = None) -> Any:
            if one is None:
                return self
            value = one.__dict__[self._name] = self._make(one)
            return value


def _refused(self: Any, name: str, value: object = None) -> NoReturn:
    raise FrozenInstanceError(f"cannot change field {name!r}")


@dataclass_transform(frozen_default=True, field_specifiers=(dataclasses.field,))
class Record:
    """A frozen one. `field` and `asdict` are the standard library's."""

    if TYPE_CHECKING:
        __dataclass_fields__: ClassVar[dict[str, Field[Any]]]
    else:
        __setattr__ = __delattr__ = _refused

    def __init_subclass__(cls, *, eq: bool = True, kw_only: bool = False) -> None:
        super().__init_subclass__()
        of: Any = cls
        own = vars(cls)
        of.__declared__ = {name: (own.get(name, MISSING), kw_only) for name in own.get("__annotations__", ())}
        for name, made in (("__dataclass_fields__", _standard_fields), ("__match_args__", _places)):
            setattr(cls, name, _WhenAsked(cls, name, made))
        of.__init__ = _any_init(cls)
        if eq:
            of.__key__ = _key_when_compared(cls)
            of.__eq__, of.__hash__ = _equal, own.get("__hash__") or _hash

    def __repr__(self) -> str:
        told = ", ".join(f"{one.name}={getattr(self, one.name)!r}" for one in fields(self) if one.repr)
        return f"{type(self).__qualname__}({told})"


class _WhenAsked:
    """What the standard library and `match` look for in a class."""

    def __init__(self, cls: type, name: str, make: Callable[[Any], Any]) -> None:
        self._cls, self._name, self._make = cls, name, make

    def __get__(self, _one: object, _of: object) -> Any:
        value = self._make(self._cls)
        setattr(self._cls, self._name, value)
        return value


def _standard_fields(cls: Any) -> Any:
    if cls.__doc__ is None:
        cls.__doc__ = cls.__name__  # else its signature is put together
    types = get_annotations(cls)
    cls.__annotations__ = dict.fromkeys(types, Any)  # else looked through for a ClassVar; there is none
    kw_only = any(kw_only for _, kw_only in cls.__declared__.values())
    dataclasses.dataclass(init=False, repr=False, eq=False, match_args=False, kw_only=kw_only)(cls)
    cls.__annotations__ = types
    return vars(cls)["__dataclass_fields__"]


def _places(cls: Any) -> tuple[str, ...]:
    return tuple(name for name, field in _declared(cls).items() if field.init and not field.kw_only)


@cache
def _declared(cls: Any) -> dict[str, Field[Any]]:
    """By their names, those of its bases first."""
    found: dict[str, tuple[Any, bool]] = {}
    for base in reversed(cls.__mro__):
        found |= vars(base).get("__declared__", {})
    return {name: _field(name, *of) for name, of in found.items()}


def _field(name: str, value: Any, kw_only: bool) -> Field[Any]:
    field: Field[Any] = value if isinstance(value, Field) else dataclasses.field(default=value)
    field.name = name
    if field.kw_only is MISSING:
        field.kw_only = kw_only
    return field


def _any_init(cls: Any) -> Callable[..., None]:
    """Fits every class; its own takes its place when a few are made, or one is made wrongly, to say what is wrong."""
    left, start, made = _FEW, dict[str, Any](), dict[str, Any]()
    places, may, must = list[str](), set[str](), set[str]()
    cls.__given__ = may
    ends = hasattr(cls, "__post_init__")

    def __init__(self: Any, *given: Any, **named: Any) -> None:
        nonlocal left
        if left == _FEW:
            for name, field in _declared(cls).items():
                start[name] = field.default
                if field.default_factory is not MISSING:
                    made[name] = field.default_factory
                elif field.default is MISSING:
                    must.add(name)
                if field.init:
                    may.add(name)
                    places.extend(() if field.kw_only else (name,))
        left -= 1
        names = {*places[: len(given)], *named}
        if left and len(names) == len(given) + len(named) and must <= names <= may:
            own = self.__dict__
            own |= start
            own |= zip(places, given, strict=False)
            own |= named
            for name, make in made.items():
                if name not in names:
                    own[name] = make()
            if ends:
                self.__post_init__()
        else:
            cls.__init__ = _own_init(cls)
            cls.__init__(self, *given, **named)

    return __init__


def _own_init(cls: Any) -> Callable[..., None]:
    names: dict[str, Any] = {"_MISSING": MISSING}
    heads, lines = ["self"], ["_own = self.__dict__"]
    for name, field in sorted(_declared(cls).items(), key=lambda one: bool(one[1].kw_only)):
        default = _default(name, field, names)
        if field.init:
            if field.kw_only and "*" not in heads:
                heads.append("*")
            heads.append(name + default)
        value = name if field.init else default.removeprefix("=")
        if field.default_factory is not MISSING:
            value = f"_made_{name}() if {value} is _MISSING else {value}"
        lines.append(f"_own[{name!r}] = {value}")
    if hasattr(cls, "__post_init__"):
        lines.append("self.__post_init__()")
    exec(f"def __init__({', '.join(heads)}):\n " + "\n ".join(lines), names)
    made: Callable[..., None] = names["__init__"]
    made.__qualname__ = f"{cls.__qualname__}.__init__"
    return made


def _default(name: str, field: Field[Any], names: dict[str, Any]) -> str:
    if field.default_factory is not MISSING:
        names[f"_made_{name}"] = field.default_factory
        return "=_MISSING"
    if field.default is not MISSING:
        names[f"_default_{name}"] = field.default
        return f"=_default_{name}"
    return ""


def _key_when_compared(cls: Any) -> Any:
    def key(one: Any) -> Any:
        compared = [name for name, field in _declared(cls).items() if field.compare]
        cls.__key__ = staticmethod(attrgetter(*compared) if compared else type)
        return cls.__key__(one)

    return staticmethod(key)


def _equal(self: Any, other: Any) -> Any:
    return self.__key__(self) == self.__key__(other) if other.__class__ is self.__class__ else NotImplemented


def _hash(self: Any) -> int:
    return hash(self.__key__(self))
