"""Which cells of a row are read word by word, and what a cell says of the whole row."""

from __future__ import annotations

import re
from functools import lru_cache

from quoting.core import Basis, Choice, Mark, NumberStyle, Place, SizeError, parse_measures
from quoting.intake.cells import EITHER, headed, says_how_many_seams, says_who_brings, two_ends, who_does
from quoting.intake.layout import (
    SIZES,
    Meaning,
    TableColumn,
    TableContext,
    heading_meaning,
    listed_by_slashes,
    size_in_list,
)
from quoting.intake.row_record import Doubt, Record, RowText
from quoting.intake.size_column import NOTHING, SizeColumn
from quoting.intake.texts import SAYS_NO, SAYS_YES, dual_size, part_text, plain_sizes
from quoting.intake.words import Said, said_in_text
from quoting.tables import Cell, Sheet, is_empty, text_of

_READ = frozenset((
    "remarks", "supply", "seam", "tolerance", "edge", "shape", "ends", "grain", "certificate", "free_issue",
    "re_round",
))  # fmt: skip
_PLAIN = frozenset(
    (
        "number",
        "part_no",
        "drawing",
        "revision",
        "carried",
        "weight",
        "ignored",
        "description",
        "remarks",
        "unit",
    )
)
_NO_STATUS = _PLAIN - {"revision"}
"""Fields whose cells say nothing of whether the line is wanted."""
_LISTED = re.compile(r"[(\[]([^)\]]*)[)\]]|(.+)")
_TWO_SYSTEMS = re.compile(r"^[\d./ \"'-]+(?:in|mm)?\s*[(\[/]\s*[\d./ \"'-]+(?:in|mm)?\s*[)\]]?$")
_NOT_OURS = frozenset(("n/a", "na", "none", "nil", "buy", "bought", "bought out", "buyout", "purchased"))
_ANSWERS = SAYS_YES | SAYS_NO
_TICKED = frozenset(("", "seam", "edge", "tolerance"))
"""Fields whose heading says what a tick under it asks for: Weld seam, Galvanize."""
_SETTLED = re.compile(
    r"\b(released?|approved|ok|okay|firm|confirmed|active|new|go|quote|rfq|open|issued|current|live|ordered"
    r"|make|made|final|valid|unchanged|standard|std|required|reqd|wanted|roll\w*|yes|by (you|us)"
    r"|for quot\w+)\b"
)
_HIGH = re.compile(
    r"\d\S* ?(?:mm|in|ft)?\W*(?:high|tall|vert(?:ical)?|height|ht)\b|^\W*(?:h|ht|height|high)\W{0,3}\d", re.I
)
_CHANGED = re.compile(r"\W*(?:changed|revised|updated|amended|new|added|modified|corrected)\W*", re.I)
_ROUND_THE_PART = frozenset(("girth", "arc_length", "angle", "chord"))
_ROUND_IN_FULL = re.compile(
    r"\W*(?:rolled )?(?:full(?:y)?|complete|whole|closed|all)(?:[ -](?:rounds?|circle|ring|cylinder|turn"
    r"|closed))?\W*",
    re.I,
)
"""Under what is rolled round of a plate: full round."""
_WAS = re.compile(r"\b(was|old|prev(?:ious)?|before|former(?:ly)?|orig(?:inal)?)\b", re.I)
"""What a column that carries the values before a change is headed with."""
AS_IT_STANDS_OR_OUT = (
    Choice("yes, as it stands", (("status_ok", "yes"),)),
    Choice("no, leave it out", (("status_ok", "yes"), ("left_out", "left out by the customer"))),
)
"""The answers to whether a line is wanted."""
_SIZES_ROUND = frozenset((
    "diameter", "radius", "large", "small", "top", "bottom", "nominal", "size", "circumference", "girth",
    "chord",
))  # fmt: skip
_MARKED_SIZE = re.compile(
    r"\b(?:[io]\W?d\b\.?|inside|outside|inner|outer|dia\w*|radius|thk|thick\w*)\W{0,3}\d|[øØ⌀]\s?\d"
    r"|\d\s?(?:mm|in|\")?\s?(?:[io]/?d|dia|thk|thick)\b",
    re.I,
)
"""A size of the part in a cell that is only carried along, where no column gives one: seal ring ID 4250."""
_TOLD = 2
"""So many marked sizes in a cell of sizes, and a word that is not known is only said: 36" OD x 3/8" SLS."""
_LONGEST_STATUS = 60
_OWN = {Mark.CHORD: "chord", Mark.RISE: "rise", Mark.SLANT: "slant", Mark.GIRTH: "girth", Mark.LARGE: "large",
        Mark.SMALL: "small", Mark.ARC_LENGTH: "arc_length"}  # fmt: skip


