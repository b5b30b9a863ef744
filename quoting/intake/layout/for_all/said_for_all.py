"""What the words of a title, note or cover sheet say for all lines: side of the plate, unit, sets."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from quoting.core import Basis
from quoting.intake.layout.for_all.pieces import comma_piece, unit_named
from quoting.intake.layout.for_all.sides_of_lines import A_MARK, says_sides_of_some
from quoting.intake.layout.for_all.sizes_for_all import (
    A_WORD,
    BETWEEN_PIECES,
    GRADES,
    HALF_A_CIRCLE,
    MEASURED,
    OF_SIZES,
)
from quoting.intake.layout.heading_grammar import is_word, sides_of
from quoting.intake.words import folded, harmless

_SIZED = re.compile(r"\b(chords?|rises?|dims?|dimensions?|sizes|measurements|durchmesser|ø)\b|ø", re.I)
_SIDE_ALONE = re.compile(
    r"\W*(?:all\s+|dims?\s+|in\s+)*(?:o\.?\s?d\.?|i\.?\s?d\.?|ø\s?\w+\.?)(?:['’]?s)?(?:\s+(?:given|stated|shown|dims|sizes|quoted|only|size))?\W*",
    re.I,
)
_BORE = re.compile(r"\W*(?:all |clear |sizes |dims |dia )*bores?(?: sizes?| dims?)?\W*", re.I)
_LETTER_IS = re.compile(
    r"\W*(?:(?:the\s+)?col(?:umn|onne?|onna|umna|una)?\.?\s+|spalte\s+|kolom\s+)?[\"'“”‘’]?(?:d|ø)[\"'“”‘’]?\s*"
    r"(?:=|(?:is|are|measured|taken|means|stands for|denotes|shows|è|é|ist|est|es|jest|je|är|er)\b)",
    re.I,
)
"""D is the inside diameter: what the letter of a column stands for."""

_UNLESS = re.compile(r"\b(?:unless|u\.?n\.?o\b|except|throughout|where not|if not|otherwise)\b", re.I)
_NOT_ALL = re.compile(
    r"\b(?:items?|lines?|pos|marks?|parts?|refs?|only|hole\w*|flange\w*|weld\w*|bevel\w*)\b", re.I
)
_COUNT = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10, "both": 2, "one": 1}
_NUMBER = rf"(\d{{1,3}}|{'|'.join(_COUNT)})"
_OF_UNITS = re.compile(
    rf"(?<![A-Za-z\d./-]){_NUMBER}\s*(?:x\s*)?(?:(?:identical|equal|off|no\.?|nos|similar|such|new|complete|same|req'?d|adet|stk|stuck|pcs|ks|db|szt|st|шт)\s+){{0,2}}"
    r"([^\W\d_]+)",
    re.I,
)
_UNITS_OF = re.compile(
    rf"([^\W\d_]{{2,}})(?:\s+(?:required|reqd|wanted))?\s*[:=]\s*{_NUMBER}(?![\w/-]|\.\d)", re.I
)
_UNITS_BESIDE = re.compile(
    rf"\b(?:no\.?|number|qty|quantity|nos)\.?\s+of\s+([^\W\d_]{{2,}})\W{{0,4}}{_NUMBER}(?![\w/.-])", re.I
)
_UNITS_IN_BRACKETS = re.compile(
    rf"([^\W\d_]{{3,}})(?: [A-Z]{{0,3}}-?\d{{0,3}}[A-Z]?)?(?:\W{{0,3}}[(\[]|\s[-–—]|[,:])\s*{_NUMBER}"
    r"\s*(?:x\b|off|no\.?|nos|pcs|units?|identical|alike|stk|stück|st\b|szt|ks|uds?|exempl\w*|esempl\w*|ejempl\w*|stuks|adet)",
    re.I,
)
"""silos (2 exemplaires), tanks (3 off), tank T1 - 3 off."""

_EACH = re.compile(
    r"\b(?:each|every|per|one|an?|je|jede[rs]?|ein\w*|pro|cada|chaque|une?|ogni|ciascun\w*|elke?|ka[zż]d\w*|varje|hver"
    r"|joka|minden|fiecare|her)\s+$",
    re.I,
)
"""each set = 1 body and 2 rings: what is in one of them, and not how many are ordered."""

_NO_PER = (
    r"(?<!\bnot )(?<!\bnicht )(?<!\bpas )(?<!\bnon )(?<!\bno )(?<!\bniet )(?<!\bnão )(?<!\bnie )(?<!\bikke )"
    r"(?<!\binte )"
)
_PER = re.compile(
    _NO_PER + r"\b(?:per|pro|par|por|je|each|ea\.?|every|cada|chaque"
    r"|for (?:one|1|each|a single|un|une|ein\w*|een|una?)"
    r"|pour (?:une?|1|chaque)|f[uü]r (?:ein\w*|1|jede\w*)|para (?:una?|1|cada)"
    r"|voor (?:een|één|1|elke)|dla (?:jednego|jednej|1)|na|za|ogni|bir|на)\s+"
    r"(?:(?:one|1)\s+)?([^\W\d_]{2,})"
    r"|\b(?:qty|quantity|pcs)\s*/\s*([^\W\d_]{2,})|\b(single)\b",
    re.I,
)
_COUNTED = re.compile(
    r"\b(qtys?|quantit\w*|pcs|pieces|numbers?|counts?|list\w*|bom|sizes|zestawienie|wykaz|elenco|distinta|nomenclature|stuckliste|stückliste|stuklijst|kusovn\w*|darabjegyz\w*|lista)\b",
    re.I,
)
_IN_ALL = re.compile(
    r"\b(total\w*|insgesamt|gesamt\w*|ogolem|lacznie|razem|celkem|toplam|osszesen|samtliche|in all"
    r"|altogether|overall)\b|\bfor (all|both)\b"
    r"|(?<!price )(?<!cost )\bfor the (?:whole |entire |complete |full )?(?:lot|job|order|batch|run)\b"
    r"|\b(?:not|nicht|pas|non?|niet|nao|nie|ikke|inte|ne) (?:per|pro|par|por|je|na|pr|za|each"
    r"|for (?:one|each))\b"
    r"|\b(incl\w*|cover\w*) (all|both)\b"
    r"|\balready multiplied\b",
    re.I,
)


@dataclass(frozen=True, slots=True)
class SaidForAll:
    """What one text says for all lines; what it leaves open is empty. `sets` is how many units are ordered,
    `per_set` that the pieces are counted for one of them, `in_all` that they are counted for all; `of_every`
    is how many pieces every line is of that gives none; `closed` that the parts are full circles.
    """

    basis: Basis | None = None
    unless: bool = False
    unit: str = ""
    sets: int = 0
    per_set: bool = False
    in_all: bool = False
    of_set: int = 0
    halves: bool = False
    angle: int = 0
    of_every: int = 0
    closed: bool = False


_EVERY_LINE = re.compile(
    r"\W*(?:(?:just|all|only|qty|quantity|quantities|i|we|need|want|please|quote|price|for)\b[\s:=]*)*"
    r"(?:(?P<each>\d{1,3}|one|two|three|four|a single)\s*(?:[-x×]\s?)?(?:offs?|pcs?|pieces?|ea|no|nos)?\.?\s*"
    r"(?:(?:for |of |per )?(?:each|every)(?: (?:item|line|size|one))?|(?:per|a) (?:item|line|size))"
    r"|(?P<some>(?:just|all|only|are)\s+(?:one|1)[ -]?offs?)"
    r"|(?P<single>(?:all |only |just )?single (?:pieces|pcs|parts)))"
    r"(?:\s(?:please|only|required|reqd|needed|wanted))*"
    r"(?:\sin (?:[A-Z]{1,3}[- ]?\d{2,4}[\w+-]*|\d{3}L?)(?: please)?)?\W*",
    re.I,
)
"""One off each, just one offs, 2 of each: how many of every line that gives no count."""


def _of_every(text: str) -> int:
    """Return the pieces of every line that a piece between commas says; 0 where none says any."""
    for piece in _COMMA_PIECES.split(text) if not _MONEY.search(text) else ():
        if piece and len(piece) < _LONGEST_OF_EVERY and (match := _EVERY_LINE.fullmatch(piece)):
            said = (match["each"] or "1").lower().removeprefix("a ")
            count = _COUNT.get(said) or (1 if said == "single" else int(said))
            return count if count <= _MOST_OF_EVERY else 0
    return 0


_MONEY = re.compile(
    r"[£$€¥]|\b(?:pric\w*|cost\w*|kgs?|lbs?|eur|usd|gbp|pln|czk|sek|dkk|weigh\w*|long|wide|thick)\b", re.I
)
_MOST_OF_EVERY = 20
"""More of every line are asked about: 400 each may be what one weighs or costs."""

_COMMA_PIECES = re.compile(r",\s|[;:()–—]|\s-\s|\.\s|\.$")
_LONGEST_OF_EVERY = 60
_MADE_OF = (
    r"(?:\s+(?:of|are|is|as|in|the|to be|will be|a|rolled|parts?|pieces?|items?|lines?|these|those"
    r"|below|listed|here"
    r"|shells?|liners?|plates?|sections?|counted|counts?|count|for|qty|quantit\w+|numbers?|shown|given|=))*"
)
_ARC_FOR_ALL = re.compile(
    rf"(?:^|[,;:(.–-]\s*)(?:all|every|everything|both|each|parts?|pieces?|quantit\w+|qtys?|numbers?|counts?){_MADE_OF}\s+"
    r"(?:(?P<half>half[- ]?(?:rounds?|shells?|circles?|cylinders?|pipes?|moons?|sections?|rings?|casings?"
    r"|liners?)|halves|semi-?\s?circ\w+)|(?P<angle>\d{2,3})\s?(?:°|deg\w*\.?)\s*(?P<noun>arcs?|segments?|sectors?|sections?|panels?)?)"
    r"\s*(?=$|[,;.()])",
    re.I,
)
"""What all parts are of a circle: all half round, quantities are half shells, all 90 deg segments."""


def _angle(text: str) -> int:
    """Return the degrees of arc that a text says all parts have; 0 where it does not, or says two."""
    found = {
        HALF_A_CIRCLE if match["half"] else int(match["angle"])
        for match in _ARC_FOR_ALL.finditer(text)
        if match["half"] or match["noun"] or match["angle"] == str(HALF_A_CIRCLE)
    }
    return found.pop() if len(found) == 1 and max(found) < 2 * HALF_A_CIRCLE else 0


_PIECES_OF_A_SET = (
    r"(?P<noun>half[- ]?(?:shell|round|cylinder|ring|casing|liner|pipe|section)s?|hal(?:ves|fs|f)"
    r"|quarters?|thirds?"
    r"|(?:equal |identical )?(?:shells?|pieces?|pcs|segments?|segs?|sections?|plates?|rings?|sectors?"
    r"|cans?|parts?))\b"
)
_SET = r"(?:sets?|pairs?|prs?)"
_OF_A_SET = tuple(
    re.compile(pattern, re.I)
    for pattern in (
        rf"(?<![\w./-])(?:1|one|a|each|every|per|the)\s*{_SET}\s*(?:=|:|is|means|makes|has|of|contains|comprises"
        rf"|consists of|(?:is )?made (?:up )?of)\s*"
        rf"(?P<count>\d{{1,2}}|two|three|four|six|eight)\s*(?:x\s*)?{_PIECES_OF_A_SET}",
        rf"(?<![\w./-])(?P<count>\d{{1,2}}|two|three|four|six|eight)\s*(?:x\s*)?{_PIECES_OF_A_SET}"
        rf"\s*(?:=|/|per|to (?:a|the|each|one)|make|form|in (?:a|each)|a)\s*(?:1|one|a|each)?\s*{_SET}\b",
    )
)
"""What one set is: 1 set = 2 halves, four segments per set."""


def _set_of(text: str) -> tuple[str, int, bool]:
    """Return a text without what one set is said to be, of how many pieces that is, and whether of halves."""
    for pattern in _OF_A_SET:
        if match := pattern.search(text):
            count = _COUNT.get(match["count"].lower()) or int(match["count"])
            rest = f"{text[: match.start()]} ; {text[match.end() :]}"
            return rest, count, match["noun"].lower().startswith("hal")
    return text, 0, False


def facts_in(text: str) -> SaidForAll:
    """Return what a text outside the rows says for all lines.

    >>> facts_in("Caisson cans (inches) - OD").basis, facts_in("Quantities are per tank - 3 tanks").sets
    (<Basis.OUTSIDE: 'outside'>, 3)
    """
    plain, of_set, halves = _set_of(A_MARK.sub("", text))
    pieces = [piece for piece in BETWEEN_PIECES.split(plain) if piece and piece.strip()]
    of_all = _OF_THE_LIST.sub("", _OF_THOSE.sub(" ", plain))
    sided = pieces if of_all == plain else [piece for piece in BETWEEN_PIECES.split(of_all) if piece]
    of_each = _units_of_each(plain)
    sets = of_each or _sets(plain)
    return SaidForAll(
        None if says_sides_of_some(plain) else _basis(of_all, sided),
        _UNLESS.search(plain) is not None,
        unit_named(pieces),
        sets,
        bool(of_each) or _per_set(plain),
        not of_each
        and bool(
            _IN_ALL.search(folded(plain)) and (_COUNTED.search(plain) or is_word("quantity", plain) or sets)
        ),
        of_set,
        halves,
        _angle(plain),
        _of_every(plain),
        _all_closed(plain),
    )


_CLOSED = re.compile(
    r"\b(?:(?:full|complete|closed|whole) (?:circles?|rings?|rounds?|cylinders?|hoops?)|full 360"
    r"|360 ?(?:deg\w*|°)|(?:in |a |al )?cerchi[oo]? (?:chius[oi]|complet[oi]|inter[oi])"
    r"|cercles? (?:complets?|ferm[eé]s?)|vollkreise?"
    r"|geschlossene[nrs]? (?:ringe?|kreise?|sch[uü]sse?|mantel\w*)"
    r"|c[ií]rculos? (?:completos?|cerrados?|fechados?)|an[eé]is fechados|anillos cerrados|volle cirkels?"
    r"|gesloten ringen?|pe[łl]n[ey] (?:okr[aą]g|okr[eę]gi|kr[aą]g|kr[eę]gi)|pln[eéyý] kruhy?"
    r"|uzav[rř]en\w* kruh\w*|hel[ae]? (?:cirkel|cirklar|sirkel|sirkler)|tam daire|teljes k[oö]r"
    r"|полн\w* (?:круг|кольц|окружн)\w*|замкнут\w*)(?!\w)|整圆|全圆",
    re.I,
)
_NOT_CLOSED = re.compile(
    r"\b(?:not|no|half|halves|quarters?|per|each|nicht|kein\w*|pas|non|nie|into|of a|from|parts?|segments?"
    r"|staves|or|if|some|only|items?|lines?|pos|marks?|except|unless|weld\w*|je|pro|par|por)\b",
    re.I,
)


def _all_closed(text: str) -> bool:
    """Return whether a piece of a text says that the parts are full circles, of all lines and of no fewer.

    >>> _all_closed("Full circles, butts left open"), _all_closed("6 segments make a full circle")
    (True, False)
    """
    match = _CLOSED.search(text)
    if match is None:
        return False
    piece = comma_piece(text, match.start(), match.end())
    return not any(sign.isdecimal() for sign in piece.replace("360", "")) and not _NOT_CLOSED.search(piece)


_TABLE = re.compile(
    r"(?<!\w)(?P<key>(?:schedule|table|list|section|group|sketch|tabelle|liste|tableau|tabla|tabella|tabela|tabulka)"
    r"\s+(?:no\.?\s*)?(?:[A-Z]|\d{1,2}))(?![\w.])",
    re.I,
)


def names_table(text: str) -> bool:
    """Return whether a text names a table of the sheet: Schedule C, Table 2."""
    return _TABLE.search(text) is not None


def said_of_table(title: str, notes: Iterable[str]) -> SaidForAll:
    """Return what the title of a table says for its rows, and notes that name it: Schedule C sizes are I.D.

    A note that names two tables says nothing of either.
    """
    facts = facts_in(title)
    named = _TABLE.search(title)
    if named is None or facts.basis is not None:
        return facts
    key = " ".join(named["key"].lower().split())
    found: set[Basis] = set()
    for note in notes:
        keys = {" ".join(match["key"].lower().split()) for match in _TABLE.finditer(note)}
        if keys == {key} and note != title and (side := facts_in(_TABLE.sub(" ", note)).basis):
            found.add(side)
    return replace(facts, basis=found.pop()) if len(found) == 1 else facts


_OF_THOSE = re.compile(
    r"\b(?:items?|lines?|pos\w*|poz\w*|marks?|parts?|rep\w*|refs?|kalem\w*|zeilen?)\.?\s*(?:no\.?\s*)?[A-Z]?\d"
    r"[^:;]{0,30}:[^;.]*",
    re.I,
)
"""Items 2-3: outside, primed; what is said of those is not said of all."""

_OF_THE_LIST = re.compile(
    r"\s(?:on|in|of|from|given|shown|auf|in der|de|dans|sur|en|della|nella|na|w|v)\s"
    r"(?:(?:on|in|the|this|our|attached|enclosed|following|next|second|other|la|le|el|der|die|dieser)\s)*"
    r"(?:(?:parts?|items?|order|cutting|steel|material|plate|shell)\s)?"
    r"(?:lists?|schedules?|tables?|sheets?|tabs?|liste|lista|elenco|tabelle|tableau|blatt)\b",
    re.I,
)
"""What a cover says of all that stands on its list: diameters on the parts list are inside."""
_OF_EACH = re.compile(
    rf"{_NO_PER}\b(?:per|pro|par|por|je|each|every|cada|chaque|ogni|na|za|bir)\s+(?:(?:one|1|single)\s+)?([^\W\d_]{{3,}})"
    rf"(?:\s*[x×*]\s*(\d{{1,3}})(?![\d.,])(?:\s*([^\W\d_]{{3,}}))?)?",
    re.I,
)
_MANY = re.compile(
    rf"(?<![\w./-]){_NUMBER}\s+(?:(?:identical|equal|similar|such|new|complete|same|gleiche|iguales|uguali)\s+)?([^\W\d_]{{3,}})",
    re.I,
)
_NO_PIECES = re.compile(
    r"\b(?:pric\w*|cost\w*|weigh\w*|kg|lbs?|ton\w*|deliver\w*|preis\w*|prix|precio\w*|prezz\w*|prijs|cena|gewicht\w*|poids|peso)\b"
    r"|(?:\d|\b(?:one|single|two|eine?|zwei|une|deux|una|uno|due|dos|uma|duas|een|twee|jed[ae]n|jedna))\s+"
    r"(?:[^\W\d_]+\s+){1,2}(?:per|pro|par|por|je|each|every|cada|chaque|ogni|na|za)\b"
    r"|\d\s+(?:per|pro|par|por|je|each|every|cada|chaque|ogni|na|za)\b",
    re.I,
)
"""What is counted for one of them, in a text that names its own number (one plate per course) or speaks of no
pieces."""


def _units_of_each(text: str) -> int:
    """Return how many of what pieces are counted for one of: per silo, 2 silos; 0 where that is not said.

    The noun may be any, for it is said twice: je Kamin, 3 Kamine.
    """
    match = _OF_EACH.search(text)
    if match is None or _NO_PIECES.search(text):
        return 0
    if _IN_ALL.search(folded(text)) and (_COUNTED.search(text) or is_word("quantity", text)):
        return 0  # it says itself what the pieces are counted for
    counts = {
        _COUNT.get(number.lower()) or int(number)
        for number, noun in _MANY.findall(text)
        if _same_noun(noun, match[1]) or (is_word("units", noun) and is_word("units", match[1]))
    }
    if match[2] and (not match[3] or _same_noun(match[3], match[1])):
        counts.add(int(match[2]))
    counts.discard(1)
    return counts.pop() if len(counts) == 1 else 0


_SHORTEST_NOUN, _ENDING = 3, 3


def _same_noun(one: str, other: str) -> bool:
    """Return whether two words are one noun but for the ending of its plural: Kamin, Kamine; cuba, cubas."""
    first, second = folded(one), folded(other)
    stem = max(_SHORTEST_NOUN, min(len(first), len(second)) - 1)
    return first[:stem] == second[:stem] and abs(len(first) - len(second)) <= _ENDING


def _basis(whole: str, pieces: list[str]) -> Basis | None:
    """Return the one side of the plate that a text about diameters names, or that stands alone in a piece."""
    found: set[Basis] = set()
    letters = _NUMBERED_ENDS.search(whole) is not None
    whole = GRADES.sub(" ", _NUMBERED_ENDS.sub("dia", whole))
    for piece in (whole, *(GRADES.sub(" ", _NUMBERED_ENDS.sub("dia", one)) for one in pieces)):
        if any(sign.isdecimal() for sign in piece) or _NOT_ALL.search(_UNLESS.split(piece)[0]):
            continue
        about = _UNLESS.split(piece)[0]
        sides = sides_of(about) or ({Basis.INSIDE} if _BORE.fullmatch(about) else frozenset())
        named = _SIZED.search(about) or OF_SIZES.search(about) or _LETTER_IS.match(about)
        named = named or _OF_SHELLS.fullmatch(about) or (_BOTH.fullmatch(about) if letters else None)
        sized = named or is_word("diameter", about) or is_word("radius", about)
        bore = _BORE.fullmatch(about)
        alone = (
            bore
            or _all_measured(about)
            or _SIDE_ALONE.fullmatch(about)
            or (piece is not whole and _only_a_side(about, whole))
        )
        if len(sides) == 1 and (sized or alone) and (bore or not is_word("other", _ENDS.sub(" ", about))):
            found |= sides
    return next(iter(found)) if len(found) == 1 else None


_ENDS = re.compile(
    r"\b(?:large|small|big|top|bottom|both|and|&|/|\s)*\s?ends?\b|\btop (?:and|&) bottom\b", re.I
)
"""Both ends inside: the ends of cones are the part itself."""

_SAYS_ALL = frozenset((
    "all", "everything", "measured", "rolled", "dims", "sizes", "alle", "alles", "gemessen", "angaben",
    "tout", "toutes", "tous", "mesure", "mesures", "mesurees", "todo", "todos", "todas", "medido",
    "medidos", "medidas", "tutto", "tutti", "tutte", "misurato", "misurati", "misurate", "prese",
    "gemeten", "maten", "tudo", "wszystko", "wszystkie", "mierzone", "mereno", "mata", "matt", "malt",
    "mitattu", "merve", "masurat", "dimensions", "size", "measurements", "diameters", "dia",
))  # fmt: skip
_MEASURED_SO = frozenset((
    "to", "on", "at", "the", "in", "en", "is", "are", "by", "of", "from", "per", "por", "par", "de",
    "del", "a", "given", "stated", "taken", "quoted", "only", "please", "and", "shells", "cans",
    "rings", "pipes", "cones", "parts", "items", "cylinders", "tubes", "pieces", "face", "faces",
    "side", "sides", "surface", "l", "el", "la", "le", "all'", "fur", "an", "der", "die", "auf", "op",
    "aan", "no", "na", "w", "po", "dia", "diameter", "quote", "following", "these", "below", "mm", "cm",
    "inch", "inches", "millimetres", "millimeters",
))  # fmt: skip


def _all_measured(text: str) -> bool:
    """Return whether a text only says on which side everything is measured: all inside, gemessen innen."""
    words = [word for word in A_WORD.findall(folded(text).lower()) if not sides_of(word)]
    return any(word in _SAYS_ALL for word in words) and all(
        word in _SAYS_ALL or word in _MEASURED_SO for word in words
    )


_NUMBERED_ENDS = re.compile(
    r"(?<![\w/.-])(?:d|ø|dia\.?|diam\.?)\s?[12]\b"
    r"|\b(?:(?:both|all|cone|the|large (?:and|&|/) small) )*ends?"
    r"(?= (?:sizes?|dia\w*|dims?|dimensions?)\b| (?:are|is) (?:both |all )?(?:[io]\W?d\b|inside|outside))",
    re.I,
)
"""D1, D2, end sizes: the two diameters of cones; their figures are no sizes."""

_OF_SHELLS = re.compile(
    r"\W*(?:(?:all|the)\s+)?(?:shells?|cylinders?|cones?|cans?)\s+(?:inside|outside|[io]\.?d\.?|mean)s?\W*",
    re.I,
)
"""Shells OD; a ring or liner outside may rather say where it goes."""

_BOTH = re.compile(r"\W*(?:both|all)\s+(?:inside|outside|mean|[io]\.?d\.?)\W*", re.I)
_BESIDE_A_SIDE = frozenset(
    ("all", "dims", "dim", "dimensions", "sizes", "size", "measured", "given", "to", "the", "on")
)
_PUT_INSIDE = re.compile(
    r"\b(?:lin(?:ed|er|ers|ing)|sleeves?|inserts?|wear|baffles?|nozzles?|clad\w*|wrap\w*|jackets?|pads?|steps?|rungs?)\b",
    re.I,
)
"""Parts that stand inside or outside of another: the word says where they go, and not how they measure."""


def _only_a_side(piece: str, whole: str) -> bool:
    """Return whether a piece of a title is a side and no more, and the rest only names parts and grades."""
    words = [word for word in A_WORD.findall(piece.lower()) if word not in _BESIDE_A_SIDE]
    others = [word for word in A_WORD.findall(whole.lower()) if word not in words]
    named = all(
        word in harmless() or word in _BESIDE_A_SIDE or len(word) <= _LETTERS or _of_a_size(word)
        for word in others
    )
    return len(words) == 1 and named and _PUT_INSIDE.search(whole) is None


_LETTERS = 2
"""Letters so few are those of a head: GD large dia, PD small dia, inside."""


def _of_a_size(word: str) -> bool:
    """Return whether a word names a size or the end of a cone."""
    kinds = (*MEASURED, "large", "small")
    return word in ("vertical", "end", "ends") or any(is_word(kind, word) for kind in kinds)


def _sets(text: str) -> int:
    """Return how many sets, tanks or vessels a text orders; 0 where it names none, or two numbers."""
    pairs = [(number, noun) for number, noun in _OF_UNITS.findall(text)]
    pairs += [
        (match[2], match[1])
        for pattern in (_UNITS_OF, _UNITS_BESIDE, _UNITS_IN_BRACKETS)
        for match in pattern.finditer(text)
        if not _EACH.search(text[: match.start(1)])
    ]
    counts = {_COUNT.get(number.lower()) or int(number) for number, noun in pairs if is_word("units", noun)}
    if len(counts) > 1 or _per_set(text):
        counts.discard(1)  # "for one tank, 3 tanks are wanted"
    return counts.pop() if len(counts) == 1 else 0


def _per_set(text: str) -> bool:
    nouns = [one for groups in _PER.findall(text) for one in groups if one]
    return any(is_word("units", noun) for noun in nouns) and (
        _COUNTED.search(text) is not None or is_word("quantity", text)
    )
