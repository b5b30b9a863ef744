"""The shop's book in its two forms, a commented text and a workbook, both made from one schema."""

from quoting.shop.forms.marks import own_in_text, worked_out_in_text
from quoting.shop.forms.read_workbook import read_workbook
from quoting.shop.forms.records import metric_data, starter_data
from quoting.shop.forms.schema import setting_of, settings
from quoting.shop.forms.write_text import text_of_tables, toml_value
from quoting.shop.forms.write_workbook import write_workbook

__all__ = [
    "metric_data",
    "own_in_text",
    "read_workbook",
    "setting_of",
    "settings",
    "starter_data",
    "text_of_tables",
    "toml_value",
    "worked_out_in_text",
    "write_workbook",
]
