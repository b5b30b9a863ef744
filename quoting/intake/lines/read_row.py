"""Reads one row of a table, column by column, into a record."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

from quoting.core import Choice, Place, Reading, column_letters
from quoting.intake.cells import (
    READERS,
    ask_date,
    ask_revision,
    carry,
    holds_feet,
    holds_several,
    is_work,
    read_combined,
    read_measure,
    read_size,
    split_material,
    take_material,
    take_text,
    two_ends,
    two_sides,
    who_does,
    with_ends_in_words,
)
from quoting.intake.layout import (
    SIZES,
    Section,
    TableColumn,
    TableContext,
    items_in,
    listed_by_slashes,
    unit_word,
)
from quoting.intake.lines.account import GivenSizes
from quoting.intake.lines.cell_texts import (
    RowTexts,
    crossed,
    names_another_shape,
    says_closed,
    stops_the_line,
)
from quoting.intake.lines.compare_cells import finish_row
from quoting.intake.lines.known_cells import KnownCell, known_cell
from quoting.intake.lines.row_texts import FIELDS, NOTES
from quoting.intake.parts import (
    NEEDED,
    WholeParts,
    agrees,
    as_it_was,
    in_two_ways,
    left_open,
    like_another,
    number_of,
)
from quoting.intake.row_record import Doubt, Record, RowText
from quoting.intake.size_column import MM, SizeColumn
from quoting.intake.texts import (
    is_two_schedules,
    nominal_cell,
    part_text,
    schedule_cell,
    shape_words,
)
from quoting.intake.words import MarkedNotes, said_in_text
from quoting.tables import Cell, text_of

_SAME_AS = re.compile(
    r"\W*(?:same as|as|like|wie|comme|como|come|als|jak) (?:item |line |pos\.? |mark |row |no\.? |#)?"
    r"(\w{1,6}(?:-\w{1,4})?)\W*",
    re.I,
)
"""A cell that stands for that of another row, by its item or mark: same as 4."""
SHAPE_FIELDS = (
    "shape", "half", "diameter", "radius", "basis", "length", "width", "height", "large", "small", "angle",
    "thickness", "gauge", "gauge_metal",
)  # fmt: skip
_ACROSS = {"length", "width", "height"}
_IN_FEET = _ACROSS | {"diameter", "large", "small", "girth", "circumference", "radius"}
_SHAPED = {"shape", "half", "angle"}
_ROUND = {"diameter", "radius", "basis", "large", "small"}
_AS_SIZE = {"gauge": "thickness", "schedule": "thickness", "nominal": "diameter"}
_PLAIN = {
    "part_no": "part_no",
    "drawing": "drawing",
    "revision": "drawn_revision",
    "description": "description",
}
_WHOLE = frozenset(("description", "supply", "size", "diameter", ""))
"""Columns of which a cell may hold a whole part."""
_DASHES_ROUND_IT = " -–—~*.\"'()"
"""-do-, ~ditto~, (idem)"""
_DITTO = frozenset((
    '"', "''", "ditto", "do", "do.", "same", '-"-', "same as above", "as above", "”", "〃", ",,", "„", "“",
    "″", "-''-", "-//-", "—//—", "–//–", "//", "-,,-", "-„-", "^", "↑", "ditto.", "dtto", "dtto.",
    "idem", "id.", "ídem", "dto", "dto.", "dito", "dito.", "d°", "dº", "d.°", "as prev", "as previous",
    "wie vor", "wie oben", "w.v.", "s.o.", "dgl", "dgl.", "desgl", "desgl.", "dasselbe", "gleich",
    "comme ci-dessus", "voir ci-dessus", "même", "c.s.", "come sopra", "c. s.", "stesso", "stessa",
    "igual", "mismo", "misma", "mesmo", "mesma", "als boven", "idem boven", "zelfde", "samma", "s.å.",
    "som ovan", "samme", "som over", "som ovenfor", "sama", "kuten yllä", "jw", "j.w.", "jw.", "jak wyżej",
    "to samo", "viz výše", "totéž", "stejné", "aynı", "aynısı", "yukarıdaki gibi", "ugyanaz", "mint fent",
    "idem sus", "la fel", "то же", "тоже", "так же", "同上",
))  # fmt: skip
"""Marks and words that stand for the cell above."""
_DITTO_WORDS = frozenset(("do", "ditto", "dito", "dto", "dtto", "idem"))
ASK_WORDS = frozenset((
    "tbd", "tba", "tbc", "?", "??", "???", "to suit", "ask", "see drawing", "see dwg", "per dwg",
    "per drawing", "as drawing", "as per drawing", "per print", "as drawn", "see print", "on drawing",
))  # fmt: skip
_SQUARE = re.compile(r"\W*(\d[\d.,]*) ?(?:mm)?\s*[x×*]\s*\1 ?(?:mm)?\W*", re.I)
"""2200 x 2200: no two ends of a cone are alike."""
_LABELLED = re.compile(
    r"\W*(?:pos|poz|item|[ií]tem|partida|rep)\w*\.?\s*(?:no\.?\s*)?(\d{1,3}[a-z]?)\s*[.:)–-]"
    r"|\s*(\d{1,3}[a-z]?)[.)]\s+(?=[^\W\d_]{3})",
    re.I,
)
"""The number of its line that a text begins with: Pos 3: ..; 3. Shell .."""
_DRAWN = re.compile(r"drawing|dwg|print|drawn", re.I)


_OF_WORDS = frozenset(("shape_ok", "eccentric_ok", "status_ok"))
"""Questions about words, which hold however the numbers beside them are read."""
_NEW, _ONCE, _NEVER = 0, 1, 2
"""How often a cell stood in its column so far; never is one that is another thing in each row."""


class OrderRowReader:
    """Reads the rows of one table in order (a ditto mark repeats the row above)."""

    def __init__(self, frame: TableContext) -> None:
        self.frame = frame
        self.section: Section | None = None
        self.noted: Callable[[str], list[str]] | None = None
        self.marked = MarkedNotes(frame.said.notes)
        self._last: Record | None = None
        self._above: dict[int, Cell] = {}
        self._numbered: dict[str, dict[int, Cell]] = {}
        self._records: dict[str, dict[str, str]] = {}
        self._quiet: set[tuple[int, str]] = set()
        self._met: list[dict[Cell, KnownCell | int]] = [{} for _ in frame.table.columns]
        self._merged = _merged_down(frame)
        self._columns = [(column, self._slot(column)) for column in frame.table.columns]
        units = [column.index for column in frame.table.columns if column.meaning.field == "unit"]
        self._described = {
            column.index for column in frame.table.columns if column.meaning.field == "description"
        }
        self._work = {column.index for column in frame.table.columns if is_work(column.header)}
        self._sizes = {
            column.index for column in frame.table.columns if column.meaning.field in ("size", "description")
        }
        listed = ((column, len(listed_by_slashes(column.header))) for column in frame.table.columns)
        self._slashed = {column.index: count for column, count in listed if count}
        self._listing = self._sizes | self._slashed.keys()
        columns = (column for column in frame.table.columns if column.meaning.field in _WHOLE)
        self._whole = WholeParts(frame, tuple(column.index for column in columns))
        self._due = any(column.meaning.field == "due" for column in frame.table.columns)
        self._unit_column = units[0] if units else None
        self._texts = RowTexts(frame)
        self._of_one_cell = 1 if len(frame.table.columns) == 1 else 0
        self._letters = [column_letters(column.index) for column in frame.table.columns]
        self._comments: dict[int, list[tuple[int, str]]] = {}
        for (row, index), text in sorted(frame.sheet.comments.items()):
            self._comments.setdefault(row, []).append((index, text))

    def read(self, row: int, more: list[str] | None = None) -> Record:
        """Return the record of one row of the sheet; `more` are texts of rows that go on with it.

        Where it leaves a size open, a cell that is clear as one whole part is read again as that.
        """
        cells = self.frame.sheet.rows[row]
        if any(at < len(cells) and "/" in text_of(cells[at]) for at in self._listing):
            cells = [_parted(cell, self._slashed.get(at, 0)) for at, cell in enumerate(cells)]
            cells = [_of_a_cone(cells, at) if at in self._sizes else cell for at, cell in enumerate(cells)]
        above = self._last
        record = self._read(row, cells, more)
        spelled = self._whole.of(cells)
        if spelled is None:
            return record
        open_ = left_open(record)
        if not open_ and agrees(record, spelled.sizes):
            return record
        kept, self._last = dict(self._above), above
        written = [spelled.new if index == spelled.index else cell for index, cell in enumerate(cells)]
        again = self._read(row, written, more)
        now = left_open(again)
        if agrees(again, spelled.sizes) and {*again.doubts} - {*record.doubts} <= now:
            if now < open_ or (len(now) < len(open_) and not now & NEEDED):
                asked = {name: one for name, one in record.doubts.items() if name in _OF_WORDS}
                again.doubts = {**again.doubts, **asked}
                return as_it_was(again, spelled, record.values.get("description", ""))
            if not open_:
                in_two_ways(record, again, spelled, self.frame.desk)
        self._above = kept
        self._keep(record, cells)
        return self._remembered(record)

    def _read(self, row: int, cells: list[Cell], more: list[str] | None) -> Record:
        sheet = self.frame.sheet
        record = Record(sheet.place(row))
        crossed(record, sheet, row)
        noted, cells = self._by_marks(cells) if self.marked else ([], cells)
        columns = self._columns
        if self._unit_column is not None:
            columns = self._in_unit_of_row(record, cells)
        width, shown, name, number = len(cells), sheet.shown, sheet.name, record.place.row
        above, merged, same_unit = self._above, self._merged, columns is self._columns
        for (column, slot), letter, met in zip(columns, self._letters, self._met, strict=True):
            index = column.index
            cell = cells[index] if index < width else ""
            if cell == "" and (cell := merged.get((row, index), "")) == "":
                continue
            place = Place(sheet.file, name, number, letter, column.header)
            own = shown.get((row, index)) if shown else None
            usual = own is None and same_unit and cell.__class__ is not bool  # True would be met as 1
            known = met.get(cell) if usual else None
            if isinstance(known, KnownCell) and known.put(record, place):
                above[index] = cell
                continue
            if isinstance(cell, str):
                if cell.isspace():
                    continue
                cell = self._referred(cell, index)
            above[index] = cell
            if own is not None:
                cell = own
            if index in self._work and isinstance(cell, str):
                cell = _of_who_works(record, column, cell)
                if not cell:
                    continue
            if isinstance(cell, str) and (index, cell) not in self._quiet:
                if self._texts.status(record, column, cell, place):
                    continue
                self._quiet.add((index, cell))
            self._cell(record, column, slot, cell, place)
            if usual and known != _NEVER:
                self._meet(met, column, slot, cell, place)
        self._texts.unwanted(record, cells)
        record.texts += [RowText("remark", text, record.place) for text in more or ()]
        self._commented(record, row)
        self._note(record, noted, sheet.rows[row])
        self._keep(record, cells)
        return self._finished(record)

    def _finished(self, record: Record) -> Record:
        """Return the record with what its heading and the rows it names say, compared as a whole."""
        if self.section is not None:
            self._under_heading(record, self.section)
        self._like_another(record)
        finish_row(record, self.frame, self.section)
        return self._remembered(record)

    def _remembered(self, record: Record) -> Record:
        """Return the record, kept for the rows below that name it or say ditto."""
        self._last = record
        number = record.values.get("number") or record.values.get("part_no")
        if number := number or number_of(record.values.get("description", "")):
            self._records[number.lower()] = dict(record.values)
        return record

    def _referred(self, cell: str, index: int) -> Cell:
        """Return what a cell stands for that repeats the row above, or names another: ditto, same as 4."""
        plain = cell.strip().lower()
        if plain in _DITTO or plain.strip(_DASHES_ROUND_IT) in _DITTO_WORDS:
            return self._above.get(index, cell)
        same = None if index in self._described else _SAME_AS.fullmatch(cell)
        return cell if same is None else self._numbered.get(same[1].lower(), {}).get(index, cell)

    def _keep(self, record: Record, cells: list[Cell]) -> None:
        """Keep what the cells of a row stand for by its number, for rows below that name it."""
        number = record.values.get("number") or record.values.get("part_no")
        if number:
            filled = (index for index in self._above if index < len(cells) and cells[index] != "")
            self._numbered[number.lower()] = {index: self._above[index] for index in filled}

    def _meet(
        self,
        met: dict[Cell, KnownCell | int],
        column: TableColumn,
        slot: SizeColumn | None,
        cell: Cell,
        at: Place,
    ) -> None:
        """Keep what a cell that stands in its column a second time puts into a row."""
        count = met.get(cell, _NEW)
        if count == _NEW:
            met[cell] = _ONCE
        elif count == _ONCE:
            found = known_cell(lambda record, place: self._cell(record, column, slot, cell, place), at)
            met[cell] = _NEVER if found is None else found

    def _commented(self, record: Record, row: int) -> None:
        """Take the comments that hang on the cells of a row as its remarks."""
        for index, text in self._comments.get(row, ()):
            place = self.frame.sheet.place(row, index)
            record.texts.append(RowText("remark", text_of(text), place, "the comment on a cell", free=True))
            record.remarks.append(text_of(text))

    def _by_marks(self, cells: list[Cell]) -> tuple[list[str], list[Cell]]:
        """Return the notes that a row points to or bears the mark of, and its cells without those marks."""
        texts = (cell for cell in cells if isinstance(cell, str) and cell)
        notes = dict.fromkeys(note for text in texts for note in self.marked.about(text))
        found = [note for note in notes if not items_in(note)]  # those are told by the number of the row
        plain = [self.marked.plain(cell) if isinstance(cell, str) else cell for cell in cells]
        return found, plain if found else cells

    def _note(self, record: Record, noted: list[str], cells: list[Cell]) -> None:
        """Take what notes elsewhere say of the row, by its number or its marks, as a remark of the row."""
        number = record.values.get("number") or record.values.get("part_no", "")
        if not number:
            texts = [row.text for row in record.texts if row.kind != "remark"]
            texts += [cell for cell in cells if isinstance(cell, str) and cell][: self._of_one_cell]
            labelled = map(_LABELLED.match, texts)
            if match := next((found for found in labelled if found), None):
                number = record.values["number"] = match[1] or match[2]
        by_number = self.noted(number) if self.noted is not None and number else []
        for text in (*by_number, *noted):
            record.texts.append(RowText("remark", text, record.place, NOTES, free=True))
            record.remarks.append(text)

    def _like_another(self, record: Record) -> None:
        """Take what a description leaves unsaid from the row that it names, or from the one above: ditto."""
        text = record.values.get("description", "")
        like = like_another(text, self.frame.style, self.frame.materials)
        if like is None:
            return
        above = self._last.values if self._last else None
        other = self._records.get(like.number.lower()) if like.number else above
        if other is None:
            return
        said = (
            f"the rest as {like.number or 'the row above'}, as {'the row' if like.number else 'ditto'} says"
        )
        record.texts = [replace(row, text=like.rest) if row.text == text else row for row in record.texts]
        self._ask_loose(record)
        self._unsaid(record, other)
        record.assumptions.append(said)

    def _ask_loose(self, record: Record) -> None:
        """Ask for what a number is that differs from the row named, and does not say what it is: but 36."""
        given = GivenSizes(record, self.frame)
        for row in record.texts:
            part = part_text(row.text, self.frame.style, self.frame.materials)
            bare = (one.measure for one in part.sizes if row.kind == "description")
            loose = [size for size in bare if not (size.mark or size.basis or size.unit or given.hold(size))]
            if loose:
                shown = ", ".join(f"{size.low:g}" for size in loose)
                asked = f'"{row.text}": what is the number {shown} for? It was not used for a size.'
                record.doubt(Doubt("number_ok", row.place, row.text, asked))

    def _unsaid(self, record: Record, other: dict[str, str]) -> None:
        """Fill what the cells and texts of a row do not give from another row's values."""
        parts = [part_text(row.text, self.frame.style, self.frame.materials) for row in record.texts]
        own = {FIELDS[one.measure.mark] for part in parts for one in part.sizes if one.measure.mark}
        own |= {"material"} if any(part.materials or part.families for part in parts) else set()
        for group, said in (
            (_ACROSS, own & _ACROSS),
            (_SHAPED, any(shape_words(row.text) for row in record.texts)),
            (_ROUND, any(one.measure.basis for part in parts for one in part.sizes)),
        ):
            own |= group if said else set()
        for name in (*SHAPE_FIELDS, "material"):
            if name in other and name not in record.values and name not in own:
                record.values[name] = other[name]

    def _under_heading(self, record: Record, section: Section) -> None:
        """Take what the heading above the row says, where the row says nothing itself."""
        said = f'as the heading "{section.text}" says'
        if section.thickness is not None and not {"thickness", "gauge"} & {*record.values, *record.doubts}:
            slot = SizeColumn("thickness", "", None, self.frame.unit.unit, self.frame.style)
            read_measure(record, slot, section.thickness, record.place, section.text, self.frame.desk)
            record.assumptions.append(f"thickness {said}")
        round_ = {"diameter", "radius", "large", "small", "chord"} & set(record.values)
        if section.basis is not None and round_ and not record.values.get("basis"):
            record.values["basis"] = str(section.basis)
            record.assumptions.append(f"{section.basis} sizes, {said}")
        own = record.values.get("material") or "material" in record.doubts
        if (section.material or section.family) and not own:
            text = section.material or "stainless"
            record.values["material_text"] = text
            take_material(record, self.frame.materials, text, record.place)
            if section.material:
                record.assumptions.append(f"material {section.material}, {said}")
        record.texts.append(RowText("heading", section.text, record.place, "the heading above"))

    def _in_unit_of_row(
        self, record: Record, cells: list[Cell]
    ) -> list[tuple[TableColumn, SizeColumn | None]]:
        """Return the columns with the unit that the row names; a header that says another is a doubt."""
        index = self._unit_column
        assert index is not None
        text = text_of(cells[index]) if index < len(cells) else ""
        unit = {"ft": "", "ga": "", "deg": ""}.get(unit_word(text), unit_word(text))
        if not unit:
            return self._columns
        metric = unit != "in"
        for column, slot in self._columns:
            clash = (
                slot is not None
                and slot.header_unit in MM
                and (slot.header_unit not in ("in", "ft")) != metric
            )
            if clash and index < len(cells):
                asked = f'The row is in {text}, its column "{column.header}" is not; which unit is right?'
                place = Place(record.place.file, record.place.sheet, record.place.row, column_letters(index))
                record.doubt(
                    Doubt(
                        "row_unit",
                        place,
                        text,
                        asked,
                        (Choice("as the columns", (("row_unit", "columns"),)),),
                    )
                )
                return self._columns
        return [
            (column, None if slot is None else replace(slot, bare_unit=unit))
            for column, slot in self._columns
        ]

    def _slot(self, column: TableColumn) -> SizeColumn | None:
        meaning = column.meaning
        field = _AS_SIZE.get(meaning.field, meaning.field)
        if field not in SIZES:
            return None
        unit = "ga" if meaning.field == "gauge" else meaning.unit
        basis = meaning.basis
        general = basis is None and field in (
            "diameter",
            "large",
            "small",
            "radius",
            "top",
            "bottom",
            "chord",
        )
        if general:
            basis = self.frame.basis
        strict = general or not self._holds_plain_sizes(column)
        general = general and self.frame.said.basis_unless_noted
        feet = unit in ("", "in", "ft") and self.frame.unit.unit == "in" and field in _IN_FEET
        return SizeColumn(
            field,
            unit,
            basis,
            self.frame.unit.unit,
            self.frame.style,
            column.header,
            general,
            strict,
            (feet or unit == "ft") and holds_feet(column.header, self._texts_under(column)),
        )

    def _texts_under(self, column: TableColumn) -> list[str]:
        rows = (self.frame.sheet.rows[row] for row in self.frame.table.rows)
        return [text_of(row[column.index]) for row in rows if column.index < len(row)]

    def _holds_plain_sizes(self, column: TableColumn) -> bool:
        """Return whether a cell of a column is a number without words: it stands as the heading says."""
        rows = (self.frame.sheet.rows[row] for row in self.frame.table.rows)
        cells = (row[column.index] for row in rows if column.index < len(row))
        plain = (text_of(cell) for cell in cells)
        return any(
            any(sign.isdecimal() for sign in text) and not any(sign.isalpha() for sign in text)
            for text in plain
        )

    def _cell(
        self, record: Record, column: TableColumn, slot: SizeColumn | None, cell: Cell, place: Place
    ) -> None:
        field = column.meaning.field
        if isinstance(cell, str):
            if self._texts.wordy[column.index]:
                self._texts.keep(record, column, cell, place)
            if field == "angle" and self._texts.angled(record, column, cell, place):
                return
        if slot is not None and slot.field == "thickness" and _schedule(record, column, cell, place):
            return
        if field == "nominal":
            cell = nominal_cell(text_of(cell), column.header)
        if slot is not None:
            self._of_a_size(record, column, slot, cell, place)
            return
        if field in ("ignored", "wanted"):
            return
        reader = READERS.get(field)
        if reader is not None:
            reader(record, self.frame, column, cell, place)
            if field == "number" and isinstance(cell, str) and _WORD.search(cell):
                _behind_a_number(record, cell, place)
        elif field in _PLAIN:
            _plain(record, field, text_of(cell), place)
        else:
            carry(record, self.frame, column, cell, place)
            if not field:
                self._unknown(record, column, cell, place)

    def _of_a_size(
        self, record: Record, column: TableColumn, slot: SizeColumn, cell: Cell, place: Place
    ) -> None:
        """Read a cell of a size column: the whole circle, sizes to be read with the row, or a size."""
        if isinstance(cell, str) and says_closed(slot.field, cell):
            record.values.setdefault("shape", "cylinder")
        elif not self._texts.sized(record, column, slot, cell, place):
            self._sized(record, slot, cell, place, column.meaning.field)

    def _unknown(self, record: Record, column: TableColumn, cell: Cell, place: Place) -> None:
        """Say that a size was not understood, or ask whether a date is that of delivery."""
        if (column.meaning.unit and not isinstance(cell, str)) or _may_count(cell):
            read = f"{column.header}: {text_of(cell)}"
            record.assumptions.append(f'"{read}" was not understood, nothing is priced for it')
        elif isinstance(cell, str) and self.frame.unit.unit == "mm" and _OF_A_CIRCLE.fullmatch(cell.strip()):
            nothing = Choice("nothing that changes the part", (("number_ok", "yes"),))
            asked = f'"{cell.strip()}": what is the number {cell.strip()} for? It was not used for a size.'
            record.doubt(Doubt("number_ok", place, cell.strip(), asked, (nothing,)))
        if not self._due:
            ask_date(record, cell, place)

    def _sized(self, record: Record, slot: SizeColumn, cell: Cell, place: Place, field: str) -> None:
        """Read a cell of a size column that is no text to be read word by word."""
        if isinstance(cell, str) and cell.strip().lower() in ASK_WORDS:
            where = ", a drawing that we do not have" if _DRAWN.search(cell) else ""
            asked = f'The {slot.name} reads "{text_of(cell)}"{where}; what is it?'
            record.doubt(Doubt(slot.field, place, text_of(cell), asked))
        elif field == "diameter" and isinstance(cell, str) and (both := two_sides(cell)):
            for one in both:
                read_size(record, replace(slot, basis=None), one, place, self.frame.desk)
        elif field in ("diameter", "nominal") and isinstance(cell, str) and two_ends(slot, cell):
            other = "a flat plate, nothing to roll" if _SQUARE.fullmatch(cell) else "two diameters, of a cone"
            asked = f'The {slot.name} reads "{text_of(cell)}": {other}, or which one holds?'
            record.doubt(Doubt("diameter", place, text_of(cell), asked))
        elif field == "size" or (field in ("thickness", "diameter") and holds_several(cell)):
            read_combined(record, slot, cell, place, self.frame.desk)
        else:
            self._size(record, slot, cell, place)

    def _size(self, record: Record, slot: SizeColumn, cell: Cell, place: Place) -> None:
        """Read a size; a thickness may carry the material beside it (1/4 A36)."""
        if slot.field == "thickness" and isinstance(cell, str):
            size, material = split_material(text_of(cell), slot.style, self.frame.materials)
            if material:
                read_size(record, slot, size, place, self.frame.desk)
                take_text(record, self.frame, material, place)
                return
        read_size(record, slot, cell, place, self.frame.desk)


