"""Rows of a bill that are a charge and no part: freight, packing, a certificate's fee."""

from __future__ import annotations

import re

from quoting.intake import shapes
from quoting.intake.row_record import Record

_CHARGE = (
    r"(?:freight|carriage|haulage|transport(?:ation)?|shipping|delivery|postage|packing|packaging|crating"
    r"|palleti[sz](?:ing|ation)|handling|insurance|discount|minimum charge|small order charge"
    r"|(?:fuel )?surcharge|customs|duty|tax|vat|mehrwertsteuer|porto|versand|fracht)"
)
_ONLY = re.compile(
    rf"\W*(?:(?:prepaid?|add|extra|at cost|inbound|outbound|total|sea|air|road|estimated|est)\W+)*{_CHARGE}"
    rf"(?:\W+(?:and|&|plus|/)\W*{_CHARGE})*"
    r"(?:\W+(?:charges?|costs?|fees?|allowance|extra|at cost|included|prepaid?|and add|lump sum"
    r"|to (?:the )?(?:job ?)?site|to (?:our|your) (?:dock|works|shop|yard)))*\W*",
    re.I,
)
_SIZED = ("thickness", "gauge", "schedule", "material", "drawing", *shapes.SIZES)


def leave_out_charges(record: Record) -> None:
    """Leave out a row whose description is a charge and no more, and that gives no size, plate or drawing."""
    values = record.values
    said = values.get("description", "").split("; ")[0]
    if not _ONLY.fullmatch(said) or any(values.get(name) for name in _SIZED):
        return
    if set(record.doubts) & {*_SIZED, "size", "number_ok"}:
        return
    values.setdefault("left_out", f'the sheet says "{said}"')
