"""The command line, and the jobs that plan a week. The one command `rollwright` lives here; its quoting
jobs are in `quoting.commands`.
"""

from scheduler.commands.cli import main

__all__ = ["main"]