def _of_who_works(record: Record, column: TableColumn, cell: str) -> str:
    """Return a cell under some work: yes where it is ours to do, nothing where it is others'."""
    who = who_does(text_of(cell))
    if who == "others":
        headed = f'"{column.header}: {text_of(cell)}" is taken as a remark, nothing is priced for it'
        record.assumptions.append(headed)
        return ""
    return "yes" if who == "us" else cell


def _plain(record: Record, field: str, text: str, place: Place) -> None:
    """Take a text as it stands; descriptions of several columns go together."""
    name = _PLAIN[field]
    before = record.values.get(name) if field == "description" else ""
    record.values[name] = f"{before}; {text}" if before else text
    record.readings.append(Reading(field, place, text, text))
    if field == "part_no" and (names_another_shape(text) or stops_the_line(text)):
        record.texts.append(RowText("remark", text, place, place.header, free=True))
    elif field in ("part_no", "drawing") and _shaped_by_name(text, field):
        record.texts.append(RowText("description", text, place, place.header))
    if field == "revision":
        ask_revision(record, text, place)


def _parted(cell: Cell, count: int) -> Cell:
    """Return a cell of so many numbers between slashes with them parted as a list of sizes is."""
    if not count or not isinstance(cell, str) or cell.count("/") != count - 1:
        return cell
    pieces = [piece.strip() for piece in cell.split("/")]
    return " x ".join(pieces) if all(map(_A_NUMBER.fullmatch, pieces)) else cell


