"""Checks of planning through the week."""
