"""What holds for a whole table: its units, its number style, and what titles and notes say."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from functools import lru_cache

from quoting.core import Basis, Ends, NumberStyle, SizeError, Unit, parse_measures
from quoting.intake.layout.columns import meaning_of, unit_word
from quoting.intake.layout.find_tables import OrderTable, TableColumn
from quoting.intake.layout.for_all import SaidForAll, facts_in, says_sides_of_some, units_of_sizes
from quoting.intake.layout.heading_grammar import sides_of
from quoting.intake.texts import ends_in, flags_in, gaps_in, sizes_in
from quoting.tables import Sheet, is_empty, text_of

SIZES = frozenset((
    "diameter", "radius", "large", "small", "top", "bottom", "length", "width", "girth",
    "circumference", "height", "slant", "chord", "rise", "arc_length", "thickness", "size", "weld_gap",
))  # fmt: skip
_DIMS = re.compile(r"\b(?:dim(?:ension)?s?|sizes|measurements|units)\b(.{0,40})", re.I)
_MM = re.compile(r"\b(mm|millimet(?:er|re)s?|metric)\b", re.I)
_INCH = re.compile(r"\b(inch(?:es)?|imperial)\b|\bin\s+in\b|[(:=]\s*in\b|\bin\.\s*$", re.I)
_ALL_MM = re.compile(r"\ball (?:in )?(?:mm|millimet\w+|metric)\b|^\W*(?:in )?mm\W*$", re.I)
_ALL_INCH = re.compile(r"\ball (?:\w+ )?in (?:inches|inch)\b|\ball inch(?:es)?\b", re.I)
_BASIS = re.compile(
    r"\b(?:all\s+)?dia(?:m|meter)?s?\.?\s*(?:are|is|given|=|:|shown|to be|as)*"
    r"\s*(inside|outside|mean|i\.?d|o\.?d)\b",
    re.I,
)
_BASIS_FIRST = re.compile(r"\b(inside|outside|i\.?d\.?|o\.?d\.?)\s+(?:dims|dimensions|dia\w*|sizes)\b", re.I)
_ALL_ENDS = re.compile(r"\ball\b.{0,20}\b(ends?|edges|shells|parts|pieces|flats?)\b", re.I)
_ENDS_ALONE = re.compile(
    r"(?:^|[/;.,|–-])\s*(?:\(?\d{1,2}[.)]\s*)?(?:both )?(?:ends?|edges)\s*(?:are|to be|:|=)?\s*"
    r"(?:pre-?\s?bent|pre-?bend|left flat|flat|trimmed)\s*(?:$|[/;.,|–-])",
    re.I,
)
_ANY_ENDS = re.compile(r"\b(?:both ends|ends|flats|edges)\b", re.I)
_SOME_LINE = re.compile(r"\b(?:items?|lines?|pos|marks?|parts?|refs?|only)\b\.?", re.I)
_STANDARD = r"(?:2062|2002|2041|3039|1079|5986|6911|8500|10748|11513)"
"""Indian standards of plate: MATERIAL IS 2062 names one, and is no sentence (from memory)."""
_ALL_MATERIAL = re.compile(
    rf"\b(?:all\s+)?mat(?:eria)?l?s?(?:'l)?\.?\s*(?:(?!IS ?{_STANDARD}\b)is|are|to be|:|=|-)?\s+(.+)", re.I
)
_LINES = re.compile(r"\b(?:items?|lines?|pos\w*|marks?|rows?|parts?)\.?\s*\d", re.I)
"""Lines that a text names: what it says is not said for all."""
_NO_GRADE = re.compile(
    r"(?:(?:to be |with |and |all |new |prime |full |mill |its )*"
    r"(?:certs?|certif\w*|new|mtrs?|traceab\w*|3\.1|3\.2)\b(?!.*[A-Z]\d{2})"
    r"|(?:[^\W\d_]+ ){0,3}(?:by |from )?(?:you|yours|us|ours|sie|ihnen|uns|ustedes|uds?|nosotros|vostr[oa]"
    r"|voi|noi|vocês|voces|nós|vous|nous|jullie|u|ons|państwa|panstwa|er|oss|vás|nás)\b\W*(?:[^\W\d_]+\W*){0,2}$)",
    re.I,
)
"""What a line about material says that is no grade: certs to EN 10204, stellen Sie, by you."""
_UNLESS = re.compile(r"\b(?:unless|u\.?n\.?o\b|except|throughout|where not|if not)\b", re.I)
_CERT = re.compile(r"\b(?:3\.[12]|2\.[12]|(?:EN )?10204)\b")
_SENTENCE = re.compile(r"[.;]\s+(?=[A-Z])")
_DUE = frozenset((
    "delivery required", "delivery", "due", "due date", "required by", "need by", "date required",
    "delivery date", "required date", "need date", "all due", "ship date",
))  # fmt: skip
LABELS = _DUE | frozenset((
    "customer", "company", "from", "client", "firm", "contact", "attn", "attention", "buyer", "reference",
    "ref", "rfq", "rfq no", "inquiry no", "enquiry no", "enquiry", "inquiry", "order no", "po", "po no",
    "project", "job", "date",
    "your ref", "reply to", "message id",
    "our ref", "material", "matl", "grade", "phone", "email", "units", "unit",
))  # fmt: skip
"""Words that head a value beside them, with or without a colon."""
_LEAST_ROUND_MM = 60
"""No plate roll makes so small a round of gauge sheet in millimetres (common practice, no source)."""
_EVERY = re.compile(r"\b(all|every|each|plates?|material)\b", re.I)
_OF_EVERY_ONE = re.compile(
    r"\b(all|every|each|only|alle[ns]?|s[aä]mtliche|tous|toutes|tod[oa]s|tutt[ei]|wszystkie|v[sš]echny|alla)\b"
    r"|全部|所有",
    re.I,
)
"""A side said of every diameter is denied by a cell with another; one said of sizes in general is not."""
_GAP = "gap "
_ENDS_OF_CONES = frozenset(("large", "small", "top", "bottom"))
_FEW_CELLS = 4
"""A row of fewer cells outside a table is one sentence or a label and its value."""
_PAIR = re.compile(r"^\s*([A-Za-z][A-Za-z .#/]{1,30}?)\s*[:=]\s*(.*)$")
_COMMA_DECIMAL = re.compile(r"(?<![\d.,])\d+,(?:\d{1,2}|\d{4,})(?![\d.,])|(?<![\d,])\d{1,3}(?:\.\d{3})+,\d")
_POINT_DECIMAL = re.compile(r"(?<![\d.,])\d*\.(?:\d{1,2}|\d{4,})(?![\d.,])|(?<![\d.])\d{1,3}(?:,\d{3})+\.\d")


_NO_DECIMAL = re.compile(
    r"\b1\.\d{4}\b|\b\d{1,2}\.\d{1,2}\.(?:\d{2,4}\b)?|\b[A-Z]{1,3}\d\.\d{1,2}\b"
    r"|(?<![\d.,xX×] )\b[23]\.[12]\b(?!\s?(?:mm|m\b|cm|\"|in\b|x|×|t\b|kg|thk|dia|lg|long))"
)
"""Steel numbers (1.4571), days (4.12.) and certificates (3.1) tell nothing of the decimal mark."""


@dataclass(slots=True)
class SheetRules:
    """What titles and notes say: pairs such as `Customer: ...`, and rules for all lines.

    A rule that two lines of the sheet state differently (one for each section, say) is no rule for all.
    """

    pairs: dict[str, str] = field(default_factory=dict)
    rules: dict[str, set[str]] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    pinned: bool = False

    def heard(self, rule: str, value: str) -> None:
        """Keep what a line says for all parts."""
        self.rules.setdefault(rule, set()).add(" ".join(value.split()))

    def fill(self, other: SheetRules) -> None:
        """Take what another sheet of the file (a cover) says for all lines, where this one says nothing."""
        for rule, values in other.rules.items():
            self.rules.setdefault(rule, set(values))

    def keep_side_of(self, other: SheetRules) -> None:
        """Take the side of the plate that other rows say, and forget the own."""
        for rule in ("basis", "basis unless noted"):
            kept = other.rules.get(rule)
            self.rules.pop(rule, None)
            if kept:
                self.rules[rule] = kept

    def pin(self, unit: str, basis: Basis | None, material: str) -> None:
        """Take what the shop pinned for this customer where the sheet itself says nothing."""
        self.pinned = bool(basis and "basis" not in self.rules)
        for rule, value in (("unit", unit), ("basis", str(basis or "")), ("material", material)):
            if value and rule not in self.rules:
                self.heard(rule, value)

    @property
    def parts_of_circle(self) -> str:
        """Return the title that speaks of halves or quarters without saying that all lines are some."""
        return next(iter(sorted(self.rules.get("parts of a circle", ()))), "")

    def under(self, facts: SaidForAll) -> SheetRules:
        """Return the rules of a table under a title of its own: its unit and side go before the sheet's."""
        own = {"unit": facts.unit, "basis": str(facts.basis or "")}
        rules = {**self.rules, **{name: {value} for name, value in own.items() if value}}
        return replace(self, rules=rules) if any(own.values()) else self

    def of_metal(self, key: str) -> SheetRules:
        """Return the rules of a table whose headings name a metal; with another of the sheet none is sure."""
        if not key:
            return self
        return replace(self, rules={**self.rules, "material": {*self.rules.get("material", ()), key}})

    def of_units(self, table: OrderTable) -> SheetRules:
        """Return the rules of a table whose head of totals names the units: Total (3 tanks)."""
        fields = {one.meaning.field for one in table.columns}
        named = {facts_in(one.header).sets for one in table.columns if one.meaning.field == "quantity"} - {0}
        if self.sets or len(named) != 1 or "per_unit" not in fields:
            return self
        return replace(self, rules={**self.rules, "sets": {str(named.pop())}})

    def _only(self, rule: str) -> str:
        values = self.rules.get(rule, set())
        return next(iter(values)) if len(values) == 1 else ""

    @property
    def unit(self) -> str:
        """Return the unit of all bare numbers, in or mm, or nothing."""
        return self._only("unit")

    def unit_of(self, name: str) -> str:
        """Return the unit that a note gives to the sizes of one name, in or mm, or nothing."""
        return self._only(f"unit {'diameter' if name in _ENDS_OF_CONES else name}")

    @property
    def in_centimetres(self) -> bool:
        """Return whether sizes of one name are said to be in centimetres: those of others may be too."""
        return any(name.startswith("unit ") and "cm" in units for name, units in self.rules.items())

    def letter(self, header: str) -> str:
        """Return what a note says that a heading of a letter or two stands for, or nothing: G = girth."""
        return self._only(f"letter {header.lower()}") if header else ""

    @property
    def basis(self) -> Basis | None:
        """Return the side all bare diameters are given on."""
        return Basis(self._only("basis")) if self._only("basis") else None

    @property
    def basis_unless_noted(self) -> bool:
        """Return whether a cell that says another side than the note for all lines is meant to hold."""
        return bool(self._only("basis unless noted"))

    @property
    def sets(self) -> int:
        """Return how many sets, tanks or vessels the order is for; 0 when that is not said once."""
        return int(self._only("sets") or 0)

    @property
    def per_set(self) -> bool:
        """Return whether pieces are counted for one set, and not for all."""
        return bool(self._only("per set")) and not self._only("in all")

    @property
    def in_all(self) -> bool:
        """Return whether pieces are counted for all sets."""
        return bool(self._only("in all")) and not self._only("per set")

    @property
    def of_set(self) -> int:
        """Return how many pieces one set is; 0 when that is not said once."""
        return int(self._only("of set") or 0)

    @property
    def of_every(self) -> str:
        """Return how many pieces every line is of that gives no count."""
        return self._only("of every line")

    @property
    def angle(self) -> str:
        """Return the degrees of arc that all lines are said to have."""
        return self._only("angle")

    @property
    def closed(self) -> bool:
        """Return whether all lines are said to be full circles."""
        return bool(self._only("closed"))

    @property
    def set_of_halves(self) -> bool:
        """Return whether the pieces of a set are said to be halves."""
        return bool(self._only("set of halves"))

    @property
    def material(self) -> str:
        """Return the material of all lines that give none."""
        return self._only("material")

    @property
    def material_of_every(self) -> str:
        """Return the grade that every line is said to be of, without an exception."""
        return self._only("material of every line")

    @property
    def certificate(self) -> bool:
        """Return whether all lines are wanted with a certificate."""
        return bool(self._only("certificate"))

    def size(self, name: str) -> str:
        """Return the size of all lines that give none, as written."""
        return self._only(f"size {name}")

    def every(self, name: str) -> bool:
        """Return whether a size is said to hold wherever a row gives no other."""
        return bool(self._only(f"size every {name}"))

    @property
    def due(self) -> str:
        """Return the date of all lines that give none, as written."""
        return self._only("due")

    @property
    def gaps(self) -> dict[str, str]:
        """Return the weld gap of lines that give none, by the metal family it is for; "" is for all."""
        found = {rule.removeprefix(_GAP): self._only(rule) for rule in self.rules if rule.startswith(_GAP)}
        return {family: text for family, text in sorted(found.items(), reverse=True) if text}

    @property
    def ends(self) -> Ends | None:
        """Return the end treatment of all lines that give none."""
        return Ends(self._only("ends")) if self._only("ends") else None


