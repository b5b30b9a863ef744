"""What the XML of an .ods says beside its values: hidden rows, error cells, and rows repeated too often."""

from __future__ import annotations

import re

from quoting.tables.limits import Limits
from quoting.tables.package import SMALLER, RefusedError, SheetFacts, whole_attribute

_ODS = re.compile(
    rb"<table:(table-row|table-cell|covered-table-cell|table(?=[\s>/]))\b([^>]*?)(/?)>|</table:(table-row)>|<text:p",
)
_HIDDEN_ODS = (b'visibility="collapse"', b'visibility="filter"')


def ods_facts(data: bytes, limits: Limits) -> list[SheetFacts]:
    """Return the facts of each sheet of an .ods; RefusedError when repeated cells break the limit."""
    sheets: list[SheetFacts] = []
    cells = row = column = used = repeat = 0
    for match in _ODS.finditer(data):
        name, tag = match.group(1), match.group(2) or b""
        if name == b"table":
            sheets.append(SheetFacts())
            cells = row = 0
        elif name == b"table-row":
            column = used = 0
            repeat = whole_attribute(tag, b"number-rows-repeated")
            if sheets and any(word in tag for word in _HIDDEN_ODS):
                sheets[-1].hidden_rows.update(range(row, row + min(repeat, 10_000)))
            row += 0 if match.group(3) != b"/" else repeat
        elif name:
            if b'value-type="error"' in tag and sheets:
                sheets[-1].errors[row, column] = "an error"
            column += whole_attribute(tag, b"number-columns-repeated")
            used = column if b"value-type" in tag else used
        elif match.group(4):
            cells += used * repeat
            row += repeat
            if cells > limits.cells:
                raise RefusedError(f"a sheet fills more than {limits.cells:,} cells", SMALLER)
        else:
            used = max(used, column)
    return sheets
