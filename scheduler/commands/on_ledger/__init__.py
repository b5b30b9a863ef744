"""The commands that plan and promise from the shop's ledger."""

from scheduler.commands.on_ledger.floor_job import FloorRequest, floor_job
from scheduler.commands.on_ledger.plan_job import FloorPlanRequest, plan_job
from scheduler.commands.on_ledger.promised_days import promiser
from scheduler.commands.on_ledger.rush_job import rush_job
from scheduler.commands.on_ledger.rushed import RushRequest

__all__ = ["FloorPlanRequest", "FloorRequest", "RushRequest", "floor_job", "plan_job", "promiser", "rush_job"]
