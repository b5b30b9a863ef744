"""Texts of an .xlsx that are crossed out letter by letter, in a cell whose own style is plain."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from quoting.tables.inside.beside.xlsx_sheet import row_and_column
from quoting.tables.inside.refusals import SheetFacts
from quoting.tables.inside.xml_walk import Walk, whole


def said_of_struck(text: str) -> str:
    """Return what is said on a cell in which a part of the text is crossed out, as a comment on it."""
    return f'The part "{" ".join(text.split())[:200]}" is struck through in this cell'


@dataclass(slots=True)
class CrossedTexts:
    """Follows the texts that cells share (ISO/IEC 29500-1, 18.4) and the cells that show crossed-out ones."""

    walk: Walk
    whole: set[int] = field(default_factory=set)
    part: dict[int, str] = field(default_factory=dict)
    _index: int = -1
    _struck: bool = False
    _texts: tuple[list[str], list[str]] = field(default_factory=lambda: ([], []))
    _at: tuple[int, int] | None = None
    _digits: list[str] = field(default_factory=list)

    def read(self, data: bytes) -> None:
        """Take the part of shared texts; most have no crossed-out letter, which its bytes tell at once."""
        if b"strike" in data:
            self.walk.over(data, self._text_start)

    def _text_start(self, tag: str, given: Mapping[str, str]) -> None:
        if tag == "si":
            self._index += 1
            self._texts = ([], [])
            self._struck = False
            self.walk.listen(None, self._text_end)
        elif tag == "r":
            self._struck = False
        elif tag == "strike":
            self._struck = given.get("val", "1") not in ("0", "false")
        elif tag == "t":
            self.walk.listen(self._texts[self._struck].append, self._text_end)

    def _text_end(self, tag: str) -> None:
        if tag == "t":
            self.walk.listen(None, self._text_end)
        elif tag == "si":
            plain, struck = ("".join(texts).strip() for texts in self._texts)
            if struck and not plain:
                self.whole.add(self._index)
            elif struck:
                self.part[self._index] = struck

    @property
    def any(self) -> bool:
        """Return whether a text is crossed out."""
        return bool(self.whole or self.part)

    def mark(self, data: bytes, facts: SheetFacts) -> None:
        """Put the cells of one sheet that show crossed-out texts into its facts."""

        def start(tag: str, given: Mapping[str, str]) -> None:
            if tag == "c" and given.get("t") == "s" and given.get("r"):
                self._at = row_and_column(given["r"])
                self._digits.clear()
                self.walk.listen(self._digits.append, end)
            elif tag == "c":
                self.walk.listen(None, None)

        def end(tag: str) -> None:
            if tag != "v" or self._at is None:
                return
            index = whole("".join(self._digits) or None, otherwise=-1, most=1 << 31)
            if index in self.whole:
                facts.struck.add(self._at)
            elif index in self.part:
                facts.comments[self._at] = said_of_struck(self.part[index])
            self._at = None

        self.walk.over(data, start)
