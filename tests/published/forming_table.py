"""Print the table of published checks of the forming room: `python -m tests.published.forming_table`."""

from __future__ import annotations

import sys

from tests.published import (
    test_beam_tables,
    test_beer_johnston_plastic_bending,
    test_din_6935_bend_allowance,
    test_hearn_shape_factor,
    test_kalpakjian_springback,
    test_plastic_hinge_at_the_top_roll,
    test_power_law_bending,
    test_springback_simulator,
    test_vessel_code_strain,
)
from tests.published.forming_check import PublishedCheck

MODULES: tuple[tuple[str, tuple[PublishedCheck, ...]], ...] = tuple(
    (module.SOURCE, module.CHECKS)
    for module in (
        test_springback_simulator,
        test_kalpakjian_springback,
        test_beer_johnston_plastic_bending,
        test_hearn_shape_factor,
        test_power_law_bending,
        test_plastic_hinge_at_the_top_roll,
        test_vessel_code_strain,
        test_din_6935_bend_allowance,
        test_beam_tables,
    )
)


def table() -> str:
    """Return the table as Markdown: what a source prints and what was worked out stand apart."""
    rows = ["| source | value | printed | worked out | got | unit |", "|---|---|---|---|---|---|"]
    for source, checks in MODULES:
        for check in checks:
            mark = " (from memory)" if check.from_memory else ""
            expected = f"{check.expected:.5g}{mark}"
            printed, worked_out = ("", expected) if check.worked_out else (expected, "")
            cells = (source, check.what, printed, worked_out, f"{check.got():.5g}", check.unit)
            rows.append(f"| {' | '.join(cells)} |")
    return "\n".join(rows)


if __name__ == "__main__":
    sys.stdout.write(table() + "\n")