_A_NUMBER = re.compile(r"(?:\d[\d.,]*|\.\d+)\s?(?:mm|\"|in)?")


def _of_a_cone(cells: list[Cell], index: int) -> Cell:
    """Return a cell of sizes with its pair of diameters said apart where its row names a cone, else as is."""
    cell = cells[index]
    if not isinstance(cell, str) or "/" not in cell:
        return cell
    others = (other for at, other in enumerate(cells) if at != index and isinstance(other, str))
    if not any(_WORD.search(other) and shape_words(other).get("shape") == "cone" for other in others):
        return cell
    return with_ends_in_words(cell) or cell


_HALF = re.compile(r"\b(?:half|halves|quarter)\b", re.I)
_WORD = re.compile(r"[^\W\d_]{3}")
_BEHIND = re.compile(
    r"\W*(?:[A-Za-z]{1,3}[-. ]?)?\d+(?:[-./]\d+)*[A-Za-z]?(?![^\W_])[\s,;:()\[\]–-]*"
    r"(?P<rest>(?=.*[^\W\d_]{3}).+?)[)\]]?\W*"
)
"""The number of a line and what is said behind it: 2 (half shell), K3 ecc."""


def _behind_a_number(record: Record, text: str, place: Place) -> None:
    """Take what stands behind the number of a line, or in its place, where it changes what the part is."""
    match = _BEHIND.fullmatch(text)
    rest = match["rest"] if match else text
    if match:
        told = any(said.does in ("ask", "out", "free") for said in said_in_text(rest)[0])
    else:
        told = names_another_shape(text) or stops_the_line(text)
    if told:
        record.texts.append(RowText("remark", rest, place, place.header, free=True))
    elif (_SHAPED_NAME | {"unsupported"}) & {*shape_words(rest).values()}:
        record.texts.append(RowText("description", rest, place, place.header))
    elif _HALF.search(rest):
        record.texts.append(RowText("remark", rest, place, place.header, free=True))
        record.remarks.append(rest)


