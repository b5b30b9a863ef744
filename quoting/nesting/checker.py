"""The independent judge of a nest. Shares no code with the packers: it knows the problem and the result only.

Every stroke is replayed on the plate, every length, share and sum is worked out again, and every reason is
held against the stock. Distances may fall short by 0.05 mm. What problem and result cannot tell is not
judged: that a stop rule said yes (`stopped`), and whether a bound could be higher.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from decimal import Decimal
from math import isfinite
from operator import attrgetter
from typing import Any

from quoting.nesting.judging import (
    count_faults,
    day_faults,
    distance_faults,
    drop_faults,
    money_faults,
    plate_figure_faults,
    put_faults,
    reason_faults,
    stock_faults,
    stroke_faults,
    waiting_faults,
)
from quoting.nesting.nest_problem import NestProblem, Piece
from quoting.nesting.nest_result import CutPlate, Nest, Placement


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong with a nest: the plate (empty: the whole nest) and what it is, in words."""

    plate: str
    text: str

    def __str__(self) -> str:
        return f"plate {self.plate}: {self.text}" if self.plate else self.text


def check(problem: NestProblem, nest: Nest) -> tuple[Fault, ...]:
    """Return every fault of the nest; none means it can be cut as drawn and every figure is right."""
    unreal = tuple(_unreal(nest))
    if unreal:
        return unreal
    pieces = {piece.id: piece for piece in problem.pieces}
    plates = {plate.id: plate for plate in problem.plates}
    faults = [Fault(plate, text) for plate, text in stock_faults(problem, nest)]
    sound: set[_Uncounted] = set()
    for cut in nest.cut_plates:
        if cut.plate in plates and (alike := _uncounted(cut)) not in sound:
            name = f"{cut.plate} #{cut.copy}"
            found = [Fault(name, text) for text in _plate_faults(problem, cut, pieces)]
            if not found:
                sound.add(alike)
            faults += found
    for texts in (
        count_faults(problem, nest),
        money_faults(problem, nest, pieces),
        waiting_faults(problem, nest),
        reason_faults(problem, nest),
    ):
        faults += [Fault("", text) for text in texts]
    return tuple(faults)


_Uncounted = tuple[CutPlate, tuple[Any, ...]]
_all_but_copy = attrgetter(*(field.name for field in fields(Placement) if field.name != "copy"))


def _uncounted(cut: CutPlate) -> _Uncounted:
    """Return the plate without the numbers of its copies: plates that are then the same are as sound."""
    return replace(cut, copy=0, placements=()), tuple(map(_all_but_copy, cut.placements))


def _unreal(nest: Nest) -> Iterator[Fault]:
    """Yield the numbers that are none: nothing can be worked out from them."""
    money = (nest.plate_cost, nest.drop_value, nest.cutting_cost, nest.bound)
    waited = (nest.waited.together, nest.waited.apart) if nest.waited else ()
    if not all(isfinite(one) for one in (*money, *waited, nest.cutting.length_m)):
        yield Fault("", "a number of the nest is none")
    for cut in nest.cut_plates:
        if not all(map(isfinite, _numbers(cut))):
            yield Fault(f"{cut.plate} #{cut.copy}", "a number is none")


def _numbers(cut: CutPlate) -> Iterator[float | Decimal]:
    yield from (cut.yield_share, cut.price, cut.cutting.length_m)
    for put in cut.placements:
        yield from (put.x_mm, put.y_mm, put.dx_mm, put.dy_mm, put.angle_deg)
    for drop in cut.drops:
        yield from (drop.x_mm, drop.y_mm, drop.dx_mm, drop.dy_mm, drop.value)
    for stroke in cut.cuts:
        yield from (stroke.at_mm, stroke.start_mm, stroke.end_mm)


def plate_faults(problem: NestProblem, cut: CutPlate) -> Iterator[str]:
    """Yield what is wrong on one plate, in words; copies need not be counted yet."""
    return _plate_faults(problem, cut, {piece.id: piece for piece in problem.pieces})


def _plate_faults(problem: NestProblem, cut: CutPlate, pieces: Mapping[str, Piece]) -> Iterator[str]:
    plate = problem.plate(cut.plate)
    puts = [put for put in cut.placements if put.piece in pieces]
    if not puts:
        yield "no piece is cut from it"
    for put in puts:
        yield from put_faults(problem, plate, pieces[put.piece], put)
    yield from day_faults([pieces[put.piece].cut_by for put in puts], cut)
    yield from distance_faults(problem.cutting, puts, pieces)
    yield from drop_faults(problem, plate, cut, pieces)
    if problem.cutting.method == "shear":
        yield from stroke_faults(problem.cutting, plate, cut)
    yield from plate_figure_faults(problem, plate, cut, pieces)
