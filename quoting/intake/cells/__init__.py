"""The cells of one row read into values, or into doubts where they are not clear."""

from quoting.intake.cells.material_cells import (
    PLAIN_STEEL,
    is_tougher,
    split_material,
    take_material,
    take_text,
)
from quoting.intake.cells.pair_of_ends import two_sides, with_ends_in_words
from quoting.intake.cells.plain_cells import (
    READERS,
    WHOSE_PLATE,
    ask_date,
    ask_revision,
    carry,
    headed,
    says_how_many_seams,
    says_who_brings,
)
from quoting.intake.cells.several_sizes import holds_several, read_combined
from quoting.intake.cells.size_cells import EITHER, holds_feet, read_measure, read_size, two_ends
from quoting.intake.cells.work_cells import is_work, who_does

__all__ = [
    "EITHER",
    "PLAIN_STEEL",
    "READERS",
    "WHOSE_PLATE",
    "ask_date",
    "ask_revision",
    "carry",
    "headed",
    "holds_feet",
    "holds_several",
    "is_tougher",
    "is_work",
    "read_combined",
    "read_measure",
    "read_size",
    "says_how_many_seams",
    "says_who_brings",
    "split_material",
    "take_material",
    "take_text",
    "two_ends",
    "two_sides",
    "who_does",
    "with_ends_in_words",
]
