"""Values are made the short way, and are what the standard library's dataclasses are. Truth: `dataclasses` itself."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import pickle
from typing import Any

import pytest

from lint import values


class _Mark:
    """A mark."""

    width: float
    name: str = "rivet"
    at: tuple[float, ...] = ()


HOW: dict[str, Any] = {"frozen": True, "slots": True, "kw_only": True}


def _made(maker: Any, **how: Any) -> Any:
    fields = {"__annotations__": _Mark.__annotations__, "name": "rivet", "at": (), "__doc__": "A mark."}
    return maker(**HOW | how)(type("Mark", (), {**fields, "__module__": __name__, "__qualname__": "Mark"}))


Mark, Standard = _made(values.dataclass), _made(dataclasses.dataclass)


def test_a_value_prints_as_the_standard_one_does() -> None:
    assert repr(Mark(width=3.0)) == repr(Standard(width=3.0)) == "Mark(width=3.0, name='rivet', at=())"


def test_a_value_equals_one_of_the_same_fields_and_no_other() -> None:
    assert Mark(width=3.0) == Mark(width=3.0, name="rivet") != Mark(width=3.0, name="collar")
    assert hash(Mark(width=3.0)) == hash(Mark(width=3.0))
    assert Mark(width=3.0) != Standard(width=3.0)


def test_values_without_equality_are_told_apart_as_objects() -> None:
    unequal = _made(values.dataclass, eq=False)
    assert unequal(width=3.0) != unequal(width=3.0)
    assert len({unequal(width=3.0), unequal(width=3.0)}) == 2


@pytest.mark.parametrize("act", [lambda mark: setattr(mark, "width", 1.0), lambda mark: delattr(mark, "width")])
def test_a_value_does_not_change(act: Any) -> None:
    for kind in (Mark, Standard):
        with pytest.raises(dataclasses.FrozenInstanceError):
            act(kind(width=3.0))
    with pytest.raises(AttributeError):
        object.__setattr__(Mark(width=3.0), "colour", "red")  # slots: no room for more


@pytest.mark.parametrize("kw_only", [True, False])
def test_a_value_is_called_as_the_standard_one_is(kw_only: bool) -> None:
    ours, theirs = (_made(maker, kw_only=kw_only) for maker in (values.dataclass, dataclasses.dataclass))
    here, there = (inspect.signature(kind).parameters for kind in (ours, theirs))
    assert [(p.name, p.kind, p.default) for p in here.values()] == [(p.name, p.kind, p.default) for p in there.values()]
    assert ours.__match_args__ == theirs.__match_args__


def test_fields_replace_and_asdict_work_on_a_value() -> None:
    assert [field.name for field in dataclasses.fields(Mark)] == ["width", "name", "at"]
    assert dataclasses.replace(Mark(width=3.0), name="collar") == Mark(width=3.0, name="collar")
    assert dataclasses.asdict(Mark(width=3.0)) == dataclasses.asdict(Standard(width=3.0))


def test_a_value_goes_through_a_pipe_and_a_copy() -> None:
    mark = Mark(width=3.0, at=(1.0, 2.0))
    assert pickle.loads(pickle.dumps(mark)) == mark == copy.deepcopy(mark) == copy.copy(mark)


def test_a_frozen_value_with_a_factory_is_refused() -> None:
    with pytest.raises(TypeError, match="plain fields"):

        @values.dataclass(frozen=True, slots=True)
        class _Wrong:
            names: list[str] = dataclasses.field(default_factory=list)