def _basis_of(match: re.Match[str] | None) -> Basis | None:
    sides = {"i": Basis.INSIDE, "o": Basis.OUTSIDE, "m": Basis.MEAN}
    return sides[match.group(1).lower()[0]] if match else None


@lru_cache(maxsize=4096)
def basis_said(heading: str) -> Basis | None:
    """Return the side that a heading or remark says its diameters are given on.

    >>> basis_said("CONES (concentric, inside dims)"), basis_said("CONES")
    (<Basis.INSIDE: 'inside'>, None)
    """
    return _basis_of(_BASIS.search(heading) or _BASIS_FIRST.search(heading))


def takes_rule(text: str) -> bool:
    """Return whether a rule for all lines is taken from a text."""
    found = SheetRules()
    _rules(found, text)
    return bool(found.rules)


def said_in(sheet: Sheet, rows: tuple[int, ...]) -> SheetRules:
    """Return what the rows outside the table say."""
    said = SheetRules()
    for row in rows:
        texts = [text_of(cell) for cell in sheet.rows[row] if not is_empty(cell)]
        for index, text in enumerate(texts):
            pair = _PAIR.match(text)
            plain = _bare_label(text)
            if pair is None and plain in LABELS and index + 1 < len(texts) and index == 0:
                said.pairs.setdefault(plain, texts[index + 1])
                _rule_of_pair(said, plain, texts[index + 1])
            if pair:
                name = _bare_label(pair.group(1))
                following = texts[index + 1] if index + 1 < len(texts) else ""
                value = pair.group(2) or ("" if _PAIR.match(following) else following)
                said.pairs.setdefault(name, value)
                _rule_of_pair(said, name, value)
        _rules(said, " ".join(texts))
        for text in (" ".join(texts),) if len(texts) < _FEW_CELLS else texts:
            _facts(said, text)
    return said


