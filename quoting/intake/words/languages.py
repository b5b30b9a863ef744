"""The trade words of other languages as `languages.toml` lists them, and which language a file is in."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cache, lru_cache
from importlib.resources import files
from itertools import pairwise

from quoting.intake.words.phrases import harmless

WORD = re.compile(r"[^\W\d_]+(?:[.'’/-][^\W\d_]+)*|\d+(?:[.,]\d+)*")
CJK = re.compile(r"[\u4e00-\u9fff\u03b4]")
_SHORT = 3
_ENGLISH = 2
"""A file with more than twice as many plain English words as foreign ones is English: `po` may be French."""
_FEWEST = 2
"""A file is in a language of which it has at least this many words; "Pos." alone is no German."""
_SHORTEST = 5
"""Letters of a word that is read in any language: shorter ones are too often words of another."""
_PLAIN = str.maketrans(
    {"ß": "ss", "ł": "l", "Ł": "l", "ı": "i", "Φ": "ø", "φ": "ø", "⌀": "ø", "∅": "ø", "Ø": "ø", "’": "'"}
)


@lru_cache(maxsize=65_536)
def folded(text: str) -> str:
    """Return a text in lower case, without accents and dots.

    >>> folded("Mantelhöhe"), folded("ép.")
    ('mantelhohe', 'ep')
    """
    plain = unicodedata.normalize("NFKD", text.translate(_PLAIN).lower())
    return "".join(sign for sign in plain if not unicodedata.combining(sign) and sign != ".")


@dataclass(frozen=True, slots=True)
class Language:
    """One language: its words, what holds for whole headings only, the ends of long words, and its labels.

    A label is what stands before a number, and means something only there.
    """

    name: str
    words: dict[str, str] = field(default_factory=dict)
    headers: dict[str, str] = field(default_factory=dict)
    endings: dict[str, str] = field(default_factory=dict)
    labels: tuple[tuple[str, str], ...] = ()


@cache
def languages() -> dict[str, Language]:
    """Return the languages that are known, by their short names."""
    data = tomllib.loads(files(__package__).joinpath("languages.toml").read_text(encoding="utf-8"))
    return {
        name: Language(
            name,
            _turned(parts.get("words", {})),
            _turned(parts.get("headers", {})),
            _turned(parts.get("endings", {})),
            _labels(parts.get("labels", {})),
        )
        for name, parts in data.items()
    }


def _labels(table: dict[str, list[str]]) -> tuple[tuple[str, str], ...]:
    """Return the labels of a language as patterns with their English; `b=` needs a sign before its number."""
    found = []
    for english, words in table.items():
        signed = "|".join(re.escape(word[:-1]) for word in words if word.endswith("="))
        others = "|".join(re.escape(word) for word in words if not word.endswith("="))
        either = [rf"(?:{signed})\s?[.=:]\s?"] if signed else []
        either += [rf"(?:{others})(?:\s?[.=:]\s?|\s)"] if others else []
        pattern = rf"(?<![\w./'’-])(?:{'|'.join(either)})(?=(?:[øØ] ?)?\d)"
        found.append((pattern, f"{english} "))
    return tuple(found)


@cache
def stems() -> tuple[tuple[str, str], ...]:
    """Return beginnings of words that change a line in any language, the longest first, and their English."""
    data = tomllib.loads(files(__package__).joinpath("stems.toml").read_text(encoding="utf-8"))
    pairs = ((folded(stem), english) for english, found in data.items() for stem in found)
    return tuple(sorted(pairs, key=lambda pair: -len(pair[0])))


@cache
def _shared() -> frozenset[str]:
    """Return words that several languages share, or English has too: they tell no language."""
    text = files(__package__).joinpath("shared.txt").read_text(encoding="utf-8")
    return frozenset(word for line in text.splitlines() if not line.startswith("#") for word in line.split())


@dataclass(frozen=True, slots=True)
class ChangingWords:
    """Words of all languages that change a part or call it off: phrases, what they begin with, and stems.

    `begin_stems` are the stems alone: whether a word begins like any of them is one question.
    """

    phrases: dict[str, str]
    begin: frozenset[str]
    stems: tuple[tuple[str, str], ...]
    begin_stems: tuple[str, ...]


@cache
def changing() -> ChangingWords:
    """Return what is read in any language, whatever that of a file is, as `changing.txt` lists it.

    A word that two languages mean differently is left out, and so are short ones.
    """
    text = files(__package__).joinpath("changing.txt").read_text(encoding="utf-8")
    meanings, _, known = text.partition("\nmeans\n")[2].partition("\nnot\n")
    means = {one.strip() for line in meanings.splitlines() for one in line.split(";")}
    english = {*known.split(), *_shared(), *harmless()}
    found: dict[str, set[str]] = {}
    for language in languages().values():
        for phrase, meaning in language.words.items():
            found.setdefault(phrase, set()).add(meaning)
    phrases = {
        phrase: min(meaning)
        for phrase, meaning in found.items()
        if len(meaning) == 1
        and meaning <= means
        and phrase not in english
        and (len(phrase) >= _SHORTEST or CJK.search(phrase))
    }
    begin = frozenset(word for phrase in phrases for word in WORD.findall(phrase)[:1])
    kept = tuple((stem, meaning) for stem, meaning in stems() if meaning in means and stem not in english)
    return ChangingWords(phrases, begin, kept, tuple(stem for stem, _ in kept))


def _turned(table: dict[str, list[str]]) -> dict[str, str]:
    found: dict[str, str] = {}
    for english, words in table.items():
        for word in words:
            plain = " ".join(folded(word).split())
            found.setdefault(plain, english)
            for written, umlaut in (("ae", "ä"), ("oe", "ö"), ("ue", "ü")):
                if umlaut in word:
                    found.setdefault(folded(word.replace(umlaut, written)), english)
    return found


def language_of(texts: Iterable[str]) -> Language | None:
    """Return the language of a file's texts; None for English and for any that is not known."""
    words: set[str] = set()
    chinese = False
    for text in texts:
        plain = folded(text)
        chinese = chinese or CJK.search(text) is not None
        words.add(plain.strip())
        found = WORD.findall(plain)
        words.update(found)
        words.update(" ".join(pair) for pair in pairwise(found))
    english = sum(len(word) > _SHORT and word.isalpha() for word in words & harmless())
    words -= _shared() | harmless()
    if chinese:
        return languages()["zh"]
    best: tuple[int, Language | None] = (_FEWEST - 1, None)
    for language in languages().values():
        count = sum(
            1 for word in words if language.words.get(word, word) != word or (word in language.headers)
        )
        if count > best[0]:
            best = (count, language)
    return None if english > _ENGLISH * best[0] else best[1]
