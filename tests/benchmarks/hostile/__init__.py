"""Hostile and broken input by the thousand: mutated files through every reader, kills at random moments."""
