"""Counts and separators of a text about one part: 3 open tanks, WB1 x 2, 26 dia - .190 thick."""

from __future__ import annotations

import re
from itertools import pairwise

from quoting.core import SIZE_WORDS
from quoting.intake.texts.trade_words import shape_words

_LABEL = (
    r"[\s•*·>–—-]*(?:(?:(?:pos|poz|item|[ií]tem|line|ligne|rep|partida|mark|no|nr)\b\.?\s*)?(?:[A-Z]{0,4}-?\d{1,3}[a-z]?|[a-z])"
    r"\s*(?:[:.)]\s+|\s[-–]\s+))?"
)
_THINGS = re.compile(
    rf"^(?P<label>{_LABEL})(?P<count>\d{{1,3}})\s+(?P<things>(?:[^\W\d_]{{2,}}[\s-]+){{0,2}}[^\W\d_]{{3,}})",
    re.I,
)
_NO_PART = frozenset((
    "gauge", "gage", "inches", "inch", "feet", "foot", "plate", "plates", "sheet", "sheets", "steel",
    "carbon", "stainless", "wall", "thick", "deg", "degree", "degrees", "weeks", "week", "days", "day",
    "months", "month", "years", "year", "hours", "hour", "holes", "hole", "slots", "places", "place",
    "sets", "set", "pairs", "pair", "gores", "gore", "passes", "pounds", "tons", "lbs", "lots", "lot",
    "plies", "ply", "layers", "coats", "lugs", "bolts", "nozzles", "flanges", "gussets", "copies",
    "halves", "grados", "grad", "degres", "gradi", "mil", "pulgadas", "zoll", "pouces", "pollici",
    "polegadas", "duim", "sides", "ends", "courses", "per", "of", "to", "or", "and", "off", "out", "from",
    "than", "schedule", "weld", "welds", "times", "ga", "mm", "cm", "in", "ft", "dia", "id", "od",
    "nominal", "pipe", "cal", "calibre",
))  # fmt: skip
"""Words after a number that make it a measure, a time, or a count of what is on a part: no count of parts."""
_WHAT_PLATES = frozenset(
    ("mild", "alu", "aluminium", "aluminum", "galv", "black", "raw", "flat", "new", "big", "whole")
)
"""Words before plates that tell of what they are, and not of which part."""
_NUMBER = re.compile(r"(?:(?<![\w.,/])|(?<=[xX×*øØ])(?<![^\W\d_][xX]))(?:\d|\.\d)")
_PLURAL = re.compile(r"[^\W\d_]{3,}s", re.I)
_NAMED_TIMES = re.compile(
    r"^(?P<name>\s*[A-Z]{1,5}[-.]?\d{1,4}[A-Za-z]?)\s*[x×]\s*(?P<count>\d{1,3})(?=\s*[,;:]|\s+[-–]\s)"
)
_WORDS_TIMES = re.compile(
    r"^\s*(?:[^\W\d_]+[ -]){0,2}(?P<last>[^\W\d_]{3,})\s[x×](?P<count>[1-9]\d?)(?=\s*[,;]\s*\S)", re.I
)
"""half shell x2, 10 thk: a count behind what the part is called."""
_LAST = re.compile(
    r"(?:\s[-–,;:]\s*|[,;]\s*|\s|(?<=[\u4e00-\u9fff)])共?)\(?(?<![x×*=øØ] )(?:"
    r"(?:qty\s*)?(?P<behind>\d{1,4})[\s-]?(?:ea|each|off|nos?|nr|pcs?|pces?|pieces?|joints?|only|reqd|req'd|required"
    r"|(?<=\d )st|st(?=\.)|stk|stck|stücke?|stuks|szt|ks|pzs?|pzas?|piezas?|pezz[io]|unid(?:ade)?s?|uds?"
    r"|pièces|(?<=\d )p(?=\.)|adet|tk|db|buc|kom|kos|[件个個根节節张張只块片支])(?![\w/-])"
    r"|(?:qty|quantity|q'ty|menge|anzahl|anz|cantidad|cant|qté|qte|qta|aantal|antal|ilość|szt|stk|stck|stück|pcs"
    r"|pzs?|pzas?|adet)[\s.:=–-]{0,3}0*(?P<before>\d{1,4})"
    r"|(?P<word>one|two|three|four|five|six|eight|ten|twelve)\s(?:off|only|pcs?|pieces?|nos?|reqd|req'd|required|joints?)"
    r"|Q(?P<q>[1-9]\d?)|(?<=[,;] )(?-i:St)\. ?(?P<st>\d{1,2}))[\s.)\]]*$",
    re.I,
)
_IN_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10, "twelve": 12,
}  # fmt: skip
_OLD_STEELS = frozenset((33, 34, 35, 37, 42, 44, 45, 50, 52, 60, 70))
"""St 37 and the like are grades of DIN 17100 (from memory)."""
_LAST_TIMES = re.compile(
    r"(?:[;,]|(?<=\)))\s*(?:[x×]\s?(?P<x>\d{1,2})|(?P<by>\d{1,2})\s?[x×])[\s.)\]]*$", re.I
)
_NUMBERS = re.compile(r"(?<![\d.,/])(?:\d+(?:[.,/]\d+)*|\.\d+)")
_OF_A_CURVE = re.compile(r"\b(?:[io]?r|rad\w*)\b|\br[ia]?\s?=?\d|°|\bdeg", re.I)
_SIZES_OF_A_CYLINDER = 3
_LETTERS = re.compile(r"[A-Za-z]+")
_DASH = re.compile(r"\s[-–]\s+")
_END = re.compile(r"[,;]")
_ROUND = frozenset((
    "id", "od", "dia", "diam", "diameter", "ø", "r", "rad", "radius", "ir", "or", "md", "bore", "inside",
    "outside",
))  # fmt: skip
_THICK = frozenset(("thk", "thick", "thickness", "plate", "pl", "plt", "wall", "t", "ga", "gauge", "gage"))
_ACROSS = frozenset((
    "long", "lg", "length", "wide", "width", "w", "high", "height", "ht", "tall", "h", "lgth", "slant",
))  # fmt: skip
_WORDS = re.compile(r"[^\W\d_]+")


