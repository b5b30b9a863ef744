"""Letters of the papers: how wide a text is, which fonts hold it, and which letters none of them holds.

Every PDF reader has Helvetica with the letters of Western Europe. Other letters come from DejaVu Sans
(Latin, Greek, Cyrillic, Hebrew, Arabic, symbols), which comes with the plotting library. Chinese, Japanese,
Korean and Indian letters are in neither: they print as empty boxes, and `lost` says which.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

_WIDE = ("DejaVuSans", "DejaVuSans-Bold")


@dataclass(frozen=True, slots=True)
class Letters:
    """The two fonts of a paper, as reportlab knows them."""

    plain: str = "Helvetica"
    bold: str = "Helvetica-Bold"

    def font(self, *, bold: bool) -> str:
        """Return the font's name."""
        return self.bold if bold else self.plain

    def width_mm(self, text: str, size_mm: float, *, bold: bool = False) -> float:
        """Return how wide a text is in letters of this size; a capital is about 0.72 of it high."""
        from reportlab.pdfbase.pdfmetrics import stringWidth  # noqa: PLC0415 - heavy

        return float(stringWidth(text, self.font(bold=bold), size_mm))


def letters_for(texts: Iterable[str]) -> Letters:
    """Return the fonts that hold these texts as far as any of ours does."""
    if all(_western(text) for text in texts):
        return Letters()
    return _wide()


def lost(texts: Iterable[str]) -> str:
    """Return the letters that no font of ours holds, each once.

    >>> lost(["Ünal Ω Ж", "板"])
    '板'
    """
    foreign = {letter for text in texts if not _western(text) for letter in text}
    held = _held()
    return "".join(sorted(letter for letter in foreign if ord(letter) not in held and letter.isprintable()))


def font_file(*, bold: bool = False) -> Path | None:
    """Return the file of the wide font, None when the plotting library that brings it is not there."""
    spec = find_spec("matplotlib")
    if spec is None or not spec.submodule_search_locations:
        return None
    return (
        Path(spec.submodule_search_locations[0]) / "mpl-data" / "fonts" / "ttf" / f"{_WIDE[bool(bold)]}.ttf"
    )


def _western(text: str) -> bool:
    try:
        text.encode("cp1252")
    except UnicodeEncodeError:
        return False
    return True


@cache
def _wide() -> Letters:
    from reportlab.pdfbase import pdfmetrics  # noqa: PLC0415 - heavy
    from reportlab.pdfbase.ttfonts import TTFont  # noqa: PLC0415 - heavy

    for bold, name in enumerate(_WIDE):
        file = font_file(bold=bool(bold))
        if file is None:
            return Letters()
        pdfmetrics.registerFont(TTFont(name, file))
    return Letters(*_WIDE)


@cache
def _held() -> frozenset[int]:
    """Return the codes of all letters that the wide font holds."""
    from reportlab.pdfbase import pdfmetrics  # noqa: PLC0415 - heavy

    letters = _wide()
    if letters.plain == "Helvetica":
        return frozenset()
    font: Any = pdfmetrics.getFont(letters.plain)
    return frozenset(font.face.charToGlyph)
