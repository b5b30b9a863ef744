"""Finds in the source every sentence that a customer's paper can get, to ask whether a language has words.

Looked at are the calls that make such sentences: questions, choices, assumptions, reasons, what is said of a
route, and what the quote itself says. What a part of an f-string holds is not known: it may be anything.
"""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import quoting
from quoting.books.tongue import Tongue, UnsaidError

ROOT = Path(quoting.__file__).parent
HOLE = "\0"
"""Stands for the part of a sentence that is not known before it is made."""
MAKERS: Mapping[str, tuple[int | str, ...]] = {
    "Doubt": (3, "assumed"),
    "Question": (4, "assumed"),
    "Choice": (0,),
    "SheetAsk": (2,),
    "WayOut": (1,),
    "ask": (2,),
    "say": (0,),
    "put": (0,),
    "NotReadyError": (),
}
"""Names of calls, and which of their arguments a customer reads."""
WHOLE_RETURNS = {
    "estimating/route_words.py": ("ends_words", "pieces_words"),
    "estimating/judging/physical_limits.py": ("_too_short", "_too_gentle", "_crane", "_door", "_band_words"),
    "estimating/press_offer.py": ("press_offer",),
    "estimating/routes/attempts.py": ("why_no_plate",),
    "estimating/line_work.py": ("edge_words", "weld_words"),
    "intake/answers/take.py": ("_assumption",),
    "books/questions.py": ("checked_words",),
    "books/quote/terms.py": ("delivery_words", "_promised", "_rush", "_drops", "_freight"),
    "books/quote/notes.py": ("_springback", "_tolerances", "_polite"),
    "books/quote/content.py": ("change_words", "waiting_words"),
    "pricing/breaks.py": ("_note",),
}
"""Functions all of whose texts a customer reads."""
ROOMS = (
    "intake",
    "estimating",
    "books/quote",
    "books/reply.py",
    "books/questions.py",
    "forming/judging/ways_out.py",
)
_ASKS, _NOTES = 'The sheet says "{hole}": {text}?', '"{hole}": {text}'
_PHRASES = {
    "ask": (_ASKS,),
    "free": (_ASKS,),
    "soft": (_ASKS, _NOTES),
    "say": (_NOTES,),
    "work": (_NOTES,),
    "note": (_NOTES,),
}
"""How the text of a phrase is put before the customer, by what it does."""


@dataclass(frozen=True)
class Sentence:
    """A sentence with holes, and where it is made."""

    text: str
    where: str


def sentences() -> Iterator[Sentence]:
    """Yield all that is found."""
    for file in _files():
        tree = ast.parse(file.read_text("utf-8"))
        name = file.relative_to(ROOT).as_posix()
        whole = WHOLE_RETURNS.get(name, ())
        paper = name.startswith("books/")
        for function in [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]:
            known = _assigned(function)
            for node in ast.walk(function):
                for value in _said(node, paper=paper):
                    for text in _texts(value, known):
                        yield Sentence(text, f"{name}:{node.lineno}")  # type: ignore[attr-defined]
            if function.name in whole:
                for text in _whole(function):
                    yield Sentence(text, f"{name}:{function.lineno}")
    for rule in tomllib.loads((ROOT / "intake" / "words" / "phrases.toml").read_text("utf-8"))["rule"]:
        for shape in _PHRASES.get(rule["does"], ()):
            if text := rule.get("text"):
                yield Sentence(shape.format(hole=HOLE, text=text), f"phrases.toml: {rule['name']}")


def unsaid(tongue: Tongue, found: Iterable[Sentence] | None = None) -> list[Sentence]:
    """Return the sentences that no entry of a language fits."""
    catalogue = [_Entry.of(entry) for entry in tongue.entries]
    looked_at = sentences() if found is None else found
    return [one for one in looked_at if not _said_so(one.text, tongue) and not _fits(one.text, catalogue)]


def _said_so(text: str, tongue: Tongue) -> bool:
    """Return whether it can be said with any word in its holes."""
    try:
        tongue.say(text.replace(HOLE, "x"))
    except UnsaidError:
        return False
    return True


