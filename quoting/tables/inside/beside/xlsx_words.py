"""The words of an .xlsx that stand in no cell: comments on cells, and texts of boxes laid over them.

The parts are those of ISO/IEC 29500-1 (SpreadsheetML comments, 18.7; DrawingML text, 21.1.2; clauses from
memory). A part of threaded comments, which came later, holds the words again that its comments only point to.
"""

from __future__ import annotations

import posixpath
from collections.abc import Mapping
from dataclasses import dataclass, field

from quoting.tables.inside.beside.xlsx_sheet import row_and_column
from quoting.tables.inside.package import Package
from quoting.tables.inside.refusals import RefusedError, SheetFacts
from quoting.tables.inside.xml_walk import Walk
from quoting.tables.sheet import LONGEST_TEXT

Links = dict[str, list[tuple[str, str]]]
"""What each part links to: the kind of link, and the part."""
_BOXES = ("sp", "cxnSp")
_PICTURES = ("pic", "graphicFrame")


def note_links(name: str, data: bytes, walk: Walk, links: Links) -> None:
    """Keep what a part of links (`_rels/sheet1.xml.rels`) says of its own part."""
    folder, _, file = name.partition("_rels/")
    found = links.setdefault(f"{folder}{file.removesuffix('.rels')}", [])

    def start(tag: str, given: Mapping[str, str]) -> None:
        if tag == "Relationship" and given.get("TargetMode") != "External":
            target = given.get("Target", "").replace("\\", "/")
            path = target if target.startswith("/") else f"{folder}{target}"
            kind = given.get("Type", "").rpartition("/")[2]
            found.append((kind, posixpath.normpath(path).lstrip("/").casefold()))

    walk.over(data, start)


def take_words(facts: SheetFacts, package: Package, walk: Walk, links: list[tuple[str, str]]) -> bool:
    """Put the comments and the texts of boxes of a sheet into its facts; tell whether it shows pictures."""
    words = _Words(walk)
    for wanted in ("comments", "threadedComment", "drawing"):
        for kind, target in links:
            data = package.part(target) if kind == wanted else None
            if data:
                words.hear(data)
    facts.comments |= words.comments
    facts.boxes += words.boxes
    return words.pictures


@dataclass(slots=True)
class _Words:
    """Follows the parts of one sheet that hold words."""

    walk: Walk
    comments: dict[tuple[int, int], str] = field(default_factory=dict)
    boxes: list[str] = field(default_factory=list)
    pictures: bool = False
    _authors: list[str] = field(default_factory=list)
    _threaded: set[tuple[int, int]] = field(default_factory=set)
    _text: list[str] = field(default_factory=list)
    _at: tuple[int, int] | None = None
    _box: int = 0

    def hear(self, data: bytes) -> None:
        """Take one part."""
        self.walk.over(data, self._start)

    def _start(self, tag: str, given: Mapping[str, str]) -> None:
        if tag in ("comment", "threadedComment"):
            self._at = _cell(given.get("ref", ""))
            self._text.clear()
            if tag == "threadedComment" and self._at is not None and self._at not in self._threaded:
                self._threaded.add(self._at)
                self.comments.pop(self._at, None)
            self.walk.listen(None, self._end)
        elif tag == "author":
            self._text.clear()
            self.walk.listen(self._text.append, self._end)
        elif tag in _BOXES:
            self._box += 1
            self.walk.listen(None, self._end)
        elif tag in _PICTURES:
            self.pictures = True
        elif tag == "p" and self._box:
            self._text.clear()
        elif tag == "br" and self._box:
            self._text.append("\n")
        elif (tag in ("t", "text") and self._at is not None) or (tag == "t" and self._box):
            self.walk.listen(self._text.append, self._end)

    def _end(self, tag: str) -> None:
        if tag == "author":
            self._authors.append("".join(self._text))
            self.walk.listen(None, None)
        elif tag in ("comment", "threadedComment") and self._at is not None:
            text = _plain("".join(self._text), self._authors)
            known = self.comments.get(self._at)
            if text:
                self.comments[self._at] = f"{known}\n{text}" if known else text
            self._at = None
            self.walk.listen(None, None)
        elif tag in _BOXES:
            self._box -= 1
            self.walk.listen(None, self._end if self._box else None)
        elif tag == "p" and self._box:
            self.boxes += [line for line in _plain("".join(self._text), ()).split("\n") if line.strip()]
        elif tag in ("t", "text"):
            self.walk.listen(None, self._end)


def _plain(text: str, authors: tuple[str, ...] | list[str]) -> str:
    """Return a comment without the name of its writer, which the programs set before it."""
    text = text.strip()[:LONGEST_TEXT]
    for author in filter(None, authors):
        if text.startswith(f"{author}:"):
            return text.removeprefix(f"{author}:").strip()
    return text


def _cell(address: str) -> tuple[int, int] | None:
    try:
        return row_and_column(address)
    except RefusedError:
        return None
