"""The three invented customers' sheets, as rows of cells exactly as such customers would type them."""

from __future__ import annotations

from datetime import date
from typing import TypeAlias

Cell: TypeAlias = str | float | int | date | None
Row: TypeAlias = tuple[Cell, ...]


def _dec(day: int) -> date:
    return date(2026, 12, day)


TIDY_HEADINGS: Row = (
    "Line",
    "Part no.",
    "Rev",
    "Description",
    "Shape",
    "Qty",
    "Qty breaks",
    "Diameter (in)",
    "ID / OD",
    "Angle (deg)",
    "Small dia (in)",
    "Length (in)",
    "Thickness (in)",
    "Material",
    "Ends",
    "Weld gap (in)",
    "Re-round",
    "Cert",
    "Need by",
    "Remarks",
)

_NO: Row = (None,)


def _tidy(
    line: int,
    part: str,
    description: str,
    shape: str,
    qty: int,
    size: Row,
    material: Row,
    due: date,
    extra: Row,
) -> Row:
    """Return a row of the tidy sheet.

    `size` is diameter, basis, angle, small diameter, length; `material` is thickness, grade, ends; `extra` is
    quantity breaks, weld gap, re-round, certificate, remark.
    """
    diameter, basis, angle, small, length = size
    thickness, grade, ends = material
    breaks, gap, re_round, cert, remark = extra
    return (
        line, part, "A", description, shape, qty, breaks, diameter, basis, angle, small, length,
        thickness, grade, ends, gap, re_round, cert, due, remark,
    )  # fmt: skip


_PLAIN: Row = (None, 0.125, "no", "no", None)
_CERT: Row = (None, 0.125, "yes", "yes", None)
_FLAT_OK: Row = (None, None, "no", "no", None)

