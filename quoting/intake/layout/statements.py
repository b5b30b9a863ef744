"""What a sheet says outside its rows, and for which lines: all, some by number, those under a heading."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from quoting.core import Basis, Mark, Measure, NumberStyle, Unit
from quoting.intake.layout.for_all import (
    EVERY,
    SideOfLines,
    coated_plate,
    facts_in,
    plate_of,
    says_only_plate,
    sides_of_lines,
    sizes_for_all,
)
from quoting.intake.layout.lines_named import ITEMS, REFS, grades_of_lines, items_in
from quoting.intake.layout.sheet_rules import basis_said, takes_rule
from quoting.intake.texts import PartText, part_text, shape_words
from quoting.intake.words import (
    MarkRule,
    Said,
    corrected_item,
    correction_in,
    is_business,
    mark_rule,
)
from quoting.shop import Materials

_ENDS = " .,;"
_CLAUSE = re.compile(
    r"(?<![Pp]o[sz])(?<!\b[Nn][ro])(?<!\b[Aa]rt)(?<!\b[Rr]e[fp])(?<!\b[Aa]bb)(?<![Nn]um)(?<=[A-Za-z)])[.;](?:\s+|$)"
    r"|\n|;\s+|(?<=[?!])\s+"
)
"""Ends of sentences; the point of Pos. 1 is none."""
_SHORTENED = re.compile(
    r"\b(int|ext|inn|out|dia|diam|thk|mat|matl|lg|lgth|len|ht|approx|max|min|qty|dim|dims|incl|excl|typ|nom|std|reqd"
    r"|rad|circ|innen|aussen|inw|uitw|wewn|zewn|vnitr|vnej|larg|epais|esp|sp|gr|lungh|lg)\.(?=\s+(?-i:[a-zØø\d]))",
    re.I,
)
"""Short forms whose point ends no sentence where a small letter or a number follows: Int. dia in mm."""
_ALL = re.compile(
    r"\b(all|both|beide|alle[ns]?|durchweg|durchgehend|tous|tout|toutes?|tod[oa]s?|tudo|tutt[aeio]|wszystkie|wszystko|every|everything|each|following|below|these|u\.?n\.?o|unless|throughout|material|matl|mat'l|grade|general|plates?|steel)\b",
    re.I,
)
_EVERY_ONE = re.compile(
    r"\W*(?:\d{1,2}\W+)?\b(all|every|each|alle[ns]?|s[aä]mtliche|tous|toutes?|tout|tod[oa]s?|tudo|tutt[aeio]|wszystkie|wszystko|v[sš]echny|alla|kaikki|toate|все"
    r"|hepsi|minden|everything)\b|.{0,4}(?:全部|所有)",
    re.I,
)
_BUT = re.compile(
    r"\b(unless|u\.?n\.?o|except|otherwise|where not|if not|other than|apart|but|not|no)\b", re.I
)
_BLOCKING = frozenset(("quantity", "free_issue", "material", "thickness"))
_STOPS = re.compile(r"\b(hold|void|cancel\w*|supersed\w*|withdrawn|do not|deleted?|tb[acd]|pending)\b", re.I)
_DENIED = re.compile(
    r"\b(no|not|never|instead|except|or|alt\w*|equiv\w*|old|was|formerly|other than|without)\b", re.I
)
OTHER_GRADE = "material_other"
"""What is asked of a line that a note leaves out of the grade for all, and that its row answers itself."""
_HOLDS = re.compile(r"[,;(–-]?\s*(?<![\w.,/])\d[\d.,]*\s?(?:m3|m³|m\^3|cbm|cu\.? ?m)(?!\w)\)?", re.I)
"""What a drum or a tank holds: no size of its plates."""
_A_LOT = re.compile(
    r"\s*(?:[/|–]|\s-)\s*(?:sub[- ]?)?(?:lots?|los|batch|phase|parcel|tranche|stage|package|pkg|lotto|lote"
    r"|lott|partia|dávka|erä|parti|serie|section|block)\s*(?:no\.?|nr\.?|n[°º]\.?)?\s*(?:\d{1,3}|[A-Z])"
    r"(?=\s*(?:[/|–]|\s-|$))"
    r"|\s*\b(?:lots?|los|lote|lotto)\s*\d{1,3}\s*(?:of|/|von|de|di|sur|van|z)\s*\d{1,3}\b",
    re.I,
)
"""The lot that a title names is that of the order: tank shells / lot 2 / 304."""
_LED = re.compile(r"^\s*\(?\d{1,2}\s*[.)]\s*")
_BALANCE = re.compile(
    r"[,;]?\s*\b(?:and )?(?:the )?(?:balance|rest|remaind\w*|remaining|others)\b[^,;\d]*(?:by|on|before)\s+"
    r"(?P<when>[\w./ -]*\d[\w./-]*)",
    re.I,
)
_MAYBE = re.compile(
    r"\b(if|or|option\w*|altern\w*|either|may|might|could|can|some|part(ly|ial\w*)?|only (the|for)|unless"
    r"|except|but|both|whether|price with|with and without|not"
    r"|(?<!mark )(?<!item )(?<!part )(?<!tag )(?<!heat )(?<!piece )(?<!serial )no"
    r"|cannot|don'?t|until|tb[acd])\b|\?",
    re.I,
)
_ASKED_FOR = re.compile(
    r"\b(?:could|can|would|will|may) (?:you|i|we) (?:please |kindly |also )?"
    r"(?:quote|price|have|get|offer|send)\b",
    re.I,
)
"""How a price is asked for: no condition."""
_PLATE_OR_WORK = re.compile(
    r"\b(plates?|material|matl|mat'l|steel|blanks?|sheets?|free[- ]issue|labou?r only|toll \w+"
    r"|conversion only)\b",
    re.I,
)
_WHOSE_PLATE = re.compile(r"(\w+)[ -]+(?:plates?|material|matl|steel|blanks?|sheets?)\b", re.I)
_OF_ALL_PLATE = frozenset((
    "only", "all", "the", "our", "own", "every", "raw", "cut", "customer", "client", "s", "and", "of", "with",
    "for",
    "is", "are", "steel", "plate", "sheet", "issue", "issued", "supply", "bring", "send", "provide",
    "furnish", "deliver", "mm", "in", "as", "from", "buyer", "owner", "we", "supplied", "furnished", "your",
    "rolling", "rolled", "des", "les", "de", "du", "la", "le", "los", "las", "el", "die", "der", "das",
    "den", "dem", "delle", "della", "het", "van", "gli", "il", "os", "do", "da",
    "following", "these", "below",
))  # fmt: skip
"""What stands before the plate where all of it is meant; a name of a part there means only that part's."""
_EXCEPT = re.compile(
    r"[,;(]?\s*\b(?:except|but|other than|apart from|with the exception of|ausser|außer|sauf|salvo|excepto"
    r"|eccetto|tranne|exceto|behalve|opr[óo]cz|poza|krom[ěe])\b(?: for| that)?",
    re.I,
)
_SPARE = re.compile(r"\b(spares?|extra|test|coupon|sample|balance|lots?(?! of \d))\b", re.I)
_NAMED_SPARES = re.compile(
    r"(?!.*\b(?:incl\w*|with|plus|and|or|qty|quantit\w*|each|per|no|not|without|price\w*|also|extra|if"
    r"|optional\w*|need\w*|want\w*|requir\w*|reqd|please|send|make|one|two|some|few)\b)"
    r"(?:(?:[^\d+&%?]*[-–:,/]|\W*)\s*spare (?:[^\W\d_]+\W?){1,3}(?:\([^\d()]*\))?\W*$|"
    r"[^\d+&%?;]*[^\W\d_]{2,} spares?\s*[-–:,/]\s*(?:[^\W\d_]+\W{0,2}){1,4}$|"
    r"(?=.*(?:[^\W\d_]{2,} spare|spares?\b.* for\b))"
    r"[^\d+&%?]*\bspares?\b(?: (?:parts?|list|order|package|kit))*(?: for\b[^\d+&%?]*)?\W*$)",
    re.I,
)
"""A title that names what is ordered: thickener spares, spare parts for the dryer."""
_ABOUT_THE_PART = frozenset(("quantity", "pieces", "shape", "eccentric"))
"""Questions about the part beside which the grade that a title names holds all the same."""
_NO_DOUBLING = re.compile(
    r"\b(?:don'?t|do not|no need to|nicht|ne pas|no|non|niet|nie|não|inte|ikke)\s+"
    r"(?:(?:to|nochmals?|again|mehr)\s+)?(?:double|multipl\w*|verdoppeln|multiplizieren|doubler|duplicar"
    r"|raddoppiare|moltiplicare|verdubbelen|mnożyć|dubbla)",
    re.I,
)
"""Pieces are counted for all: don't double it."""
_DISCLAIMER = re.compile(
    r"\b(?:receiv\w*|re[cç]u|erhalten|recibi\w*|ricevut\w*|receb\w*|ontvangen|otrzyma\w*|mottagit|modtaget|mottatt)\b"
    r".{0,40}\b(?:error|mistake|erreur|irrtümlich|versehentlich|errore|engano|vergissing|omyłkowo|misstag|fejl|feil)\b"
    r"|\b(?:error|mistake|erreur|irrtümlich\w*|versehentlich|errore|engano)\b.{0,40}"
    r"\b(?:receiv\w*|re[cç]u|erhalten|recibi\w*|ricevut\w*|receb\w*)\b"
    r"|\bintended (?:recipient|addressee)\b",
    re.I,
)
"""What stands below a mail about whoever gets it by mistake."""
_RULES = frozenset(("ends", "note", "supply", "welding", "gap", "cert"))
_A_MARK = re.compile(r"(?<![\w/.-])[A-Za-z]{1,3}-?\d{1,4}[A-Za-z]?(?![\w/-]|\.\d)")
_MOST_WORDS = 8
_TITLE = re.compile(
    r"(?:purchase |vendor |price )?(?:request for (?:a )?(?:quot\w+|price)|quotation request"
    r"|quotation|enquiry|inquiry|rfq)"
    r"(?: no| form| sheet)?",
    re.I,
)
_IN_BRACKETS = re.compile(r"\([^\d()]{1,30}\)")
_NOUN = re.compile(r"[^\W\d_]{4,}")
_NAME = 100
"""A number below this beside harmless words is a name: tank 2."""
_UNITS = (Unit.MM, Unit.INCH, Unit.GAUGE)
_WORDS = re.compile(r"\w+")
_COURTESY = re.compile(
    r"(?:good (?:morning|afternoon|day|evening)|h[ei]llo|hi|dear)(?: (?:all|there|sirs?|team|both))?"
    r"|(?:please|pls|kindly|could you|can you) (?:please )?(?:quote|price)"
    r"(?: (?:us|me|the|these|following|attached|parts?|items?|shells?|below|on|for|and|lines?))*"
    r"|(?:many )?thanks?(?: you)?(?: in advance| and)?(?: (?:kind|best))?(?: regards)?"
    r"|(?:kind|best|warm)? ?regards",
    re.I,
)
"""How a mail begins and ends; in a sheet such words are asked about, there they are rare."""


