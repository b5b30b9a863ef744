"""Coverage-guided fuzzing of what reads single texts: atheris changes a text by what the last one reached.

python -m tests.benchmarks.hostile.fuzz sizes|dates|quantities|toml [--seconds 120] [--seed 1]

Needs `pip install atheris`, which is no dependency of the project. Each text must end in a value of its kind
or in the error of its kind; anything else, and one that takes over five seconds, ends the run with the text.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import Any

MOST_SECONDS = 5
SEEDS = {
    "sizes": (
        "1-1/2",
        '48" OD x 1/4',
        "3'-6 1/2\"",
        "12,5 mm",
        "Ø 1.234,5",
        "20 GA",
        "2 x 4",
        "5/8 +1/16 -0",
    ),
    "dates": ("2026-12-04", "4 Dec 26", "12/31/2026", "next Friday", "KW 49", "ASAP", "31.12.26", "46000"),
    "quantities": ("2", "2 ea", "1,000 pcs", "1 set of 4", "two", "12-14", "1e9", "3 + 1 spare"),
    "toml": (
        '[shop]\nname = "x"\n',
        "[[pin]]\nline = 'A-1'\n",
        "a.b = [1, {c = 2026-12-04}]\n",
        "x = 1e308\n",
    ),
}


def use_size(text: str) -> None:
    """Parse sizes in every style of numbers; what is found lies in the text and is no nonsense."""
    from quoting.core import NumberStyle, SizeError, parse_measures  # noqa: PLC0415 - under atheris

    for style in NumberStyle:
        try:
            for size in parse_measures(text, style):
                if not (0 <= size.low <= size.high < 1e9 and 0 <= size.start <= size.end <= len(text)):
                    raise AssertionError(f"{size}")
        except SizeError as error:
            if not 0 <= error.start <= error.end <= len(error.text):
                raise AssertionError("error outside the text") from error


def use_date(text: str) -> None:
    """Read a cell as a date, under two headings and both orders; a day found is near today."""
    from datetime import date  # noqa: PLC0415

    from quoting.intake.texts import date_of  # noqa: PLC0415

    for header in ("Due", "Week"):
        for day_first in (False, True):
            found = date_of(text, today=date(2026, 11, 30), header=header, day_first=day_first)
            if found.value is not None and not 2000 <= found.value.year <= 2099:
                raise AssertionError(f"{found}")


def use_quantity(text: str) -> None:
    """Read a cell as a count of parts; a count found is one that can be ordered."""
    from quoting.intake.texts import LARGEST_COUNT, count_of  # noqa: PLC0415

    found = count_of(text)
    for number in (found.number, *found.breaks, *found.options):
        if number is not None and not 0 <= number <= LARGEST_COUNT:
            raise AssertionError(f"{found}")


def use_toml(text: str) -> None:
    """Read a text of settings, as the shop's book and as wishes."""
    from quoting.core import InputError, Place, RollwrightError  # noqa: PLC0415
    from quoting.shop.book.read_book import read_book  # noqa: PLC0415
    from quoting.tables import toml_data  # noqa: PLC0415

    try:
        toml_data(text, Place("x"))
    except InputError:
        return
    with suppress(RollwrightError):
        read_book(text, "x")


USES: dict[str, Callable[[str], None]] = {
    "sizes": use_size,
    "dates": use_date,
    "quantities": use_quantity,
    "toml": use_toml,
}


def main() -> None:
    """Fuzz one kind of text for so many seconds."""
    atheris: Any = import_module("atheris")
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("kind", choices=USES)
    parser.add_argument("--seconds", type=int, default=120)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    use = USES[options.kind]
    with atheris.instrument_imports(include=["quoting", "tomllib"]):
        use(SEEDS[options.kind][0])

    def one(data: bytes) -> None:
        start = time.process_time()
        use(data.decode("utf-8", "replace"))
        if time.process_time() - start > MOST_SECONDS:
            raise AssertionError("slow")

    folder = Path(tempfile.mkdtemp(prefix="fuzz-"))
    for number, text in enumerate(SEEDS[options.kind]):
        (folder / str(number)).write_text(text, encoding="utf-8")
    limits = [f"-max_total_time={options.seconds}", f"-seed={options.seed}", "-max_len=400"]
    atheris.Setup([sys.argv[0], *limits, f"-artifact_prefix={folder}/", str(folder)], one)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
