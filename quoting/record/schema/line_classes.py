"""The lines of a record: as far as each was read, routed and priced."""

from __future__ import annotations

from dataclasses import dataclass
from dataclasses import fields as fields_of
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Discriminator, Field, Tag

from quoting.core import Basis, EdgeKind, EdgePlace, Ends, ToleranceOn
from quoting.record.schema.kinds import Count, Day, Length, Minutes, Number, OneOrMore
from quoting.record.schema.places import PlaceRecord
from quoting.record.schema.price_classes import (
    BreakRecord,
    DriversRecord,
    OverrideRecord,
    PriceRecord,
    RiskRecord,
    SensitivityRecord,
    WorkRecord,
)

FamilyName: TypeAlias = Literal["carbon", "stainless", "aluminium"]


@dataclass(frozen=True, slots=True)
class CylinderRecord:
    """A closed cylinder."""

    kind: Literal["cylinder"]
    basis: Basis
    diameter_mm: Length
    length_mm: Length


@dataclass(frozen=True, slots=True)
class ArcRecord:
    """A segment of a cylinder."""

    kind: Literal["arc"]
    basis: Basis
    radius_mm: Length
    angle_deg: Number
    length_mm: Length


@dataclass(frozen=True, slots=True)
class ConeRecord:
    """A concentric cone frustum."""

    kind: Literal["cone"]
    basis: Basis
    large_mm: Length
    small_mm: Length
    height_mm: Length


ShapeRecord: TypeAlias = Annotated[CylinderRecord | ArcRecord | ConeRecord, Discriminator("kind")]


@dataclass(frozen=True, slots=True)
class SectorRecord:
    """The developed blank of a cone."""

    outer_radius_mm: Length
    inner_radius_mm: Length
    angle_deg: Number


@dataclass(frozen=True, slots=True)
class BlankRecord:
    """The flat blank; weight of the heaviest piece, and of the whole part."""

    length_mm: Length
    width_mm: Length
    sector: SectorRecord | None
    weight_kg: Number
    pieces: OneOrMore
    courses: OneOrMore
    seams: Count
    part_weight_kg: Number
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class JudgedRecord:
    """What a roll can do with the line: the limit that governs, and the share of it that is used."""

    roll: str
    ok: bool
    limit: str
    used: Number


@dataclass(frozen=True, slots=True)
class VerdictRecord(JudgedRecord):
    """The same for the quoted roll, with what to mind."""

    flags: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BandRecord:
    """Minutes on the roll for the whole quantity, without set-up."""

    low: Minutes
    likely: Minutes
    high: Minutes


@dataclass(frozen=True, slots=True, kw_only=True)
class MinutesRecord(BandRecord):
    """The same with the minutes of the set-up beside them."""

    setup: Minutes


@dataclass(frozen=True, slots=True)
class PromiseRecord:
    """When a line is ready if ordered by `order_by`: at the earliest, and on the day that is promised."""

    earliest: Day
    safe: Day
    order_by: Day


@dataclass(frozen=True, slots=True)
class StepRecord:
    """One pass: radii before and after springback, the position on the display (None: by trial), lift."""

    number: OneOrMore
    final_radius_mm: Length
    loaded_radius_mm: Length
    readout_mm: Number | None
    lift_mm: Number | None
    end_leading: str
    pre_bend: bool
    re_roll: bool


@dataclass(frozen=True, slots=True)
class BlankKindRecord:
    """One kind of blank: what is cut, how it is bent, what it weighs; of a cone also its large end."""

    length_mm: Length
    width_mm: Length
    sector: SectorRecord | None
    girth_mm: Length
    arc_deg: Number
    mean_diameter_mm: Length
    large_mean_diameter_mm: Length | None
    weight_kg: Number


@dataclass(frozen=True, slots=True)
class PassesRecord:
    """What to dial on one roll for one kind of blank.

    `inside_diameter_band_mm` is what weak and strong plate of the grade give at the last position, tightest
    first (None: it springs back flat), `lightest_pinch_n` the least force that still drives the plate.
    Earlier records have neither these nor `kind`.
    """

    blank: str
    quantity: OneOrMore
    pinch_gap_mm: Length
    pre_bend_readout_mm: Number | None
    flat_lead_mm: Length | None
    flat_tail_mm: Length
    stop_before_tail_mm: Length
    re_rolls: Count
    tilt_mm_per_m: Number | None
    steps: tuple[StepRecord, ...]
    notes: tuple[str, ...]
    kind: BlankKindRecord | None = None
    inside_diameter_band_mm: tuple[Length, Length | None] | None = None
    lightest_pinch_n: Number | None = None


@dataclass(frozen=True, slots=True)
class OptionRecord(JudgedRecord):
    """One roll that can do the line: minutes, those of them after welding, passes for each kind of blank."""

    minutes: BandRecord
    re_round_minutes: Minutes
    passes: Annotated[tuple[PassesRecord, ...], Field(min_length=1)]


