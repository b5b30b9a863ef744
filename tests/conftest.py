"""How the property tests draw their examples, and in what order the tests come, in every room."""

import os
import subprocess
import sys

import pytest
from hypothesis import settings

# The tests share the cores among themselves; those about worker processes ask for them by name.
os.environ.setdefault("ROLLWRIGHT_WORKERS", "1")
# A test is of the program as it works things out, not of what an earlier run has left in the user's cache.
os.environ.setdefault("ROLLWRIGHT_ANEW", "1")

# The same examples on every machine: a red test then speaks of the change at hand, not of luck.
# `--hypothesis-profile=explore` looks further, with new examples each time; run it before a change is done.
settings.register_profile("settled", derandomize=True)
settings.register_profile("explore", derandomize=False, print_blob=True)
settings.load_profile("settled")


def pytest_configure(config: pytest.Config) -> None:
    """Before the workers of a parallel run begin, make the machine code that each of them would make."""
    if not getattr(config.option, "numprocesses", None) or hasattr(config, "workerinput"):
        return
    rooms = ("nesting", "sequence")
    begun = [subprocess.Popen([sys.executable, "-m", "tests.machine_code", room]) for room in rooms]
    for process in begun:
        process.wait()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Take the files with slow tests first, so that no core waits for a long one begun last."""
    slow = {item.path for item in items if item.get_closest_marker("slow")}
    items.sort(key=lambda item: item.path not in slow)
