"""What a watcher was asked for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path


@dataclass(frozen=True, slots=True)
class WatchRequest:
    """Where orders come in, the shop, where quotes go; `once`: quote what is there and end.

    `wait` is for how many seconds a file must have been left alone before it is read; one that cannot be read
    then is tried again until it has been left alone ten times as long. `today`: the day to quote on, None for
    the calendar's.
    """

    inbox: Path
    shop_dir: Path
    out_dir: Path
    today: date | None = None
    wait: float = 3.0
    once: bool = False
    ledger: bool = True

    @property
    def day(self) -> date:
        """Return the day to quote on."""
        return self.today or date.today()
