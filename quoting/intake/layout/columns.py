"""What a column holds, told from its header in the words of the trade."""

from __future__ import annotations

import dataclasses
import re
import tomllib
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files

from quoting.core import Basis
from quoting.intake.layout.heading_grammar import GAUGES, heading_read, is_word, sides_of
from quoting.intake.words import folded

_NOT_WORDS = re.compile(r"[\s,:;=|&+\-_\"()\[\]{}*]+")
_NO_SIDES = frozenset(("description", "part_no", "drawing", "number", "material", "thickness", "quantity"))
_BRACKETS = re.compile(r"[(\[{]([^)\]}]*)[)\]}]")
_DOTS = re.compile(r"(?<=[a-z])\.(?=[a-z]|\s|$|[)\],;:/])")
_NUMBERED = re.compile(r"^(\D{2,20}?)\s*[1-5]$")
_GAUGE = re.compile(r"\bgau?ge\b")
"""Gauge of sheet (mm): a size, no gauge number."""
_PLATE = re.compile(r"(?:sheet|plate|wall|metal)(?: thk| thickness)?")
"""Sheet (mm) is how thick it is; a sheet without a unit may be that of a drawing."""
_OF_ONE = re.compile(r"(?<=\s)1\s*(?:ks|pcs?|stk|st|szt|ea|each|pieces?|db|adet|pza?|uds?)\b")
"""The one piece that a weight or price is for: mass of 1 pcs."""
_POINT_BEFORE_NUMBER = re.compile(r"\b(dia|diam|d)\.(?=[12]\b)")
"""Dia.1 is written Dia 1 by others."""
_SHORT_AND_SHORT = re.compile(r"(?<=[^\W\d_]{2})\.(?=[^\W\d_]{2})|(?<=[^\W\d_]{3})\.(?=[^\W\d_])")
"""Two words cut short without a blank between them: Pl.thk, Int.dia."""
_TANGENT = re.compile(r"T\.?L\.?\s*(?:\(?\s*(mm|m|in|ft)\s*\)?)?")
"""TL in capitals: the length between tangents; in small letters it is the thickness in Czech."""
_DEGREES = re.compile(r"\s*[(\[]\s*°\s*[)\]]|(?<=[^\W\d_])\s?°$")
_OF_A_DIAMETER = frozenset(("od", "id", "o/d", "i/d", "md"))
_DIA = r"(?:dia(?:m(?:eter)?)?s?|ø|size)"
_SIDE = r"(?:inside|outside|inner|outer|[io]\.?d\.?)"
_ASKED = tuple(
    (re.compile(pattern), word)
    for pattern, word in (
        (
            r"^(?:is it |what |which )?(?:an? |shape |part |type )*\W*(?:cylinder|shell|ring|pipe|can)s?"
            r"\W+(?:or |an? )*(?:cone|segment|arc|half shell)s?\b.*\??$",
            "shape",
        ),
        (
            rf"^(?:is |are )?(?:the |that |this |which )*(?:{_DIA}\W*)?"
            rf"(?:is |are |given |measured |shown |on )*(?:the )?{_SIDE}\W+(?:or )?(?:the )?{_SIDE}"
            rf"(?:\W+(?:or )?(?:mean|centre ?line))?(?: {_DIA}| side)?\W*$"
            rf"|^{_DIA}\.? (?:is|are|measured|given)(?: on| to| at)?(?: the)?\W*$",
            "basis",
        ),
        (
            r"\b(?:who (?:suppl\w+|provid\w+|brings?|buys?|furnish\w+)|whose|(?:supply|source) of)(?: the)?"
            r" (?:plate|material|steel|sheet|metal)s?\b\??"
            r"|^(?:plate|material|matl|steel|sheet|metal) (?:supply|supplied|furnished|provided|source)"
            r"(?: (?:by|from))?(?: whom)?\??$",
            "plate by",
        ),
        (r"\bhow (many|much)\b( (do )?(you|we|i) (need|want))?|\b(number|count) (needed|wanted)\b", "qty"),
        (r"^roll(?:ed|ing)? (?=[io]\.?d\b)", ""),
        (r"\bhow (thick|heavy gauge)\b", "thickness"),
        (r"\bincl(?:uded)?\.? ?<", "included angle"),
        (
            r"^(?:astm |asme |aar |en |bs |jis |is )?(?:s?a|tc|q|en|is)?[- ]?\d{2,5}[- ]"
            r"(?:gr(?:ade)?|type|class|cl)\.?$",
            "grade",
        ),
        (r"^clear opening$", "inside diameter"),
        (r"^(?:how (?:big|large)\??|dim\.?)$", "size"),
        (r"\bhow (big|large|wide|far) (around|round)\b|\baround the outside\b", "circumference"),
        (
            r"\bhow (big|large|wide|far)? ?(across|round)\b"
            r"|(?<!width )\b(distance )?across\b(?! (the )?(roll|width))",
            "diameter",
        ),
        (r"(\b(?:r|rad|radius|d|dia|diameter)|ø)\.? ins\b", r"\1 inside"),
        (r"\bclear (?=dia\b|diam\b|diameter\b|ø)|(?<=dia )clear\b|(?<=ø )clear\b", "inside "),
        (r"^(?:kgs?|lbs?|tonnes?)\s*(?:/|per|pro|je|par|por|a)\s*[^\W\d_]{1,8}\.?$", "weight each"),
        (r"\b(r|rad|radius|d|dia|diameter)\.? outs\b", r"\1 outside"),
        (r"\bout\.? (?=d(?:ia|iam|iameter)?\b|ø)", "outside "),
        (r"((?:\b(?:dia|diam|diameter|d|rad|radius)\b|ø)\W{0,2}) out\b(?! of)\W*$", r"\1 outside"),
        (r"\bins\.? (?=d(?:ia|iam|iameter)?\b|r(?:ad|adius)?\b)", "inside "),
        (r"\bouts\.? (?=d(?:ia|iam|iameter)?\b|r(?:ad|adius)?\b)", "outside "),
        (r"\b([io]d|dia|diameter|ø) (?:lower|at the bottom)\b", r"bottom \1"),
        (r"\b([io]d|dia|diameter|ø) (?:upper|at the top)\b", r"top \1"),
        (
            r"\b(?:l|lg|len|lgth|length)\W{0,2}[(\[]\s*(?:to be )?(?:curved|rolled round|bent round|around"
            r"|round the curve|on the curve|along the (?:arc|curve)|developed)\s*[)\]]",
            "girth",
        ),
        (r"\bhow (long|deep)\b", "length"),
        (r"^t\s?[-–/]\s?t\b", "length"),
        (r"\b(dia|diam|diameter|ø|d)\.?\W{0,2}[(\[]\s*i\s*[)\]]", r"\1 inside"),
        (r"\b(dia|diam|diameter|ø|d)\.?\W{0,2}[(\[]\s*o\s*[)\]]", r"\1 outside"),
        (r"(?<![^\W\d_])i\.?\s?(?=ø|dia\b)", "inside "),
        (r"(?<![^\W\d_])o\.?\s?(?=ø|dia\b)", "outside "),
        (r"(?<![^\W\d_])d\s?(вн|внутр|нар|н)\b\.?", lambda match: "id" if match[1][0] == "в" else "od"),
        (r"\b([oi])\.?d\.? ?([12])\b", r"d\2 \1d"),
        (r"^le\W{0,2}(?=[oi]\W?d\b)", "large end "),
        (r"^se\W{0,2}(?=[oi]\W?d\b)", "small end "),
        (
            r"\b(tan|tangent|tl|wl|weld|weld line|seam|joint|face|end|edge|girth)s?\.?"
            r"\s*(?:to|[-–/])\s*\1s?\b"
            r"(?:\W+(?:length|lgth?|len|long|dim\w*|distance)\b)?",
            "length",
        ),
        (
            r"[(\[]\s*(?:measured |taken )?(?:on|along|at|to)(?: the)? (inside|outside|mean|id|od"
            r"|inner|outer)(?: face| side| edge)?\s*[)\]]",
            r"(\1)",
        ),
        (r"\bhow (tall|high)\b", "height"),
        (r"\bhow wide\b", "width"),
        (r"\brad\.?\s*i\.?$", "radius inside"),
        (r"\brad\.?\s*a\.?$", "radius outside"),
        (r"\bst[rř]\.?\s*(?=pr[uů]m|ø|dia)", "mean "),
        (r"\b(?:[śs]r(?:edn\w*)?|dia)\.?\s+podz\w*\.?", "mean dia"),
        (r"\b(?:dia(?:m|meter)?|ø|d)\.?\W{0,2}over (?:the )?(?:plates?|all|shells?)\b", "outside dia"),
        (r"\b(?:over ?all|o/?a) (?:dia(?:m|meter)?|ø)\b", "outside dia"),
        (
            r"(?<![\w/.])(?:ø|(?:dia(?:m(?:eter)?)?|d)\b)\.?\W{0,2}(?:(?:at|of|on)\s)?(?:the\s)?"
            r"(top|bottom|large|small|big|little)\b(?: end)?(?!\W*(?:ø|dia))",
            r"\1 dia",
        ),
        (r"\b(top|bottom|large|small|big|little)\b(?: end)?\W{0,2}ø", r"\1 dia"),
        (
            r"\b(what|which) (metal|steel|grade|plate)\b|\b(what )?(is it )?made (out )?of( what)?$"
            r"|\bof what$",
            "material",
        ),
        (r"\bwhat (it'?s|it is|is it|they are) ?(for)?$|\bused for\b|\bwhat for\b", "description"),
        (r"\b(by )?when\b.*|\bneed it by\b", "due"),
        (r"\banything (else|more)\b.*|\bother (info|things?)\b.*", "remarks"),
    )
)
"""Headings of customers who ask in plain words (how many, how thick, how big across), and lengths by what
they lie between: seam-seam, tangent to tangent."""
_IN_KILOS = re.compile(r"[(\[]\s*(?:kgs?|lbs?|tonn?es?|t)\s*[)\]]$")
_IDLE_BRACKET = re.compile(
    r"^(y/n|yes/no|optional|if any|see notes?|if required|if reqd|by others"
    r"|lengths|joints|pcs|pieces|cans|rings|shells|sections|segments|segs|plates|tubes|pipes|cones|cylinders|halves|off)$"
)
_ALLOWANCE_IN_IT = re.compile(
    r"\W*[(\[,]?\s*\b(?:incl\w*|inkl\w*|inc|with)\.?\s*(?:of\s+)?(?:\d+(?:[.,]\d+)?\s*(?:mm)?\s*)?"
    r"(?:c\.?\s?a\b\.?|corr\w*\.?(?:\s*allow\w*\.?)?|korr\w*)\s*[)\]]?\s*$"
)
"""Thk (incl 3 CA): what is added against corrosion is in the size."""
_LIST_BRACKET = re.compile(r"\w\s*[xх×*]\s*\w")
_MOST_UNKNOWN = 2
LONGEST_HEADER = 60
"""Characters; a longer cell is a sentence, not a header."""


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a header says: the field, the diameter basis and the unit it names; parts may be missing.

    `sure` is False where a word of the header was not understood; `by_words` tells that it is no known
    phrase, but was read word by word.
    """

    field: str = ""
    basis: Basis | None = None
    unit: str = ""
    sure: bool = True
    by_words: bool = dataclasses.field(default=False, compare=False)


@dataclass(frozen=True, slots=True)
class _Lexicon:
    fields: dict[str, str]
    basis: dict[str, tuple[str, Basis]]
    filler: frozenset[str]
    units: dict[str, str]


@cache
def _lexicon() -> _Lexicon:
    data = tomllib.loads(files(__package__).joinpath("columns.toml").read_text(encoding="utf-8"))
    fields = {phrase: name for name, phrases in data["fields"].items() for phrase in phrases}
    words = data["words"]
    basis: dict[str, tuple[str, Basis]] = {}
    for side in Basis:
        basis.update(dict.fromkeys(words[str(side)], ("", side)))
        basis.update(dict.fromkeys(words[f"{side}_radius"], ("radius", side)))
    units = {word: unit for unit, names in data["units"].items() for word in names}
    return _Lexicon(fields, basis, frozenset(words["filler"]), units)


def _in_trade_words(header: str) -> str:
    """Return a heading in plain words as the trade has it: how thick as thickness."""
    for asked, word in _ASKED:
        header = asked.sub(word, header)
    return header


@lru_cache(maxsize=4096)
def meaning_of(header: str) -> Meaning:
    """Return what a header means; an empty field when its words are not known.

    >>> meaning_of("Thk. (in)").field, meaning_of("Thk. (in)").unit, meaning_of("O.D. mm").basis
    ('thickness', 'in', <Basis.OUTSIDE: 'outside'>)
    >>> meaning_of("To suit pipe OD").field, meaning_of("To suit pipe OD").basis
    ('diameter', None)
    """
    within = _ALLOWANCE_IN_IT.search(header.lower())
    found = _meaning_of(header[: within.start()] if within else header)
    if found.basis and found.field in _ROUND_OF and names_another(header):
        return dataclasses.replace(found, basis=None, sure=False)  # a pipe's outside is its sleeve's inside
    return found


def _meaning_of(header: str) -> Meaning:  # noqa: PLR0911 - a return for each kind of heading
    text = " ".join(
        header.lower().replace("req'd", "reqd").replace("mat'l", "matl").replace("_", " ").split()
    )
    if not text or len(text) > LONGEST_HEADER:
        return Meaning()
    if match := _TANGENT.fullmatch(header.strip()):
        return Meaning("length", None, unit_word(match[1] or ""))
    if _SHORT_AND_SHORT.search(text) and (apart := meaning_of(_SHORT_AND_SHORT.sub(" ", text))).field:
        return apart
    text = _POINT_BEFORE_NUMBER.sub(r"\1 ", text)
    text = _in_trade_words(_OF_ONE.sub("", _DEGREES.sub(" (deg)", text)))
    if (match := _NUMBERED.match(text)) and meaning_of(match[1]).field == "quantity":
        return Meaning("breaks")
    if _lists_sizes(text):
        return Meaning("size")
    unit, plain = _unit_of(_DOTS.sub("", text))
    if unit in ("mm", "in") and (_GAUGE.search(plain) or _PLATE.fullmatch(plain.strip())):
        return Meaning("thickness", None, unit)
    bracket = _BRACKETS.search(plain)
    found = _composed(_words(plain), unit)
    if found.field == "radius" and unit == "deg":
        return Meaning("angle", None, unit)  # Rolled to (degrees)
    if found.field:
        return found
    if bracket is not None and (
        _IDLE_BRACKET.search(bracket.group(1)) or _LIST_BRACKET.search(bracket.group(1))
    ):
        found = _composed(_words(_BRACKETS.sub(" ", plain)), unit)
        if found.field == "thickness" and _LIST_BRACKET.search(bracket.group(1)):
            return Meaning("size", None, unit)  # Plate dim. (dev x L): how long and wide, and not how thick
        if found.field or _LIST_BRACKET.search(bracket.group(1)):
            return found
    if "/" in text and any(_composed(_words(piece), "").field == "size" for piece in text.split("/")):
        found = Meaning("size", None, unit)  # Halbzeug / dimensions
    return (
        _side_behind(plain, unit)
        or (found if found.field else _by_words(plain, unit))
        or _before_bracket(plain, unit)
        or _beside_grade(text)
        or (Meaning("carried") if _IN_KILOS.search(text) else None)
        or _in_degrees(plain, unit)
        or found
    )


_ROUND_OF = frozenset(("diameter", "radius"))
_OF_ANOTHER = re.compile(
    r"\b(?:to suit|suits?|to fit|fits|fitting|to go (?:over|round|around|on)|goes (?:over|on)|carrier|host"
    r"|mating|existing|passend (?:auf|zu)|f[uü]r rohr|pour (?:tube|tuyau)|para tubo|per tubo|na rur[eę]"
    r"|na potrubi|voor (?:buis|pijp)"
    r"|(?:for|over|on) (?:the )?(?:pipe|tube|pile|leg|vessel|shell))\b"
)
"""Headings of the size of what the part goes on: To suit pipe OD."""


def names_another(header: str) -> bool:
    """Return whether a heading of a diameter is that of what the part goes on: Carrier OD."""
    return _OF_ANOTHER.search(header.lower()) is not None


def names_what_is_within(header: str) -> bool:
    """Return whether a heading of a diameter names what other parts go round: Pile dia, Pipe OD."""
    return _WITHIN.search(folded(header)) is not None


_WITHIN = re.compile(
    r"\b(?:pipes?|tubes?|pil(?:es?|ing)|columns?|legs?|(?:pipe)?lines?|mains?|poles?|posts?|conductors?|risers?"
    r"|ducts?"
    r"|cables?|shafts?|journals?|hubs?|rohr\w*|welle|tuyaux?|tubos?|tubi|arbre|eje|albero|buis|pijp|paal|rur[ay]"
    r"|trubk[ay]|ror)\b"
)


def _side_behind(plain: str, unit: str) -> Meaning | None:
    """Return the diameter that a heading names behind what it is of, where that is no part beside it."""
    side = _SIDE_BEHIND.search(plain)
    if side is None or (is_word("other", plain) and "bore" not in plain):
        return None
    return Meaning("diameter", _lexicon().basis[side[1]][1], unit, sure=False, by_words=True)


_SIDE_BEHIND = re.compile(r"[^\W\d_]\W*[(\[]\s*([io]d)\s*[)\]]\s*$")
"""Tunnel bore (ID): the diameter, whatever it is called."""


def _in_degrees(plain: str, unit: str) -> Meaning | None:
    """Return an angle of arc for a heading in degrees that names nothing else: Segment (°)."""
    if unit != "deg" or any(is_word(kind, plain) for kind in ("other", "else")):
        return None
    return Meaning("angle", None, unit, sure=False, by_words=True)


def _beside_grade(text: str) -> Meaning | None:
    """Return what a heading of the plate means that names a grade beside: Plate A36, Thk (304L)."""
    bare = _GRADE.sub(" ", text)
    if bare == text or any(sign.isdecimal() for sign in bare):
        return None
    found = meaning_of(" ".join(_EMPTY_BRACKET.sub(" ", bare).split()))
    return dataclasses.replace(found, sure=False) if found.field in ("thickness", "gauge") else None


_GRADE = re.compile(
    r"\b(?:s?a-?\d{2,3}(?:[- ](?:gr\.? ?)?\d{2})?|s\d{3}\w{0,4}|(?:aisi |ss ?|type )?3\d\dl?|ar ?\d{3}"
    r"|1\.\d{4}|5\d{3}|6061)\b"
)
_EMPTY_BRACKET = re.compile(r"[(\[]\W*[)\]]")


def _before_bracket(plain: str, unit: str) -> Meaning | None:
    """Return what the words before a bracket name where all words together say nothing.

    The bracket may name the same way of the part, Width (roll length), or hold words that name nothing:
    then the heading is not sure. One that names anything else, or holds a figure, is not passed over.
    """
    match = _LAST_BRACKET.fullmatch(plain.strip())
    if match is None or any(sign.isdecimal() for sign in plain):
        return None
    outer = _composed(_words(match[1]), unit)
    outer = outer if outer.field else _by_words(match[1], unit) or outer
    inner = _composed(_words(match[2]), "")
    inner = inner if inner.field else _by_words(match[2], "") or inner
    if outer.field in _ACROSS and inner.field in _ACROSS:
        return dataclasses.replace(outer, by_words=True)
    loud = any(is_word(kind, match[2]) for kind in ("other", "else")) or sides_of(match[2])
    if not outer.field or inner.field or loud or _CHANGED.search(match[2]):
        return None
    return dataclasses.replace(outer, sure=False, by_words=True)


_LAST_BRACKET = re.compile(r"([^()\[\]{}]+)[(\[{]([^()\[\]{}]+)[)\]}]")
_ACROSS = frozenset(("length", "width", "height"))
_CHANGED = re.compile(r"\b(?:old|new|was|prev\w*|before|after|orig\w*|rev\w*|per|each|not|if|or)\b")


def _lists_sizes(text: str) -> bool:
    """Return whether a heading lists the sizes of its cells in their order: T x W x Dia."""
    pieces = _TIMES.split(text)
    if len(pieces) < _A_PAIR:
        return bool(listed_by_slashes(text))
    fields = [size_in_list(piece).field for piece in pieces]
    return all(field in _LISTED_SIZES for field in fields) and (
        len(pieces) > _A_PAIR or (len({*fields}) == _A_PAIR and not _A_FLAT & {*fields} and "/" not in text)
    )


@lru_cache(maxsize=1024)
def listed_by_slashes(header: str) -> tuple[str, ...]:
    """Return the sizes that a heading lists with slashes between them, at least three: Size (ID/L/t).

    >>> listed_by_slashes("Size (ID/L/t)"), listed_by_slashes("OD/ID"), listed_by_slashes("Pos/Rev/Qty")
    (('ID', 'L', 't'), (), ())
    """
    if header.count("/") < _A_PAIR:
        return ()
    bracket = _BRACKETS.search(header)
    for text in (bracket.group(1) if bracket else "", header):
        pieces = tuple(piece.strip() for piece in text.split("/"))
        fields = [size_in_list(piece).field if piece else "" for piece in pieces]
        if len(pieces) > _A_PAIR and len({*fields}) == len(fields) and {*fields} <= _LISTED_SIZES:
            return pieces
    return ()


def size_in_list(piece: str) -> Meaning:
    """Return what a piece of a list of sizes means; there a letter is the size that drawings name by it.

    >>> size_in_list("s").field, size_in_list("Da").basis
    ('thickness', <Basis.OUTSIDE: 'outside'>)
    """
    letter = _LETTERS_IN_LISTS.get(piece.lower().strip(" .()"), "")
    found = meaning_of(piece)
    return found if found.field and not (found.field == "weight" and letter) else Meaning(letter)


_LETTERS_IN_LISTS = {
    "s": "thickness", "e": "thickness", "t": "thickness", "sp": "thickness", "wd": "thickness",
    "ws": "thickness", "wt": "thickness", "ep": "thickness", "esp": "thickness", "g": "thickness",
    "b": "width", "l": "length", "lg": "length", "h": "height", "a": "width", "w": "width",
}  # fmt: skip
"""Letters of sizes on drawings (common practice, no source)."""
_TIMES = re.compile(r"\s+[xх*]\s+|\s*×\s*")
_A_PAIR = 2
_A_FLAT = frozenset(("width", "girth", "arc_length", "angle", "radius"))
"""Da x s, Ø x L: two sizes of what is round; two of a flat plate stand beside it."""
_LISTED_SIZES = frozenset((
    "thickness", "gauge", "width", "length", "height", "diameter", "radius", "angle", "girth", "arc_length",
))  # fmt: skip


def _by_words(plain: str, unit: str) -> Meaning | None:
    """Return the meaning of a header that is no phrase of the lexicon, from what each of its words says."""
    read = heading_read(plain)
    if read is None or (read.unknown and len(read.unknown) > _MOST_UNKNOWN):
        return None
    return Meaning(read.field, read.basis, unit, sure=not read.unknown, by_words=True)


def _words(text: str) -> list[str]:
    return [word for word in (word.strip(".'?") for word in _NOT_WORDS.split(text)) if word]


def known_fields() -> frozenset[str]:
    """Return the names of all fields a column can hold."""
    return frozenset(_lexicon().fields.values())


def unit_word(text: str) -> str:
    """Return the unit a cell of a units row names (mm, cm, m, in, ft, deg, ga), or nothing."""
    return _lexicon().units.get(text.lower().strip("()[]{} ."), "")


def _unit_of(text: str) -> tuple[str, str]:
    """Return the unit in brackets or at the end of a header, and the header without it."""
    units = _lexicon().units
    for match in _BRACKETS.finditer(text):
        word = match.group(1).strip(" .").removeprefix("in ")
        before = text[: match.start()].split()[-1:]
        if (
            word in units
            and before
            and units.get(before[0], "ga") != "ga"
            and units[before[0]] != units[word]
        ):
            return units[before[0]], text[: match.start()].rstrip().removesuffix(before[0])
        if word in units:
            return units[word], text[: match.start()] + " " + text[match.end() :]
    head, _, last = text.replace(",", " ").rstrip(" .:").rpartition(" ")
    if head and units.get(last, "ga") != "ga":
        return units[last], re.sub(r"[\s,/-]+(in)?$", "", head)
    return "", text


def _composed(words: list[str], unit: str) -> Meaning:
    lexicon = _lexicon()
    if not words:
        return Meaning(unit=unit)
    between = [at for at in range(1, len(words) - 1) if words[at] == "or"]  # a word here, no outer radius
    for length in range(len(words), 0, -1):
        for start in range(len(words) - length + 1):
            field = lexicon.fields.get(" ".join(words[start : start + length]))
            if not field:
                continue
            if any(at < start or at >= start + length for at in between):
                continue
            meaning = _with_rest(field, words[:start] + words[start + length :], unit)
            if meaning and field == "description" and words[-1] in _OF_A_NAME and start < len(words) - 1:
                return dataclasses.replace(meaning, field="part_no")  # Shell no: which shell it is
            if meaning:
                return meaning
    return (not between and _with_rest("", words, unit)) or Meaning()


_OF_A_NAME = frozenset(("no", "nr", "#", "number", "num", "n°", "nº"))


_ENDS = frozenset(("large", "small", "top", "bottom"))


def _with_rest(field: str, rest: list[str], unit: str) -> Meaning | None:
    """Return the meaning when every other word is a basis or carries no meaning, else None."""
    lexicon = _lexicon()
    basis: Basis | None = None
    for word in rest:
        if word in lexicon.basis:
            named, side = lexicon.basis[word]
            if basis not in (None, side):
                return None
            basis, field = side, field or named
            if (field == "radius" and word in _OF_A_DIAMETER) or field == "nominal":
                field = "diameter"  # Roll to OD, Dn ext.: a side of the plate is that of no nominal size
        elif lexicon.fields.get(word) == field or (field in _ENDS and lexicon.fields.get(word) == "diameter"):
            continue  # Top inside dia
        elif word in GAUGES and field in _NO_SIDES:
            return None  # Gauge of metal: the plate, and not what it is made of
        elif word not in lexicon.filler and word not in lexicon.units:
            return None
    if (not field and basis is None) or (basis is not None and field in _NO_SIDES):
        return None
    if basis is Basis.MEAN and field == "height":
        return Meaning(field, None, unit)  # along the centreline
    if basis is not None and field == "height":
        field = "top"  # Ø ext. haut, in French the word of both
    return Meaning(field or "diameter", basis, unit)
