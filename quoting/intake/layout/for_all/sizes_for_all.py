"""Sizes, grade and part that titles, notes and heads give all lines: thickness, plate, arc, unit."""

from __future__ import annotations

import re
from collections.abc import Iterable

from quoting.core import Mark, Measure, NumberStyle, Unit
from quoting.intake.layout.for_all.pieces import comma_piece, unit_named
from quoting.intake.layout.for_all.sides_of_lines import A_MARK
from quoting.intake.layout.heading_grammar import is_word
from quoting.intake.texts import PartText, part_text, shape_words, without_joints
from quoting.shop import Materials

BETWEEN_PIECES = re.compile(r"[,;|:()\[\]/–—]|\s-\s|\.\s|\.$")
HALF_A_CIRCLE = 180
GRADES = re.compile(
    r"(?<![\w.-])(?:[SPQ]-?(?:185|195|2[0-9]5|3[0-9]5|4[0-9]0|500|550|690)[A-Z]{0,2}\d?\w{0,3}(?:\+\w+)?"
    r"|1\.[34]\d{3}|(?:AISI )?3\d\d(?:L|Ti)?)(?![\w.,-])"
)
"""Grades of EN 10025-2 and 10028-2, of GB/T 700 and 1591, and of stainless steels: no sizes either."""

A_WORD = re.compile(r"(?<![\w-])[^\W\d_]+(?![\w])")
_THE_REST = re.compile(
    r"\b(?:(?:everything|all|anything) else|(?:the |all )?(?:rest|others?|remaining|remainder)"
    r"|alles andere|sonst\w*|[uü]brige\w*|(?:tout )?(?:le )?reste|(?:el |il |o )?resto|los? dem[aá]s|demais"
    r"|rest|restantes?|resten|muut|t[oö]bbi|di[gğ]er\w*|остальн\w*|zbyl\w*|ostatn\w*|zbytek|reszta|[oö]vrig\w*"
    r"|overige?\w*|de rest|pozosta[łl]e)\b|其余|其它|其他",
    re.I,
)
OF_SIZES = re.compile(
    r"\b(?:dim(?:s|ension\w*)?|sizes?|measure(?:s|ments)?|ma(?:ss|ß)e|abmessung\w*|cotes?|cotas?|medidas?|misure|quote"
    r"|(?:hart|binnen|buiten)?maten|(?:innen|au(?:ss|ß)en|mittel)ma(?:ss|ß)e|(?:inner|ytter)m[aå]tt"
    r"|(?:ulko|sis[aä])mitat|(?:inder|yder)m[aå]l|wymiary|rozm[eě]ry|m[aå]tt?|mitat|[oö]l[cç][uü]ler\w*|m[eé]retek|размеры)\b|尺寸",
    re.I,
)
"""Sizes in general: where a text gives another unit to one of them by name, that of the rest."""

MEASURED = ("thickness", "diameter", "radius", "length", "width", "height")


def units_of_sizes(text: str) -> dict[str, str]:
    """Return the units that a text gives to sizes by their names, and under "" that of the rest; none where
    it names no two of them.

    >>> units_of_sizes("Thickness in inches, everything else in millimetres")
    {'thickness': 'in', '': 'mm'}
    """
    found: dict[str, str] = {}
    for piece in BETWEEN_PIECES.split(A_MARK.sub("", text)):
        unit = unit_named([piece or ""])
        named = [name for name in MEASURED if unit and is_word(name, piece)]
        if unit and not named and (_THE_REST.search(piece) or OF_SIZES.search(piece)):
            named = [""]
        for name in named:
            if found.setdefault(name, unit) != unit:
                return {}
    return found if len(set(found.values())) == 2 else {}


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
_NOT_THE_PLATE = re.compile(
    r"\b(allowance|corrosion|insulat\w*|lining|lined|clad\w*|overlay|refractor\w*|rubber|paint\w*|coat\w*|galv\w*"
    r"|tol(?:l?er\w*|s)?|gap|root|land|bevel\w*|weld\w*|seam\w*|flange\w*|nozzle\w*|bolt\w*|hole\w*|pitch|overall|total|heads?"
    r"|stiff\w*|bars?|angle|wall of|capacity|volume|max\w*|min\w*|over|under|up to|less|more|above|below"
    r"|order\w*"
    r"|truck\w*|pallet\w*|crate\w*|crane|roll capacity|our|your)\b|[+±]",
    re.I,
)
_EITHER = re.compile(
    r"(?<!\w)[\d.]\S*\s+(?:(?:mm|in|inch)\s+)?(?:or|oder|ou|lub|albo|nebo|of|veya|eller|tai|vagy|sau|ili|или)\s+\S*\d",
    re.I,
)
"""3/8 or 1/2: which of two is left open."""


