"""The demo shop and a few won lines to plan with."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from quoting.shop import Family, Shop, load_shop
from scheduler.jobs import PlateToCut, WonLine
from scheduler.jobs.won_lines import RollChoice
from tests.demo_quote import demo_quote
from tests.light_search import full_search, light_search

__all__ = ["demo_quote", "full_search", "light_search"]

DEMO = Path(__file__).resolve().parents[2] / "demo_orders"

LINE = WonLine(
    id="A-1",
    number="1",
    customer="Example (invented)",
    part="Cylinder",
    quantity=1,
    material="A36",
    family=Family.CARBON,
    thickness_mm=6.35,
    width_mm=1200.0,
    diameter_mm=600.0,
    cone=False,
    weight_kg=120.0,
    lift="crane",
    crew=2,
    crane=True,
    due=date(2026, 12, 11),
    re_round=False,
    plates=("P-1 #1",),
    choices=(RollChoice("Medium 10 ft", 40.0, 0.0),),
    cautions=(),
    price=Decimal("100.00"),
)

PLATE = PlateToCut("P-1 #1", "A36", 6.35, "thermal", 30.0, 0)


def won(id: str, **changes: object) -> WonLine:
    """Return the sample line under another id with some fields changed."""
    return replace(LINE, id=id, **changes)  # type: ignore[arg-type]


@pytest.fixture(scope="session")
def shop() -> Shop:
    return load_shop(DEMO / "shop")
