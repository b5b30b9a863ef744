"""Type and tables of the PDF quote: one list of styles, and letters that hold what the customer wrote."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from html import escape
from typing import Any

from quoting.books.look import BAND, INK, QUIET, cell_text
from quoting.books.quote.long_table import Rows, RowsLeft, long_table
from quoting.drawings import wide_fonts, with_fonts

_RULE = "#B4BCC0"
_STYLES: dict[str, dict[str, Any]] = {
    "text": {"fontSize": 9, "leading": 11.5},
    "right": {"fontSize": 9, "leading": 11.5, "alignment": 2},
    "bold": {"fontSize": 9, "leading": 11.5, "bold": True},
    "bold right": {"fontSize": 9, "leading": 11.5, "bold": True, "alignment": 2},
    "head": {"fontSize": 9, "leading": 11.5, "bold": True},
    "head right": {"fontSize": 9, "leading": 11.5, "bold": True, "alignment": 2},
    "quiet": {"fontSize": 8, "leading": 10, "textColor": QUIET},
    "quiet right": {"fontSize": 8, "leading": 10, "textColor": QUIET, "alignment": 2},
    "title": {"fontSize": 16, "leading": 20, "bold": True, "textColor": INK},
    "title right": {"fontSize": 16, "leading": 20, "bold": True, "textColor": INK, "alignment": 2},
    "section": {
        "fontSize": 11,
        "leading": 14,
        "bold": True,
        "textColor": INK,
        "spaceAfter": 3,
        "keepWithNext": 1,
    },
    "lead": {"fontSize": 8, "leading": 10, "textColor": QUIET, "spaceAfter": 6, "keepWithNext": 1},
    "point": {"fontSize": 9, "leading": 11.5, "leftIndent": 9, "bulletIndent": 0, "spaceAfter": 1.5},
}


def plain_text(text: str) -> str:
    """Return text fit to print: no control characters, one line."""
    return cell_text(text).replace("\n", " ")


@dataclass(frozen=True, slots=True)
class Type:
    """The two fonts of a document, and how its paragraphs and tables are made; widths in mm.

    `breaking` lets a row go over to the next page, for texts that no page holds. `text` is all that the
    customer wrote.
    """

    plain: str
    bold: str
    breaking: bool = False
    text: str = ""

    @property
    def quiet(self) -> Any:
        """Return the colour of small print."""
        from reportlab.lib.colors import HexColor  # noqa: PLC0415 - kept out of the start of the command

        return HexColor(QUIET)

    def say(self, text: str, style: str) -> Any:
        """Return a paragraph; nothing in the text is taken for markup."""
        from reportlab.platypus import Paragraph  # noqa: PLC0415

        safe = self._letters(cell_text(text)).replace("\n", "<br/>")
        return Paragraph(safe, self._style(style), bulletText="•" if style == "point" else None)

    def _letters(self, text: str) -> str:
        """Return escaped text, letters that these fonts lack in others."""
        if self.plain == "Helvetica":
            return escape(text, quote=False)
        return with_fonts(text, _holds, self.text)

    def gap(self, mm_high: float) -> Any:
        """Return white space."""
        from reportlab.lib.units import mm  # noqa: PLC0415
        from reportlab.platypus import Spacer  # noqa: PLC0415

        return Spacer(1, mm_high * mm)

    def together(self, blocks: list[Any]) -> Any:
        """Return blocks that stay on one page."""
        from reportlab.platypus import KeepTogether  # noqa: PLC0415

        return KeepTogether(blocks)

    def table(
        self,
        rows: Rows,
        widths_mm: Sequence[float],
        *,
        head: bool = False,
        rules: bool = False,
        last_rule: bool = False,
        notes: Sequence[int] = (),
        notes_from: int = 0,
    ) -> Any:
        """Return a table; with `head` its first row comes again on every page.

        The rows `notes` belong to the row above them, and reach from column `notes_from` to the last one.
        """

        def make(part: RowsLeft) -> Any:
            look = self._look(head=head, last_rule=last_rule)
            if rules:
                look += _rules(len(part.rows), part.notes, after=part.after)
            return self._made(part, widths_mm, look + self._notes(part.notes, notes_from), head=head)

        every = RowsLeft(rows, notes)
        return long_table(make, every) if head and not self.breaking else make(every)

    def _look(self, *, head: bool, last_rule: bool) -> list[tuple[Any, ...]]:
        from reportlab.lib.colors import HexColor  # noqa: PLC0415

        look: list[tuple[Any, ...]] = [
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ("LEFTPADDING", (0, 0), (-1, -1), 2),
            ("RIGHTPADDING", (0, 0), (-1, -1), 2),
            ("TOPPADDING", (0, 0), (-1, -1), 2),
            ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
        ]
        if head:
            look += [
                ("BACKGROUND", (0, 0), (-1, 0), HexColor(BAND)),
                ("LINEBELOW", (0, 0), (-1, 0), 0.8, HexColor("#000000")),
                ("VALIGN", (0, 0), (-1, 0), "BOTTOM"),
            ]
        if last_rule:
            look.append(("LINEABOVE", (0, -1), (-1, -1), 0.8, HexColor("#000000")))
        return look

    def _notes(self, notes: Sequence[int], notes_from: int) -> list[tuple[Any, ...]]:
        look: list[tuple[Any, ...]] = []
        for row in notes:
            look += [("SPAN", (notes_from, row), (-1, row)), ("TOPPADDING", (0, row), (-1, row), 0)]
            if not self.breaking:  # rows that both break and stay together are laid out for ever
                look.append(("NOSPLIT", (0, row - 1), (-1, row)))
        return look

    def _made(
        self, part: RowsLeft, widths_mm: Sequence[float], look: Sequence[tuple[Any, ...]], *, head: bool
    ) -> Any:
        from reportlab.lib.units import mm  # noqa: PLC0415
        from reportlab.platypus import Table  # noqa: PLC0415

        return Table(
            [list(row) for row in part.rows],
            colWidths=[width * mm for width in widths_mm],
            rowHeights=list(part.heights) or None,
            style=look,
            repeatRows=1 if head else 0,
            splitInRow=1 if self.breaking else 0,
            hAlign="LEFT",
        )

    def _style(self, name: str) -> Any:
        return _style(name, self.plain, self.bold)


def _rules(rows: int, notes: Sequence[int], *, after: bool) -> list[tuple[Any, ...]]:
    """Return a thin line below every row that no note follows, and above the first where rows came before."""
    from reportlab.lib.colors import HexColor  # noqa: PLC0415

    colour, followed = HexColor(_RULE), {row - 1 for row in notes}
    above = [("LINEABOVE", (0, 1), (-1, 1), 0.4, colour)] if after else []
    below = [("LINEBELOW", (0, row), (-1, row), 0.4, colour) for row in range(1, rows) if row not in followed]
    return [*above, *below]


@cache
def _style(name: str, plain: str, bold: str) -> Any:
    from reportlab.lib.styles import ParagraphStyle  # noqa: PLC0415

    given = dict(_STYLES[name])
    font = bold if given.pop("bold", False) else plain
    return ParagraphStyle(
        name, fontName=font, bulletFontName=plain, bulletFontSize=9, splitLongWords=1, **given
    )


def type_for(text: str) -> Type:
    """Return the fonts for a document with this text: the plain ones of every reader, or wider ones.

    Every PDF reader has Helvetica with the letters of Western Europe; for others a font goes into the file.
    """
    try:
        text.encode("cp1252")
    except UnicodeEncodeError:
        return replace(Type(*wide_fonts()), text=text)
    return Type("Helvetica", "Helvetica-Bold")


@cache
def _holds(letter: str) -> bool:
    """Return whether the wide font has a letter."""
    from reportlab.pdfbase import pdfmetrics  # noqa: PLC0415

    face: Any = getattr(pdfmetrics.getFont(wide_fonts()[0]), "face", None)
    return face is not None and ord(letter) in face.charToGlyph
