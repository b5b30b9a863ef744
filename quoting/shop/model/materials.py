"""Metal families and grades."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum


class Family(StrEnum):
    """Metal family, as far as cleaning, springback constants and gauge tables care."""

    CARBON = "carbon"
    STAINLESS = "stainless"
    ALUMINIUM = "aluminium"


@dataclass(frozen=True, slots=True)
class Material:
    """A grade: strength band (MPa), stiffness, density and the names customers call it by.

    `yield_low/likely/high_mpa` is the band that plate of this grade arrives with; `strength_mpa` and
    `hardening` are K and n of sigma = K eps^n where known.
    """

    key: str
    family: Family
    names: tuple[str, ...]
    density_kg_m3: float
    elastic_mpa: float
    poisson: float
    yield_low_mpa: float
    yield_likely_mpa: float
    yield_high_mpa: float
    tensile_mpa: float
    strength_mpa: float | None = None
    hardening: float | None = None
    least_bend_radius_t: float = 1.0
    strain_flag_percent: float = 5.0
    grain_matters: bool = False
    gauge_table: str = "steel"
    price_per_kg: Decimal = Decimal(0)
    source: str = ""
