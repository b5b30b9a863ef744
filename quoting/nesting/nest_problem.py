"""What is to be nested: pieces, stock plates, the rules of cutting, and the drops worth keeping.

All lengths are mm, angles degrees, money is `Decimal`. A problem is one group: one material, one thickness.
Axes on a plate: x runs along its length (and its grain), y across its width; the origin is a corner.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal
from math import inf
from typing import Literal, TypeAlias

from quoting.core import Outline, RangeError, positive

Method: TypeAlias = Literal["shear", "thermal"]
PlateEdge: TypeAlias = Literal["mill", "trimmed"]


@dataclass(frozen=True, slots=True)
class Piece:
    """Blanks of one id. `turn` False: the grain must run along the plate, so only 0 and 180 degrees.

    `needs_heat`: only a plate with a known heat number will do (a certificate is asked for). `cut_by` is the
    last day to cut it, None when no day was asked for. When stock runs short a piece of higher `priority`
    is placed first, then the one to be cut sooner.
    """

    id: str
    outline: Outline
    quantity: int = 1
    turn: bool = True
    needs_heat: bool = False
    cut_by: date | None = None
    priority: int = 0

    def __post_init__(self) -> None:
        if self.quantity < 1:
            raise RangeError(f"piece {self.id}: quantity", self.quantity, "1 or more")

    @property
    def week(self) -> date:
        """Return the Monday of the week in which it must be cut; `date.max` without a day."""
        return date.max if self.cut_by is None else week_of(self.cut_by)

    @property
    def rank(self) -> tuple[int, date]:
        """Return its place in the queue for stock that runs short: the least rank comes first."""
        return -self.priority, self.cut_by or date.max


def week_of(day: date) -> date:
    """Return the Monday of a day's week.

    >>> week_of(date(2026, 12, 18))
    datetime.date(2026, 12, 14)
    """
    return day - timedelta(days=day.weekday())


@dataclass(frozen=True, slots=True)
class Notch:
    """What is missing from the corner of an L-shaped remnant at the far end of its length and width."""

    width_mm: float
    length_mm: float

    def __post_init__(self) -> None:
        positive("notch", width_mm=self.width_mm, length_mm=self.length_mm)


@dataclass(frozen=True, slots=True)
class NestPlate:
    """Plates of one id and size. `count` None: can be bought in any number.

    `price` is money per plate, for a remnant what it would fetch or what its metal is worth. `heat` is the
    heat number, empty or None when unknown; a size to buy is taken to come with its certificate when
    `certified`.
    """

    id: str
    width_mm: float
    length_mm: float
    count: int | None
    price: Decimal
    edge: PlateEdge = "trimmed"
    remnant: bool = False
    heat: str | None = None
    notch: Notch | None = None
    certified: bool = False

    def __post_init__(self) -> None:
        positive(f"plate {self.id}", width_mm=self.width_mm, length_mm=self.length_mm)
        if self.count is not None and self.count < 0:
            raise RangeError(f"plate {self.id}: count", self.count, "0 or more, or none for buyable")
        if not self.price >= 0:
            raise RangeError(f"plate {self.id}: price", self.price, "0 or more")
        if self.notch and not (self.notch.width_mm < self.width_mm and self.notch.length_mm < self.length_mm):
            raise RangeError(f"plate {self.id}: notch", self.notch, "smaller than the plate both ways")

    @property
    def area_mm2(self) -> float:
        """Return the metal in the plate in mm2."""
        cut_out = self.notch.width_mm * self.notch.length_mm if self.notch else 0.0
        return self.width_mm * self.length_mm - cut_out

    @property
    def has_heat(self) -> bool:
        """Return whether a certificate can be given for what is cut from it."""
        return bool(self.heat) or self.certified


@dataclass(frozen=True, slots=True)
class CuttingRule:
    """How plate is cut, and what it costs. Every number is a shop setting; the defaults are examples.

    thermal: free layout; two pieces keep `gap_mm` = kerf + the larger of spacing and lead-in, and
    `edge_margin_mm` to a trimmed edge. shear: guillotine cuts only, each through the whole part in hand,
    at most `stages` changes of direction, none longer than `longest_cut_mm`; no kerf, no spacing; no piece
    narrower than `least_strip_mm`. `mill_trim_mm` comes off every side of a plate with mill edges (common
    practice, no source: 1/2 in a side).
    """

    method: Method = "thermal"
    kerf_mm: float = 2.0
    spacing_mm: float = 8.0
    edge_margin_mm: float = 10.0
    mill_trim_mm: float = 12.7
    stages: int = 4
    least_strip_mm: float = 0.0
    longest_cut_mm: float = inf
    lead_in_mm: float = 0.0
    cost_per_m: Decimal = Decimal(0)
    cost_per_pierce: Decimal = Decimal(0)
    cost_per_stroke: Decimal = Decimal(0)

    def __post_init__(self) -> None:
        for name in (
            "kerf_mm",
            "spacing_mm",
            "edge_margin_mm",
            "mill_trim_mm",
            "least_strip_mm",
            "lead_in_mm",
            "cost_per_m",
            "cost_per_pierce",
            "cost_per_stroke",
        ):
            if not getattr(self, name) >= 0:
                raise RangeError(f"cutting {name}", getattr(self, name), "0 or more")
        if self.stages < 1:
            raise RangeError("cutting stages", self.stages, "1 or more")
        if self.method not in ("shear", "thermal"):
            raise RangeError("cutting method", self.method, "shear or thermal")

    @property
    def gap_mm(self) -> float:
        """Return the least distance between two pieces, mm."""
        return 0.0 if self.method == "shear" else self.kerf_mm + max(self.spacing_mm, self.lead_in_mm)

    def margin_mm(self, plate: NestPlate) -> float:
        """Return what stays unused along every side of the plate, mm."""
        margin = 0.0 if self.method == "shear" else self.edge_margin_mm
        return max(margin, self.mill_trim_mm) if plate.edge == "mill" else margin


@dataclass(frozen=True, slots=True)
class DropRule:
    """Which leftovers go back to the rack, and what they count for. Shop settings; the defaults are examples.

    A drop is kept when it is at least `least_width_mm` by `least_length_mm` (either way round); it is worth
    `value_share` of what its area cost in the plate it came from. What is left of a remnant keeps its price
    an area, which was marked down once already. At most `most_per_plate` drops are counted. To mark, move and
    store one costs `keep_cost`, which is taken off its worth: what is worth no more than that is scrap, and
    few large drops are worth more than many small ones. The rack holds `most_in_rack` remnants of the group,
    None: any number; the drops worth least are scrap then.
    """

    least_width_mm: float = 300.0
    least_length_mm: float = 600.0
    value_share: Decimal = Decimal("0.5")
    most_per_plate: int = 2
    keep_cost: Decimal = Decimal(0)
    most_in_rack: int | None = None

    def __post_init__(self) -> None:
        positive("drop", least_width_mm=self.least_width_mm, least_length_mm=self.least_length_mm)
        if not 0 <= self.value_share <= 1:
            raise RangeError("drop value_share", self.value_share, "from 0 to 1")
        if self.most_per_plate < 0:
            raise RangeError("drop most_per_plate", self.most_per_plate, "0 or more")
        if not self.keep_cost >= 0:
            raise RangeError("drop keep_cost", self.keep_cost, "0 or more")
        if self.most_in_rack is not None and self.most_in_rack < 0:
            raise RangeError("drop most_in_rack", self.most_in_rack, "0 or more, or none for any number")

    def share_of(self, plate: NestPlate) -> Decimal:
        """Return the share of a plate's price that a drop of its area counts for."""
        return Decimal(1) if plate.remnant else self.value_share

    def keeps(self, dx_mm: float, dy_mm: float) -> bool:
        """Return whether a leftover of this size is worth keeping."""
        small, large = sorted((dx_mm, dy_mm))
        least, longest = sorted((self.least_width_mm, self.least_length_mm))
        return small >= least and large >= longest