_FOR_ALL = re.compile(
    r"\W+(?:unless\b.*|u\.?n\.?o\b\.?|if not\b.*|\(?(?:for )?(?:all|each|every)\b.*|throughout)\)?$"
)


def _bare_label(text: str) -> str:
    """Return a label without what it says of those it holds for: Material unless noted.

    >>> _bare_label("Material unless noted:"), _bare_label("Material (all parts)"), _bare_label("Due date")
    ('material', 'material', 'due date')
    """
    return _FOR_ALL.sub("", " ".join(text.lower().split()).strip(".:# "))


_LETTER = re.compile(
    r"(?<![\w./-])(?P<letter>[A-Za-z]{1,2}\d?)\s*=\s*(?:the )?"
    r"(?P<means>[^\W\d][^,;.=()]{2,40}(?:\([^()]*\))?)"
)
"""What the letter that heads a column stands for: W = along the axis."""


def _facts(said: SheetRules, text: str) -> None:
    """Take what the words of a title or note say for all lines."""
    for match in _LETTER.finditer(text):
        said.heard(f"letter {match['letter'].lower()}", match["means"])
    facts = facts_in(text)
    own = units_of_sizes(text)
    for name, unit in own.items():
        said.heard(f"unit {name}".strip(), unit)
    if facts.unit and not own:
        said.heard("unit", facts.unit)
    if facts.basis is not None:
        said.heard("basis", str(facts.basis))
        if facts.unless or not _OF_EVERY_ONE.search(text):
            said.heard("basis unless noted", "yes")
    if facts.sets:
        said.heard("sets", str(facts.sets))
    for rule, number in (
        ("of set", facts.of_set),
        ("angle", facts.angle),
        ("of every line", facts.of_every),
    ):
        if number:
            said.heard(rule, str(number))
    flags = (
        ("per set", facts.per_set),
        ("in all", facts.in_all),
        ("set of halves", facts.halves),
        ("closed", facts.closed),
    )
    for rule, holds in flags:
        if holds:
            said.heard(rule, "yes")


