"""What the words of a title, note or cover sheet say for all lines: side of the plate, unit, sets, sizes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from quoting.core import Basis, Mark, Measure, NumberStyle, Unit
from quoting.intake.layout.heading_grammar import is_word, sides_of
from quoting.intake.texts import PartText, part_text, shape_words, without_joints
from quoting.intake.words import folded, harmless
from quoting.shop import Materials

_MARK = re.compile(r"^\s*(?:\(?\d{1,2}\s*[.):]|note\s*\d*\s*[:.)]|[-*•])\s*", re.I)
_PIECES = re.compile(r"[,;|:()\[\]/–—]|\s-\s|\.\s|\.$")
_SIZED = re.compile(r"\b(chords?|rises?|dims?|dimensions?|sizes|measurements|durchmesser|ø)\b|ø", re.I)
_SIDE_ALONE = re.compile(
    r"\W*(?:all\s+|dims?\s+|in\s+)*(?:o\.?\s?d\.?|i\.?\s?d\.?|ø\s?\w+\.?)s?(?:\s+(?:given|stated|shown|dims|sizes|quoted|only|size))?\W*",
    re.I,
)
_BORE = re.compile(r"\W*(?:all |clear |sizes |dims |dia )*bores?(?: sizes?| dims?)?\W*", re.I)
_LETTER_IS = re.compile(
    r"\W*(?:(?:the\s+)?col(?:umn|onne?|onna|umna|una)?\.?\s+|spalte\s+|kolom\s+)?[\"'“”‘’]?(?:d|ø)[\"'“”‘’]?\s*"
    r"(?:=|(?:is|are|means|stands for|denotes|shows|è|é|ist|est|es|jest|je|är|er)\b)",
    re.I,
)
"""D is the inside diameter: what the letter of a column stands for."""
_MM = re.compile(r"(?<![\d.,])(?<![\d.,]\s)\b(?:mm|millimet(?:er|re)s?|metric)\b", re.I)
_INCH = re.compile(
    r"(?<![\d.,])(?<![\d.,]\s)\b(?:inch(?:es)?|imperial|zoll|pouces?|pulgadas?|pollici|polegadas?|duim|cale)\b",
    re.I,
)
_CM = re.compile(
    r"(?<![\d.,])(?<![\d.,]\s)\b(?:cm|centimet(?:er|re)s?|zentimeter|centimètres?|centímetros?|centimetri)\b",
    re.I,
)
_NO_UNIT = re.compile(
    r"\b(tol(?:l?er\w*|s)?|gap|land|bevel|hole\w*|flange\w*|bolt\w*|spac\w*|max|min|wire|weld\w*)\b", re.I
)
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
    r"(?:\s(?:please|only|required|reqd|needed|wanted))*\W*",
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
_HALF_A_CIRCLE = 180


def _angle(text: str) -> int:
    """Return the degrees of arc that a text says all parts have; 0 where it does not, or says two."""
    found = {
        _HALF_A_CIRCLE if match["half"] else int(match["angle"])
        for match in _ARC_FOR_ALL.finditer(text)
        if match["half"] or match["noun"] or match["angle"] == str(_HALF_A_CIRCLE)
    }
    return found.pop() if len(found) == 1 and max(found) < 2 * _HALF_A_CIRCLE else 0


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
    plain, of_set, halves = _set_of(_MARK.sub("", text))
    pieces = [piece for piece in _PIECES.split(plain) if piece and piece.strip()]
    of_all = _OF_THOSE.sub(" ", plain)
    sided = pieces if of_all == plain else [piece for piece in _PIECES.split(of_all) if piece]
    of_each = _units_of_each(plain)
    sets = of_each or _sets(plain)
    return SaidForAll(
        None if says_sides_of_some(plain) else _basis(of_all, sided),
        _UNLESS.search(plain) is not None,
        _unit(pieces),
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
    piece = _comma_piece(text, match.start(), match.end())
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
    whole = _GRADES.sub(" ", _NUMBERED_ENDS.sub("dia", whole))
    for piece in (whole, *(_GRADES.sub(" ", _NUMBERED_ENDS.sub("dia", one)) for one in pieces)):
        if any(sign.isdecimal() for sign in piece) or _NOT_ALL.search(_UNLESS.split(piece)[0]):
            continue
        about = _UNLESS.split(piece)[0]
        sides = sides_of(about) or ({Basis.INSIDE} if _BORE.fullmatch(about) else frozenset())
        named = _SIZED.search(about) or _OF_SIZES.search(about) or _LETTER_IS.match(about)
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
    words = [word for word in _WORDS.findall(folded(text).lower()) if not sides_of(word)]
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
_GRADES = re.compile(
    r"(?<![\w.-])(?:[SPQ]-?(?:185|195|2[0-9]5|3[0-9]5|4[0-9]0|500|550|690)[A-Z]{0,2}\d?\w{0,3}(?:\+\w+)?"
    r"|1\.[34]\d{3}|(?:AISI )?3\d\d(?:L|Ti)?)(?![\w.,-])"
)
"""Grades of EN 10025-2 and 10028-2, of GB/T 700 and 1591, and of stainless steels: no sizes either."""
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
    words = [word for word in _WORDS.findall(piece.lower()) if word not in _BESIDE_A_SIDE]
    others = [word for word in _WORDS.findall(whole.lower()) if word not in words]
    named = all(
        word in harmless() or word in _BESIDE_A_SIDE or len(word) <= _LETTERS or _of_a_size(word)
        for word in others
    )
    return len(words) == 1 and named and _PUT_INSIDE.search(whole) is None


_WORDS = re.compile(r"(?<![\w-])[^\W\d_]+(?![\w])")
_LETTERS = 2
"""Letters so few are those of a head: GD large dia, PD small dia, inside."""


def _of_a_size(word: str) -> bool:
    """Return whether a word names a size or the end of a cone."""
    kinds = (*_MEASURED, "large", "small")
    return word in ("vertical", "end", "ends") or any(is_word(kind, word) for kind in kinds)


def _unit(pieces: list[str]) -> str:
    about = [piece for piece in pieces if not _NO_UNIT.search(piece)]
    units = [
        unit
        for unit, word in (("mm", _MM), ("in", _INCH), ("cm", _CM))
        if any(word.search(piece) for piece in about)
    ]
    return units[0] if len(units) == 1 else ""


_THE_REST = re.compile(
    r"\b(?:(?:everything|all|anything) else|(?:the |all )?(?:rest|others?|remaining|remainder)"
    r"|alles andere|sonst\w*|[uü]brige\w*|(?:tout )?(?:le )?reste|(?:el |il |o )?resto|los? dem[aá]s|demais"
    r"|rest|restantes?|resten|muut|t[oö]bbi|di[gğ]er\w*|остальн\w*|zbyl\w*|ostatn\w*|zbytek|reszta|[oö]vrig\w*"
    r"|overige?\w*|de rest|pozosta[łl]e)\b|其余|其它|其他",
    re.I,
)
_OF_SIZES = re.compile(
    r"\b(?:dim(?:s|ension\w*)?|sizes?|measure(?:s|ments)?|ma(?:ss|ß)e|abmessung\w*|cotes?|cotas?|medidas?|misure|quote"
    r"|maten|wymiary|rozm[eě]ry|m[aå]tt?|mitat|[oö]l[cç][uü]ler\w*|m[eé]retek|размеры)\b|尺寸",
    re.I,
)
"""Sizes in general: where a text gives another unit to one of them by name, that of the rest."""
_MEASURED = ("thickness", "diameter", "radius", "length", "width", "height")


def units_of_sizes(text: str) -> dict[str, str]:
    """Return the units that a text gives to sizes by their names, and under "" that of the rest; none where
    it names no two of them.

    >>> units_of_sizes("Thickness in inches, everything else in millimetres")
    {'thickness': 'in', '': 'mm'}
    """
    found: dict[str, str] = {}
    for piece in _PIECES.split(_MARK.sub("", text)):
        unit = _unit([piece or ""])
        named = [name for name in _MEASURED if unit and is_word(name, piece)]
        if unit and not named and (_THE_REST.search(piece) or _OF_SIZES.search(piece)):
            named = [""]
        for name in named:
            if found.setdefault(name, unit) != unit:
                return {}
    return found if len(set(found.values())) == 2 else {}


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


_SIZE_FIELDS = {
    Mark.THICKNESS: "thickness", Mark.DIAMETER: "diameter", Mark.RADIUS: "radius", Mark.LENGTH: "length",
    Mark.WIDTH: "width", Mark.HEIGHT: "height",
}  # fmt: skip
ACROSS = ("length", "width", "height")
EVERY = re.compile(
    r"\b(all|every|each|unless|u\.?n\.?o|throughout|except|typ\w*|otherwise"
    r"|partout|[uü]berall|durchgehend|durchweg|ovunque|dappertutto|overal|wsz[eę]dzie|v[sš]ude|[oö]verallt|overalt"
    r"|kauttaaltaan|her yerde|mindenhol|peste tot|везде)\b",
    re.I,
)
_COMMAS = (",", ";", "(", ")", "–", "—", " - ", "|")
_NOT_THE_PLATE = re.compile(
    r"\b(allowance|corrosion|insulat\w*|lining|lined|clad\w*|overlay|refractor\w*|rubber|paint\w*|coat\w*|galv\w*"
    r"|tol(?:l?er\w*|s)?|gap|root|land|bevel\w*|weld\w*|seam\w*|flange\w*|nozzle\w*|bolt\w*|hole\w*|pitch|overall|total|heads?"
    r"|stiff\w*|bars?|angle|wall of|capacity|volume|max\w*|min\w*|over|under|up to|less|more|above|below"
    r"|order\w*"
    r"|truck\w*|pallet\w*|crate\w*|crane|roll capacity|our|your)\b|[+±]",
    re.I,
)


_EITHER = re.compile(
    r"\d\S*\s+(?:(?:mm|in|inch)\s+)?(?:or|oder|ou|lub|albo|nebo|of|veya|eller|tai|vagy|sau|ili|или)\s+\S*\d",
    re.I,
)
"""3/8 or 1/2: which of two is left open."""


def sizes_for_all(clause: str, part: PartText) -> dict[str, str]:
    """Return the sizes that a text outside the rows gives for all of them, as written, by their fields.

    A size must say what it is. A length, width or height must be said of all rows besides: beside a tank's
    name it is the tank's.
    """
    if part.count is not None or part.counts or _EITHER.search(clause):
        return {}
    if any(said.does in ("out", "ask") and said.name not in ("reference", "quantity") for said in part.said):
        return {}
    found: dict[str, list[str]] = {}
    for one in part.sizes:
        size = one.measure
        field = _SIZE_FIELDS.get(size.mark, "") if size.mark else "diameter" if size.basis else ""
        if not field or not one.clear or size.unit is Unit.DEGREE or size.is_range:
            continue
        if field in ACROSS and not EVERY.search(clause):
            continue
        if _NOT_THE_PLATE.search(_comma_piece(part.plain, size.start, size.end)):
            continue
        found.setdefault(field, []).append(part.plain[size.start : size.end].strip(" ,;:-–"))
    if "thickness" not in found and (plain := _beside_metal(part)):
        found["thickness"] = plain
    graded = len({key for key, _ in part.grades}) == 1
    if "thickness" not in found and graded and (EVERY.search(clause) or _only_plate(part)):
        found["thickness"] = _beside_grade(part)
    return {field: texts[0] for field, texts in found.items() if len(texts) == 1}


_OF_METAL = frozenset((
    "all", "everything", "alles", "alle", "tout", "todo", "tutto", "tudo", "in", "en", "aus", "de",
    "from", "of", "mild", "carbon", "black", "steel", "stainless", "ss", "inox", "alu", "aluminium",
    "aluminum", "plate", "sheet", "material", "please", "staal", "stahl", "acier", "acero", "acciaio",
    "aco", "stal", "stål", "made", "hot", "rolled", "hr", "cr", "ms",
))  # fmt: skip
_THICKEST = {Unit.MM: 40.0, Unit.INCH: 1.5, Unit.GAUGE: 30.0}
"""A size said of all without a name is the plate's up to here; a larger one may be a width."""


