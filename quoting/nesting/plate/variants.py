"""Ways to lay down one or more copies of a piece together."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Member:
    """One copy inside a cluster: low corner of its box relative to the cluster's, its extents and its
    rotation."""

    x: int
    y: int
    w: int
    h: int
    angle_deg: float


@dataclass(frozen=True, slots=True)
class Variant:
    """One way to lay down one or more copies of a piece together: a box of w by h, gap included.

    `covers` are boxes (relative) that together contain the copies and their gap; what lies outside stays
    free.
    """

    w: int
    h: int
    members: tuple[Member, ...]
    covers: tuple[tuple[int, int, int, int], ...] = ()

    @property
    def copies(self) -> int:
        """Return how many copies it lays down."""
        return len(self.members)