def _first_grade(value: str) -> str:
    """Return what stands before words such as unless noted, and before a certificate: S355J2, 3.1."""
    whole = _UNLESS.split(_SENTENCE.split(value)[0])[0].strip(" ,;.(")
    first, comma, rest = whole.partition(",")
    return first if comma and not any(sign.isdecimal() for sign in _CERT.sub("", rest)) else whole


def _rule_of_pair(said: SheetRules, name: str, value: str) -> None:
    if name in ("units", "unit", "dimensions", "dims") and unit_word(value) in ("mm", "in", "cm"):
        said.heard("unit", unit_word(value))
    if (
        name in ("material", "matl", "mat'l", "grade", "materials", "all material")
        and value
        and not _LINES.search(value)
    ):
        said.heard("material", _first_grade(value))
    if name in _DUE and value:
        said.heard("due", value)


def _rules(said: SheetRules, line: str) -> None:
    """Take what one line says for all parts; two lines that say different things say nothing."""
    said.notes.append(line)
    if units_of_sizes(line):
        pass  # one unit for some sizes and another for the rest: heard with their names
    elif match := _DIMS.search(line):
        mm, inch = _MM.search(match.group(1)), _INCH.search(match.group(1))
        if bool(mm) != bool(inch):
            said.heard("unit", "mm" if mm else "in")
    elif (mm := _ALL_MM.search(line)) or _ALL_INCH.search(line):
        said.heard("unit", "mm" if mm else "in")
    alone = _ENDS_ALONE.search(line)
    general = _ALL_ENDS.search(line) or (_ANY_ENDS.search(line) and not _SOME_LINE.search(line))
    if (general or alone) and (ends := ends_in(alone.group() if alone else line)):
        said.heard("ends", str(ends))
    if "certificate" in flags_in(line) and _EVERY.search(line):
        said.heard("certificate", "yes")
    for gap in gaps_in(line):
        said.heard(f"{_GAP}{gap.family or ''}", gap.text)
    if (side := _basis_of(_BASIS.search(line))) and not _of_some(line):
        said.heard("basis", str(side))
        if _UNLESS.search(line) or not _OF_EVERY_ONE.search(line):
            said.heard("basis unless noted", "yes")
    material = line.lower().startswith(("all mat", "material", "mat'l", "matl"))
    match = _ALL_MATERIAL.search(line) if material else None
    if match is None or _NO_GRADE.match(match[1]) or _LINES.search(match[1]):
        return
    if grade := _first_grade(match.group(1)):  # "unless noted" alone goes before its value
        said.heard("material", grade)


