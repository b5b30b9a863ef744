"""The shop's grades: the table beside the code, with what `shop.toml` changes, adds and pays."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from functools import lru_cache
from statistics import median
from typing import Any

from quoting.shop.book.settings_table import SettingsTable
from quoting.shop.findings import Findings, Rule, did_you_mean
from quoting.shop.grades import GAUGE_TABLES, GradeNames, plain_name, published_grades, usual_grades
from quoting.shop.model import Family, Material
from quoting.shop.quantities import DENSITY, KG_PER_POUND, MONEY_PER_WEIGHT, STRESS

PRICE_TABLES = {
    "price_per_lb": Decimal(str(KG_PER_POUND)),
    "price_per_kg": Decimal(1),
    "price_per_cwt": 100 * Decimal(str(KG_PER_POUND)),
}
"""Kilograms in the unit of each price table."""

ODD_TIMES = Decimal(2)
"""A price this many times the usual, or this part of it, is asked about: a pound for a kilogram is 2.2 times.
An example; no source."""
_OPTIONAL = ("strength", "hardening")


def read_materials(
    own: Sequence[SettingsTable], prices: Iterable[SettingsTable], empty: SettingsTable
) -> tuple[Material, ...]:
    """Return every grade: `own` are the `[[material]]` tables, `prices` the price tables.

    `empty` is a table without settings, for what is wrong with several of them.
    """
    published = published_grades()
    tables = {str(table.own.get("key", "")): table for table in own}
    if len(tables) < len(own):
        own[-1].flawed("two [[material]] tables with one key, or one without", "give each its own key")
    keys = tuple(dict.fromkeys((*published, *tables)))
    price = _prices(prices, keys, _names(keys, tables, published))
    read: list[Material] = []
    usual = usual_grades()
    taken = {plain_name(name): key for key in tables for name in (key, *_plain_texts(tables, key))}
    for key in keys:
        if key not in usual and taken.get(plain_name(key), key) != key:
            continue  # the shop calls another grade so
        row = _left_to(key, published.get(key, {}), taken, usual)
        table = tables.get(key)
        if table is None:
            read.append(_as_published(key, tuple(row["names"]), price.get(key, Decimal(0))))
            continue
        table.fallback = row
        material = _read_material(table, price.get(key, Decimal(0)))
        if material:
            read.append(material)
    _refuse_shared_names(read, empty)
    return tuple(read)


@lru_cache(maxsize=2_000)
def _as_published(key: str, names: tuple[str, ...], price_per_kg: Decimal) -> Material:
    """Return a grade that the shop leaves as it is, by these names and at this price; kept, since every
    reading of a book has the same ninety.
    """
    table = SettingsTable({}, label=f'grade "{key}"', path="", findings=Findings("the grades"), lines={})
    table.fallback = {**published_grades()[key], "names": list(names)}
    material = _read_material(table, price_per_kg)
    table.findings.raise_if_any()
    assert material is not None
    return material


def _left_to(
    key: str, row: Mapping[str, Any], taken: Mapping[str, str], usual: Sequence[str]
) -> Mapping[str, Any]:
    """Return a published grade without the names that the shop's own tables give to another grade.

    The usual grades keep theirs: there a name given twice is a mistake, and told.
    """
    if key in usual:
        return row
    names = [name for name in row.get("names", ()) if taken.get(plain_name(name), key) == key]
    return {**row, "names": names} if row else row


def _read_material(table: SettingsTable, price_per_kg: Decimal) -> Material | None:
    names = tuple(dict.fromkeys((*table.texts("names"), *table.fallback.get("names", ()))))
    strength = table.optional_quantity("strength", STRESS, positive=True)
    hardening = table.number("hardening", least=0.0, most=1.0) if _given(table, "hardening") else None
    gauge_table = table.text("gauge_table", default="steel")
    table.note(Rule("choice", words=tuple(GAUGE_TABLES)), "gauge_table")
    if gauge_table not in GAUGE_TABLES:
        table.wrong("gauge_table", f"must be one of {', '.join(map(repr, GAUGE_TABLES))}")
    if table.has(*MONEY_PER_WEIGHT.keys("price")):
        price_per_kg = table.money_per("price", MONEY_PER_WEIGHT)
    table.known.extend((*MONEY_PER_WEIGHT.keys("price"), *_OPTIONAL))
    material = Material(
        key=table.text("key"),
        family=table.choice("family", Family),
        names=names,
        density_kg_m3=table.quantity("density", DENSITY, positive=True),
        elastic_mpa=table.quantity("elastic", STRESS, positive=True),
        poisson=table.number("poisson", least=0.0, most=0.49),
        yield_low_mpa=table.quantity("yield_low", STRESS, positive=True),
        yield_likely_mpa=table.quantity("yield_likely", STRESS, positive=True),
        yield_high_mpa=table.quantity("yield_high", STRESS, positive=True),
        tensile_mpa=table.quantity("tensile", STRESS, positive=True),
        strength_mpa=strength,
        hardening=hardening,
        least_bend_radius_t=table.number("least_bend_radius_t", least=0.0),
        strain_flag_percent=table.number("strain_flag_percent", least=0.0),
        grain_matters=table.flag("grain_matters", default=False),
        gauge_table=gauge_table,
        price_per_kg=price_per_kg,
        source=table.text("source", default="the shop's book"),
    )
    table.close()
    if table.sound and not (material.yield_low_mpa <= material.yield_likely_mpa <= material.yield_high_mpa):
        table.flawed("the yield must not fall from low over likely to high", "give all three")
    return material if table.sound else None


def odd_prices(materials: Iterable[Material], usual: Mapping[str, Mapping[str, Decimal]]) -> tuple[str, ...]:
    """Return a question for each price far from the example's, as the shop's other prices go.

    `usual` are the starter book's price tables. All prices in another currency or of another year are no
    question: a price is odd when it is `ODD_TIMES` times as far off as the middle one. Of one or two prices
    there is no middle: they are held against the example itself.
    """
    example = {
        grade: Decimal(price) / PRICE_TABLES[name]
        for name, table in usual.items()
        for grade, price in table.items()
    }
    ratios = {
        one.key: one.price_per_kg / example[one.key]
        for one in materials
        if example.get(one.key) and one.price_per_kg
    }
    middle = median(ratios.values()) if len(ratios) > 2 else Decimal(1)
    return tuple(
        f"the price of {grade} is {ratio / middle:.3g} times the usual against the other grades: is "
        "it per lb, per kg or per cwt?"
        for grade, ratio in ratios.items()
        if not 1 / ODD_TIMES <= ratio / middle <= ODD_TIMES
    )


def _given(table: SettingsTable, key: str) -> bool:
    return table.has(key) or key in table.fallback


def _names(
    keys: Iterable[str], tables: Mapping[str, SettingsTable], published: Mapping[str, Mapping[str, Any]]
) -> GradeNames:
    """Return all names of all grades: those of the shop's own tables and those beside the code."""
    return GradeNames(
        (key, [*_plain_texts(tables, key), *published.get(key, {}).get("names", ())]) for key in keys
    )