def _beside_metal(part: PartText) -> list[str]:
    """Return the one size that stands between commas with the name of a metal, or with all, and no more.

    Just one offs, mild steel 6 mm; alles 8 mm.
    """
    bare = [one.measure for one in part.sizes if one.clear and not one.measure.mark and not one.measure.basis]
    found: list[str] = []
    for size in bare:
        if size.unit is None or not 0 < size.low <= _THICKEST.get(size.unit, 0.0):
            continue
        piece = _comma_piece(part.plain, size.start, size.end)
        words = _WORDS.findall(piece.replace(part.plain[size.start : size.end], " ").lower())
        own = piece.strip(" ,;:-–.") == part.plain[size.start : size.end].strip(" ,;:-–.")
        alone = own and len(part.sizes) == 1 and _grade_beside(part, size.start, size.end)
        if alone or (words and all(word in _OF_METAL for word in words)):
            found.append(part.plain[size.start : size.end].strip(" ,;:-–"))
    return found


def _grade_beside(part: PartText, start: int, end: int) -> bool:
    """Return whether the piece between commas before or behind a size is a grade and no more: 304L, 6 mm."""
    pieces = [piece.strip() for piece in re.split(r"[,;()–—|]|\s-\s", part.plain)]
    own = part.plain[start:end].strip(" ,;:-–.")
    grades = {words.strip() for _, words in part.grades}
    at = next((index for index, piece in enumerate(pieces) if piece.strip(" .") == own), None)
    beside = pieces[max(at - 1, 0) : at + 2] if at is not None else []
    return len(grades) == 1 and any(piece in grades for piece in beside)


