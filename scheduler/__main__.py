"""`python -m scheduler`: the same as the `rollwright` command."""

from scheduler.commands import main

main(prog_name="rollwright")
