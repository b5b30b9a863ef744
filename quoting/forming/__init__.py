"""What the rolls can do with a plate, and how to roll it: mechanics of the initial-pinch plate roll on one
page.

The question is `assess_many(tasks, roll, rules)`: for each task a `Verdict` with every limit, the governing
one and ways out. The answer's second half is `plan_many(tasks, roll, rules, verdicts)`: the passes with radii
and bending-roll positions. Both cost little more for ten thousand lines than for ten.

The plate (`bending`, `springback`)
    One mm of width is a section whose fibres follow min(E' e, max(Y', K' e^n)): elastic, yield plateau,
    power-law hardening where K and n are known. From a width of 8 t it bends in plane strain, E' = E/(1 -
    nu^2), Y' = 2Y/sqrt(3). Moment, work of bending and springback are closed formulas; k_f = k_i - M(k_i)/D
    with D = E' t^3/12 gives the loaded curvature k_i for a wanted final one k_f. A plate rolled again in
    the same direction remembers its largest loaded curvature only.

The machine (`pinch_roll`, `shape`)
    The plate is held between top and pinch roll and pushed up by a bending roll on an inclined slide. The
    moment is M_i at the top roll and falls to 0 at the contact with the bending roll, a lever arm a away: F
    = M_i / a. In the normal direction the metal unloads on the way, k = k_f + M/D; in reverse (pre-bend)
    flat metal is loaded on the way to the nip. The free length is the one unknown: the centre of the
    bending roll must stand on its slide. It is also the flat of a leading end without pre-bend. In reverse
    the bending roll stands clearly lower for the same final radius, and a small step changes much: creep up
    to a pre-bend.

The pinch (`load`)
    Two rolls can hold a moment only with contacts a couple arm e apart along the plate, with a pinch force
    M_i / e. Over e the moment rises from 0, so an end held at the pinch roll stays flat over about e: a
    flat of 2 t means e = 2.05 t, a gap some 8 per cent of t wider than the plate (6 in rolls, 1/4 in) and a
    pinch force of about Y' t / 8 per mm. The flat is the shop's setting; e follows from it. The pull that
    drives the plate is the plastic work per mm^2, and mu (2 P + F) must exceed it.

What it can do (`demands`, `rating`, `capability`, `ways_out`, `chart`)
    A rated point proves every load it asks for. Each load limit (bending force, pinch force, bending of top
    and bending roll as beams, drive torque) is the largest demand among the rated points, worked out by the
    same formulas as the job's demand, so that common errors drop out. Loads count at the certificate's
    yield or the grade's least one, since ratings name one too; the verdict says what the strongest plate of
    the grade would ask. Torque may be spread over passes. Without slide geometry only moment, torque and
    sizes are compared, and the verdict says so. Ways out are solved for: width, thickness, diameter, yield,
    without pre-bend, half shells.

How to roll it (`passes`, `cones`)
    Equal steps of final curvature, as many as the strain per pass (t/2R) allows; more near capacity or when
    the drive asks for it. Positions are for the likely yield; `inside_diameter_band_mm` says what weak and
    strong plate would give. Cones: radius r / cos(half apex), tilt from the positions of both edges, slip
    of the small edge.

Learning (`calibrate`, `readout_model`)
    Readout offset and yield by material from recorded rolls, robust, with standard errors; a proposal, no
    more.

Flags (`strain`)
    Extreme-fibre strain, least bend radius, roundness limits: they say "check the code" and never decide.

What is left out: stretch and shift of the neutral axis (radius above about 5 t), friction and inertia of
the plate, its own weight, spring of frame and rolls in the position (the readout offset learns the part
that is constant), and contact of the plate along the top roll when the loaded radius comes near to it.
"""

from quoting.forming.judging import (
    FORMULAS,
    NAMES,
    CapabilityTable,
    DemandRow,
    assess_many,
    by_formula,
    capability_table,
)
from quoting.forming.learning import Calibration, RecordedRoll, calibrate
from quoting.forming.machine import cone_segments, nip_of, slide_point
from quoting.forming.passing import PassPlan, pass_counts, plan_many
from quoting.forming.plate import (
    out_of_roundness_mm,
    roundness_rule,
    scatter_out_of_round,
    shell_contour,
)
from quoting.forming.task import RollTask
from quoting.forming.verdict import Verdict, WayOut

__all__ = [
    "FORMULAS",
    "NAMES",
    "Calibration",
    "CapabilityTable",
    "DemandRow",
    "PassPlan",
    "RecordedRoll",
    "RollTask",
    "Verdict",
    "WayOut",
    "assess_many",
    "by_formula",
    "calibrate",
    "capability_table",
    "cone_segments",
    "nip_of",
    "out_of_roundness_mm",
    "pass_counts",
    "plan_many",
    "roundness_rule",
    "scatter_out_of_round",
    "shell_contour",
    "slide_point",
]