def _unsettled(plain: str) -> bool:
    """Return whether a cell of a status column says anything but that the line is wanted."""
    return any(sign.isalpha() for sign in plain) and (
        _SETTLED.search(plain) is None
        or re.search(r"\b(not|un(?!changed)\w+|(?<!part )(?<!item )(?<!mark )(?<!order )no)\b", plain)
        is not None
    )


def _revised(text: str) -> bool:
    """Return whether a text only tells what a revision changed, or that the row is an option of its own."""
    said, _ = said_in_text(text)
    return bool(said) and all(one.does == "note" and one.name in ("revision", "option") for one in said)


def says_closed(field: str, text: str) -> bool:
    """Return whether a cell under what is rolled round of a plate says that it is the whole circle.

    >>> says_closed("girth", "full round"), says_closed("length", "full round")
    (True, False)
    """
    return field in _ROUND_THE_PART and _ROUND_IN_FULL.fullmatch(text) is not None


class RowTexts:
    """Sorts the cells of one table's rows into plain values and texts."""

    def __init__(self, frame: TableContext) -> None:
        self.frame = frame
        columns = frame.table.columns
        self._wanted = [column.index for column in columns if column.meaning.field == "wanted"]
        self.wordy = {column.index: self._kind(column) for column in columns}
        self._was = any(
            column.meaning.field in ("ignored", "carried") and _WAS.search(column.header)
            for column in columns
        )
        self._orders: dict[int, tuple[tuple[str, ...], dict[str, Basis], bool]] = {}

    def _kind(self, column: TableColumn) -> str:
        field = column.meaning.field
        if field in ("description", "supply", "wanted"):
            return field
        if field in _READ:
            return "remark"
        if self._unknown(column):
            return "unknown"
        return "carried" if field == "carried" and not _SIZES_ROUND & self.frame.fields else ""

    def keep(self, record: Record, column: TableColumn, cell: str, place: Place) -> None:
        """Keep a cell's text; its column holds words, of the kind that `wordy` tells."""
        kind = self.wordy[column.index]
        text = text_of(cell)
        if kind == "carried":
            if _MARKED_SIZE.search(text):
                record.texts.append(RowText("description", text, place, column.header, free=True))
            return
        plain = text.lower()
        if kind == "supply" and plain in _NOT_OURS:
            record.values.setdefault("left_out", f'the sheet says "{text}"')
        if kind == "wanted" and (plain in SAYS_NO or plain == "0"):
            record.values.setdefault("left_out", f'not to be rolled: "{column.header}" says "{text}"')
        if plain in SAYS_YES and column.meaning.field in _TICKED:
            record.texts.append(RowText("remark", column.header, place, free=True))
            return
        counted = column.meaning.field == "seam" and says_how_many_seams(text)
        brings = column.meaning.field == "free_issue" and says_who_brings(text)
        if plain in NOTHING or plain in _ANSWERS or kind == "wanted" or counted or brings:
            return
        if "status" in column.header.lower() and _unsettled(plain) and not self._settled(text):
            asked = f'The status reads "{text}": is the line wanted as it stands?'
            record.doubt(Doubt("status_ok", place, text, asked, AS_IT_STANDS_OR_OUT))
        elif "status" in column.header.lower() and _CHANGED.fullmatch(text) and self._settled(text):
            return
        if kind == "description":
            order, bases, flat = self._order(column)
            record.texts.append(RowText("description", text, place, order=order, bases=bases, flat=flat))
        elif kind != "unknown":
            free = column.meaning.field in ("remarks", "supply")
            record.texts.append(RowText("remark", text, place, headed(column), free=free))
        elif any(sign.isalpha() for sign in text):
            sized = any(sign.isdecimal() for sign in text)
            kind = "description" if sized else "remark"
            order, bases, flat = self._order(column)
            record.texts.append(
                RowText(kind, text, place, column.header, order=order, bases=bases, flat=flat, free=True)
            )

    def _settled(self, text: str) -> bool:
        """Return whether a status only tells of a revision, by itself or beside what was before it."""
        return _revised(text) or (self._was and _CHANGED.fullmatch(text) is not None)

    def _unknown(self, column: TableColumn) -> bool:
        """Return whether nobody knows what a column is for; one pinned as carried is read the same."""
        field = column.meaning.field
        return not field or (field == "carried" and heading_meaning(column.header).field != "carried")

    def angled(self, record: Record, column: TableColumn, cell: str, place: Place) -> bool:
        """Keep a cell of an angle column that says it is a rise or an arc length, to be read with the row."""
        sizes = part_text(text_of(cell), self.frame.style, self.frame.materials).sizes
        if not any(one.clear and one.measure.mark is not None for one in sizes):
            return False
        record.texts.append(RowText("size", text_of(cell), place, column.header))
        return True

    def unwanted(self, record: Record, cells: list[Cell]) -> None:
        """Leave out a row that a column of crosses does not mark."""
        for index in self._wanted:
            if index >= len(cells) or is_empty(cells[index]):
                record.values.setdefault("left_out", "not marked to be rolled")

    def sized(self, record: Record, column: TableColumn, slot: SizeColumn, cell: Cell, place: Place) -> bool:
        """Keep a cell of sizes to be read with the row, unless it is one plain size of its column."""
        if not isinstance(cell, str):
            return False
        text = text_of(cell)
        if (slot.field == "diameter" and two_ends(slot, text)) or EITHER.search(text):
            return False
        single, own = _single(text, slot.style)
        own = "height" if single and slot.field == "width" and _HIGH.search(text) else own
        if single and slot.field != "size" and own in ("", slot.field):
            return False
        part = part_text(text, slot.style, self.frame.materials)
        if any(said.does == "ask" and said.name == "shape" for said in part.said):
            record.texts.append(RowText("remark", text, place, free=True))
            return True  # a rolled section, a flat bar: asked about by its words, and not by its numbers
        marked = [one for one in part.sizes if one.measure.mark or one.measure.unit]
        clear = all(one.clear for one in part.sizes)
        asks = any(said.does in ("ask", "out", "free") for said in part.said)
        if (
            not part.sizes
            or not clear
            or asks
            or (part.unknown and not (slot.field == "size" and len(marked) >= _TOLD))
            or (not marked and len(part.sizes) < 2 and not part.materials)
        ):
            return False
        order, bases, flat = self._order(column)
        field = "" if slot.field == "size" or own not in ("", slot.field) else slot.field
        record.texts.append(
            RowText("size", text, place, column.header, field, slot.header_unit, order, bases, flat)
        )
        record.places.setdefault(slot.field, (place, text))
        return True

    def _order(self, column: TableColumn) -> tuple[tuple[str, ...], dict[str, Basis], bool]:
        """Return the fields that a heading lists in order: (t x width x girth)."""
        if column.index not in self._orders:
            own = _listed(column.header)
            notes = () if own[0] or column.meaning.field != "size" else self.frame.said.notes
            said = [sentence for note in notes for sentence in _SENTENCES.split(note)]
            listed = (
                one for note in said for one in (_listed(re.split(r"[:;]", note)[-1]), _listed_in(note))
            )
            self._orders[column.index] = next((one for one in listed if one[0]), own)
        return self._orders[column.index]

    def status(self, record: Record, column: TableColumn, cell: str, place: Place) -> bool:
        """Return whether a cell of any column says that its row is void or on hold, and keep that."""
        if column.meaning.field in _NO_STATUS or len(cell) > _LONGEST_STATUS or not column.meaning.field:
            return False
        text = text_of(cell)
        if not any(sign.isalpha() for sign in text) or text.lower() in NOTHING:
            return False
        said = _status_said(text)
        of_plate = column.meaning.field in SIZES or column.meaning.field == "material"
        if said is None or (said.does == "out" and of_plate and who_does(text)):  # Plate: by others
            return False
        if said.does == "out":
            record.values.setdefault("left_out", f'the sheet says "{text}"')
            return True
        stops = re.search(r"\b(hold|suspend\w*|do not|stop)\b", text, re.I)
        if column.meaning.field == "due" and stops:
            pass
        elif (
            column.meaning.field in ("due", "quantity")
            or column.meaning.field in SIZES
            or column.meaning.field == "material"
        ):
            return False
        asked = f'The sheet says "{text}": {said.text}?'
        record.doubt(Doubt("status_ok", place, text, asked))
        return True


