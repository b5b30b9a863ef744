"""Drawings and printable pages."""
