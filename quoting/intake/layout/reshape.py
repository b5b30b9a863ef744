"""Sheets that are no table of one part a row, turned into one: a part a column, a form, a mail."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

from quoting.core import Mark, NumberStyle, Place, Sighting, column_letters
from quoting.intake.layout.columns import Meaning, unit_word
from quoting.intake.layout.find_tables import Layout, OrderTable, Recognise, TableColumn, layout_of
from quoting.intake.texts import count_of, part_text, shape_words
from quoting.intake.words import folded
from quoting.shop import Materials
from quoting.tables import LONGEST_TEXT, Cell, Sheet, is_empty, text_of

_FEWEST_LABELS = 3
_MOST_FORM_ROWS = 200
_FORM_WIDTH = 3
"""Label, value, and what is said beside it."""
_SIZES = frozenset((
    "thickness", "gauge", "diameter", "radius", "width", "length", "girth", "large", "small", "size",
    "height", "chord",
))  # fmt: skip
_RUN = re.compile(r"\s{2,}|\t|\s\|\s")
_QUOTED = re.compile(r"^\s*[>|]")
_BULLET = re.compile(
    r"^\s*(?:(?:\d{1,2}|[A-Za-z])(?:[.):]|\.[-–—/)]+|[°º][.):–-]+|-\))|\d{1,2}-|[-–—•*·])\s+"
)
_MARK = re.compile(r"^\s*([A-Z]{1,5})[-. ]?\d{1,4}[A-Za-z]?\s*(?:[:;,.)(]|[x×]\s?\d|\s[-–]\s)")
"""HB-1: a mark before a part; what begins with the same letters and a number is one too."""

_ITEM = re.compile(r"^\s*(?:pos(?:ition)?|item|line|mark)\b\.?\s*\d{1,3}\s*[.:)–-]", re.I)
_BRACKETED = re.compile(r"^\s*\(\d{1,3}\)\s+[^\W\d_]{3}")
"""(2) hopper cones: a count in brackets."""
_PIECES_OF = re.compile(
    r"^\s*\d{1,3}\s*(?:[x×](?=\s+[^\W\d_]{3})|pcs?|pieces?|pce|off|stk|szt|uds?|pzs?)\b\.?\s+\S", re.I
)
"""1 piece same but half round: a count of pieces."""
_DASHED = re.compile(r"^\s*(\d{1,3})\s+[-–]\s")
"""1 - 4 shells, 2 - 2 shells: item numbers where they count up from one."""

_LONGEST_COUNT = 8
"""A cell of so few signs is a number, a size or a mark, and says not what a part is."""


@dataclass(frozen=True, slots=True)
class ReshapedSheet(Sheet):
    """A sheet whose rows stand elsewhere in the file: `origin` holds the row, and the column or -1."""

    origin: tuple[tuple[int, int], ...] = ()

    def place(self, row: int, column: int | None = None, header: str = "") -> Place:
        """Return the address in the customer's file."""
        at, along = self.origin[row]
        return Place(self.file, self.name, at + 1, column_letters(along) if along >= 0 else "", header)


def reshaped(sheet: Sheet, recognise: Recognise, materials: Materials) -> tuple[Sheet, Layout]:
    """Return the sheet and its layout, turned into a table of one part a row if it can be."""
    layout = layout_of(sheet, recognise)
    if not sheet.hidden and (turned := _head_at_foot(sheet, layout)) is not None:
        return turned, layout_of(turned, recognise)
    if sheet.hidden:
        return sheet, layout
    if layout.tables:
        lost = len(layout.above) >= _FEWEST_LABELS and not any(table.rows for table in layout.tables)
        forms = _labelled(sheet, recognise) if lost or all(map(_of_labels, layout.tables)) else None
        return forms or (sheet, layout)
    for parted in (_spread_blanks(sheet), _parted_lines(sheet, recognise)):
        if parted is not None and (found := layout_of(parted, recognise)).tables:
            return parted, found
    labelled = _labelled(sheet, recognise)
    if labelled is None and (pairs := _pairs_apart(sheet, recognise)) is not None:
        labelled = _labelled(pairs, recognise)
    if labelled is not None:
        return labelled
    return _lines(sheet, materials) or (sheet, layout)


def _head_at_foot(sheet: Sheet, layout: Layout) -> Sheet | None:
    """Return a list that grows upward, as those on drawings do, with its head above its rows; else None."""
    if len(layout.tables) != 1 or layout.tables[0].rows or len(layout.above) < _FEWEST_LABELS - 1:
        return None
    head = layout.tables[0]
    filled = [sum(not is_empty(cell) for cell in sheet.rows[row]) for row in layout.above]
    if 2 * sum(count >= _FEWEST_LABELS for count in filled) <= len(filled):
        return None
    units = () if head.unit_row is None else (head.unit_row,)
    order = (*head.header_rows, *units, *layout.above)
    at = {row: new for new, row in enumerate(order)}
    return ReshapedSheet(
        sheet.file,
        sheet.name,
        [sheet.rows[row] for row in order],
        hidden_rows=frozenset(at[row] for row in sheet.hidden_rows if row in at),
        hidden_columns=sheet.hidden_columns,
        shown={(at[row], column): text for (row, column), text in sheet.shown.items() if row in at},
        struck=frozenset((at[row], column) for row, column in sheet.struck if row in at),
        asides=sheet.asides,
        source=sheet.source,
        unsure=frozenset(at[row] for row in sheet.unsure if row in at),
        heads=sheet.heads,
        comments={(at[row], column): text for (row, column), text in sheet.comments.items() if row in at},
        boxes=sheet.boxes,
        origin=tuple((row, -1) for row in order),
    )