def _only_plate(part: PartText) -> bool:
    """Return whether a text names a grade and one size, and nothing besides: what the parts are made of.

    Alu 3 mm, 5083; AR400, 1/4; plate: S235 5 mm.
    """
    return len(part.sizes) == 1 and not (part.unknown or part.said or part.codes)


def _beside_grade(part: PartText) -> list[str]:
    """Return the one size without a mark of a text that names a grade: S235JR 4 mm unless noted."""
    bare = [one.measure for one in part.sizes if one.clear and not one.measure.mark and not one.measure.basis]
    units = (Unit.MM, Unit.INCH, None)
    plates = [size for size in bare if size.unit in units and (size.unit or size.fraction or size.low < 1)]
    if (
        len(bare) != 1
        or not plates
        or _NOT_THE_PLATE.search(_comma_piece(part.plain, bare[0].start, bare[0].end))
    ):
        return []
    return [part.plain[size.start : size.end].strip(" ,;:-–") for size in plates]


def _comma_piece(text: str, start: int, end: int) -> str:
    """Return what stands between the commas round a size."""
    before = max(text.rfind(sign, 0, start) for sign in _COMMAS) + 1
    ends = [at for sign in _COMMAS if (at := text.find(sign, end)) >= 0]
    return text[before : min(ends, default=len(text))]


