"""Reads a file's cells as English trade words; what the customer wrote is kept beside it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from quoting.intake.words.clean import cleaned
from quoting.intake.words.languages import CJK, WORD, Language, changing, folded, language_of, stems
from quoting.intake.words.letters import is_letter
from quoting.tables import Cell, Sheet

_MOST_WORDS = 5
_FEWEST_HEADINGS = 3
_SAMPLE = 400
_LONG_WORD = 6
_SHORTEST_STEM = 4
_SIDES = ("inside", "outside", "mean", "id", "od")
_LETTER = re.compile(r"(?<!\w)[sSδ]\s*=\s*(?=\d)")
_LETTER_E = re.compile(r"(?<!\w)[eE]\s*=\s*(?=\d)")
_LETTER_B = re.compile(r"(?<![\w.])B\s*=?\s*(?=\d)")
"""B 250 behind other sizes: Breite, breedte, bredd."""
_SIZED_BEFORE = re.compile(r"\d.*(?<![\w.])B\s*=?\s*\d")
_BY_B = frozenset(("de", "nl", "sv", "da"))
_BY_S = frozenset(("de", "it", "nl", "sv", "cs", "hu", "pl", "zh"))
_THOUSAND = re.compile(
    r"(?:(?<![^\W\d_])(?P<word>[^\W\d_]+)[.:=]{0,2} ?|(?<=[,;(/×>] )|(?<=[=ø⌀∅ØΦφ(/]))"
    r"(?P<first>\d{1,2})[ \u00a0\u202f](?P<rest>\d{3})"
    r"(?!\w|[.,]?\d| ?(?:\d|°|deg|grad|gr\b|fok|stup|ast|kg|g\b|stk|st\b|pcs|ks\b|db\b|kpl|szt|buc))",
    re.I,
)
"""1 200 in a sentence, after a word or a comma: a number that opens the text may be a count."""
_BY_SPACE = frozenset(("fr", "sv", "fi", "hu", "da", "cs", "pl", "ru"))
"""Languages that part thousands by a space (ISO 80000-1; which ones do so daily is from memory)."""
_THIN = frozenset((
    "t", "s", "e", "ep", "tl", "tj", "gr", "vtg", "lv", "pl", "bl", "thick", "plate", "plech", "plat",
    "plade", "levy", "lemez", "blacha", "tole", "tloustka", "tjocklek", "tykkelse", "paksuus", "vastagsag",
    "grubosc",
    "epaisseur", "paks", "pak", "vahvuus", "fal", "gods", "лист", "толщина", "qty", "antal", "antall", "kpl",
    "ks", "db", "szt", "stk", "st", "pos", "poz", "item", "nr", "no", "c", "num", "numero", "rep", "del",
))  # fmt: skip
"""Words before a number that is a thickness, a count or a name: another number may stand behind it."""
_BEHIND_THIN = re.compile(r"(?<![\d.,])\d{1,2}(?:[.,]\d{1,2})?(?: ?mm)? ?[x×] ?$", re.I)
_BY_NUMBER_SIGN = re.compile(r"#\s?(?=\d{1,2}[.,]\d|\d{1,2}/\d{1,2}|\d{1,2} ?mm\b)")
"""#6,3 or #1/4: the thickness; a whole number behind the sign may be a gauge."""
_ER = re.compile(r"(?<![\w.,])(\d{1,2})\s?er(?=[ -]?(?:Grob|Fein|Stahl)?[Bb]l(?:ech|\b))")
_AS = re.compile(r"(?<![\w.,])(\d{1,2})-(?:as|es|os|ös|ás)(?![^\W\d_])(?: (?:vastag )?lemez\w*)?", re.I)
_MM_ES = re.compile(r"(?<=mm)-es(?![^\W\d_])", re.I)
_CASE_ENDING = re.compile(r"(?<=\d)-(?:r[óőoö]l|r[ae]|t[óőoö]l|ig|[ae]s|os|ös)(?![^\W\d_])", re.I)
"""6er Blech, 8-as lemez, 6 mm-es, 1650-ről: numbers with an ending."""
_NUMBERED_SIGN = re.compile(r"(?<=[节節段圈筒环件号])(\d{1,2})(?=\s+[φΦØø])")
"""筒节3 φ3400: the third shell, and its diameter."""
_IN = re.compile(r"(?<=\d) in (?=[^\W\d])")
_METRE_AND = re.compile(r"(?<![\w.,/-])(\d{1,2}) m (\d{2})(?=\s*(?:$|[,;)]|[ée]p))", re.I)
"""longueur 1 m 50, as it is said in French."""
_HALF_OF = re.compile(
    r"(?<![\d.,/-])(?<!\d )(?:1/2|½)[ -]?(?:coquilles?|coques?|viroles?|anneaux?|schalen?|sch[uü]ss(?:e|es)?"
    r"|rohrschalen?"
    r"|virolas?|cañas?|canas?|anillos?|gusci?o?|anell[oi]|schaal|schalen|skorup[ay]|pier[sś]cie[nń]|sko[rř]epin[ay]"
    r"|skal(?:er|ar)?)(?![^\W\d_])",
    re.I,
)
"""1/2 coquille: half of a shell, and no plate of half an inch; in English it may be either."""
_EM = re.compile(r"(?<=\d) em (?=[^\W\d])", re.I)
"""parede 6,3 em A36, esp. 8 em todas: in Portuguese, and no inches."""
_IN_IS_NO_INCH = frozenset(("it", "de", "nl"))
"""Languages in which a number and `in` before a word are no inches: L=7500 in più virole."""
_BY_S_MANY = frozenset(("fr", "es", "pt"))
"""Languages whose plurals end on s."""
_SHORTEST_PLURAL = 6
_PLURALS = frozenset((
    "radius", "dia", "inside", "outside", "mean", "length", "height", "width", "thick", "angle", "chord",
    "rise", "developed length", "circumference", "shell", "ring", "cone", "cylinder", "segment", "half shell",
    "plate",
))  # fmt: skip
_ELIDES = frozenset(("fr", "it"))
_BY_E = frozenset(("fr", "es", "pt"))
_DOTTED = re.compile(r"(?<![\w.])D\.\s?([IE])\.(?=\s*=?\s*\d)")
"""D.I. 1600, D.E. 1600: the inside or outside diameter in several languages, and not the Italian `di`."""
_CAPITAL_SIDE = re.compile(r"(?<![\w.])D(?:([ieawz])\.?\s?=?\s?(?=\d{2})|([IE])\s?=?\s?(?=\d{3}))")
"""Di 1200, De 914, Dw 500: a capital before a number is no Italian `di` and no French `de`."""
_UNIT = re.compile(r"\s*(?:[(\[]\s*(?:mm|cm|m|in|kg)\s*[)\]]|(?<=\s)mm$)\s*", re.I)
_SENTENCE = re.compile(r"\.\s+[A-ZÀ-ÝŁŚŻА-Я]")
"""The end of a sentence: its point is none of an abbreviation."""
_SIZES_IN_GERMAN = re.compile(r"\b\w*[Mm]aße\b|\bMASSE\s*\(?(?:IN )?MM")
"""Without its ß the word is that of a mass."""
_FIGURES = re.compile(r"\d+")
_GAP = re.compile(r"[.\s]*")