def _of_labels(table: OrderTable) -> bool:
    """Return whether what was found as a table may be a label and its value beside one another."""
    return len(table.columns) <= _FORM_WIDTH


def _spread_blanks(sheet: Sheet) -> Sheet | None:
    """Return a sheet whose lines were pasted as text, its columns apart by runs of blanks."""
    rows: list[list[Cell]] = []
    split = 0
    for row in sheet.rows:
        filled = [cell for cell in row if not is_empty(cell)]
        parts = (
            [part for part in _RUN.split(filled[0].strip()) if part]
            if len(filled) == 1 and isinstance(filled[0], str)
            else []
        )
        split += len(parts) >= _FEWEST_LABELS
        rows.append([*parts] if len(parts) >= _FEWEST_LABELS else row)
    return replace(sheet, rows=rows) if split > 1 else None


_PARTING = tuple(
    re.compile(pattern)
    for pattern in (r"\s+[-–—]\s+", r"\s+/\s+", r"\s*/\s*", r"\s*;\s*", r"\s*\|\s*", r",\s+", r"\s+[x×*]\s+")
)
"""What parts the sizes of a list in single lines; the line that heads them may be parted by another sign."""
_LED_BY = re.compile(r"^.*?(?:[:=]|\s[-–—])\s+")


def _parted_lines(sheet: Sheet, recognise: Recognise) -> Sheet | None:
    """Return a sheet whose lines are parted by signs as the line above them that names each of their pieces.

    mark / dia / width / thk / no, and below it RS1 - 2134 - 1829 - 10 - 2.
    """
    lines = {
        at: str(filled[0]).strip()
        for at, row in enumerate(sheet.rows[:_MOST_FORM_ROWS])
        if len(filled := [cell for cell in row if not is_empty(cell)]) == 1 and isinstance(filled[0], str)
    }
    for at, text in lines.items():
        names = _names_in(text, recognise)
        if not names:
            continue
        rows: list[list[Cell]] = list(sheet.rows)
        found = 0
        for below in range(at + 1, len(sheet.rows)):
            pieces = next(
                (cells for sign in _PARTING if len(cells := sign.split(lines.get(below, ""))) == len(names)),
                None,
            )
            if pieces is not None and sum(any(map(str.isdecimal, one)) for one in pieces) >= _FEWEST_LABELS:
                rows[below] = [*pieces]
                found += 1
        if found > 1:
            rows[at] = [*names]
            return replace(sheet, rows=rows)
    return None


def _names_in(text: str, recognise: Recognise) -> list[str]:
    """Return the heads that a line names, parted by one sign; nothing where two of them are not known."""
    if any(map(str.isdecimal, text)):
        return []
    for listed in dict.fromkeys((text, _LED_BY.sub("", text), text[text.find("(") + 1 :].strip(" ).:"))):
        for sign in _PARTING:
            names = [name.strip(" .:") for name in sign.split(listed)]
            fields = [recognise(name).field for name in names]
            sizes = len({*fields} & _SIZES)
            if len(names) > _FEWEST_LABELS and fields.count("") <= 1 and sizes >= _FEWEST_LABELS - 1:
                return names
            if len(names) >= _FEWEST_LABELS and {"quantity", "description"} < {*fields} and "" not in fields:
                return names
    return []


@dataclass(frozen=True, slots=True)
class _Label:
    """A cell that heads the values beside it."""

    row: int
    column: int
    text: str
    meaning: Meaning
    value: str = ""


_PAIR = re.compile(r"\s*(?P<label>[^:=]{1,40}?)\s*(?:[:=]|\.{3,}:?)\s*(?P<value>\S.*)")


def _pairs_apart(sheet: Sheet, recognise: Recognise) -> Sheet | None:
    """Return a sheet whose cells of a label and its value are two: Length: 1530 mm; None where few are."""
    rows: list[list[Cell]] = []
    known = 0
    for row in sheet.rows:
        filled = [cell for cell in row if not is_empty(cell)]
        pair = _PAIR.fullmatch(text_of(filled[0])) if len(filled) == 1 else None
        if pair is None or not recognise(_bare(pair["label"])).field:
            rows.append(row)
            continue
        known += 1
        rows.append([pair["label"], pair["value"]])
    return replace(sheet, rows=rows) if known >= _FEWEST_LABELS else None


