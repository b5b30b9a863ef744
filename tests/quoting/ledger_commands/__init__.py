"""Checks of won, lost, renew and the ledger itself, through the command line."""
