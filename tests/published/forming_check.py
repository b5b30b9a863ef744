"""One printed value and what the forming room makes of it; the files of this folder list them by source."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import pytest


@dataclass(frozen=True)
class PublishedCheck:
    """A value as the source prints it, the call that should give it, and the tolerance of the print.

    `worked_out`: the source prints the formula only, and the check itself worked the value out from it.
    `from_memory`: the value, or the formula it was worked out from, was not looked up.
    """

    what: str
    expected: float
    got: Callable[[], float]
    tolerance: float
    unit: str = ""
    from_memory: bool = False
    worked_out: bool = False

    def verify(self) -> None:
        """Raise AssertionError when the value is further from the print than its last digit allows."""
        assert self.got() == pytest.approx(self.expected, abs=self.tolerance), self.what
