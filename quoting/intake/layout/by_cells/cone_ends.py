"""The two ends of cones that stand in two columns."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import permutations

from quoting.intake.layout.by_cells.cells_below import texts_under, without_side
from quoting.intake.layout.by_cells.counting import A_PAIR
from quoting.intake.layout.by_cells.names import BLANK
from quoting.intake.layout.columns import Meaning, meaning_of
from quoting.intake.layout.find_tables import OrderTable, TableColumn
from quoting.intake.layout.heading_grammar import is_word
from quoting.intake.words import folded
from quoting.tables import Sheet, is_empty


def with_cone_ends(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with two columns of diameters on one side of the plate taken for the ends of cones.

    Only where the first is never the smaller, or never the larger: Dia A, Dia B. Where the heads do not tell
    them apart as two ends do, the sheet must speak of cones: beside ID, Manway ID is none.
    """
    table = _with_sides_of_ends(table)
    told = _beside_ends(table)
    if told and _by_size(table, told, cones=_names_cones(sheet)):
        named = (replace(one, meaning=told.get(one.index, one.meaning)) for one in table.columns)
        if ended := _ends_taken(sheet, replace(table, columns=tuple(named)), _LEAST_STEP):
            return ended
    elif told:  # the one that is known would be taken, and the other passed over
        open_ = (replace(one, meaning=Meaning()) if one.index in told else one for one in table.columns)
        return replace(table, columns=tuple(open_))
    return _ends_taken(sheet, table, 0.0) or table


_LEAST_STEP = 0.02
"""Max ID and Min ID that are closer than this share of them are limits of one diameter."""

_LIMITS = frozenset(("max", "min", "mini", "maxi"))
_PASSED = frozenset(("in", "out", "from", "to", "start", "first", "second", "a", "b", "c", "i", "ii"))


def _beside_ends(table: OrderTable) -> dict[int, Meaning]:
    """Return the columns that are a diameter beside the word of an end, and what they mean without it.

    Only where there are two of them and no third column of a diameter.
    """
    apart = _END_WORDS - _PASSED
    told: dict[int, Meaning] = {}
    for column in table.columns:
        words = _words_of(column)
        kept = [word for word in words if word not in apart]
        if column.meaning.field not in ("", "diameter", *_ENDS) or len(kept) == len(words) or not kept:
            continue
        core = meaning_of(" ".join(kept))
        if core.field == "diameter":
            basis = column.meaning.basis or core.basis
            told[column.index] = replace(core, basis=basis, unit=column.meaning.unit or core.unit)
    round_ = {one.index for one in table.columns if one.meaning.field in ("diameter", *_ENDS)}
    known = round_ >= told.keys()
    return {} if len(told) != A_PAIR or round_ - told.keys() or known else told


def _with_sides_of_ends(table: OrderTable) -> OrderTable:
    """Return the table with the side that the heads of both ends name beside the word of each: Di mayor."""
    ends = [one for one in table.columns if one.meaning.field in _ENDS]
    if len(ends) != A_PAIR or any(one.meaning.basis for one in ends):
        return table
    cores = [meaning_of(" ".join(word for word in _words_of(one) if word not in _END_WORDS)) for one in ends]
    sides = {core.basis if core.field == "diameter" else None for core in cores}
    side = sides.pop() if len(sides) == 1 else None
    if side is None:
        return table
    columns = (
        replace(one, meaning=replace(one.meaning, basis=side)) if one in ends else one
        for one in table.columns
    )
    return replace(table, columns=tuple(columns))


def _by_size(table: OrderTable, told: dict[int, Meaning], *, cones: bool) -> bool:
    """Return whether one of two heads is that of the large end and the other that of the small one.

    The largest and the smallest diameter are so only where the sheet names cones: they may be limits.
    """
    heads = [{*_words_of(column)} for column in table.columns if column.index in told]
    if not cones and all(_LIMITS & words for words in heads):
        return False
    return any(heads[0] & one and heads[1] & other for one, other in permutations(_OTHER_END.values()))


def _words_of(column: TableColumn) -> list[str]:
    return re.findall(r"[^\W\d_]+|\d", folded(column.header).lower())


def _ends_taken(sheet: Sheet, table: OrderTable, least: float) -> OrderTable | None:
    """Return the table with its pair of diameters as the ends of cones; None where they are no such pair."""
    pair = [column for column in table.columns if column.meaning.field == "diameter"]
    named = [column for column in table.columns if column.meaning.field in _ENDS]
    if len(pair) == len(named) == 1:  # Top ID, Outlet ID: the other end
        pair = [column for column in table.columns if column in (*pair, *named)]
        named = []
    alike = len({(column.meaning.basis, column.meaning.unit) for column in pair}) == 1
    if len(pair) != A_PAIR or not alike or named or not (_are_ends(pair) or _names_cones(sheet)):
        return None
    steps = _steps(*(texts_under(sheet, table, column) for column in pair), least=least)
    if not (all(step >= 0 for step in steps) or all(step <= 0 for step in steps)) or not any(steps):
        return None
    names = ("large", "small") if max(steps) > 0 else ("small", "large")
    if any(_OTHER_END[name] & {*_words_of(column)} for name, column in zip(names, pair, strict=True)):
        return None  # the small end is the larger
    fields = dict(zip((column.index for column in pair), names, strict=True))
    return replace(
        table,
        columns=tuple(
            replace(
                column, meaning=replace(column.meaning, field=fields.get(column.index, column.meaning.field))
            )
            for column in table.columns
        ),
    )


