"""Reads .csv and .tsv files: finds out their encoding and separator."""

from __future__ import annotations

import codecs
import csv
import io
import re
from itertools import pairwise
from pathlib import PurePath

from quoting.core import InputError, Place, shown_name
from quoting.tables.inside.given import Source, pure
from quoting.tables.limits import Limits
from quoting.tables.sheet import LONGEST_TEXT, Cell, Sheet

_LINE = 4_000
_WIDE = 5
"""Cells of two lines in a row that make a table of them in a letter."""
_SEPARATORS = ("\t", ";", ",", "|")


def read_text(file: Source, limits: Limits) -> Sheet:
    """Return the one sheet of a text file; its cells are all text."""
    place = Place(shown_name(pure(file)))
    text = decoded(file.read_bytes(), place)
    letter = file.suffix.lower() == ".txt"
    rows = rows_of_text(text, limits, place) if letter else _table(text, separator_of(text), limits, place)
    return Sheet(shown_name(pure(file)), shown_name(PurePath(file.stem)), rows)


def rows_of_text(text: str, limits: Limits, place: Place) -> list[list[Cell]]:
    """Return the rows of a text that may be a table or a letter: one cell a line where it is a letter."""
    separator = separator_of(text)
    if _regular(text, separator):
        return _table(text, separator, limits, place)
    lines = text.splitlines()[: limits.rows]
    return _within_a_letter(lines, separator) or [[_plain(line)] for line in lines]


def _within_a_letter(lines: list[str], separator: str) -> list[list[Cell]]:
    """Return a letter with the small table in it as cells and its own lines whole; nothing without a table:
    two lines in a row that are cut into as many as five cells and more.
    """
    cut = [_rows([line[:_LINE]], separator) for line in lines]
    counts = [len(rows[0]) if rows else 0 for rows in cut]
    if not any(one == other >= _WIDE for one, other in pairwise(counts)):
        return []
    return [
        [_plain(cell) for cell in rows[0]] if count >= _WIDE else [_plain(line)]
        for line, rows, count in zip(lines, cut, counts, strict=True)
    ]


def _table(text: str, separator: str, limits: Limits, place: Place) -> list[list[Cell]]:
    rows: list[list[Cell]] = []
    cells = 0
    csv.field_size_limit(1_000_000)
    try:
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=separator):
            cells += len(row)
            if cells > limits.cells or len(rows) >= limits.rows:
                raise InputError(
                    f"the sheet has more than {limits.rows:,} rows or {limits.cells:,} cells",
                    place=place,
                    would_do="send only the order lines",
                )
            rows.append([_plain(cell) for cell in row])
    except csv.Error as error:
        raise InputError(
            f"the text is no table ({error})", place=place, would_do="save it as .xlsx"
        ) from error
    return rows


def _regular(text: str, separator: str) -> bool:
    """Return whether the separator cuts most lines into as many cells: a letter's commas do not."""
    lines = [line[:_LINE] for line in text.splitlines()[:60] if line.strip()]
    counts = [len(row) for row in _rows(lines, separator)]
    most = max(set(counts), key=counts.count, default=1)
    return separator == "\t" or (most > 1 and 3 * counts.count(most) >= 2 * len(counts))


def _plain(cell: str) -> str:
    plain = cell.strip()
    if plain.startswith('="') and plain.endswith('"'):
        plain = plain[2:-1]  # how some exports keep a number as text
    return plain[:LONGEST_TEXT]


