"""What a roll can do, as a picture and a table; and what the shop's own readings say about its settings."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from pathlib import Path

from quoting.books import OutputFolder
from quoting.commands.chart_formulas import formula_words, formulas_csv
from quoting.commands.machine_readings import read_readings
from quoting.core import MM_PER_INCH, Doing, InputError, Place, format_length, safe_name
from quoting.drawings import chart_words, draw_chart
from quoting.forming import Calibration, CapabilityTable, calibrate, capability_table
from quoting.shop import Roll, Shop, find_material, load_shop

Say = Callable[[str], None]


def chart_job(
    shop_dir: Path, roll_name: str, material_name: str, out_dir: Path, *, force: bool, say: Say
) -> int:
    """Write the capability chart of a roll for a material: a PNG and a CSV table; return the exit code."""
    shop = load_shop(shop_dir)
    roll = _roll(shop, roll_name)
    material = find_material(material_name, shop.materials)
    if material is None:
        raise InputError(
            "no grade of this name in the shop's book",
            place=Place(str(shop_dir)),
            read=material_name,
            would_do="use a grade or a name of one that stands in the book",
        )
    say(Doing(f"solving what {roll.name} does with {material.key}"))
    tables = [capability_table(roll, material, shop.passes, pre_bend=pre_bend) for pre_bend in (True, False)]
    name = f"capability-{safe_name(roll.name)}-{safe_name(material.key)}"
    made = OutputFolder(out_dir, force=force).write(
        {
            f"{name}.png": lambda path: draw_chart(tables, path, inch=shop.inch),
            f"{name}.csv": lambda path: _write_text(
                path, _as_csv(tables, shop.inch) + formulas_csv(roll, material, shop)
            ),
        }
    )
    told = [*chart_words(tables, inch=shop.inch), *formula_words(roll, material, shop)]
    print("\n".join([*told, *(f"wrote {path}" for path in made)]))
    return 0


def calibrate_job(readings_path: Path, shop_dir: Path) -> int:
    """Print what the recorded rolls propose for each roll; no setting is changed. Return the exit code."""
    shop = load_shop(shop_dir)
    readings = read_readings(readings_path, shop)
    for warning in readings.warnings:
        print(f"left out: {warning}")
    if not readings.records:
        raise InputError("no row could be used", place=Place(readings_path.name))
    for name, records in readings.records.items():
        found = calibrate(records, shop.roll(name), shop.passes.flat_after_pre_bend_t)
        print(proposal(name, found, shop))
    return 1 if readings.warnings else 0


def proposal(roll: str, found: Calibration, shop: Shop) -> str:
    """Return the proposal in words: new settings, how sure, on how many readings, errors before and after."""
    zero = found.readout_zero_mm
    if more := found.more_readings:
        needed = f"{more} more {'is' if more == 1 else 'are'} needed"
        return (
            f"{roll}: {_many(len(found.readings), 'reading')}, {zero.readings} counting; {needed}, "
            "of other thickness and diameter, before its readout zero or a yield is told."
        )
    rows = [
        f"{roll}, from {zero.readings} readings that count of {len(found.readings)}:",
        f"  error of the diameter {found.before_percent:.1f} % before, {found.after_percent:.1f} % after",
        f"  readout_zero: {_length(shop, zero.value)} +/- {_length(shop, zero.error)}"
        f" (now {_length(shop, shop.roll(roll).readout_zero_mm)})",
    ]
    for key, value in found.yields_mpa.items():
        now = shop.material(key).yield_likely_mpa
        sure = f"{value.value:.0f} +/- {value.error:.0f} MPa on {value.readings} readings"
        if more := found.more_for(key):
            sure = f"not told yet by {_many(value.readings, 'reading')}, about {more} more needed"
        rows.append(f"  {key} likely yield: {sure} (now {now:.0f})")
    aside = [reading.record.where for reading in found.readings if reading.weight == 0]
    if aside:
        rows.append("  set aside as not fitting the others: " + ", ".join(aside))
    rows += [f"  {note}" for note in found.notes]
    rows.append("  Nothing was changed: put what convinces you into shop.toml.")
    return "\n".join(rows)


def _many(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _length(shop: Shop, mm: float) -> str:
    return f"{mm / MM_PER_INCH:.3f} in" if shop.inch else f"{mm:.2f} mm"


def _roll(shop: Shop, name: str) -> Roll:
    for roll in shop.rolls:
        if roll.name == name:
            return roll
    raise InputError(
        "no roll of this name in the shop's book",
        read=name,
        would_do="use one of " + ", ".join(roll.name for roll in shop.rolls),
    )


def _as_csv(tables: list[CapabilityTable], inch: bool) -> str:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    for table in tables:
        ends = "both ends pre-bent" if table.pre_bend else "rolled only"
        writer.writerow([f"{table.roll}, {table.material}, {ends}: largest thickness"])
        writer.writerow(["inside diameter \\ width", *(format_length(w, inch=inch) for w in table.widths_mm)])
        for diameter, row in zip(table.diameters_mm, table.thickness_mm, strict=True):
            cells = ["" if t is None else f"{t / MM_PER_INCH:.3f}" if inch else f"{t:.1f}" for t in row]
            writer.writerow([format_length(diameter, inch=inch), *cells])
        writer.writerow([])
    return text.getvalue()


def _write_text(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")