_SHAPED_NAME = frozenset(("arc", "cone", "flat"))
"""Shapes that a name of several words under Part or Drawing tells as a description does: half shell."""
_LONG_WORD = re.compile(r"[^\W\d_]{4,}")


@lru_cache(maxsize=32_768)
def _shaped_by_name(text: str, field: str) -> bool:
    """Return whether a part's name says its shape, or that no plate roll makes it, as a description does.

    >>> _shaped_by_name("reducer", "part_no"), _shaped_by_name("TEE-4", "part_no")
    (True, False)
    """
    shapes = {*shape_words(text).values()}
    if " " in text.strip() and _SHAPED_NAME & shapes:
        return True
    if field != "part_no" or _LONG_WORD.match(text.strip()) is None or _CODED.search(text):
        return False
    return bool((_SHAPED_NAME | {"unsupported"}) & shapes)


_CODED = re.compile(r"[^\W\d_][-_.]?\d|\d[-_.]?[^\W\d_]")
"""A letter beside a figure: the mark of a part, CONE-2."""


def _schedule(record: Record, column: TableColumn, cell: Cell, place: Place) -> bool:
    """Take the pipe schedule that stands where a thickness is expected; return whether there is one."""
    text = text_of(cell)
    if is_two_schedules(text):
        asked = f'The thickness holds several sizes, "{text}"; which one is it?'
        record.doubt(Doubt("thickness", place, text, asked))
        return True
    schedule = schedule_cell(text, column=column.meaning.field == "schedule")
    if schedule:
        record.values["schedule"] = schedule
        record.places["schedule"] = (place, text)
        record.readings.append(Reading("thickness", place, text, f"schedule {schedule}"))
    return bool(schedule)


