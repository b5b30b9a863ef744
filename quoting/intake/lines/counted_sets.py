"""Multiplies the pieces of one set by the sets that are ordered, where the sheet says both."""

from __future__ import annotations

import re

from quoting.core import Choice
from quoting.intake.layout import SheetRules
from quoting.intake.row_record import Doubt, Record
from quoting.intake.texts import LARGEST_COUNT

_OTHERWISE = re.compile(
    r"\b(only (for|on|in)|total|in all|for (all|both)|spares?|one (tank|vessel|set|unit))\b"
    r"|\b(tank|vessel|set|unit|silo|module|skid|stack)s?\b[^;]*\bonly\b",
    re.I,
)


def by_sets(record: Record, said: SheetRules, *, asked: bool) -> None:
    """Set the quantity of a row for all sets, and say how; ask where columns, notes or the row disagree.

    `asked` tells that a question about all lines asks for the sets already.
    """
    values = record.values
    settled = _pieces_of_sets(record, said)
    one, total, sets = values.get("per_unit"), values.get("quantity"), said.sets
    if settled or "quantity" in record.doubts:
        return
    if units := values.get("units"):
        in_all = _IN_ALL.search(record.where("quantity")[0].header)
        if total and not one and int(units) > 1 and not in_all:
            _ask(record, total, str(int(total) * int(units)), f"{total} pieces and {units} units")
        if total and one and int(one) * int(units) != int(total):
            what = f"{one} per unit, {total} in all, and {units} units"
            _ask(record, total, str(int(one) * int(units)), what)
        return
    if one and total:
        if sets and int(one) * sets != int(total):
            _ask(record, total, str(int(one) * sets), f"{one} per unit, {total} in all, and {sets} units")
        return
    count = one or (total if said.per_set else "")
    if total and not count and sets > 1 and said.in_all:
        record.assumptions.append(f"quantity {total} is for all {sets} units, as the sheet says")
    if total and not one and said.per_set and not sets and not asked:
        place, read = record.where("quantity")
        per = "The sheet counts the pieces for one set or unit"
        text = f"{per}, {total} here: how many units, or pieces in all?"
        record.doubt(Doubt("quantity", place, read, text))
        return
    if not count or not sets or int(count) * sets > LARGEST_COUNT:
        return
    if sets > 1 and any(_OTHERWISE.search(row.text) for row in record.texts):
        _ask(record, count, str(int(count) * sets), f"{count} per unit, {sets} units")
        return
    values["quantity"] = str(int(count) * sets)
    record.assumptions.append(
        f"quantity {values['quantity']}: {count} per unit, {sets} units, as the sheet says"
    )


_IN_ALL = re.compile(r"\b(?:total|tot|all|ges\w*|razem|celkem|totaal|toplam)\b", re.I)


def _pieces_of_sets(record: Record, said: SheetRules) -> bool:
    """Take the pieces of one set from the sheet for a row that counts sets: 1 set = 2 halves, Sets 3.

    Return whether it did.
    """
    values, of_set = record.values, said.of_set
    sets = values.get("units", "")
    if not of_set or not sets.isdecimal() or values.get("quantity") or "quantity" in record.doubts:
        return False
    if not 0 < of_set * int(sets) <= LARGEST_COUNT:
        return False
    values["quantity"] = str(of_set * int(sets))
    record.assumptions.append(f"quantity {values['quantity']}: {sets} sets, {of_set} pieces each")
    if not said.set_of_halves:
        return True
    split = record.doubts.get("pieces_ok")
    if split is not None and not any(sign.isdecimal() for sign in split.read):
        del record.doubts["pieces_ok"]  # split in two: the halves that the sheet speaks of
    if not {"shape", "angle"} & {*values, *record.doubts}:
        values["shape"], values["half"] = "arc", "yes"
    return True


_COUNTED_IN = re.compile(
    r"\W*(?P<number>\d{1,4})?\s*(?P<unit>sets?|satz|sätze|jeux?|juegos?|pairs?|prs?|paare?|paires?|par(?:es)?)\W*",
    re.I,
)
_PAIR = re.compile(r"\W*(?:\d{1,4})?\s*(pairs?|prs?|paare?|paires?|pares?)\W*", re.I)
_PIECES_NAMED = (
    r"(?:half[- ]?|quarter[- ]?)?"
    r"(?:shells?|halves|halfs|pieces?|pcs?|segments?|segs?|sections?|plates?|rings?|sectors?|cans?)"
)
_OF_A_SET = re.compile(
    rf"\b(\d{{1,2}})\s*(?:x\s*)?(?:equal\s+)?{_PIECES_NAMED}"
    r"\s*(?:/|per|to (?:a|the|each)|each|in a|a)\s*(?:set|pair|pr)\b"
    rf"|\b(?:1|one|a|each|per|every)\s*(?:set|pair|pr)\s*(?:=|is|of|:|consists of|has)\s*(\d{{1,2}})\b"
    rf"|\b(?:set|sets)\s+of\s+(\d{{1,2}})\b",
    re.I,
)
_IN_ALL_PIECES = re.compile(
    rf"(?<![\d./-])(\d{{1,3}})\s*(?:sets?|pairs?|prs?)\s*(?:=|are|is|makes?|i\.e\.?|or|:)\s*(\d{{1,4}})\s*{_PIECES_NAMED}\b",
    re.I,
)
"""4 pairs = 8 halves: how many pieces that is in all, worked out by the customer."""
_ABOUT_SETS = ("quantity", "quantity_ok", "pieces_ok")