@dataclass(frozen=True, slots=True)
class Translation:
    """The sheets in English, their language, what a text reads in English, and what texts were before."""

    sheets: tuple[Sheet, ...]
    language: str
    english: Callable[[str], str]
    own: Mapping[str, str]


def translated(sheets: Sequence[Sheet]) -> Translation:
    """Return the sheets with their words in English."""
    texts = {
        cell
        for sheet in sheets
        for row in sheet.rows[:_SAMPLE]
        for cell in row
        if cell and isinstance(cell, str)
    }
    language = language_of(texts)
    reader = _Reader(language or Language(""))
    read = tuple(replace(sheet, rows=[reader.row(row) for row in sheet.rows]) for sheet in sheets)
    return Translation(read, reader.language.name, reader.text, reader.own())


class _Reader:
    """Translates texts of one language, each once."""

    def __init__(self, language: Language) -> None:
        self.language = language
        self._done: dict[str, str] = {}
        self._labels = [(re.compile(label, re.I), meaning) for label, meaning in language.labels]
        self._chinese = sorted(language.words.items(), key=lambda pair: -len(pair[0]))

    def row(self, row: list[Cell]) -> list[Cell]:
        texts = [cell for cell in row if isinstance(cell, str) and cell and not cell.isspace()]
        if not texts:
            return row
        if not self.language.name and all(
            text.isascii() and "'" not in text and " " not in text and _in_any(text.lower()) is None
            for text in texts
        ):
            return row
        if len(texts) == 1 and is_letter(texts[0]):
            return row
        heading = self._is_heading(texts)
        label = texts[0] if not heading and self._is_labelled(texts) else ""
        return [
            self._cell(cell, heading=heading or cell is label) if isinstance(cell, str) and cell else cell
            for cell in row
        ]

    def own(self) -> dict[str, str]:
        """Return what the translated texts were before."""
        return {english: own for own, english in self._done.items() if own != english}

    def _is_labelled(self, texts: list[str]) -> bool:
        """Return whether the first of two or three texts is a label, as on a data sheet: Abmessung.

        What only names a part is one where a whole part stands beside it.
        """
        if not self.language.name or not 1 < len(texts) <= _FEWEST_HEADINGS:
            return False
        english = self.language.headers.get(" ".join(folded(texts[0]).split()), "")
        whole = len(_FIGURES.findall(texts[1])) >= _FEWEST_HEADINGS
        return english not in ("", "description") or (whole and english == "description")

    def _is_heading(self, texts: list[str]) -> bool:
        """Return whether a row reads as headings: three texts or more, most of them known ones."""
        if not self.language.name or len(texts) < _FEWEST_HEADINGS:
            return False
        plain = [" ".join(folded(_UNIT.sub(" ", text)).split()) for text in texts]
        known = [text for text in plain if text in self.language.headers or text in self.language.words]
        figures = any(sign.isdecimal() for text in texts for sign in text)
        return 2 * len(known) >= len(texts) and not figures

    def _cell(self, cell: str, *, heading: bool) -> str:
        if heading:
            english = self.language.headers.get(" ".join(folded(cell).split()))
            if self.language.name == "de" and "/" not in cell and _SIZES_IN_GERMAN.search(cell):
                return _SIZES_IN_GERMAN.sub("dimensions", cell)
            if english:
                return english
            if "/" in cell and (pieces := self._pieces(cell)):
                return pieces
            bare = self.language.headers.get(" ".join(folded(_UNIT.sub(" ", cell)).split()))
            if bare and (unit := _UNIT.search(cell)):
                return f"{bare} ({unit.group().strip(' ()[]')})"
        if cell not in self._done:
            plain = cleaned(cell)
            self._done[cell] = self.text(plain)
        return self._done[cell]

    def _pieces(self, heading: str) -> str:
        """Return a heading of two in English where one of them is that of sizes: Halbzeug / Maße."""
        pieces = [" ".join(folded(piece).split()) for piece in heading.split("/")]
        sizes = [_SIZES_IN_GERMAN.search(piece) is not None for piece in heading.split("/")]
        english = [
            "dimensions" if sized else self.language.headers.get(piece, piece)
            for piece, sized in zip(pieces, sizes, strict=True)
        ]
        return " / ".join(english) if "dimensions" in english or "size" in english else ""

    def text(self, text: str) -> str:
        """Return a text with the words that are known in English."""
        if self.language.name:
            text = self._numbers(text)
            if any(map(str.isdecimal, text)):  # they all stand before a number
                text = self._signs_and_labels(text)
        return self._in_words(text)

    def _numbers(self, text: str) -> str:
        """Return a text with its numbers written as English ones are: 2 000 til 350, 8-as, 60 gr, #6,3."""
        if self.language.name == "zh":
            text = self._by_signs(text)
        if self.language.name in _BY_SPACE and _SPACED.search(text):
            text = _THOUSAND.sub(_joined_thousands, text)
        if self.language.name in _WITH_ENDINGS:
            text = self._without_endings(text)
        if self.language.name in _GRADES_ARE_DEGREES:
            text = _DEGREES.sub(" deg", text)
        if self.language.name in _TO_IS_TIL:
            text = _TIL.sub(" to ", text)
        if self.language.name in _TO_IS_A:
            text = _A.sub(" to ", text)
        if "#" in text:
            text = _BY_NUMBER_SIGN.sub("thick ", text)
        if self.language.name and ("1/2" in text or "½" in text):
            text = _HALF_OF.sub("half shell", text)
        if self.language.name == "fr":
            text = _METRE_AND.sub(lambda match: f"{int(match[1]) * 1000 + int(match[2]) * 10} mm", text)
        if self.language.name == "pt":
            text = _EM.sub(", em ", text)
        return _IN.sub(", in ", text) if self.language.name in _IN_IS_NO_INCH else text

    def _signs_and_labels(self, text: str) -> str:
        """Return a text with the letters and labels before its numbers in English: Di 1200, s=8, v. 390."""
        text = _CAPITAL_SIDE.sub(self._side, text)
        text = _DOTTED.sub(lambda match: "ID" if match[1] == "I" else "OD", text)
        text = _LETTER.sub("thick ", text) if self.language.name in _BY_S else text
        if self.language.name in _BY_B and _SIZED_BEFORE.search(text):
            text = _LETTER_B.sub("width ", text)
        text = _LETTER_E.sub("thick ", text) if self.language.name in _BY_E else text
        for label, meaning in self._labels:
            text = label.sub(meaning, text)
        return text

    def _in_words(self, text: str) -> str:
        tokens = list(WORD.finditer(text))
        plain = [folded(token.group()).strip() for token in tokens]
        out: list[str] = []
        at = done = 0
        while at < len(tokens):
            count, english = self._longest(text, tokens, plain, at)
            if english is None:
                at += 1
                continue
            end = tokens[at + count - 1].end()
            if text[end : end + 1] == "." and not (
                len(plain[at]) > _SHORTEST_STEM and _SENTENCE.match(text, end)
            ):
                end += 1
            out.append(text[done : tokens[at].start()])
            out.append(_spaced(out, english, text[end : end + 1]))
            at, done = at + count, end
        return text if not out else _OF_SIZES.sub(r"\1 ", "".join([*out, text[done:]]))

    def _without_endings(self, text: str) -> str:
        """Return a text whose numbers have no ending of a word: 6er Blech as 6 mm Blech."""
        if self.language.name == "de":
            return _ER.sub(r"\1 mm ", text)
        text = _AS.sub(r"thick \1", _MM_ES.sub("", text))
        return _CASE_ENDING.sub(lambda match: " /" if match.group()[1:].endswith(("l", "L")) else "", text)

    def _side(self, match: re.Match[str]) -> str:
        """Return the side of `Di 1200`, `DE 1000`; in capitals alone DE may be `of`, and is left."""
        if match[2] and match.string.isupper():
            return match.group()
        return "; ID " if (match[1] or match[2]) in "iwI" else "; OD "

    def _longest(
        self, text: str, tokens: list[re.Match[str]], plain: list[str], at: int
    ) -> tuple[int, str | None]:
        for count in range(min(_MOST_WORDS, len(tokens) - at), 0, -1):
            english = self.language.words.get(" ".join(plain[at : at + count]))
            if english and _joined(text, tokens[at : at + count]):
                return count, english
        word = plain[at]
        if word[0] in "ørd" and (side := self.language.words.get(word[1:], "").lower()) in _SIDES:
            return 1, f"{side} radius" if word[0] == "r" else f"dia {side}"
        one = self.language.words.get(word.replace("-", " ")) or self._inflected(word)
        if one is not None:
            return 1, one
        if self.language.name and len(word) >= _SHORTEST_STEM:
            for stem, english in stems():
                if word.startswith(stem):
                    return 1, english
        if len(word) >= _LONG_WORD:
            for ending, english in self.language.endings.items():
                if word.endswith(ending):
                    return 1, english
        return _longest_in_any(text, tokens, plain, at, own=self.language.name)

    def _inflected(self, word: str) -> str | None:
        """Return the English of a word behind d' or l', and of a plural whose singular is known: d'épaisseur.

        Of plurals only those of sizes, sides and parts: rayons, espesores.
        """
        if self.language.name in _ELIDES and word[:2] in ("d'", "l'") and word[2:] in self.language.words:
            return self.language.words[word[2:]]
        if self.language.name not in _BY_S_MANY or not word.endswith("s") or len(word) < _SHORTEST_PLURAL:
            return None
        words = self.language.words
        one = words.get(word[:-1]) or (words.get(word[:-2], "") if word.endswith("es") else "")
        return one if one in _PLURALS else None

    def _by_signs(self, text: str) -> str:
        if not CJK.search(text):
            return text
        text = _COMMA.sub("; ", _NUMBERED_SIGN.sub(r" \1;", text))
        for foreign, english in self._chinese:
            if foreign in text:
                text = text.replace(foreign, f" {english} ")
        return " ".join(text.split())