def decoded(data: bytes, place: Place) -> str:
    """Return the text of the bytes: by its byte order mark, as UTF-8, bare UTF-16, or Windows-1252."""
    if data.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        raise InputError(
            "is a workbook named as text", place=place, would_do="give it its own ending, .xlsx or .xls"
        )
    for mark, encoding in (
        (codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16")
    ):  # fmt: skip
        if data.startswith(mark):
            return data.decode(encoding, errors="replace")
    head = data[:2000]
    zeros = head[1::2].count(0), head[0::2].count(0)
    if len(head) > 3 and max(zeros) * 3 > len(head):
        return data.decode("utf-16-le" if zeros[0] > zeros[1] else "utf-16-be", errors="replace")
    if data.count(0) > len(data) // 1000 + 3:
        raise InputError("is no text file", place=place, would_do="save the sheet as .csv or .xlsx")
    data = data.replace(b"\0", b" ")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        for asian in (_japanese(data), _chinese(data)):
            if asian:
                return asian
        western = data.decode("cp1252", errors="replace")
        if len(_TURKISH.findall(western)) >= _FEWEST_EASTERN:
            return data.decode("cp1254", errors="replace")
        eastern = len(_EASTERN.findall(western)) >= _FEWEST_EASTERN
        return data.decode("cp1250", errors="replace") if eastern else western


_HIGH = 0x80
_FEWEST_EASTERN = 2
_EASTERN = re.compile(r"(?<=[a-z])[ìùò](?=[a-z])|(?<=[^\W\d_])[¹³¿\ufffd](?=[^\W\d_])|œ(?=[^\W\d_deiosu])")
"""What letters of Czech and Polish become in the western code page, where no western word has them."""


_TURKISH = re.compile(r"[þýðÞÝÐ](?=[a-zçöü])|(?<=[a-zçöü])[ýþð]\b")
"""What Turkish letters become in the western code page: Þubat is Şubat. No Icelandic sheet was met yet."""


def _japanese(data: bytes) -> str:
    """Return bytes as Shift JIS where that makes them Japanese signs, none of half width; else nothing."""
    try:
        text = data.decode("cp932")
    except UnicodeDecodeError:
        return ""
    odd = [sign for sign in text if not sign.isascii()]
    signs = sum("\u3040" <= sign <= "\u9fff" or "\uff00" <= sign <= "\uff60" for sign in odd)
    half = any("\uff61" <= sign <= "\uff9f" for sign in odd)
    return text if len(odd) > 3 and not half and 10 * signs >= 9 * len(odd) else ""


def _chinese(data: bytes) -> str:
    """Return bytes as GB 18030 where that makes nearly all of them Chinese signs; else nothing."""
    try:
        text = data.decode("gb18030")
    except UnicodeDecodeError:
        return ""
    odd = [sign for sign in text if not sign.isascii()]
    signs = sum(
        "\u4e00" <= sign <= "\u9fff" or "\u3000" <= sign <= "\u303f" or "\uff00" <= sign <= "\uffef"
        for sign in odd
    )
    # a western letter with an accent takes the plain letter behind it for the second half of a sign
    whole = sum(sign.encode("gb18030")[1] >= _HIGH or len(sign.encode("gb18030")) > 2 for sign in odd)
    chinese = 10 * min(signs, whole) >= 8 * len(odd)
    return text if len(odd) > 3 and chinese else ""


def _rows(lines: list[str], separator: str) -> list[list[str]]:
    try:
        return list(csv.reader(lines, delimiter=separator))
    except csv.Error:
        return []


def separator_of(text: str) -> str:
    """Return the separator that cuts most of the first lines into the same number of cells.

    >>> separator_of("Qty;Thk;Len\\n1;6,5;1200\\n2;8,0;1500\\n")
    ';'
    """
    lines = [line[:_LINE] for line in text[: 60 * _LINE].splitlines()[:60] if line.strip()]
    first = lines[0].strip().lower() if lines else ""
    if first.startswith("sep=") and len(first) == 5:
        return first[4]
    best, best_score = ",", 0.0
    for separator in _SEPARATORS:
        counts = [len(row) - 1 for row in _rows(lines, separator)]
        used = [count for count in counts if count]
        if not used:
            continue
        common = max(set(used), key=lambda count: (used.count(count), count))
        score = used.count(common) * min(common, 6)
        if score > best_score:
            best, best_score = separator, score
    return best
