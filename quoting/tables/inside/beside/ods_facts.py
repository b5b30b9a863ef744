"""What the XML of an .ods says beside its values: hidden rows, errors, comments, repeated cells."""

from __future__ import annotations

from collections.abc import Mapping

from quoting.tables.inside.refusals import DAMAGED, SMALLER, RefusedError, SheetFacts
from quoting.tables.inside.xml_walk import Walk, whole
from quoting.tables.limits import Limits
from quoting.tables.sheet import LONGEST_TEXT

_HIDDEN = ("collapse", "filter")
_REPEATS = 1 << 31
_SPACES = 100_000
_TABLE = "urn:oasis:names:tc:opendocument:xmlns:table:1.0 "
_STYLE = "urn:oasis:names:tc:opendocument:xmlns:style:1.0 "
_BOXES = ("text-box", "custom-shape")
_TEXT = "urn:oasis:names:tc:opendocument:xmlns:text:1.0 "


def ods_facts(data: bytes, walk: Walk, limits: Limits) -> list[SheetFacts]:
    """Return the facts of each sheet of an .ods; RefusedError when repeated cells break the limit."""
    found = _OdsWalk(walk, limits)
    walk.over(data, found.start, found.end)
    if sum(sheet.cells for sheet in found.sheets) > limits.all_cells:
        raise RefusedError(f"its sheets hold more than {limits.all_cells:,} cells", SMALLER)
    return found.sheets


class _OdsWalk:
    """Follows rows and cells with their repeats; empty ones count only when something stands after them."""

    def __init__(self, walk: Walk, limits: Limits) -> None:
        self._walk, self._limits = walk, limits
        self.sheets: list[SheetFacts] = []
        self._row = self._rows = self._column = self._width = 0
        self._used = self._repeat = self._cell_repeat = self._spaces = 0
        self._depth = 0
        self._style = ""
        self._crossed: set[str] = set()
        self._within = ""
        self._words: list[str] = []

    def start(self, tag: str, given: Mapping[str, str]) -> None:
        """Take an opening tag."""
        if self._word(tag):
            return
        if tag == "style":
            self._style = given.get(f"{_STYLE}name", "")
        elif tag == "text-properties":
            if given.get(f"{_STYLE}text-line-through-style", "none") != "none":
                self._crossed.add(self._style)
        elif tag == "table":
            self._depth += 1
            if self._depth > 1:
                raise RefusedError("it holds a table inside a cell")
            self.sheets.append(SheetFacts())
            self._row = self._width = 0
        elif tag == "table-row":
            self._column = self._used = 0
            self._repeat = _repeats(given, "rows")
            if self.sheets and any(value in _HIDDEN for key, value in given.items() if "visibility" in key):
                self.sheets[-1].hidden_rows.update(
                    range(self._row, self._row + min(self._repeat, self._limits.rows))
                )
        elif tag in ("table-cell", "covered-table-cell"):
            self._cell(given)
        elif tag == "s":
            self._spaces += whole(given.get(f"{_TEXT}c"), otherwise=1, most=_SPACES)
            if self._spaces > _SPACES * 10:
                raise RefusedError("its texts are mostly blanks, more than the limit", SMALLER)
        elif tag == "p":
            self._used = max(self._used, self._column)

    def _word(self, tag: str) -> bool:
        """Take an opening tag of what stands in no cell; tell whether it is one."""
        if tag == "annotation" or tag in _BOXES:
            self._within = self._within or tag
        elif tag == "p" and self._within:
            self._words.clear()
            self._walk.listen(self._words.append, self.end)
        else:
            return False
        return True

    def _cell(self, given: Mapping[str, str]) -> None:
        kind = next((value for key, value in given.items() if key.endswith("value-type")), "")
        if any(key.endswith(" value-type") and value == "error" for key, value in given.items()):
            if not self.sheets:
                raise RefusedError(DAMAGED)
            self.sheets[-1].errors[self._row, self._column] = "an error"
        if self._crossed and self.sheets and given.get(f"{_TABLE}style-name") in self._crossed:
            self.sheets[-1].struck.add((self._row, self._column))
        self._spans(given)
        self._cell_repeat = _repeats(given, "columns")
        self._column += self._cell_repeat
        if kind:
            self._used = self._column

    def _spans(self, given: Mapping[str, str]) -> None:
        """Note a merged cell."""
        down = whole(given.get(f"{_TABLE}number-rows-spanned"), otherwise=1, most=self._limits.rows)
        across = whole(given.get(f"{_TABLE}number-columns-spanned"), otherwise=1, most=_SPACES)
        if self.sheets and (down > 1 or across > 1):
            corner = (self._row + down - 1, self._column + across - 1)
            self.sheets[-1].merged.append((self._row, self._column, *corner))

    def end(self, tag: str) -> None:
        """Take a closing tag: a row is over, or a sheet, or words that stand in no cell."""
        if tag == "p" and self._within:
            self._walk.listen(None, self.end)
            self._said("".join(self._words).strip()[:LONGEST_TEXT])
        elif tag == self._within:
            self._within = ""
        elif tag == "table":
            self._depth -= 1
        elif tag == "table-row":
            self._row += self._repeat
            if self._used and self.sheets:
                self._width = max(self._width, self._used)
                if self._row > self._limits.rows or self._row * self._width > self._limits.cells:
                    raise RefusedError(
                        f"a sheet fills more than {self._limits.rows:,} rows or {self._limits.cells:,} cells",
                        SMALLER,
                    )
                self.sheets[-1].cells = self._row * self._width

    def _said(self, text: str) -> None:
        """Note a paragraph of a comment, which stands inside its cell, or of a box."""
        if not text or not self.sheets:
            return
        sheet, at = self.sheets[-1], (self._row, self._column - self._cell_repeat)
        if self._within == "annotation":
            sheet.comments[at] = f"{sheet.comments[at]}\n{text}" if at in sheet.comments else text
        else:
            sheet.boxes.append(text)


def _repeats(given: Mapping[str, str], what: str) -> int:
    return whole(given.get(f"{_TABLE}number-{what}-repeated"), otherwise=1, most=_REPEATS)