def _of_some(line: str) -> bool:
    """Return whether a text that says a side says the other one too, or says it of lines by their number."""
    about = _UNLESS.split(line)[0]
    return len(sides_of(about)) > 1 or says_sides_of_some(line)


_NO_NUMBERS = frozenset(
    ("material", "due", "part_no", "drawing", "number", "revision", "carried", "certificate")
)


def style_of(sheet: Sheet, rows: tuple[int, ...], table: OrderTable | None = None) -> NumberStyle:
    """Return the decimal mark that the texts of these rows show; UNKNOWN when they show both or neither."""
    comma = point = False
    skipped = (
        {column.index for column in table.columns if column.meaning.field in _NO_NUMBERS} if table else set()
    )
    sized = {column.index for column in table.columns if column.meaning.field in SIZES} if table else set()
    for row in rows:
        for index, cell in enumerate(sheet.rows[row]):
            if index in skipped:
                continue
            if isinstance(cell, str) and cell and len(cell) < 60:
                text = _NO_DECIMAL.sub(" ", cell) if "." in cell else cell
                if "." in text and index not in sized and _PAPERS.fullmatch(text):
                    continue
                comma = comma or ("," in text and bool(_COMMA_DECIMAL.search(text)))
                point = point or ("." in text and bool(_POINT_DECIMAL.search(text)))
        if comma and point:
            break
    if comma != point:
        return NumberStyle.COMMA if comma else NumberStyle.POINT
    return NumberStyle.UNKNOWN if comma or table is None else _style_of_lengths(sheet, rows, table)


_PAPERS = re.compile(r"\s*(?:EN ?10204\W*)?[23]\.[12]\s*", re.I)
"""The papers of EN 10204 under any head but that of a size: 3.1."""
_LONG = frozenset(("diameter", "radius", "large", "small", "length", "height", "width", "girth"))
_THOUSANDS = re.compile(r"[1-9]([.,])\d{3}\s?mm\b\.?\s*", re.I)
_METRES = re.compile(r"\d([.,])\d{3}\s?m\b\.?\s*")


def _style_of_lengths(sheet: Sheet, rows: tuple[int, ...], table: OrderTable) -> NumberStyle:
    """Return the decimal mark that three figures behind a sign tell beside a unit: 1,600 mm long, 1.250 m.

    No rolled part is 1.6 mm across or long, and none 1250 m (common practice, no source).
    """
    marks: set[str] = set()
    for column in table.columns:
        if column.meaning.field not in _LONG:
            continue
        for row in rows:
            cell = sheet.rows[row][column.index] if column.index < len(sheet.rows[row]) else ""
            if not isinstance(cell, str):
                continue
            if match := _THOUSANDS.fullmatch(cell):
                marks.add("." if match[1] == "," else ",")
            elif match := _METRES.fullmatch(cell):
                marks.add(match[1])
    if len(marks) != 1:
        return NumberStyle.UNKNOWN
    return NumberStyle.COMMA if marks == {","} else NumberStyle.POINT


