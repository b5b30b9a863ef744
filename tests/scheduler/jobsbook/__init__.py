"""Checks of the jobs book, written and read back."""
