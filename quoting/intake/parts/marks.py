"""The words and letters that say what a number of a part measures, in the languages of order sheets."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files

_SAME = {
    **dict.fromkeys("’‘′ʹ´`", "'"),
    **dict.fromkeys("“”″„ʺ", '"'),
    **dict.fromkeys("‐‑‒–—−", "-"),
    **dict.fromkeys("×✕✖хХ", "x"),
    **dict.fromkeys("⁄∕", "/"),
    **dict.fromkeys("⌀∅ΦφøØфФ", "ø"),
    **dict.fromkeys("º˚", "°"),
    **dict.fromkeys("，、；", ";"),
    **dict.fromkeys("\u00a0\u202f\u2007\u2009\u3000\t", " "),
    "：": ":", "（": "(", "）": ")", "＝": "=", "ł": "l", "Ł": "l", "ı": "i", "İ": "i", "đ": "d",
}  # fmt: skip


def plain_signs(text: str) -> str:
    """Return a text of the same length with plain signs, small letters and no accents.

    >>> plain_signs("Épaisseur 5′ × Ł")
    "epaisseur 5' x l"
    """
    plain = "".join(map(_plain_sign, text))
    return _COMMA_OF_CHINESE.sub(";", plain) if "," in plain and _CJK.search(plain) else plain


_CJK = re.compile("[\u4e00-\u9fff]")
_COMMA_OF_CHINESE = re.compile(
    r"(?<=[\u4e00-\u9fff]),|,(?=[\u4e00-\u9fff]|\d{1,3}\s?[件个台套只块片张节根支])"
)
"""Between words, or before a count: 长2000,6件."""


@cache
def _plain_sign(sign: str) -> str:
    if sign in _SAME:
        return _SAME[sign]
    small = unicodedata.normalize("NFD", sign)[0].lower()
    return small if len(small) == 1 else sign


@dataclass(frozen=True, slots=True)
class Sense:
    """What a mark says: the field it names (or none), the side of the plate, the end of a cone.

    `place` tells on which side of its number the mark stands as a rule, before or behind; `weak` that it may
    be a plain word of the sentence.
    """

    field: str = ""
    side: str = ""
    end: str = ""
    place: str = ""
    weak: bool = False


@cache
def _lexicon() -> dict[str, tuple[Sense, ...]]:
    """Return the marks in plain signs with what each may mean, from `marks.toml` beside this module."""
    table = tomllib.loads(files(__package__).joinpath("marks.toml").read_text(encoding="utf-8"))
    found: dict[str, tuple[Sense, ...]] = {}
    for entry in table["mark"]:
        meaning = Sense(**{name: value for name, value in entry.items() if name != "words"})
        for word in dict.fromkeys(plain_signs(word).strip(".") for word in entry["words"]):
            found[word] = (*found.get(word, ()), meaning)
    return found


def mark_at(text: str, at: int) -> re.Match[str] | None:
    """Return the longest mark that begins here in a text in plain signs.

    >>> mark_at("id 1200", 0).group(), mark_at("idle", 0)
    ('id', None)
    """
    pattern = _patterns().get(text[at])
    return None if pattern is None else pattern.match(text, at)


@cache
def _patterns() -> dict[str, re.Pattern[str]]:
    """Return the pattern of the marks that begin with each sign: of one for all every mark would be tried."""
    by_sign: dict[str, list[str]] = {}
    for word in sorted(_lexicon(), key=len, reverse=True):
        by_sign.setdefault(word[0], []).append(word)
    return {sign: _pattern(words) for sign, words in by_sign.items()}


def _pattern(words: list[str]) -> re.Pattern[str]:
    gap = "[ .-]{0,2}"
    spelled = {word: gap.join(map(re.escape, word.split(" "))) for word in words}
    signs = [spelled[word] for word in words if _CJK.search(word)]
    joined = "|".join(spelled[word] for word in words if not _CJK.search(word))
    ends = r"(?:(?![^\W\d_ø]|ø[^\W\d_])|(?=x\s?[\d.ø])|(?<=ø))(?:[12](?=\s?[=:]|\s\d{2}))?\.?"
    lettered = [rf"(?<![^\W\d_ø])(?<![^\W\d_]ø)(?:{joined}){ends}"] if joined else []
    return re.compile("|".join([*signs, *lettered]))


@cache
def meanings(text: str) -> tuple[Sense, ...]:
    """Return what a mark may mean."""
    return _by_letters()[_letters(text)]


_SHORTEST_PART, _SHORTEST_STEM, _LONGEST_ENDING, _LONG = 3, 5, 3, 7
_OTHER_WORDS = frozenset(("conc", "incl", "int", "ext", "max", "min"))
"""Beginnings of marks that stand for another word, or are marks themselves: conc. for concentric."""


@lru_cache(maxsize=8192)
def shortened(word: str) -> tuple[Sense, ...]:
    """Return what a word may mean that is the beginning of a mark with a point, or a mark with an ending,
    or a side and a mark in one.

    >>> [one.field for one in shortened("durchm.")], [one.field for one in shortened("srednicy")]
    (['D'], ['D'])
    >>> [(one.field, one.side) for one in shortened("ulkokeha")]
    [('U', 'outside')]
    """
    letters = word.rstrip(".")
    known = _by_letters()
    if word.endswith(".") and len(letters) >= _SHORTEST_PART and letters not in _OTHER_WORDS:
        for keys in (known, _single_words()):
            found = {known[key] for key in keys if key.startswith(letters)}
            if len({(one.field, one.side, one.end) for means in found for one in means}) == 1:
                return next(iter(found))
    if joined := _side_and_mark(letters):
        return joined
    stems = _by_stem()
    for end in range(len(letters) - 1, max(_SHORTEST_STEM, len(letters) - _LONGEST_ENDING) - 1, -1):
        if letters[:end] in stems:
            return stems[letters[:end]]
    return ()


def _side_and_mark(letters: str) -> tuple[Sense, ...]:
    """Return the meaning of a side and the name of a size written as one word: ulkokeha, innenumfang."""
    known = _by_letters()
    for at in range(_SHORTEST_PART, len(letters) - _SHORTEST_PART):
        sides = [one for one in known.get(letters[:at], ()) if one.side and not one.field]
        fields = [one for one in known.get(letters[at:], ()) if one.field in _ROUND and not one.side]
        if sides and fields:
            return (Sense(fields[0].field, sides[0].side),)
    return ()


_ROUND = ("D", "R", "U", "C", "G", "B")


@cache
def _single_words() -> tuple[str, ...]:
    """Return the marks that are one word, which a beginning with a point rather stands for."""
    return tuple(_letters(word) for word in _lexicon() if not set(word) & set(" -./ø"))


@cache
def _by_stem() -> dict[str, tuple[Sense, ...]]:
    """Return the marks by their letters, long ones without the last too: srednica as srednic."""
    known = _by_letters()
    cut = {letters[:-1]: means for letters, means in known.items() if len(letters) >= _LONG}
    return cut | known


@cache
def _by_letters() -> dict[str, tuple[Sense, ...]]:
    found: dict[str, tuple[Sense, ...]] = {}
    for word, means in _lexicon().items():
        found[_letters(word)] = tuple(dict.fromkeys((*found.get(_letters(word), ()), *means)))
    return found


def _letters(text: str) -> str:
    return re.sub(r"[ .-]|[12]$", "", text)
