"""Papers for the floor as PDF: travellers with set-up sheets, and each roll's days in order."""

from scheduler.papers.checks import PINCH_HOW
from scheduler.papers.job_sheet import JobSheet, job_sheets
from scheduler.papers.paper_writers import paper_writers
from scheduler.papers.pictures import blank_picture, roll_pictures
from scheduler.papers.sizes import Sizes
from scheduler.papers.traveller_pdf import STANDING

__all__ = [
    "PINCH_HOW",
    "STANDING",
    "JobSheet",
    "Sizes",
    "blank_picture",
    "job_sheets",
    "paper_writers",
    "roll_pictures",
]