_METAL = re.compile(
    r"\b(?:plates?|sheets?|steel|metal|gauge|ga|inox|stainless|galv\w*|hot rolled|cold rolled|hrs?|crs?|ms"
    r"|mild|carbon|alu\w*)\b",
    re.I,
)


_OTHER_THING = re.compile(
    r"\b(?:flang\w*|nozzles?|bolt\w*|heads?|stiff\w*|bars?|angles?|gusset\w*|lugs?|lin(?:ing|ed)|clad\w*"
    r"|insulat\w*|rubber|refractor\w*|allowance|corrosion|overlay|doublers?|pads?|saddles?)\b",
    re.I,
)
"""What else a thickness may be of in a text that speaks of plate."""


def plate_of(clause: str, part: PartText) -> str:
    """Return the only size of a text that can be the thickness of plate, where it speaks of plate; else "".

    Weaker than what is said of all: it holds only where no row gives a thickness. 10 ga (.1345), S275JR 8 mm.
    """
    if part.count is not None or part.counts or any(one.does == "out" for one in part.said):
        return ""
    sizes = [one.measure for one in part.sizes if one.clear and not one.measure.is_range]
    marked = [size for size in sizes if size.mark is Mark.THICKNESS or size.unit is Unit.GAUGE]
    others = [size for size in sizes if size not in marked]
    bare = [size for size in others if not size.mark and not size.basis]
    plates = [
        size
        for size in bare
        if (size.unit in (Unit.MM, Unit.INCH) or size.fraction or size.low < 1)
        and 0 < size.low <= _THICKEST.get(size.unit or Unit.INCH, 0.0)
    ]
    if _OTHER_THING.search(clause) or _EITHER.search(clause):
        return ""
    if not marked and not (part.grades or part.families or _METAL.search(clause)):
        return ""
    if len(others) > len(plates) or len(plates) > 1 or len(marked) > 1:
        return ""
    found = [*marked, *plates]
    if any(_NOT_THE_PLATE.search(_comma_piece(part.plain, size.start, size.end)) for size in found):
        return ""
    told = found[-1] if found and _say_one(part.plain, found) else None
    return "" if told is None else part.plain[told.start : told.end].strip(" ,;:-–()=")


