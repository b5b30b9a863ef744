"""The paper of a page, and the printed area that Letter and A4 share."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.core import PAPERS

SAFE_MM = (190.0, 259.0)
"""Width and height that both Letter and A4 have inside margins of 10 mm."""


@dataclass(frozen=True, slots=True)
class PageForm:
    """The paper by its name in the shop's book, and whether it lies on its side."""

    name: str = "letter"
    landscape: bool = False

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return width and height of the sheet."""
        width, height = PAPERS[self.name].width_mm, PAPERS[self.name].height_mm
        return (height, width) if self.landscape else (width, height)

    @property
    def room_mm(self) -> tuple[float, float]:
        """Return width and height of the printed area, the same on both papers."""
        return SAFE_MM[::-1] if self.landscape else SAFE_MM
