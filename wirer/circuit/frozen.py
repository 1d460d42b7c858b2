"""A mapping that can't change: hashable, picklable, compared by content."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

K = TypeVar("K")
V_co = TypeVar("V_co", covariant=True)


class FrozenMap(Mapping[K, V_co]):
    """An immutable mapping that keeps the order it was given."""

    __slots__ = ("_hash", "_items")

    @classmethod
    def of(cls, items: Mapping[K, V_co]) -> FrozenMap[K, V_co]:
        """Return a mapping that can't change: this one, if it can't."""
        return items if isinstance(items, cls) else cls(items)

    def __init__(self, items: Mapping[K, V_co] | None = None) -> None:
        self._items: dict[K, V_co] = dict(items or {})
        self._hash: int | None = None

    def __getitem__(self, key: K) -> V_co:
        return self._items[key]

    def __iter__(self) -> Iterator[K]:
        return iter(self._items)

    def __len__(self) -> int:
        return len(self._items)

    def __hash__(self) -> int:
        if self._hash is None:
            self._hash = hash(frozenset(self._items.items()))
        return self._hash

    def __eq__(self, other: object) -> bool:
        if isinstance(other, FrozenMap):
            return bool(self._items == other._items)
        return self._items == other if isinstance(other, Mapping) else NotImplemented

    def __repr__(self) -> str:
        return f"FrozenMap({self._items!r})"

    def __reduce__(self) -> tuple[Any, ...]:
        return FrozenMap, (self._items,)

    def having(self, key: K, value: Any) -> FrozenMap[K, Any]:
        """Return this mapping with `key` set to `value`."""
        return FrozenMap({**self._items, key: value})

    def without(self, key: K) -> FrozenMap[K, V_co]:
        """Return this mapping without `key` (which need not be there)."""
        return FrozenMap({k: v for k, v in self._items.items() if k != key})