_NUMBERING = re.compile(
    r"^(?P<before>[\s•*·>–—-]*)(?P<number>\d{1,3}|[a-z])(?:\.[-–—/)]+|[°º]\s?[.):–-]+|\s?-\)|/[.)])\s*(?=[^\s\d]|\d+\s)",
    re.I,
)


def plain_numbering(text: str) -> str:
    """Return a text with the number of its line, however it is set apart, as in `1) shell`.

    >>> plain_numbering("01.- 4 un. duct"), plain_numbering("2./ shell"), plain_numbering("90° segment")
    ('01) 4 un. duct', '2) shell', '90° segment')
    """
    match = _NUMBERING.match(text)
    return text if match is None else f"{match['before']}{match['number']}) {text[match.end() :]}"


def counted_things(text: str) -> tuple[int | None, str]:
    """Return how many parts a text begins with, and the rest, where two sizes at least follow.

    Several need a plural: `24 stack, 60 long` is 24 across. What measures, or stands on a part, counts none.

    >>> counted_things("2: 6 plain hoops, 26 dia x 4 wide")
    (6, 'plain hoops, 26 dia x 4 wide')
    >>> counted_things("24 stack, 1/4 thk, 60 long")[0], counted_things("6 lugs, 48 OD, 1/4 thk")[0]
    (None, None)
    """
    match = _THINGS.match(text)
    if match is None or len(_NUMBER.findall(text, match.end())) < 2:
        return None, text
    words = _WORDS.findall(match["things"].lower())
    count = int(match["count"])
    plural = next((at for at, word in enumerate(words) if _PLURAL.fullmatch(word)), None)
    named = words[: 1 if plural is None else plural + 1]
    if plural and named[-1] == "plates" and words[0] not in _WHAT_PLATES:
        named = named[:-1]  # tank plates, bow plates: parts
    if not count or any(word in SIZE_WORDS or word in _NO_PART for word in named):
        return None, text
    if (count > 1) != (plural is not None):
        return None, text
    return count, text[match.start("things") :]