def _say_one(text: str, sizes: list[Measure]) -> bool:
    """Return whether sizes are one, or the second says in brackets or behind a sign what the first is."""
    if len(sizes) == 1:
        return True
    first, second = sorted(sizes, key=lambda size: size.start)
    between = text[first.end : second.start].strip(" ;,")
    told = second is sizes[-1] and between in ("(", "=", "=(", "(=", "")
    return told and (first.unit is Unit.GAUGE or _agree(first, second))


def _agree(one: Measure, other: Measure) -> bool:
    try:
        first, second = (size.to_mm(inch=size.unit is not Unit.MM) for size in (one, other))
    except ValueError:
        return False
    return abs(first - second) <= _SAME_SHARE * first


_SAME_SHARE = 0.02


_COATED = re.compile(
    r"(?<![\w-])Z ?(?:100|140|200|225|275|350|450|600)(?![\w.-])|"
    r"\b(?:pre-?)?galv(?:ani[sz]ed|\.)?\s+(?:(?:mild|carbon|rolled)\s+)?"
    r"(?:steel|iron|sheets?|plates?|metal|coil|stock|material|duct(?:work|s)?)\b"
    r"|\b(?:steel|sheets?|plates?|metal|stock|material|gauge|ga)\W{1,3}"
    r"(?:is |are |all )?galv(?:ani[sz]ed|\.)?(?!\w)",
    re.I,
)
"""Plate that comes galvanized, and is not to be; Z275 is a zinc coating of EN 10346 (from memory)."""
_COATED_LATER = re.compile(
    r"\b(?:after|afterwards|later|before|by|not|no|un|or|then|if|dip\w*|to be|bolts?|frames?|bars?"
    r"|option\w*)\b",
    re.I,
)
_GALV = re.compile(r"\bgalv(?:ani[sz]ed)?\b", re.I)


def coated_plate(text: str, materials: Materials) -> str:
    """Return the shop's galvanized metal where a text says that the plate is it; "" where it says no such.

    It is a metal by itself in the book, with a gauge table of its own.
    """
    if not _COATED.search(text) or _COATED_LATER.search(text):
        return ""
    return _only_key("galvanized", materials)


def grade_of_heads(headers: Iterable[str], materials: Materials) -> str:
    """Return the one metal that the headings of the plate's thickness name: Ga. galv, Plate A36; else ""."""
    found: set[str] = set()
    for header in headers:
        found |= {key for key, _ in part_text(header, NumberStyle.POINT, materials).grades}
        found |= {key for key in (_only_key("galvanized", materials),) if key and _GALV.search(header)}
    return found.pop() if len(found) == 1 else ""


def _only_key(name: str, materials: Materials) -> str:
    found = materials.find(name)
    return found.keys[0] if len(found.keys) == 1 and not found.rest else ""


_PART_OF_CIRCLE = re.compile(
    r"\b(?:(?P<half>half|semi)|(?P<quarter>quarter)|(?P<third>third))[- ]?"
    r"(?:cyl(?:inder)?s|shells|rounds|circles|pipes|tubes|rings|sections|liners|cans|bands|collars|troughs)\b",
    re.I,
)
_MOST_WORDS = 9
_MORE_THAN_ONE = re.compile(
    r"\b(?:and|or|plus|with|also|full|whole|mixed|various|some|both|not|no|per|each|into)\b|[&+?\d]", re.I
)


_PARTS_OF_CIRCLE = re.compile(
    r"\b(?:half|semi|quarter|third)[- ]?(?:cyl(?:inder)?|shell|round|circle|pipe|tube|ring|section|liner|can"
    r"|band|collar|trough)s?\b|\bhalves\b",
    re.I,
)


def names_parts_of_circle(title: str) -> bool:
    """Return whether a title speaks of parts of a circle, of all lines or of some.

    >>> names_parts_of_circle("Half shells for pipe guards"), names_parts_of_circle("Guards, half price")
    (True, False)
    """
    if len(title) > _LONGEST_TITLE:
        return _PARTS_OF_CIRCLE.search(title) is not None
    patterns = (_PARTS_OF_CIRCLE, _PIECES_OF_A_RING, _SPLIT, _ON_A_SHELL)
    said = next((found for one in patterns if (found := one.search(title))), None)
    return said is not None or (_OF_A_CIRCLE.search(title) is not None and _in_degrees(title))