@lru_cache(maxsize=32_768)
def _status_said(text: str) -> Said | None:
    return next((said for said in said_in_text(text)[0] if said.name == "status"), None)


_NOT_ROUND = re.compile(
    r"(ellip|oval|obround|race|egg|d[- ]|sq|rect|spiral|heli|screw|auger|transition)", re.I
)


_NAMED = re.compile(r"[^\W\d_]{5,}(?:[ ,/()-]+[^\W\d_]{2,})*[.)]?")
"""A name in words, which is no mark."""


@lru_cache(maxsize=32_768)
def names_another_shape(text: str) -> bool:
    """Return whether the words of a part's name are those of a shape that no plate roll makes as it stands.

    >>> names_another_shape("Eccentric reducer 4"), names_another_shape("ECC-4")
    (True, False)
    """
    if " " not in text.strip() and not _NAMED.fullmatch(text.strip()):
        return False
    asked = [said for said in said_in_text(text)[0] if said.does == "ask"]
    return any(
        said.name == "eccentric" or (said.name == "shape" and _NOT_ROUND.match(said.words)) for said in asked
    )


_STOPS = frozenset(("status", "reference", "option"))


@lru_cache(maxsize=32_768)
def stops_the_line(text: str) -> bool:
    """Return whether the words of a part's name say that the part is not simply wanted (sample, on hold), or
    that more than a plain rolled part is meant (perforated basket, seamless pipe).

    >>> stops_the_line("Sample, already shipped"), stops_the_line("Sleeve"), stops_the_line("seamless pipe")
    (True, False, True)
    """
    named = _NAMED.fullmatch(text.strip()) is not None
    if " " not in text.strip() and not named:
        return False
    return any(
        said.does in ("ask", "out", "free") and (named or said.name in _STOPS)
        for said in said_in_text(text)[0]
    )


