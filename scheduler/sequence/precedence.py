"""Circles in "this waits for that"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence


def find_cycle(before: Mapping[str, Sequence[str]]) -> list[str]:
    """Return the names along one circle of `before` (each waits for those listed), or an empty list.

    >>> find_cycle({"a": ["b"], "b": ["a"]})
    ['a', 'b', 'a']
    >>> find_cycle({"a": ["b"], "b": []})
    []
    """
    done: set[str] = set()
    for root in before:
        path: list[str] = []
        stack: list[tuple[str, int]] = [(root, 0)] if root not in done else []
        while stack:
            name, k = stack.pop()
            if k == 0:
                if name in path:
                    return [*path[path.index(name) :], name]
                path.append(name)
            waits = before.get(name, ())
            if k < len(waits):
                stack.append((name, k + 1))
                if waits[k] not in done:
                    stack.append((waits[k], 0))
            else:
                path.pop()
                done.add(name)
    return []
