"""Records against what `dataclass(frozen=True, slots=True)` of the standard library does."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Callable
from dataclasses import FrozenInstanceError, asdict, dataclass, fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.tin.frozen import record


@record
class Ours:
    """A record."""

    name: str
    size: int = 1
    tags: tuple[str, ...] = ()

    @property
    def doubled(self) -> int:
        return 2 * self.size


@dataclass(frozen=True, slots=True)
class Standard:
    """The same by the standard library."""

    name: str
    size: int = 1
    tags: tuple[str, ...] = ()


@given(st.text(), st.integers(), st.tuples(st.text()))
def test_a_record_reads_like_a_frozen_dataclass(
    name: str, size: int, tags: tuple[str, ...]
) -> None:
    ours, standard = Ours(name, size, tags=tags), Standard(name, size, tags=tags)
    assert repr(ours).removeprefix("Ours") == repr(standard).removeprefix("Standard")
    assert hash(ours) == hash(standard)
    assert asdict(ours) == asdict(standard)
    assert [each.name for each in fields(ours)] == [each.name for each in fields(standard)]
    assert Ours.__match_args__ == Standard.__match_args__
    assert asdict(replace(ours, name="other")) == asdict(replace(standard, name="other"))


@given(st.integers(), st.integers())
def test_records_are_equal_when_all_fields_are(one: int, other: int) -> None:
    assert (Ours("a", one) == Ours("a", other)) is (one == other)
    assert Ours("a", one) != Standard("a", one)


@pytest.mark.parametrize(
    "again", [copy.copy, copy.deepcopy, lambda o: pickle.loads(pickle.dumps(o))]
)
def test_a_record_can_be_copied_and_sent(again: Callable[[Ours], Ours]) -> None:
    assert again(Ours("a", 2, ("b",))) == Ours("a", 2, ("b",))


@pytest.mark.parametrize("name", ["name", "doubled", "unknown"])
def test_nothing_in_a_record_changes(name: str) -> None:
    one = Ours("a")
    with pytest.raises(FrozenInstanceError):
        setattr(one, name, "b")
    with pytest.raises(FrozenInstanceError):
        delattr(one, name)
    assert one == Ours("a")


def test_a_record_asks_for_its_fields_and_no_others() -> None:
    with pytest.raises(TypeError, match=r"Ours\.__init__\(\) missing 1 required"):
        Ours()  # type: ignore[call-arg]
    with pytest.raises(TypeError, match="unexpected"):
        Ours("a", weight=2)  # type: ignore[call-arg]
    with pytest.raises(AttributeError):
        object.__setattr__(Ours("a"), "weight", 2)
