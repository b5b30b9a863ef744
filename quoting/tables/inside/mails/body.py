"""The body of a mail as rows of cells: a table in it as a table, every other line as a row of one cell."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser

from quoting.core import InputError, Place
from quoting.tables.inside.beside import said_of_struck
from quoting.tables.inside.text_tables import rows_of_text
from quoting.tables.limits import Limits
from quoting.tables.sheet import LONGEST_TEXT, Cell

_BREAKS = frozenset(("br", "p", "div", "li", "tr", "table", "h1", "h2", "h3", "h4", "hr", "ul", "ol", "pre"))
_SKIPPED = frozenset(("style", "script", "head", "title", "template"))
_EMPTY = frozenset(("br", "hr", "img", "input", "meta", "link", "wbr", "col", "area", "base", "source"))
_CROSSED = frozenset(("s", "strike", "del"))
_LINE_THROUGH = re.compile(r"text-decoration[\w-]*\s*:[^;]*line-through", re.I)
_WIDEST, _DEEPEST = 200, 50


@dataclass(frozen=True, slots=True)
class _Words:
    """The text of a cell or line: all of it, and what of it is crossed out."""

    text: str = ""
    struck: str = ""


@dataclass(frozen=True, slots=True)
class BodyRows:
    """The rows of a body, which cells are crossed out, and what is said on those that are in part."""

    rows: list[list[Cell]]
    struck: frozenset[tuple[int, int]] = frozenset()
    comments: dict[tuple[int, int], str] = field(default_factory=dict)


def body_rows(plain: str, html: str, limits: Limits) -> BodyRows:
    """Return the rows of a mail's body: of its HTML where that holds a table, else of its plain text.

    HTML goes before where something in it is crossed out, which plain text cannot show. What a mail program
    quotes of an earlier mail (lines that begin with >) and a signature below "-- " are left out.
    """
    if html:
        reader = _Body(limits)
        reader.feed(html)
        reader.close()
        body = reader.finished()
        table = sum(sum(cell != "" for cell in row) > 2 for row in body.rows) > 1
        if not plain.strip() or table or body.struck or body.comments:
            return body
    kept: list[str] = []
    for line in plain.splitlines():
        if line.rstrip() == "--" or line == "-- ":
            break
        if not line.lstrip().startswith(">"):
            kept.append(line)
    return BodyRows(rows_of_text("\n".join(kept), limits, Place("")))


class _Body(HTMLParser):
    """Collects rows; a table inside a cell comes before the row that it stands in."""

    def __init__(self, limits: Limits) -> None:
        super().__init__(convert_charrefs=True)
        self._limits = limits
        self._rows: list[list[Cell]] = []
        self._struck: set[tuple[int, int]] = set()
        self._comments: dict[tuple[int, int], str] = {}
        self._open: list[list[_Words] | None] = []
        self._text: list[tuple[str, bool]] = []
        self._crossed: list[str] = []  # the open tags from the first on that crosses out
        self._spans: list[list[int]] = []  # of the open cell of each open table
        self._skip = 0
        self._cells = 0

    def finished(self) -> BodyRows:
        """Return all rows once everything was fed."""
        while self._open:
            self._end_row()
            self._open.pop()
            self._spans.pop()
        self._end_line()
        return BodyRows(self._rows, frozenset(self._struck), self._comments)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a row or a cell, or end a line."""
        if tag in _SKIPPED:
            self._skip += 1
        crosses = tag in _CROSSED or any(
            name == "style" and value and _LINE_THROUGH.search(value) for name, value in attrs
        )
        if (crosses or self._crossed) and tag not in _EMPTY:
            self._crossed.append(tag)
        if tag == "table":
            self._begin_table()
        elif tag == "tr" and self._open:
            self._end_row()
            self._open[-1] = []
        elif tag in ("td", "th") and self._open:
            self._end_cell()
            if self._open[-1] is None:
                self._open[-1] = []
            span = dict(attrs).get("colspan") or "1"
            self._spans[-1].append(min(int(span), _WIDEST) if span.isdecimal() and len(span) < 5 else 1)
        elif tag in _BREAKS:
            self._end_line()

    def _begin_table(self) -> None:
        """Begin a table; what stands before it in a cell that only lays out the mail is a line of its own."""
        if len(self._open) >= _DEEPEST:
            raise InputError("the body of the mail nests more tables than any mail program writes")
        words = self._words()
        if words.text:
            self._row([words])
        self._open.append(None)
        self._spans.append([])

    def handle_endtag(self, tag: str) -> None:
        """End what was begun."""
        if tag in self._crossed:
            last = len(self._crossed) - 1 - self._crossed[::-1].index(tag)
            del self._crossed[last:]
        if tag in _SKIPPED:
            self._skip = max(0, self._skip - 1)
        if tag == "table" and self._open:
            self._end_row()
            self._open.pop()
            self._spans.pop()
        elif tag == "tr":
            self._end_row()
        elif tag in ("td", "th"):
            self._end_cell()
        elif tag in _BREAKS:
            self._end_line()

    def handle_data(self, data: str) -> None:
        """Collect text."""
        if not self._skip:
            self._text.append((data, bool(self._crossed)))

    def _words(self) -> _Words:
        """Return the text collected so far, and begin anew."""
        text, struck = (
            " ".join("".join(data for data, crossed in self._text if crossed or whole).split())
            for whole in (True, False)
        )
        self._text.clear()
        return _Words(text[:LONGEST_TEXT], struck[:LONGEST_TEXT])

    def _end_line(self) -> None:
        if any(row is not None for row in self._open):
            self._text.append((" ", False))
            return
        words = self._words()
        if words.text:
            self._row([words])

    def _end_cell(self) -> None:
        if not (self._open and self._open[-1] is not None and self._spans[-1]):
            return
        self._open[-1] += [self._words(), *[_Words()] * (self._spans[-1].pop() - 1)]

    def _end_row(self) -> None:
        self._end_cell()
        row = self._open[-1] if self._open else None
        if row and any(cell.text for cell in row):
            filled = [cell for cell in row if cell.text]
            self._row([*(filled if len(filled) == 1 else row)])
        if self._open:
            self._open[-1] = None

    def _row(self, row: list[_Words]) -> None:
        self._cells += len(row)
        if len(self._rows) >= self._limits.rows or self._cells > self._limits.cells:
            raise InputError("the body of the mail has more rows than an order sheet")
        for column, words in enumerate(row):
            if words.struck == words.text != "":
                self._struck.add((len(self._rows), column))
            elif words.struck:
                self._comments[len(self._rows), column] = said_of_struck(words.struck)
        self._rows.append([words.text for words in row])
