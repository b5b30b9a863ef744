"""Checks of the shop's ledger, on both engines."""