def style_of_sizes(sheet: Sheet, rows: tuple[int, ...], table: OrderTable, unit: str) -> NumberStyle:
    """Return the decimal mark with which every size of a table in millimetres can be one: 1,200 across is
    1200 there, and 12.000 under metres 12; UNKNOWN where both marks can be right, or neither. One row alone
    shows no habit, unless the others have whole numbers of hundreds in the same columns, or the one part of a
    data sheet has such beside its commas. Inches are written with a point.
    """
    if not unit or unit == "in":
        return NumberStyle.POINT if unit else NumberStyle.UNKNOWN
    cells = [
        (row, column, text_of(sheet.rows[row][column.index]))
        for column in table.columns
        if column.meaning.field in SIZES
        for row in rows
        if column.index < len(sheet.rows[row])
    ]
    grouped = [(row, column.index) for row, column, text in cells if _GROUP.search(text)]
    whole = {column.index for _, column, text in cells if text.isdecimal() and len(text) > _A_HABIT}
    alone = len({row for row, _ in grouped}) < _A_HABIT and not {at for _, at in grouped} <= whole
    commas = all("." not in text for _, _, text in cells if _GROUP.search(text))
    if not grouped or (alone and not (commas and whole and len(rows) == 1)):
        return NumberStyle.UNKNOWN
    known = [
        (column.meaning.field, _IN_MM[own], text)
        for _, column, text in cells
        if (own := column.meaning.unit or unit) in _IN_MM
    ]
    fitting = [
        style
        for style in (NumberStyle.POINT, NumberStyle.COMMA)
        if all(_can_be(field, factor, text, style) for field, factor, text in known)
    ]
    return fitting[0] if len(fitting) == 1 else NumberStyle.UNKNOWN


_A_HABIT = 2
_GROUP = re.compile(r"(?<![\d.,])\d{1,3}[.,]\d{3}(?![\d.,])")
_IN_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0}
_CAN_BE = {
    "thickness": (0.3, 300.0), "diameter": (60.0, 150_000.0), "large": (60.0, 150_000.0),
    "small": (30.0, 150_000.0), "radius": (30.0, 100_000.0), "length": (15.0, 40_000.0),
    "width": (15.0, 40_000.0), "height": (15.0, 40_000.0), "girth": (150.0, 500_000.0),
}  # fmt: skip
"""What sizes of rolled parts in mm lie between at the very most (common practice, no source)."""


def _can_be(field: str, factor: float, text: str, style: NumberStyle) -> bool:
    """Return whether a cell read with a decimal mark can be its size; one that is no number can."""
    limits = _CAN_BE.get({"top": "small", "bottom": "small"}.get(field, field))
    if limits is None or not any(sign.isdecimal() for sign in text):
        return True
    try:
        sizes = parse_measures(text, style)
    except SizeError:
        return not _GROUP.search(text)
    own = [one.low * (factor if one.unit is None else _IN_MM.get(str(one.unit), 0.0)) for one in sizes]
    return len(own) != 1 or not own[0] or limits[0] <= own[0] <= limits[1]


@dataclass(frozen=True, slots=True)
class UnitFound:
    """The unit of bare numbers (mm, in, or nothing when it must be asked) and what says so."""

    unit: str
    why: str = ""
    sure: bool = True


_IN_FOR_INSIDE = re.compile(r"\s*(?:r|rad(?:ius)?|ø|d|dia(?:m(?:eter)?)?)\.?\s+in\.?\s*", re.I)
"""R in.: the unit in a sheet of inches, the side in one of millimetres."""


def in_for_inside(header: str) -> bool:
    """Return whether the `in` of a heading of something round may be the side and not the unit: R in."""
    return _IN_FOR_INSIDE.fullmatch(header) is not None


def as_inside(table: OrderTable, index: int) -> OrderTable:
    """Return a table with the sizes of one column measured inside, in the unit of the sheet."""
    columns = (
        replace(one, meaning=replace(one.meaning, basis=Basis.INSIDE, unit="")) if one.index == index else one
        for one in table.columns
    )
    return replace(table, columns=tuple(columns))


