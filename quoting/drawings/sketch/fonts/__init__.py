"""The wide font, DejaVu Sans, as its makers give it away: LICENSE.txt beside it says how."""

from __future__ import annotations

from pathlib import Path

WIDE = ("DejaVuSans", "DejaVuSans-Bold")


def font_file(*, bold: bool = False) -> Path:
    """Return the file of the wide font."""
    return Path(__file__).parent / f"{WIDE[bool(bold)]}.ttf"


__all__ = ["WIDE", "font_file"]