_LONGEST_TITLE = 120
_PIECES_OF_A_RING = re.compile(
    r"\b(?:\d{1,2}|two|three|four|six|eight) (?:equal |curved |rolled )?"
    r"(?:segments?|segs|sectors?|petals?|staves|panels|plates|pieces|parts|segmente[n]?|segmenten|segmentos?|segmenti)"
    r" (?:per|for|to the|to a|each|a|in a|pro|je|par|por|op|na) (?:full )?"
    r"(?:ring|circle|circumference|turn|course|strake|round|shell|cylinder|sleeve|anneau|anillo|anello|anel"
    r"|virole|schuss)\b",
    re.I,
)
"""4 segments per ring: what the pieces of the rows are may be either."""
_SPLIT = re.compile(
    r"\b(?:split (?:pipe |repair |casing )?(?:sleeves?|shells?|rings?|pipes?|tubes?|casings?|collars?"
    r"|cylinders?|liners?|clamps?)|clam-?\s?shells?"
    r"|two-?(?:part|piece|half) (?:\w+ )?(?:sleeves?|shells?|rings?|pipes?|casings?))\b",
    re.I,
)
"""Split sleeves, clamshells: whether a row is a half of one or both."""
_ON_A_SHELL = re.compile(
    r"\b(?:saddles|saddle plates|re-?pads|reinforc\w+ (?:pads|plates)|doublers|doubler plates|cradles|staves"
    r"|petals|curved (?:plates|panels|sheets|segments)|sattelbleche|verst[aä]rkungsbleche|gebogene bleche"
    r"|t[oô]les cintr[eé]es|chapas curvadas|lamiere curvate|gebogen platen|selles|sillas)\b",
    re.I,
)
"""Parts that lie on a shell or make a piece of it: how much of the circle is not said."""
_OF_A_CIRCLE = re.compile(
    r"\b(?:segment\w*|segs|sector\w*|sektor\w*|settor\w*|secteur\w*|arcs?|saddles?|s[ae]ttel\w*|panels?|petals?|staves"
    r"|part shells?|curved|gebogen\w*|cintr\w*|curvad\w*|wycin\w*|v[yý]se[cč]\w*|kaar\w*|bogen\w*|boog\w*"
    r"|shells?|plates?|sections?|rings?|troughs?|covers?|guards?|doublers?|pads?|wear)\b",
    re.I,
)


def _in_degrees(title: str) -> bool:
    """Return whether a title gives degrees that are of no joint or edge."""
    return _TITLE_DEGREES.search(without_joints(title)) is not None and not _OF_AN_EDGE.search(title)


_TITLE_DEGREES = re.compile(
    r"(?<![\d.,])\d{2,3}(?:[.,]5)? ?(?:°|º|deg\w*\b|grad\w*\b|stopni\b|stup\w*\b|fok\b)", re.I
)
_OF_AN_EDGE = re.compile(
    r"\b(?:bevel\w*|prep\w*|chamfer\w*|weld\w*|seams?|apart|offset|stagger\w*|rotat\w*|orient\w*|elbows?|bends?|mitre\w*"
    r"|fase\w*|naht\w*|[CF]\b|temp\w*|max\w*|min\w*)\b",
    re.I,
)


def arc_of_all(title: str) -> str:
    """Return the degrees of arc that a title says all its parts have: launders, half rounds; else "".

    Plural, alone in the title, and no other shape beside.

    >>> arc_of_all("Tank troughs, rolled quarter shells"), arc_of_all("Half pipes and full rings")
    ('90', '')
    """
    match = _PART_OF_CIRCLE.search(title)
    if match is None:
        return _degrees_of_all(title)
    if len(title.split()) > _MOST_WORDS:
        return ""
    rest = _GRADES.sub(" ", title[: match.start()] + " " + title[match.end() :])
    other = shape_words(rest)
    if _MORE_THAN_ONE.search(rest) or other.get("shape", "arc") != "arc" or {"half", "angle"} & other.keys():
        return ""
    return "180" if match["half"] else "90" if match["quarter"] else "120"


