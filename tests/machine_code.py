"""Makes the machine code that tests need: `python -m tests.machine_code nesting` or `... sequence`.

The workers of a parallel run would each make it for themselves.
"""

from __future__ import annotations

import sys
from decimal import Decimal
from pathlib import Path

from quoting.core import Rectangle, never_compiled
from quoting.nesting import NestPlate, NestProblem, Piece, nest
from scheduler.sequence import compile_search, search_is_compiled

COMPILED_NESTING = Path(__file__).resolve().parents[1] / "quoting" / "nesting" / "compiled"


def compile_nesting() -> None:
    """Nest two small groups with the compiled search."""
    pieces = tuple(Piece(f"{side}", Rectangle(side, 300.0)) for side in (500.0, 700.0, 900.0, 400.0, 650.0))
    plates = tuple(
        NestPlate(f"{long:.0f}", 1000.0, long, None, Decimal(price))
        for long, price in ((1500.0, 100), (1000.0, 70))
    )
    for offered in (plates[:1], plates):
        nest(NestProblem(pieces, offered), effort="thorough")


if __name__ == "__main__":
    if sys.argv[1] == "sequence" and not search_is_compiled():
        compile_search()
    if sys.argv[1] == "nesting" and never_compiled(COMPILED_NESTING):
        compile_nesting()
