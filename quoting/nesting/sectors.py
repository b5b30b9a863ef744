"""Cone sectors as true shapes."""

from __future__ import annotations

from quoting.nesting.model import Piece
from quoting.nesting.work import Member, Variant, micrometres


def sector_variants(piece: Piece, gap_mm: float, longest_mm: float) -> tuple[Variant, ...]:
    """Return the ways to lay down one sector."""
    dx, dy = (micrometres(e) for e in piece.outline.box())
    gap = micrometres(gap_mm)
    out = [Variant(dx + gap, dy + gap, (Member(0, 0, dx, dy, 0.0),))]
    if piece.turn:
        out.append(Variant(dy + gap, dx + gap, (Member(0, 0, dy, dx, 90.0),)))
    return tuple(out)
