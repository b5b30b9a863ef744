"""Letters that the fonts of the PDF do not hold: Chinese, Japanese and Korean in the readers' own fonts.

Every common PDF reader brings faces for the three under fixed names, so nothing has to go into the file. What
no font here holds is printed as a told gap, never as empty boxes.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from html import escape
from itertools import groupby

_JAPANESE, _CHINESE, _KOREAN = "HeiseiKakuGo-W5", "STSong-Light", "HYGothic-Medium"
_KANA = ((0x3040, 0x30FF), (0x31F0, 0x31FF), (0xFF65, 0xFF9F))
_HANGUL = ((0xAC00, 0xD7AF), (0x1100, 0x11FF), (0x3130, 0x318F))
_HAN = ((0x2E80, 0x303F), (0x3400, 0x4DBF), (0x4E00, 0x9FFF), (0xF900, 0xFAFF), (0xFF00, 0xFF64))
GAP = "[letters we cannot print]"


def with_fonts(text: str, holds: Callable[[str], bool], east: str) -> str:
    """Return escaped text in which letters of the East stand in a font of their own.

    `holds` says whether the document's font has a letter, `east` is the whole document's text: kana anywhere
    in it make its Chinese characters Japanese.
    """
    said = []
    for font, run in groupby(text, key=lambda letter: font_for(letter, holds, east)):
        part = escape("".join(run), quote=False)
        said.append(part if not font else GAP if font == GAP else f'<font name="{font}">{part}</font>')
    return "".join(said)


def font_for(letter: str, holds: Callable[[str], bool], east: str) -> str:
    """Return the name of the font for one letter: empty for the document's own, `GAP` for none."""
    if letter.isspace() or holds(letter):
        return ""
    if _in(letter, _HANGUL):
        return _KOREAN
    if _in(letter, _KANA) or _in(letter, _HAN):
        return _JAPANESE if _has_kana(east) else _CHINESE
    return GAP


@cache
def register_east() -> None:
    """Make the three fonts known to the PDF library, once."""
    from reportlab.pdfbase import pdfmetrics  # noqa: PLC0415 - kept out of the start of the command
    from reportlab.pdfbase.cidfonts import UnicodeCIDFont  # noqa: PLC0415

    for name in (_JAPANESE, _CHINESE, _KOREAN):
        pdfmetrics.registerFont(UnicodeCIDFont(name))


@cache
def _has_kana(text: str) -> bool:
    return any(_in(letter, _KANA) for letter in text)


def _in(letter: str, ranges: tuple[tuple[int, int], ...]) -> bool:
    return any(first <= ord(letter) <= last for first, last in ranges)