def by_pieces_of_a_set(record: Record) -> None:
    """Multiply a count of sets or pairs by the pieces of one, where the row says how many those are.

    Two pieces to a pair need the row to be of halves; a number goes before that.
    """
    doubt = record.doubts.get("quantity")
    sets = record.values.get("quantity", "")
    if doubt is None:
        return
    if sets.isdecimal() and _counted_in_pieces(record, doubt.read):
        del record.doubts["quantity"]
        record.assumptions.append(f'quantity {sets}: counted in "{doubt.read}", each is one piece')
        return
    counted = _COUNTED_IN.fullmatch(doubt.read)
    sets = (counted["number"] if counted else "") or sets
    if counted is None or not sets.isdecimal():
        return
    told = [match for row in record.texts for match in _OF_A_SET.finditer(row.text)]
    counts = {int(next(one for one in match.groups() if one)) for match in told}
    worked_out = [match for row in record.texts for match in _worked_out(row.text)]
    if any(match[1] != sets or int(match[2]) % int(sets) for match in worked_out):
        return
    counts |= {int(match[2]) // int(sets) for match in worked_out}
    halves = _of_halves(record)
    if not counts and halves and _PAIR.fullmatch(doubt.read):
        counts = {2}
    if len(counts) != 1 or not 1 < (one := counts.pop()) * int(sets) <= LARGEST_COUNT:
        return
    about = {row.text for row in record.texts if _OF_A_SET.search(row.text) or _worked_out(row.text)}
    for name in _ABOUT_SETS:
        if name in record.doubts and (name == "quantity" or record.doubts[name].read in about):
            del record.doubts[name]
    _parts_of_a_circle(record, about, one)
    record.values["quantity"] = str(one * int(sets))
    record.assumptions.append(
        f"quantity {one * int(sets)}: {sets} {counted['unit'].lower()}, {one} pieces each"
    )


def _parts_of_a_circle(record: Record, about: set[str], one: int) -> None:
    """Take the degrees of the pieces of a set where they are said with their count: 2 halves, 4 of 90 deg."""
    values = record.values
    found = {int(degrees) for text in about for degrees in _OF_DEGREES.findall(text)}
    if one == 2 and any(_HALVES.search(text) for text in about):
        found.add(180)
    if len(found) != 1 or values.get("angle") or values.get("shape") not in (None, "", "cylinder"):
        return
    if "angle" not in record.doubts or record.doubts["angle"].read in about:
        record.doubts.pop("angle", None)
        values["shape"], values["angle"] = "arc", str(found.pop())


_OF_DEGREES = re.compile(r"\b(?:of|at|x)\s*(\d{2,3})\s*(?:deg\w*|°)", re.I)
_HALVES = re.compile(r"\bhal(?:f|ves|fs)\b", re.I)
_HALF_UNIT = re.compile(
    r"\W*(?:hal(?:f|ves|fs)|half[- ]?(?:shells?|rings?|sleeves?|cans?|rounds?|pieces?))\W*", re.I
)
_ARC_UNIT = re.compile(r"\W*(?:seg(?:ment)?s?|sectors?|quarters?|thirds?|panels?|petals?|arcs?)\W*", re.I)
_FULL_DEG = 360


def _worked_out(text: str) -> list[re.Match[str]]:
    """Return where a text says how many pieces several sets are in all; one set tells what a set is."""
    return [match for match in _IN_ALL_PIECES.finditer(text) if int(match[1]) > 1]


def _of_halves(record: Record) -> bool:
    return any(_HALVES.search(row.text) for row in record.texts if not _worked_out(row.text))


def _counted_in_pieces(record: Record, unit: str) -> bool:
    """Return whether the word that pieces are counted in is what one of them is: 10 half, half sleeves."""
    angle = record.values.get("angle", "")
    if _HALF_UNIT.fullmatch(unit):
        return record.values.get("half") == "yes" or (angle in ("", "180") and _of_halves(record))
    return _ARC_UNIT.fullmatch(unit) is not None and bool(angle) and float(angle) < _FULL_DEG


def _ask(record: Record, one: str, other: str, what: str) -> None:
    place, read = record.where("quantity")
    choices = tuple(Choice(number, (("quantity", number),)) for number in dict.fromkeys((one, other)))
    record.doubt(Doubt("quantity", place, read, f"The sheet says {what}: how many pieces in all?", choices))
