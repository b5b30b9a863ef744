"""How the property tests draw their examples, and in what order the tests come, in every room."""

import gc
import os
import subprocess
import sys

import pytest
from hypothesis import settings

# The tests share the cores among themselves; those about worker processes ask for them by name.
os.environ.setdefault("ROLLWRIGHT_WORKERS", "1")
# A test is of the program as it works things out, not of what an earlier run has left in the user's cache.
os.environ.setdefault("ROLLWRIGHT_ANEW", "1")

# They begin hundreds of Python processes, and each would compile all modules anew.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

# The same examples on every machine: a red test then speaks of the change at hand, not of luck.
# `--hypothesis-profile=explore` looks further, with new examples each time; run it before a change is done.
# No example has a deadline: tests are never timed, and a busy machine missed it.
settings.register_profile("settled", derandomize=True, deadline=None)
settings.register_profile("explore", derandomize=False, print_blob=True, deadline=None)
settings.load_profile("settled")


def pytest_configure(config: pytest.Config) -> None:
    """Before the workers of a parallel run begin, make what each would make: machine code, bytecode."""
    if not getattr(config.option, "numprocesses", None) or hasattr(config, "workerinput"):
        return
    makers = ["tests.machine_code nesting", "tests.machine_code sequence", "pytest --collect-only -q -n 0"]
    begun = [
        subprocess.Popen([sys.executable, "-m", *maker.split()], stdout=subprocess.DEVNULL)
        for maker in makers
    ]
    for process in begun:
        process.wait()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Take the files with slow tests first, so that no core waits for a long one begun last."""
    slow = {item.path for item in items if item.get_closest_marker("slow")}
    items.sort(key=lambda item: item.path not in slow)


def pytest_collection_finish() -> None:
    """What was collected stays to the end: the garbage collector need not go through it again and again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 50)  # as the command has it
