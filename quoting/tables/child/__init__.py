"""The process that reads files which nobody vouches for, and how it is asked."""

from quoting.tables.child.ask import ask_formulas, ask_sheets, start_reader

__all__ = ["ask_formulas", "ask_sheets", "start_reader"]