def _plain_texts(tables: Mapping[str, SettingsTable], key: str) -> list[str]:
    """Return the names that an own table gives; what is wrong with them is told when the grade is read."""
    given = tables[key].own.get("names", ()) if key in tables else ()
    return [name for name in given if isinstance(name, str)] if isinstance(given, list) else []


def _prices(tables: Iterable[SettingsTable], keys: Sequence[str], names: GradeNames) -> dict[str, Decimal]:
    """Return the price per kg by the grade's key; a price may stand under any name that the grade goes by."""
    prices: dict[str, Decimal] = {}
    for table in tables:
        kg_per_unit = PRICE_TABLES[table.path]
        for name in table.own:
            key = name if name in keys else names.one(name)
            if not key:
                hint = did_you_mean(name, keys) or "add the grade as [[material]] first"
                table.findings.problem(table.where(name), "is no grade of this shop", would_do=hint)
            elif key in prices:
                table.wrong(name, f"is a second price for {key}", "keep one of them")
            else:
                prices[key] = (table.money(name) / kg_per_unit).quantize(Decimal("0.000001"))
    return prices


def _refuse_shared_names(materials: Sequence[Material], table: SettingsTable) -> None:
    owner: dict[str, str] = {}
    for material in materials:
        for name in (material.key, *material.names):
            first = owner.setdefault(plain_name(name), material.key)
            if first != material.key:
                table.findings.problem(
                    f'{table.findings.file}, [[material]] "{material.key}"',
                    f'the name "{name}" belongs to {first} already',
                    would_do="give it to one grade only",
                )
