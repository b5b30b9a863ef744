"""Sizes of letters on a traveller, in mm, and the grey of its bands."""

BODY, SMALL, LABEL, LEAST = 4.2, 3.5, 3.2, 2.85
"""12, 10, 9 and 8 points."""
BAND = "#E4E4E4"