TIDY: tuple[Row, ...] = (
    _tidy(1, "ETW-1001", "Day tank shell", "cylinder", 4, (24, "OD", None, None, 48), (0.25, "A36",
        "pre-bend"), _dec(9), ("1, 10, 25", 0.125, "no", "no", None)),
    _tidy(2, "ETW-1002", "Day tank shell, large", "cylinder", 2, (36, "OD", None, None, 60), (0.25, "A36",
        "pre-bend"), _dec(9), _PLAIN),
    _tidy(3, "ETW-1010", "Storage tank course", "cylinder", 2, (48, "ID", None, None, 96), (0.375, "A36",
        "pre-bend"), _dec(14), _PLAIN),
    _tidy(4, "ETW-2001", "Receiver shell", "cylinder", 2, (60, "ID", None, None, 72), (0.375, "SA-516-70",
        "pre-bend"), _dec(16), _CERT),
    _tidy(5, "ETW-2002", "Receiver shell, heavy", "cylinder", 1, (72, "ID", None, None, 96), (0.5,
        "SA-516-70", "pre-bend"), _dec(18), _CERT),
    _tidy(6, "ETW-2003", "Boot shell", "cylinder", 1, (42, "OD", None, None, 48), (0.5, "SA-516-70",
        "pre-bend"), _dec(18), _CERT),
    _tidy(7, "ETW-2010", "Manway neck 24", "cylinder", 4, (24, "ID", None, None, 12), (0.5, "SA-516-70",
        "pre-bend"), _dec(16), ("1, 8", 0.125, "no", "yes", None)),
    _tidy(8, "ETW-2011", "Manway neck 20", "cylinder", 6, (20, "ID", None, None, 10), (0.375, "A36",
        "pre-bend"), _dec(11), _PLAIN),
    _tidy(9, "ETW-2012", "Nozzle sleeve", "cylinder", 6, (18, "OD", None, None, 12), (0.375, "A36",
        "pre-bend"), _dec(11), _PLAIN),
    _tidy(10, "ETW-3001", "Trough half", "half shell", 2, (48, "ID", 180, None, 60), (0.25, "A36",
        "pre-bend"), _dec(10), _FLAT_OK),
    _tidy(11, "ETW-3002", "Saddle pad", "arc", 8, (73, "ID", 120, None, 10), (0.375, "A36", "leave flat"),
        _dec(15), _FLAT_OK),
    _tidy(12, "ETW-3003", "Saddle pad, small", "arc", 4, (48.5, "ID", 120, None, 8), (0.375, "A36",
        "leave flat"), _dec(15), _FLAT_OK),
    _tidy(13, "ETW-4001", "Wash tank shell", "cylinder", 2, (30, "OD", None, None, 58), (0.1875, "304L",
        "pre-bend"), _dec(14), (None, 0.0625, "no", "yes", "Clean rolls, stainless only gear")),
    _tidy(14, "ETW-4002", "Filter can", "cylinder", 3, (18, "OD", None, None, 36), (0.125, "304L",
        "pre-bend"), _dec(14), (None, 0.0625, "no", "no", None)),
    _tidy(15, "ETW-5001", "Hopper cone", "cone", 1, (48, "ID", None, 24, 24), (0.25, "A36", "leave flat"),
        _dec(17), (None, 0.125, "no", "no", "Length is the height along the axis")),
    _tidy(16, "ETW-6001", "Skirt", "cylinder", 1, (60, "OD", None, None, 36), (0.5, "A36", "pre-bend"),
        _dec(21), _PLAIN),
    _tidy(17, "ETW-6002", "Stack section", "cylinder", 2, (54, "OD", None, None, 84), (0.25, "A572-50",
        "pre-bend"), _dec(21), _PLAIN),
    _tidy(18, "ETW-4003", "Jacket shell", "cylinder", 1, (50, "ID", None, None, 56), (0.1875, "304L",
        "trim after rolling"), _dec(22), (None, 0.0625, "yes", "yes", None)),
    _tidy(19, "ETW-6003", "Sump", "cylinder", 2, (30, "ID", None, None, 24), (0.25, "A36", "pre-bend"),
        _dec(10), _PLAIN),
    _tidy(20, "ETW-6004", "Chimney base", "cylinder", 2, (40, "OD", None, None, 58), (0.1875, "A36",
        "pre-bend"), _dec(22), _PLAIN),
    _tidy(21, "ETW-2020", "Reactor shell", "cylinder", 1, (66, "ID", None, None, 84), (1.0, "SA-516-70",
        "pre-bend"), _dec(23), (None, 0.125, "yes", "yes", "As rolled, before heat treatment")),
)  # fmt: skip

METRIC_HEADINGS: Row = (
    "Pos",
    "Drawing",
    "Description",
    "Qty",
    "Inside dia mm",
    "Outside dia mm",
    "Inside radius mm",
    "Angle deg",
    "Chord mm",
    "Rise mm",
    "Small inside dia mm",
    "Width mm",
    "Thk mm",
    "Material",
    "Pre-bend",
    "Cert",
    "Delivery",
    "Remarks",
)