@dataclass(frozen=True, slots=True)
class SheetAsk:
    """A question that a statement raises, and the numbers of the lines it is about (none: all lines)."""

    name: str
    words: str
    text: str
    lines: frozenset[str] = frozenset()


@dataclass(slots=True)
class Statements:
    """The statements of a file: a material for all, questions, notes for single lines, what was not used."""

    material: str = ""
    asks: list[SheetAsk] = field(default_factory=list)
    unused: list[str] = field(default_factory=list)
    supplied: bool = False
    counted: bool = False
    totalled: bool = False
    each: bool = False
    offered: set[str] = field(default_factory=set)
    remarks: list[tuple[frozenset[str], str]] = field(default_factory=list)
    others: list[tuple[frozenset[str], str]] = field(default_factory=list)
    sizes: dict[str, set[str]] = field(default_factory=dict)
    strict: set[str] = field(default_factory=set)
    free: str = ""
    marks: frozenset[str] = frozenset()
    heeded: set[str] = field(default_factory=set)
    sources: dict[str, str] = field(default_factory=dict)
    of_cones: list[str] = field(default_factory=list)
    as_written: Mapping[str, str] = field(default_factory=dict)
    terms: list[str] = field(default_factory=list)
    plates: set[str] = field(default_factory=set)
    sure_plates: set[str] = field(default_factory=set)

    @property
    def grade(self) -> str:
        """Return the grade of lines that give none: the one said for all, else the only one that is named."""
        return self.material or (next(iter(self.offered)) if len(self.offered) == 1 else "")

    def hear(self, texts: Iterable[str], materials: Materials, title: Iterable[str] = ()) -> None:
        """Take the lines that stand outside tables; `title` is the first line of the sheet."""
        for text in title:
            if not _only_names(text, part_text(text, NumberStyle.POINT, materials)):
                self.hear((text,), materials)
        for text in texts:
            if self._are_terms(text, materials) or self._corrects(text):
                continue
            for clause in _CLAUSE.split(_SHORTENED.sub(r"\1", _A_LOT.sub(" ", _HOLDS.sub(" ", text)))):
                if clause and clause.strip():
                    self._clause(clause.strip(" ;"), materials)

    def hear_headings(self, texts: Iterable[str], materials: Materials) -> None:
        """Take the headings of rows: they hold for the rows under them, and are only told here."""
        others = Statements(as_written=self.as_written)
        others.hear(texts, materials)
        self.terms += [text for text in others.terms if text not in self.terms]
        self.unused += [text for text in others.unused if text not in self.unused]
        self.of_cones += others.of_cones

    def _are_terms(self, text: str, materials: Materials) -> bool:
        """Keep what is mere business for the estimator to read; return whether a text is."""
        cells = text.split(" ; ")
        if not all(mere_business(cell, self.as_written.get(cell, cell), materials) for cell in cells):
            return False
        if text not in self.terms:
            self.terms.append(text)
        return True

    def _corrects(self, text: str) -> bool:
        """Keep a corrected size of one line as a remark of its row; return whether a text is one."""
        number, rest = corrected_item(text)
        if not number or correction_in(rest) is None:
            return False
        rest = rest.strip(" ,;:.-–")
        self.remarks.append((frozenset((number,)), rest))
        self.sources[rest] = text
        return True

    def _sides(self, clause: str, sides: Iterable[SideOfLines]) -> None:
        """Keep the sides that a note gives to lines by their numbers as remarks of their rows."""
        for one in sides:
            said = f"diameter {one.basis}"
            (self.others if one.others else self.remarks).append((one.lines, said))
            self.sources[said] = clause

    def _clause(self, clause: str, materials: Materials) -> None:
        if self._are_terms(clause, materials):
            return
        if _DISCLAIMER.search(clause) and not any(map(str.isdecimal, clause)):
            self.terms.append(clause)
            return
        if sides := sides_of_lines(clause):
            self._sides(clause, sides)
            return
        if _NO_DOUBLING.search(clause):
            self.counted = self.totalled = True
        self._sets(clause)
        if _TITLE.fullmatch(clause.strip(" .:-")):
            return
        if (rule := mark_rule(clause)) is not None:
            self._but_marked(clause, rule, materials)
        else:
            self._plain_clause(clause, materials)

    def _plain_clause(self, clause: str, materials: Materials) -> None:
        part = part_text(clause, NumberStyle.POINT, materials)
        found = items_in(clause) or self._marked(clause)
        self.supplied = self.supplied or any(said.name == "supply" for said in part.said)
        if not found and any(said.does == "free" for said in part.said) and _all_plate_is_theirs(clause):
            self.free = self.free or clause
        for name, size in ({} if found else sizes_for_all(clause, part)).items():
            self.sizes.setdefault(name, set()).add(size)
            if EVERY.search(clause):
                self.sizes.setdefault(f"every {name}", set()).add("yes")
        if not found and (plate := plate_of(clause, part)):
            self.plates.add(plate)
            if says_only_plate(clause, part, plate):
                self.sure_plates.add(plate)
        if found and (self._all_but_some(clause, materials) or self._grades(clause, materials)):
            return
        taken = False
        if found:
            self._some(clause, part, found, materials)
        elif part.grades and _ALL.search(clause) and len({key for key, _ in part.grades}) == 1:
            self.material = self.material or part.grades[0][0]
            taken = self.material == part.grades[0][0]
            if _EVERY_ONE.match(clause) and not _BUT.search(clause):
                self.strict.add(part.grades[0][0])
            self.asks += [_ask(clause, said) for said in part.said if _stops(clause, said)]
        else:
            self.asks += [_ask(clause, said) for said in part.said if _stops(clause, said)]
            doubted = (said for said in part.said if said.does in ("ask", "out", "free"))
            if all(said.name in _ABOUT_THE_PART for said in doubted):
                coated = coated_plate(clause, materials)
                metals = {*(key for key, _ in part.grades), *((coated,) if coated else ())}
                self.offered |= metals if not _DENIED.search(clause) else set()
        unknown = [word for word in part.unknown if not _ALL.fullmatch(word)]
        ruled = takes_rule(clause) and all(said.name in _RULES for said in part.said)
        if ruled and not (part.grades and unknown):  # all material A36, sandblasted
            return
        named = all(one.clear and one.measure.low < _NAME and not one.measure.unit for one in part.sizes)
        named = named and not any(
            one.measure.mark or one.measure.fraction or one.joined for one in part.sizes
        )
        named = named and (not part.sizes or _NOUN.search(clause) is not None)
        counted = part.count is not None or part.counts
        odd = any(sign in clause for sign in "+±")
        grades = part.grades and not taken
        unknown = unknown if taken else [*part.unknown]
        loud = part.said or not named or unknown or part.codes or grades or counted or odd
        self._not_used(clause, loud=bool(loud))

    def _not_used(self, clause: str, *, loud: bool) -> None:
        """Keep a clause that is told; of the others those that say that the parts are cones."""
        if loud and clause not in self.unused:
            self.unused.append(clause)
        elif not loud and shape_words(clause).get("shape") == "cone":
            self.of_cones.append(clause)

    def of_no_cone(self) -> None:
        """Tell what notes say of cones: no line is one."""
        self.unused += [clause for clause in self.of_cones if clause not in self.unused]

    def _marked(self, clause: str) -> frozenset[str]:
        """Return the marks of parts that a note names where it is about them: K3 is on hold."""
        if not self.marks or EVERY.search(clause):
            return frozenset()
        return self.marks & {word.lower() for word in _A_MARK.findall(clause)}

    def _all_but_some(self, clause: str, materials: Materials) -> bool:
        """Take a grade for all lines but some, and theirs: material A36 except line 3, which is 304L.

        Theirs may stand in their rows.
        """
        match = _EXCEPT.search(clause)
        if match is None:
            return False
        own, others = clause[: match.start()], clause[match.end() :]
        most = part_text(own, NumberStyle.POINT, materials)
        some = part_text(ITEMS.sub(" ", others), NumberStyle.POINT, materials)
        keys = [{key for key, _ in one.grades} for one in (most, some)]
        lines = items_in(others)
        if len(keys[0]) != 1 or len(keys[1]) > 1 or not lines or items_in(own) or most.said or some.said:
            return False
        if any(one.measure.mark or one.measure.unit for one in (*most.sizes, *some.sizes)):
            return False
        self.material = self.material or keys[0].pop()
        if some.grades:
            self.remarks.append((lines, some.grades[0][1]))
        else:
            text = "which material and grade is meant"
            self.asks.append(SheetAsk(OTHER_GRADE, clause, text, lines))
        return True

    def _grades(self, clause: str, materials: Materials) -> bool:
        """Take the grades that a note gives to groups of lines as remarks of their rows."""
        found = grades_of_lines(clause, materials)
        named = frozenset[str]().union(*(lines for lines, _ in found))
        for lines, grade in found:
            (self.remarks if lines else self.others).append((lines or named, grade))
            self.sources[grade] = clause
        return bool(found)

    def _but_marked(self, clause: str, rule: MarkRule, materials: Materials) -> None:
        """Take what is said of the rows without a mark; those with one are told by their row."""
        if any(sign.isalnum() for sign in rule.others):
            said = part_text(rule.others, NumberStyle.POINT, materials)
            if len({key for key, _ in said.grades}) == 1 and not said.said:
                self.material = self.material or said.grades[0][0]
            else:
                self._clause(rule.others, materials)
        if clause not in self.unused:
            self.unused.append(clause)

    def _sets(self, clause: str) -> None:
        """Ask what the pieces are counted for where a text orders several sets and no phrase asks it."""
        facts = facts_in(clause)
        if facts.sets > 1 and not facts.in_all:
            text = "is the quantity for one of them or for all: how many pieces is that in all"
            self.asks.append(SheetAsk("quantity", clause, text))

    def _some(self, clause: str, part: PartText, lines: frozenset[str], materials: Materials) -> None:
        whole = clause
        clause = _LED.sub("", clause)
        later = _BALANCE.search(clause)
        if later:
            self.others.append((lines, f"by {later['when'].rstrip(' .')}"))
            clause = clause[: later.start()] + clause[later.end() :]
        rest = ITEMS.sub(" ", REFS.sub(" ", clause)).strip(" ,;:.-–&")
        own = part_text(rest, NumberStyle.POINT, materials)
        if rest and (own.said or own.materials or own.date) and not ITEMS.search(rest):
            self.remarks.append((lines, rest))
            self.sources[rest] = whole
            return
        for said in part.said:
            if said.does in ("ask", "out", "free") or said.name == "note":
                self.asks.append(_ask(clause, said, lines))
        if part.families or part.materials:
            text = "does that change the material of the line, and to which grade"
            self.asks.append(SheetAsk("material_said", clause, text, lines))
        if any(one.measure.mark or one.measure.unit for one in part.sizes):
            text = "does that change a size of the line"
            self.asks.append(SheetAsk("size_said", clause, text, lines))
        if not any(ask.words == clause for ask in self.asks) and not part.said:
            text = "does that change the line, its size or who supplies the plate"
            self.asks.append(SheetAsk("note_said", clause, text, lines))

    def known(self, reference: str, contact: str, materials: Materials) -> None:
        """Forget the courtesies of a mail, and what only repeats its reference or sender: both stand on the
        quote. One that says something of work, grade or size is kept.
        """
        self.unused = [text for text in self.unused if not _repeats(text, reference, contact, materials)]

    def told_who_asks(self, cells: frozenset[str]) -> None:
        """Forget the cells, in the customer's words, that say no more than who asks and for what number."""
        plain = {cell.strip(_ENDS) for cell in cells}
        self.unused = [
            text
            for text in self.unused
            if not all(self.as_written.get(one, one).strip(_ENDS) in plain for one in text.split(" ; "))
        ]

    def forget(self, about: re.Pattern[str]) -> None:
        """Drop the questions of statements about something that the rows show themselves."""
        self.asks = [ask for ask in self.asks if ask.lines or not about.search(ask.words)]

    def remarks_on(self, number: str) -> list[str]:
        """Return what notes say of one line by its number, to be read as a remark of its row."""
        own = [text for lines, text in self.remarks if number.lower() in lines]
        self.heeded |= {self.sources[text] for text in own if text in self.sources}
        return own + [text for lines, text in self.others if number.lower() not in lines]

    def open_up(self, numbers: set[str]) -> bool:
        """Make what is said of lines that no number of the file names a question about all of them."""
        lost = [ask for ask in self.asks if ask.lines and not ask.lines & numbers]
        text = "does that change the line, its size or who supplies the plate"
        notes = [SheetAsk("note_said", said, text) for lines, said in self.remarks if not lines & numbers]
        notes = [] if any(one.startswith("lot ") for lines, _ in self.remarks for one in lines) else notes
        self.asks = [ask for ask in self.asks if ask not in lost]
        lost = [ask for ask in lost if not _names_its_lot(ask)]
        self.asks += [replace(ask, lines=frozenset()) for ask in lost] + notes
        return bool(lost or notes)

    def about(self, number: str) -> list[SheetAsk]:
        """Return the questions about one line by its number."""
        return [ask for ask in self.asks if ask.lines and number.lower() in ask.lines]

    def about_all(self) -> list[SheetAsk]:
        """Return the questions about all lines, one of a kind."""
        found: dict[str, SheetAsk] = {}
        if not self.asks:
            return []
        for ask in self.asks:
            settled = (ask.name == "free_issue" and (self.supplied or bool(self.free))) or (
                ask.name == "quantity"
                and (
                    (self.counted and _about_sets(ask.words))
                    or (self.each and facts_in(ask.words).of_every > 0)
                    or (self.totalled and not _SPARE.search(ask.words))
                )
            )
            if not ask.lines and not settled:
                found.setdefault(ask.name, ask)
        return list(found.values())


