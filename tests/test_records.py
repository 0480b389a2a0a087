"""Our `dataclass` does what the standard library's does, and compiles nothing before it is called."""

from __future__ import annotations

import ast
import copy
import dataclasses
import pickle
from pathlib import Path
from typing import Any, ClassVar

import pytest

from drafting import records

ROOMS = Path(__file__).parent.parent / "drafting"


@records.dataclass(frozen=True)
class Hole:
    """A hole of a strap."""

    span: str = records.field(compare=False, repr=False)
    across: float
    KINDS: ClassVar[tuple[str, ...]] = ("round", "oval")


@records.dataclass(frozen=True)
class NamedHole(Hole):
    name: str = "tip"
    notes: list[str] = records.field(default_factory=list)
    drawn: int = records.field(init=False, default=0)
    is_oval: bool = records.field(kw_only=True, default=False)


@records.dataclass
class Count:
    n: int
    doubled: int = records.field(init=False)

    def __post_init__(self) -> None:
        self.doubled = 2 * self.n


@records.dataclass(frozen=True)
class OwnWords:
    n: int

    def __repr__(self) -> str:
        return "own"

    def __eq__(self, other: object) -> bool:
        return True

    def __hash__(self) -> int:
        return 5


STANDARD: dict[type, type] = {}


def standard(cls: type) -> Any:
    """The same class made by the standard library."""
    if cls not in STANDARD:
        words = {
            k: v
            for k, v in cls.__dict__.items()
            if k in ("__annotations__", "__module__", "__post_init__", "KINDS")
        }
        for one in dataclasses.fields(cls):
            if one.name in cls.__annotations__:
                asked = {
                    key: getattr(one, key)
                    for key in ("default", "default_factory", "init", "repr", "compare", "kw_only")
                }
                words[one.name] = dataclasses.field(**asked)
        bases = tuple(standard(base) for base in cls.__bases__ if base is not object)
        frozen = cls is not Count
        STANDARD[cls] = dataclasses.dataclass(frozen=frozen)(type(cls.__name__, bases, words))
    return STANDARD[cls]


CALLS: list[tuple[type, tuple[Any, ...], dict[str, Any]]] = [
    (Hole, ("here", 3.0), {}),
    (Hole, ("there",), {"across": 3.0}),
    (NamedHole, ("here", 3.0), {}),
    (NamedHole, ("here", 3.0, "heel", ["a"]), {"is_oval": True}),
    (Count, (4,), {}),
]


@pytest.mark.parametrize("cls, given, named", CALLS)
def test_it_is_made_shown_and_hashed_as_the_standard_one(
    cls: type, given: tuple[Any, ...], named: dict[str, Any]
) -> None:
    ours, theirs = cls(*given, **named), standard(cls)(*given, **named)
    assert vars(ours) == vars(theirs)
    assert repr(ours) == repr(theirs).replace("standard.<locals>.", "")
    assert cls.__match_args__ == type(theirs).__match_args__  # type: ignore[attr-defined]
    assert dataclasses.asdict(ours) == dataclasses.asdict(theirs)


@pytest.mark.parametrize(
    "cls, given, named",
    [(Hole, (), {}), (Hole, ("a", 1, 2), {}), (NamedHole, ("a", 1), {"drawn": 3}), (Count, (), {"m": 1})],
)
def test_a_wrong_call_is_refused_in_the_same_words(
    cls: type, given: tuple[Any, ...], named: dict[str, Any]
) -> None:
    with pytest.raises(TypeError) as ours:
        cls(*given, **named)
    with pytest.raises(TypeError) as theirs:
        standard(cls)(*given, **named)
    assert str(ours.value) == str(theirs.value)


def test_equal_when_every_compared_field_is() -> None:
    assert Hole("here", 3.0) == Hole("there", 3.0)
    assert Hole("here", 3.0) != Hole("here", 4.0)
    assert hash(Hole("here", 3.0)) == hash(Hole("there", 3.0))
    assert Hole("here", 3.0) != NamedHole("here", 3.0), (
        "as in the standard library: another class is another thing"
    )
    assert Count(1) == Count(1)
    with pytest.raises(TypeError, match="unhashable"):
        hash(Count(1))


def test_a_frozen_one_refuses_to_be_changed() -> None:
    hole = Hole("here", 3.0)
    with pytest.raises(dataclasses.FrozenInstanceError, match="'across'"):
        hole.across = 4.0  # type: ignore[misc]
    with pytest.raises(dataclasses.FrozenInstanceError, match="'across'"):
        del hole.across
    count = Count(3)
    count.n = 5
    assert count.n == 5


def test_what_the_class_says_itself_stays() -> None:
    assert repr(OwnWords(1)) == "own"
    assert OwnWords(1) == 7
    assert hash(OwnWords(1)) == 5
    assert OwnWords.__doc__ is None
    assert OwnWords.__match_args__ == ("n",)


def test_it_is_copied_replaced_and_sent_to_another_process() -> None:
    hole = NamedHole("here", 3.0, is_oval=True)
    assert copy.deepcopy(hole) == pickle.loads(pickle.dumps(hole)) == hole
    assert dataclasses.replace(hole, across=4.0) == NamedHole("here", 4.0, is_oval=True)


def test_a_pattern_matches_one_that_was_never_made_here() -> None:
    """As one that came from another process: its class has compiled nothing."""

    @records.dataclass(frozen=True)
    class Fresh:
        n: int

    fresh = object.__new__(Fresh)
    fresh.__dict__["n"] = 3
    match fresh:
        case Fresh(n):
            assert n == 3


def test_nothing_is_compiled_before_it_is_called() -> None:
    @records.dataclass(frozen=True)
    class Idle:
        n: int

    before = Idle.__init__
    assert Idle(2).n == 2
    after = Idle.__init__
    assert before is not after
    Idle(3)
    assert Idle.__init__ is after


def makes_standard_classes(path: Path) -> bool:
    """Those with slots may: ours has none."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    imports = [
        node for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module == "dataclasses"
    ]
    return any(name.name == "dataclass" for node in imports for name in node.names)


def test_classes_are_made_cheaply_in_every_room() -> None:
    ours = [path for path in ROOMS.rglob("*.py") if path.name != "records.py"]
    found = [path for path in ours if makes_standard_classes(path)]
    assert found, "the classes with slots are seen"
    assert [str(path) for path in found if "slots=True" not in path.read_text(encoding="utf-8")] == []
