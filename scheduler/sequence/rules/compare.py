"""What the order is worth: the same work on the same calendar as a foreman would order it by hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from scheduler.sequence.checked_plan import NoPlanError, finish
from scheduler.sequence.plan import Plan
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import MustShip, Pin
from scheduler.sequence.rules.by_hand import DUE_ORDER, by_hand
from scheduler.sequence.timing import late_setups, tables

HandOrders = Mapping[str, Mapping[str, float]]
"""Orders that people go by besides that of due days: a key of each operation, smallest first, by name."""


@dataclass(frozen=True, slots=True)
class Saving:
    """A plan against one made by hand.

    `setup_minutes` and `money` saved (negative: the plain order has less), `lateness` is late money added
    by the plan.
    """

    name: str
    plain: Plan
    setup_minutes: int
    money: Decimal
    lateness: Decimal

    @property
    def lateness_per_setup_minute(self) -> Decimal | None:
        """What each saved set-up minute cost in lateness, None when no set-up was saved."""
        if self.setup_minutes <= 0:
            return None
        return (self.lateness / self.setup_minutes).quantize(Decimal("0.0001"))


def hand_plan(problem: SequenceProblem, key: Mapping[str, float] | None = None) -> Plan:
    """Return the plan of a rule of thumb: by `key` of each operation, smallest first, or by due day.

    Pinned starts, orders and hard dates are left out, since nobody keeps them in mind so. Raises
    `NoPlanError` when it does not fit into the regular hours.
    """
    plain = problem.without(tuple(w for w in problem.wishes if _is_wish_of_order(w)))
    t = tables(plain)
    return finish(t, late_setups(t, by_hand(t, key)), "by hand")


def unplaced_by_hand(problem: SequenceProblem) -> tuple[int, ...]:
    """Return the operations that find no place in regular hours when all is done by due day, wishes apart."""
    return by_hand(tables(problem.without(problem.wishes))).unplaced


def _is_wish_of_order(wish: Pin | MustShip) -> bool:
    return isinstance(wish, MustShip) or wish.start is not None or wish.before is not None


def compare(problem: SequenceProblem, plan: Plan, orders: HandOrders | None = None) -> tuple[Saving, ...]:
    """Hold a plan against what people do, the best of it first: due-day order and each order by name.

    One that does not fit into the regular hours is left out.
    """
    savings = []
    for name, key in {DUE_ORDER: None, **(orders or {})}.items():
        try:
            plain = hand_plan(problem, key)
        except NoPlanError:
            continue
        savings.append(
            Saving(
                name,
                plain,
                plain.setup_minutes - plan.setup_minutes,
                plain.total - plan.total,
                plan.cost.lateness - plain.cost.lateness,
            )
        )
    return tuple(sorted(savings, key=lambda saving: saving.plain.goal(problem.aim)))
