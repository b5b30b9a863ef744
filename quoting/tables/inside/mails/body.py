"""The body of a mail as rows of cells: a table in it as a table, every other line as a row of one cell."""

from __future__ import annotations

from html.parser import HTMLParser

from quoting.core import InputError, Place
from quoting.tables.inside.text_tables import rows_of_text
from quoting.tables.limits import Limits
from quoting.tables.sheet import LONGEST_TEXT, Cell

_BREAKS = frozenset(("br", "p", "div", "li", "tr", "table", "h1", "h2", "h3", "h4", "hr", "ul", "ol", "pre"))
_SKIPPED = frozenset(("style", "script", "head", "title", "template"))
_WIDEST, _DEEPEST = 200, 50


def body_rows(plain: str, html: str, limits: Limits) -> list[list[Cell]]:
    """Return the rows of a mail's body: of its HTML where that holds a table, else of its plain text.

    What a mail program quotes of an earlier mail (lines that begin with >) and a signature below "-- " are
    left out.
    """
    if html:
        reader = _Body(limits)
        reader.feed(html)
        reader.close()
        rows = reader.finished()
        if not plain.strip() or sum(sum(cell != "" for cell in row) > 2 for row in rows) > 1:
            return rows
    kept: list[str] = []
    for line in plain.splitlines():
        if line.rstrip() == "--" or line == "-- ":
            break
        if not line.lstrip().startswith(">"):
            kept.append(line)
    return rows_of_text("\n".join(kept), limits, Place(""))


class _Body(HTMLParser):
    """Collects rows; a table inside a cell comes before the row that it stands in."""

    def __init__(self, limits: Limits) -> None:
        super().__init__(convert_charrefs=True)
        self._limits = limits
        self._rows: list[list[Cell]] = []
        self._open: list[list[str] | None] = []
        self._text: list[str] = []
        self._spans: list[list[int]] = []  # of the open cell of each open table
        self._skip = 0
        self._cells = 0

    def finished(self) -> list[list[Cell]]:
        """Return all rows once everything was fed."""
        while self._open:
            self._end_row()
            self._open.pop()
            self._spans.pop()
        self._end_line()
        return self._rows

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a row or a cell, or end a line."""
        if tag in _SKIPPED:
            self._skip += 1
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
        text = " ".join("".join(self._text).split())
        self._text.clear()
        if text:
            self._row([text[:LONGEST_TEXT]])
        self._open.append(None)
        self._spans.append([])

    def handle_endtag(self, tag: str) -> None:
        """End what was begun."""
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
            self._text.append(data)

    def _end_line(self) -> None:
        if any(row is not None for row in self._open):
            self._text.append(" ")
            return
        text = " ".join("".join(self._text).split())
        self._text.clear()
        if text:
            self._row([text[:LONGEST_TEXT]])

    def _end_cell(self) -> None:
        if not (self._open and self._open[-1] is not None and self._spans[-1]):
            return
        text = " ".join("".join(self._text).split())[:LONGEST_TEXT]
        self._text.clear()
        self._open[-1] += [text, *[""] * (self._spans[-1].pop() - 1)]

    def _end_row(self) -> None:
        self._end_cell()
        row = self._open[-1] if self._open else None
        if row and any(row):
            filled = [cell for cell in row if cell]
            self._row([*(filled if len(filled) == 1 else row)])
        if self._open:
            self._open[-1] = None

    def _row(self, row: list[Cell]) -> None:
        self._cells += len(row)
        if len(self._rows) >= self._limits.rows or self._cells > self._limits.cells:
            raise InputError("the body of the mail has more rows than an order sheet")
        self._rows.append(row)
