"""The tests; those that are not about the ledger leave the demo shop's folder without one."""

import os

os.environ.setdefault("ROLLWRIGHT_NO_LEDGER", "1")
