"""What the floor looks like at a moment: where every open job stands, what is down, who is away."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from scheduler.jobs import PlateToCut, WonLine

BEFORE_CUT = ("won", "plate ordered", "plate in")
AFTER_ROLLING = ("rolled", "at the welder", "back")


@dataclass(frozen=True, slots=True)
class FloorJob:
    """An open job: what is to be made, where it stands since when, and what the scheduler wishes of it.

    `minutes_left` are what is left of the rolling of a job that is on its roll. `back_on` is the day a job at
    the welder comes back, None for the shop's usual days. `rank` orders jobs that have one among each other.
    `pin_day` is the day its rolling is to begin on.
    """

    line: WonLine
    state: str
    since: datetime | None = None
    roll: str = ""
    minutes_left: int | None = None
    back_on: date | None = None
    must_ship: date | None = None
    not_before: datetime | None = None
    pin_roll: str = ""
    pin_day: date | None = None
    hold: bool = False
    rank: int | None = None

    @property
    def on_roll(self) -> bool:
        """Return whether it is being rolled now."""
        return self.state == "on the roll"

    @property
    def still_to_roll(self) -> bool:
        """Return whether its rolling before welding is still to be done or finished."""
        return self.state not in AFTER_ROLLING


@dataclass(frozen=True, slots=True)
class FloorStop:
    """A time in which a machine is down, or with an empty machine so many people are away."""

    start: datetime
    end: datetime
    machine: str = ""
    people: int = 0
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Floor:
    """All of it at `moment`. `plates` are those still to be cut, with the days until each is in the house."""

    moment: datetime
    jobs: tuple[FloorJob, ...]
    plates: tuple[PlateToCut, ...] = ()
    stops: tuple[FloorStop, ...] = ()

    @property
    def working(self) -> tuple[FloorJob, ...]:
        """Return the jobs that are planned: all but those on hold and those with nothing left to do here."""
        return tuple(job for job in self.jobs if not job.hold and (job.still_to_roll or job.line.re_round))