_END_WORDS = frozenset((
    "a", "b", "c", "i", "ii", "o", "u", "top", "bottom", "btm", "base", "upper", "lower", "inlet",
    "outlet", "in", "out", "first", "second", "st", "nd", "one", "other", "start", "end", "ends",
    "from", "to", "large", "small", "big", "little", "max", "min", "major", "minor", "open", "closed",
    "left", "right", "front", "back", "height", "oben", "unten", "haut", "bas", "grand", "petit",
    "mayor", "menor", "sup", "inf", "alto", "basso", "mini", "maxi", "magg", "maggiore", "minore",
    "gross", "grosser", "gr", "klein", "kl", "kleiner", "groot", "grote", "kleine", "velky", "maly",
    "velka", "mala", "stor", "liten", "lille", "duza", "duzy", "wieksza", "mniejsza", "maior", "grande",
    "chico", "chica", "pequeno", "pequena", "piccolo", "mare", "mic", "nagy", "kis", "buyuk", "kucuk",
    "большой", "малый", "большего", "меньшего", "sml", "lge", "lrg", "testa", "topo", "pt",
    "顶部", "底部", "顶", "底", "dol", "gora", "dolny", "dolna", "gorny", "gorna", "dole", "nahore", "spodni",
    "horni", "dolni", "spodny", "horny", "gore", "donji", "gornji", "bund", "topp", "bunn", "botten",
    "nere", "uppe", "nedre", "ovre", "unterer", "oberer", "untere", "obere", "unteres", "oberes",
    "fuss", "kopf", "inferior", "superior", "inferiore", "superiore", "arriba", "abajo", "cima",
    "baixo", "sommet", "onder", "boven", "ala", "yla", "also", "felso", "jos", "sus", "alt", "ust",
    "низ", "верх", "внизу", "вверху", "верхний", "нижний", "下口", "上口", "下端", "上端", "下", "上",
    "gd", "pd",
    "entree", "sortie", "entrada", "salida", "saida", "ingresso", "uscita", "eintritt", "austritt",
    "einlass", "auslass",
))  # fmt: skip


def _steps(first: list[str], second: list[str], *, least: float) -> list[float]:
    """Return how much larger each size of a column is than that of another beside it; nothing where they are
    no sizes, or none is so much larger or smaller.
    """
    pairs = zip(map(without_side, first), map(without_side, second), strict=False)
    both = [(one, two) for one, two in pairs if one and two and not BLANK & {one.lower(), two.lower()}]
    sizes = [(_PLAIN_SIZE.fullmatch(one), _PLAIN_SIZE.fullmatch(two)) for one, two in both]
    found = [(float(one[1]), float(two[1])) for one, two in sizes if one and two and one[2] == two[2]]
    if len(first) != len(second) or not found or len(found) < len(both):
        return []
    apart = max(abs(one - two) / max(one, two, 1.0) for one, two in found)
    return [one - two for one, two in found] if apart >= least else []


_OTHER_END = {
    "large": frozenset((
        "small", "little", "min", "mini", "minor", "minore", "menor", "petit", "pt", "pd", "klein", "kleine",
        "kleiner", "kl", "maly", "mala", "mniejsza", "liten", "lille", "chico", "chica", "pequeno", "pequena",
        "piccolo", "mic", "kis", "kucuk", "малый", "меньшего", "sml",
    )),
    "small": frozenset((
        "large", "big", "max", "maxi", "major", "maggiore", "magg", "mayor", "maior", "grand", "grande", "gd",
        "gross", "grosser", "gr", "groot", "grote", "velky", "velka", "stor", "duza", "duzy", "wieksza",
        "mare", "nagy", "buyuk", "большой", "большего", "lge", "lrg",
    )),
}  # fmt: skip
"""What the head of an end does not say."""


def _are_ends(pair: list[TableColumn]) -> bool:
    """Return whether two heads differ only by words, letters or figures that tell two ends apart."""
    one, two = (set(re.findall(r"[^\W\d_]+|\d+", folded(column.header).lower())) for column in pair)
    apart = one ^ two
    return bool(apart) and all(word.isdecimal() or word in _END_WORDS for word in apart)


