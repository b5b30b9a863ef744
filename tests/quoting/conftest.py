"""The demo shop, for tests of the whole path."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.shop import Shop, load_shop
from tests.demo_quote import demo_quote

__all__ = ["demo_quote"]

DEMO = Path(__file__).resolve().parents[2] / "demo_orders"


@pytest.fixture(scope="session")
def shop() -> Shop:
    return load_shop(DEMO / "shop")