def last_count(text: str) -> tuple[int | None, str]:
    """Return the count that a text ends with, beside a word that counts pieces, and the text before it.

    >>> last_count("Mantel Di 850, h 620, 15 St."), last_count("shell 48 OD x 1/4 x 60, qty-02")
    ((15, 'Mantel Di 850, h 620'), (2, 'shell 48 OD x 1/4 x 60'))
    >>> last_count("shell, 1/4 x 60, St. 37")[0], last_count("48 OD x 1/4 x 8 ea")[0]
    (None, None)
    """
    match = _LAST.search(text)
    if match is None:
        return None, text
    if match["word"]:
        return _IN_WORDS[match["word"].lower()], text[: match.start()]
    steel = match["st"]
    if steel and int(steel) in _OLD_STEELS:
        return None, text
    return int(match["behind"] or match["before"] or match["q"] or steel) or None, text[: match.start()]


def piece_count(text: str) -> tuple[int | None, str]:
    """Return the count that stands alone between dashes, or `1 piece` before a size, and the text without it.

    >>> piece_count("stack - two pieces - 10 ga A36"), piece_count("drum 1 - qty 2 - 36 dia x 84 long")
    ((2, 'stack ; 10 ga A36'), (2, 'drum 1 ; 36 dia x 84 long'))
    >>> piece_count("48 OD x 60, one piece")[0], piece_count("shell - two pieces")[0]
    (None, None)
    """
    if led := _ONE_PIECE.match(text):
        return 1, text[led.end() :]
    if " - " not in text and " – " not in text:
        return None, text
    found = list(_BETWEEN_DASHES.finditer(text))
    if len(found) != 1:
        return None, text
    match = found[0]
    count = match["number"] or match["qty"] or match["times"]
    number = int(count) if count else _IN_WORDS[match["word"].lower()]
    return number or None, f"{text[: match.start()]} ; {text[match.end() :]}"


_ONE_PIECE = re.compile(
    r"\W*(?:1|one)\s(?:piece|pce|pc)\b\.?\s+(?:of\s+)?(?=[\dØø.]|[^\W\d_]{3,}\s(?!.*\b(?:off|pcs|pieces|qty|ea|each)\b)"
    r"(?:\D*\d){3})",
    re.I,
)
_CURVED_PLATES = re.compile(
    r"^(?P<label>[^\d,;]{0,20}(?:\d{1,2}\s*[:.)-])?\s*)(?P<count>\d{1,3})\s+(?:rolled |curved )?"
    r"(?:plates?|sheets?|panels?|petals?|segments?)\s+(?:(?:of|at|to|x|with)\s+)?"
    r"(?=(?:ir|or|r|rad|radius|inside radius|outside radius)\W{0,3}\d{2}|\d{2,3}\s?(?:°|º|deg))",
    re.I,
)


def curved_plates(text: str) -> tuple[int | None, str]:
    """Return how many plates a text counts before their radius or their degrees, and the text without that.

    >>> curved_plates("6 plates R9000 x 7850 x 10 thk"), curved_plates("6 plate x 48 OD")
    ((6, 'R9000 x 7850 x 10 thk'), (None, '6 plate x 48 OD'))
    """
    match = _CURVED_PLATES.match(text)
    if match is None:
        return None, text
    return int(match["count"]) or None, f"{match['label']}{text[match.end() :]}".strip()


