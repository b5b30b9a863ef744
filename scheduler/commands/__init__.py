"""The command line, and the jobs that plan a week. The one command `rollwright` lives here; its quoting
jobs are in `quoting.commands`.
"""

from scheduler.commands.cli import main
from scheduler.commands.ending import STOPPED, ended, keep_a_stop, stop_at_once

__all__ = ["STOPPED", "ended", "keep_a_stop", "main", "stop_at_once"]