_ALL_IN_DEGREES = re.compile(
    r"(?P<one>\d{2,3}) ?(?:°|º|deg\w*\.?|grad\w*)[- ]?(?:shell |curved |rolled |wear |pipe )?"
    r"(?:segments?|segmente[n]?|segmentos|segmenti|sectors?|sektoren|settori|secteurs|sectores|arcs?|saddles)\b"
    r"|\b(?:segments?|segmente[n]?|segmentos|segmenti|sectors?|sektoren|settori|secteurs|sectores|arcs?|saddles"
    r"|saddle plates)"
    r"\W{0,3}(?:[àa] |of |de |di |von |da )?(?P<two>\d{2,3}) ?(?:°|º|deg\w*|grad\w*)(?![\w])",
    re.I,
)
"""90° segments; Segmente 90°."""


def _degrees_of_all(title: str) -> str:
    """Return the degrees of the segments that a short title says all its parts are; "" where it says more."""
    match = _ALL_IN_DEGREES.search(title)
    if match is None or len(title.split()) > _MOST_WORDS or _OF_AN_EDGE.search(title):
        return ""
    rest = title[: match.start()] + " " + title[match.end() :]
    other = shape_words(rest).get("shape", "arc")
    degrees = match["one"] or match["two"]
    if _MORE_THAN_ONE.search(rest) or other != "arc" or int(degrees) >= 2 * _HALF_A_CIRCLE:
        return ""
    return degrees


_A_LINE = r"[^\W\d_]{0,3}[-.]?\d{1,3}(?:[./]\d{1,2})?[^\W\d_]?(?![\w]|[/.]\d)"
_AND_LINE = r"(?:,|;|&|\+|/|and|und|et|ve|e|i|y|og|och|en|és|to|thru|through|bis|do|à|až|-|–)"
_LISTED = re.compile(rf"{_A_LINE}(?:\s*{_AND_LINE}\s*{_A_LINE})*", re.I)
_UP_TO = re.compile(
    rf"(?P<first>{_A_LINE})\s*(?:-|–|to|thru|through|bis|do|à|až)\s*(?P<last>{_A_LINE})|(?P<one>{_A_LINE})",
    re.I,
)
_LINE_PARTS = re.compile(r"(?P<lead>.*?)(?P<number>\d+)(?P<letter>[^\W\d_]?)")
_LED_BY = re.compile(
    r"\s*(?:note?s?|n\.?b|uwaga|pozn\w*|hinweis|anm\w*|obs|opm|bemerkung|remarque|nota)\s*[:.]\s*", re.I
)
_POINTED = re.compile(r"\b([io])\.\s?d\b\.?", re.I)
_WORD_OR_SIGN = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?|[,;.:()=–-]|\S")
_A_ROW = re.compile(
    r"(?:items?|lines?|rows?|marks?|tags?|parts?|no['’]?l[uıi]\w*|kalem\w*|zeilen?|lignes?|rader|righe|voci"
    r"|partidas|l[ií]neas?|itens|regels|pozycj\w*|pozic\w*|rep[eè]res|t[eé]telek\w*|[cç]ap(?:[tl][aıi]r[ıi]?)?)",
    re.I,
)
_ALL_BUT_THOSE = re.compile(
    r"\b(?:(?:all |the |alle |tous les |todos los |tutti gli |todos os |wszystkie |v[sš]echny )?"
    r"(?:others?|rest|remaining|remainder|balance|anderen?|übrigen|ubrigen|autres|restantes|demás|demas|otros|altri|altre"
    r"|outros|overige|andere|pozosta[łl]e|inne|ostatn[ií]|övriga|ovriga|øvrige|resten|reszta|zbytek|di[ğg]erleri"
    r"|többi)|sonst|otherwise|elsewhere)\b",
    re.I,
)
_BETWEEN = frozenset((
    "on", "of", "for", "at", "the", "in", "is", "are", "be", "to", "and", "given", "as", "measured", "und",
    "bei", "sind", "ist", "von", "der", "die", "des", "les", "pour", "et", "en", "sont", "est", "de", "du",
    "los", "las", "para", "son", "y", "del", "per", "sono", "e", "i", "dla", "jest", "są", "pro", "jsou",
    "je",
    "a", "för", "är", "och", "for", "er", "og", "voor", "zijn", "ve", "ise", "dims", "sizes", "side", "dir",
    "olacak", "olacaktır", "olarak", "faces", "face", "while", "but", "all",
))  # fmt: skip
_APART = frozenset(
    (",", ";", ".", "and", "und", "et", "y", "e", "i", "a", "och", "og", "ve", "en", "while", "but")
)
"""What must stand between a side and the next lines: without it a number may be a size."""