_BETWEEN_DASHES = re.compile(
    r"\s[-–]\s+\(?(?:(?P<number>\d{1,3})\s?-?(?:pcs?|pces?|pieces?|off|ea|each|nos?|reqd|req'd|required|stk|szt|uds?|pzs?|ks|db)"
    r"|(?:qty|quantity|pcs)\W{0,3}(?P<qty>\d{1,3})|x\s?(?P<times>\d{1,3})"
    r"|(?P<word>one|two|three|four|five|six|eight|ten|twelve)\s(?:pcs?|pieces?|off|only|required|reqd|needed))\b\.?\)?"
    r"\s+[-–]\s+(?=.*\d)",
    re.I,
)


_PIECE = (
    r"(?:mcx|mrcx|morceaux?|ea|each|off|qty|nos?|nr|pcs?|pces?|pieces?|only|reqd|req'd|required|needed|wanted|st|stk|stck|stücke?|stuks?"
    r"|styck|styk|stykker|szt|sztuk[ia]?|ks|kus[yůu]?|pzs?|pzas?|piezas?|pezz[io]|uds?|unid(?:ade)?s?|unidades"
    r"|units?|un|u(?=\.|\))|pçs?|peças?|pièces?|exempl\w+|adet|ad|tk|db|darab|buc|bucăți|kom|komada?|kos|kpl|kappaletta"
    r"|шт|штук\w*|бр|броя|τεμ)"
)
"""What counts pieces behind a number, in the languages of the reader."""
_HEAD = (
    r"(?:qty|qtd?|quant|q(?=\.)|quantity(?: of)?|q\W?ty|q\.?t[aàé]|q\.?te|qtde|quantit[éàa]|cantidad"
    r"|cantitate|cant|quantidade|menge|anzahl|anz|stückzahl|stk|stck|stück|szt|sztuk|ilo[śs][ćc]|kpl|kom|kol"
    r"|koli[čc]ina|ks|kus[ůu]|po[čc]et(?: kus[ůu])?|mno[žz]stv[íi]|db|darab(?:szám)?|mennyiség|buc|adet"
    r"|miktar|antall?|aantal|aant|määrä|nbre|nb|nombre"
    r"|pzs?|pzas?|pezzi|pcs|pieces"
    r"|uds?|unid|no\.? ?off|number off"
    r"|шт|кол-?во|количество|к-во|数量|τεμ)"
)
"""What heads a count before its number."""
_NUMBERED = r"(?:nr|n°|nº|n(?=\.)|nos)"
"""Heads a count behind a part, and a name elsewhere."""
_NO_MORE = r"(?!\s*(?:sets?\b|pairs?\b|prs?\b|lots?\b|[-–/]\s?\d|[.,]\d|or\b|to\b|%|mm\b|°|deg))"
_BEHIND = re.compile(
    r"(?:\s*(?:->|→|=+>?|\.{2,}|[-–—,;:/|…]|(?<=[)\d\w]))\s*)\(?(?:"
    rf"{_HEAD}\s?[.:=–-]{{0,2}}\s*0*(?P<headed>\d{{1,4}})(?:\s?{_PIECE})?"
    rf"|(?<=[-–,;/|] ){_NUMBERED}[.:]?\s?(?P<numbered>\d{{1,3}})(?!\d)"
    rf"|(?<![\w.,/])(?P<pieces>\d{{1,4}})\s?-?{_PIECE}(?:\.?\s?(?:total|in total|in all))?"
    r"|(?:(?<=[-–,;/(>→=:])|(?<=[-–,;/(>→=:] ))(?:[x×]\s?(?P<x>\d{1,3})|(?P<by>\d{1,3})\s?[x×])"
    r"|(?<=\s)(?<![x×*]\s)(?P<last>\d{1,2})\s?[x×]"
    r"|no\.? ?(?P<off>\d{1,3}) off|(?<=\s\()(?P<bare>\d{1,2})(?=\))"
    rf"|(?:(?:i|we)\s)?(?:need\s|want\s)?(?P<word>\w+)(?:\s{_PIECE})?"
    r")[\s.)\]]*$",
    re.I,
)
_NAMED_SO = re.compile(
    r"\b(?:zeichnung|drawing|dwg|drg|plan|plano|dessin|disegno|dibujo|rysunek|výkres|tegning|ritning|item|pos"
    r"|tank|drum|boiler|line|part|mark|heat|lot|order|po|job|project|ref)\W*$",
    re.I,
)
"""Before a number behind it, that is its name and no count: drawing - nr. 4."""
_LABELLED = (
    r"^[\s•*·>–—-]*(?P<label>(?:\(?(?:\d{1,3}|[a-z])[.):/]\s+|\d{1,2}-\s+|\#\s?\d{1,3}\s*[-:.)]?\s+"
    r"|(?:(?:pos|poz|item|[ií]tem|line|ligne|rep|partida|mark|mk|part)\b\.?\s*)?(?-i:[A-Z]{0,4})-?\d{1,4}[a-z]?"
    r"\s*(?:[:,)]|\s[-–])\s*"
    r"|(?:mark|mk|item|pos)\.?\s[A-Z0-9-]{1,6}\s*[:,-]?\s+|(?-i:[A-Z]{1,4})-?\d{1,4}[a-z]?\s+)?)"
)
_BEFORE = re.compile(
    _LABELLED + r"(?:[(\[]\s?(?P<bracket>\d{1,3})\s?(?:[x×]\s?|off\s?)?[)\]]\s*"
    rf"|(?P<pieces>\d{{1,4}})\s?-?(?:(?!(?:each|no|ad|un|pieces?)\b){_PIECE}|pieces|un(?=\.?\s+(?:[^\W\d_]{{3}}|[øØ\d])))\b\.?"
    r"\s*(?:[,:;*x–-]\s*|(?:of|de|di|von|van)\s)?"
    rf"|{_HEAD}\s?[.:=–-]{{0,2}}\s*\(?(?P<headed>\d{{1,4}})\)?{_NO_MORE}(?:\s?{_PIECE}\b\.?)?\s*[-–:,;)x]*\s+"
    r"|(?P<words>\d{1,3})\s\((?:one|two|three|four|five|six|eight|ten|twelve)\)\s"
    r"|(?P<times>\d{1,3})\s?[x×*]\s*(?:(?=[^\W\d_]{2})|(?=(?:[øØ]\s?)?\d[\d.,]*\s?(?:mm|m|\")?\s?"
    r"(?:[io][./]?d\b|[io]/dia|int\b|ext\b|internal|inside|outside|inner|outer|dia|bore|innen|au[sß]+en|[øØ])(?:.*?\d){2}))"
    r")(?=\S)",
    re.I,
)
_COUNTED_NUMBERS = {
    "zwei": 2, "drei": 3, "vier": 4, "fünf": 5, "sechs": 6, "acht": 8, "zehn": 10, "zwölf": 12, "deux": 2,
    "trois": 3, "quatre": 4, "cinq": 5, "huit": 8, "dix": 10, "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5,
    "seis": 6, "ocho": 8, "diez": 10, "due": 2, "tre": 3, "quattro": 4, "cinque": 5, "sei": 6, "otto": 8,
    "dieci": 10, "um": 1, "uma": 1, "dois": 2, "duas": 2, "três": 3, "quatro": 4, "oito": 8, "dez": 10,
    "twee": 2, "drie": 3, "zes": 6, "tien": 10, "un": 1, "una": 1, "uno": 1, "ein": 1, "eine": 1, "une": 1,
    "een": 1, "één": 1, "dwa": 2, "dwie": 2, "trzy": 3, "cztery": 4, "två": 2, "fyra": 4, "fem": 5, "to": 2,
    "dva": 2, "tři": 3, "čtyři": 4, "kettő": 2, "három": 3, "négy": 4, "iki": 2, "üç": 3, "dört": 4,
    "kaksi": 2, "kolme": 3, "neljä": 4, "două": 2, "trei": 3, "patru": 4,
}  # fmt: skip
"""Numbers in words before what counts pieces: due pezzi."""
_FEWEST_SIZES = 2
_LONGEST_COUNT = 40
"""Characters at the end of a text that a count is looked for in."""
_PART_NAME = re.compile(
    r"^[\s•*·>–—-]*(?P<name>(?:(?-i:[A-Z]{1,3})-?\d{1,3}\s+)?(?P<words>(?:[^\W\d_]{2,}\.?\s+){1,3})(?-i:[A-Z]{0,3})-?\d{1,3}[a-z]?)\s*[:=]\s+(?=\S)"
    r"|^[\s•*·>–—-]*(?P<code>(?-i:[A-Z]{1,3})\d{1,2}[a-z]?)\s*[:)]\s+(?=\S)",
    re.I,
)
_NO_NAMES = frozenset(
    ("qty", "quantity", "rev", "type", "dn", "nps", "sch", "ga", "gauge", "no", "grade", "dia")
)