_NO_STOP = re.compile(
    r"\W*(?:net|budget(?:ary)?|(?:no )?chang(?:e|es|ed)|not in your scope|hold prices"
    r"|within [\d -]+(?:days|weeks|months))\W*",
    re.I,
)
"""Phrases that change a part elsewhere (net lengths, a changed size) and in mere business do not."""


def mere_business(text: str, as_written: str, materials: Materials) -> bool:
    """Return whether a text as it is read in English, and as it was written, is mere business.

    No grade and no phrase that a line waits for may be in it: what changes a part is looked for twice.
    """
    if not is_business(as_written):
        return False
    part = part_text(text, NumberStyle.POINT, materials)
    stops = any(
        said.does in ("ask", "out", "free") and not _NO_STOP.fullmatch(said.words) for said in part.said
    )
    return not (stops or part.grades or part.families)


def _all_plate_is_theirs(clause: str) -> bool:
    """Return whether a note says of the plate for all lines, on no condition, that the customer brings it.

    >>> _all_plate_is_theirs("Plates are free issue"), _all_plate_is_theirs("The skirt plate is free issue")
    (True, False)
    """
    clause = _ASKED_FOR.sub(" ", clause)
    if _MAYBE.search(clause) or not _PLATE_OR_WORK.search(clause):
        return False
    return all(match[1].lower() in _OF_ALL_PLATE for match in _WHOSE_PLATE.finditer(clause))


