"""Reads the sheets of one file, table by table: the account of every row, and a record for each part."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import pairwise

from quoting.core import (
    Choice,
    Mark,
    NumberStyle,
    Place,
    Question,
    SheetRow,
    State,
    Unit,
    column_letters,
)
from quoting.intake.asked_once import ask_once
from quoting.intake.cells import is_work, who_does
from quoting.intake.columns_compared import compared, latest_revision, without_old
from quoting.intake.columns_left_over import taken_by_elimination
from quoting.intake.doubts import settle
from quoting.intake.layout import (
    LABELS,
    OTHER_GRADE,
    CustomerMap,
    Layout,
    OrderTable,
    RowKind,
    Section,
    SheetAsk,
    SheetRules,
    Statements,
    TableContext,
    UnitHints,
    arc_of_all,
    as_notes_say,
    day_first,
    file_style,
    grade_of_heads,
    has_both_ends,
    names_no_end,
    names_parts_of_circle,
    names_table,
    order_number,
    row_kinds,
    said_in,
    said_of_table,
    said_of_tabs,
    section_of,
    settled_by_cells,
    style_of,
    style_of_sizes,
    unit_found,
    unit_hints,
    with_ends,
    with_identifiers,
    with_names_of_rows,
)
from quoting.intake.lines.cell_texts import AS_IT_STANDS_OR_OUT
from quoting.intake.lines.column_asks import ColumnAsk, column_asks
from quoting.intake.lines.compare_cells import says_cones
from quoting.intake.lines.counted_sets import by_sets
from quoting.intake.lines.girth_doubts import drop_girth_doubts
from quoting.intake.lines.line_or_questions import Assembled, ask_duplicate, assemble
from quoting.intake.lines.read_row import OrderRowReader
from quoting.intake.row_record import Doubt, Record
from quoting.intake.shop_view import ShopView
from quoting.intake.texts import PartText, date_of, is_conical, part_text
from quoting.intake.words import Translation, begins_older
from quoting.shop import Materials, Shop
from quoting.tables import Sheet, is_empty, text_of


@dataclass(slots=True)
class SheetWork:
    """What grows while the sheets of one file are read."""

    shop: Shop
    today: date
    prefix: str
    materials: Materials
    pinned: CustomerMap
    rows: list[SheetRow] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    records: list[tuple[Record, str]] = field(default_factory=list)
    starts: list[int] = field(default_factory=list)
    pairs: dict[str, str] = field(default_factory=dict)
    order: dict[str, int] = field(default_factory=dict)
    tables: list[tuple[Sheet, OrderTable]] = field(default_factory=list)
    metric: int = 0
    foreign: str = ""
    translation: Translation | None = None
    cover: SheetRules = field(default_factory=SheetRules)
    statements: Statements = field(default_factory=Statements)
    style: NumberStyle = NumberStyle.UNKNOWN
    hints: UnitHints = field(default_factory=UnitHints)
    column_asks: list[ColumnAsk] = field(default_factory=list)
    of_tabs: dict[str, list[str]] = field(default_factory=dict)
    several: bool = False
    older: tuple[int, str] | None = None
    """The row below which an older message of the sheet begins, and what says so."""

    def survey(self, sheets: Sequence[Sheet], layouts: Sequence[Layout]) -> None:
        """Hear what stands outside the tables of all sheets, and how the file writes numbers and units."""
        pairs = [(sheet, layout) for sheet, layout in zip(sheets, layouts, strict=True) if not sheet.hidden]
        named = (_marks(sheet, table) for sheet, layout in pairs for table in layout.tables)
        self.statements.marks = frozenset(
            mark.lower() for marks in named for mark in marks if not self.materials.find(mark).keys
        )
        names = [sheet.name for sheet, layout in pairs if layout.tables]
        for sheet, layout in pairs:
            if layout.tables:
                continue
            rows = tuple(
                index for index, row in enumerate(sheet.rows) if any(not is_empty(cell) for cell in row)
            )
            said = said_in(sheet, rows)
            self.cover.fill(said)
            lines = (*_lines(sheet, rows), *_beside_the_cells(sheet, ()))
            self.statements.hear([self._without_tabs(line, names) for line in lines], self.materials)
        self.style = file_style(pairs, self.foreign)
        self.hints = unit_hints(pairs, self.style, self.foreign, self.materials)

    def _without_tabs(self, line: str, names: Sequence[str]) -> str:
        """Return a line of a cover without the grades that it gives to single tabs, which are kept for them.

        One that says more of a tab, that it waits or whose plate it is, stays whole and is asked of all.
        """
        rest, own = said_of_tabs(line, names)
        parts = [part_text(text, NumberStyle.POINT, self.materials) for _, text in own]
        if not all(part.grades and not part.said for part in parts):
            return line
        for name, text in own:
            self.of_tabs.setdefault(name, []).append(text)
        return rest

    def _grade_for(self, sheet: Sheet) -> str:
        """Return the grade that a cover gives to this tab, else the one that is said for all lines."""
        own = Statements()
        own.hear(self.of_tabs.get(sheet.name, ()), self.materials)
        self.statements.unused += own.unused
        return own.grade or self.statements.grade

    def sheet(self, sheet: Sheet, layout: Layout) -> None:
        """Read one sheet."""
        self.order[sheet.name] = len(self.order)
        self.notes += sheet.asides
        if sheet.hidden or not layout.tables:
            self._unread(sheet)
            return
        kinds = [row_kinds(sheet, table) for table in layout.tables]
        loose = [row for kind in kinds for row, what in kind.items() if what is RowKind.NOTE]
        headings = {
            row
            for kind in kinds
            for row in _headings(kind)
            if section_of(_row_text(sheet, row), self.materials, NumberStyle.POINT) is not None
        }
        said = said_in(sheet, (*layout.above, *loose))
        self._say(said)
        titles = {
            row
            for table in layout.tables[1:]
            if (row := _row_above(sheet, table)) is not None and row in loose
        }
        first_title = _row_above(sheet, layout.tables[0])
        if titles and first_title is not None:  # each table has one: none of them holds for all
            titles.add(first_title)
        headings |= titles
        others = tuple(
            row
            for row in (*layout.above, *loose)
            if row not in titles and not (titles and names_table(_row_text(sheet, row)))
        )
        said.keep_side_of(said_in(sheet, others) if titles else said)  # one in a title is that table's
        above = sorted(layout.above)
        title = [] if self.foreign else _lines(sheet, above[:1])  # a foreign title may hold a word unknown
        rest = [row for row in above[len(title) :] if row not in titles]
        loose = [row for row in loose if row not in headings]
        parts = [row for kind in kinds for row, what in kind.items() if what is RowKind.PART]
        notes = (*_lines(sheet, (*rest, *loose)), *_beside_the_cells(sheet, parts))
        self.statements.hear(notes, self.materials, title=title)
        self.statements.hear_headings(_lines(sheet, headings), self.materials)
        if sheet.struck:  # the rows show it themselves
            self.statements.forget(_STRUCK)
        if any(_WITH_ALLOWANCE.search(one.header) for table in layout.tables for one in table.columns):
            self.statements.forget(_ALLOWANCE)
        said.fill(self.cover)
        self._say_of_all(said, sheet, layout)
        fields = {column.meaning.field for table in layout.tables for column in table.columns}
        of_sets = bool(said.of_set) and "multiplier" in fields and "quantity" not in fields
        self.statements.counted = of_sets or bool(
            said.sets and (said.per_set or said.in_all or "per_unit" in fields)
        )
        self.statements.each = bool(said.of_every) and not fields & _COUNTS
        _hear_arcs(said, _lines(sheet, above))
        said.pin(self.pinned.unit, self.pinned.basis, self.pinned.material)
        for row in layout.above:
            self.ignore(sheet, row, "title")
        for column in (column for table in layout.tables for column in table.columns):
            if column.index in sheet.hidden_columns:
                letters = column_letters(column.index)
                self.notes.append(
                    f'column {letters} ({column.header}) of "{sheet.name}" is hidden and was read'
                )
        self.several = len(layout.tables) > 1
        self.older = _older_below(sheet, kinds)
        first = self._first_section(sheet, layout, said)
        for table, kind in zip(layout.tables, kinds, strict=True):
            first = self.table(sheet, table, kind, said, first)

    def _say_of_all(self, said: SheetRules, sheet: Sheet, layout: Layout) -> None:
        """Put what the statements say of all lines into the rules of a sheet: its grade, its sizes."""
        if (grade := self._grade_for(sheet)) and "material" not in said.rules:
            said.heard("material", grade)
        for grade in self.statements.strict:
            said.heard("material of every line", grade)
        for name, sizes in self.statements.sizes.items():
            for size in sizes:
                said.heard(f"size {name}", size)
        plates = self.statements.plates
        if len(plates) == 1 and "size thickness" not in said.rules and self._all_of_one_plate(sheet, layout):
            said.heard("size thickness", next(iter(plates)))

    def _all_of_one_plate(self, sheet: Sheet, layout: Layout) -> bool:
        """Return whether the parts stand in lines of text of which none gives a thickness, or in tables whose
        columns are all of other things.
        """
        fields = [one.meaning.field for table in layout.tables for one in table.columns]
        if {*fields} <= _NO_PLATE:
            return self.statements.plates == self.statements.sure_plates
        if fields != ["description"]:
            return False
        texts = (text_of(sheet.rows[row][0]) for row in layout.tables[0].rows)
        return not any(_gives_thickness(part_text(text, self.style, self.materials)) for text in texts)

    def _first_section(self, sheet: Sheet, layout: Layout, said: SheetRules) -> Section | None:
        """Return the heading of the first rows where it stands above the row of headers, and others below."""
        if not layout.above or len(said.rules.get("material", ())) < 2:
            return None
        return section_of(_row_text(sheet, layout.above[-1]), self.materials, NumberStyle.POINT)

    def _unread(self, sheet: Sheet) -> None:
        """Account for the rows of a sheet without a table, or of a hidden one."""
        rows = [index for index, row in enumerate(sheet.rows) if any(not is_empty(cell) for cell in row)]
        if sheet.heads:
            for row in rows:
                self.ignore(sheet, row, "who sent the mail, and its subject")
            for name, value in said_in(sheet, tuple(rows)).pairs.items():
                self.pairs.setdefault(name, value)
            return
        for row in rows:
            self.ignore(sheet, row, "hidden sheet" if sheet.hidden else "no table of parts on this sheet")
        if sheet.hidden and rows:
            self.notes.append(f'sheet "{sheet.name}" is hidden and was not read ({len(rows)} rows)')
        elif rows:
            self._say(said_in(sheet, tuple(rows)))

    def _say(self, said: SheetRules) -> None:
        for name, value in said.pairs.items():
            self.pairs.setdefault(name, value)
        self.notes += said.notes

    def ignore(self, sheet: Sheet, row: int, reason: str) -> None:
        """Account for a row that holds no part."""
        self.rows.append(SheetRow(sheet.place(row), State.IGNORED, "", reason, _row_text(sheet, row)))

    def table(
        self,
        sheet: Sheet,
        table: OrderTable,
        kinds: dict[int, RowKind],
        said: SheetRules,
        first_section: Section | None,
    ) -> Section | None:
        """Read one table of a sheet."""
        for row in table.header_rows:
            self.ignore(sheet, row, "header")
        if table.unit_row is not None:
            self.ignore(sheet, table.unit_row, "units row")
        body = tuple(row for row in table.rows if kinds[row] is RowKind.PART)
        latest, revised = latest_revision(replace(table, rows=body), said.notes)
        named = with_identifiers(sheet, without_old(latest))
        ended = with_ends(named)
        left = taken_by_elimination(sheet, compared(sheet, settled_by_cells(sheet, ended, self.materials)))
        table = as_notes_say(with_names_of_rows(sheet, left.table), said)
        self.statements.totalled |= {"per_unit", "quantity"} <= {one.meaning.field for one in table.columns}
        self.tables.append((sheet, table))
        style = style_of(sheet, body, table)
        if style is NumberStyle.UNKNOWN:
            style = self.style
        above = _row_above(sheet, table)
        said = said if above is None else said.under(said_of_table(_row_text(sheet, above), said.notes))
        said = said.of_metal(_metal_of_heads(table, self.materials)).of_units(table)
        unit = unit_found(sheet, table, said, style, (self.hints.unit, self.hints.why))
        metric = unit.unit in ("mm", "cm")
        self.metric += 1 if metric else -1 if unit.unit == "in" else 0
        if style is NumberStyle.UNKNOWN:
            style = style_of_sizes(sheet, body, table, unit.unit)
        desk = ShopView(self.materials, not metric)
        angles = _has_angles(sheet, table)
        first = day_first(sheet, table, self.today, foreign=bool(self.foreign), metric=metric)
        frame = TableContext(
            sheet,
            table,
            unit,
            style,
            said,
            desk,
            self.today,
            said.basis,
            has_angles=angles,
            day_first=first,
            foreign=bool(self.foreign),
            both_ends=(ended is not named or names_no_end(table)) and has_both_ends(sheet, table),
            of_cones=_of_cones(sheet, table),
            fields=frozenset(column.meaning.field for column in table.columns),
            marks=_marks(sheet, table),
            translation=self.translation,
        )
        reader = OrderRowReader(frame)
        reader.section = first_section
        if (
            self.several
            and above is not None
            and (title := section_of(_row_text(sheet, above), self.materials, style, title=True))
        ):
            reader.section = title if title.thickness or title.material else first_section
        reader.noted = (
            self.statements.remarks_on if self.statements.remarks or self.statements.others else None
        )
        before = len(self.records)
        for row, kind in kinds.items():
            if kind is RowKind.PART:
                record = reader.read(row, _more(sheet, row, kinds))
                record.assumptions += (*revised, *left.said)
                self.part(sheet, row, record, frame)
                continue
            self.ignore(sheet, row, str(kind))
            if kind is RowKind.NOTE:
                reader.section = section_of(_row_text(sheet, row), self.materials, style)
            elif kind is RowKind.TOTAL:
                reader.section = None
        records = [record for record, _ in self.records[before:]]
        drop_girth_doubts(records)
        at = {
            sheet.place(row).row: row for row in range(len(sheet.rows))
        }  # elsewhere in a sheet put in order
        rows = [at.get(record.place.row, -1) for record in records]
        if all(record.place.column == "" for record in records) and -1 not in rows:
            self.column_asks += column_asks(sheet, table, rows, records)
        ends_with_note = bool(kinds) and list(kinds.values())[-1] is RowKind.NOTE
        return reader.section if ends_with_note else None

    def part(self, sheet: Sheet, row: int, record: Record, frame: TableContext) -> None:
        """Settle one record and keep it until ids are given."""
        text = _row_text(sheet, row)
        if record.values.get("quantity") == "0":
            number = record.values.get("number", "")
            self.rows.append(SheetRow(record.place, State.NO_QUOTE, number, "quantity 0 in the sheet", text))
            return
        self._stated(record, frame)
        if sheet.source:
            record.assumptions.append(f"every value is read from {sheet.source}")
        if row in sheet.unsure:
            yes = Choice("yes, as read", (("columns_ok", "yes"),))
            asked = (
                f'The columns of this row in {sheet.source} are not certain. Read as "{text}": is that right?'
            )
            record.doubt(Doubt("columns_ok", record.place, text, asked, (yes,)))
        if self.older is not None and row > self.older[0]:
            begins = f'below "{self.older[1]}", in an older message'
            asked = f"The row stands {begins}: is it wanted beside the newer?"
            many = f"The rows stand {begins}: are they wanted beside the newer?"
            record.doubt(Doubt("status_ok", record.place, text, asked, AS_IT_STANDS_OR_OUT, for_many=many))
        if row in sheet.hidden_rows:
            yes = Choice("yes, price it", (("hidden", "wanted"),))
            no = Choice("no, leave it out", (("hidden", "left out"),))
            asked = "This row is hidden in your sheet; is the part wanted?"
            record.doubt(Doubt("hidden", record.place, text, asked, (yes, no)))
        given = record.values.get("material") or "material" in record.doubts or "material" in frame.said.rules
        if not given and all(column.meaning.field != "material" for column in frame.table.columns):
            record.values["no_material_column"] = "yes"
        _as_every_line(record, frame)
        settle(record, frame.desk)
        if not frame.unit.sure:
            record.assumptions.append(f"sizes read in {frame.unit.unit}: {frame.unit.why}")
        self.records.append((record, text))
        self.starts.append(frame.table.columns[0].index)

    def _stated(self, record: Record, frame: TableContext) -> None:
        """Ask about the line what notes elsewhere say of it by its number, or of all lines."""
        for_all = [ask.name for ask in self.statements.about_all()]
        by_sets(record, frame.said, asked="quantity" in for_all)
        number = record.values.get("number") or record.values.get("part_no", "")
        for ask in self.statements.about(number) if number else ():
            if ask.name == OTHER_GRADE:
                _ask_its_grade(record, ask)
                continue
            name = f"{ask.name}_ok"
            keep = Choice("as the line says", ((name, "yes"),))
            free = (
                (Choice("yes, our plate", (("free_issue", "yes"), (name, "yes"))),)
                if ask.name == "free_issue"
                else ()
            )
            record.doubt(
                Doubt(
                    name, record.place, ask.words, f'The sheet says "{ask.words}": {ask.text}?', (*free, keep)
                )
            )
        if self.statements.free and not self.statements.supplied and "free_issue" not in record.values:
            record.values["free_issue"] = "yes"
            record.assumptions.append(
                f'the plate is yours and not priced, as the sheet says: "{self.statements.free}"'
            )
        open_ = [f"{name}_ok" for name in for_all]
        if open_:
            record.values["waits"] = ",".join(open_)
        if frame.said.due and not record.values.get("due") and "due" not in record.doubts:
            found = date_of(frame.said.due, today=self.today, day_first=frame.day_first).value
            if found is not None:
                record.values["due"] = found.isoformat()
                record.assumptions.append(f"due {found:%d %B %Y}, as the sheet says for all lines")
            else:
                asked = f'The delivery for all lines reads "{frame.said.due}": which date is that?'
                record.doubt(
                    Doubt(
                        "due", record.place, frame.said.due, asked, blocking=False, assumed="no due date held"
                    )
                )

    def _unmatched(self) -> None:
        """Ask of all lines what the notes say of a line by a number that no line has."""
        names = ("number", "part_no")
        numbers = {record.values.get(name, "").lower() for record, _ in self.records for name in names}
        if not self.statements.open_up(numbers):
            return
        open_ = [f"{ask.name}_ok" for ask in self.statements.about_all()]
        for record, _ in self.records:
            known = [name for name in record.values.get("waits", "").split(",") if name]
            record.values["waits"] = ",".join(dict.fromkeys((*known, *open_)))

    def _tell_apart(self) -> None:
        """Give parts of one row, of lists that stand side by side, the column where each begins."""
        rows = Counter(record.place for record, _ in self.records)
        for at, (record, _) in enumerate(self.records if len(rows) < len(self.records) else ()):
            if rows[record.place] > 1:
                record.place = record.place.at(column=column_letters(self.starts[at]))

    def finish(self, customer: str) -> tuple[list[Assembled], tuple[Question, ...]]:
        """Give ids, ask about lines that stand twice, once what many lines ask; build what is complete."""
        self._unmatched()
        self._tell_apart()
        taken: Counter[str] = Counter()
        seen: dict[tuple[tuple[str, str], ...], str] = {}
        named: list[tuple[str, str]] = []
        for record, _ in self.records:
            along = record.place.column and (
                record.values.get("part_no") or f"{record.place.column}{record.place.row}"
            )
            number = record.values.get("number") or along or str(record.place.row)
            line = f"{self.prefix}{number}"
            taken[line] += 1
            if taken[line] > 1:
                line = f"{line}-r{record.place.row}"
                taken[line] += 1
                line = line if taken[line] == 1 else f"{line}-{taken[line]}"
            ask_duplicate(record, number, seen, self.materials)
            named.append((line, number))
        numbers = [number for _, number in named]
        records = [record for record, _ in self.records]
        if all(record.values.get("shape") != "cone" for record in records):
            self.statements.of_no_cone()
        shared = ask_once(list(zip(numbers, records, strict=True)), self.prefix)
        parts = [
            assemble(record, names, customer, self.materials, text, shared.reasons)
            for names, (record, text) in zip(named, self.records, strict=True)
        ]
        return parts, shared.questions


_COUNTS = frozenset(("quantity", "per_unit", "units", "multiplier", "breaks", "reqd"))


def _as_every_line(record: Record, frame: TableContext) -> None:
    """Take the pieces said of every line for one that gives no count, where no column does."""
    count = frame.said.of_every
    counted = _COUNTS & {*record.values, *record.doubts, *frame.fields}
    if count and not counted:
        record.values["quantity"] = count
        record.assumptions.append(f"quantity {count}, as the sheet says for all lines")


def _ask_its_grade(record: Record, ask: SheetAsk) -> None:
    """Ask for the grade of a line that a note leaves out of the one for all, where its row gives none."""
    if any(one.name == "material" and one.place.column for one in record.readings):
        return
    record.values.pop("material", None)
    asked = f'The sheet says "{ask.words}": {ask.text}?'
    record.doubt(Doubt("material", record.place, ask.words, asked))


def note_questions(statements: Statements, prefix: str, place: Place) -> tuple[Question, ...]:
    """Return what the notes of a file ask for all lines, and last what they say that was not used."""
    asked = [
        Question(
            f"{prefix}all/{ask.name}_ok",
            "",
            place,
            ask.words,
            f'The sheet says "{ask.words}": {ask.text}?',
            _note_choices(ask),
        )
        for ask in statements.about_all()
    ]
    if unused := [text for text in statements.unused if text not in statements.heeded]:
        shown = "; ".join(f'"{text}"' for text in unused[:12])
        more = len(unused) - 12
        also = f"The sheet also says {shown}{f' and {more} lines more' if more > 0 else ''}"
        text = f"{also}. Nothing is priced for it; does it change a line?"
        assumed = "the notes of the sheet change no price"
        yes = Choice("no, nothing changes", (("notes_ok", "yes"),))
        # whoever prices reads the sheet: no customer is asked about the name of his own project
        asked.append(
            Question(
                f"{prefix}all/notes_ok", "", place, shown[:300], text, (yes,), False, assumed, for_shop=True
            )
        )
    return tuple(asked)


def _note_choices(ask: SheetAsk) -> tuple[Choice, ...]:
    name = f"{ask.name}_ok"
    plain = Choice("no, the lines hold as they are", ((name, "yes"),))
    if ask.name == "free_issue":
        return Choice("yes, our plate", (("free_issue", "yes"), (name, "yes"))), plain
    if ask.name == "quantity":
        counts = dict.fromkeys(re.findall(r"\b(\d{1,3})\b", ask.words))
        words = {"two": "2", "three": "3", "four": "4", "five": "5", "six": "6"}
        counts.update(dict.fromkeys(number for word, number in words.items() if word in ask.words.lower()))
        times = [
            Choice(f"times {one}", ((name, "yes"), ("multiplier", one)))
            for one in counts
            if 1 < int(one) < 100
        ]
        return Choice("the quantities are for all", ((name, "yes"),)), *times[:3]
    return (plain,)


def _metal_of_heads(table: OrderTable, materials: Materials) -> str:
    """Return the metal that the headings of the plate name, where no column is of materials."""
    if any(column.meaning.field == "material" for column in table.columns):
        return ""
    plates = (column.header for column in table.columns if column.meaning.field in ("thickness", "gauge"))
    return grade_of_heads(plates, materials)


def _hear_arcs(said: SheetRules, titles: Sequence[str]) -> None:
    """Hear what part of a circle titles say all lines are, or that they speak of such parts at all."""
    for degrees in filter(None, map(arc_of_all, titles)):
        said.heard("angle", degrees)
    if not {"angle", "set of halves"} & said.rules.keys():
        for line in filter(names_parts_of_circle, titles):
            said.heard("parts of a circle", line)


def _older_below(sheet: Sheet, kinds: Sequence[dict[int, RowKind]]) -> tuple[int, str] | None:
    """Return the row below the first parts that says that an older message follows, and its text."""
    parts = {row for kind in kinds for row, what in kind.items() if what is RowKind.PART}
    first = min(parts, default=len(sheet.rows))
    for row in range(first + 1, len(sheet.rows)):
        text = _row_text(sheet, row)
        if row not in parts and begins_older(text):
            return row, text
    return None


def _headings(kinds: dict[int, RowKind]) -> list[int]:
    """Return the notes that stand alone right above a part: they hold for the rows under them only."""
    rows = list(kinds)
    return [
        row
        for row, after in pairwise(rows)
        if kinds[row] is RowKind.NOTE
        and kinds[after] is RowKind.PART
        and (row == rows[0] or kinds[rows[rows.index(row) - 1]] is not RowKind.NOTE)
    ]


def _lines(sheet: Sheet, rows: Iterable[int]) -> list[str]:
    """Return what stands in rows outside a table, without the pairs that head a value."""
    found = []
    for row in sorted(rows):
        texts = [text_of(cell) for cell in sheet.rows[row] if not is_empty(cell)]
        label = " ".join(texts[0].lower().split()).strip(".:# ") if texts else ""
        if texts and label in LABELS and label not in ("material", "matl", "grade"):
            continue
        if len(texts) == _A_PAIR and is_work(texts[0]) and who_does(texts[1]) == "others":
            continue  # Hydro test, by client: it is about the test
        beside = [False, *(_heads_a_value(text) for text in texts)]
        texts = [
            text
            for text, headed in zip(texts, beside, strict=False)
            if not (headed or _heads_a_value(text) or _labelled(text) or order_number(text))
        ]
        if texts:
            found.append(" ; ".join(texts))
    return found


_A_PAIR = 2


def _beside_the_cells(sheet: Sheet, parts: Iterable[int]) -> list[str]:
    """Return what comments on other cells than those of parts say, and boxes laid over the cells."""
    own = frozenset(parts)
    comments = (text for (row, _), text in sheet.comments.items() if row not in own)
    lines = (line for text in (*comments, *sheet.boxes) for line in text.splitlines())
    return [line for line in map(text_of, lines) if line]


def _labelled(text: str) -> bool:
    """Return whether a cell is `Customer: ...` or the like."""
    label, colon, _ = text.partition(":")
    plain = " ".join(label.lower().split()).strip(".# ")
    return bool(colon) and plain in LABELS and plain not in _TALKING


def _heads_a_value(text: str) -> bool:
    """Return whether a cell is no more than the label of the cell beside it: PO:, Terms:, Page:."""
    plain = " ".join(text.lower().split())
    return plain.endswith(":") and plain.strip(".:# ") in LABELS | _IN_A_HEAD - _TALKING


def _of_cones(sheet: Sheet, table: OrderTable) -> bool:
    """Return whether what stands above a table says that its parts are cones, and no column says more."""
    if {"description", "shape"} & {column.meaning.field for column in table.columns}:
        return False
    head = table.header_rows[0] if table.header_rows else 0
    return any(says_cones(_row_text(sheet, row)) for row in range(max(0, head - _TITLES), head))


_TITLES = 4
"""So many rows above a table may be of it."""


def _row_above(sheet: Sheet, table: OrderTable) -> int | None:
    """Return the row right above a table's headers: its title, where it has one."""
    row = table.header_rows[0] - 1 if table.header_rows else -1
    filled = row >= 0 and sum(not is_empty(cell) for cell in sheet.rows[row]) in (1, 2)
    return row if filled else None