@dataclass(frozen=True)
class _Entry:
    """An entry with holes for its parts, as a pattern, and the words that stand in it."""

    text: str
    shape: re.Pattern[str]
    words: frozenset[str]

    @classmethod
    def of(cls, entry: str) -> _Entry:
        text = _plain(re.sub(r"\{[a-z]+\d?\}", HOLE, entry))
        words = frozenset(_WORD.findall(text))
        shape = "".join(".+" if part == HOLE else re.escape(part) for part in re.split(f"({HOLE})", text))
        return cls(text, re.compile(shape if words else "(?!)", re.DOTALL), words)


def _plain(text: str) -> str:
    return text.replace(f'"{HOLE}"', HOLE).strip()


_WORD = re.compile(r"[A-Za-z]{2,}")


def _fits(text: str, catalogue: list[_Entry]) -> bool:
    """Return whether an entry may say it: its holes take what is written here, or these what it says."""
    plain = _plain(text)
    words = set(_WORD.findall(plain))
    if not words or any(one.shape.fullmatch(plain) for one in catalogue):
        return True
    if HOLE in plain and any(words <= one.words and _meet(plain, one.text) for one in catalogue):
        return True
    parts = re.split(r"(?<=[.?!]) (?=[A-Z])", plain)
    return len(parts) > 1 and all(_fits(part, catalogue) for part in parts)


def _meet(one: str, other: str) -> bool:
    """Return whether two texts can be the same once their holes are filled, with nothing or with anything."""

    @cache
    def from_(i: int, j: int) -> bool:
        if i == len(one) or j == len(other):
            return not one[i:].replace(HOLE, "") and not other[j:].replace(HOLE, "")
        if one[i] == HOLE:
            return from_(i + 1, j) or from_(i, j + 1)
        if other[j] == HOLE:
            return from_(i, j + 1) or from_(i + 1, j)
        return one[i] == other[j] and from_(i + 1, j + 1)

    return from_(0, 0)


def _files() -> Iterator[Path]:
    for room in ROOMS:
        path = ROOT / room
        yield from sorted(path.rglob("*.py")) if path.is_dir() else [path]


def _assigned(function: ast.FunctionDef) -> dict[str, list[ast.expr]]:
    """Return what each name of a function is set to."""
    found: dict[str, list[ast.expr]] = {}
    for node in ast.walk(function):
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            found.setdefault(node.targets[0].id, []).append(node.value)
    return found


def _said(node: ast.AST, *, paper: bool) -> Iterator[ast.expr]:
    """Yield the expressions of a call that a customer reads."""
    if not isinstance(node, ast.Call):
        return
    called = node.func
    name = (
        called.id
        if isinstance(called, ast.Name)
        else called.attr
        if isinstance(called, ast.Attribute)
        else ""
    )
    if name == "append" and isinstance(called, ast.Attribute):
        held = called.value
        owner = (
            held.attr if isinstance(held, ast.Attribute) else held.id if isinstance(held, ast.Name) else ""
        )
        if owner == "assumptions":
            yield from node.args[:1]
        return
    if name in ("say", "put") and not paper:
        return  # progress of a command
    for which in MAKERS.get(name, ()):
        if isinstance(which, int):
            yield from node.args[which : which + 1]
    wanted = {which for which in MAKERS.get(name, ()) if isinstance(which, str)}
    yield from (keyword.value for keyword in node.keywords if keyword.arg in wanted)


def _texts(value: ast.expr, known: Mapping[str, list[ast.expr]], depth: int = 3) -> Iterator[str]:
    """Yield what an expression may be, as far as it is written out."""
    if isinstance(value, ast.Constant) and isinstance(value.value, str):
        yield value.value
    elif isinstance(value, ast.JoinedStr):
        yield "".join(str(part.value) if isinstance(part, ast.Constant) else HOLE for part in value.values)
    elif isinstance(value, ast.IfExp):
        yield from _texts(value.body, known, depth)
        yield from _texts(value.orelse, known, depth)
    elif isinstance(value, ast.Name) and depth:
        for one in known.get(value.id, ()):
            yield from _texts(one, known, depth - 1)


def _whole(function: ast.FunctionDef) -> Iterator[str]:
    """Yield every text that a function returns, yields or puts into a list."""
    for node in ast.walk(function):
        values: list[ast.expr | None] = []
        if isinstance(node, (ast.Return, ast.Yield)):
            values = [node.value]
        for value in values:
            options = value.elts if isinstance(value, (ast.List, ast.Tuple)) else [value]
            for option in options:
                if option is not None:
                    yield from _texts(option, _assigned(function))
