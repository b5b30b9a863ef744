"""How each line is made: what is tried on each roll, how it is judged, which route is taken."""

from quoting.estimating.routes.attempts import NOT_IN_RACK, developed
from quoting.estimating.routes.line_routes import LineRoutes, route_lines

__all__ = ["NOT_IN_RACK", "LineRoutes", "developed", "route_lines"]
