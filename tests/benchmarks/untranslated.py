"""Which sentences of customers' papers have no words in a language, over every order sheet of the tests.

`python -m tests.benchmarks.untranslated --json [--list]`: orders whose papers would all be English because of
one sentence, and those sentences, how often each.
"""

from __future__ import annotations

import argparse
import json
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

from quoting.books.quote import quote_letter, say_all
from quoting.books.reply import reply_text
from quoting.books.tongue import Tongue, UnsaidError, tongue_of
from quoting.core import InputError, Order
from quoting.estimating import Estimate, estimate
from quoting.intake.read_orders import read_orders
from quoting.shop import Shop, load_shop
from tests.data.sheet_model import TODAY
from tests.data.sheet_writer import CORPORA, corpus, write_sheet

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Listening(Tongue):
    """A tongue that says in English what it has no words for, and remembers it."""

    unsaid: list[str] = field(default_factory=list)

    def say(self, text: str) -> str:
        """Return the words, or the English ones."""
        try:
            return tongue_of(self.code).say(text)
        except UnsaidError as error:
            self.unsaid.append(str(error))
            return text

    def put(self, entry: str, **parts: str) -> str:
        """Return an entry with parts that are said already, or the English one."""
        try:
            return tongue_of(self.code).put(entry, **parts)
        except UnsaidError as error:
            self.unsaid.append(str(error))
            return entry.format_map(parts)


def orders(shop: Shop) -> Iterator[Order]:
    """Yield every order sheet of the tests and of the demo, as read."""
    files = [*sorted((ROOT / "tests" / "data" / "orders").iterdir()), *ROOT.glob("demo_orders/orders-*.xlsx")]
    with tempfile.TemporaryDirectory() as folder:
        files += [write_sheet(sheet, Path(folder)) for name in CORPORA for sheet in corpus(name)]
        for file in files:
            if file.suffix == ".json":
                continue
            try:
                yield read_orders(file, shop, today=TODAY)
            except InputError:
                continue


def unsaid(found: Estimate, language: str) -> list[list[str]]:
    """Return for each order what its quote, questions and mail could not say."""
    known = tongue_of(language)
    lists = []
    for order in found.orders:
        tongue = Listening(language, known.entries)
        say_all(replace(quote_letter(found, order, number=""), tongue=tongue))
        reply_text(found, order, "0", tongue)
        lists.append(tongue.unsaid)
    return lists


def counted(language: str) -> tuple[int, int, Counter[str]]:
    """Return orders, those with a sentence that cannot be said, and the sentences."""
    shop = load_shop(ROOT / "demo_orders" / "shop")
    whole, short, sentences = 0, 0, Counter[str]()
    for order in orders(shop):
        found = estimate((order,), shop, today=TODAY, effort="quick", nested=False)
        for missing in unsaid(found, language):
            whole, short = whole + 1, short + bool(missing)
            sentences.update(set(missing))
    return whole, short, sentences


def main() -> None:
    """Print what was counted."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--list", action="store_true", help="list the sentences too")
    parser.add_argument("--language", default="de", choices=("de", "es", "fr"))
    options = parser.parse_args()
    whole, short, sentences = counted(options.language)
    found: dict[str, object] = {"orders": whole, "all_english": short, "sentences": len(sentences)}
    if options.list:
        found["unsaid"] = [f"{count} x {text}" for text, count in sentences.most_common()]
    print(json.dumps(found, indent=1, ensure_ascii=False) if options.json else found)


if __name__ == "__main__":
    main()
