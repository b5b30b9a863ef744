"""The whole book in one value."""

from __future__ import annotations

from dataclasses import dataclass, field

from quoting.core import Ends
from quoting.shop.model.cutting import Cutting
from quoting.shop.model.labour import LabourSteps, LiftRules, PassRules, SetupMinutes
from quoting.shop.model.machines import Roll
from quoting.shop.model.materials import Material
from quoting.shop.model.money import PricingRules, Rates, RiskSettings
from quoting.shop.model.operations import Operations
from quoting.shop.model.promise_settings import PromiseSettings
from quoting.shop.model.stock import StockPlate
from quoting.shop.model.working_time import WorkingTime


@dataclass(frozen=True, slots=True)
class Letterhead:
    """What the shop's own letters say beside its name; each text may be empty.

    `choice_worths` tells the customer beside each choice of a question what it adds to the price.
    """

    address: str = ""
    contact: str = ""
    payment: str = ""
    delivery: str = ""
    tolerances: str = ""
    choice_worths: bool = False


@dataclass(frozen=True, slots=True)
class Shop:
    """The whole book: what the rest of the product may ask about the shop."""

    name: str
    note: str
    inch: bool
    paper: str
    rolls: tuple[Roll, ...]
    materials: tuple[Material, ...]
    rates: Rates
    labour: LabourSteps
    lifting: LiftRules
    setups: SetupMinutes
    passes: PassRules
    cutting: Cutting
    pricing: PricingRules
    working_time: WorkingTime
    default_ends: Ends
    default_weld_gap_mm: float
    stock: tuple[StockPlate, ...] = ()
    warnings: tuple[str, ...] = field(default=())
    risk: RiskSettings = field(default_factory=RiskSettings)
    operations: Operations = field(default_factory=Operations)
    letter: Letterhead = field(default_factory=Letterhead)
    promise: PromiseSettings = field(default_factory=PromiseSettings)
    plain_steel: str = ""

    def material(self, key: str) -> Material:
        """Return the material with this key; KeyError when the shop's book has none."""
        for material in self.materials:
            if material.key == key:
                return material
        raise KeyError(key)

    def roll(self, name: str) -> Roll:
        """Return the roll of this name; KeyError when the shop has none."""
        for roll in self.rolls:
            if roll.name == name:
                return roll
        raise KeyError(name)
