"""Minutes, lifting, set-ups, passes, cutting, rates and pricing: one reader a table of the shop's book."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields
from decimal import Decimal

from quoting.shop.book.settings_table import SettingsTable
from quoting.shop.findings import Rule
from quoting.shop.model import (
    Cutting,
    LabourSteps,
    LiftRules,
    PassRules,
    PricingRules,
    Rates,
    RiskSettings,
    SetupMinutes,
    WeightBand,
)
from quoting.shop.quantities import (
    DAYS,
    LENGTH,
    MINUTES,
    MINUTES_PER_CUT,
    MINUTES_PER_LENGTH,
    MONEY_PER_CUT,
    WEIGHT,
)


def read_rates(table: SettingsTable) -> Rates:
    """Return `[rates]`: money per hour."""
    return Rates(
        currency=table.text("currency"),
        operator_hour=table.money("operator_per_hour"),
        helper_hour=table.money("helper_per_hour"),
        setup_hour=table.money("setup_per_hour"),
        crane_hour=table.money("crane_per_hour"),
        outside_markup=table.share("outside_markup"),
        bench_hour=table.money("bench_per_hour"),
        welder_hour=table.money("welder_per_hour"),
    )


def read_labour(table: SettingsTable, bands: Iterable[SettingsTable]) -> LabourSteps:
    """Return `[labour]`: minutes of each step, with its `[[labour.handling]]` weight bands."""
    table.known.append("handling")
    return LabourSteps(
        weight_bands=_handling(table, bands),
        square=table.band("square"),
        pre_bend=table.band("pre_bend"),
        adjust_per_pass=table.band("adjust_per_pass"),
        check=table.band("check"),
        tack=table.band("tack"),
        deburr_and_mark=table.band("deburr_and_mark"),
        re_round=table.band("re_round"),
        cone_factor=table.number("cone_factor", least=1.0),
        learning_rate=table.number("learning_rate", least=0.5, most=1.0),
        learning_floor_piece=table.whole("learning_floor_piece", least=1),
        scrap_chance=table.number("scrap_chance", least=0.0, most=0.99),
        re_roll_chance=table.number("re_roll_chance", least=0.0, most=0.99),
        cutting_minutes_per_m=table.quantity("cutting", MINUTES_PER_CUT, least=0.0),
        cutting_minutes_per_plate=table.quantity("cutting_per_plate", MINUTES, least=0.0),
        shear_minutes_per_stroke=table.quantity("shear_per_stroke", MINUTES, least=0.0),
    )


def _handling(labour: SettingsTable, bands: Iterable[SettingsTable]) -> tuple[WeightBand, ...]:
    read: list[WeightBand] = []
    for table in bands:
        band = WeightBand(
            up_to_kg=table.quantity("up_to", WEIGHT, positive=True),
            load=table.band("load"),
            turn=table.band("turn"),
            unload=table.band("unload"),
        )
        table.close()
        read.append(band)
    if not read:
        labour.findings.problem(labour.where(), "has no [[labour.handling]] table", would_do="add one")
    limits = [band.up_to_kg for band in read]
    if limits != sorted(set(limits)):
        labour.findings.problem(
            labour.where(),
            "the [[labour.handling]] tables must rise in weight",
            would_do="put the lightest first",
        )
    return tuple(read)


def read_lifting(table: SettingsTable) -> LiftRules:
    """Return `[lifting]`: when hands, two people or the crane lift."""
    return LiftRules(
        hand_limit_kg=table.quantity("hand_limit", WEIGHT, positive=True),
        two_person_share=table.number("two_person_share", least=0.0, most=2.0),
        crane_over_thickness_mm=table.quantity("crane_over_thickness", LENGTH, positive=True),
        overhead_support_ratio=table.number("overhead_support_ratio", least=0.0),
        crew_hand=table.whole("crew_hand", least=1, most=20),
        crew_two=table.whole("crew_two", least=1, most=20),
        crew_crane=table.whole("crew_crane", least=1, most=20),
        one_person_longest_mm=table.quantity("one_person_longest", LENGTH, positive=True),
        crane_capacity_kg=table.optional_quantity("crane_capacity", WEIGHT, positive=True),
        door_width_mm=table.optional_quantity("door_width", LENGTH, positive=True),
        door_height_mm=table.optional_quantity("door_height", LENGTH, positive=True),
        gloves=table.text("gloves", "as the shop's own rule says"),
    )


def read_setups(table: SettingsTable) -> SetupMinutes:
    """Return `[setups]`: minutes between two jobs on one roll."""
    minutes = {
        field.name: table.quantity(field.name, MINUTES, least=0.0)
        for field in fields(SetupMinutes)
        if field.name != "gap_per_mm"
    }
    return SetupMinutes(**minutes, gap_per_mm=table.quantity("gap", MINUTES_PER_LENGTH, least=0.0))


def read_passes(table: SettingsTable) -> PassRules:
    """Return `[passes]`: how fast the diameter may come down."""
    rules = PassRules(
        strain_per_pass_first_off=table.number("strain_per_pass_first_off", least=0.0001, most=0.2),
        strain_per_pass_repeat=table.number("strain_per_pass_repeat", least=0.0001, most=0.2),
        least_passes=table.whole("least_passes", least=1, most=100),
        most_passes=table.whole("most_passes", least=1, most=100),
        near_capacity=table.number("near_capacity", least=0.0, most=1.0),
        near_capacity_extra_passes=table.whole("near_capacity_extra_passes", most=100),
        re_rolls_when_re_rounding=table.whole("re_rolls_when_re_rounding", most=100),
        flat_after_pre_bend_t=table.number("flat_after_pre_bend_t", least=0.0),
        cone_split_ratio=table.number("cone_split_ratio", least=0.0, most=1.0),
        spread_flag=table.number("spread_flag", least=0.0),
        springback_flag=table.number("springback_flag", least=0.0),
        spread_per_trial=table.number("spread_per_trial", least=0.001),
        most_trials=table.whole("most_trials"),
        least_bend_share=table.number("least_bend_share", least=0.0),
    )
    if rules.least_passes > rules.most_passes:
        table.wrong("most_passes", "must not be less than least_passes")
    return rules


def read_cutting(table: SettingsTable) -> Cutting:
    """Return `[cutting]`: shear and thermal cutting, allowances, and what a drop is worth keeping."""
    return Cutting(
        shear_up_to_mm=table.quantity("shear_up_to", LENGTH, least=0.0),
        shear_longest_mm=table.quantity("shear_longest", LENGTH, least=0.0),
        shear_least_strip_t=table.number("shear_least_strip_t", least=0.0),
        shear_stages=table.whole("shear_stages", least=2, most=10),
        thermal_kerf_mm=table.quantity("thermal_kerf", LENGTH, least=0.0),
        thermal_spacing_t=table.number("thermal_spacing_t", least=0.0),
        thermal_least_spacing_mm=table.quantity("thermal_least_spacing", LENGTH, least=0.0),
        edge_margin_mm=table.quantity("edge_margin", LENGTH, least=0.0),
        mill_trim_mm=table.quantity("mill_trim", LENGTH, least=0.0),
        cost_per_m=table.money_per("cost", MONEY_PER_CUT),
        cost_per_pierce=table.money("cost_per_pierce"),
        cost_per_stroke=table.money("cost_per_stroke"),
        rate_per_hour=table.money("rate_per_hour"),
        least_drop_width_mm=table.quantity("least_drop_width", LENGTH, least=0.0),
        least_drop_length_mm=table.quantity("least_drop_length", LENGTH, least=0.0),
        drop_value_share=table.share("drop_value_share", most=Decimal(1)),
        drop_keep_cost=table.money("drop_keep_cost"),
        most_remnants=table.whole("most_remnants", most=100_000),
        edge_prep_cost_per_m=table.money_per("edge_prep_cost", MONEY_PER_CUT),
        later_pieces_may_wait=table.flag("later_pieces_may_wait", default=False),
        cut_before_due_days=int(table.quantity("cut_before_due", DAYS, least=0.0)),
        waiting_extra_share=table.share("waiting_extra_share", most=Decimal(1)),
        label_columns=table.whole("label_columns", least=1, most=4),
        label_rows=table.whole("label_rows", least=1, most=12),
        label_each_up_to=table.whole("label_each_up_to", most=100_000),
    )


def read_pricing(table: SettingsTable) -> PricingRules:
    """Return `[pricing]`: how a price grows out of a cost."""
    quantities = table.raw("break_quantities")
    table.note(Rule("counts"), "break_quantities")
    if not _rising_counts(quantities):
        table.wrong(
            "break_quantities", "must be rising whole numbers up to a million", "for example [1, 2, 5, 10]"
        )
        quantities = []
    owner = table.text("drop_owner")
    table.note(Rule("choice", words=("shop", "customer")), "drop_owner")
    if owner not in ("shop", "customer"):
        table.wrong("drop_owner", "must be one of 'shop', 'customer'")
    rules = PricingRules(
        overhead_share=table.share("overhead_share"),
        margin=table.share("margin", most=Decimal("0.95")),
        floor_margin=table.share("floor_margin", most=Decimal("0.95")),
        line_minimum=table.money("line_minimum"),
        order_minimum=table.money("order_minimum"),
        material_markup=table.share("material_markup"),
        drop_owner=owner,
        break_quantities=tuple(quantities),
        rounding=table.money("rounding", most=Decimal(10_000)),
        validity_days=int(table.quantity("validity", DAYS, positive=True)),
        tax_share=table.share("tax_share"),
        tax_name=table.text("tax_name", default=""),
        certificate_charge=table.money("certificate_charge"),
        expedite_share=table.share("expedite_share"),
        **({"ask_above_total": table.money("ask_above_total")} if table.has("ask_above_total") else {}),
    )
    if table.sound and rules.floor_margin > rules.margin:
        table.wrong("floor_margin", "must not be more than margin")
    return rules


def read_risk(table: SettingsTable) -> RiskSettings:
    """Return `[risk]`: when a line is called risky, and how far set-up and plate scatter."""
    return RiskSettings(
        heavy_kg=table.quantity("heavy", WEIGHT, positive=True),
        thin_wide=table.number("thin_wide", least=1.0),
        loss_chance=table.number("loss_chance", least=0.0, most=1.0),
        setup_least_share=table.number("setup_least_share", least=0.0, most=1.0),
        setup_most_share=table.number("setup_most_share", least=1.0),
        thickness_under_mm=table.quantity("thickness_under", LENGTH, least=0.0),
        thickness_over_mm=table.quantity("thickness_over", LENGTH, least=0.0),
        free_issue_owed_share=table.number("free_issue_owed_share", least=0.0, most=1.0),
        draws=table.whole("draws", least=100, most=100_000),
        trouble_weight=table.number("trouble_weight", least=0.0),
        trouble_redo_share=table.number("trouble_redo_share", least=0.0),
        most_trouble_chance=table.number("most_trouble_chance", least=0.0, most=1.0),
    )


def _rising_counts(value: object) -> bool:
    if not isinstance(value, list) or not value:
        return False
    whole = all(isinstance(part, int) and not isinstance(part, bool) and 0 < part <= 10**6 for part in value)
    return whole and value == sorted(set(value))
