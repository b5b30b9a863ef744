"""Grades: the published table beside the code, and the one matcher of what people call them."""

from quoting.shop.grades.matcher import FAMILY_WORDS, Materials
from quoting.shop.grades.published import GAUGE_TABLES, find_material, plain_name, published_grades

__all__ = [
    "FAMILY_WORDS",
    "GAUGE_TABLES",
    "Materials",
    "find_material",
    "plain_name",
    "published_grades",
]
