"""The plan through the week: what is left to do from a moment on, and how little of the plan moves."""

from scheduler.replanning.floor import Floor, FloorJob, FloorStop
from scheduler.replanning.floor_problem import floor_problem
from scheduler.replanning.published import Moved, Published, PublishedWork, published_of
from scheduler.replanning.replan import Replanned, ReplanRules, replan
from scheduler.replanning.right_shift import published_order
from scheduler.replanning.too_soon import TooSoon, too_soon

__all__ = [
    "Floor",
    "FloorJob",
    "FloorStop",
    "Moved",
    "Published",
    "PublishedWork",
    "ReplanRules",
    "Replanned",
    "TooSoon",
    "floor_problem",
    "published_of",
    "published_order",
    "replan",
    "too_soon",
]