def named_part(text: str) -> tuple[str, str]:
    """Return the name that a text about one part begins with, a word and a number, and the rest.

    A whole part must follow: T12 of shell T12 is no thickness where another is given.

    >>> named_part("shell T12: ID 2800, length 2400, thick 32"), named_part("Ring thk 12: ID 2800, 900 long")
    (('shell T12', 'ID 2800, length 2400, thick 32'), ('', 'Ring thk 12: ID 2800, 900 long'))
    """
    match = _PART_NAME.match(text)
    if match is None or len(_NUMBER.findall(text, match.end())) < _SIZES_OF_A_CYLINDER:
        return "", text
    if match["code"]:
        return match["code"], text[match.end() :]
    words = _WORDS.findall(match["words"].lower())
    if words[-1] in SIZE_WORDS or words[-1] in _NO_NAMES or {*words} & (_ROUND | _THICK | _ACROSS):
        return "", text
    return match["name"].strip(), text[match.end() :]


def told_before(text: str) -> tuple[str, int | None, str]:
    """Return the name that a text about one part begins with, the count behind it, and the rest.

    Only where two sizes follow at least: (4) 38" dia is a count, 6 pcs per tank is none of all.

    >>> told_before('Mk D1  (2) 38" dia x 60'), told_before("szt. 4 plaszcz 1200 x 8 x 1500")
    (('Mk D1', 2, '38" dia x 60'), ('', 4, 'plaszcz 1200 x 8 x 1500'))
    """
    match = _BEFORE.match(text)
    if match is None or len(_NUMBER.findall(text, match.end())) < _FEWEST_SIZES:
        return "", None, text
    found = next(match[name] for name in ("bracket", "pieces", "headed", "words", "times") if match[name])
    return match["label"].strip(" .:,-–)(/#"), int(found) or None, text[match.end() :]