_COMMA = re.compile(r",(?=[\u4e00-\u9fff]|\d{1,3}\s?[件个台套只块片张节根支])")
"""Before a word or a count it parts no digits: 14,长2000,6件."""
_DEGREES = re.compile(
    r"(?<=(?<![\w.,])\d{2})\s?[gG]r\b\.?(?!\s*\d)|(?<=(?<![\w.,])\d{3})\s?[gG]r\b\.?(?!\s*\d)"
)
_GRADES_ARE_DEGREES = frozenset(("nl", "da", "sv", "de", "es", "pt"))
"""60 gr: the degrees of an arc; in Polish and Romanian the same letters are a thickness."""
_TIL = re.compile(r"(?<=\d)(?: ?mm)? til{1,2} (?=(?:[øØ] ?)?\d)")
_TO_IS_TIL = frozenset(("da", "sv"))
_A = re.compile(r"(?<=\d) [aà] (?=\d)")
_TO_IS_A = frozenset(("nl", "it", "es", "pt", "fr"))
"""600 a 800: from the one to the other."""
_OF_SIZES = re.compile(
    r"\b(thick|plate|width|length|height|radius|dia|inside|outside) (?:d[eia]|v[ao]n|a[vf]) (?=\d)"
)
"""altezza di 500: the word between a size and what it is of."""
_SPACED = re.compile(r"\d[ \u00a0\u202f]\d{3}")
_WITH_ENDINGS = frozenset(("de", "hu"))


