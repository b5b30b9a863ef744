"""`python -m scheduler`: the same as the `rollwright` command."""

from scheduler.cli import main

main(prog_name="rollwright")