def _about_sets(words: str) -> bool:
    """Return whether a text is about how many sets are ordered, and what the pieces are counted for."""
    facts = facts_in(words)
    counted = facts.sets or facts.per_set or facts.in_all or facts.of_set
    return bool(counted) and _SPARE.search(words) is None


def _only_names(title: str, part: PartText) -> bool:
    """Return whether a title says no more than whose list it is: PLACEHOLDER FABRICATORS - ROLLING LIST."""
    valued = part.sizes or part.grades or part.families or part.codes or part.counts or part.count is not None
    if (
        not title.isascii()
        or valued
        or part.said
        or len(title.split()) > _MOST_WORDS
        or any(sign in title for sign in "+±")
    ):
        return False
    outside = _IN_BRACKETS.sub(" ", title)
    return all(not word[0].islower() or word not in outside for word in part.unknown)


def is_courtesy(text: str) -> bool:
    """Return whether a text is no more than how a mail begins or ends.

    >>> is_courtesy("Good morning,"), is_courtesy("Good morning, price asap")
    (True, False)
    """
    return _COURTESY.fullmatch(text.strip(" .,!:-")) is not None


def _repeats(text: str, reference: str, contact: str, materials: Materials) -> bool:
    words, names = (set(_WORDS.findall(one.lower())) for one in (text, contact))
    if words <= names or is_courtesy(text):
        return True
    if text not in reference:
        return False
    part = part_text(text, NumberStyle.POINT, materials)
    marked = any(one.measure.mark or one.measure.unit or one.joined for one in part.sizes)
    said = [one for one in part.said if one.name != "note"]
    return not (said or part.grades or part.codes or part.unknown or marked)


