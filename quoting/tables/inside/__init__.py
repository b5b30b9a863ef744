"""What looks into a file that nobody vouches for. Runs in a child process only (`quoting.tables.child`)."""

from quoting.tables.inside.formula_book import read_formulas
from quoting.tables.inside.text_tables import read_text
from quoting.tables.inside.workbooks import read_book

__all__ = ["read_book", "read_formulas", "read_text"]
