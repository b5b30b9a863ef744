"""How far a drawn length may be off before the checker says so."""

from __future__ import annotations

TOLERANCE_MM = 0.05
"""Rounding to micrometres, and cuts nearer to each other than this that a shear makes as one."""
