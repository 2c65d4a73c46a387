"""The decorator of the frozen values that everything here is made of: `dataclass`, at a quarter of the cost.

The standard one writes and compiles six methods for each class, half a millisecond of CPU, and a check loads some 150
classes before it begins: that was longer than the check (tests/benchmarks/start_up.py). Five of the six say the same
of every class, so they stand here once, and only `__init__` is compiled. Fields, defaults, `replace` and `asdict`
are those of the standard library, and a typing tool sees its decorator.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Any, TypeVar

__all__ = ["dataclass"]

Kind = TypeVar("Kind")

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(
        *, frozen: bool = False, slots: bool = False, kw_only: bool = False, eq: bool = True
    ) -> Callable[[type[Kind]], type[Kind]]:
        """`dataclasses.dataclass` with the same arguments; a class with slots that is frozen is made the short way.

        Such a class takes no `default_factory`, no `init=False` and no base with fields. Raises TypeError for them.
        """
        if not (frozen and slots):
            return dataclasses.dataclass(frozen=frozen, slots=slots, kw_only=kw_only, eq=eq)

        def make(kind: type[Kind]) -> type[Kind]:
            kind.__doc__ = kind.__doc__ or kind.__name__  # else the standard one inspects a signature for it
            made = dataclasses.dataclass(init=False, repr=False, eq=False, slots=True, kw_only=kw_only)(kind)
            return _completed(made, eq)

        return make


def _completed(kind: Any, eq: bool) -> Any:
    fields = dataclasses.fields(kind)
    kind.__init__ = _init(kind, fields)
    kind.__setattr__, kind.__delattr__ = _refuse_to_set, _refuse_to_delete
    kind.__getstate__, kind.__setstate__ = _state, _restore
    if "__repr__" not in kind.__dict__:
        kind.__repr__ = _shown
    if eq:
        kind._compared = attrgetter("__class__", *(field.name for field in fields))
        kind.__eq__, kind.__hash__ = _equal, _hashed
    return kind


def _init(kind: Any, fields: tuple[dataclasses.Field[Any], ...]) -> Any:
    """`__init__` of a class: the one method that differs from class to class."""
    known: dict[str, Any] = {}
    heads: dict[bool, list[str]] = {False: [], True: []}
    for field in fields:
        if not field.init or field.default_factory is not dataclasses.MISSING or field.name not in kind.__slots__:
            raise TypeError(f"{kind.__name__}.{field.name}: a frozen value has plain fields of its own only")
        known[f"_of_{field.name}"], known[f"_put_{field.name}"] = field.default, getattr(kind, field.name).__set__
        head = field.name if field.default is dataclasses.MISSING else f"{field.name}=_of_{field.name}"
        heads[bool(field.kw_only)].append(head)
    arguments = ["self", *heads[False], *(["*", *heads[True]] if heads[True] else [])]
    body = [f"_put_{field.name}(self, {field.name})" for field in fields] or ["pass"]
    exec(f"def __init__({', '.join(arguments)}):\n " + "\n ".join(body), known)  # names of fields, no one's text
    made = known["__init__"]
    made.__qualname__ = f"{kind.__qualname__}.__init__"
    return made


def _refuse_to_set(self: Any, name: str, value: object) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(self: Any, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


def _shown(self: Any) -> str:
    fields = (f"{name}={getattr(self, name)!r}" for name in self.__slots__)
    return f"{type(self).__qualname__}({', '.join(fields)})"


def _equal(self: Any, other: Any) -> Any:
    return self._compared(self) == self._compared(other) if type(other) is type(self) else NotImplemented


def _hashed(self: Any) -> int:
    return hash(self._compared(self))


def _state(self: Any) -> list[Any]:
    return [getattr(self, name) for name in self.__slots__]


def _restore(self: Any, state: list[Any]) -> None:
    for name, value in zip(self.__slots__, state, strict=True):
        object.__setattr__(self, name, value)
