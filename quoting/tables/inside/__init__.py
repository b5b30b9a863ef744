"""What looks into a file that nobody vouches for. Runs in a child process only (`quoting.tables.child`)."""

from quoting.tables.inside.formula_book import read_formulas
from quoting.tables.inside.read_any import read_any

__all__ = ["read_any", "read_formulas"]
