"""A new shop's folder: commented book, small rack, order sheets to send out."""

from quoting.shop.starter.folder import write_starter
from quoting.shop.starter.interview import (
    ABOUT_SHOP,
    ANSWERED,
    MOST_ROLLS,
    WORKED_OUT,
    check_roll,
    checked_answer,
    data_of_answers,
    roll_of_answer,
    roll_question,
)

__all__ = [
    "ABOUT_SHOP",
    "ANSWERED",
    "MOST_ROLLS",
    "WORKED_OUT",
    "check_roll",
    "checked_answer",
    "data_of_answers",
    "roll_of_answer",
    "roll_question",
    "write_starter",
]
