"""The words of the trade: other languages as English, phrases that change a line, harmless words."""

from quoting.intake.words.business import is_business
from quoting.intake.words.corrections import corrected_item, correction_in
from quoting.intake.words.errands import is_errand
from quoting.intake.words.languages import folded
from quoting.intake.words.marks import MarkedNotes, MarkRule, mark_rule, pointed_at
from quoting.intake.words.older_mails import begins_older
from quoting.intake.words.phrases import Said, harmless, left_without, said_in_text
from quoting.intake.words.restore import in_own_words
from quoting.intake.words.translate import Translation, translated

__all__ = [
    "MarkRule",
    "MarkedNotes",
    "Said",
    "Translation",
    "begins_older",
    "corrected_item",
    "correction_in",
    "folded",
    "harmless",
    "in_own_words",
    "is_business",
    "is_errand",
    "left_without",
    "mark_rule",
    "pointed_at",
    "said_in_text",
    "translated",
]