def told_behind(text: str) -> tuple[int | None, str]:
    """Return the count that a text about one part ends with in any of the reader's languages, and the rest.

    >>> told_behind("OD 2020 - L. 1980 - thick 10 - nr. 3"), told_behind("8 ID x 5 high x 1/4 - I need four")
    ((3, 'OD 2020 - L. 1980 - thick 10'), (4, '8 ID x 5 high x 1/4'))
    >>> told_behind("ID 1200 x 8, drawing, nr. 3")[0], told_behind("shell 1200 x 8 in 4 pcs")[0]
    (None, None)
    """
    match = _BEHIND.search(text, max(0, len(text) - _LONGEST_COUNT))
    if match is None:
        return None, text
    before = text[: match.start()]
    sizes = len(_NUMBER.findall(before))
    if sizes < _FEWEST_SIZES or _MADE_IN.search(before) or (match["numbered"] and _NAMED_SO.search(before)):
        return None, text
    if match["last"] and not _ends_in_a_size(before):
        return None, text
    if match["word"]:
        said = match["word"].lower()
        pieces = match.group().lower().strip(" .)").endswith(said) is False
        count = _IN_WORDS.get(said) or (_COUNTED_NUMBERS.get(said) if pieces else None)
        return (count, before) if count else (None, text)
    names = ("headed", "numbered", "pieces", "x", "by", "last", "off", "bare")
    found = int(next(match[name] for name in names if match[name]))
    if found in _OLD_STEELS and match.group().lower().strip(" ,;-–").startswith("st"):
        return None, text
    return found or None, before


