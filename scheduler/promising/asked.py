"""What a promise is made from, and what it is."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from quoting.shop import Shop
from scheduler.jobs import PlateToCut, WonLine
from scheduler.replanning import Floor, Published


@dataclass(frozen=True, slots=True)
class OpenQuote:
    """A quote that may still be won, whole, with `chance`.

    `plates` are in the house by their `here_in_days` when the order comes on `order_by`, the last day on
    which it may come.
    """

    name: str
    lines: tuple[WonLine, ...]
    plates: tuple[PlateToCut, ...]
    order_by: date
    chance: float


@dataclass(frozen=True, slots=True)
class Promise:
    """The days of one line when it is ordered by `order_by`, both inclusive.

    In one draw of ten it is ready by `earliest`; `safe` is the day it is kept as often as was asked for.
    """

    earliest: date
    safe: date
    order_by: date


@dataclass(frozen=True, slots=True)
class Rush:
    """A quote put before all that may wait: the day on which all of it is safe, and what that costs the shop.

    `cost` is money for set-ups, overtime and the lateness of others, against the quote in its turn.
    """

    safe: date
    cost: Decimal


@dataclass(frozen=True, slots=True)
class PromiseAsked:
    """Which quotes are to be promised, by name, on which floor, with what was published last.

    `level` is the share of draws that a safe day covers: `wanted_level` tells it from the promises of
    before.
    """

    floor: Floor
    published: Published | None
    quotes: tuple[OpenQuote, ...]
    wanted: Collection[str]
    shop: Shop
    level: float
    seed: int = 0