_STRUCK = re.compile(
    r"\b(struck|strike|strik\w*|crossed|barrat\w*|barr[ée]\w*|durchgestrich\w*|gestrich\w*|tachad\w*|riscad\w*"
    r"|doorgehaald\w*|doorgestreep\w*|przekre[śs]l\w*|[šs]krtnut\w*|[öo]verstruk\w*|yliviiva\w*|[áa]th[úu]z\w*"
    r"|зачеркн\w*|t[ăa]iat\w*)\b|删除线|划线|[üu]st[üu] [çc]izili",
    re.I,
)
"""Words about rows that are crossed out."""
_ALLOWANCE = re.compile(r"\W*(?:corrosion allowance|corr\w*\.? allow\w*\.?|c\.?a\.?)\W*$", re.I)
_WITH_ALLOWANCE = re.compile(r"\bincl\w*\.?\s+(?:of\s+)?(?:the\s+)?(?:c\.?\s?a\b|corr\w*)", re.I)
"""A heading of the plate that says the allowance for corrosion is in it: a row of it asks nothing more."""
_IN_A_HEAD = frozenset((
    "vendor", "supplier", "to", "ship to", "bill to", "deliver to", "terms", "payment terms", "conf to",
    "page", "sheet", "tel", "fax", "e-mail", "mail", "web", "quote no", "quote due", "req no", "requisition",
    "department", "dept", "currency", "incoterm", "incoterms", "validity", "prepared by", "approved by",
    "checked by", "estimator", "purchaser", "requested by", "telefon", "seite", "datum", "kunde", "betreff",
    "date d'emission", "objet", "fecha", "cliente", "asunto", "data", "oggetto", "klant", "betreft", "klient",
))  # fmt: skip
"""Labels in the head of a paper whose values are no word about its lines."""
_TALKING = frozenset(
    ("material", "matl", "grade", "enquiry", "inquiry", "rfq", "project", "job", "units", "unit")
)
"""Labels after which a title may say what holds for all lines."""


