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
_OF_EACH = (
    "__init__",
    "__eq__",
    "__hash__",
    "__dataclass_fields__",
    "__match_args__",
    "__given__",
    "__key__",
)

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
        own = one.__dict__
        return type(one)(**{name: own[name] for name in one.__given__} | changes)

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


def _stated(cls: Any) -> dict[str, tuple[Any, bool]]:
    """What stands behind each name in the class, or is `MISSING`, and whether `kw_only`; those of its bases first."""
    found: dict[str, tuple[Any, bool]] = {}
    for base in reversed(cls.__mro__):
        found |= vars(base).get("__declared__", {})
    return found


@cache
def _declared(cls: Any) -> dict[str, Field[Any]]:
    """By their names."""
    return {name: _field(name, *of) for name, of in _stated(cls).items()}


def _field(name: str, value: Any, kw_only: bool) -> Field[Any]:
    field: Field[Any] = value if isinstance(value, Field) else dataclasses.field(default=value)
    field.name = name
    if field.kw_only is MISSING:
        field.kw_only = kw_only
    return field


def _first_init(self: Any, *given: Any, **named: Any) -> None:
    cls = type(self)
    cls.__init__ = _any_init(cls)
    cls.__init__(self, *given, **named)


def _any_init(cls: Any) -> Callable[..., None]:
    """Fits every class; its own takes its place when a few are made, or one is made wrongly, to say what is wrong."""
    left, ends = _FEW, hasattr(cls, "__post_init__")
    start, made, places, must = dict[str, Any](), dict[str, Any](), list[str](), set[str]()
    may = _given(cls)
    for name, (value, kw_only) in _stated(cls).items():
        if isinstance(value, Field):
            made |= {} if value.default_factory is MISSING else {name: value.default_factory}
            kw_only = kw_only if value.kw_only is MISSING else value.kw_only
            value = value.default
        start[name] = value
        if value is MISSING and name not in made:
            must.add(name)
        if name in may and not kw_only:
            places.append(name)

    def __init__(self: Any, *given: Any, **named: Any) -> None:
        nonlocal left
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


def _given(cls: Any) -> set[str]:
    return {name for name, (value, _) in _stated(cls).items() if not isinstance(value, Field) or value.init}


def _key(cls: Any) -> Any:
    compared = [name for name, field in _declared(cls).items() if field.compare]
    return staticmethod(attrgetter(*compared) if compared else type)


def _equal(self: Any, other: Any) -> Any:
    return self.__key__(self) == self.__key__(other) if other.__class__ is self.__class__ else NotImplemented


def _hash(self: Any) -> int:
    return hash(self.__key__(self))


class _WhenAsked:
    """What a class has of its own from when it is first asked for: in most it never is."""

    def __init__(self, make: Callable[[Any], Any]) -> None:
        self._make = make

    def __set_name__(self, _of: type, name: str) -> None:
        self._name = name

    def __get__(self, _one: object, of: Any) -> Any:
        if of is Record:
            raise AttributeError(self._name)
        setattr(of, self._name, self._make(of))
        return getattr(of, self._name)


@dataclass_transform(frozen_default=True, field_specifiers=(dataclasses.field,))
class Record:
    """A frozen one. `field` and `asdict` are the standard library's."""

    if TYPE_CHECKING:
        __dataclass_fields__: ClassVar[dict[str, Field[Any]]]
    else:
        __init__, __eq__, __hash__ = _first_init, _equal, _hash
        __setattr__ = __delattr__ = _refused
        __dataclass_fields__, __match_args__ = _WhenAsked(_standard_fields), _WhenAsked(_places)
        __given__, __key__ = _WhenAsked(_given), _WhenAsked(_key)

    def __init_subclass__(cls, *, eq: bool = True, kw_only: bool = False) -> None:
        super().__init_subclass__()
        of: Any = cls
        own = dict(vars(cls))
        of.__declared__ = {name: (own.get(name, MISSING), kw_only) for name in own.get("__annotations__", ())}
        if cls.__base__ is not Record:  # whose base may have made them for itself
            for name in _OF_EACH:
                setattr(cls, name, own.get(name, vars(Record)[name]))
        if not eq:
            of.__eq__, of.__hash__ = own.get("__eq__", object.__eq__), own.get("__hash__", object.__hash__)

    def __repr__(self) -> str:
        told = ", ".join(f"{one.name}={getattr(self, one.name)!r}" for one in fields(self) if one.repr)
        return f"{type(self).__qualname__}({told})"
