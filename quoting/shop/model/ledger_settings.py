"""Where the ledger is kept and how much a published plan should hold."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class LedgerSettings:
    """Settings of `[ledger]`; each has a default, an example that every shop sets for itself.

    `url` is the address of a PostgreSQL database, empty for a file in the shop's folder. Jobs that begin
    within `frozen_hours` hours of a plan's moment stay where they are; moving any other published job to
    another day or roll counts `move_cost`. Before any job a setting's minutes are taken to be off by
    `learning_spread` of themselves (one standard deviation); what a job teaches counts half after
    `half_life_days`.
    """

    url: str = ""
    copies_kept: int = 30
    frozen_hours: float = 4.0
    move_cost: Decimal = Decimal(5)
    learning_spread: float = 0.3
    half_life_days: float = 365.0
