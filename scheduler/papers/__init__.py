"""Papers for the floor as PDF: travellers with set-up sheets, and each roll's days in order."""

from scheduler.papers.paper_writers import paper_writers

__all__ = ["paper_writers"]
