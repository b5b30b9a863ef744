"""What columns hold, told by those beside them: was and now, a total of others, plate beside thickness."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from quoting.core import Basis, SizeError, parse_measures
from quoting.intake.layout import (
    SIZES,
    Meaning,
    OrderTable,
    TableColumn,
    as_inside,
    facts_in,
    heading_meaning,
    in_for_inside,
    names_another,
    names_what_is_within,
)
from quoting.intake.texts import nominal_cell
from quoting.intake.words import folded
from quoting.tables import Sheet, text_of

_OLD = re.compile(
    r"\b(was|old|prev(?:ious)?|before|existing|former(?:ly)?|superseded|orig(?:inal)?|alt|bisher(?:ig\w*)?|vorher"
    r"|ancien\w*|avant|anterior|antes|viejo|vecchi\w*|prima|precedente|oud|vorig\w*|stary|stare|byl[aoy]?|antigo"
    r"|war|waren|alte?r?|etait|era|erano|puvodni|eski|gammal\w*|gammel\w*|tidigare)\b"
)
_NEW = re.compile(
    r"\b(now|new|current|rev(?:ised|d)?|after|neu|jetzt|nouveau\w*|nouvelle|nuevo|nueva|ahora|actual|nuov\w*"
    r"|attual\w*|nieuw\w*|now[ye]|jest|novo|nova|atual|is|ist|est|es|to be|becomes|updated|latest|amended"
    r"|neue?r?|nyni|je|yeni|ny|nytt|nya)\b"
)
_ANSWERS = frozenset((
    "yes", "no", "y", "n", "ok", "ja", "nein", "oui", "non", "si", "sí", "nee", "tak", "nie", "sim", "nao",
    "não", "?", "-", "x", "n/a", "maybe",
))  # fmt: skip
_PLATE = re.compile(
    r"\b(plate|pl|plt|sheet|steel|blech|tole|chapa|placa|plancha|lamina|lamiera|plaat|blacha|plech|sac)\b"
)
_DEGREES = re.compile(r"\d{1,3}(?:[.,]\d+)?\s*(?:°|º|deg\w*\.?|grad\w*)")
_TOTAL = re.compile(
    r"\b(total\w*|tot|ext(?:ended)?|gesamt\w*|ges|razem|celkem|totaal|toplam|in all|overall|sum\w*|year\w*"
    r"|annual\w*)\b|总|合计"
)
_DONE = re.compile(
    r"\b(po|ordered|received|rcvd|rec|delivered|issued|shipped|stock|on hand|invoiced|made|done)\b"
)
_LEFT = re.compile(r"\b(bal(?:ance)?|open|remaining|remain|rest|outstanding|short)\b")
_PART = re.compile(
    r"\b(this|release\w*|now|call\W?offs?|shipment|deliver\w*|abruf\w*|teillieferung|current|batch|drop|phase)\b"
)
"""Words of a count that is wanted now, out of a total that the job takes in the end."""
_LONGEST_COUNT = 6
_COUNTS = frozenset(("quantity", "per_unit"))


def compared(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Return the table with the columns whose meaning the others tell; `table` has each one's own."""
    for look in (
        _inside_in_mm,
        _round_another,
        _beside_what_it_goes_round,
        _rolled_beside_machined,
        _of_the_heads,
        _asked_back,
        _plate_beside_thickness,
        _called_off,
        _totals,
        _counted_plates,
        _delivered,
        _ordered_already,
        _in_degrees,
    ):
        table = look(sheet, table)
    return table


def without_old(table: OrderTable) -> OrderTable:
    """Return the table with a column of what was carried, where another gives what is now: OD was, OD now.

    So is an extended price.
    """
    table = _extended(table)
    table = _with(table, _counted_earlier(table))
    now = {one.meaning.field for one in table.columns if _NEW.search(folded(one.header))}
    old = {
        one.index: "ignored" if one.meaning.field in _COUNTS else "carried"
        for one in table.columns
        if one.meaning.field in now & (SIZES | _COUNTS | {"material", "revision"})
        and _OLD.search(folded(one.header))
        and not _NEW.search(folded(one.header))
    }
    return _with(table, old)


