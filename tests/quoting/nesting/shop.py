"""Small invented problems that the nesting tests share."""

from __future__ import annotations

from decimal import Decimal
from random import Random

from quoting.core import Rectangle
from quoting.nesting import CuttingRule, DropRule, NestPlate, NestProblem, Piece

INCH = 25.4


def plate(
    width_mm: float, length_mm: float, *, id: str = "P", count: int | None = None, price: str = "100"
) -> NestPlate:
    return NestPlate(id, width_mm, length_mm, count, Decimal(price))


def bare(method: str = "thermal") -> CuttingRule:
    """No margins, no gap: exact fits are allowed."""
    assert method in ("thermal", "shear")
    if method == "shear":
        return CuttingRule("shear", mill_trim_mm=0, stages=10)
    return CuttingRule("thermal", kerf_mm=0, spacing_mm=0, edge_margin_mm=0, mill_trim_mm=0)


def bare_problem(pieces: tuple[Piece, ...], *plates: NestPlate, method: str = "thermal") -> NestProblem:
    return NestProblem(pieces, plates, bare(method), DropRule(value_share=Decimal(0)))


def invented(seed: int, kinds: int = 8, method: str = "thermal") -> NestProblem:
    """An invented group of blanks with rack plates, remnants and sizes to buy, money included."""
    random = Random(seed)
    pieces = tuple(
        Piece(
            f"B{k}",
            Rectangle(random.randint(200, 1800), random.randint(300, 4000)),
            random.choice((1, 1, 2, 3, 4)),
            turn=random.random() < 0.7,
            needs_heat=random.random() < 0.2,
        )
        for k in range(kinds)
    )
    sizes = ((1219, 2438), (1524, 3658), (2438, 6096), (2464, 6096))
    plates = [
        NestPlate(
            f"S{k}",
            w,
            length,
            None,
            Decimal(w * length) / 20000,
            edge="mill" if k == 3 else "trimmed",
            certified=k > 1,
        )
        for k, (w, length) in enumerate(sizes)
    ]
    for k in range(4):
        w, length = random.randint(300, 1500), random.randint(600, 3000)
        heat = "H1" if k % 2 else None
        plates.append(NestPlate(f"R{k}", w, length, 1, Decimal(w * length) / 40000, remnant=True, heat=heat))
    cutting = CuttingRule(
        "shear" if method == "shear" else "thermal",
        stages=3,
        cost_per_m=Decimal("1.5"),
        cost_per_pierce=Decimal(1),
        cost_per_stroke=Decimal(2),
    )
    return NestProblem(pieces, tuple(plates), cutting, DropRule(), "A36", 12.0)
