"""`[ledger]` of the shop's book: where the ledger is kept, and what it costs to move a published job."""

from __future__ import annotations

from quoting.core import Place
from quoting.shop.book.settings_table import SettingsTable
from quoting.shop.book.toml_lines import line_numbers
from quoting.shop.findings import Findings
from quoting.shop.model import LedgerSettings
from quoting.tables import toml_data

KEYS = ("url", "copies_kept", "frozen_hours", "move_cost")


def read_ledger_settings(text: str, file: str) -> LedgerSettings:
    """Return `[ledger]` of a `shop.toml` text; what is left out takes the default.

    Raises BookError naming everything that is wrong with the table.
    """
    own = toml_data(text, Place(file)).get("ledger", {})
    findings = Findings(file)
    table = SettingsTable(
        own if isinstance(own, dict) else {},
        label="[ledger]",
        path="ledger",
        findings=findings,
        lines=line_numbers(text),
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
    )
    table.known.extend(KEYS)
    table.close()
    findings.raise_if_any()
    return found
