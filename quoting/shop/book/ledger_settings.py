"""`[ledger]` of the shop's book: where the ledger is kept, and what it costs to move a published job."""

from __future__ import annotations

from quoting.shop.book.settings_table import SettingsTable
from quoting.shop.book.tables_of_text import BookTables
from quoting.shop.model import LedgerSettings

KEYS = ("url", "copies_kept", "frozen_hours", "move_cost", "learning_spread", "half_life_days")


def read_ledger_settings(tables: BookTables) -> LedgerSettings:
    """Return `[ledger]` of a book; what is left out takes the default.

    Raises BookError naming everything that is wrong with the table.
    """
    own = tables.data.get("ledger", {})
    findings = tables.findings
    table = SettingsTable(
        own if isinstance(own, dict) else {},
        label="[ledger]",
        path="ledger",
        findings=findings,
        lines=tables.lines,
    )
    if not isinstance(own, dict):
        table.flawed("must be a table with the heading [ledger]")
    usual = LedgerSettings()
    found = LedgerSettings(
        url=table.text("url", default=""),
        copies_kept=table.whole("copies_kept", least=1) if table.has("copies_kept") else usual.copies_kept,
        frozen_hours=table.number("frozen_hours", least=0, most=1000)
        if table.has("frozen_hours")
        else usual.frozen_hours,
        move_cost=table.money("move_cost") if table.has("move_cost") else usual.move_cost,
        learning_spread=table.number("learning_spread", least=0.05, most=1.0)
        if table.has("learning_spread")
        else usual.learning_spread,
        half_life_days=table.number("half_life_days", least=7, most=36_500)
        if table.has("half_life_days")
        else usual.half_life_days,
    )
    table.known.extend(KEYS)
    table.close()
    findings.raise_if_any()
    return found
