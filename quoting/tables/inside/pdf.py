"""Reads the tables of a PDF that holds text: ruled ones by their lines, others by the gaps between words.

Every value is marked as read from a PDF (`Sheet.source`); a row whose words do not each stand under one
heading is marked as unsure. What somebody wrote on the pages afterwards (ISO 32000-1, 12.5: annotations) is
told as boxes over the sheet. A page that is only a picture holds no text: that is said, nothing is guessed.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, replace
from typing import Any

from quoting.core import InputError, Place, shown_name
from quoting.tables.inside.given import Source, pure
from quoting.tables.inside.refusals import UNLOCK
from quoting.tables.limits import Limits
from quoting.tables.sheet import LONGEST_TEXT, Cell, Sheet

SHEET = "lines of the PDF"
_MOST_PAGES = 60
_GAP = 1.0
"""Blank as wide as so many letters' height parts two cells; words of one cell stand closer."""
_FEWEST_CELLS = 3
_MOST_NOTES = 500


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of a page: its cells with their left and right ends; `ruled` when lines part them."""

    top: float
    cells: tuple[tuple[float, float, str], ...]
    ruled: bool = False


def read_pdf(file: Source, limits: Limits) -> Sheet:
    """Return the lines of all pages as one sheet. InputError for a scan, a lock, or what is no PDF."""
    import pdfplumber  # noqa: PLC0415 - only where a PDF is read
    from pdfminer.pdfdocument import PDFPasswordIncorrect  # noqa: PLC0415

    place = Place(shown_name(pure(file)))
    try:
        with pdfplumber.open(io.BytesIO(file.read_bytes())) as document:
            if len(document.pages) > _MOST_PAGES:
                raise InputError(
                    f"has {len(document.pages)} pages, more than the limit of {_MOST_PAGES}",
                    place=place,
                    would_do="send the pages with the order lines alone",
                )
            pages: list[list[_Line]] = []
            written: list[str] = []
            for page in document.pages:
                pages.append(_lines(page))
                written += _written_on(page)
                page.close()
    except (InputError, MemoryError, RecursionError):
        raise
    except Exception as error:  # what the library lets through on broken files
        locked = isinstance(error.__cause__ or error, PDFPasswordIncorrect) or "Password" in repr(error)
        raise InputError(
            "cannot be read: it is locked with a password" if locked else "cannot be read as a PDF",
            place=place,
            would_do=UNLOCK if locked else "ask for the order sheet as .xlsx or .csv",
        ) from error
    if not any(pages):
        raise InputError(
            "is a scan: its pages are pictures without any text",
            place=place,
            would_do="ask for the order sheet as .xlsx, .csv or a PDF with text, or type it in",
        )
    return replace(_sheet(shown_name(pure(file)), pages, limits), boxes=tuple(written[:_MOST_NOTES]))


def _lines(page: Any) -> list[_Line]:
    """Return the lines of one page from top to bottom."""
    tables = page.find_tables()
    found: list[_Line] = []
    for table in tables:
        texts = table.extract()
        for row, cells in zip(table.rows, texts, strict=False):
            placed = tuple(
                (box[0], box[2], _plain(text or ""))
                for box, text in zip(row.cells, cells, strict=False)
                if box is not None
            )
            if any(text for *_, text in placed):
                found.append(_Line(row.bbox[1], placed, ruled=True))
    boxes = [table.bbox for table in tables]
    words = [
        word
        for word in page.extract_words(keep_blank_chars=False, use_text_flow=False)
        if not any(_inside(word, box) for box in boxes)
    ]
    return sorted([*found, *_loose(words)], key=lambda line: line.top)


def _written_on(page: Any) -> list[str]:
    """Return what notes, text and marks that were put on a page say, a line each."""
    said = [str(one.get("contents") or "") for one in page.annots[:_MOST_NOTES]]
    return [plain for text in said for line in text.splitlines() if (plain := _plain(line))]


def _inside(word: dict[str, Any], box: tuple[float, float, float, float]) -> bool:
    across, down = (word["x0"] + word["x1"]) / 2, (word["top"] + word["bottom"]) / 2
    return bool(box[0] <= across <= box[2] and box[1] <= down <= box[3])


def _loose(words: list[dict[str, Any]]) -> list[_Line]:
    """Return words as lines, and those of a line as cells where the gap between them is wide."""
    lines: list[list[dict[str, Any]]] = []
    for word in sorted(words, key=lambda one: (one["bottom"], one["x0"])):
        height = word["bottom"] - word["top"]
        if lines and abs(lines[-1][0]["bottom"] - word["bottom"]) < 0.5 * height:
            lines[-1].append(word)
        else:
            lines.append([word])
    found = []
    for line in lines:
        cells: list[tuple[float, float, str]] = []
        for word in sorted(line, key=lambda one: float(one["x0"])):
            gap = _GAP * (word["bottom"] - word["top"])
            if cells and word["x0"] - cells[-1][1] < gap:
                left, _, text = cells[-1]
                cells[-1] = (left, word["x1"], f"{text} {word['text']}")
            else:
                cells.append((word["x0"], word["x1"], word["text"]))
        found.append(_Line(line[0]["top"], tuple((a, b, _plain(text)) for a, b, text in cells)))
    return found


def _sheet(file: str, pages: list[list[_Line]], limits: Limits) -> Sheet:
    """Return all lines as rows; those without rules are laid under the headings above them."""
    rows: list[list[Cell]] = []
    unsure: set[int] = set()
    heads: tuple[tuple[float, float, str], ...] = ()
    for line in (line for page in pages for line in page):
        if line.ruled:
            heads = ()
            rows.append([text for *_, text in line.cells])
        elif len(line.cells) >= _FEWEST_CELLS and (not heads or _is_heading(line)):
            heads = line.cells
            rows.append([text for *_, text in line.cells])
        elif heads and len(line.cells) > 1:
            cells, sure = _under(heads, line.cells)
            rows.append(cells)
            if not sure:
                unsure.add(len(rows) - 1)
        else:
            rows.append([" ".join(text for *_, text in line.cells)])
        if len(rows) > limits.rows or sum(map(len, rows[-1:])) > 500:
            raise InputError("holds more rows or columns than an order sheet", place=Place(file))
    return Sheet(file, SHEET, rows, source="a PDF", unsure=frozenset(unsure))


def _is_heading(line: _Line) -> bool:
    return not any(sign.isdecimal() for *_, text in line.cells for sign in text)


def _under(
    heads: tuple[tuple[float, float, str], ...], cells: tuple[tuple[float, float, str], ...]
) -> tuple[list[Cell], bool]:
    """Return a line's cells in the columns of the headings, and whether each stands under exactly one."""
    row: list[Cell] = [""] * len(heads)
    sure = True
    for left, right, text in cells:
        over = [index for index, (a, b, _) in enumerate(heads) if left < b and a < right]
        if len(over) == 1:
            index = over[0]
        else:
            sure = False
            middle = (left + right) / 2
            index = min(range(len(heads)), key=lambda at: abs((heads[at][0] + heads[at][1]) / 2 - middle))
        sure = sure and not row[index]
        row[index] = f"{row[index]} {text}".strip()
    return row, sure


def _plain(text: str) -> str:
    return " ".join(text.split())[:LONGEST_TEXT]