def _ends_in_a_size(text: str) -> bool:
    """Return whether a text ends in a size or a grade, and not in work that is done twice: weld 2x."""
    last = (text.split() or [""])[-1].lower().strip(".,;")
    return any(map(str.isdecimal, last)) or last in SIZE_WORDS or last in _UNITS or last.endswith(")")


_UNITS = frozenset(("mm", "cm", "m", "in", "ft", "deg"))


_WITHIN = re.compile(
    rf"(?<![\w.,/-])(?:{_HEAD}\s?[.:=–-]{{0,2}}\s*0*(?P<headed>\d{{1,4}})(?!\w)(?:\s?{_PIECE}\b\.?)?"
    rf"|(?P<pieces>\d{{1,4}})\s?-?(?:(?!(?:each|no|ad|un)\b){_PIECE})\b\.?(?!\s?[.:=–-]{{0,2}}\s*\d)"
    r"|(?<![x×*] )(?P<times>[1-9]\d?)\s?[x×](?=\s*[,;]))"
    r"(?=\s*(?:[,;)/|(]|\s[-–]\s|$"
    r"|(?:(?:in|en|aus|em|w|z|ze|mat|grade|gr)\.?\s)?"
    r"(?:[^\W\d_]{1,4}[ -]?\d{2,4}[\w+/-]*|1\.\d{4}|\d\d \d{3}|[A-Z]{2,5})(?:\s|$)))",
    re.I,
)
"""A count in the midst of a text where a clause ends behind it, or a grade stands there: 4 adet st52."""


def told_within(text: str) -> tuple[int | None, str]:
    """Return the only count of pieces in the midst of a text about one part, and the text without it.

    >>> told_within("dia 609 x 10 x 3000, 4 adet st52"), told_within("609 x 10 x 3000 in 4 pcs, st52")[0]
    ((4, 'dia 609 x 10 x 3000,  ;  st52'), None)
    """
    found = list(_WITHIN.finditer(text))
    if len(found) != 1 or len(_NUMBER.findall(text)) <= _FEWEST_SIZES:
        return None, text
    match = found[0]
    before = text[: match.start()]
    number = int(match["headed"] or match["pieces"] or match["times"])
    if not number or _MADE_IN.search(before) or _NAMED_SO.search(before):
        return None, text
    if match["times"] and any(map(str.isdecimal, before)):
        return None, text
    return number, f"{before} ; {text[match.end() :]}"


_MADE_IN = re.compile(
    r"\b(?:in|into|from|of|as|per|to|en|aus|von|de|di|da|w|z|ze|v|ve|på|af|av|i|od|su|op|met|with|each|mit|avec|con"
    r"|com|med)\W*$",
    re.I,
)
"""in 4 pcs: what the part is made of."""


def last_times(text: str) -> tuple[int | None, str]:
    """Return the count behind a part whose sizes are all told before it, its grade taken out: ; x 2.

    A cylinder takes three numbers, a cone or a segment four: what follows them as `x 2` is no size.

    >>> last_times("cyl OD1220 x 10 x 1500 ; x2"), last_times("48 OD, 1/4 ; x 60")
    ((2, 'cyl OD1220 x 10 x 1500 '), (None, '48 OD, 1/4 ; x 60'))
    """
    match = _LAST_TIMES.search(text)
    if match is None:
        return None, text
    before = text[: match.start()]
    more = shape_words(before).get("shape") in ("cone", "arc") or _OF_A_CURVE.search(before) is not None
    if len(_NUMBERS.findall(before)) < _SIZES_OF_A_CYLINDER + more:
        return None, text
    return int(match["x"] or match["by"]) or None, before


