"""Finds sizes that stand anywhere in a sentence."""

from __future__ import annotations

from functools import lru_cache

from quoting.core import Measure, NumberStyle, SizeError, parse_measures

_MOST_WORDS = 14


@lru_cache(maxsize=4096)
def runs_in(text: str) -> tuple[tuple[Measure, ...], ...]:
    """Return the runs of sizes that stand in a text, each the longest stretch of words that reads as sizes.

    >>> [[size.low for size in run] for run in runs_in("Roll 48 OD x 1/4 x 60 for tank, R24 ends")]
    [[48.0, 0.25, 60.0], [24.0]]
    """
    words = text.replace(";", " ").replace(",", " , ").split()[:60]
    found: list[tuple[Measure, ...]] = []
    at = 0
    while at < len(words):
        run = _longest(words, at)
        if run is None:
            at += 1
            continue
        sizes, at = run
        found.append(sizes)
    return tuple(found)


def sizes_in(text: str) -> tuple[Measure, ...]:
    """Return the sizes in a text that say what they are: by a mark, a unit or a fraction."""
    return tuple(size for run in runs_in(text) for size in run if size.mark or size.unit or size.fraction)


def _longest(words: list[str], at: int) -> tuple[tuple[Measure, ...], int] | None:
    if not any(sign.isdigit() for word in words[at : at + 2] for sign in word):
        return None
    for end in range(min(len(words), at + _MOST_WORDS), at, -1):
        piece = " ".join(words[at:end]).rstrip(".!")
        try:
            return parse_measures(piece, NumberStyle.POINT), end
        except SizeError:
            continue
    return None