@dataclass(frozen=True, slots=True)
class Waiting:
    """Pieces to be cut in a later week wait for a later plate, or fill plates that are cut sooner anyhow.

    No plate is then cut, and so bought, earlier than a piece on it asks for. That may cost at most
    `most_extra_share` of what all pieces nested together cost; a shop setting, the default is an example.
    """

    most_extra_share: Decimal = Decimal("0.02")

    def __post_init__(self) -> None:
        if not 0 <= self.most_extra_share <= 1:
            raise RangeError("waiting most_extra_share", self.most_extra_share, "from 0 to 1")


@dataclass(frozen=True, slots=True)
class NestProblem:
    """One group of pieces of one material and thickness, and the plates they may be cut from.

    `waiting` None: all pieces are nested together, whenever they are due. Raises RangeError when two
    pieces or two plates share an id.
    """

    pieces: tuple[Piece, ...]
    plates: tuple[NestPlate, ...]
    cutting: CuttingRule = field(default_factory=CuttingRule)
    drops: DropRule = field(default_factory=DropRule)
    material: str = ""
    thickness_mm: float = 0.0
    waiting: Waiting | None = None

    def __post_init__(self) -> None:
        _unique("piece id", (piece.id for piece in self.pieces))
        _unique("plate id", (plate.id for plate in self.plates))

    def piece(self, id: str) -> Piece:
        """Return the piece of this id; KeyError when there is none."""
        for piece in self.pieces:
            if piece.id == id:
                return piece
        raise KeyError(id)

    def plate(self, id: str) -> NestPlate:
        """Return the plate of this id; KeyError when there is none."""
        for plate in self.plates:
            if plate.id == id:
                return plate
        raise KeyError(id)


def _unique(what: str, ids: Iterable[str]) -> None:
    for id, times in Counter(ids).items():
        if times > 1:
            raise RangeError(what, id, f"used once, but it stands there {times} times")
