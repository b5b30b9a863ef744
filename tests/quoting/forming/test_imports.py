from __future__ import annotations

import subprocess
import sys

HEAVY = ("scipy", "reportlab", "pandas", "ortools", "shapely")


def test_the_room_needs_numpy_and_nothing_heavier() -> None:
    code = f"import sys, quoting.forming; print([name for name in {HEAVY!r} if name in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