def _more(sheet: Sheet, row: int, kinds: dict[int, RowKind]) -> list[str]:
    """Return the texts of the rows below that go on with this one."""
    found = []
    while kinds.get(row + 1) is RowKind.MORE:
        row += 1
        found.append(_row_text(sheet, row))
    return found


_MARK = re.compile(r"[A-Za-z]{1,3}-?\d{1,4}[A-Za-z]?")


def _marks(sheet: Sheet, table: OrderTable) -> frozenset[str]:
    """Return the names of parts of a table that are letters and a number: H4 in a remark is that part."""
    columns = [one.index for one in table.columns if one.meaning.field in ("part_no", "number")]
    rows = (sheet.rows[row] for row in table.rows)
    texts = (text_of(row[index]) for row in rows for index in columns if index < len(row))
    return frozenset(text for text in texts if _MARK.fullmatch(text))


def _has_angles(sheet: Sheet, table: OrderTable) -> bool:
    """Return whether some row of the table gives degrees of arc, a chord or an arc length."""
    columns = [
        column.index for column in table.columns if column.meaning.field in ("angle", "chord", "arc_length")
    ]
    return any(
        not is_empty(sheet.rows[row][index])
        for row in table.rows
        for index in columns
        if index < len(sheet.rows[row])
    )


