"""The outcome of estimating: what every book, page and record is printed from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal

from quoting.blanks import Blank, BlankPlan
from quoting.core import Ends, Order, OrderLine, Question, SheetRow, State
from quoting.forming import PassPlan, Verdict
from quoting.labour import HandlingTask, Lift, RollMinutes
from quoting.nesting import Nest, NestProblem
from quoting.pricing import BreakPrice, CostDrivers, CostSpread, LinePrice, LineRisk, OrderTotal
from quoting.shop import Band, Shop


@dataclass(frozen=True, slots=True)
class Rolling:
    """One kind of blank of a line on one roll: can it, how, how long.

    `task` is what the minutes were worked out from; repeats of it at another quantity start there.
    """

    blank: Blank
    quantity: int
    verdict: Verdict
    passes: PassPlan
    lift: Lift
    task: HandlingTask
    minutes: RollMinutes


@dataclass(frozen=True, slots=True)
class Route:
    """A line on one roll with one choice of courses, seams and end treatment.

    `rough_cost` (money, for choosing only) weighs plate and minutes. `problem` says why it cannot be done
    although the roll is strong enough, `flags` what to look at. `trouble_chance` is the chance that the roll
    proves too weak, `trouble_cost` the money expected from that.
    """

    roll: str
    ends: Ends
    plan: BlankPlan
    rollings: tuple[Rolling, ...]
    rough_cost: Decimal
    problem: str = ""
    flags: tuple[str, ...] = ()
    trouble_chance: float = 0.0
    trouble_cost: Decimal = Decimal(0)

    @property
    def ok(self) -> bool:
        """Return whether the roll can do every blank of the line, and nothing else speaks against it."""
        return not self.problem and all(rolling.verdict.ok for rolling in self.rollings)

    @property
    def governing(self) -> Rolling:
        """Return the rolling that uses most of its limit."""
        return max(self.rollings, key=lambda rolling: rolling.verdict.used)

    @property
    def minutes(self) -> Band:
        """Return the minutes on the roll for the whole quantity, without set-up."""
        total = Band(0, 0, 0)
        for rolling in self.rollings:
            total = total + rolling.minutes.total
        return total

    @property
    def crew(self) -> int:
        """Return how many people the heaviest rolling needs."""
        return max(rolling.lift.crew for rolling in self.rollings)


@dataclass(frozen=True, slots=True)
class WorkItem:
    """One piece of work for the whole quantity: its name, why it takes what it takes, and what that is.

    `edge_m` are metres of prepared edge, minutes are the bench hand's and the welder's, `consumables` and
    `outside` money at cost.
    """

    name: str
    why: str
    edge_m: float = 0.0
    bench_minutes: float = 0.0
    weld_minutes: float = 0.0
    consumables: Decimal = Decimal(0)
    outside: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class BreakPlan:
    """What one line would take at another quantity; `opened` when that takes a plate the smaller did not."""

    quantity: int
    drivers: CostDrivers
    opened: bool = False


@dataclass(frozen=True, slots=True)
class Sensitivity:
    """What one change would do to a line, worked out by running it again.

    `change` is the change as a person would say it, `unit` and `extended` the prices with it; `difference` is
    against the line's price now, for `extended` (for a doubled quantity: of the unit price). `problem` says
    why it cannot be done, the prices are then None.
    """

    kind: str
    change: str
    unit: Decimal | None = None
    extended: Decimal | None = None
    difference: Decimal | None = None
    problem: str = ""


@dataclass(frozen=True, slots=True)
class Override:
    """What a person decided on a line against the computed price, why, and who.

    `unit` is the unit price and `margin` the margin on the shop's own work; None leaves the computed one.
    """

    reason: str
    unit: Decimal | None = None
    margin: Decimal | None = None
    by: str = ""


@dataclass(frozen=True, slots=True)
class LineResult:
    """Everything that was worked out for one order line.

    `routes` holds the chosen route first, then the other rolls that can do the same blanks. For a no-quote
    line `routes` holds the nearest attempts, none of them ok, and `nearest` says what would work; `offers`
    are those of it that have a price (for a priced line: another way than the one priced), `told` those that
    the customer of a priced line hears of. `risk` and `sensitivities` are there when they were asked for;
    `override` is what a person decided afterwards. `work` is what is done off the roll.
    """

    line: OrderLine
    state: State
    reason: str = ""
    nearest: tuple[str, ...] = ()
    routes: tuple[Route, ...] = ()
    setup_minutes: float = 0.0
    drivers: CostDrivers | None = None
    price: LinePrice | None = None
    breaks: tuple[BreakPrice, ...] = ()
    cautions: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    plates: tuple[str, ...] = ()
    plate_kg: float = 0.0
    break_plans: tuple[BreakPlan, ...] = ()
    risk: LineRisk | None = None
    sensitivities: tuple[Sensitivity, ...] = ()
    override: Override | None = None
    offers: tuple[str, ...] = ()
    work: tuple[WorkItem, ...] = ()
    told: tuple[str, ...] = ()

    @property
    def route(self) -> Route | None:
        """Return the chosen route of a priced line, or the nearest attempt."""
        return self.routes[0] if self.routes else None


@dataclass(frozen=True, slots=True)
class GroupNest:
    """The nest of one material and thickness; `lines` are the ids of the lines that share it."""

    material: str
    thickness_mm: float
    problem: NestProblem
    nest: Nest
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChoiceWorth:
    """What an answer to a question would add to the total as quoted, for the whole quantity.

    `price` is below 0 where it takes off the total, None when we could not do it, and `problem` says why, or
    which lines fall out. The blank is that of the first piece, mm; None when it concerns several lines. Where
    it is `exact`, a run with that answer is so much dearer; else both were nested more quickly than the run.
    """

    label: str
    price: Decimal | None
    blank_width_mm: float | None = None
    blank_length_mm: float | None = None
    problem: str = ""
    exact: bool = True


@dataclass(frozen=True, slots=True)
class OrderEstimate:
    """One customer's order as estimated, in the customer's own line order.

    `alone` is its price before tax without the other orders of the run, where they share plates.
    """

    order: Order
    lines: tuple[LineResult, ...]
    questions: tuple[Question, ...]
    total: OrderTotal
    risk: CostSpread | None = None
    alone: Decimal | None = None

    @property
    def rows(self) -> tuple[SheetRow, ...]:
        """Return the account of every row of the sheet, with what pricing made of the rows that were read."""
        results = {result.line.place.cell: result for result in self.lines}
        return tuple(_account(row, results.get(row.place.cell)) for row in self.order.rows)


def _account(row: SheetRow, result: LineResult | None) -> SheetRow:
    return row if result is None else replace(row, state=result.state, reason=result.reason)


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that a revision changed: on a line (or on all of the run, `line` empty), from what to what.

    `public` changes are the customer's business too: prices, and lines left out. `order` is the file the line
    was asked in and `number` the customer's own line number.
    """

    what: str
    before: str
    after: str
    line: str = ""
    reason: str = ""
    public: bool = False
    order: str = ""
    number: str = ""


