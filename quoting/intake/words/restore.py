"""Puts the customer's own words back where a text quotes them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from quoting.core import Draft, Order, OrderLine, Place, Question, SheetRow
from quoting.tables import Sheet, text_of

_MOST_NOTES = 500


def in_own_words(order: Order, before: Sequence[Sheet], after: Sequence[Sheet]) -> Order:
    """Return an order whose texts quote the sheets as they were before they were read as English.

    `before` and `after` are the same sheets, cell by cell.
    """
    words = _Words(before, after)
    if not words.any:
        return order
    return replace(
        order,
        customer=words.exact(None, order.customer),
        questions=tuple(words.question(one) for one in order.questions),
        lines=tuple(words.line(one) for one in order.lines),
        drafts=tuple(words.draft(one) for one in order.drafts),
        rows=tuple(words.row(one) for one in order.rows),
        notes=tuple(words.exact(None, note) for note in order.notes),
        terms=tuple(words.joined(term) for term in order.terms),
    )


class _Words:
    """What stood in the cells of each row, by what it was read as."""

    def __init__(self, before: Sequence[Sheet], after: Sequence[Sheet]) -> None:
        self._before = {sheet.name: sheet.rows for sheet in before}
        self._rows: dict[tuple[str, int], dict[str, str]] = {}
        for old, new in zip(before, after, strict=True):
            for at, (was, now) in enumerate(zip(old.rows, new.rows, strict=True)):
                if was is now:
                    continue
                pairs = {
                    text_of(b): text_of(a)
                    for a, b in zip(was, now, strict=True)
                    if isinstance(b, str) and a != b and b
                }
                if pairs:
                    self._rows[old.name, at + 1] = pairs
        self.any = bool(self._rows)
        self._parts: dict[str, str] = {}
        self._all: dict[str, str] = {}
        for pairs in self._rows.values():
            if len(self._all) < _MOST_NOTES:
                self._all.update(pairs)

    def _of(self, place: Place | None) -> Mapping[str, str]:
        if place is None or place.row is None:
            return self._all
        return self._rows.get((place.sheet or "", place.row), {})

    def exact(self, place: Place | None, text: str) -> str:
        return self._of(place).get(text, text)

    def quoted(self, place: Place | None, text: str) -> str:
        for now, was in self._of(place).items():
            if now in text:
                text = text.replace(f'"{now}', f'"{was}').replace(f'; {now}"', f'; {was}"')
        return _QUOTED.sub(lambda match: f'"{self._part(place, match[1])}"', text)

    def _part(self, place: Place | None, quoted: str) -> str:
        """Return a part of a cell, or some words of it with commas between, in the customer's words.

        Where the row does not hold it, a cell of another row may: parts that stand along the columns.
        """
        part = _part_of(self._of(place), quoted)
        if part is None:
            if quoted not in self._parts:
                self._parts[quoted] = _part_of(self._all, quoted) or quoted
            part = self._parts[quoted]
        return part

    def question(self, one: Question) -> Question:
        place = one.place if one.line else None
        read = self.exact(place, one.read) if one.line else self._every(one.read)
        return replace(one, text=self.quoted(place, one.text), read=read)

    def _every(self, text: str) -> str:
        """Return what several rows say, one after the other, in the customer's words."""
        for now in sorted((now for now in self._all if now in text), key=len, reverse=True):
            text = text.replace(now, self._all[now])
        return text

    def line(self, one: OrderLine) -> OrderLine:
        at = one.place
        return replace(
            one,
            description=self._joined(at, one.description),
            seam=self.exact(at, one.seam),
            tolerance=self.exact(at, one.tolerance),
            remarks=tuple(self._remark(at, text) for text in one.remarks),
            assumptions=tuple(self.quoted(at, text) for text in one.assumptions),
        )

    def draft(self, one: Draft) -> Draft:
        at = one.place
        texts = ("description", "seam", "tolerance")
        return replace(
            one,
            values=tuple(
                (name, self._joined(at, text) if name in texts else text) for name, text in one.values
            ),
            remarks=tuple(self._remark(at, text) for text in one.remarks),
            assumptions=tuple(self.quoted(at, text) for text in one.assumptions),
        )

    def _joined(self, place: Place, text: str) -> str:
        if not text:
            return text
        own = "; ".join(self.exact(place, piece) for piece in text.split("; "))
        return self._part(place, text) if own == text and not self._stands_in(place, text) else own

    def _stands_in(self, place: Place, text: str) -> bool:
        """Return whether a text stands in its row as the customer wrote it; on a data sheet it may not."""
        rows = self._before.get(place.sheet or "", ())
        row = rows[place.row - 1] if place.row is not None and place.row <= len(rows) else ()
        return any(piece in text_of(cell) for piece in (text, text.partition("; ")[0]) for cell in row)

    def joined(self, text: str) -> str:
        """Return a line of several cells in the customer's words."""
        return " ; ".join(self.exact(None, piece) for piece in text.split(" ; "))

    def _remark(self, place: Place, text: str) -> str:
        head, colon, rest = text.partition(": ")
        return f"{head}: {self.exact(place, rest)}" if colon else self.exact(place, text)

    def row(self, one: SheetRow) -> SheetRow:
        text = " | ".join(self.exact(one.place, piece) for piece in one.text.split(" | "))
        return replace(one, text=text, reason=self.quoted(one.place, one.reason))


def _part_of(cells: Mapping[str, str], quoted: str) -> str | None:
    """Return what a quoted part, or quoted words, of one of these cells were; None where none holds them."""
    for now, was in cells.items():
        if quoted in now:
            return _own_part(now, was, quoted)
    words = quoted.split(", ")
    for now, was in cells.items() if len(words) > 1 else ():
        if all(word in now for word in words):
            return ", ".join(dict.fromkeys(_own_part(now, was, word) for word in words))
    return None


_QUOTED = re.compile(r'"([^"\s(][^"]{0,298}[^"\s])"')
_TOKENS = re.compile(r"\w+|[^\w\s]")


@lru_cache(maxsize=1024)
def _own_part(now: str, was: str, part: str) -> str:
    """Return the part of a text that another part of its English stands for: word by word where both have the
    word, else what stands between such words.

    >>> _own_part("welded et painted by customer; cotes en mm", "soudé et peint par le client; cotes en mm",
    ...           "welded et painted by customer")
    'soudé et peint par le client'
    """
    from difflib import SequenceMatcher  # noqa: PLC0415 - few sheets need it

    english, own = list(_TOKENS.finditer(now)), list(_TOKENS.finditer(was))
    at = now.find(part)
    wanted = [index for index, token in enumerate(english) if at <= token.start() < at + len(part)]
    words, own_words = ([one.group() for one in tokens] for tokens in (english, own))
    pairs = SequenceMatcher(None, words, own_words, autojunk=False)
    spans = []
    for kind, first, last, own_first, own_last in pairs.get_opcodes():
        inside = [index for index in wanted if first <= index < last]
        if inside and kind == "equal":
            spans.append((own_first + inside[0] - first, own_first + inside[-1] - first + 1))
        elif inside and own_first < own_last:
            spans.append((own_first, own_last))
    if not spans:
        return part
    return was[own[min(first for first, _ in spans)].start() : own[max(last for _, last in spans) - 1].end()]
