"""The floor book: the published week's tasks with boxes for what really happened, written and read back."""

from scheduler.floorbook.read_floor import FloorRead, FloorRules, read_floor_book
from scheduler.floorbook.rows import FloorRow
from scheduler.floorbook.tasks import floor_tasks
from scheduler.floorbook.write_floor import FloorPage, week_ahead, write_floor_book

__all__ = [
    "FloorPage",
    "FloorRead",
    "FloorRow",
    "FloorRules",
    "floor_tasks",
    "read_floor_book",
    "week_ahead",
    "write_floor_book",
]
