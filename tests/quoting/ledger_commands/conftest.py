"""Quotes with a ledger promise days, so they plan: with a light search."""

from tests.light_search import light_search

__all__ = ["light_search"]
