"""How likely a priced line is to lose money: a seeded Monte Carlo over the same cost formulas.

What is drawn, once for each line and draw: set-up and rolling minutes from their bands (one plate lot and
one crew, so all pieces of a line run slow together); the plate's yield and thickness; the pieces that need
a re-roll and the pieces that are lost. Lines are independent of one another, each with a random stream of
its own made from the seed and its id, so adding or dropping a line does not move the others.

Consequences. The load on the roll grows as yield x thickness^2 (the fully plastic moment of a plate is
proportional to both). At or above the near-capacity share, which the plan has not allowed for, extra passes
are needed; above 1 every piece is re-rolled once. A lost piece costs its plate and its share of cutting,
edge work, rolling and lifting again. Chances and thresholds are the shop's settings.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, Any
from zlib import crc32

from quoting.core import RangeError
from quoting.pricing.formulas import COST_FORMULAS, evaluate
from quoting.pricing.inputs import line_inputs
from quoting.pricing.price_parts import CostDrivers
from quoting.pricing.risk_reasons import RiskRules, RiskSigns, reasons
from quoting.pricing.spread import Spread, draw
from quoting.shop import Band, Cutting, PricingRules, Rates

if TYPE_CHECKING:
    import numpy as np

    from quoting.pricing.spread import Draws

_CERTAIN = Band(1, 1, 1)
_CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class RiskInput:
    """What can go otherwise on one line sold at `price` (money for the whole quantity).

    `setup` and `rolling` are minutes for the whole quantity, WITHOUT any allowance for re-rolls or scrap,
    which are drawn here (labour minutes worked out with the shop's two chances at 0). `re_roll` is minutes
    for one piece, `extra_pass_minutes` for one more pass over all pieces. `used` is the used share of the
    governing limit as planned; `yield_ratio` and `thickness_ratio` are bands of the delivered plate against
    the yield and thickness that `used` was worked out with. Chances are for one piece. `lost_piece` is money
    of plate gone with one lost piece; for free-issue plate it is what the shop would owe for it (0 leaves it
    out).
    """

    line: str
    drivers: CostDrivers
    price: Decimal
    setup: Band
    rolling: Band
    re_roll: Band
    extra_pass_minutes: float
    used: float
    re_roll_chance: float
    scrap_chance: float
    lost_piece: Decimal
    piece_kg: float
    thickness_mm: float
    width_mm: float
    yield_ratio: Band = _CERTAIN
    thickness_ratio: Band = _CERTAIN
    first_off: bool = False
    free_issue: bool = False

    def __post_init__(self) -> None:
        for name in ("re_roll_chance", "scrap_chance"):
            if not 0 <= getattr(self, name) <= 1:
                raise RangeError(name.replace("_", " "), getattr(self, name), "0 to 1")
        for name in ("price", "lost_piece", "extra_pass_minutes", "used"):
            if not getattr(self, name) >= 0:
                raise RangeError(name.replace("_", " "), getattr(self, name), "0 or more")


@dataclass(frozen=True, slots=True)
class CostSpread:
    """Costs that one, five and nine draws in ten stay under, their mean, and the share above the price."""

    p10: Decimal
    p50: Decimal
    p90: Decimal
    mean: Decimal
    loss_chance: float


@dataclass(frozen=True, slots=True)
class LineRisk:
    """One line's spread, the chance that its plate loads the roll over its rating, and why it is risky."""

    line: str
    cost: CostSpread
    over_rating_chance: float
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RiskReport:
    """The lines in the order given, and all of them together sold at the sum of their prices."""

    lines: tuple[LineRisk, ...]
    order: CostSpread
    draws: int
    seed: int


@dataclass(frozen=True, slots=True)
class Drawing:
    """How the draws are made: the seed of their random streams, how many for a line, the form of a band."""

    seed: int
    draws: int = 10_000
    spread: Spread = Spread.TRIANGULAR


def simulate(
    inputs: Sequence[RiskInput],
    rates: Rates,
    rules: PricingRules,
    cutting: Cutting,
    risk_rules: RiskRules,
    drawing: Drawing,
) -> RiskReport:
    """Return cost percentiles and the chance of losing money for each line and for the order.

    With 10,000 draws a chance of 10 % is known to about 0.6 points either way (two standard errors). Raises
    RangeError for no lines or fewer than 100 draws.
    """
    import numpy as np  # noqa: PLC0415 - kept out of the start of the command

    if drawing.draws < 100:
        raise RangeError("draws", drawing.draws, "100 or more, or the tenths say nothing")
    if not inputs:
        raise RangeError("lines to draw", 0, "at least one")
    lines: list[LineRisk] = []
    order = np.zeros(drawing.draws)
    for given in inputs:
        shop = {
            name: float(value) for name, value in line_inputs(given.drivers, rates, rules, cutting).items()
        }
        rng = np.random.default_rng([drawing.seed, crc32(given.line.encode())])
        cost, over = _draw_costs(given, shop, risk_rules, drawing, rng)
        order += cost
        spread_of_line = _summary(cost, given.price)
        chance = float(np.mean(over))
        lines.append(
            LineRisk(given.line, spread_of_line, chance, _reasons(given, risk_rules, spread_of_line, chance))
        )
    total = _summary(order, sum((given.price for given in inputs), Decimal(0)))
    return RiskReport(tuple(lines), total, drawing.draws, drawing.seed)


def _draw_costs(
    given: RiskInput,
    shop: Mapping[str, float],
    rules: RiskRules,
    drawing: Drawing,
    rng: np.random.Generator,
) -> tuple[Draws, Any]:
    import numpy as np  # noqa: PLC0415

    draws, spread = drawing.draws, drawing.spread
    quantity = given.drivers.quantity
    rolling = draw(given.rolling, spread, rng, draws)
    used = (
        given.used
        * draw(given.yield_ratio, spread, rng, draws)
        * draw(given.thickness_ratio, spread, rng, draws) ** 2
    )
    over = used > 1
    unplanned = (used >= rules.near_capacity) & (given.used < rules.near_capacity)
    re_rolled = np.where(over, quantity, rng.binomial(quantity, given.re_roll_chance, draws))
    lost = rng.binomial(quantity, given.scrap_chance, draws)
    again = 1 + lost / quantity
    slow = rolling / given.rolling.likely if given.rolling.likely else 1.0
    varied = {
        "setup_minutes": draw(given.setup, spread, rng, draws),
        "rolling_minutes": rolling * again
        + unplanned * rules.extra_passes * given.extra_pass_minutes
        + re_rolled * draw(given.re_roll, spread, rng, draws),
        "crane_minutes": shop["crane_minutes"] * slow * again,
        "cutting_cost": shop["cutting_cost"] * again,
        "edge_m": shop["edge_m"] * again,
        "bench_minutes": shop["bench_minutes"] * slow * again,
        "weld_minutes": shop["weld_minutes"] * slow * again,
        "consumables": shop["consumables"] * again,
    }
    values = evaluate({**shop, **varied}, COST_FORMULAS, {"MAX": np.maximum})
    # A lost plate is bought at its full cost; it earns no drop, so it stands outside the plate formula.
    return values["cost"] + lost * float(given.lost_piece), over


def _summary(cost: Draws, price: Decimal) -> CostSpread:
    import numpy as np  # noqa: PLC0415

    low, middle, high = (_cents(value) for value in np.percentile(cost, (10, 50, 90)))
    return CostSpread(low, middle, high, _cents(cost.mean()), float(np.mean(cost > float(price))))


def _cents(value: float) -> Decimal:
    return Decimal(float(value)).quantize(_CENT, ROUND_HALF_UP)


def _reasons(given: RiskInput, rules: RiskRules, cost: CostSpread, over: float) -> tuple[str, ...]:
    signs = RiskSigns(
        used=given.used,
        over_rating_chance=over,
        loss_chance=cost.loss_chance,
        piece_kg=given.piece_kg,
        thickness_mm=given.thickness_mm,
        width_mm=given.width_mm,
        first_off=given.first_off,
        free_issue=given.free_issue,
        liable=given.lost_piece > 0,
    )
    return reasons(rules, signs)