_OF_A_SENDER = re.compile(r"^ext\.?\W{0,2}\d{2,5}$|\d\.\s+[^\W\d_]", re.I)
"""ext 214 behind a name is a telephone, and 20. t. Jarmo ends one sentence and begins another."""


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
        if _OF_A_SENDER.search(part.plain[size.start : size.end].strip()):
            continue
        if field in ACROSS and not EVERY.search(clause):
            continue
        if _NOT_THE_PLATE.search(comma_piece(part.plain, size.start, size.end)):
            continue
        found.setdefault(field, []).append(part.plain[size.start : size.end].strip(" ,;:-–"))
    if "thickness" not in found and (plain := _beside_metal(part)):
        found["thickness"] = plain
    graded = len({key for key, _ in part.grades}) == 1
    if "thickness" not in found and graded and (EVERY.search(clause) or _only_plate(part)):
        found["thickness"] = _beside_grade(part)
    if any(_goes_on(clause, text) for text in found.get("thickness", ())):
        del found["thickness"]
    return {field: texts[0] for field, texts in found.items() if len(texts) == 1}


_BEFORE_ANOTHER = re.compile(
    r"(?<!quote )(?<!price )(?<!offer )(?<!need )\b(?:for|fits?|onto|on to|fit to|welded to|existing|old|was"
    r"|were)\s+"
    r"(?:(?:an?|the|existing|old|our|your)\s+)*$",
    re.I,
)


def _goes_on(clause: str, size: str) -> bool:
    """Return whether a size of a text is that of what the parts go on, or of what was there: for 10 mm tank.

    >>> _goes_on("Pads for 12 mm shell, S235JR", "12 mm"), _goes_on("S235JR 12 mm", "12 mm")
    (True, False)
    """
    found = _as_written(clause, size)
    return found is not None and _BEFORE_ANOTHER.search(clause[: found.start()]) is not None


def _as_written(clause: str, size: str) -> re.Match[str] | None:
    """Return where the number of a size stands in a text."""
    number = re.match(r"[\d./]+", size)
    return re.search(rf"(?<![\w./,]){re.escape(number.group())}(?![\d/])", clause) if number else None


_OF_METAL = frozenset((
    "all", "everything", "alles", "alle", "tout", "todo", "tutto", "tudo", "in", "en", "aus", "de",
    "from", "of", "mild", "carbon", "black", "steel", "stainless", "ss", "inox", "alu", "aluminium",
    "aluminum", "plate", "sheet", "material", "please", "staal", "stahl", "acier", "acero", "acciaio",
    "aco", "stal", "stål", "made", "plaat", "blech", "tole", "tôle", "chapa", "lamiera", "blacha", "plech",
    "plåt", "plade", "levy", "lemez", "sac", "placa", "plancha", "lamina", "lámina", "hot", "rolled",
    "hr", "cr", "ms",
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
        piece = comma_piece(part.plain, size.start, size.end)
        words = A_WORD.findall(piece.replace(part.plain[size.start : size.end], " ").lower())
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
        or _NOT_THE_PLATE.search(comma_piece(part.plain, bare[0].start, bare[0].end))
    ):
        return []
    return [part.plain[size.start : size.end].strip(" ,;:-–") for size in plates]


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
    if any(_NOT_THE_PLATE.search(comma_piece(part.plain, size.start, size.end)) for size in found):
        return ""
    told = found[-1] if found and _say_one(part.plain, found) else None
    return "" if told is None else part.plain[told.start : told.end].strip(" ,;:-–()=")


_NAMES_OF_PARTS = frozenset((
    "shell", "shells", "ring", "rings", "cylinder", "cylinders", "can", "cans", "drum", "drums", "pipe",
    "pipes", "tube", "tubes", "section", "sections", "stack", "tank", "tanks", "silo", "silos", "duct",
    "ducts", "cone", "cones", "sleeve", "sleeves", "segment", "segments", "course", "courses",
    "thk", "thick", "thickness", "t", "mm", "inch", "mat", "matl", "grade", "gr", "x",
))  # fmt: skip


def says_only_plate(clause: str, part: PartText, plate: str) -> bool:
    """Return whether the piece between commas that gives the plate is of it and of nothing else: Stack
    section 6 mm S235JR; and no film, clearance, or wall of another part that it goes on.
    """
    found = _as_written(clause, plate)
    if found is None:
        return False
    piece = comma_piece(clause, found.start(), found.end())
    for _, words in part.grades:
        piece = piece.replace(words, " ")
    return all(word in _OF_METAL or word in _NAMES_OF_PARTS for word in A_WORD.findall(piece.lower()))


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
    rest = GRADES.sub(" ", title[: match.start()] + " " + title[match.end() :])
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
    if _MORE_THAN_ONE.search(rest) or other != "arc" or int(degrees) >= 2 * HALF_A_CIRCLE:
        return ""
    return degrees
