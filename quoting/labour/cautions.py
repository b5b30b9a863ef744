"""The caution lines of one job: only those that apply, in plain words.

General guidance for the card, no legal advice; local codes and the shop's own rules come first.

Sources: three-roll machines, holding the plate back from the edge and crane use: WorkSafe New Zealand, "Three
roll bending machines", and HSE Engineering Sheet 7; hands drawn in while feeding: OSHA 3170-02R. On gloves at
the rolls official guidance does not agree (those three, BG BAU sheet B 270, DGUV 209-019): the rule is the
shop's, `gloves` under `[lifting]` of its book, and stands on the set-up sheet. Plate dropped from a failed
attachment: National Safety Council data sheet 565; turning end for end as a source of accidents: a trade text
comparing three- and four-roll machines; rolls cleaned while turning: OSHA citation records under 29 CFR
1910.212; lock-out: 29 CFR 1910.147 (from memory). A narrow ring tipping: NIOSH FACE report 05KY015, a coil
0.15 times as wide as high; from which share on is common practice, no source. Whip of the tail, a shell
springing open, a ring rolling away, the cone stop, hard plate breaking, magnets on stainless and aluminium:
common practice, no source.
"""

from __future__ import annotations

from quoting.blanks import Blank
from quoting.core import Ends
from quoting.labour.lifting import Lift

FEED = "Hands well back from the edge while it feeds: the nip draws in whatever it catches."
EDGES = "Cut edges are sharp: deburr before the plate reaches the rolls."
TURN = "Turn end for end with the rolls stopped; keep clear of the swinging plate; square it again."
TAIL = "Stand clear of the tail: it can whip when it leaves the rolls or the pinch is opened."
SPRING = "Flats are cut off after rolling: the shell springs open, clamp it first and stand clear."
RING = "Chock the ring before letting go: it can roll away."
CONE = "Hold the small edge back with the cone stop, never by hand."
CLEAN = "Clean the rolls stopped and locked out, never with a cloth on turning rolls."
TIPS = "A narrow ring tips over: lay it flat or rack it."
HARD = "Hard plate can break and fly: edges ground round, small steps, nobody in line with it."
MAGNET = "No magnet: it does not hold stainless or aluminium."
CODES = "Local codes and the shop's lifting rules come first."


_TIPS_BELOW = 0.3


def cautions_for(
    blank: Blank,
    lift: Lift,
    *,
    pre_bend: bool,
    clean_rolls: bool = False,
    magnetic: bool = True,
    hard: bool = False,
) -> tuple[str, ...]:
    """Return the caution lines for rolling one blank, lifting first; those that do not apply are left out.

    `clean_rolls` is whether the rolls are cleaned before this job (stainless or aluminium after carbon),
    `magnetic` whether a magnet holds the plate, `hard` whether the shop's book calls its edges hard.
    """
    crane = lift.method.crane
    applies = (
        (FEED, True),
        (HARD, hard),
        (MAGNET, crane and not magnetic),
        (EDGES, not crane),
        (TURN, pre_bend),
        (TAIL, crane),
        (SPRING, blank.ends is Ends.TRIM and blank.closed),
        (RING, blank.closed and crane),
        (TIPS, blank.closed and crane and blank.width_mm < _TIPS_BELOW * blank.mean_diameter_mm),
        (CONE, blank.cone is not None),
        (CLEAN, clean_rolls),
        (CODES, crane),
    )
    return (*lift.cautions, *(text for text, holds in applies if holds))
