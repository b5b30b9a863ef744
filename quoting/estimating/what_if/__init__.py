"""What a change would do to the price of a line: dearer plate, another pass, the other diameter, a merge."""

from quoting.estimating.what_if.sensitivity import with_sensitivities

__all__ = ["with_sensitivities"]