_EARLIER = re.compile(
    r"\b(prev(?:ious(?:ly)?)?|last (?:order|call|time|year|release|batch)|earlier|to date|so far|already"
    r"|cum(?:ulative)?|vorher\w*|bisher\w*"
    r"|preced\w*|anterior\w*|vorig\w*|poprzedni\w*|predchoz\w*|tidigare|tidligere|onceki)\b"
)


def _counted_earlier(table: OrderTable) -> dict[int, str]:
    """Return the columns of what was ordered before, where another gives the quantity: Qty prev."""
    counts = [one for one in table.columns if one.meaning.field in _COUNTS]
    before = [
        one for one in counts if _EARLIER.search(folded(one.header)) and not _NEW.search(folded(one.header))
    ]
    return {one.index: "ignored" for one in before} if len(before) < len(counts) else {}


_OF_A_REVISION = re.compile(
    r"(?P<head>\S.*?)\W+(?:rev(?:ision)?|issue|iss|index|ind|ausg(?:abe)?|indice)\b[\W_]*(?P<rev>[a-z]|\d{1,2})\W*"
)
_REVISION_NAMED = re.compile(r"\b(?:rev(?:ision)?|issue|index|ausgabe|indice)\b[\W_]*([a-z]|\d{1,2})\b")


def latest_revision(table: OrderTable, notes: Sequence[str]) -> tuple[OrderTable, tuple[str, ...]]:
    """Return the table with what earlier revisions said carried where a later one stands beside it, and what
    is said of that: Qty Rev. B, Qty Rev. C. Where the notes name another revision than the last, or nothing
    tells which is the last, all of them are the size, which is asked about where they differ.
    """
    found: dict[str, dict[str, TableColumn]] = {}
    for one in table.columns:
        if match := _OF_A_REVISION.fullmatch(folded(one.header)):
            field = heading_meaning(match["head"]).field
            if field in SIZES | _COUNTS | {"material"}:
                found.setdefault(field, {})[match["rev"]] = one
    named = {rev for note in notes for rev in _REVISION_NAMED.findall(folded(note))}
    told: dict[int, str] = {}
    said = []
    for field, columns in found.items():
        if len(columns) < 2:
            continue
        last = max(columns)
        told |= {one.index: field for one in columns.values()}
        alike = len({(rev.isdecimal(), len(rev)) for rev in columns}) == 1
        if alike and not (named & set(columns)) - {last}:
            told |= {one.index: "carried" for rev, one in columns.items() if rev != last}
            said.append(f'"{columns[last].header}" holds, the columns of earlier revisions do not')
    return _with(table, told), tuple(said)


def _with(table: OrderTable, fields: dict[int, str]) -> OrderTable:
    """Return the table with other fields for some columns, by their index in the sheet."""
    if not fields:
        return table
    columns = (
        replace(one, meaning=Meaning(fields[one.index], unit=one.meaning.unit))
        if one.index in fields
        else one
        for one in table.columns
    )
    return replace(table, columns=tuple(columns))


def _cells(sheet: Sheet, table: OrderTable, column: TableColumn) -> list[str]:
    """Return the texts of a column, an empty one for each row that ends before it."""
    rows = (sheet.rows[row] for row in table.rows)
    return [text_of(row[column.index]) if column.index < len(row) else "" for row in rows]