_NUMBERING = re.compile(r"^\s*\(?\d{1,2}[.)]\s+")
_LEADERS = re.compile(r"[\s.…_]{3,}:?\s*$|\s*[=:]\s*$")


def _bare(label: str) -> str:
    """Return a label without the number before it and the dots behind: 2. Diameter, Length ....."""
    return _LEADERS.sub("", _NUMBERING.sub("", label))


def _labelled(sheet: Sheet, recognise: Recognise) -> tuple[Sheet, Layout] | None:
    """Return a table of the parts that stand along columns, or of the parts of a form, block by block."""
    labels = _labels(sheet, recognise)
    if not _enough(labels):
        return None
    first = min(label.column for label in labels)
    alone = [one for one in labels if one.column == first]
    inner = {one.row for one in labels if one.column > first + 1}
    form = bool(inner) and not (_in_columns(sheet, alone) and 2 * len(inner) <= len(alone))
    labels = labels if form else [*_names_above(sheet, alone), *_with_others(sheet, alone)]
    beside = _side_by_side(labels) if form else []
    blocks = beside or _parted(sheet, labels) or _blocks(labels)
    labels = [label for block in blocks for label in block]
    names = list(dict.fromkeys((label.text, label.meaning) for label in labels))
    columns = [TableColumn(index, *name) for index, name in enumerate(names)]
    rows: list[list[Cell]] = []
    origin: list[tuple[int, int]] = []
    cells_at: dict[tuple[int, int], tuple[int, int]] = {}
    for block in blocks:
        ends = [first + 1] if form or len(blocks) > 1 else _value_columns(sheet, block)
        for end in ends:
            values = [_value(sheet, label, label.column + 1 if form else end) for label in block]
            cells: list[Cell] = [""] * len(names)
            for label, value in zip(block, values, strict=True):
                cells[names.index((label.text, label.meaning))] = value
            if len(ends) == 1:
                cells.append("; ".join(text for label in block if (text := _beside(sheet, label))))
            if sum(not is_empty(cell) for cell in values) >= max(_FEWEST_LABELS, len(block) // 2):
                for label in block:
                    place = label.row, label.column + 1 if form else end
                    cells_at[place] = len(rows), names.index((label.text, label.meaning))
                rows.append(cells)
                along = block[0].column + 1 if beside else -1 if len(ends) == 1 else end
                origin.append((_first_of_part(block).row, along))
    if not rows:
        return None  # labels with hardly a value beside them head no part
    columns.append(TableColumn(len(names), "", Meaning("remarks")))
    used = {label.row for label in labels}
    rest = [
        at for at, row in enumerate(sheet.rows) if at not in used and any(not is_empty(cell) for cell in row)
    ]
    body = tuple(range(len(rows)))
    rows += [sheet.rows[at] for at in rest]
    origin += [(at, -1) for at in rest]
    table = OrderTable(tuple(columns), (), None, body, body)
    new = _turned(sheet, rows, origin, cells_at)
    return new, Layout(tuple(range(len(body), len(rows))), (table,))


def _names_above(sheet: Sheet, labels: list[_Label]) -> list[_Label]:
    """Return a label for the row above the first one that names the parts which stand along columns."""
    if not _in_columns(sheet, labels):
        return []
    top, first = labels[0].row, labels[0].column
    above = [at for at in range(top) if any(not is_empty(cell) for cell in sheet.rows[at])]
    row = sheet.rows[above[-1]] if above else []
    ends = _value_columns(sheet, labels)
    named = [text_of(row[end]) for end in ends if end < len(row) and not is_empty(row[end])]
    alone = all(
        is_empty(cell) or at in ends or (at == first and _titled(cell)) for at, cell in enumerate(row)
    )
    if not alone or len(named) != len(ends) or len(set(named)) != len(named):
        return []
    known = any(label.meaning.field == "part_no" for label in labels)
    return [_Label(above[-1], first, "", Meaning("carried" if known else "part_no"))]


def _titled(cell: Cell) -> bool:
    """Return whether a cell is short enough for a label, and holds no figure: Spool."""
    text = text_of(cell)
    return len(text) <= _LONGEST_LABEL and not any(sign.isdecimal() for sign in text)


_LONGEST_LABEL = 30


def _with_others(sheet: Sheet, labels: list[_Label]) -> list[_Label]:
    """Return the labels of parts that stand along columns, and those among and below them that say nothing
    known: what stands beside one under a part is said of it.
    """
    if not _in_columns(sheet, labels):
        return labels
    first, ends = labels[0].column, _value_columns(sheet, labels)
    taken = {label.row for label in labels}
    more: list[_Label] = []
    for at in range(labels[0].row + 1, len(sheet.rows)):
        row = sheet.rows[at]
        filled = [index for index, cell in enumerate(row) if not is_empty(cell)]
        if at > labels[-1].row and not filled:
            break
        beside = any(index in ends for index in filled)
        if at not in taken and first in filled and beside and _titled(row[first]):
            more.append(_Label(at, first, text_of(row[first]), Meaning()))
    return sorted((*labels, *more), key=lambda one: one.row)


def _in_columns(sheet: Sheet, labels: list[_Label]) -> bool:
    """Return whether labels head parts that stand in several columns beside them."""
    return _enough(labels) and len(_value_columns(sheet, labels)) > 1


def _turned(
    sheet: Sheet,
    rows: list[list[Cell]],
    origin: list[tuple[int, int]],
    cells_at: dict[tuple[int, int], tuple[int, int]],
) -> ReshapedSheet:
    """Return the sheet of the rows; what holds of a cell goes with it to where `cells_at` says it stands."""
    return ReshapedSheet(
        sheet.file,
        sheet.name,
        rows,
        hidden_rows=frozenset(cells_at[at][0] for at in cells_at if at[1] in sheet.hidden_columns),
        shown={cells_at[at]: text for at, text in sheet.shown.items() if at in cells_at},
        struck=frozenset(cells_at[at] for at in sheet.struck if at in cells_at),
        asides=sheet.asides,
        source=sheet.source,
        comments={cells_at[at]: text for at, text in sheet.comments.items() if at in cells_at},
        boxes=(*sheet.boxes, *(text for at, text in sheet.comments.items() if at not in cells_at)),
        origin=tuple(origin),
    )


def _labels(sheet: Sheet, recognise: Recognise) -> list[_Label]:
    found = []
    for at, row in enumerate(sheet.rows[:_MOST_FORM_ROWS]):
        filled = [index for index, cell in enumerate(row) if not is_empty(cell)]
        behind = dict(pairwise(filled))  # a row may be 16,384 cells wide
        column = 0
        while column < len(row) - 1:
            if column not in behind:
                column += 1
                continue
            text, value = text_of(row[column]), text_of(row[behind[column]])
            bare = _bare(text)
            meaning = recognise(bare) if bare and not any(sign.isdecimal() for sign in bare) else Meaning()
            if meaning.field in _NO_COUNTS:
                meaning = _counted_parts(bare, value) or meaning
            if meaning.field in _SIZES and _NUMBER_OF_A_PAPER.fullmatch(value):
                meaning = Meaning()
            repeated = column > 0 and text == text_of(row[column - 1])  # a value of parts in columns
            if meaning.field in ("", *_NAMING) and bare and _is_whole(value):
                meaning = Meaning("description")
            if meaning.field and not repeated and value:
                found.append(_Label(at, column, text, meaning, value))
                column += 1
            column += 1
    return _with_blank(sheet, recognise, _counted_once(found))


_PARTS = (
    r"(?:shells|cans|rings|plates|cylinders|cyls|cones|segments|petals|pipes|tubes|sleeves|strakes|drums|collars"
    r"|liners|bands|hoops|rims|pieces|pcs|parts|items|viroles|virolas|anillos|schusse|ringen|mantels)"
)
_COUNT_OF_PARTS = re.compile(
    rf"(?:(?:no|nos|nr|num|number|qty|quantity|count|#)\b\.?\s*(?:of\s+)?|(?:total|rolled)\s+)*{_PARTS}"
    r"(?:\s+(?:required|reqd|req'd|needed|wanted|ordered|off|to (?:be )?(?:make|made|roll|rolled|supply)))?"
    r"|number|nos|n|(?:required|reqd|needed|wanted)",
    re.I,
)
"""What a label counts that names the parts themselves: No. of cans, Shells required."""


def _counted_parts(label: str, value: str) -> Meaning | None:
    """Return a count for a label that names parts, or the need of them, beside a whole number of them."""
    if count_of(value).number is None or _COUNT_OF_PARTS.fullmatch(folded(label).strip(" ?.:")) is None:
        return None
    return Meaning("quantity", sure=False, by_words=True)


_NO_COUNTS = frozenset(("", "number", "part_no", "description", "due", "multiplier", "reqd", "shape"))
"""What a label may be taken for that counts parts by their name."""


def _counted_once(labels: list[_Label]) -> list[_Label]:
    """Return labels without counts that only their names tell, where another label gives the quantity."""
    counts = [
        one for one in labels if one.meaning.field == "quantity" and count_of(one.value).number is not None
    ]
    if not any(one.meaning.sure for one in counts):
        return labels
    return [one for one in labels if one not in counts or one.meaning.sure]


_LEFT_BLANK = frozenset(("thickness", "quantity", "material", "length", "height"))


def _with_blank(sheet: Sheet, recognise: Recognise, labels: list[_Label]) -> list[_Label]:
    """Return the labels and those beside which nothing stands: what a part lacks is asked, and not refused.

    Only of what every part needs, and where no other label gives it.
    """
    if not _enough(labels):
        return labels
    column = min(one.column for one in labels)
    known = {one.meaning.field for one in labels}
    taken = {one.row for one in labels}
    more = []
    for at, row in enumerate(sheet.rows[:_MOST_FORM_ROWS]):
        text = text_of(row[column]) if column < len(row) else ""
        if at in taken or not text or any(not is_empty(cell) for cell in row[column + 1 :]):
            continue
        meaning = recognise(_bare(text))
        across = {"length", "height"} & {meaning.field} and {"length", "height", "width"} & known
        if meaning.field in _LEFT_BLANK - known and not across:
            more.append(_Label(at, column, text, meaning))
            known.add(meaning.field)
    return sorted((*labels, *more), key=lambda one: (one.row, one.column))


def _enough(labels: list[_Label]) -> bool:
    fields = {label.meaning.field for label in labels}
    if len(fields) >= _FEWEST_LABELS and len(fields & _SIZES) > 1:
        return True
    told = [one for one in labels if one.meaning.field in _TELLS and _is_whole(one.value)]
    others = [one.meaning.field for one in labels if one not in told]
    return len(told) == 1 and len(others) > 1 and "quantity" in others


_NUMBER_OF_A_PAPER = re.compile(r"[A-Z]{0,3}\d{1,6}-\d{2,6}")
"""41-24 beside a label that may be one of a size: the number of an enquiry."""
_NAMING = frozenset(("part_no", "number", "quantity", "shape"))
_TELLS = frozenset(("size", "description"))
_FIGURE = re.compile(r"(?<![\w.,])(?:[øØ]\s?)?\d+(?:[.,]\d+)?")


def _is_whole(text: str) -> bool:
    """Return whether the text beside a label tells a whole part: three sizes, and what joins them."""
    return len(_FIGURE.findall(text)) >= _FEWEST_LABELS and _JOINED.search(text) is not None


_JOINED = re.compile(r"\d\s?(?:mm\s?)?[x×*]\s?\d|[^\W\d_]{2,}")


def _parted(sheet: Sheet, labels: list[_Label]) -> list[list[_Label]]:
    """Return the labels of each part where blank rows part whole data sheets, else nothing."""
    blocks: list[list[_Label]] = [[]]
    for label in labels:
        between = sheet.rows[blocks[-1][-1].row + 1 : label.row] if blocks[-1] else []
        if any(all(map(is_empty, row)) for row in between):
            blocks.append([])
        blocks[-1].append(label)
    if len(blocks) < 2 or not all(map(_enough, blocks)):
        return []
    return [[*_name_above(sheet, block), *block] for block in blocks]


def _name_above(sheet: Sheet, block: list[_Label]) -> list[_Label]:
    """Return the label of the name that heads a data sheet: `Sheet`, `2 - Cone`; whatever the label is."""
    first = block[0]
    row = sheet.rows[first.row - 1] if first.row else []
    filled = [at for at, cell in enumerate(row) if not is_empty(cell)]
    known = any(label.meaning.field == "description" for label in block)
    if known or filled != [first.column, first.column + 1] or not _titled(row[first.column]):
        return []
    named = _NUMBERED_NAME.sub("", text_of(row[first.column + 1]), count=1)
    return [_Label(first.row - 1, first.column, text_of(row[first.column]), Meaning("description"), named)]


_NUMBERED_NAME = re.compile(r"^\s*\d{1,2}\s*[-–—.:)]+\s*(?=[^\W\d_])")
"""2 - Cone: the second data sheet; how many there are stands beside a label of its own."""


def _blocks(labels: list[_Label]) -> list[list[_Label]]:
    """Return the labels of each part, where the same labels stand again and again down the sheet."""
    blocks: list[list[_Label]] = [[]]
    for label in labels:
        if label.text in [one.text for one in blocks[-1]]:
            blocks.append([])
        blocks[-1].append(label)
    return blocks if all(_enough(block) for block in blocks) else [labels]


def _side_by_side(labels: list[_Label]) -> list[list[_Label]]:
    """Return the labels of each block where data sheets of the same labels stand beside one another."""
    columns = sorted({label.column for label in labels})
    blocks = [[label for label in labels if label.column == column] for column in columns]
    first = {label.text for label in blocks[0]}
    alike = all(2 * len(first & {label.text for label in block}) >= len(block) for block in blocks)
    return blocks if alike and len(blocks) > 1 and all(_enough(block) for block in blocks) else []


def _value_columns(sheet: Sheet, block: list[_Label]) -> list[int]:
    """Return the columns that hold parts: at least two sizes with figures stand in them."""
    sizes = [label for label in block if label.meaning.field in _SIZES]
    first = block[0].column + 1
    width = max(len(sheet.rows[label.row]) for label in block)
    found = []
    for column in range(first, width):
        texts = [text_of(_value(sheet, label, column)) for label in sizes]
        if column == first or sum(any(sign.isdecimal() for sign in text) for text in texts) > 1:
            found.append(column)
    return found


def _value(sheet: Sheet, label: _Label, column: int) -> Cell:
    """Return the value beside a label, with the unit that stands in the cell after it."""
    row = sheet.rows[label.row]
    value = row[column] if column < len(row) else ""
    unit = text_of(row[column + 1]).partition(",")[0] if column + 1 < len(row) else ""
    if unit_word(unit) and label.meaning.field in _SIZES and not is_empty(value):
        return f"{text_of(value)} {unit}"
    if label.meaning.field == "description" and label.value and text_of(value).endswith(label.value):
        return label.value  # without its number
    return value


def _first_of_part(block: list[_Label]) -> _Label:
    """Return the first label of a block that says something of the part, and not who asks for it."""
    return next((label for label in block if label.meaning.field != "carried"), block[0])


def _beside(sheet: Sheet, label: _Label) -> str:
    """Return what stands after the value of a label and is no unit of it."""
    row = sheet.rows[label.row]
    if label.column + 2 >= len(row) or len(row) > label.column + _FORM_WIDTH:
        return ""
    text = text_of(row[label.column + 2])
    unit, comma, more = text.partition(",")
    return more.strip() if unit_word(unit) and comma else "" if unit_word(unit) else text


def _lines(sheet: Sheet, materials: Materials) -> tuple[Sheet, Layout] | None:
    """Return a table of one text column: a mail with a part a line, or cells that say what they are."""
    rows: list[list[Cell]] = []
    for row in sheet.rows:
        texts = [text_of(cell) for cell in row if not is_empty(cell)]
        rows.append([", ".join(texts)] if texts else [])
    parts = [at for at, row in enumerate(rows) if row and _is_part(str(row[0]), materials)]
    parts = parts[1:] if _heads_others(rows, parts, materials) else parts
    if not parts:
        return None
    parts += [at for at in _listed(rows, parts) if at not in parts]
    first, last = min(parts), max(parts)
    parts += [at for at in _in_cells(sheet, rows, parts, materials) if at not in parts]
    if (counted := _numbered_rows(sheet, parts)) is not None:
        return counted
    parts += [
        at
        for at in range(first, last)
        if at not in parts and rows[at] and _refers(str(rows[at][0]), materials)
    ]
    parts += [
        at for at in range(first, len(rows)) if at not in parts and rows[at] and _some(str(rows[at][0]))
    ]
    filled = [at for at, row in enumerate(rows) if row]
    above = tuple(at for at in filled if at < first)
    body = tuple(at for at in filled if at >= first)
    column = TableColumn(0, "", Meaning("description"))
    table = OrderTable((column,), (), None, body, tuple(sorted(parts)))
    rows = _with_counts(rows, sorted(parts), materials)
    return replace(sheet, rows=rows), Layout(above, (table,))


_OF_ALL = re.compile(
    r"\b(?:all|each|every\w*|alle[ns]?|jeweils|tous|toutes|todos|todas|tod[oa]|tutti|tutte|tutto|tudo|wszystkie|v[šs]echny"
    r"|alla|kaikki|hepsi|t[üu]m[üu]?|minden|toate|sve|все)\b|全部|都",
    re.I,
)


def _heads_others(rows: list[list[Cell]], parts: list[int], materials: Materials) -> bool:
    """Return whether the first line of sizes is no part but says what those below have: all 48 ID, 3/16 A36.

    It speaks of all, or ends in a colon, and counts none; each line below it gives its own pieces.
    """
    text = str(rows[parts[0]][0]).rstrip() if parts else ""
    if len(parts) <= _FEWEST_COUNTS or not (text.endswith(":") or _OF_ALL.search(text)):
        return False
    first, *below = (part_text(str(rows[at][0]), NumberStyle.POINT, materials) for at in parts)
    counted = first.count is None and all(one.count is not None for one in below)
    sizes = [len(one.sizes) for one in (first, *below)]
    return counted and sizes[0] < _FEWEST_LABELS and min(sizes[1:]) < _FEWEST_LABELS


_COUNTED = re.compile(
    r"\s*\d{1,3}(?:\s*(?:x|pcs?|pce|off|nos?|st|stk|szt|uds?|pzs?|ks|db|ea)\b[.,:]{0,2}|\.?)\s+"
    r"(?!(?:weeks?|days?|months?|hours?|years?|working|wochen?|tagen?|tage|monate|jours?|semaines?|mois|d[ií]as?"
    r"|semanas?|meses|weken|dagen|settimane|giorni|mesi|copies|certs?|certificates?|sets?|deg\w*|mm|cm|in|ft|ga|gauge|gage|thk)\b)"
    r"[^\W\d_]{2,}",
    re.I,
)
"""A line that begins with a count of something, and not with a time to wait."""


_STREET = re.compile(
    r"\b(?:lane|streets?|roads?|rd|avenue|ave|drive|close|crescent|boulevard|blvd|way|trading estate"
    r"|industrial (?:estate|park)|business park|suite|room|floor|rue|avenida|calle|via|ulica|ul|allee|weg"
    r"|\w+str(?:asse|aße)?|[\w-]+straat)\b\.?(?!\s*\d+\s?(?:x|mm|\"))"
    r"|\b[A-Z]{1,2}\d{1,2} \d[A-Z]{2}\b",
    re.I,
)
"""12 Mill Lane: an address, whose number counts nothing."""


def _listed(rows: list[list[Cell]], parts: list[int]) -> list[int]:
    """Return the rows that begin with a bullet, an item number or a count, as the parts among them do."""
    found: list[int] = []
    for mark in (_BULLET, _ITEM, _BRACKETED, _PIECES_OF):
        if any(mark.match(str(rows[at][0])) for at in parts):
            alike = [at for at, row in enumerate(rows) if row and mark.match(str(row[0]))]
            found += [at for at in alike if at > parts[0] or _sized_alike(rows, at, parts[0])]
    found += _named_alike(rows, parts) + _counted_alike(rows, parts)
    marks = {match[1] for at in parts if (match := _MARK.match(str(rows[at][0])))}
    found += [
        at
        for at in range(parts[0] if marks else len(rows), len(rows))
        if rows[at] and (match := _MARK.match(str(rows[at][0]))) and match[1] in marks
    ]
    if all(_COUNTED.match(str(rows[at][0])) for at in parts):
        below = [at for at in range(parts[0], len(rows)) if rows[at]]
        found += [
            at for at in below if _COUNTED.match(str(rows[at][0])) and not _STREET.search(str(rows[at][0]))
        ]
    dashed = [
        (at, int(match[1]))
        for at in range(parts[0], len(rows))
        if rows[at] and (match := _DASHED.match(str(rows[at][0])))
    ]
    if len(dashed) >= _FEWEST_LABELS and [number for _, number in dashed] == list(range(1, len(dashed) + 1)):
        found += [at for at, _ in dashed]
    return list(dict.fromkeys(found))


def _sized_alike(rows: list[list[Cell]], at: int, first: int) -> bool:
    """Return whether a line right above the parts has figures of sizes: it is one that was not clear."""
    between = rows[at:first]
    return all(between) and all(len(_FIGURE.findall(str(row[0]))) >= _FEWEST_LABELS for row in between)


_MARK_AND_WORDS = re.compile(r"\s*([A-Z]{1,3})-?\d{1,3}[A-Za-z]?\s+(?=\S)")


def _named_alike(rows: list[list[Cell]], parts: list[int]) -> list[int]:
    """Return the rows of numbers that begin with a mark of letters that two parts begin with: P1 shell."""
    begun = {at: _MARK_AND_WORDS.match(str(row[0])) for at, row in enumerate(rows) if row}
    letters = [match[1] for at in parts if (match := begun[at])]
    alike = {one for one in letters if letters.count(one) > 1}
    return [
        at
        for at, match in begun.items()
        if match and match[1] in alike and len(_FIGURE.findall(str(rows[at][0]), match.end())) > 1
    ]


_COUNT_AND_UNIT = re.compile(r"\s*(?:\d{1,3}[.):]\s+)?\d{1,3}\s?([^\W\d_]{1,6})\.?\s")


def _counted_alike(rows: list[list[Cell]], parts: list[int]) -> list[int]:
    """Return the rows of numbers that begin as two parts do, with a count and its word: 2 u. shell."""
    begun = {at: _COUNT_AND_UNIT.match(str(row[0])) for at, row in enumerate(rows) if row}
    words = [match[1] for at in parts if (match := begun[at])]
    alike = {one for one in words if words.count(one) > 1}
    return [
        at
        for at, match in begun.items()
        if match and match[1] in alike and len(_FIGURE.findall(str(rows[at][0]), match.end())) > 1
    ]


_COUNT_AND_WORD = re.compile(
    r"\s*(\d{1,3})\s+(?=[^\W\d_]{3,}[\s,-])(?!(?:mm|inch|inches|feet|gauge|plates?|sheets?|deg|degrees|dia|diam|rad"
    r"|od|id|long|thk|thick|wide|high|wall)\b)"
)
_COUNT_SET_APART = re.compile(
    r"\s*(?:(?:n|nr|no|n°|nº)\s?[.:°]?\s?(\d{1,3})\s+(?=[^\W\d_]{3})|(\d{1,3})\s?/\s+(?=\S))", re.I
)
"""n.4 shell, 2/ 36 OD: the number of a line, or its count."""


def _with_counts(rows: list[list[Cell]], parts: list[int], materials: Materials) -> list[list[Cell]]:
    """Return the rows with the number that every part begins with as its count: 2 body 84 ID, n.4 shell.

    Numbers that go up may be those of the lines; those that some lines give as their count are counts.
    """
    texts = {at: str(rows[at][0]) for at in parts}
    for pattern, most in ((_COUNT_AND_WORD, len(parts)), (_COUNT_SET_APART, 0)):
        counts = {at: match for at, text in texts.items() if (match := pattern.match(text))}
        numbers = [int(next(filter(None, match.groups()))) for match in counts.values()]
        if len(numbers) < max(_FEWEST_COUNTS, len(parts)) or _number_lines(numbers, most):
            continue
        told = [part_text(text, NumberStyle.POINT, materials).count for text in texts.values()]
        if any(one not in (None, number) for one, number in zip(told, numbers, strict=True)):
            continue
        new = list(rows)
        for at, one, number in zip(parts, told, numbers, strict=True):
            if one is None:
                new[at] = [f"({number}) {texts[at][counts[at].end() :]}"]
        return new
    return rows


def _number_lines(numbers: list[int], most: int) -> bool:
    """Return whether numbers may be those of lines: 1, 2, 3, and again from 1, or such that all go up.

    Counts before a word may go up, unless they run on, or by tens.
    """
    steps = [after - before for before, after in pairwise(numbers)]
    runs = numbers[0] == 1 and all(
        step == 1 or after == 1 for step, after in zip(steps, numbers[1:], strict=True)
    )
    tens = all(step == _TENS for step in steps)
    return runs or tens or (not most and all(step > 0 for step in steps))


_TENS = 10
_FEWEST_COUNTS = 2


def _numbered_rows(sheet: Sheet, parts: list[int]) -> tuple[Sheet, Layout] | None:
    """Return a list without a head whose first cells count 1, 2, 3 and whose second ones are whole numbers.

    They are the items and the pieces of each; the other cells are what the part is.
    """
    cells = {at: [cell for cell in row if not is_empty(cell)] for at, row in enumerate(sheet.rows)}
    listed = [at for at, row in cells.items() if len(row) >= _FEWEST_LABELS and text_of(row[0]).isdecimal()]
    numbers = [text_of(cells[at][0]) for at in listed]
    counts = [text_of(cells[at][1]) for at in listed]
    running = len(listed) > 1 and numbers == [str(number) for number in range(1, len(listed) + 1)]
    if not running or not {*parts} <= {*listed} or not all(map(str.isdecimal, counts)):
        return None
    if any(len(text_of(cell)) <= _LONGEST_COUNT for at in listed for cell in cells[at][2:3]):
        return None  # sizes in cells of their own: which is which is not told
    rows: list[list[Cell]] = [[", ".join(map(text_of, row))] if row else [] for row in cells.values()]
    for at in listed:
        rows[at] = [*cells[at][:2], ", ".join(map(text_of, cells[at][2:]))]
    fields = ("number", "quantity", "description")
    columns = tuple(TableColumn(index, "", Meaning(field)) for index, field in enumerate(fields))
    filled = [at for at, row in enumerate(rows) if row]
    body = tuple(at for at in filled if at >= listed[0])
    above = tuple(at for at in filled if at < listed[0])
    table = OrderTable(columns, (), None, body, tuple(listed))
    return replace(sheet, rows=rows), Layout(above, (table,))


def _in_cells(sheet: Sheet, rows: list[list[Cell]], parts: list[int], materials: Materials) -> list[int]:
    """Return the rows among parts that fill as many cells and hold as many numbers, though none is marked."""
    cells = [sum(not is_empty(cell) for cell in row) for row in sheet.rows]
    least = min(cells[at] for at in parts)
    if least < _FEWEST_LABELS:
        return []
    between = [at for at in range(parts[0], max(parts)) if at not in parts and cells[at] >= least]
    return [
        at
        for at in between
        if len(part_text(str(rows[at][0]), NumberStyle.POINT, materials).sizes) >= _FEWEST_LABELS
    ]


def _refers(text: str, materials: Materials) -> bool:
    """Return whether a line among parts orders one by an earlier job: whatever we ordered last March."""
    said = part_text(text, NumberStyle.POINT, materials).said
    return any(one.does == "ask" and one.name == "reference" for one in said)


_SOME = re.compile(
    r"\W*(?:and |also |plus )?(?:a few|a couple of|some|several|various|a number of|a handful of)\s+"
    r"(?:(?:more|other|further|small|large|big|short|long|rolled)\s+)*(\w+(?: \w+)?)",
    re.I,
)
_MOST_WORDS = 14


def _some(text: str) -> bool:
    """Return whether a short line below orders parts without their number: a few rings at 900, will tell."""
    match = _SOME.match(text) if len(text.split()) <= _MOST_WORDS else None
    return match is not None and shape_words(match[1]).get("shape") in ("cylinder", "arc", "cone")


_OF_OTHERS = re.compile(
    r"\b(?:everything|all|quantities|parts|items|list|sizes|plates|shells)\b[^,;:]{0,30}"
    r"\b(?:below|as follows|following|hereunder)\b",
    re.I,
)
"""A line that speaks of those below it is none of them."""


def _is_part(text: str, materials: Materials) -> bool:
    if len(text) > LONGEST_TEXT or _QUOTED.match(text) or _OF_OTHERS.search(text):
        return False
    part = part_text(text, NumberStyle.POINT, materials)
    marked = [
        one for one in part.sizes if one.measure.mark or one.joined or one.measure.basis or one.measure.unit
    ]
    if len(marked) >= _FEWEST_SIZES and part.count is None and len(part.sizes) < _FEWEST_LABELS:
        return not all(_says_plate(one) for one in marked)
    return len(marked) >= _FEWEST_SIZES or (
        part.count is not None and bool(marked or (part.materials and part.sizes))
    )


_FEWEST_SIZES = 2


def _says_plate(one: Sighting) -> bool:
    """Return whether a size is the plate's, or says not what it is: all 3/16 A36 (0.1875) is no part."""
    size = one.measure
    return not one.joined and size.basis is None and size.mark in (None, Mark.THICKNESS)