_OF_A_CYLINDER = 3


_NO_PLATE = frozenset((
    "number", "part_no", "drawing", "revision", "diameter", "radius", "large", "small", "top", "bottom",
    "basis", "length", "height", "width", "slant", "angle", "chord", "rise", "arc_length", "girth",
    "quantity", "per_unit", "multiplier", "unit", "due", "remarks", "certificate", "carried", "tolerance",
    "material", "seam", "edge", "shape",
))  # fmt: skip
"""Columns of which none says, or may say, how thick the plate is."""


def _gives_thickness(part: PartText) -> bool:
    """Return whether a text about a part gives a thickness, or so many sizes that one of them may be it."""
    if part.schedule or any(
        one.measure.mark is Mark.THICKNESS or one.measure.unit is Unit.GAUGE for one in part.sizes
    ):
        return True
    ends = sum(one.measure.mark is Mark.DIAMETER for one in part.sizes) > 1
    turned = any(one.measure.unit is Unit.DEGREE for one in part.sizes)
    return len(part.sizes) - turned >= _OF_A_CYLINDER + (ends or is_conical(part.text))


def _row_text(sheet: Sheet, row: int) -> str:
    """Return the filled cells of a row as text, as far as 300 letters."""
    cells = sheet.rows[row]
    plain = " | ".join([cell if cell.__class__ is str else text_of(cell) for cell in cells if cell != ""])
    told = " ".join(plain.split())
    if (
        len(plain) > _LONG_ROW or "| |" in told or told[-1:] == "|" or told[:1] == "|"
    ):  # a cell of blanks, or a bar
        told = " | ".join([text_of(cell) for cell in cells if not is_empty(cell)])
    return told[:_LONGEST_ROW]


_LONGEST_ROW, _LONG_ROW = 300, 1000
