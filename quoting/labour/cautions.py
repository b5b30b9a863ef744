"""The caution lines of one job: only those that apply, in plain words.

General guidance for the card, no legal advice; local codes and the shop's own rules come first.

Sources: three-roll machines, holding the plate back from the edge and crane use: WorkSafe New Zealand, "Three
roll bending machines", and HSE Engineering Sheet 7; hands drawn in while feeding, and gloves: OSHA 3170-02R;
plate dropped from a failed attachment: National Safety Council data sheet 565; turning end for end as a
source of accidents: a trade text comparing three- and four-roll machines; rolls cleaned while turning: OSHA
citation records under 29 CFR 1910.212; lock-out: 29 CFR 1910.147 (from memory). Whip of the tail, a shell
springing open, a ring rolling away, the cone stop: common practice, no source.
"""

from __future__ import annotations

from quoting.blanks import Blank
from quoting.core import Ends
from quoting.labour.lifting import Lift

FEED = "Hold the plate well back from the edge while it feeds; no gloves at the nip."
EDGES = "Cut edges are sharp: gloves for carrying, off again before feeding."
TURN = "Turn end for end with the rolls stopped; keep clear of the swinging plate; square it again."
TAIL = "Stand clear of the tail: it can whip when it leaves the rolls or the pinch is opened."
SPRING = "Flats are cut off after rolling: the shell springs open, clamp it first and stand clear."
RING = "Chock the ring before letting go: it can roll away."
CONE = "Hold the small edge back with the cone stop, never by hand."
CLEAN = "Clean the rolls stopped and locked out, never with a cloth on turning rolls."
CODES = "Local codes and the shop's lifting rules come first."


def cautions_for(blank: Blank, lift: Lift, *, pre_bend: bool, clean_rolls: bool = False) -> tuple[str, ...]:
    """Return the caution lines for rolling one blank, lifting first; those that do not apply are left out.

    `clean_rolls` is whether the rolls are cleaned before this job (stainless or aluminium after carbon).
    """
    crane = lift.method.crane
    applies = (
        (FEED, True),
        (EDGES, not crane),
        (TURN, pre_bend),
        (TAIL, crane),
        (SPRING, blank.ends is Ends.TRIM and blank.closed),
        (RING, blank.closed and crane),
        (CONE, blank.cone is not None),
        (CLEAN, clean_rolls),
        (CODES, crane),
    )
    return (*lift.cautions, *(text for text, holds in applies if holds))