def _names_its_lot(ask: SheetAsk) -> bool:
    """Return whether a text says nothing that is understood but a lot that no row names: it is that of the
    sheet.
    """
    return ask.name == "note_said" and all(line.startswith("lot ") for line in ask.lines)


def _ask(clause: str, said: Said, lines: frozenset[str] = frozenset()) -> SheetAsk:
    return SheetAsk(said.name, clause, said.text, lines)


def _stops(clause: str, said: Said) -> bool:
    """Return whether a phrase outside the rows keeps all of them waiting."""
    if said.does not in ("ask", "out", "free") or (said.name == "quantity" and _NAMED_SPARES.match(clause)):
        return False
    return said.name in _BLOCKING or (said.name == "status" and _STOPS.search(clause) is not None)


_A_TAB = re.compile(
    r"(?:^|(?<=[.;])\s+|(?<=\s)[a-z]\)\s*)"
    r"(?:[a-z]\)\s*)?(?:on )?(?:tab|sheet|blatt|feuille|onglet|hoja|foglio|arkusz|list)\b\.?\s*[\"'“]?"
    r"(?P<name>[^:\"'”]{1,31}?)[\"'”]?\s*[:–]\s*(?P<text>[^.;]+)(?:[.;]|$)",
    re.I,
)


def said_of_tabs(line: str, names: Iterable[str]) -> tuple[str, list[tuple[str, str]]]:
    """Return a line of a cover sheet without what it says of single tabs by their names, and that by tab.

    >>> said_of_tabs("Tab South: all plate A516-70. Tab North: all plate 304L", ["South", "North"])
    ('', [('South', 'all plate A516-70'), ('North', 'all plate 304L')])
    """
    known = {name.lower(): name for name in names}
    found = [match for match in _A_TAB.finditer(line) if match["name"].strip().lower() in known]
    rest = line
    for match in reversed(found):
        rest = rest[: match.start()] + rest[match.end() :]
    said = [(known[match["name"].strip().lower()], match["text"].strip()) for match in found]
    return rest.strip(), said


@dataclass(frozen=True, slots=True)
class Section:
    """What a heading says for the rows under it: a grade, a family of metal, a thickness, phrases."""

    text: str = ""
    material: str = ""
    family: bool = False
    thickness: Measure | None = None
    basis: Basis | None = None
    sizes: tuple[tuple[str, str], ...] = ()


def section_of(text: str, materials: Materials, style: NumberStyle, *, title: bool = False) -> Section | None:
    """Return what a row that is no part says for the rows under it; None when it is rather a sentence.

    The title of one of several tables may be longer.
    """
    if len(text.split()) > (2 * _MOST_WORDS if title else _MOST_WORDS):
        return None
    part = part_text(text, style, materials)
    keys = {key for key, _ in part.materials}
    thick = [
        one.measure
        for one in part.sizes
        if one.clear
        and (one.measure.mark is Mark.THICKNESS or (one.measure.mark is None and one.measure.unit in _UNITS))
    ]
    return Section(
        text,
        next(iter(keys)) if len(keys) == 1 else "",
        bool(part.families) and not keys,
        thick[0] if len(thick) == 1 else None,
        basis_said(text),
        tuple(pair for pair in sizes_for_all(text, part).items() if pair[0] != "thickness"),
    )