_CONES = re.compile(
    r"\b(?:con(?:e|es|ical|ico|ici|ica|icas|icos|i|os?|as?|us|ique)|frust\w*|reducers?|hoppers?|funnels?|transitions?"
    r"|taper\w*|cyclones?|konus\w*|kon\w*|trichter\w*|kegel\w*|tolvas?|tramogg\w*|tremies?|lej\w*|stoz\w*|kuzel\w*"
    r"|kegl\w*|kup\w*|koni\w*|kartio\w*|con)\b|锥",
    re.I,
)


def _names_cones(sheet: Sheet) -> bool:
    """Return whether any text of a sheet speaks of cones, or of what is made of them."""
    texts = (cell for row in sheet.rows for cell in row if isinstance(cell, str))
    return any(_CONES.search(folded(text)) for text in texts)


_PLAIN_SIZE = re.compile(r"(\d+(?:\.\d+)?|\.\d+)\s*(mm|cm|in\.?|\"|'')?", re.I)
"""A number with its unit or without."""

_ENDS = frozenset(("large", "small", "top", "bottom"))
_SECOND = re.compile(r"^(?P<name>.*?)\W*(?:2|ii|second)\W*$", re.I)
_LETTERS = re.compile(r"[\W\d_]+")
_TELL_APART = frozenset(word for word in _END_WORDS if len(word) > A_PAIR or not word.isascii()) - {
    "first",
    "second",
    "one",
    "other",
    "ends",
}
_NAMED_END = re.compile(r"\b(?:top|bottom|base|upper|lower|inlet|outlet|max\w*|min\w*|ends?)\b")


def _is_end(header: str) -> bool:
    """Return whether a heading says of which end of a cone it is: large, klein, mayor."""
    return is_word("large", header) or is_word("small", header)


def with_ends(table: OrderTable) -> OrderTable:
    """Return the table with such columns read as the ends of cones; any other table as it is."""
    columns = table.columns
    ends = [column for column in columns if column.meaning.field in _ENDS]
    round_ = [column for column in columns if column.meaning.field == "diameter"]
    if len(ends) == 1 and ends[0].meaning.field == "small" and len(round_) == 1:
        return _renamed(table, {round_[0].index: "large"})
    if ends or not round_:
        return table
    second = _second_column(columns, round_)
    return _renamed(table, {round_[0].index: "bottom", second.index: "top"}) if second else table


def _second_column(columns: tuple[TableColumn, ...], round_: list[TableColumn]) -> TableColumn | None:
    """Return the column of the other end: named as the first one but for its case, or with a 2 behind."""
    first = round_[0]
    if len(round_) == 2 and round_[1].meaning.basis is first.meaning.basis:
        same = _LETTERS.sub("", first.header).lower() == _LETTERS.sub("", round_[1].header).lower()
        return round_[1] if same else None
    if len(round_) > 1:
        return None
    for column in columns:
        match = _SECOND.match(column.header)
        name = _LETTERS.sub("", match["name"]).lower() if match else ""
        if name and column.index != first.index and name == _LETTERS.sub("", first.header).lower():
            return column
    return None


def _renamed(table: OrderTable, fields: dict[int, str]) -> OrderTable:
    basis = next(column.meaning.basis for column in table.columns if column.index in fields)
    unit = next(column.meaning.unit for column in table.columns if column.index in fields)
    columns = tuple(
        replace(
            column,
            meaning=replace(
                column.meaning,
                field=fields[column.index],
                basis=column.meaning.basis or basis,
                unit=column.meaning.unit or unit,
            ),
        )
        if column.index in fields
        else column
        for column in table.columns
    )
    return replace(table, columns=columns)


def names_no_end(table: OrderTable) -> bool:
    """Return whether the headings of cone ends tell neither from the other, Dia 1, Dia 2; or that of the
    large end is one of plain diameters too: Inside dia / large ID.
    """
    if any(_PLAIN_TOO.search(one.header) and _is_plain_too(one) for one in table.columns):
        return True
    heads = [folded(column.header).lower() for column in table.columns if column.meaning.field in _ENDS]
    words = {word for head in heads for word in re.findall(r"[^\W\d_]+", head)}
    return not any(_NAMED_END.search(head) or _is_end(head) for head in heads) and not words & _TELL_APART


_PLAIN_TOO = re.compile(r"\s*(?:/|[(;,]|\bor\b|\bou\b|\boder\b|\bo\b)\s*", re.I)


def _is_plain_too(column: TableColumn) -> bool:
    """Return whether a part of the head of large ends is that of a diameter, whatever the shape."""
    pieces = _PLAIN_TOO.split(column.header)
    return column.meaning.field == "large" and any(meaning_of(one).field == "diameter" for one in pieces)


def has_both_ends(sheet: Sheet, table: OrderTable) -> bool:
    """Return whether some row of the table fills both columns of cone ends: a blank one is then no cone."""
    ends = [column.index for column in table.columns if column.meaning.field in _ENDS]
    return len(ends) == 2 and any(
        all(index < len(sheet.rows[row]) and not is_empty(sheet.rows[row][index]) for index in ends)
        for row in table.rows
    )