@dataclass(frozen=True, slots=True)
class SideOfLines:
    """The side of the plate on which a note says some lines are given; `others` means all but those."""

    lines: frozenset[str]
    basis: Basis
    others: bool = False


@dataclass(frozen=True, slots=True)
class _Token:
    """Lines by their numbers, the others, or a side; `apart` that it begins anew."""

    lines: frozenset[str] | None = None
    others: bool = False
    basis: Basis | None = None
    apart: bool = False


def sides_of_lines(text: str) -> tuple[SideOfLines, ...]:
    """Return which lines a note says are inside, and which outside; none where it says anything else too.

    >>> [(sorted(one.lines), str(one.basis)) for one in sides_of_lines("Dia on lines 1 thru 3 ID, 4a, 5 OD")]
    [(['1', '2', '3'], 'inside'), (['4a', '5'], 'outside')]
    >>> sides_of_lines("Item 3: OD 50, ID 48")
    ()
    """
    if _A_ROW.search(text) is None and not is_word("number", text):
        return ()
    tokens = _side_tokens(_POINTED.sub(r"\1d", _LED_BY.sub("", _MARK.sub("", text), count=1)))
    if tokens is None or len(tokens) < _A_PAIR or len(tokens) % _A_PAIR:
        return ()
    found: list[SideOfLines] = []
    for at, (one, other) in enumerate(zip(tokens[::2], tokens[1::2], strict=True)):
        lines, side = (one, other) if one.basis is None else (other, one)
        if side.basis is None or lines.basis is not None or (at and not one.apart):
            return ()
        if (one.basis is None) != (tokens[0].basis is None):
            return ()
        found.append(SideOfLines(lines.lines or frozenset(), side.basis, lines.others))
    named = frozenset().union(*(one.lines for one in found))
    if not named or len(named) != sum(len(one.lines) for one in found):
        return ()
    return tuple(SideOfLines(named, one.basis, others=True) if one.others else one for one in found)


_A_PAIR = 2
_SENTENCES = re.compile(r"(?<=[^\W\d_])[.;]\s+")


def says_sides_of_some(text: str) -> bool:
    """Return whether a sentence of a text says the side of lines by their numbers."""
    if not any(sign.isdecimal() for sign in text):
        return False
    return any(sides_of_lines(one) for one in _SENTENCES.split(text))


def _side_tokens(text: str) -> list[_Token] | None:
    """Return the lines and sides of a note in their order; None where a word is neither, nor joins them."""
    tokens: list[_Token] = []
    at, apart = 0, False
    while at < len(text):
        if match := _LISTED.match(text, at):
            tokens.append(_Token(lines=_numbers(match.group()), apart=apart))
        elif match := _ALL_BUT_THOSE.match(text, at):
            tokens.append(_Token(others=True, apart=apart))
        elif match := _WORD_OR_SIGN.match(text, at):
            word = match.group()
            sides = sides_of(word)
            if len(sides) == 1:
                tokens.append(_Token(basis=next(iter(sides)), apart=apart))
            elif word.lower() in _APART:
                apart = True
                at = match.end()
                continue
            elif not _joins(word):
                return None
            else:
                at = match.end()
                continue
        else:
            at += 1
            continue
        at, apart = match.end(), False
        if len(tokens) >= _A_PAIR and tokens[-1].basis and tokens[-1].basis == tokens[-2].basis:
            tokens.pop()  # inside diameter, ID: said twice
    return tokens


def _joins(word: str) -> bool:
    """Return whether a word of a note about sides names no more than lines, diameters or what joins them."""
    plain = word.lower()
    known = plain in _BETWEEN or not word[0].isalnum() or _A_ROW.fullmatch(word)
    return bool(known) or any(is_word(kind, word) for kind in ("number", "diameter", "radius"))


def _numbers(listed: str) -> frozenset[str]:
    """Return the numbers of a list of lines, those between the ends of a range too."""
    found: set[str] = set()
    for match in _UP_TO.finditer(listed):
        if match["one"]:
            found.add(match["one"].lower())
            continue
        first, last = (_LINE_PARTS.fullmatch(match[end]) for end in ("first", "last"))
        found |= {match["first"].lower(), match["last"].lower()}
        if first and last and (first["lead"] == last["lead"] or not last["lead"]):
            found |= {
                f"{first['lead']}{one}".lower() for one in range(int(first["number"]), int(last["number"]))
            }
    return frozenset(found)
