"""What a workbook says beside its values: hidden rows, errors, units, crossed-out cells, comments, boxes."""

from quoting.tables.inside.beside.crossed_out import said_of_struck
from quoting.tables.inside.beside.ods_facts import ods_facts
from quoting.tables.inside.beside.xls_facts import MAGIC, xls_facts
from quoting.tables.inside.beside.xlsx_facts import xlsx_facts

__all__ = ["MAGIC", "ods_facts", "said_of_struck", "xls_facts", "xlsx_facts"]
