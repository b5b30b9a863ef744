"""Work off the roll: edges, welding, trimming, handwork. All settings, all examples.

The trade publishes none of these minutes. The defaults here are for books that were written before the
tables existed; the starter book shows each with its unit.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class EdgeRules:
    """Preparing a metre of edge: `minutes_per_m` for one cut in thin plate, more for each mm of thickness.

    A double bevel takes two cuts, a J `j_cuts`, grinding a square edge clean `square_cuts`. When `bought`,
    the shop pays `bought_per_m` for one cut instead, and no minutes. A machined or ground edge (J, square)
    takes `machined_allowance_mm` off, which the blank is cut larger by.
    """

    minutes_per_m: float = 4.9
    minutes_per_m_mm: float = 0.39
    j_cuts: float = 4.0
    square_cuts: float = 0.5
    bought: bool = False
    bought_per_m: Decimal = Decimal("19.68")
    machined_allowance_mm: float = 1.6


@dataclass(frozen=True, slots=True)
class WeldRules:
    """Welding seams, in the house or bought in; kg and minutes, rates in `Rates`.

    Deposition is in kg an hour of arc time, `operating_factor` the arc's share of the welder's time. Up to
    `square_up_to_mm` a seam is a square butt, up to `single_up_to_mm` a single V, above a double V, of
    `angle_deg` an edge with a root face of `face_mm` and caps of `cap_mm`, unless the order gives its bevel.
    Partial penetration fills `partial_share` of the thickness. Back-gouging opens a half-round groove.
    """

    in_house: bool = True
    deposition_kg_hour: float = 2.45
    operating_factor: float = 0.3
    metal_cost_per_kg: Decimal = Decimal("7.7")
    fit_up_minutes_per_m: float = 6.6
    square_up_to_mm: float = 4.8
    single_up_to_mm: float = 19.0
    angle_deg: float = 30.0
    face_mm: float = 1.6
    cap_mm: float = 1.6
    partial_share: float = 0.6
    seal_leg_mm: float = 4.0
    gouge_minutes_per_m: float = 9.8
    gouge_depth_mm: float = 6.0
    gouge_width_mm: float = 9.0
    re_round_after: bool = True
    bought_per_hour: Decimal = Decimal(85)
    bought_least: Decimal = Decimal(120)


@dataclass(frozen=True, slots=True)
class HandworkRules:
    """Minutes of the other work off the roll, and the plate from which a cut edge is called hard."""

    trim_mark_minutes: float = 3.0
    trim_handling_minutes: float = 4.0
    trim_cut_factor: float = 1.5
    support_minutes: float = 6.0
    straighten_minutes: float = 12.0
    template_minutes: float = 20.0
    grind_minutes_per_m: float = 5.0
    hard_edge_yield_mpa: float = 600.0
    own_plate_minutes: float = 10.0
    own_plate_mark_minutes: float = 2.0
    tight_fit_minutes: float = 15.0


@dataclass(frozen=True, slots=True)
class ToleranceRules:
    """What the process holds, as the shop knows it; all examples.

    A diameter within `diameter_share` of itself, and `diameter_share_per_dt` more for each diameter over
    thickness; twice as close with fitting. Within one plate the yield scatters by `plate_scatter` (one
    standard deviation); re-rounding leaves `re_round_leaves` of what was out of round.
    """

    diameter_share: float = 0.002
    diameter_share_per_dt: float = 0.00002
    plate_scatter: float = 0.0175
    re_round_leaves: float = 0.35
    straight_per_length: float = 0.001
    length_mm: float = 1.6


@dataclass(frozen=True, slots=True)
class FreightRules:
    """What the shop's own carriage costs a kg and a cubic metre of the rolled piece's box; 0 is ex works."""

    per_kg: Decimal = Decimal(0)
    per_m3: Decimal = Decimal(0)
    least: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class PressRules:
    """Forming in a press, hit by hit, where a piece is too short for the rolls; the shop's own or bought in.

    The press takes plate of `thickest_mm` over `longest_mm`, both with 250 MPa; the force goes as thickness
    times length times yield when the die is as many thicknesses wide. `least` is for bought work. With
    `offer_cheaper` a customer whose piece is rolled longer and cut hears of the press where that is cheaper.
    """

    here: bool = False
    thickest_mm: float = 19.05
    longest_mm: float = 3048.0
    setup_minutes: float = 25.0
    degrees_per_hit: float = 6.0
    hit_minutes: float = 0.6
    rate_per_hour: Decimal = Decimal(95)
    least: Decimal = Decimal(150)
    offer_cheaper: bool = True


@dataclass(frozen=True, slots=True)
class Operations:
    """All work off the roll, and how close it comes."""

    edges: EdgeRules = EdgeRules()
    welding: WeldRules = WeldRules()
    handwork: HandworkRules = HandworkRules()
    tolerance: ToleranceRules = ToleranceRules()
    freight: FreightRules = FreightRules()
    press: PressRules = PressRules()
