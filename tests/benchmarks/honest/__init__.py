"""Invented weeks through the whole main job, held against what a foreman would do, timed by own code."""
