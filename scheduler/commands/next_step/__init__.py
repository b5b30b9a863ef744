"""What to do next in a folder, as `rollwright` alone tells it."""

from scheduler.commands.next_step.what_next import what_next

__all__ = ["what_next"]
