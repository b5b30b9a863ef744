"""Nested plates to draw: sheared, cut by heat with cones, and on an L-shaped remnant."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

from quoting.core import Rectangle, Sector
from quoting.drawings import PieceText, PlateSheet
from quoting.nesting import CutPlate, CuttingRule, NestPlate, NestProblem, Piece, nest
from quoting.nesting.nest_problem import Notch

HOSTILE = (
    '<script>alert("x")</script>',
    "a & b ]]> <!--",
    "two\nlines\r\x00\x07",
    "0\nEOF\n",
    "%%d ^J Ünal 板",
)


def shear_problem() -> NestProblem:
    pieces = (Piece("A", Rectangle(600, 900), 4), Piece("B", Rectangle(200, 700), 5))
    plates = (NestPlate("P", 1500, 3000, 3, Decimal(300), edge="mill", heat="H1"),)
    return NestProblem(pieces, plates, CuttingRule(method="shear"), material="A36", thickness_mm=4)


def cone_problem() -> NestProblem:
    pieces = (
        Piece("A", Sector(1500, 900, 100), 2),
        Piece("B", Rectangle(200, 700), 5),
        Piece("C", Sector(500, 0, 200), 2),
    )
    plates = (NestPlate("R", 2000, 4000, 1, Decimal(300), remnant=True, notch=Notch(500, 800)),)
    return NestProblem(pieces, plates, CuttingRule(), material="A36", thickness_mm=6)


@cache
def _cut(kind: str) -> tuple[NestProblem, CutPlate]:
    problem = shear_problem() if kind == "shear" else cone_problem()
    return problem, nest(problem).cut_plates[0]


def sheet(kind: str, label: str = "Sample 1") -> PlateSheet:
    """The first plate of the shear or the cone problem; every label is `label`."""
    problem, cut = _cut(kind)
    pieces = {piece.id: PieceText(label, label) for piece in problem.pieces}
    drops = tuple((f"D-{number}", label) for number, _ in enumerate(cut.drops))
    return PlateSheet(problem, cut, (f"1. {label}", label), pieces, drops)
