"""False statements about a nest, one field at a time: what each field can be made to say that is not so.

`ATTACKS` has an entry for every field of every class a nest is made of; a field without one fails the test.
An attack yields values that make the nest false whatever the nest is: a number of a hundredth more is false
money, but a piece moved by a hundred millimetres may still lie well, so a moved piece leaves the plate.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from math import nan
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from quoting.core import Rectangle
from quoting.nesting import CutPlate, Drop, Nest, NestProblem, ShearCut, Waited
from quoting.nesting.nest_result import CutStats, PlateRemark, Unplaced, Why

CENT = Decimal("0.01")
Path = tuple[tuple[str, int | None], ...]


@dataclass(frozen=True)
class Case:
    """A problem and its nest as it should be."""

    problem: NestProblem
    nest: Nest

    @property
    def sheared(self) -> bool:
        return self.problem.cutting.method == "shear"


Attack = Callable[[Case, Any], Iterator[Any]]

NOT_JUDGED = {("Nest", "stopped"): "whether a stop rule said yes is seen by the search alone"}


def _money(_: Case, value: Decimal) -> Iterator[Decimal]:
    yield from (value + CENT, value - CENT, value + 500, value * 9 + 1)


def _drop_money(_: Case, value: Decimal) -> Iterator[Decimal]:
    """One cent is left open where the share of a drop falls on a whole cent."""
    yield from (value + 2 * CENT, value - 2 * CENT, value + 500)


def _count(_: Case, value: int) -> Iterator[int]:
    yield from (value + 1, value - 1, value + 97)


def _work(case: Case, stats: CutStats) -> Iterator[CutStats]:
    yield replace(stats, length_m=stats.length_m + 1)
    yield replace(stats, strokes=stats.strokes + 1, pierces=stats.pierces - 1)


def _cut_plates(_: Case, cuts: tuple[CutPlate, ...]) -> Iterator[tuple[CutPlate, ...]]:
    if cuts:
        yield cuts[1:]
        yield (*cuts, cuts[0])
        yield (*cuts, replace(cuts[-1], copy=cuts[-1].copy + 1))


def _unplaced(case: Case, ones: tuple[Unplaced, ...]) -> Iterator[tuple[Unplaced, ...]]:
    yield (*ones, Unplaced(case.problem.pieces[0].id, 1, Why.STOCK_USED_UP, "used up"))
    yield (*ones, Unplaced("stranger", 1, Why.TOO_LARGE, "larger than every plate"))
    if ones:
        yield ones[1:]
        yield (*ones, ones[0])


def _bound(case: Case, _: Decimal) -> Iterator[Decimal]:
    yield from (case.nest.cost + CENT, case.nest.cost * 9 + 1, Decimal(-1))


def _remarks(case: Case, ones: tuple[PlateRemark, ...]) -> Iterator[tuple[PlateRemark, ...]]:
    said = {one.plate for one in ones}
    for plate in case.problem.plates:
        if plate.id not in said:
            yield (*ones, PlateRemark(plate.id, Why.PLATE_TOO_SMALL, "nothing but margin"))
    if ones:
        yield ones[1:]
        yield (*ones, ones[0])


def _waited(case: Case, waited: Waited | None) -> Iterator[Waited | None]:
    if waited is None:
        yield Waited(True, case.nest.cost + 1, case.nest.cost + 1)
        yield Waited(False, case.nest.cost + 1, case.nest.cost * 2 + 2)
        if case.problem.waiting is None:
            yield Waited(True, case.nest.cost, case.nest.cost)
    elif all(plate.count is None for plate in case.problem.plates) or case.nest.bound:
        yield None


def _other_plate(case: Case, id: str) -> Iterator[str]:
    yield "stranger"
    yield from (plate.id for plate in case.problem.plates if plate.id != id)


def _without_some(_: Case, ones: tuple[Any, ...]) -> Iterator[tuple[Any, ...]]:
    if ones:
        yield ones[1:]
        yield ones[:-1]
        yield ()
        yield (*ones, ones[-1])


def _drops(case: Case, drops: tuple[Drop, ...]) -> Iterator[tuple[Drop, ...]]:
    yield (*drops, Drop(-700.0, 0.0, 700.0, 700.0, Decimal(0)))
    if drops and drops[0].value:
        yield drops[1:]
        yield (*drops, drops[0])


def _share(_: Case, share: float) -> Iterator[float]:
    yield from (share * 9, share + 0.001, share - 0.001, nan)


def _cuts(case: Case, cuts: tuple[ShearCut, ...]) -> Iterator[tuple[ShearCut, ...]]:
    yield (*cuts, ShearCut(len(cuts) + 1, 1, "x", 137.0, 0.0, 500.0))
    for k in range(len(cuts)):
        yield cuts[:k] + cuts[k + 1 :]
        yield _renumbered(cuts[:k] + cuts[k + 1 :])
    if len(cuts) > 1:
        yield cuts[::-1]
    if len({cut.stage for cut in cuts}) > 1:
        yield _renumbered(cuts[::-1])


def _renumbered(cuts: tuple[ShearCut, ...]) -> tuple[ShearCut, ...]:
    return tuple(replace(cut, number=number) for number, cut in enumerate(cuts, start=1))


def _day(_: Case, day: date | None) -> Iterator[date | None]:
    yield (day or date(2026, 12, 1)) + timedelta(days=1)
    yield (day or date(2026, 12, 1)) - timedelta(days=1)
    if day:
        yield None


def _other_piece(case: Case, id: str) -> Iterator[str]:
    yield "stranger"
    yield from (piece.id for piece in case.problem.pieces if piece.id != id)


def _place(case: Case, at: float) -> Iterator[float]:
    yield from (at - 50_000.0, at + 50_000.0, -1.0, nan)
    if case.sheared:
        yield from (at + 0.2, at - 0.2, at + 137.0)


def _size(_: Case, size: float) -> Iterator[float]:
    yield from (size + 1.0, size - 1.0, size * 9, -size, nan)


def _drop_size(case: Case, size: float) -> Iterator[float]:
    yield from (100.0, size * 0.9, size + 50_000.0, -size, nan)
    if case.sheared:
        yield from (size + 0.2, size - 0.2)


def _angle(_: Case, angle: float) -> Iterator[float]:
    yield from (angle + 90, 30.0, angle + 360, angle - 360, nan)


def _stroke_end(_: Case, at: float) -> Iterator[float]:
    yield from (at + 137.0, at - 137.0, at + 0.2, at - 0.2, at * 9 + 1, nan)


def _axis(_: Case, axis: str) -> Iterator[str]:
    yield from ("y" if axis == "x" else "x", "z")


def _length(_: Case, length: float) -> Iterator[float]:
    yield from (length + 0.001, length * 9 + 1, length - 0.001, nan)


def _reason(_: Case, why: Why) -> Iterator[Why]:
    yield from (other for other in Why if other is not why)


def _no_words(_: Case, __: str) -> Iterator[str]:
    yield from ("", " ")


def _flipped(_: Case, taken: bool) -> Iterator[bool]:
    yield not taken


def _together(case: Case, together: Decimal) -> Iterator[Decimal]:
    waited, rule = case.nest.waited, case.problem.waiting
    assert waited is not None
    assert rule is not None
    if waited.taken:  # what it cost all together is seen by the search alone; that it allows waiting is not
        yield waited.apart / (1 + rule.most_extra_share) - CENT
    else:
        yield from (together + CENT, together - CENT)


def _apart(case: Case, apart: Decimal) -> Iterator[Decimal]:
    waited = case.nest.waited
    assert waited is not None
    if waited.taken:
        yield from (apart + CENT, apart - CENT)
    else:  # more than the shop allows is what it has to be, however much
        yield from (waited.together, Decimal(0))


ATTACKS: dict[tuple[str, str], Attack] = {
    ("Nest", "cut_plates"): _cut_plates,
    ("Nest", "unplaced"): _unplaced,
    ("Nest", "plate_cost"): _money,
    ("Nest", "drop_value"): _money,
    ("Nest", "cutting_cost"): _money,
    ("Nest", "bound"): _bound,
    ("Nest", "cutting"): _work,
    ("Nest", "remarks"): _remarks,
    ("Nest", "waited"): _waited,
    ("CutPlate", "plate"): _other_plate,
    ("CutPlate", "copy"): _count,
    ("CutPlate", "placements"): _without_some,
    ("CutPlate", "drops"): _drops,
    ("CutPlate", "yield_share"): _share,
    ("CutPlate", "price"): _money,
    ("CutPlate", "cutting"): _work,
    ("CutPlate", "cuts"): _cuts,
    ("CutPlate", "cut_by"): _day,
    ("Placement", "piece"): _other_piece,
    ("Placement", "copy"): _count,
    ("Placement", "x_mm"): _place,
    ("Placement", "y_mm"): _place,
    ("Placement", "dx_mm"): _size,
    ("Placement", "dy_mm"): _size,
    ("Placement", "angle_deg"): _angle,
    ("Drop", "x_mm"): _place,
    ("Drop", "y_mm"): _place,
    ("Drop", "dx_mm"): _drop_size,
    ("Drop", "dy_mm"): _drop_size,
    ("Drop", "value"): _drop_money,
    ("ShearCut", "number"): _count,
    ("ShearCut", "stage"): _count,
    ("ShearCut", "axis"): _axis,
    ("ShearCut", "at_mm"): _stroke_end,
    ("ShearCut", "start_mm"): _stroke_end,
    ("ShearCut", "end_mm"): _stroke_end,
    ("CutStats", "length_m"): _length,
    ("CutStats", "pierces"): _count,
    ("CutStats", "strokes"): _count,
    ("Unplaced", "piece"): _other_piece,
    ("Unplaced", "quantity"): _count,
    ("Unplaced", "why"): _reason,
    ("Unplaced", "text"): _no_words,
    ("PlateRemark", "plate"): _other_plate,
    ("PlateRemark", "why"): _reason,
    ("PlateRemark", "text"): _no_words,
    ("Waited", "taken"): _flipped,
    ("Waited", "together"): _together,
    ("Waited", "apart"): _apart,
}


def classes_of(root: type) -> dict[str, type]:
    """Return every dataclass that a value of this one is made of, by name, found in its annotations."""
    found: dict[str, type] = {}
    waiting: list[type] = [root]
    while waiting:
        one = waiting.pop()
        if one.__name__ not in found:
            found[one.__name__] = one
            waiting += [part for hint in get_type_hints(one).values() for part in _dataclasses_in(hint)]
    return found


def _dataclasses_in(hint: Any) -> Iterator[type]:
    if isinstance(hint, type) and is_dataclass(hint):
        yield hint
    elif get_origin(hint) in (tuple, Union, UnionType):
        for part in get_args(hint):
            yield from _dataclasses_in(part)


def all_fields() -> list[tuple[str, str]]:
    """Return (class, field) of everything that a nest is made of."""
    return [(name, field.name) for name, one in classes_of(Nest).items() for field in fields(one)]


def places_of(name: str, value: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Yield where in a nest the values of one class stand, and the values."""
    if type(value).__name__ == name:
        yield path, value
    for field in fields(value):
        inner = getattr(value, field.name)
        if is_dataclass(inner):
            yield from places_of(name, inner, (*path, (field.name, None)))
        elif isinstance(inner, tuple):
            for k, one in enumerate(inner):
                if is_dataclass(one):
                    yield from places_of(name, one, (*path, (field.name, k)))