def _joined_thousands(match: re.Match[str]) -> str:
    """Return a number in groups of three as one, unless another may stand before the space: tl. 8 500."""
    word = folded(match["word"] or "")
    if word in _THIN or (word == "x" and not _BEHIND_THIN.search(match.string[: match.start("first")])):
        return match.group()
    return f"{match.group()[: match.start('first') - match.start()]}{match['first']}{match['rest']}"


def _joined(text: str, tokens: list[re.Match[str]]) -> bool:
    """Return whether nothing but blanks and dots stands between words."""
    return all(_GAP.fullmatch(text[one.end() : after.start()]) for one, after in pairwise(tokens))


def _longest_in_any(
    text: str, tokens: list[re.Match[str]], plain: list[str], at: int, *, own: str
) -> tuple[int, str | None]:
    """Return what a word means that no word of the file's own language is, where it changes a part.

    In a file of another language than English only what calls a part off: more may be a word of its own.
    """
    known = changing()
    if plain[at] in known.begin:
        for count in range(min(_MOST_WORDS, len(tokens) - at), 0, -1):
            english = known.phrases.get(" ".join(plain[at : at + count]))
            if english and (not own or english in _CALLS_OFF) and _joined(text, tokens[at : at + count]):
                return count, english
    return 1, None if own else _stem_in_any(plain[at])


_CALLS_OFF = ("cancelled", "hold", "on hold", "do not quote", "do not roll", "by others", "already supplied")


@lru_cache(maxsize=65_536)
def _stem_in_any(word: str) -> str | None:
    """Return the English of a word that begins like one that changes a part in some language."""
    known = changing()
    if not word.startswith(known.begin_stems):
        return None
    return next(english for stem, english in known.stems if word.startswith(stem))


def _in_any(word: str) -> str | None:
    """Return the English of a text of one word that changes a part in some language."""
    return changing().phrases.get(word) or _stem_in_any(word)


def _spaced(out: list[str], english: str, after: str) -> str:
    """Return the English words apart from what they were joined to: `Ri=400`, `sp.6`, `3件`."""
    before = out[-1][-1:] if out and out[-1] else ""
    left = " " if before.isalnum() else ""
    return f"{left}{english}{' ' if after.isalnum() else ''}"
