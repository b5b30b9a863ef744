"""A small record of every version that was ever written, with what makes that of today's version."""
