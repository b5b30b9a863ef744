"""What the order is worth: the same problem in date order, in the order of a key, and as planned, with the
same timing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from scheduler.sequence.checked_plan import NoPlanError, finish
from scheduler.sequence.plan import Plan
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import MustShip, Pin
from scheduler.sequence.rules.dispatch import date_order, in_order, key_order
from scheduler.sequence.timing import Opened, tables


@dataclass(frozen=True, slots=True)
class Saving:
    """A plan against one made by a plain order.

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


def plain_plan(
    problem: SequenceProblem, key: Mapping[str, float] | None = None, opened: Opened = frozenset()
) -> Plan:
    """Return the plan of a plain order: by `key` of each operation, smallest first, or by due date without
    one.

    Pinned starts, orders and hard dates are left out, since a plain order does not know them. Raises
    `NoPlanError` when it does not fit.
    """
    plain = problem.without(tuple(w for w in problem.wishes if _is_wish_of_order(w)))
    t = tables(plain, opened)
    order = date_order(t) if key is None else key_order(t, key)
    return finish(t, in_order(t, order), "date order" if key is None else "key order")


def _is_wish_of_order(wish: Pin | MustShip) -> bool:
    return isinstance(wish, MustShip) or wish.start is not None or wish.before is not None


def compare(
    problem: SequenceProblem, plan: Plan, keys: Mapping[str, Mapping[str, float]] | None = None
) -> tuple[Saving, ...]:
    """Hold a plan against date order and against the order of each named key (for example "thickness
    order").

    A plain order that does not fit into the regular windows is given all overtime; one that still does not
    fit is left out.
    """
    savings = []
    for name, key in {"date order": None, **(keys or {})}.items():
        plain = _plain_that_fits(problem, key)
        if plain is not None:
            savings.append(
                Saving(
                    name,
                    plain,
                    plain.setup_minutes - plan.setup_minutes,
                    plain.total - plan.total,
                    plan.cost.lateness - plain.cost.lateness,
                )
            )
    return tuple(savings)


def _plain_that_fits(problem: SequenceProblem, key: Mapping[str, float] | None) -> Plan | None:
    everything = frozenset(
        (m.id, w.start) for m in problem.machines for w in m.windows if w.overtime_cost_per_min is not None
    )
    for opened in (frozenset[tuple[str, int]](), everything):
        try:
            return plain_plan(problem, key, opened)
        except NoPlanError:
            continue
    return None