def changed(value: Any, path: Path, field: str, new: Any) -> Any:
    """Return the nest with one field of the value at the path changed."""
    if not path:
        return replace(value, **{field: new})
    (name, index), rest = path[0], path[1:]
    inner = getattr(value, name)
    if index is None:
        return replace(value, **{name: changed(inner, rest, field, new)})
    return replace(
        value, **{name: (*inner[:index], changed(inner[index], rest, field, new), *inner[index + 1 :])}
    )


def false_nests(case: Case, name: str, field: str, most: int = 6) -> Iterator[tuple[Any, Nest]]:
    """Yield (what the field is made to say, the nest that says it), for a few values of the class."""
    places = list(places_of(name, case.nest))
    for path, value in places[:: max(1, len(places) // most)]:
        old = getattr(value, field)
        for new in ATTACKS[name, field](case, old):
            if new != old and not _is_as_true(case, value, field, new):
                yield new, changed(case.nest, path, field, new)


def _is_as_true(case: Case, value: Any, field: str, new: Any) -> bool:
    """Return whether the change says nothing false: another piece of the same kind, a square turned."""
    pieces = {piece.id: piece for piece in case.problem.pieces}
    if field == "angle_deg" and value.piece in pieces:
        outline = pieces[value.piece].outline
        return isinstance(outline, Rectangle) and outline.width_mm == outline.length_mm and 0 <= new < 180
    return False
