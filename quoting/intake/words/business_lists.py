"""The lists of `business.toml`: known matters of business, and what changes a part after all."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from quoting.intake.words.errands import errands
from quoting.intake.words.languages import changing, folded, stems

_STEM = 5
"""Letters of the shortest word whose ending is left open."""
INSIDE = 5
"""Letters from which a beginning of a word that changes a part is found inside a longer word too."""


@dataclass(frozen=True, slots=True)
class Matter:
    """A known business matter: its words, and how many others a clause about it may hold."""

    about: frozenset[str]
    begin: tuple[str, ...]
    joins: frozenset[str]
    stems: frozenset[str]
    """The words of `joins` and `about` without their last letters, for other endings of them."""
    about_stems: frozenset[str]
    unknown: int
    names: int

    @classmethod
    def of(cls, about: frozenset[str], joins: frozenset[str], begin: str, unknown: int, names: int) -> Matter:
        """Return a matter of these words."""
        stemmed = _stemmed(about)
        return cls(about, tuple(_words(begin)), joins, stemmed | _stemmed(joins), stemmed, unknown, names)

    def is_about(self, word: str) -> bool:
        """Return whether a word is one that the matter is about, with another ending too."""
        begins = bool(self.begin) and word.startswith(self.begin)
        return word in self.about or begins or has_stem(word, self.about_stems)


@dataclass(frozen=True, slots=True)
class Known:
    """The lists of `business.toml`, and with them what is read in any language as a change of a part."""

    matters: dict[str, Matter]
    changes: frozenset[str]
    begin: tuple[str, ...]
    inside: tuple[str, ...]
    work: frozenset[str]
    working: tuple[str, ...]
    others: frozenset[str]
    other_stems: frozenset[str]
    roller: frozenset[str]
    joins: frozenset[str]
    parts: frozenset[str]
    units: frozenset[str]
    unit_stems: frozenset[str]
    refs: frozenset[str]
    negations: frozenset[str]
    han: re.Pattern[str]
    somebody: re.Pattern[str]
    included: re.Pattern[str]
    before_days: str


def _stemmed(words: frozenset[str]) -> frozenset[str]:
    """Return the words without their last two letters, of six letters or more."""
    return frozenset(word[: max(_STEM, len(word) - 2)] for word in words if len(word) > _STEM)


def has_stem(word: str, stems: frozenset[str]) -> bool:
    """Return whether a word is one of these with another ending: faktury, fakturą."""
    return any(word[:length] in stems for length in range(max(_STEM, len(word) - 4), len(word) + 1))


def _words(text: str) -> frozenset[str]:
    return frozenset(folded(word) for word in text.split())


@cache
def known_words() -> Known:
    """Return the lists, read once."""
    data = tomllib.loads(files(__package__).joinpath("business.toml").read_text(encoding="utf-8"))
    about, joins = errands()
    han = data["han"]
    matters = {
        name: Matter.of(
            _words(f"{one['about']} {han.get(name, '')}"),
            _words(one["joins"]),
            one.get("begin", ""),
            one["unknown"],
            one["names"],
        )
        for name, one in data["matter"].items()
    }
    matters["errand"] = Matter.of(about, joins, "", 0, 1)
    begin = (*_words(data["change"]), *(stem for stem, means in stems() if means not in _NO_CHANGE))
    signs = sorted(_words(han["words"]), key=len, reverse=True)
    return Known(
        matters,
        _words(data["changes"]) | _calling_off(),
        begin,
        tuple(one for one in begin if len(one) >= INSIDE),
        _words(f"{data['work']} {han['work']}"),
        tuple(_words(data["working"])),
        _words(f"{data['others']} {han['others']}"),
        _stemmed(_words(data["others"])),
        _words(f"{data['roller']} {han['roller']}"),
        _words(f"{data['joins']} {han['words']}") | joins,
        _words(data["parts"]),
        _words(data["units"]),
        _stemmed(_words(data["units"])),
        _words(data["refs"]) | frozenset().union(*(matters[name].about for name in NAMES_A_PAPER)),
        _words(data["negations"]),
        re.compile("|".join(signs)),
        re.compile(rf"(?<!\w)(?:{_either(data['somebody'])})|\bto [A-Z]\w+$", re.I),
        re.compile(rf"(?<!\w)(?:{_either(data['included'])})(?=\s)", re.I),
        _either(data["before_days"]),
    )


def _either(lines: str) -> str:
    """Return a pattern of words, one or more of each parted by a semicolon; a star stands for any ending."""
    words = (" ".join(word.split()) for word in lines.split(";"))
    return "|".join(re.escape(word).replace(r"\*", r"\w*") + r"(?!\w)" for word in words if word)


NAMES_A_PAPER = ("quote", "ref", "place")
_NO_CHANGE = ("active", "acceptable", "painted", "galvanized", "blasted", "per drawing")


def _calling_off() -> frozenset[str]:
    """Return the single words of all languages that call a line off, or say whose the plate is."""
    known = changing().phrases
    return frozenset(word for word, means in known.items() if means in _STOPS and " " not in word)


_STOPS = ("cancelled", "hold", "on hold", "do not quote", "do not roll", "already supplied", "free issue",
          "plate by customer", "not required", "tbc", "to be confirmed", "half shell", "halves")  # fmt: skip
