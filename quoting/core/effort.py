"""How hard a search tries."""

from __future__ import annotations

from typing import Literal, TypeAlias

Effort: TypeAlias = Literal["quick", "normal", "thorough"]