METRIC: tuple[Row, ...] = (
    (10, "MB-110", "Shell, buffer tank", 2, 1200, None, None, None, None, None, None, 1500, 8, "S235JR",
        "yes", "no", _dec(16), None),
    (20, "MB-111", "Shell, pressure vessel", 1, 1600, None, None, None, None, None, None, 1500, 10,
        "P265GH", "yes", "yes", _dec(18), "weld gap 2 mm"),
    (30, "MB-112", "Pipe section", 4, None, 610, None, None, None, None, None, 1000, 6, "S235JR", "yes",
        "no", _dec(11), None),
    (40, "MB-113", "Pipe section, heavy", 4, None, 508, None, None, None, None, None, 500, 8, "S355J2+N",
        "yes", "yes", _dec(15), None),
    (50, "MB-114", "Manhole neck", 3, 500, None, None, None, None, None, None, 300, 10, "P265GH", "yes",
        "yes", _dec(18), None),
    (60, "MB-120", "Half shell", 2, 900, None, None, 180, None, None, None, 1200, 6, "S235JR", "yes",
        "no", _dec(14), None),
    (70, "MB-121", "Segment", 6, None, None, 1000, 90, None, None, None, 500, 8, "S355J2+N", "no", "no",
        _dec(14), "flats accepted"),
    (80, "MB-122", "Cone", 1, 1200, None, None, None, None, None, 600, 600, 6, "S235JR", "no", "no",
        _dec(17), "width is the height along the axis"),
    (90, "MB-130", "Shell, stainless", 2, 800, None, None, None, None, None, None, 1250, 4, "1.4301",
        "yes", "yes", _dec(15), None),
    (100, "MB-131", "Filter body", 2, None, "406,4", None, None, None, None, None, 750, 5, "1.4404",
        "yes", "yes", _dec(21), None),
    (110, "MB-132", "Shell, stainless", 1, 1000, None, None, None, None, None, None, 1200, 5, "1.4301",
        "yes", "no", _dec(21), None),
    (120, "MB-123", "Cover segment", 3, None, None, None, None, 1400, 350, None, 600, 6, "S235JR", "no",
        "no", _dec(14), "chord and rise on the inside"),
    (130, "MB-115", "Support ring", 1, 1000, None, None, None, None, None, None, 800, 12, "S355J2+N",
        "yes", "no", _dec(22), None),
    (140, "MB-140", "Guard", 3, None, 750, None, None, None, None, None, 600, 3, "S235JR", "no", "no",
        _dec(10), None),
)  # fmt: skip

MESSY_HEADINGS: Row = ("Item", "Qty", "Descr.", "Dia", "THK", "Long", "Mat'l", "Need", "Notes")

# 4 January is what a spreadsheet program makes of a typed 1/4.
_ONE_QUARTER_AS_DATE = date(2026, 1, 4)

MESSY: tuple[Row, ...] = (
    (1, 2, "tank shell", '36" O.D.', "1/4", "5'-0\"", "A36", _dec(11), "pre-bend ends"),
    (2, 1, "tank shell", "48 ID", '3/8"', "8'-0", "A-36", "12/14/2026", None),
    (3, 3, "sleeve", "24 dia", '1/4"', 36, "A36", _dec(11), None),
    (4, 2, "shell", '30" OD', _ONE_QUARTER_AS_DATE, 48, "A36", _dec(14), None),
    (5, 4, "duct section", '24" ID', "16 ga galv", 48, "galv", _dec(8), "no prebend, lap seam by us"),
    (6, 6, "duct section", "18 ID", "18 ga", "4'-0\"", "galvanized", _dec(8), "no prebend"),
    (7, 2, "duct section", "20 ID", "14 ga", 48, None, _dec(8), "no prebend"),
    (None, None, None, None, None, None, None, None, None),
    (8, 2, "SS tank shell", "36 OD", "3/16", 48, "304", _dec(15), "mill finish out"),
    (9, 1, "SS shell", '42-1/2" ID', "1/4", "5'-6 1/2\"", "316L", _dec(22), "MTRs req'd"),
    (10, 2, "SS hopper band", "30 ID", "11 ga", 18, "304L", _dec(15), None),
    (11, 1, "cone, see sketch", "30 ID to 14 ID", "3/16", '18" high', "A36", _dec(17), "2 halves OK"),
    (12, 4, "arc segment", '48" R inside x 60 deg', "3/8", 12, "A36", _dec(16), "leave flats"),
    (13, 2, "half round liner", "40 ID half", ".375", "4'", "AR400", _dec(18), None),
    (14, 1, "caisson", "120 OD", '1-1/4"', "10'-0\"", "A36", _dec(23), "one piece please"),
    (15, "six", "pipe sleeve", '24" pipe', ".375", "2'", "A36", "ASAP", None),
    (16, 2, "shroud", "28 OD", ".125", 40, "5052", _dec(21), None),
    (1, 2, "tank shell", '36" O.D.', "1/4", "5'-0\"", "A36", _dec(11), "pre-bend ends"),
    (17, 2, "liner, to suit existing shell", "22 OD", "10 ga", "to suit", "A1011", _dec(21), None),
)
