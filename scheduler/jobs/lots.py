"""A line of several equal parts rolled in two lots: on two rolls, or the second one later.

A lot takes its share of the line's minutes, by parts, as if each part took as long: that the first ones take
longer is left out. The first lot takes the blanks whose plates are in the house first; a lot waits for the
plates that hold its own blanks, or for all plates of the line when the record does not say which hold which.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from scheduler.jobs.won_lines import Lot, PlateToCut, WonLine


def in_two_lots(line: WonLine, first: int, plates: Mapping[str, PlateToCut]) -> tuple[WonLine, WonLine]:
    """Return the line's first `first` parts and the others; 0 < first < quantity.

    `plates` are those still to be cut; the line's other plates have been cut and are there.
    """
    numbers = (first, line.quantity - first)
    own = _plates_of(line, first, plates)
    return (
        _lot(line, Lot(1, numbers[0], line.quantity), own[0]),
        _lot(line, Lot(2, numbers[1], line.quantity), own[1]),
    )


def soonest(line: WonLine, plates: Mapping[str, PlateToCut]) -> int:
    """Return how many parts can be made of the plates that are in the house before the last ones.

    0 when the record does not say which plates hold which blanks, or all plates are there on one day.
    """
    each = _blanks_a_part(line)
    last = max((_lead(plate, plates) for plate in line.plates), default=0)
    if not each or not last:
        return 0
    return sum(line.blanks_on[plate] for plate in line.plates if _lead(plate, plates) < last) // each


def _lot(line: WonLine, lot: Lot, plates: tuple[str, ...]) -> WonLine:
    share = lot.parts / lot.of
    choices = tuple(
        replace(c, minutes=c.minutes * share, re_round_minutes=c.re_round_minutes * share)
        for c in line.choices
    )
    return replace(line, lot=lot, quantity=lot.parts, plates=plates, choices=choices)


def _plates_of(
    line: WonLine, first: int, plates: Mapping[str, PlateToCut]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    each = _blanks_a_part(line)
    if not each:
        return line.plates, line.plates
    order = sorted(line.plates, key=lambda plate: (_lead(plate, plates), line.plates.index(plate)))
    need, taken = first * each, 0
    lots: tuple[list[str], list[str]] = ([], [])
    for plate in order:
        here = line.blanks_on[plate]
        if taken < need:
            lots[0].append(plate)
        if taken + here > need:
            lots[1].append(plate)
        taken += here
    return tuple(lots[0]), tuple(lots[1])


def _blanks_a_part(line: WonLine) -> int:
    """Return the blanks of one part, 0 when the plates of the record do not hold them all under one name."""
    each = line.blank.pieces if line.blank else 1
    known = set(line.plates) == set(line.blanks_on)
    return each if known and sum(line.blanks_on.values()) == each * line.quantity else 0


def _lead(plate: str, plates: Mapping[str, PlateToCut]) -> int:
    return plates[plate].here_in_days if plate in plates else 0