def as_notes_say(table: OrderTable, said: SheetRules) -> OrderTable:
    """Return a table whose headings of a letter hold what a note says they do, and whose columns without a
    unit have the one that a note gives to their sizes.
    """
    columns: list[TableColumn] = []
    for column in table.columns:
        meaning = column.meaning
        in_mm = said.unit in ("mm", "cm") and meaning.unit == "in" and meaning.basis is None
        if in_mm and in_for_inside(column.header):
            meaning = replace(meaning, basis=Basis.INSIDE, unit="")
        bare = _UNIT_BEHIND.sub("", column.header.strip())
        if not meaning.field and (means := said.letter(bare)):
            told = meaning_of(_BRACKET.sub("", means).strip())
            unit = unit_word(column.header.strip().removeprefix(bare).strip(" ()[]"))
            meaning = replace(told, unit=unit or told.unit) if told.field else meaning
        if not meaning.unit and (unit := said.unit_of(meaning.field)):
            meaning = replace(meaning, unit=unit)
        columns.append(replace(column, meaning=meaning))
    return replace(table, columns=tuple(columns))


_UNIT_BEHIND = re.compile(r"\s*[(\[]?\s*(?:mm|cm|in|ft|m|\")\s*[)\]]?$", re.I)
_BRACKET = re.compile(r"\s*\([^()]*\)")


def unit_found(
    sheet: Sheet, table: OrderTable, said: SheetRules, style: NumberStyle, hinted: tuple[str, str]
) -> UnitFound:
    """Return the unit of numbers that carry none: from notes, headers, marked cells, impossible sizes."""
    if said.unit:
        return UnitFound(said.unit, "the sheet says so")
    if said.in_centimetres:
        return UnitFound("")
    headers = {
        "in" if column.meaning.unit in ("in", "ft") else "mm"
        for column in table.columns
        if column.meaning.field in SIZES and column.meaning.unit in ("in", "ft", "mm", "cm", "m")
    }
    if len(headers) == 1:
        return UnitFound(headers.pop(), "other columns say so")
    if len(headers) == 2:
        return UnitFound("")
    if marks := _marked(sheet, table, style):
        return _unit_of_marks(sheet, table, marks)
    found = _plausible(sheet, table)
    plate = _unit_of_plate(said.size("thickness"))
    told = hinted[0] and not (plate.unit and hinted[1] == BY_LANGUAGE)
    hint = UnitFound(hinted[0], hinted[1], sure=False) if told else plate
    return found if found.unit else hint


BY_LANGUAGE = "the sheet's language"
"""What tells a unit where nothing better does."""


def _unit_of_plate(thick: str) -> UnitFound:
    """Return the unit of a thickness that a sheet gives all lines, where nothing else tells one: 3/8."""
    inch = _FRACTION_OR_INCH.search(thick) is not None
    metric = _MILLIMETRES.search(thick) is not None
    if inch == metric:
        return UnitFound("")
    return UnitFound("in" if inch else "mm", f"the plate of all lines is {thick}", sure=False)


_FRACTION_OR_INCH = re.compile(r"\d/(?:2|4|8|16|32|64)\b|\d\s?(?:\"|in\b|inch)|(?<![\d.,])[.]\d", re.I)
_MILLIMETRES = re.compile(r"\d\s?mm\b", re.I)


def _marked(sheet: Sheet, table: OrderTable, style: NumberStyle) -> set[str]:
    """Return the systems (in, mm) that the writing of single cells shows."""
    marks: set[str] = set()
    indexes = [column.index for column in table.columns if column.meaning.field in SIZES]
    prose = (
        [] if indexes else [column.index for column in table.columns if column.meaning.field == "description"]
    )
    for row in table.rows:
        cells = sheet.rows[row]
        for index in (*indexes, *prose):
            cell = cells[index] if index < len(cells) else ""
            if not isinstance(cell, str) or not cell or len(cell) > 60:
                continue
            try:
                sizes = sizes_in(cell) if prose else parse_measures(cell, style)
            except SizeError:
                continue
            marks.update("in" for size in sizes if size.inch_like and size.unit is not Unit.NPS)
            marks.update("mm" for size in sizes if size.metric_like)
        if len(marks) == 2:
            break
    return marks


def _unit_of_marks(sheet: Sheet, table: OrderTable, marks: set[str]) -> UnitFound:
    """Return the unit that the marks of single cells tell of bare numbers, nothing where there are two."""
    if marks == {"in"} and (
        large := _too_large_for_inches(sheet, table)
        or _grouped(sheet, table)
        or _large_in_lines(sheet, table)
    ):
        return UnitFound("mm", f"a diameter of {large:g} can only be millimetres", sure=False)
    return UnitFound(next(iter(marks)), "marked sizes in the sheet") if len(marks) == 1 else UnitFound("")


_LARGEST_INCHES = 400


