"""What the XML of an .xlsx says beside its values: hidden rows, errors, comments, sheets too large."""

from __future__ import annotations

import posixpath
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from quoting.tables.inside.beside.crossed_out import CrossedTexts
from quoting.tables.inside.beside.number_formats import unit_of_format
from quoting.tables.inside.beside.xlsx_sheet import SheetWalk
from quoting.tables.inside.beside.xlsx_words import Links, note_links, take_words
from quoting.tables.inside.package import Package
from quoting.tables.inside.refusals import (
    DAMAGED,
    SMALLER,
    SUSPECT,
    RefusedError,
    SheetFacts,
)
from quoting.tables.inside.xml_walk import Walk, whole
from quoting.tables.limits import Limits

_LONG_STRINGS = 100_000_000


@dataclass(slots=True)
class _Book:
    """What the parts say of each other: names and links of sheets, targets of links, the units that styles
    write, the styles that cross out, how many bytes each shared string takes.
    """

    sheets: list[tuple[str, str]] = field(default_factory=list)
    targets: dict[str, str] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    crossed: frozenset[str] = frozenset()
    strings: list[int] = field(default_factory=list)
    links: Links = field(default_factory=dict)


def xlsx_facts(package: Package, limits: Limits) -> dict[str, SheetFacts]:
    """Return the facts of each sheet by its name; RefusedError when one is too large."""
    walk = Walk(limits)
    units, crossed = _styles(package.part("xl/styles.xml"), walk)
    book = _Book(units=units, crossed=crossed)
    found: dict[str, SheetFacts | RefusedError] = {}
    crossed_texts = CrossedTexts(walk)
    for name, data in package.xml_parts():
        if name == "xl/workbook.xml":
            walk.over(data, lambda tag, given: _note_sheet(tag, given, book))
        elif name == "xl/_rels/workbook.xml.rels":
            walk.over(data, lambda tag, given: _note_link(tag, given, book))
        elif "_rels/" in name:
            note_links(name, data, walk, book.links)
        elif name == "xl/sharedstrings.xml":
            walk.over(data)
            crossed_texts.read(data)
            book.strings = [len(piece) for piece in data.split(b"</si>")]
        else:
            found[name] = _facts_of_part(data, walk, limits, book)
    by_name: dict[str, SheetFacts] = {}
    pictures = False
    for sheet, link in book.sheets:
        part = _target(book.targets.get(link, ""))
        facts = found.get(part, SheetFacts())
        if isinstance(facts, RefusedError):
            raise facts
        if facts.cells * max(book.strings, default=0) > _LONG_STRINGS:
            _check_texts(package.part(part) or b"", book.strings, limits)
        if crossed_texts.any:
            crossed_texts.mark(package.part(part) or b"", facts)
        by_name[sheet] = facts
        pictures |= take_words(facts, package, walk, book.links.get(part, []))
    if sum(facts.cells for facts in by_name.values()) > limits.all_cells or len(book.sheets) > limits.sheets:
        raise RefusedError(
            f"it has more than {limits.sheets} sheets, or more than {limits.all_cells:,} cells in all",
            SMALLER,
        )
    if pictures:
        next(iter(by_name.values())).asides = ("the workbook holds pictures, which are not read",)
    return by_name


def _facts_of_part(data: bytes, walk: Walk, limits: Limits, book: _Book) -> SheetFacts | RefusedError:
    """Return what a part says; a damaged one is only a refusal when it turns out to be a sheet."""
    try:
        return SheetWalk(walk, limits, book.units, book.crossed).facts(data)
    except RefusedError as error:
        if str(error) != DAMAGED:
            raise
        return error


def _check_texts(data: bytes, strings: Sequence[int], limits: Limits) -> None:
    """Refuse a sheet that repeats a long text so often that its cells would fill the memory."""
    total = 0
    pieces: list[str] = []
    walk = Walk(limits)

    def start(tag: str, given: Mapping[str, str]) -> None:
        if tag == "c":
            walk.listen(*((pieces.append, end) if given.get("t") == "s" else (None, None)))
        elif tag == "v":
            pieces.clear()

    def end(tag: str) -> None:
        nonlocal total
        index = whole("".join(pieces) or None, otherwise=0, most=len(strings)) if tag == "v" else len(strings)
        total += strings[index] if index < len(strings) else 0

    walk.over(data, start)
    if total > limits.unpacked_bytes:
        raise RefusedError("its texts add up to more than the limit", SMALLER)


def _note_sheet(tag: str, given: Mapping[str, str], book: _Book) -> None:
    if tag == "sheet":
        link = next((value for key, value in given.items() if key.endswith(" id")), "")
        book.sheets.append((given.get("name", ""), link))


def _note_link(tag: str, given: Mapping[str, str], book: _Book) -> None:
    if tag == "Relationship":
        book.targets[given.get("Id", "")] = given.get("Target", "")


def _target(target: str) -> str:
    """Return the part that a link of the workbook means, in small letters."""
    path = target if target.startswith("/") else f"xl/{target.removeprefix('xl/')}"
    return posixpath.normpath(path.replace("\\", "/")).lstrip("/").casefold()


def _styles(data: bytes | None, walk: Walk) -> tuple[dict[str, str], frozenset[str]]:
    """Return the unit that each style's number format writes, and the styles whose font is crossed out."""
    formats: dict[str, str] = {}
    styles: list[tuple[str, str]] = []
    fonts: list[bool] = []
    inside = ""

    def start(tag: str, given: Mapping[str, str]) -> None:
        nonlocal inside
        if tag == "numFmt":
            formats[given.get("numFmtId", "")] = unit_of_format(given.get("formatCode", ""))
        elif tag in ("cellXfs", "cellStyleXfs", "fonts", "dxfs"):
            inside = tag
        elif tag == "font" and inside == "fonts":
            fonts.append(False)
        elif tag == "strike" and inside == "fonts" and fonts:
            fonts[-1] = given.get("val", "1") not in ("0", "false")
        elif tag == "xf" and inside == "cellXfs":
            styles.append((given.get("numFmtId", ""), given.get("fontId", "")))

    if data:
        try:
            walk.over(data, start)
        except RefusedError as error:
            if error.would_do == SUSPECT:
                raise
            return {}, frozenset()
    units = {str(index): formats.get(form, "") for index, (form, _) in enumerate(styles)}
    struck = {str(index) for index, crossed in enumerate(fonts) if crossed}
    crossed_out = frozenset(str(index) for index, (_, font) in enumerate(styles) if font in struck)
    return {index: unit for index, unit in units.items() if unit}, crossed_out
