"""Edges and welds that an order asks for: read into the line, and asked about where they are not clear."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import EdgeKind, EdgePlace, Extra, Penetration
from quoting.intake.texts import edges_in, extras_in, tolerances_in, tolerances_of, tolerances_text, weld_in
from tests.quoting.intake.sheets import GOOD, HEAD, read_rows

REMARKS = [*HEAD, "Remarks"]
SEAM, ENDS, ALL = EdgePlace.SEAM, EdgePlace.ENDS, EdgePlace.ALL


@pytest.mark.parametrize(
    ("text", "kind", "angle", "land", "place", "edges"),
    [
        ("37.5 deg bevel, both long edges", EdgeKind.BEVEL, 37.5, 0, SEAM, 2),
        ("bevel both ends 37.5 deg, 1/16 land", EdgeKind.BEVEL, 37.5, 1.5875, ENDS, 2),
        ("bevel one end 30 deg", EdgeKind.BEVEL, 30, 0, ENDS, 1),
        ("30° bevel all round, 2 mm land", EdgeKind.BEVEL, 30, 2, ALL, 4),
        ("double bevel 30 deg on long seam", EdgeKind.DOUBLE_BEVEL, 30, 0, SEAM, 2),
        ("J-prep 20 deg long seam, 1/16 land", EdgeKind.J, 20, 1.5875, SEAM, 2),
        ("60 deg included V-prep long seam", EdgeKind.BEVEL, 30, 0, SEAM, 2),
    ],
)
def test_an_edge_preparation_in_words(
    text: str, kind: EdgeKind, angle: float, land: float, place: EdgePlace, edges: int
) -> None:
    said = edges_in(text, inch=True)
    assert said is not None
    found = said.prep
    assert (found.kind, found.angle_deg, found.place, found.edges) == (kind, angle, place, edges)
    assert found.land_mm == pytest.approx(land)
    assert said.open == ()


@pytest.mark.parametrize(
    "text",
    [
        "no bevel, square edges",
        "bevel by us",
        "square cut edges",
        "without weld prep",
        "bevelling by others",
        "weld gap 1/8",
        "shell",
        "not to be bevelled by you: no edge prep",
    ],
)
def test_no_edge_preparation(text: str) -> None:
    assert edges_in(text, inch=True) is None


@pytest.mark.parametrize(
    ("text", "depth"),
    [
        ("full pen weld by roller", Penetration.FULL),
        ("CJP long seam", Penetration.FULL),
        ("(LONG SEAM WELDED BY YOU, X-RAY BY US)", Penetration.FULL),
        ("butt welded", Penetration.FULL),
        ("PJP long seam", Penetration.PARTIAL),
        ("seal weld inside", Penetration.SEAL),
    ],
)
def test_a_weld_in_words(text: str, depth: Penetration) -> None:
    weld = weld_in(text).weld
    assert weld is not None
    assert weld.penetration is depth


@pytest.mark.parametrize(
    "text",
    [
        "Seams open, we weld. Leave 1/8 gap on carbon.",
        "customer welds",
        "weld by others",
        "weld gap 2 mm",
        "re-round after weld",
        "no weld",
        "bevel for welding",
        "field weld",
        "seam rewelded by us",
        "tack only",
    ],
)
def test_no_weld_and_no_doubt(text: str) -> None:
    said = weld_in(text)
    assert said.weld is None
    assert not said.unclear


def test_a_seam_said_to_be_welded_by_nobody_is_asked_about(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "welded and 100 % RT"], head=REMARKS)
    (asked,) = (one for one in order.questions if one.id == "1/weld")
    assert not asked.blocking
    assert asked.assumed == "no welding by us"
    assert order.lines[0].weld is None


def test_a_line_carries_its_edges_its_weld_and_its_handwork(tmp_path: Path) -> None:
    remark = "bevel both ends 37.5 deg, full pen weld by you, straighten before rolling"
    line = read_rows(tmp_path, [*GOOD, remark], head=REMARKS).lines[0]
    assert line.edge_prep is not None
    assert line.edge_prep.place is ENDS
    assert line.weld is not None
    assert line.extras == (Extra.STRAIGHTEN,)


def test_a_bevel_without_angle_or_edges_is_priced_the_usual_way_and_asked_about(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "bevel"], head=REMARKS)
    (asked,) = (one for one in order.questions if one.id == "1/edge_prep")
    assert not asked.blocking
    assert "30 degrees" in asked.assumed
    assert order.lines[0].edge_prep is not None
    assert [choice.label for choice in asked.choices][-1] == "no bevel, edges square"


def test_a_bevel_that_only_a_note_knows_waits(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "bevel as note 4"], head=REMARKS)
    assert not order.lines


def test_tacks_in_a_remark_are_tacks(tmp_path: Path) -> None:
    assert read_rows(tmp_path, [*GOOD, "tack only"], head=REMARKS).lines[0].seam == "tacked"


@pytest.mark.parametrize(
    "text", ["tack weld seam", "tack the long seam", "tack weld only", "seam tack welded", "weld tacked"]
)
def test_a_tack_weld_is_a_tack_and_no_welded_seam(text: str) -> None:
    said = weld_in(text)
    assert said.tack
    assert said.weld is None
    assert not said.unclear


def test_tacked_by_us_and_welded_by_us_is_both() -> None:
    said = weld_in("tack weld seam, full pen weld by you")
    assert said.tack
    assert said.weld
    assert said.weld.penetration is Penetration.FULL


def test_partial_penetration_is_no_part_of_a_circle(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "partial penetration long seam weld by us"], head=REMARKS)
    assert not any(one.id.endswith("/shape") for one in order.questions)
    order = read_rows(tmp_path, [*GOOD, "partial pen long seam weld by you"], head=REMARKS)
    assert order.lines[0].weld
    assert order.lines[0].weld.penetration is Penetration.PARTIAL


def test_each_word_for_handwork_says_its_own_work_and_a_j_prep_is_no_remark(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "straighten plate; supply template; J prep long seam"], head=REMARKS)
    said = order.lines[0].assumptions
    assert '"supply template" (extras) is read as: template made for the part' in said
    assert not any("taken as a remark" in text for text in said)


def test_work_behind_the_last_heading_is_read_and_priced(tmp_path: Path) -> None:
    """Somebody typed into the column right of the remarks, which has no heading."""
    order = read_rows(tmp_path, [*GOOD, "", "full pen weld by you"], head=REMARKS)
    assert order.lines[0].weld
    assert order.lines[0].remarks == ("full pen weld by you",)


@pytest.mark.parametrize("test", ["RT 100%", "100% UT", "PWHT"])
def test_a_test_asked_for_with_a_weld_is_said_not_to_be_priced(test: str, tmp_path: Path) -> None:
    said = read_rows(tmp_path, [*GOOD, f"seam welded by you, {test}"], head=REMARKS).lines[0].assumptions
    assert any(test.lower() in text.lower() and "not in the price" in text for text in said)


def test_the_2b_of_a_code_is_no_finish(tmp_path: Path) -> None:
    line = read_rows(tmp_path, [*GOOD, "out of round per API 2B"], head=REMARKS).lines[0]
    assert line.tolerances
    assert not any("not in the price" in text for text in line.assumptions)


def test_no_template_without_asking_for_one() -> None:
    assert extras_in("check with template") == ()
    assert extras_in("no straightening") == ()


@pytest.mark.parametrize(
    ("text", "column", "on", "value"),
    [
        ("out of round 1/32 max", False, "out of round", 0.79375),
        ("OOR within 1/4", False, "out of round", 6.35),
        ("+/- 1/16 on ID", False, "diameter", 1.5875),
        ("±1/16", True, "diameter", 1.5875),
        ("+1/8 -0", True, "diameter", 1.5875),
        ("circumference +/- 1/4", False, "circumference", 6.35),
        ("straight within 1/8", False, "straightness", 3.175),
        ("length +/- 1/16", False, "length", 1.5875),
        ("+/- 2 mm", True, "diameter", 2.0),
    ],
)
def test_a_tolerance_in_words(text: str, column: bool, on: str, value: float) -> None:
    (found,) = tolerances_in(text, inch=True, column=column)
    assert found.on.value == on
    assert found.value_mm == pytest.approx(value)


def test_each_saying_has_its_own_number() -> None:
    size, form = tolerances_in('+/- 1/8" on OD, 1/4" out of round', inch=True)
    assert (size.on.value, size.value_mm) == ("diameter", 3.175)
    assert (form.on.value, form.value_mm) == ("out of round", 6.35)


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("+0 -1/8", (0.0, 3.175)),
        ("-0 +1/8", (3.175, 0.0)),
        ("dia +1,5/-0 mm", (1.5, 0.0)),
        ("+/- 1/16", None),
        ("+1/16 -1/16", None),
    ],
)
def test_both_sides_of_a_tolerance_are_kept(text: str, sides: tuple[float, float] | None) -> None:
    (found,) = tolerances_in(text, inch=True, column=True)
    assert found.sides_mm == sides
    assert tolerances_of(tolerances_text((found,))) == (found,)


@pytest.mark.parametrize("text", ["gap 1/8 +/- 1/16", "48 ID, 2 pcs", "bevel 37.5 +/- 2.5 deg", "roll round"])
def test_no_tolerance_of_the_part(text: str) -> None:
    assert tolerances_in(text, inch=True) == ()


def test_codes_and_shares() -> None:
    (code,) = tolerances_in("roundness per UG-80", inch=True)
    assert code.code == "UG-80"
    (share,) = tolerances_in("ovality max 1 %", inch=False)
    assert share.share == pytest.approx(0.01)


def test_a_tolerance_that_is_not_understood_is_asked_about(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "class B"], head=[*HEAD, "Tolerance"])
    (asked,) = (one for one in order.questions if one.id == "1/tolerance")
    assert "our usual" in asked.assumed
    assert order.lines[0].tolerances == ()


def test_a_bare_fraction_is_one_of_an_inch_on_a_metric_sheet_too() -> None:
    said = edges_in("37.5 deg bevel, 1/16 land, both long edges", inch=False)
    assert said is not None
    assert said.prep.land_mm == pytest.approx(1.5875)
    (asked,) = tolerances_in("out of round 1/8 max", inch=False)
    assert asked.value_mm == pytest.approx(3.175)


def test_a_bare_land_is_in_the_unit_of_its_row_where_the_sheet_says_none(tmp_path: Path) -> None:
    head = ["Line", "Qty", "Thk", "Material", "ID", "Length", "Remarks"]
    rows = [
        ["1", "1", '1/4"', "A36", '24"', '48"', "37.5 deg bevel, 0.06 land, both long edges"],
        ["2", "1", "6 mm", "A36", "600 mm", "1000 mm", "37.5 deg bevel, 1.5 land, both long edges"],
    ]
    lines = read_rows(tmp_path, *rows, head=head).lines
    lands = [line.edge_prep.land_mm for line in lines if line.edge_prep]
    assert lands == pytest.approx([1.524, 1.5])
