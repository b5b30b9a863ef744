"""Parts that are no plain cylinder: segments of all sorts, ellipses, flights, rings, courses, re-rolling, U-shapes."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from tests.data.sheet_model import FLATS, ID, IN, MEAN, OD, PRE_BENT
from tests.data.sheet_parts import any_of, arc, ask, chord, cyl, flat, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "odd_shapes_us", "xlsx", "en-US", "what a plate roll does and what it does not, mixed",
        r("Wishful Steel (invented) odds & ends"),
        r("No", "Ea", "Description", "Mat"),
        p(cyl(30, ID, 0.25, 40, 1, "A36", u=IN), 1, 1, "30 ID x 1/4 x 40 rolled shell", "A36"),
        p(ask("ellipse", "oval", "shape"), 2, 1, "elliptical duct 40 x 24 x 1/8 x 48 long", "A36"),
        p(ask("oval", "oval", "shape"), 3, 2, "oval tank wrapper 60x36 OD x 10 ga x 96", "A1011"),
        p(ask("spiral flight", "not rolled", "shape", or_left_out=True), 4, 6, "screw flight 16 OD x 4 ID x 1/4, 16 pitch RH", "AR400"),
        p(ask("angle ring", "not rolled", "shape", or_left_out=True), 5, 4, "L3x3x1/4 rolled leg out, 48 ID ring", "A36"),
        p(ask("bar hard way", "not rolled", "shape", or_left_out=True), 6, 2, "1/2 x 4 flat bar rolled hard way, 60 ID", "A36"),
        p(ask("tube sheet", "not rolled", "shape", or_left_out=True), 7, 1, "tube sheet 36 OD x 1-1/2 drilled", "A516-70"),
        p(ask("expanded metal", "material", "not rolled", "thickness"), 8, 2, "3/4-9 expanded metal rolled to 30 ID x 48", "A36"),
        p(ask("perforated", "material", "not rolled", "shape", "extra"), 9, 2, "perf sheet 11 ga rolled 24 OD x 36", "304"),
        p(ask("head is no roll work", "not rolled", "shape", or_left_out=True), 10, 2, "2:1 SE head 36 ID x 3/8", "A516-70"),
        p(ask("customer's part again", "re-roll"), 11, 1, "re-roll our existing shell, 48 OD x 3/8 x 60, out of round", "A36"),
    ),
    sheet(
        "u_shapes_and_troughs", "csv", "en-GB", "U-shapes with straight legs, troughs, segments with straight ends",
        r("Item", "Qty", "Description", "Thk", "Length", "Material"),
        p(ask("U with straight legs", "shape", "length", "not rolled", "angle", "number"), "1", "2", "U trough, inside radius 300, legs 400 high", "6", "2500", "S275JR"),
        p(arc(300, ID, 180, 6, 2500, 2, "S275JR"), "2", "2", "half round trough, inside radius 300, no legs", "6", "2500", "S275JR"),
        p(ask("straight tangents", "length", "shape", "angle", "number"), "3", "4", "guard, 90 deg at inside radius 500 with 150 straight each end", "5", "1000", "S275JR"),
        p(arc(500, ID, 90, 5, 1000, 4, "S275JR", ends=FLATS), "4", "4", "guard, 90 deg at inside radius 500, flats at ends accepted", "5", "1000", "S275JR"),
        p(ask("S-shape, two radii", "shape", "not rolled", "diameter", "number"), "5", "1", "ogee plate, R600 then reverse R400", "8", "1200", "S275JR"),
    ),
    sheet(
        "segments_all_sorts", "xlsx", "en-GB", "third, quarter, segments per ring, gore; centreline radius",
        r("Ref", "No", "What", "Radius", "Plate", "Width", "Steel"),
        p(arc(1500, ID, 120, 10, 1200, 3, "S355J2|S355J2+N"), "a", 3, "third of ring", "1500 inside", 10, 1200, "S355J2+N"),
        p(arc(1500, OD, 90, 10, 1200, 8, "S355J2|S355J2+N"), "b", 8, "quarter of ring", "1500 outside", 10, 1200, "S355J2+N"),
        p(arc(1500, MEAN, 45, 12, 800, 8, "S355J2|S355J2+N"), "c", 8, "45 deg segment", "1500 CLR", 12, 800, "S355J2+N"),
        p(arc(2000, ID, 60, 8, 1000, 6, "S235JR"), "d", 6, "segments, 6 to the full ring", "2000 inside", 8, 1000, "S235JR"),
        p(ask("1 ring in 6 segments: one or six", "quantity", "shape", "angle"), "e", 1, "ring in 6 segments", "R 2000", 8, 1000, "S235JR"),
        p(ask("how much of the circle", "angle"), "f", 2, "segment", "900 inside", 8, 1000, "S235JR"),
        p(arc(900, ID, 30.5, 8, 1000, 2, "S235JR"), "g", 2, "segment 30°30'", "900 inside", 8, 1000, "S235JR"),
    ),
    sheet(
        "courses_and_long_shells", "xlsx", "en-US", "in 2 courses, one piece, halves, girth seams",
        r("Hollow Hills Water (invented) - standpipe"),
        r("Item", "Qty", "ID", "Thk", "OAL", "Grade", "How"),
        p(any_of(cyl(72, ID, 0.375, 96, 2, "A36", u=IN), cyl(72, ID, 0.375, 192, 1, "A36", u=IN, say="courses")), 1, 1, 72, "3/8", 192, "A36", "in 2 courses"),
        p(line_or_ask("fits one course", cyl(72, ID, 0.375, 60, 1, "A36", u=IN), doubts=("courses",)), 2, 1, 72, "3/8", 60, "A36", "one piece, no girth seam"),
        p(any_of(arc(36, ID, 180, 0.375, 60, 4, "A36", u=IN), cyl(72, ID, 0.375, 60, 2, "A36", u=IN, say="shape")), 3, 2, 72, "3/8", 60, "A36", "in 2 halves"),
        p(ask("which courses are thick", "courses", "thickness"), 4, 1, 72, "3/8 & 1/4", 192, "A36", "lower course 3/8"),
        p(ask("running length", "quantity", "length"), 5, 1, 48, "1/4", "80 ft total", "A36", "random lengths"),
    ),
    sheet(
        "girth_instead_of_diameter", "csv", "en-GB", "circumference inside and outside, tape, developed",
        r("No", "Off", "Girth", "t", "Width", "Matl", "Remark"),
        p(cyl(1000, OD, 10, 1200, 2, "S275JR"), "1", "2", "3141.6 outside", "10", "1200", "S275JR", "closed ring"),
        p(cyl(800, ID, 8, 1000, 1, "S275JR"), "2", "1", "2513.3 inside", "8", "1000", "S275JR", "closed ring"),
        p(cyl(600, MEAN, 6, 800, 1, "S275JR"), "3", "1", "1885 developed (neutral)", "6", "800", "S275JR", "closed ring"),
        p(ask("tape inside or outside", "basis", "diameter"), "4", "1", "2000 by tape", "6", "800", "S275JR", "closed ring"),
        p(ask("girth and diameter do not agree", "contradiction", "diameter"), "5", "1", "3141.6 outside", "10", "1200", "S275JR", "900 OD"),
    ),
    sheet(
        "flat_plus_radius_us", "xlsx", "en-US", "PL sizes rolled to a radius, chord and rise, arc length",
        r("Mk", "Pcs", "Plate", "Rolling", "Spec", "ends"),
        p(flat(96, 120, ID, 0.5, 48, 2, "A36", u=IN, ends=FLATS), "R1", 2, "PL 1/2 x 48 x 8'-0", "rolled to 120\" IR along the 8'", "A36", "flats ok"),
        p(flat(60, 36, OD, 0.25, 40, 6, "A36", u=IN), "R2", 6, "PL 1/4 x 40 x 60", "60\" way rolled to 36\" outside rad", "A36", None),
        p(ask("which way does it curve", "length", "angle", "number", "diameter"), "R3", 1, "PL 3/8 x 48 x 48.5", "rolled to 40\" IR", "A36", None),
        p(chord(50, 8, ID, 0.25, 30, 3, "A36", u=IN), "R4", 3, "1/4\" x 30\" wide", "50\" inside chord, 8\" rise", "A36", None),
        p(ask("chord of which face", "basis"), "R5", 3, "1/4\" x 30\" wide", "50\" chord, 8\" rise", "A36", None),
        p(arc(24, ID, 75, 0.3125, 20, 4, "A36", u=IN, ends=PRE_BENT), "R6", 4, "5/16 x 20 wide", "24 IR x 75 deg arc", "A36", "prebend"),
    ),
    sheet(
        "bevels_seams_and_ends", "xlsx", "en-GB", "edge and weld remarks that cost money must not vanish",
        r("Item", "Qty", "Shell", "Material", "Edge / seam"),
        p(cyl(1200, ID, 16, 1500, 1, "S355J2|S355J2+N", say="bevel"), 1, 1, "1200 ID x 16 x 1500", "S355J2+N", "30° bevel all round, 2 mm land"),
        p(cyl(1200, ID, 16, 1200, 1, "S355J2|S355J2+N"), 2, 1, "1200 ID x 16 x 1200", "S355J2+N", "no bevel, square edges"),
        p(cyl(1200, ID, 16, 900, 1, "S355J2|S355J2+N", say="weld extra"), 3, 1, "1200 ID x 16 x 900", "S355J2+N", "welded and 100 % RT"),
        p(cyl(1200, ID, 16, 600, 1, "S355J2|S355J2+N", say="extra"), 4, 1, "1200 ID x 16 x 600", "S355J2+N", "stress relieved after rolling"),
        p(cyl(1200, ID, 16, 300, 1, "S355J2|S355J2+N", ends=PRE_BENT), 5, 1, "1200 ID x 16 x 300", "S355J2+N", "true radius to the edge, no flats"),
        p(ask("which edges", "bevel", "number"), 6, 1, "1200 ID x 16 x 450", "S355J2+N", "bevel as note 4"),
        p(cyl(1200, ID, 16, 750, 1, "S355J2|S355J2+N", say="extra"), 7, 1, "1200 ID x 16 x 750", "S355J2+N", "blast SA 2.5 and prime"),
    ),
)  # fmt: skip