@dataclass(frozen=True, slots=True)
class Revision:
    """A later word on an estimate: number, the record it replaces, what changed, the first quote's day."""

    number: int
    replaces: str
    changes: tuple[Change, ...]
    first_day: date


@dataclass(frozen=True, slots=True)
class PlateWanted:
    """A plate that no list of the shop holds: what a merchant is to be asked for.

    `lines` are the ids of the lines that wait for it; `blanks` how many of which width and length, mm, each
    in one piece, and `weight_kg` what they weigh together.
    """

    material: str
    thickness_mm: float
    lines: tuple[str, ...]
    blanks: tuple[tuple[int, float, float], ...]
    weight_kg: float


@dataclass(frozen=True, slots=True)
class Estimate:
    """One run over one or several orders; `worth` says by question id what each choice would cost.

    `won_of` counts the lines that were quoted where these are only the ones won of them; 0: all are here.
    `wanted` are plates to ask a merchant for before some lines can be priced.
    """

    shop: Shop
    today: date
    effort: str
    seed: int
    orders: tuple[OrderEstimate, ...]
    nests: tuple[GroupNest, ...]
    worth: Mapping[str, tuple[ChoiceWorth, ...]] = field(default_factory=dict)
    warnings: tuple[str, ...] = field(default=())
    revision: Revision | None = None
    won_of: int = 0
    wanted: tuple[PlateWanted, ...] = ()

    @property
    def lines(self) -> tuple[LineResult, ...]:
        """Return the lines of all orders."""
        return tuple(line for order in self.orders for line in order.lines)
