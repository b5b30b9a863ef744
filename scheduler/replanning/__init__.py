"""The plan through the week: what is left to do from a moment on, and how little of the plan moves."""

from scheduler.replanning.floor import Floor, FloorJob, FloorStop
from scheduler.replanning.published import Moved, Published, PublishedWork, published_of
from scheduler.replanning.replan import Replanned, ReplanRules, replan

__all__ = [
    "Floor",
    "FloorJob",
    "FloorStop",
    "Moved",
    "Published",
    "PublishedWork",
    "ReplanRules",
    "Replanned",
    "published_of",
    "replan",
]
