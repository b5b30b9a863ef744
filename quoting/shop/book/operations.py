"""Edges, welding and handwork: one reader a table of the shop's book."""

from __future__ import annotations

from quoting.shop.book.settings_table import SettingsTable
from quoting.shop.model import EdgeRules, FreightRules, HandworkRules, PressRules, ToleranceRules, WeldRules
from quoting.shop.quantities import (
    ANGLE,
    LENGTH,
    MINUTES,
    MINUTES_PER_CUT,
    MINUTES_PER_CUT_THICKNESS,
    MONEY_PER_CUT,
    MONEY_PER_VOLUME,
    MONEY_PER_WEIGHT,
    STRESS,
    WEIGHT_PER_HOUR,
)


def read_edges(table: SettingsTable) -> EdgeRules:
    """Return `[edges]`: what preparing an edge takes."""
    return EdgeRules(
        minutes_per_m=table.quantity("bevel", MINUTES_PER_CUT, least=0.0),
        minutes_per_m_mm=table.quantity("bevel_thicker", MINUTES_PER_CUT_THICKNESS, least=0.0),
        j_cuts=table.number("j_cuts", least=0.0),
        square_cuts=table.number("square_cuts", least=0.0),
        bought=table.flag("bought"),
        bought_per_m=table.money_per("bought", MONEY_PER_CUT),
        machined_allowance_mm=table.quantity("machined_allowance", LENGTH, least=0.0),
    )


def read_welding(table: SettingsTable) -> WeldRules:
    """Return `[welding]`: what a seam takes in the house, or costs bought in."""
    return WeldRules(
        in_house=table.flag("in_house"),
        deposition_kg_hour=table.quantity("deposition", WEIGHT_PER_HOUR, positive=True),
        operating_factor=table.number("operating_factor", least=0.01, most=1.0),
        metal_cost_per_kg=table.money_per("metal_cost", MONEY_PER_WEIGHT),
        fit_up_minutes_per_m=table.quantity("fit_up", MINUTES_PER_CUT, least=0.0),
        square_up_to_mm=table.quantity("square_up_to", LENGTH, least=0.0),
        single_up_to_mm=table.quantity("single_up_to", LENGTH, least=0.0),
        angle_deg=table.quantity("angle", ANGLE, least=0.0),
        face_mm=table.quantity("face", LENGTH, least=0.0),
        cap_mm=table.quantity("cap", LENGTH, least=0.0),
        partial_share=table.number("partial_share", least=0.0, most=1.0),
        seal_leg_mm=table.quantity("seal_leg", LENGTH, least=0.0),
        gouge_minutes_per_m=table.quantity("gouge", MINUTES_PER_CUT, least=0.0),
        gouge_depth_mm=table.quantity("gouge_depth", LENGTH, least=0.0),
        gouge_width_mm=table.quantity("gouge_width", LENGTH, least=0.0),
        re_round_after=table.flag("re_round_after"),
        bought_per_hour=table.money("bought_per_hour"),
        bought_least=table.money("bought_least"),
    )


def read_handwork(table: SettingsTable) -> HandworkRules:
    """Return `[handwork]`: trimming after rolling, support, straightening, templates, grinding, own plate."""
    return HandworkRules(
        trim_mark_minutes=table.quantity("trim_mark", MINUTES, least=0.0),
        trim_handling_minutes=table.quantity("trim_handling", MINUTES, least=0.0),
        trim_cut_factor=table.number("trim_cut_factor", least=1.0),
        support_minutes=table.quantity("support", MINUTES, least=0.0),
        straighten_minutes=table.quantity("straighten", MINUTES, least=0.0),
        template_minutes=table.quantity("template", MINUTES, least=0.0),
        grind_minutes_per_m=table.quantity("grind", MINUTES_PER_CUT, least=0.0),
        hard_edge_yield_mpa=table.quantity("hard_edge_yield", STRESS, positive=True),
        own_plate_minutes=table.quantity("own_plate", MINUTES, least=0.0),
        own_plate_mark_minutes=table.quantity("own_plate_mark", MINUTES, least=0.0),
        tight_fit_minutes=table.quantity("tight_fit", MINUTES, least=0.0),
    )


def read_tolerance(table: SettingsTable) -> ToleranceRules:
    """Return `[tolerance]`: what the process holds."""
    return ToleranceRules(
        diameter_share=table.number("diameter_share", least=0.0, most=1.0),
        diameter_share_per_dt=table.number("diameter_share_per_dt", least=0.0, most=1.0),
        plate_scatter=table.number("plate_scatter", least=0.0, most=1.0),
        re_round_leaves=table.number("re_round_leaves", least=0.0, most=1.0),
        straight_per_length=table.number("straight_per_length", least=0.0, most=1.0),
        length_mm=table.quantity("length", LENGTH, least=0.0),
    )


def read_freight(table: SettingsTable) -> FreightRules:
    """Return `[freight]`: the shop's own carriage, nothing where it is quoted ex works."""
    return FreightRules(
        per_kg=table.money_per("cost", MONEY_PER_WEIGHT),
        per_m3=table.money_per("cost_by_volume", MONEY_PER_VOLUME),
        least=table.money("least"),
    )


def read_press(table: SettingsTable) -> PressRules:
    """Return `[press]`: pieces that are too short for the rolls."""
    return PressRules(
        here=table.flag("here"),
        thickest_mm=table.quantity("thickest", LENGTH, positive=True),
        longest_mm=table.quantity("longest", LENGTH, positive=True),
        setup_minutes=table.quantity("setup", MINUTES, least=0.0),
        degrees_per_hit=table.number("degrees_per_hit", least=0.5, most=90.0),
        hit_minutes=table.quantity("hit", MINUTES, least=0.0),
        rate_per_hour=table.money("rate_per_hour"),
        least=table.money("least"),
        offer_cheaper=table.flag("offer_cheaper"),
    )