def named_times(text: str, marks: frozenset[str]) -> tuple[int | None, str]:
    """Return the count behind the name of a part, and the text without it; `marks` head sizes, and no name.

    >>> named_times("WB1 x 2, 38 ID", frozenset("r")), named_times("R24 x 6, 38 wide", frozenset("r"))[0]
    ((2, 'WB1, 38 ID'), None)
    """
    if (told := _WORDS_TIMES.match(text)) and told["last"].lower() not in {*marks, *SIZE_WORDS}:
        return int(told["count"]) or None, text[: told.end("last")] + text[told.end() :]
    match = _NAMED_TIMES.match(text)
    letters = _LETTERS.match(match["name"].strip()) if match else None
    if match is None or letters is None or letters.group().lower() in marks | {"m"}:
        return None, text
    return int(match["count"]) or None, match["name"] + text[match.end() :]


def dashes_apart(text: str) -> str:
    """Return a text with its dashes between unlike sizes as separators: they are no ranges and no tolerances.

    >>> dashes_apart("26 dia - .190 thick - 4 wide"), dashes_apart("46 in - 48 in OD, 90 long")
    ('26 dia ; .190 thick ; 4 wide', '46 in - 48 in OD, 90 long')
    """
    dashes = list(_DASH.finditer(text))
    if not dashes:
        return text
    ends = [0, *(dash.end() for dash in dashes)]
    starts = [*(dash.start() for dash in dashes), len(text)]
    pieces = [text[at:end] for at, end in zip(ends, starts, strict=True)]
    bare = _bare_between(pieces)
    out = pieces[0]
    for at, (left, right) in enumerate(pairwise(pieces)):
        apart = (
            bare & {at, at + 1}
            or _NAME_OF_ONE.search(left)
            or _unlike(_END.split(left)[-1], _END.split(right)[0])
        )
        out += (" ; " if apart else " - ") + right
    return out


def _bare_between(pieces: list[str]) -> set[int]:
    """Return which pieces between dashes are a number alone that ends no range: 48 ID - 1/4 - 60 lg."""
    if len({kind for piece in pieces for kind in _kinds(piece)}) < _UNLIKE:
        return set()
    sizes = [_NUMBERS.search(piece) for piece in pieces]
    values = [_value(size.group()) if size else 0.0 for size in sizes]
    return {
        at
        for at in range(1, len(pieces) - 1)
        if _ALONE.fullmatch(pieces[at])
        and not values[at - 1] < values[at] <= _RANGE * values[at - 1]
        and not values[at] < values[at + 1] <= _RANGE * values[at]
    }


def _value(number: str) -> float:
    top, _, bottom = number.replace(",", ".").partition("/")
    try:
        return float(top) / float(bottom or 1)
    except (ValueError, ZeroDivisionError):
        return 0.0


_UNLIKE, _RANGE = 2, 2.0
"""A range goes to less than twice its lower end (common practice, no source)."""
_ALONE = re.compile(r"\s*(?:\d+(?:[.,]\d+)?|\d+/\d+|\.\d+)\s?(?:mm|in\.?|\")?\s*", re.I)


def _unlike(left: str, right: str) -> bool:
    """Return whether two pieces each say what they measure, and it is not the same."""
    one, two = _kinds(left), _kinds(right)
    return bool(one and two) and not one & two


def _kinds(piece: str) -> frozenset[int]:
    piece = _DOTTED.sub(r"\1d", piece)
    words = {word.lower() for word in _WORDS.findall(piece)} if any(map(str.isdigit, piece)) else set()
    return frozenset(at for at, kind in enumerate((_ROUND, _THICK, _ACROSS)) if words & kind)


_NAME_OF_ONE = re.compile(
    r"\b(?:strake|course|shell|ring|can|section|tier|item|pos|mark|part|piece)s?\.? [A-Z]{0,3}\d{1,3}[A-Z]?$",
    re.I,
)
"""Strake S4: the name of one part, and no lower end of a range."""
_DOTTED = re.compile(r"\b([IO])[./]D\b\.?", re.I)
"""I.D., O/D."""