def _asked_back(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Carry a column of sizes whose heading is a question and whose cells are answers: Nearest plate ok?"""
    asked = {}
    for one in table.columns:
        if one.meaning.field in SIZES | {"material"} and one.header.rstrip().endswith("?"):
            texts = [text.lower() for text in _cells(sheet, table, one) if text]
            if texts and all(text in _ANSWERS for text in texts):
                asked[one.index] = "carried"
    return _with(table, asked)


def _round_another(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Pass over the size of what the parts go on beside their own: carrier OD, a smaller DN.

    An inside that is larger in every row than the outside of the pipe beside it is no size of that pipe.
    """
    sized = [one for one in table.columns if one.meaning.field in ("diameter", "radius")]
    of_another = [one for one in table.columns if one.meaning.field in _ROUND and names_another(one.header)]
    own = [one for one in sized if one not in of_another]
    if of_another and own:
        return _with(table, {one.index: "ignored" for one in of_another})
    nominal = [one for one in table.columns if one.meaning.field == "nominal"]
    if len(nominal) != 1 or len(sized) != 1 or sized[0].meaning.basis is not Basis.INSIDE:
        return table
    pairs = zip(_cells(sheet, table, nominal[0]), _cells(sheet, table, sized[0]), strict=True)
    known = [(_outside_of(one, nominal[0].header), _plain_mm(two)) for one, two in pairs if one and two]
    larger = [outside and inside and inside >= outside for outside, inside in known]
    return _with(table, {nominal[0].index: "ignored"}) if larger and all(larger) else table


_ROUND_IT = re.compile(
    r"\b(?:sleeves?|wraps?|wrappers?|collars?|clamps?|jackets?|repairs?|encirclement\w*|guards?|muff\w*"
    r"|mansch\w*|schelle\w*"
    r"|hulse\w*|manchons?|colliers?|manguitos?|camisas?|abrazaderas?|collari?|manicott\w*|mof(?:fen)?|huls\w*|tulej\w*"
    r"|opask\w*|objimk\w*|manzet\w*)\b"
)


def _beside_what_it_goes_round(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Pass over the diameter of a pipe or pile beside that of what goes round it: Pile dia, Wrap ID.

    The other must name what goes round, and be no smaller in any row.
    """
    sized = [one for one in table.columns if one.meaning.field == "diameter"]
    outer = [one for one in sized if _ROUND_IT.search(folded(one.header))]
    inner = [one for one in sized if one not in outer and names_what_is_within(one.header)]
    if len(outer) != 1 or len(inner) != 1 or len(sized) != A_PAIR:
        return table
    pairs = zip(_cells(sheet, table, inner[0]), _cells(sheet, table, outer[0]), strict=True)
    known = [(_first_size(one), _first_size(two)) for one, two in pairs if one and two]
    larger = bool(known) and all(two >= one > 0 for one, two in known if two)
    return _with(table, {inner[0].index: "ignored"}) if larger else table


A_PAIR = 2
_SIZE_IN_IT = re.compile(r"(?<![\d/.,-])(\d+(?:[.,]\d+)?)(?:[ -](\d+)/(\d+))?")


def _first_size(text: str) -> float:
    """Return the first number of a text as it stands, 24 1/2 as 24.5; 0 where there is none."""
    match = _SIZE_IN_IT.search(text)
    if match is None or match[3] in ("0", "00"):
        return 0.0
    return float(match[1].replace(",", ".")) + (int(match[2]) / int(match[3]) if match[3] else 0.0)


_AS_ROLLED = re.compile(
    r"\b(?:as[- ]?rolled|rolled (?:to|size|dia|ø|od|id)|rough|raw|un-?machined|before mach\w*|roh|gewalzt"
    r"|vorgedreht|brut"
    r"|en bruto|grezz[oa]|ruw|surow[ay])\b"
)
_MACHINED = re.compile(
    r"\b(?:fin\.?|finish\w*|mach\.?|machined?|after mach\w*|turned|bored|ground|fertig\w*|bearbeitet|gedreht"
    r"|usine\w*|fini"
    r"|mecanizad\w*|terminad\w*|lavorat\w*|finit\w*|tornit\w*|afgedraaid|bewerkt|obrobion\w*|gotow\w*)(?!\w)"
)


_CORRODED = re.compile(r"\b(?:corroded|worn|after corrosion|korrodiert|corrode|corroid[oa]|corros[oa])\b")


def _rolled_beside_machined(_sheet: Sheet, table: OrderTable) -> OrderTable:
    """Carry a size that is machined later where another column says the same one as it is rolled, and one of
    a part that is corroded beside that of the new one.
    """
    told: dict[int, str] = {}
    for field in ("diameter", "thickness", "length", "width", "height"):
        both = [one for one in table.columns if one.meaning.field == field]
        rolled = [one for one in both if _AS_ROLLED.search(folded(one.header))]
        later = [one for one in both if one not in rolled and _MACHINED.search(folded(one.header))]
        if len(both) == A_PAIR and len(rolled) == len(later) == 1:
            told[later[0].index] = "carried"
        worn = [one for one in both if _CORRODED.search(folded(one.header))]
        if len(both) == A_PAIR and len(worn) == 1:
            told[worn[0].index] = "carried"
    return _with(table, told)


_HEADS = re.compile(
    r"\b(?:heads?|dished ends?|d'?ends?|boden|boeden|bodens|fonds?|fondos?|fondi|fondo|bodems?|dennic\w*|dna"
    r"|tampos?|gavlar?|endebunn\w*|bunne?)\b"
)
_OF_SHELLS = re.compile(
    r"\b(?:shells?|cans?|cyl\w*|courses?|strakes?|barrel|mantel\w*|viroles?|virolas?|fasciame|mantello|romp|plaszcz\w*"
    r"|plast\w*|svep|svob|costado|casco)\b"
)


def _of_the_heads(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Pass over how thick the heads of vessels are where another column says it of their shells: Head thk.

    Heads are no work of a plate roll (common practice, no source).
    """
    thick = [one for one in table.columns if one.meaning.field in ("thickness", "gauge")]
    if not any(_OF_SHELLS.search(folded(one.header)) for one in thick):
        return table
    heads = [
        one for one in table.columns if one.meaning.field in ("", "thickness") and _is_of_heads(one.header)
    ]
    return _with(table, {one.index: "ignored" for one in heads})


def _is_of_heads(header: str) -> bool:
    """Return whether a heading is how thick something is that closes a vessel."""
    head = _HEADS.sub(" ", folded(header))
    return head != folded(header) and heading_meaning(" ".join(head.split())).field == "thickness"


def _outside_of(text: str, header: str) -> float:
    """Return the outside diameter in mm of a nominal size; 0 where it is none."""
    try:
        sizes = parse_measures(nominal_cell(text, header))
        return sizes[0].to_mm(inch=True) if len(sizes) == 1 else 0.0
    except (SizeError, ValueError):
        return 0.0


def _plain_mm(text: str) -> float:
    return float(text) if text.replace(".", "", 1).isdecimal() else 0.0


_ROUND = frozenset(("diameter", "radius", "nominal"))
_LEAST_MM, _PLATE_MM = 100, 5
"""No plate so thick in inches is rolled, nor to such a radius (common practice, no source)."""
_FIRST_NUMBER = re.compile(r"[^\W\d_]{0,3}\W{0,2}(\d+(?:\.\d+)?)")


def _inside_in_mm(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Take `R in.` for the inside where the sizes can be no inches: 612 beside plate of 8."""
    heads = [one for one in table.columns if one.meaning.unit == "in" and in_for_inside(one.header)]
    thick = [one for one in table.columns if one.meaning.field == "thickness"]
    others = {one.meaning.unit for one in table.columns if one.meaning.field in SIZES and one not in heads}
    if len(heads) != 1 or heads[0].meaning.basis or not thick or others & {"in", "ft"}:
        return table
    walls = [text for one in thick for text in _cells(sheet, table, one) if text]
    sizes = [_FIRST_NUMBER.match(text) for text in _cells(sheet, table, heads[0]) if text]
    plain = all(text.replace(".", "", 1).isdecimal() and float(text) >= _PLATE_MM for text in walls)
    large = all(size is not None and float(size[1]) >= _LEAST_MM for size in sizes)
    if not (walls and sizes and plain and large):
        return table
    return as_inside(table, heads[0].index)


_PRICE = re.compile(r"[$€£]|\b(?:price|cost|target|rate|amount|prix|preis|precio|prezzo|cena)\b", re.I)
_EXTENDED = re.compile(r"ext(?:ended|ension|d)?\.?(?: (?:price|cost|amt|amount|total|value))?", re.I)


def _extended(table: OrderTable) -> OrderTable:
    """Carry a column headed Ext. beside one of prices: it is their product, and no outside diameter."""
    if not any(_PRICE.search(one.header) for one in table.columns):
        return table
    ext = [one.index for one in table.columns if _EXTENDED.fullmatch(one.header.strip())]
    return _with(table, dict.fromkeys(ext, "carried"))


def _plate_beside_thickness(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Take a column headed plate for the material where another says how thick it is and none what it is of.

    Its cells must hold words: Plate A36, Tôle S235JR; numbers alone may be a size of the plate.
    """
    thick = [one for one in table.columns if one.meaning.field in ("thickness", "gauge")]
    if len(thick) < 2 or any(one.meaning.field == "material" for one in table.columns):
        return table
    plates = [one for one in thick if _PLATE.search(folded(one.header)) and not one.meaning.unit]
    if len(plates) != 1 or len(thick) != 2:
        return table
    texts = [text for text in _cells(sheet, table, plates[0]) if text]
    worded = [any(sign.isalpha() for sign in text) for text in texts]
    return _with(table, {plates[0].index: "material"}) if texts and all(worded) else table


def _in_degrees(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Take a column that nothing explains for the angle where all its cells are degrees of a circle."""
    if any(one.meaning.field == "angle" for one in table.columns):
        return table
    told = {}
    for one in table.columns:
        if one.meaning.field:
            continue
        texts = [text for text in _cells(sheet, table, one) if text]
        if texts and all(_DEGREES.fullmatch(text.lower()) for text in texts):
            told[one.index] = "angle"
    return _with(table, told if len(told) == 1 else {})


def _called_off(_sheet: Sheet, table: OrderTable) -> OrderTable:
    """Take the count that is wanted now for the quantity, and pass over the total that it is a part of."""
    counts = [one for one in table.columns if one.meaning.field in (*_COUNTS, "carried", "")]
    total = [one for one in counts if _TOTAL.search(folded(one.header))]
    part = [one for one in counts if one not in total and _PART.search(folded(one.header))]
    part = [one for one in part if one.meaning.field in _COUNTS]
    if len(total) != 1 or len(part) != 1:
        return table
    return _with(table, {part[0].index: "quantity", total[0].index: "ignored"})


def _totals(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Take the one column of totals that goes with the counts beside it for the quantity.

    It must be their sum, or in each row the same multiple of one of them: releases by month, pieces a unit.
    """
    named = [one for one in table.columns if one.meaning.field in (*_COUNTS, "carried", "")]
    named = [one for one in named if _TOTAL.search(folded(one.header))]
    if not named:
        return table
    numbers = {one.index: found for one in table.columns if (found := _whole(_cells(sheet, table, one)))}
    named = [one for one in named if one.index in numbers]
    if len(named) != 1:
        return table
    total = named[0]
    counts = [one for one in table.columns if one.index in numbers and one.index != total.index]
    loose = [one for one in counts if not one.meaning.field]
    pieces = [one for one in counts if one.meaning.field in _COUNTS]
    sets = [one for one in counts if one.meaning.field == "multiplier"]
    of_each = (numbers[one.index] for one in (*pieces, *sets, total))
    if len(pieces) == len(sets) == 1 and _mostly_product(*of_each):
        return _with(table, {total.index: "quantity"})  # a row where they disagree is asked about
    if len(pieces) == 1 and _goes_with(pieces[0], numbers[pieces[0].index], total, numbers[total.index]):
        checked = total.meaning.field == "quantity" and pieces[0].meaning.field == "per_unit"
        told = {} if checked else {pieces[0].index: "per_unit", total.index: "quantity"}
        return _with(table, told)  # sets that the sheet names are checked against both
    if len(loose) > 1 and not pieces and _is_sum([numbers[one.index] for one in loose], numbers[total.index]):
        return _with(table, {**{one.index: "carried" for one in loose}, total.index: "quantity"})
    return table


_DELIVERED = re.compile(
    r"\b(?:delivered|received|rcvd|shipped|despatched|dispatched|geliefert|livr[ée]e?s?|entregad\w*"
    r"|entregue\w*|consegnat\w*|geleverd|dostarczon\w*|dodano|levererat|leveret|levert|toimitettu"
    r"|teslim edilen|livrat)\b|поставлено|已交"
)
_TO_COME = re.compile(
    r"\b(?:outstanding|bal(?:ance)?|remaining|remainder|to follow|back ?orders?|offen\w*|restmenge|restant\w*"
    r"|reste|pendient\w*|saldo|residu\w*|openstaand|pozosta\w*|zbyva\w*|kalan|ramas)\b|остаток|未交"
)


def _delivered(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Take whole numbers of what was delivered or is still to come for counts, beside the quantity.

    A row of which some were delivered leaves open which of the counts is wanted: the columns are asked about.
    """
    counts = [one for one in table.columns if one.meaning.field == "quantity"]
    others = [one for one in table.columns if one.meaning.field in ("due", "carried", "")]
    come = [one for one in (*counts, *others) if _TO_COME.search(folded(one.header))]
    done = [one for one in (*counts, *others) if _DELIVERED.search(folded(one.header)) and one not in come]
    ordered = [one for one in counts if one not in done and one not in come]
    found = {one.index: _whole(_cells(sheet, table, one)) for one in (*done, *come)}
    if len(ordered) != 1 or not done or not all(found.values()):
        return table
    none = all(not number for one in done for number in found[one.index])
    told = dict.fromkeys(found, "ignored" if none else "quantity")
    return _with(table, told)


def _counted_plates(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Take small whole numbers under Plates, in any language, for the count where nothing else counts.

    A column of thicknesses must stand beside them that says another number in each row.
    """
    if any(one.meaning.field in (*_COUNTS, "per_ring", "multiplier", "breaks") for one in table.columns):
        return table
    thick = [one for one in table.columns if one.meaning.field == "thickness"]
    plates = [one for one in thick if _PLATE.fullmatch(folded(one.header).strip(" .:#()").lower())]
    if len(plates) != 1 or len(thick) != len(("plates", "thickness")):
        return table
    (other,) = (one for one in thick if one is not plates[0])
    numbers = _whole(_cells(sheet, table, plates[0]))
    small = numbers and all(number is not None and number <= _MOST_PLATES for number in numbers)
    pairs = zip(_cells(sheet, table, plates[0]), _cells(sheet, table, other), strict=True)
    apart = all(one != two for one, two in pairs)
    return _with(table, {plates[0].index: "quantity"}) if small and apart else table


_MOST_PLATES = 40


def _ordered_already(sheet: Sheet, table: OrderTable) -> OrderTable:
    """Carry counts of what was ordered or delivered before, and what is left where that is all of it.

    Indent 6, ordered 0, balance 6: six are wanted. Where some were ordered the columns are asked about.
    """
    counts = [one for one in table.columns if one.meaning.field == "quantity"]
    done = [one for one in counts if _DONE.search(folded(one.header))]
    rest = [one for one in counts if one not in done]
    left = any(_LEFT.search(folded(one.header)) for one in rest)
    if not done or len(rest) < (2 if left else 1):
        return table
    none = all(not text.strip("0") for one in done for text in _cells(sheet, table, one))
    return _with(table, {one.index: "ignored" for one in done} if left or none else {})


def _whole(texts: Sequence[str]) -> list[int | None]:
    """Return the whole numbers of a column, None for a blank; nothing where it holds anything else."""
    if any(text and not text.isdecimal() for text in texts) or not any(texts):
        return []
    return [int(text) if text and len(text) <= _LONGEST_COUNT else None for text in texts]


def _same_multiple(one: Sequence[int | None], total: Sequence[int | None]) -> bool:
    """Return whether each total is the same multiple of what stands beside it."""
    pairs = [(a, b) for a, b in zip(one, total, strict=True) if a and b]
    return bool(pairs) and all(b % a == 0 for a, b in pairs) and len({b // a for a, b in pairs}) == 1


def _goes_with(
    one: TableColumn, pieces: Sequence[int | None], total: TableColumn, totals: Sequence[int | None]
) -> bool:
    """Return whether each total is the same multiple of the pieces, or most of them are the pieces of a unit
    times the units that their head names: Total (3 tanks).
    """
    units = facts_in(total.header).sets if one.meaning.field == "per_unit" else 0
    held = [a * units == b for a, b in zip(pieces, totals, strict=True) if a and b]
    return _same_multiple(pieces, totals) or (units > 0 and 2 * sum(held) > len(held))


def _mostly_product(
    pieces: Sequence[int | None], sets: Sequence[int | None], total: Sequence[int | None]
) -> bool:
    """Return whether most totals are the pieces of one unit times the units."""
    rows = zip(pieces, sets, total, strict=True)
    return 2 * sum(one * times == whole for one, times, whole in rows if one and times) > len(total)


def _is_sum(parts: Sequence[Sequence[int | None]], total: Sequence[int | None]) -> bool:
    """Return whether each total is the sum of the counts in its row."""
    rows = list(zip(*parts, strict=True))
    pairs = [(sum(one or 0 for one in row), b) for row, b in zip(rows, total, strict=True) if b is not None]
    return bool(pairs) and all(a == b for a, b in pairs)
