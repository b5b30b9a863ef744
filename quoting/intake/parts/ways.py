"""All ways in which the marks of a text may belong to its numbers, each with what speaks against it.

Every mark stands before or behind the number it belongs to, so that the marks between two numbers are parted
somewhere. What stands between a mark and its number, and where such marks stand as a rule, is the cost of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import prod

from quoting.intake.parts.marks import Sense
from quoting.intake.parts.snippet import FILLERS, Kind, Snippet

DEAREST = 2.6
"""A way that costs more is none."""
_NEAR = 3.0
"""Nor is a sharing of the marks of one gap that costs so much more than its cheapest."""
_MOST_WAYS = 32_000
_ACROSS_BREAK, _ACROSS_BRACKET = 2.0, 0.3
_ACROSS = {Kind.TIMES: 4.0, Kind.BREAK: _ACROSS_BREAK, Kind.OTHER: 1.0}
_ACROSS_WORD, _SIDE_ACROSS_WORD, _ACROSS_FILLER = 0.8, 2.5, 0.1
_SPACE, _LONE_LETTER, _UNUSUAL_PLACE = 0.1, 0.6, 1.5
_ON_BOTH_SIDES, _WEAK_IGNORED, _IN_NO_LIST = 0.4, 0.3, 0.8
SIDED = ("D", "R", "G", "U", "C", "S", "B")
"""The fields that are measured on one side of the plate."""


@dataclass(frozen=True, slots=True)
class Marked:
    """A number with what the marks given to it say: field, side and end, as far as they say them."""

    piece: Snippet
    field: str = ""
    side: str = ""
    end: str = ""


@dataclass(frozen=True, slots=True)
class _Shared:
    """Marks of one gap: those of the number before it and those of the number behind it."""

    cost: float
    left: tuple[int, ...]
    right: tuple[int, ...]


def ways(text: str, pieces: tuple[Snippet, ...], numbers: list[int]) -> Iterator[tuple[float, list[Marked]]]:
    """Yield every way to give the marks to the numbers, with its cost; `text` is in plain signs."""
    edges = [-1, *numbers, len(pieces)]
    shared: list[list[_Shared]] = []
    for at in range(len(edges) - 1):
        gap = range(edges[at] + 1, edges[at + 1])
        marks = [index for index in gap if pieces[index].kind is Kind.MARK]
        left = edges[at] if at else None
        right = edges[at + 1] if at < len(numbers) else None
        shared.append(_sharings(text, pieces, marks, left, right))
    if prod(map(len, shared)) > _MOST_WAYS:
        return
    for way in product(*shared):
        cost = sum(one.cost for one in way)
        if cost <= DEAREST:
            for more, givens in _labelled(pieces, numbers, way):
                yield cost + more, givens


def _sharings(
    text: str, pieces: tuple[Snippet, ...], marks: list[int], left: int | None, right: int | None
) -> list[_Shared]:
    """Return how the marks between two numbers may be parted; those before the first are all its own."""
    found = []
    for cut in range(len(marks) + 1):
        before, behind = tuple(marks[:cut]), tuple(marks[cut:])
        lost = (before if left is None else ()) + (behind if right is None else ())
        if any(_must(pieces[index]) for index in lost):
            continue
        before = before if left is not None else ()
        behind = behind if right is not None else ()
        cost = 0.0
        if left is not None:
            cost += sum(_distance(text, pieces, left, index, before=False) for index in before)
        if right is not None:
            cost += sum(_distance(text, pieces, index, right, before=True) for index in behind)
        found.append(_Shared(cost, before, behind))
    least = min((one.cost for one in found), default=0.0)
    return [one for one in found if one.cost <= least + _NEAR]


def _must(piece: Snippet) -> bool:
    """Return whether a mark has to belong to a number: not the word plate, and not top or bottom."""
    return not all(one.weak or one.end == "first" for one in piece.means)


def _distance(text: str, pieces: tuple[Snippet, ...], start: int, end: int, *, before: bool) -> float:
    """Return what speaks against a mark being that of a number; it stands `before` or behind the number."""
    mark = pieces[start] if before else pieces[end]
    only_side = all(not one.field for one in mark.means)
    between = pieces[start + 1 : end]
    cost = sum(_crossed(text, piece, before=before, only_side=only_side) for piece in between)
    equals = any(piece.sign in ("=", ":") for piece in between if piece.kind is Kind.WORD)
    if not equals and (between or pieces[end].spaced):
        lone = mark.end - mark.start == 1 and text[mark.start].isalpha() and not between
        cost += _LONE_LETTER if lone else _SPACE
    unusual = before and not equals and mark.means[0].place == "behind"
    return cost + (_UNUSUAL_PLACE if unusual else 0.0)


def _crossed(text: str, piece: Snippet, *, before: bool, only_side: bool) -> float:
    """Return what speaks against a mark and a number with this piece between them."""
    if piece.kind is not Kind.WORD:
        return (
            _ACROSS_BRACKET
            if piece.kind is Kind.BREAK and piece.sign in "()"
            else _ACROSS.get(piece.kind, 0.0)
        )
    if piece.sign in ("=", ":"):
        return 0.0 if before else _ACROSS_BREAK
    if piece.sign == "." or text[piece.start : piece.end].strip(".") in FILLERS:
        return _ACROSS_FILLER
    return _SIDE_ACROSS_WORD if only_side else _ACROSS_WORD


def _labelled(
    pieces: tuple[Snippet, ...], numbers: list[int], way: tuple[_Shared, ...]
) -> Iterator[tuple[float, list[Marked]]]:
    """Yield the numbers with one meaning each of the marks that one way gives them."""
    options = []
    for at, index in enumerate(numbers):
        before, behind = way[at].right, way[at + 1].left
        found = list(_meant(pieces[index], [pieces[one] for one in before], [pieces[one] for one in behind]))
        if not found:
            return
        options.append(found)
    alone = [_in_no_list(pieces, index) for index in numbers]
    for chosen in product(*options):
        givens = [one for _, one in chosen]
        lost = sum(lonely and not one.field for one, lonely in zip(givens, alone, strict=True))
        yield sum(cost for cost, _ in chosen) + _IN_NO_LIST * lost, givens


def _in_no_list(pieces: tuple[Snippet, ...], index: int) -> bool:
    """Return whether neither an x nor a comma stands beside a number."""
    beside = (pieces[at] for at in (index - 1, index + 1) if 0 <= at < len(pieces))
    return not any(piece.kind in (Kind.TIMES, Kind.BREAK) for piece in beside)


def _meant(number: Snippet, before: list[Snippet], behind: list[Snippet]) -> Iterator[tuple[float, Marked]]:
    cost = _ON_BOTH_SIDES if before and behind else 0.0
    marks = [*before, *behind]
    for means in product(*(mark.means for mark in marks)):
        if any(_misplaced(one, mark) for one, mark in zip(means, before, strict=False)):
            continue
        found = _joined(number, list(means))
        if found is not None:
            ignored = any(one.weak and one.field != found.field for one in means)
            yield cost + (_WEAK_IGNORED if ignored else 0.0), found


def _misplaced(meaning: Sense, mark: Snippet) -> bool:
    """Return whether a mark of several meanings has one here that it only has behind its number: .250W."""
    return meaning.place == "behind" and meaning.field == "T" and len(mark.means) > 1


def _joined(number: Snippet, means: list[Sense]) -> Marked | None:
    """Return a number with what all its marks say, or nothing where they contradict each other."""
    strong = {one.field for one in means if one.field and not one.weak}
    sides = {one.side for one in means if one.side}
    ends = {one.end for one in means if one.end and one.end != "first"}
    if strong == {"U", "D"} and sides:
        strong = {"U"}  # the circumference at the outside diameter
    if max(len(strong), len(sides), len(ends)) > 1:
        return None
    given = Marked(number, "".join(strong), "".join(sides), "".join(ends))
    fixed = _BY_UNIT.get(number.unit)
    if fixed is not None:
        return _fixed(given, *fixed)
    weak = next((one.field for one in means if one.weak), "")
    field = given.field or ("D" if sides or ends else weak)
    if (sides and field not in SIDED) or (ends and field != "D"):
        return None
    return replace(given, field=field)


_BY_UNIT = {
    "deg": ("A", ""),
    "ga": ("T", ""),
    "sch": ("T", ""),
    "NPS": ("D", "outside"),
    "DN": ("D", "outside"),
}
"""The field and the side that the unit of a number says by itself."""


def _fixed(given: Marked, field: str, side: str) -> Marked | None:
    """Return a number whose unit says what it is; nothing where a mark says another thing."""
    fits = given.field in ("", field if field != "A" else "") and given.side in ("", side) and not given.end
    return replace(given, field=field, side=side) if fits else None
