"""The ten classes of rectangles made again by the published rules: 500 instances, the same for everybody.

Classes 1-6 of Berkey, J. O. & Wang, P. Y. 1987, "Two-dimensional finite bin-packing algorithms", J. Oper.
Res. Soc. 38, 423-429: sides even from 1 to 10, 35 or 100, on square bins. Classes 7-10 of Martello, S. &
Vigo, D. 1998, "Exact solution of the two-dimensional finite bin packing problem", Management Science 44,
388-399: on bins of 100 by 100 an item is wide, high, large or small, seven in ten of the class's kind. The
generator that goes with Lodi, A., Martello, S. & Vigo, D. 1999, "Heuristic and metaheuristic approaches for a
class of two-dimensional bin packing problems", INFORMS J. Computing 11, 345-357, was read (volumes and pages
from memory): its random numbers are value <- (7141 value + 54773) mod 259200, begun at 0 and thrown away as
often as the size and the number of an instance say, so that every program makes the same instances. Written
anew from these rules; numbers are single precision, as there. What was compared, and the one item that is not
by the rule, stands in `tests/data/published/rectangles/SOURCE.md`.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np

SIZES = (20, 40, 60, 80, 100)
INSTANCES = 10
_EVEN = {1: (10, 10), 2: (30, 10), 3: (40, 35), 4: (100, 35), 5: (100, 100), 6: (300, 100)}
"""Class: side of the square bin, longest side of an item."""
_BIN = 100
_KINDS = ((66, 100, 1, 50), (1, 50, 66, 100), (50, 100, 50, 100), (1, 50, 1, 50))
"""Wide, high, large, small: least and most width, least and most height."""
_OFTEN, _SELDOM = np.float32(0.7), np.float32(0.1)
_FACTOR, _SHIFT, _PERIOD = 7141, 54773, 259200
_AS_CARRIED = {"cl03_040_01": ((7, 6), (7, 5))}
"""By the rule, and as the instance packages have it."""


@dataclass(frozen=True, slots=True)
class Instance:
    """One published instance: its name, the bin (width, height) and the items (width, height, count)."""

    name: str
    bin: tuple[int, int]
    items: tuple[tuple[int, int, int], ...]

    @property
    def cell(self) -> tuple[int, int]:
        """Return (class, number of items)."""
        return int(self.name[2:4]), int(self.name[5:8])


class _Random:
    """The published generator of numbers from 0 to 1, in single precision."""

    def __init__(self, items: int, number: int) -> None:
        thrown_away = int(np.float32(items * number) * np.float32(31.47) + np.float32(2000)) + 1
        self._value = _after(thrown_away)

    def draw(self) -> np.float32:
        self._value = (self._value * _FACTOR + _SHIFT) % _PERIOD
        return np.float32(self._value) / np.float32(_PERIOD)

    def side(self, least: int, most: int) -> int:
        return int(np.float32(most - least + 1) * self.draw()) + least


def _after(steps: int) -> int:
    """Return the value so many steps after 0: the step applied by halves and doubles."""
    factor, shift, value = _FACTOR, _SHIFT, 0
    while steps:
        if steps % 2:
            value = (factor * value + shift) % _PERIOD
        factor, shift, steps = factor * factor % _PERIOD, (factor + 1) * shift % _PERIOD, steps // 2
    return value


def rectangle_instance(kind: int, items: int, number: int) -> Instance:
    """Return instance `number` (1 to 10) of a class (1 to 10) with so many items, sorted by size.

    >>> rectangle_instance(1, 20, 1).items[:3]
    ((1, 5, 1), (2, 4, 1), (3, 5, 1))
    """
    name = f"cl{kind:02d}_{items:03d}_{number:02d}"
    random = _Random(items, number)
    side, most = _EVEN.get(kind, (_BIN, _BIN))
    sizes: Counter[tuple[int, int]] = Counter()
    for _ in range(items):
        if kind in _EVEN:
            height, width = random.side(1, most), random.side(1, most)
        else:
            height, width = _of_a_kind(random, kind)
        sizes[width, height] += 1
    if name in _AS_CARRIED:
        ruled, carried = _AS_CARRIED[name]
        sizes[ruled] -= 1
        sizes[carried] += 1
    return Instance(
        name, (side, side), tuple((width, height, 1) for width, height in sorted(sizes.elements()))
    )


def _of_a_kind(random: _Random, kind: int) -> tuple[int, int]:
    """Return height and width of an item of classes 7 to 10; class 10 is the one of small items."""
    drawn, passed, chosen = random.draw(), np.float32(0), len(_KINDS) - 1
    for k in range(len(_KINDS) - 1):
        passed = passed + (_OFTEN if kind == 7 + k else _SELDOM)
        if drawn < passed:
            chosen = k
            break
    least_w, most_w, least_h, most_h = _KINDS[chosen]
    return random.side(least_h, most_h), random.side(least_w, most_w)


def rectangle_classes() -> list[Instance]:
    """Return all 500 instances: class by class, by number of items, ten each."""
    return [
        rectangle_instance(kind, items, number)
        for kind in range(1, 11)
        for items in SIZES
        for number in range(1, INSTANCES + 1)
    ]
