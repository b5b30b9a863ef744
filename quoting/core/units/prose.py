"""Finds the sizes that stand in a sentence, each with the words that say what it measures."""

from __future__ import annotations

from dataclasses import dataclass, replace

from quoting.core.order import Basis
from quoting.core.units.grammar import SizeParser
from quoting.core.units.measure import Mark, Measure, NumberStyle, SizeError, Unit
from quoting.core.units.tokens import TokenKind
from quoting.core.units.vocabulary import MARKS


@dataclass(frozen=True, slots=True)
class Sighting:
    """A size in a sentence; `joined` when an x ties it to the one before, `clear` False for a bare number
    that the grammar could not read (`start` and `end` tell where it stands)."""

    measure: Measure
    joined: bool = False
    clear: bool = True


def sizes_in_prose(text: str, style: NumberStyle) -> tuple[Sighting, ...]:
    """Return every number of a sentence as a size, in their order.

    >>> [(one.measure.low, str(one.measure.mark)) for one in sizes_in_prose("t 8, ID 600, 500 wide", POINT)]
    [(8.0, 'thk'), (600.0, 'dia'), (500.0, 'wide')]
    """
    return _Scanner(text, style, prose=True).sightings()


POINT = NumberStyle.POINT


class _Scanner(SizeParser):
    """Walks over a sentence and stops at every number."""

    def sightings(self) -> tuple[Sighting, ...]:
        found: list[Sighting] = []
        ended = -1
        joined = False
        while self.token.kind is not TokenKind.END:
            start = self.at
            if self.take("*"):
                joined = ended == start
                continue
            try:
                size = self.sighted()
            except SizeError:
                self.at = start + 1
                token = self.tokens[start]
                if token.kind in (TokenKind.NUMBER, TokenKind.VULGAR):
                    bad = Measure(0, 0, start=token.start, end=token.end)
                    found.append(Sighting(bad, clear=False))
                joined = False
                continue
            found.append(Sighting(size, joined))
            ended, joined = self.at, False
        return tuple(found)

    def sighted(self) -> Measure:
        """Read one size with its marks before or after it; a mark of another kind belongs to the next."""
        first = self.token
        mark, basis = self.marks_before()
        measure = self.quantity()
        if measure.unit is Unit.DEGREE:
            return replace(measure, start=first.start, end=self.tokens[self.at - 1].end)
        mark, basis = self.marks_after(mark, basis)
        kept = self.at
        try:
            measure = self.tolerance(measure)
        except SizeError:
            self.at = kept
        mark, basis = self.marks_after(mark, basis)
        if measure.unit in (Unit.NPS, Unit.DN):
            mark = mark or Mark.DIAMETER
        if measure.unit is Unit.GAUGE:
            mark = Mark.THICKNESS
        return replace(measure, mark=mark, basis=basis, start=first.start, end=self.tokens[self.at - 1].end)

    def marks_before(self) -> tuple[Mark | None, Basis | None]:
        mark: Mark | None = None
        basis: Basis | None = None
        while self.token.kind in (TokenKind.WORD, TokenKind.MARK) and self.token.text in MARKS:
            new_mark, new_basis = MARKS[self.token.text]
            if mark in _WHERE and new_mark is Mark.DIAMETER:
                new_mark = mark
            elif (new_mark and mark and new_mark is not mark) or (
                new_basis and basis and new_basis is not basis
            ):
                raise self.fail("it contradicts the mark before it")
            mark, basis = new_mark or mark, new_basis or basis
            self.at += 1
        return mark, basis

    def marks_after(self, mark: Mark | None, basis: Basis | None) -> tuple[Mark | None, Basis | None]:
        given = mark is not None
        while self.token.kind in (TokenKind.WORD, TokenKind.MARK) and self.token.text in MARKS:
            new_mark, new_basis = MARKS[self.token.text]
            if mark in _WHERE and new_mark is Mark.DIAMETER:
                new_mark = mark
            other = (new_mark and mark and new_mark is not mark) or (
                new_basis and basis and new_basis is not basis
            )
            heads_next = new_mark is not None and self._number_follows() and (given or self._heads_next())
            if other or heads_next:
                break
            mark, basis = new_mark or mark, new_basis or basis
            self.at += 1
        return mark, basis

    def _heads_next(self) -> bool:
        """Return whether a noun such as width stands before its number, which no other mark follows."""
        after = self.peek(4 if self.peek(2).text == "/" else 2)
        if not self.token.spaced and self.peek(1).spaced:
            return False  # 120h 1/4t
        return self.token.text in _NOUNS and after.text not in MARKS

    def _number_follows(self) -> bool:
        return self.peek(1).kind in (TokenKind.NUMBER, TokenKind.VULGAR)


_NOUNS = frozenset((
    "girth", "chord", "rise", "arclength", "largeend", "smallend", "slant", "length", "width", "height",
    "radius", "diameter", "thickness", "l", "w", "h", "r",
))  # fmt: skip
_WHERE = (Mark.LARGE, Mark.SMALL)