@lru_cache(maxsize=32_768)
def _single(text: str, style: NumberStyle) -> tuple[bool, str]:
    """Return whether a text is one size (in one or two systems), and the field it names itself, if any."""
    if dual_size(text, style) is not None or _TWO_SYSTEMS.match(text):
        return True, ""
    try:
        sizes = parse_measures(plain_sizes(text), style)
    except SizeError:
        return False, ""
    mark = sizes[0].mark
    return len(sizes) == 1, _OWN.get(mark, "") if mark is not None else ""


def crossed(record: Record, sheet: Sheet, row: int) -> None:
    """Leave out a row that is crossed out; ask about one in which only some cells are."""
    if not sheet.struck:
        return
    filled = [index for index, cell in enumerate(sheet.rows[row]) if not is_empty(cell)]
    struck = [index for index in filled if (row, index) in sheet.struck]
    if struck and len(struck) * 2 > len(filled):
        record.values["left_out"] = "struck through in the sheet"
    elif struck:
        text = ", ".join(text_of(sheet.rows[row][index]) for index in struck)
        keep = Choice("yes, as it stands", (("struck_ok", "yes"),))
        out = Choice("no, leave it out", (("struck_ok", "yes"), ("left_out", "left out by the customer")))
        asked = f'"{text}" is struck through; is the line still wanted, and with which value?'
        record.doubt(Doubt("struck_ok", record.place, text, asked, (keep, out)))


_BETWEEN = re.compile(r"\s+[xх*]\s+|\s*×\s*", re.I)
_SENTENCES = re.compile(r"(?<=[^\W\d_]{2})[.;]\s+")
_LIST_WORDS = 3
_SIZE_WORD = re.compile(r"[^\s,;:=()]+")


def _listed_in(note: str) -> tuple[tuple[str, ...], dict[str, Basis], bool]:
    """Return the sizes that a title or note lists among other words: pipes from plate, sizes OD x t x L.

    The words before the first sign and behind the last are tried, the most of them first.
    """
    pieces = _BETWEEN.split(note) if any(sign in note for sign in "x×*хX") else []
    if len(pieces) < 2 or any(sign.isdecimal() for sign in note):
        return (), {}, False
    first, last = _SIZE_WORD.findall(pieces[0]), _SIZE_WORD.findall(pieces[-1])
    for before in range(min(_LIST_WORDS, len(first)), 0, -1):
        for behind in range(min(_LIST_WORDS, len(last)), 0, -1):
            tried = (" ".join(first[-before:]), *pieces[1:-1], " ".join(last[:behind]))
            found = _listed(" x ".join(tried))
            if found[0]:
                return found
    return (), {}, False


def _listed(header: str) -> tuple[tuple[str, ...], dict[str, Basis], bool]:
    fields: list[str] = []
    bases: dict[str, Basis] = {}
    bracket = re.search(r"[(\[]([^)\]]*)[)\]]", header)
    for text in (" x ".join(listed_by_slashes(header)), bracket.group(1) if bracket else "", header):
        pieces = [
            piece.strip() for piece in re.split(r"\s+[xхX×*]\s+|\s*[×*]\s*|\s+/\s+", text) if piece.strip()
        ]
        meanings: list[Meaning] = [size_in_list(piece) for piece in pieces]
        if len(pieces) >= 2 and all(one.field in SIZES and one.field != "size" for one in meanings):
            fields = [one.field for one in meanings]
            bases = {one.field: one.basis for one in meanings if one.basis is not None}
            break
    if header == "plate thk width girth":
        fields = ["thickness", "width", "girth"]
    flat = re.search(r"\b(flat|plate)\b", header, re.I) is not None
    return tuple(fields), bases, flat