@dataclass(frozen=True, slots=True)
class LiftRecord:
    """How the heaviest blank is lifted, and by how many."""

    method: str
    crew: OneOrMore
    crane: bool
    why: str


@dataclass(frozen=True, slots=True)
class EdgePrepRecord:
    """An edge preparation: how, where, on how many edges of a blank, the angle of one edge, and its land."""

    kind: EdgeKind
    place: EdgePlace
    edges: OneOrMore
    angle_deg: Number
    land_mm: Length


@dataclass(frozen=True, slots=True)
class ToleranceRecord:
    """One tolerance as it was understood: plus or minus a size or a share, at most for a form; or a rule.

    `sides_mm` holds plus and minus where they differ; `value_mm` is then half of what lies between.
    """

    on: ToleranceOn
    value_mm: Length
    share: Number
    code: str
    sides_mm: tuple[Length, Length] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class UnreadLineRecord:
    """A row that should be a line: nothing of it is sure yet. `questions` are the ids of its questions."""

    id: str
    number: str
    customer: str
    place: PlaceRecord
    state: Literal["question", "no-quote", "priced"]
    reason: str
    questions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadLineRecord(UnreadLineRecord):
    """A line that was read; `nearest` says what would work where it cannot be done.

    `edges` and `weld` say in words what is prepared and welded; `tolerance` and `revision` are as the
    customer wrote them. `edge_prep` and `tolerances` are the same as values; earlier records lack them.
    """

    nearest: tuple[str, ...]
    quantity: OneOrMore
    part: str
    part_no: str
    shape: ShapeRecord
    material: str
    family: FamilyName
    thickness_mm: Length
    due: Day | None
    re_round: bool
    remarks: tuple[str, ...]
    assumptions: tuple[str, ...]
    description: str = ""
    revision: str = ""
    tolerance: str = ""
    edges: str = ""
    weld: str = ""
    certificate: bool = False
    free_issue: bool = False
    edge_prep: EdgePrepRecord | None = None
    tolerances: tuple[ToleranceRecord, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RoutedLineRecord(ReadLineRecord):
    """A line with a way to make it, or the nearest attempt; `rolls` can do it, the quoted one first."""

    inside_diameter_mm: Length
    blank: BlankRecord
    verdict: VerdictRecord
    rolls: tuple[OptionRecord, ...]
    lift: LiftRecord
    cautions: tuple[str, ...]
    minutes: MinutesRecord
    ends: Ends


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedLineRecord(RoutedLineRecord):
    """A line with a price; `work` is what is done off the roll, `plates` hold its blanks.

    `risk` is None when it was not drawn, `sensitivities` are empty unless they were asked for; `promise` is
    None for a quote without a ledger.
    """

    # One roll at least can do a line that has a price: this narrows the field above.
    rolls: Annotated[tuple[OptionRecord, ...], Field(min_length=1)]
    price: PriceRecord
    drivers: DriversRecord
    work: tuple[WorkRecord, ...]
    breaks: tuple[BreakRecord, ...]
    plates: tuple[str, ...]
    override: OverrideRecord | None
    risk: RiskRecord | None
    sensitivities: tuple[SensitivityRecord, ...]
    promise: PromiseRecord | None = None


_LINE_CLASSES: dict[type[UnreadLineRecord], str] = {
    PricedLineRecord: "<priced>",
    RoutedLineRecord: "<routed>",
    ReadLineRecord: "<read>",
    UnreadLineRecord: "<unread>",
}


def _class_of(line: Any) -> str:
    """Return how far a line came: by its class, or by the keys that it has in the file."""
    if not isinstance(line, dict):
        return _LINE_CLASSES.get(type(line), "<unread>")
    for name, keys in _OWN_KEYS.items():
        if line.get("state") == name.strip("<>") or keys & line.keys():
            return name
    return "<unread>"


def _own_keys(kind: type[UnreadLineRecord], base: type[UnreadLineRecord]) -> frozenset[str]:
    return frozenset(field.name for field in fields_of(kind)) - {field.name for field in fields_of(base)}


_OWN_KEYS = {
    "<priced>": _own_keys(PricedLineRecord, RoutedLineRecord),
    "<routed>": _own_keys(RoutedLineRecord, ReadLineRecord),
    "<read>": _own_keys(ReadLineRecord, UnreadLineRecord),
}

LineRecord: TypeAlias = Annotated[
    Annotated[PricedLineRecord, Tag("<priced>")]
    | Annotated[RoutedLineRecord, Tag("<routed>")]
    | Annotated[ReadLineRecord, Tag("<read>")]
    | Annotated[UnreadLineRecord, Tag("<unread>")],
    Discriminator(_class_of),
]
