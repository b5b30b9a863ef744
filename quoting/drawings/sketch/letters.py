"""Letters of the papers: how wide a text is, which fonts hold it, and which letters none of them holds.

Every PDF reader has Helvetica with the letters of Western Europe. Other letters come from DejaVu Sans
(Latin, Greek, Cyrillic, Hebrew, Arabic, symbols), which is shipped in `fonts`; Chinese, Japanese and Korean
ones from the reader's own faces. Letters of other scripts are in neither: a told gap stands for them, and
`lost` says which.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import groupby
from typing import Any

from quoting.drawings.sketch.east_letters import GAP, font_for, register_east
from quoting.drawings.sketch.fonts import WIDE, font_file

_HELVETICA = ("Helvetica", "Helvetica-Bold")


@dataclass(frozen=True, slots=True)
class Letters:
    """The two fonts of a paper, as reportlab knows them; `text` is all that is foreign on the paper."""

    plain: str = _HELVETICA[0]
    bold: str = _HELVETICA[1]
    text: str = ""

    def font(self, *, bold: bool) -> str:
        """Return the font's name."""
        return self.bold if bold else self.plain

    def runs(self, text: str, *, bold: bool = False) -> list[tuple[str, str]]:
        """Return a text in parts with the font of each."""
        own = self.font(bold=bold)
        if self.plain == _HELVETICA[0] or _western(text):
            return [(own, text)]
        found = []
        for font, letters in groupby(text, key=lambda letter: font_for(letter, _holds, self.text)):
            part = "".join(letters)
            found.append((own, GAP) if font == GAP else (font or own, part))
        return found

    def width_mm(self, text: str, size_mm: float, *, bold: bool = False) -> float:
        """Return how wide a text is in letters of this size; a capital is about 0.72 of it high."""
        if self.plain == _HELVETICA[0]:
            return width_at_one(text, self.font(bold=bold)) * size_mm
        return sum(width_at_one(part, font) for font, part in self.runs(text, bold=bold)) * size_mm


@lru_cache(maxsize=50_000)
def width_at_one(text: str, font: str) -> float:
    """Return how wide a text is in letters of size one: widths grow with the size."""
    from reportlab.pdfbase.pdfmetrics import stringWidth  # noqa: PLC0415 - heavy

    return float(stringWidth(text, font, 1.0))


def letters_for(texts: Iterable[str]) -> Letters:
    """Return the fonts that hold these texts as far as any of ours does."""
    foreign = "".join(text for text in texts if not _western(text))
    return Letters(*wide_fonts(), foreign) if foreign else Letters()


def lost(texts: Iterable[str]) -> str:
    """Return the letters that no font of ours holds, each once.

    >>> lost(["Ünal Ω Ж 板", "न"])
    'न'
    """
    foreign = "".join(text for text in texts if not _western(text))
    if not foreign:
        return ""
    wide_fonts()
    gaps = {letter for letter in foreign if font_for(letter, _holds, foreign) == GAP}
    return "".join(sorted(letter for letter in gaps if letter.isprintable()))


def _western(text: str) -> bool:
    try:
        text.encode("cp1252")
    except UnicodeEncodeError:
        return False
    return True


@cache
def wide_fonts() -> tuple[str, str]:
    """Make the wide fonts known to the PDF library and return their names."""
    from reportlab.pdfbase import pdfmetrics  # noqa: PLC0415 - heavy
    from reportlab.pdfbase.ttfonts import TTFont  # noqa: PLC0415 - heavy

    for bold, name in enumerate(WIDE):
        pdfmetrics.registerFont(TTFont(name, font_file(bold=bool(bold))))
    register_east()
    return WIDE


def _holds(letter: str) -> bool:
    return ord(letter) in _held()


@cache
def _held() -> frozenset[int]:
    """Return the codes of all letters that the wide font holds."""
    from reportlab.pdfbase import pdfmetrics  # noqa: PLC0415 - heavy

    font: Any = pdfmetrics.getFont(wide_fonts()[0])
    face = getattr(font, "face", None)
    return frozenset(getattr(face, "charToGlyph", ()))
