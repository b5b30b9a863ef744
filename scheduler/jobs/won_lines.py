"""Won lines, as the scheduler needs them, read back from a run's record."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from math import ceil

from quoting.core import InputError
from quoting.record import BlankRecord, PassesRecord, PlateRecord, PricedLineRecord, RunRecord
from quoting.shop import Family, Shop
from scheduler.calendar import working_days_after

ROUNDING = 1e-9
"""Minutes that a difference of two minutes may be off by the way numbers are kept."""


@dataclass(frozen=True, slots=True)
class RollChoice:
    """One roll that can do the line: working minutes without set-up, and the part of them after welding.

    `settings` are the record's passes on this roll, one for each kind of blank.
    """

    roll: str
    minutes: float
    re_round_minutes: float
    settings: tuple[PassesRecord, ...] = ()

    @property
    def rolling_minutes(self) -> int:
        """Return whole minutes of rolling before welding, at least one."""
        return max(1, ceil(self.minutes - self.re_round_minutes - ROUNDING))

    def with_left(self, minutes: int) -> RollChoice:
        """Return the choice with only these minutes still to be rolled."""
        return replace(self, minutes=minutes + self.re_round_minutes)


@dataclass(frozen=True, slots=True)
class Lot:
    """One of two lots that a line is rolled in: which one, and how many of how many parts."""

    number: int
    parts: int
    of: int


@dataclass(frozen=True, slots=True)
class WonLine:
    """One line to be made. `choices` holds the rolls that can do it, the quoted one first.

    `diameter_mm` is the inside diameter rolled to (of a cone's small end). `plates` are the cut plates that
    hold its blanks, `blanks_on` how many of them each holds; that is empty when the line has several kinds of
    blank. `blank` is the record's blank, None when it is not known. With `lot` it
    is only one lot of the line: `quantity`, `plates` and minutes are the lot's own. `grain` says by kind of
    blank which way the nest laid it, `along` its length or `across` (missing: both ways). `told` is the whole
    line of the record, for the papers.
    """

    id: str
    number: str
    customer: str
    part: str
    quantity: int
    material: str
    family: Family
    thickness_mm: float
    width_mm: float
    diameter_mm: float
    cone: bool
    weight_kg: float
    lift: str
    crew: int
    crane: bool
    due: date | None
    re_round: bool
    plates: tuple[str, ...]
    choices: tuple[RollChoice, ...]
    cautions: tuple[str, ...]
    price: Decimal
    blank: BlankRecord | None = None
    blanks_on: Mapping[str, int] = field(default_factory=dict)
    lot: Lot | None = None
    grain: Mapping[str, str] = field(default_factory=dict)
    told: PricedLineRecord | None = None

    @property
    def name(self) -> str:
        """Return the line's id, of one lot with its parts."""
        return self.id if self.lot is None else f"{self.id} ({self.lot.parts} of {self.lot.of})"

    @property
    def work_name(self) -> str:
        """Return what its operations are called after: the id, and of a lot which one it is."""
        return self.id if self.lot is None else f"{self.id} lot {self.lot.number}"

    @property
    def ordered(self) -> int:
        """Return the parts of the whole line."""
        return self.quantity if self.lot is None else self.lot.of

    def settings_on(self, roll: str) -> tuple[PassesRecord, ...]:
        """Return what to dial on a roll, one for each kind of blank; empty when the record has none."""
        for choice in self.choices:
            if choice.roll == roll:
                return choice.settings
        return ()


@dataclass(frozen=True, slots=True)
class PlateToCut:
    """One plate of a nest: who cuts it, how long that takes, and when it is there.

    `here_in_days` are days from the plan's first day until it is in the house, 0 when it is there by then.
    """

    id: str
    material: str
    thickness_mm: float
    method: str
    minutes: float
    here_in_days: int


def won_lines(record: RunRecord, won: Collection[str] | None = None) -> tuple[WonLine, ...]:
    """Return the priced lines of a record, or of them those whose id is in `won`.

    Raises InputError when `won` names a line that the record did not price.
    """
    priced = {line.id: line for line in record.lines if isinstance(line, PricedLineRecord)}
    if won is None:
        chosen = list(priced)
    else:
        unknown = sorted(set(won) - set(priced))
        if unknown:
            raise InputError(
                f"no priced line is called {', '.join(unknown)}",
                would_do="name ids that stand in the record, such as " + ", ".join(list(priced)[:3]),
            )
        chosen = [id for id in priced if id in set(won)]
    blanks, grain = _blanks_on(record), _grain(record)
    return tuple(_won_line(priced[id], blanks.get(id, {}), grain) for id in chosen)


def _blanks_on(record: RunRecord) -> dict[str, dict[str, int]]:
    """Return how many blanks of each line every plate holds; lines with several kinds are missing."""
    found: dict[str, dict[str, int]] = {}
    for nest in record.nest:
        for plate in nest.plates:
            for piece in plate.pieces:
                held = found.setdefault(piece.id, {})
                held[plate.id] = held.get(plate.id, 0) + 1
    return found


def _grain(record: RunRecord) -> dict[str, str]:
    """Return by kind of blank how the grain runs, along the plates; those laid both ways are missing."""
    ways: dict[str, set[str]] = {}
    for nest in record.nest:
        for plate in nest.plates:
            for piece in plate.pieces:
                way = "across" if round(piece.angle_deg) % 180 else "along"
                ways.setdefault(piece.id, set()).add(way)
    return {piece: found.pop() for piece, found in ways.items() if len(found) == 1}


def plates_to_cut(
    record: RunRecord, lines: Collection[WonLine], shop: Shop, start: date, ordered: date
) -> tuple[PlateToCut, ...]:
    """Return the plates that hold blanks of these lines, for a plan from `start`.

    What has to be bought was ordered on `ordered`; the supplier's lead days are working days of the shop. The
    day that the rack gives for a plate on its way goes before them.
    """
    wanted = {plate for line in lines for plate in line.plates}
    return tuple(
        PlateToCut(
            id=plate.id,
            material=nest.material,
            thickness_mm=nest.thickness_mm,
            method=nest.method,
            minutes=plate.cutting_minutes,
            here_in_days=max(0, (in_house_on(plate, ordered, shop) - start).days),
        )
        for nest in record.nest
        for plate in nest.plates
        if plate.id in wanted
    )


def in_house_on(plate: PlateRecord, ordered: date, shop: Shop) -> date:
    """Return the day a plate is in the house: as the rack says, else so many working days after the order."""
    return plate.here_on or working_days_after(ordered, plate.lead_days, shop)


def _won_line(line: PricedLineRecord, blanks_on: Mapping[str, int], grain: Mapping[str, str]) -> WonLine:
    kinds = {setting.blank for choice in line.rolls for setting in choice.passes}
    return WonLine(
        id=line.id,
        number=line.number,
        customer=line.customer,
        part=line.part,
        quantity=line.quantity,
        material=line.material,
        family=Family(line.family),
        thickness_mm=line.thickness_mm,
        width_mm=line.blank.width_mm,
        diameter_mm=line.inside_diameter_mm,
        cone=line.shape.kind == "cone",
        weight_kg=line.blank.weight_kg,
        lift=line.lift.method,
        crew=line.lift.crew,
        crane=line.lift.crane,
        due=line.due,
        re_round=line.re_round,
        plates=line.plates,
        choices=tuple(
            RollChoice(choice.roll, choice.minutes.likely, choice.re_round_minutes, choice.passes)
            for choice in line.rolls
        ),
        cautions=line.cautions,
        price=line.price.extended,
        blank=line.blank,
        blanks_on=blanks_on,
        grain={kind: grain[kind] for kind in sorted(kinds & set(grain))},
        told=line,
    )