def _merged_down(frame: TableContext) -> dict[tuple[int, int], Cell]:
    """Return what vertically merged cells hold in their lower rows; a quantity is not repeated."""
    fields = {column.index: column.meaning.field for column in frame.table.columns}
    spread: dict[tuple[int, int], Cell] = {}
    for top, left, bottom, right in frame.sheet.merged:
        if bottom == top or left != right or fields.get(left, "quantity") in ("quantity", "number", "breaks"):
            continue
        row = frame.sheet.rows[top] if top < len(frame.sheet.rows) else []
        value = row[left] if left < len(row) else ""
        last = min(bottom, len(frame.sheet.rows))
        spread.update({(index, left): value for index in range(top + 1, last + 1)})
    return spread


_OF_A_CIRCLE = re.compile(r"(?:1/[2-8]|2/3|3/4|[½⅓¼⅔¾])")
"""A share under a head nobody knows, among millimetres: of a circle, and then no full one is to be made."""
_A_FIGURE = re.compile(r"\d{1,5}(?:[.,]\d{1,3})?")


def _may_count(cell: Cell) -> bool:
    """Return whether a number under a head that nobody knows may be a count or a size, and no code."""
    return not isinstance(cell, bool) and _A_FIGURE.fullmatch(text_of(cell)) is not None
