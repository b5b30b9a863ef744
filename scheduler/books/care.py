"""The cautions of one job in a few words each: the full sentences stand on its set-up sheet."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.labour import (
    CLEAN,
    CODES,
    CONE,
    EDGES,
    FEED,
    HARD,
    MAGNET,
    RING,
    SPRING,
    TAIL,
    TIPS,
    TURN,
)
from scheduler.jobs import WonLine
from scheduler.week import PlannedOperation

CLEANING = "clean rolls"
"""How a set-up's reason begins when the rolls are cleaned."""

_SHORT = {
    FEED: "hands back from the edge",
    EDGES: "sharp edges",
    HARD: "hard plate: edges ground round, nobody in line",
    MAGNET: "no magnet",
    TIPS: "a narrow ring tips",
    TURN: "turn end for end with the rolls stopped",
    TAIL: "stand clear of the tail",
    SPRING: "clamp before the flats are cut off",
    RING: "chock the ring",
    CONE: "cone stop at the small edge, never hands",
    CLEAN: "clean the rolls stopped and locked out",
}
_SHORT_OPENINGS = {
    "Crane lift": "crane lift, nobody under or beside the load",
    "Two-person lift": "two-person lift, one calls it",
    "Overhead support": "hang the shell from the crane as it closes",
    "Thin for its diameter": "a second person holds it up as it closes",
}
"""Cautions that carry a weight are known by how they begin."""


def cautions_of(slot: PlannedOperation, line: WonLine) -> tuple[str, ...]:
    """Return the cautions of one job in its place, short: cleaning only where the rolls are cleaned for it.

    What the record notes on its passes comes with them. That codes come first stands at the foot of every
    page and is not said again.
    """
    cleaned = any(why.startswith(CLEANING) for why, _ in slot.setup.parts) if slot.setup else False
    own = [text for text in line.cautions if text not in (CODES, CLEAN)]
    notes = [note for setting in line.settings_on(slot.machine) for note in setting.notes]
    texts = [*own, *((CLEAN,) if cleaned else ()), *notes]
    return tuple(dict.fromkeys(_short(text) for text in texts))


def shared_cautions(cautions: Sequence[tuple[str, ...]]) -> tuple[str, ...]:
    """Return the cautions that every one of several jobs carries; none when there is only one job."""
    if len(cautions) < 2:
        return ()
    return tuple(text for text in cautions[0] if all(text in others for others in cautions))


def told(cautions: Sequence[str]) -> str:
    """Return cautions as one text.

    >>> told(("chock the ring", "stand clear of the tail"))
    'Chock the ring; stand clear of the tail'
    """
    text = "; ".join(cautions)
    return text[:1].upper() + text[1:]


def _short(text: str) -> str:
    if text in _SHORT:
        return _SHORT[text]
    found = [short for opening, short in _SHORT_OPENINGS.items() if text.startswith(opening)]
    return found[0] if found else text.rstrip(".")
