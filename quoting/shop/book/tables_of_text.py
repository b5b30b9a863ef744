"""A shop's book as tables, whatever it was written in: settings by name, and where each of them stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from quoting.core import Place
from quoting.shop.book.toml_lines import line_numbers
from quoting.shop.findings import Findings
from quoting.tables import toml_data


@dataclass(frozen=True, slots=True)
class BookTables:
    """The tables of one book; `lines` holds the line, or the sheet and cell, of each (table, setting).

    `worked_out` names the settings that the book marks as worked out from others.
    """

    data: dict[str, Any]
    lines: Mapping[tuple[str, str], int | str]
    findings: Findings
    worked_out: frozenset[str] = frozenset()


def tables_of_text(text: str, file: str) -> BookTables:
    """Return the tables of a `shop.toml` text; InputError when it is no TOML."""
    return BookTables(toml_data(text, Place(file)), line_numbers(text), Findings(file))
