"""What goes back to the rack: every drop worth keeping with an id of its own, and who shares old remnants."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from quoting.books.cutting.cut_sheets import CutSheet
from quoting.books.look import blank_owners, chalk_mm
from quoting.estimating import Estimate
from quoting.nesting import NestPlate, NestProblem, Piece


@dataclass(frozen=True, slots=True)
class Remnant:
    """A drop that goes back to the rack.

    `across_mm` and `along_mm` are its sides across and along the grain, as they are chalked on it: whole
    eighths of an inch or whole mm, never more than there is. `heat` is empty while the plate it comes from
    is still to be bought; `value` is what the nest counted for it; `drop` is its index on the cut plate.
    """

    id: str
    sheet: CutSheet
    drop: int
    copy: int
    across_mm: float
    along_mm: float
    heat: str
    value: Decimal

    @property
    def from_plate(self) -> str:
        """Return the name of the plate it is cut from."""
        return f"{self.sheet.cut.plate} #{self.copy}"

    @property
    def bought(self) -> bool:
        """Return whether the plate it comes from is still to be bought."""
        return self.sheet.plate.count is None


@dataclass(frozen=True, slots=True)
class Taken:
    """Plates of the rack that are cut alike: the lines on them, and lines they would also have held.

    `missed` are lines of the same material and thickness that get nothing of it though their blanks would fit
    it; `ids` of lines, in the order of the estimate.
    """

    plate: NestPlate
    name: str
    sheet: CutSheet
    used_by: tuple[str, ...]
    missed: tuple[str, ...]


def remnants(estimate: Estimate, sheets: Sequence[CutSheet], given: int = 0) -> tuple[Remnant, ...]:
    """Return the drops of a run with their new ids, in shop order; no id of the rack is used again.

    `given` is how many ids of this day are given out to drops that are not in the rack yet.
    """
    prefix = f"D{estimate.today:%y%m%d}-"
    number = max(given, _last_number(estimate, prefix))
    made = []
    inch = estimate.shop.inch
    for sheet in sheets:
        heat = sheet.plate.heat or ""
        for index, drop in enumerate(sheet.cut.drops):
            across, along = (chalk_mm(mm, inch=inch) for mm in (drop.dy_mm, drop.dx_mm))
            for cut in sheet.cuts:
                number += 1
                name = f"{prefix}{number:02d}"
                made.append(Remnant(name, sheet, index, cut.copy, across, along, heat, drop.value))
    return tuple(made)


def by_layout(kept: Sequence[Remnant]) -> dict[int, list[Remnant]]:
    """Return the new remnants of each layout, by its number, in their order."""
    found: dict[int, list[Remnant]] = defaultdict(list)
    for remnant in kept:
        found[remnant.sheet.number].append(remnant)
    return found


def drop_ids(kept: Mapping[int, Sequence[Remnant]], sheet: CutSheet) -> tuple[tuple[str, ...], ...]:
    """Return for each drop of a layout the new ids, one for each plate cut so; `kept` are those by layout."""
    own = kept.get(sheet.number, ())
    return tuple(
        tuple(remnant.id for remnant in own if remnant.drop == index) for index in range(len(sheet.cut.drops))
    )


def ids_words(ids: Sequence[str]) -> str:
    """Return the ids of like remnants, which follow each other.

    >>> ids_words(["D261130-01"]), ids_words(["D261130-01", "D261130-02", "D261130-03"])
    ('D261130-01', 'D261130-01 to 03')
    """
    return ids[0] if len(ids) == 1 else f"{ids[0]} to {ids[-1].rpartition('-')[2]}"


def taken_plates(estimate: Estimate, sheets: Sequence[CutSheet]) -> tuple[Taken, ...]:
    """Return the plates of the rack that are cut, by layout, remnants first; and who else could use them."""
    owners = {piece: result.line.id for piece, (result, _) in blank_owners(estimate).items()}
    found = []
    for sheet in sheets:
        if sheet.plate.count is None:
            continue
        fits = dict.fromkeys(owners[piece.id] for piece in _fitting(sheet.problem, sheet.plate))
        missed = tuple(line for line in fits if line not in sheet.lines)
        found.append(Taken(sheet.plate, sheet.name, sheet, sheet.lines, missed))
    return tuple(sorted(found, key=lambda taken: not taken.plate.remnant))


def _fitting(problem: NestProblem, plate: NestPlate) -> Iterator[Piece]:
    """Yield the pieces of which one alone would fit the plate, by box, grain and heat number."""
    margin = problem.cutting.margin_mm(plate)
    notch = plate.notch
    rooms = [(plate.length_mm - 2 * margin, plate.width_mm - 2 * margin)]
    if notch:
        rooms = [(rooms[0][0] - notch.length_mm, rooms[0][1]), (rooms[0][0], rooms[0][1] - notch.width_mm)]
    for piece in problem.pieces:
        if piece.needs_heat and not plate.has_heat:
            continue
        dx, dy = piece.outline.box()
        ways = [(dx, dy), (dy, dx)] if piece.turn else [(dx, dy)]
        if any(along <= x and across <= y for x, y in rooms for along, across in ways):
            yield piece


def _last_number(estimate: Estimate, prefix: str) -> int:
    """Return the highest number of a remnant of this day that the rack holds already, 0 without one."""
    ends = [plate.id.removeprefix(prefix) for plate in estimate.shop.stock if plate.id.startswith(prefix)]
    return max((int(end) for end in ends if end.isdecimal()), default=0)