def _large_in_lines(sheet: Sheet, table: OrderTable) -> float:
    """Return the largest bare number of lines of parts that bear no mark of inches and cannot be of inches;
    0 where there are fewer than two such lines, or others: 1450 x 1000 x 3 above a 2" ferrule.
    """
    if [column.meaning.field for column in table.columns] != ["description"]:
        return 0.0
    texts = (text_of(sheet.rows[row][0]) for row in table.parts or () if sheet.rows[row])
    lines = [[float(one) for one in _BARE.findall(text)] for text in texts if not _OF_INCHES.search(text)]
    lines = [sorted(line, reverse=True) for line in lines if len(line) >= _OF_A_PART]
    metric = [line for line in lines if line[0] > _LARGEST_INCHES and line[1] > _LARGE]
    return max(line[0] for line in metric) if len(metric) == len(lines) > 1 else 0.0


_BARE = re.compile(r"(?<![\w.,/-])\d+(?:\.\d+)?(?![\w.,/-])")
_OF_INCHES = re.compile(r"\d\s?(?:\"|''|in\b|inch)|\d/\d")
_OF_A_PART, _LARGE = 3, 100


def _too_large_for_inches(sheet: Sheet, table: OrderTable) -> float:
    """Return the largest bare diameter where all of them are too large for inches, though walls are marked as
    such: 3/8" beside 1524.
    """
    round_ = _numbers(sheet, table, ("diameter", "large", "small"))
    return max(round_) if round_ and min(round_) > _LARGEST_INCHES else 0.0


_PLATES = 5


def _grouped(sheet: Sheet, table: OrderTable) -> float:
    """Return the largest diameter of cells that are thousands and no inches: 1.016 is no diameter of a plate
    of 5/8"; 0 where any of them can be inches.
    """
    round_ = [column for column in table.columns if column.meaning.field in ("diameter", "large", "small")]
    rows = (sheet.rows[row] for row in table.rows)
    texts = [text_of(row[column.index]) for row in rows for column in round_ if column.index < len(row)]
    texts = [text for text in texts if text]
    grouped = [text for text in texts if _GROUP.fullmatch(text)]
    if not grouped or not all(text in grouped or text.isdecimal() for text in texts):
        return 0.0
    thick = _walls(sheet, table)
    plain = [float(text.replace(",", ".")) for text in grouped]
    if not thick or max(plain) > _PLATES * min(thick):
        return 0.0
    return max(plain) * 1000


def _walls(sheet: Sheet, table: OrderTable) -> list[float]:
    """Return the thicknesses of a table in inches, all of which are marked as such."""
    indexes = [column.index for column in table.columns if column.meaning.field == "thickness"]
    found = []
    for row in table.rows:
        for index in indexes:
            text = text_of(sheet.rows[row][index]) if index < len(sheet.rows[row]) else ""
            try:
                found += [size.low for size in parse_measures(text) if size.inch_like] if text else []
            except SizeError:
                continue
    return found


def _plausible(sheet: Sheet, table: OrderTable) -> UnitFound:
    """Return the one unit in which every bare thickness and diameter can be a rolled part.

    Plate under 0.8 mm is not rolled on a plate roll, and no roll makes 400 in across: so a thickness below
    0.8 says inches, and a diameter above 400 says millimetres (common practice, no source).
    """
    thick = _numbers(sheet, table, ("thickness",))
    round_ = _numbers(sheet, table, ("diameter", "large", "radius", "small"))
    if not thick:
        gauged = any(column.meaning.field == "gauge" for column in table.columns)
        small = gauged and bool(round_) and min(round_) < _LEAST_ROUND_MM and max(round_) <= 400
        why = f"a diameter of {min(round_):g} can only be inches" if small else ""
        return UnitFound("in" if small else "", why, sure=not small)
    inch = min(thick) < 0.8 and max(thick) <= 6 and (not round_ or max(round_) <= 400)
    metric = min(thick) >= 0.8 and bool(round_) and max(round_) > 400
    if inch:
        return UnitFound("in", f"a thickness of {min(thick):g} can only be inches", sure=False)
    if metric:
        return UnitFound("mm", f"a diameter of {max(round_):g} can only be millimetres", sure=False)
    return UnitFound("")


def _numbers(sheet: Sheet, table: OrderTable, fields: tuple[str, ...]) -> list[float]:
    indexes = [column.index for column in table.columns if column.meaning.field in fields]
    found = []
    for row in table.rows:
        for index in indexes:
            cell = sheet.rows[row][index] if index < len(sheet.rows[row]) else ""
            if isinstance(cell, str):
                try:
                    found += [size.low for size in parse_measures(cell) if size.unit is None] if cell else []
                except SizeError:
                    continue
            elif isinstance(cell, (int, float)) and not isinstance(cell, bool) and cell > 0:
                found.append(float(cell))
    return found
