"""Grades: the published table beside the code, and the one matcher of what people call them."""

from quoting.shop.grades.matcher import Materials, materials_of
from quoting.shop.grades.names import FAMILY_WORDS, GradeNames, find_material, names_of, plain_name
from quoting.shop.grades.plate_tolerance import plate_standard, thickness_tolerance
from quoting.shop.grades.published import GAUGE_TABLES, published_grades, usual_grades

__all__ = [
    "FAMILY_WORDS",
    "GAUGE_TABLES",
    "GradeNames",
    "Materials",
    "find_material",
    "materials_of",
    "names_of",
    "plain_name",
    "plate_standard",
    "published_grades",
    "thickness_tolerance",
    "usual_grades",
]
