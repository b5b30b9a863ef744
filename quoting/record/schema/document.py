"""The whole of a record, and what it says of the run, its orders and its questions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Literal

from pydantic import ConfigDict, Discriminator, Field, Tag

from quoting.core import Paper
from quoting.record.schema.kinds import Count, Day, Length, Minutes, Money, OneOrMore
from quoting.record.schema.line_classes import LineRecord
from quoting.record.schema.nest_classes import NestRecord
from quoting.record.schema.places import PlaceRecord
from quoting.record.schema.price_classes import SpreadRecord
from quoting.record.schema.schedule_classes import ScheduleRecord


@dataclass(frozen=True, slots=True)
class RollRecord:
    """A roll of the shop and the hours it is worked in a week."""

    name: str
    hours_a_week: Minutes


@dataclass(frozen=True, slots=True)
class MadeRecord:
    """How the run was made; `settings` are what prices are built from, by name."""

    today: Day
    effort: str
    seed: int
    shop: str
    currency: str
    paper: Paper
    warnings: tuple[str, ...]
    rolls: tuple[RollRecord, ...]
    settings: Mapping[str, Money]


@dataclass(frozen=True, slots=True)
class ChangeRecord:
    """One thing that a revision changed; `line` is empty for the whole run."""

    line: str
    what: str
    before: str
    after: str
    reason: str


@dataclass(frozen=True, slots=True)
class RevisionRecord:
    """Which revision this is (1: a first quote) and the id of the result that it replaces."""

    number: OneOrMore
    replaces: str | None
    changes: tuple[ChangeRecord, ...]


@dataclass(frozen=True, slots=True)
class TotalRecord:
    """An order's money: its lines, the top-up to the least order, tax, and all of it."""

    lines: Money
    minimum_top_up: Money
    tax: Money
    total: Money


@dataclass(frozen=True, slots=True)
class RowsRecord:
    """How many rows of a file have which state."""

    priced: Count
    question: Count
    no_quote: Annotated[Count, Field(alias="no-quote")]
    ignored: Count


@dataclass(frozen=True, slots=True)
class ExpediteRecord:
    """What a rush of a whole order is charged, and the day on which all of it is then promised."""

    day: Day
    price: Money


@dataclass(frozen=True, slots=True)
class OrderRecord:
    """One customer's file; `notes` are the sheet's, and what of it was not read.

    `expedite` is None without a ledger, and where no rush would make it sooner.
    """

    file: str
    customer: str
    reference: str
    notes: tuple[str, ...]
    rows: RowsRecord
    total: TotalRecord
    risk: SpreadRecord | None
    expedite: ExpediteRecord | None = None


@dataclass(frozen=True, slots=True)
class IgnoredRecord:
    """A row that is no line, and why."""

    place: PlaceRecord
    reason: str
    text: str


@dataclass(frozen=True, slots=True)
class ChoiceRecord:
    """One answer to a question."""

    label: str


@dataclass(frozen=True, slots=True)
class ChoiceWorthRecord(ChoiceRecord):
    """One answer with what the line would cost with it, and its first blank; `problem` says why it cannot be
    done, the price is then None. Where it is not `exact` it was nested more quickly than the run.
    """

    price: Money | None
    blank_width_mm: Length | None
    blank_length_mm: Length | None
    problem: str
    exact: bool


def _choice_class(choice: Any) -> str:
    known = choice.keys() > {"label"} if isinstance(choice, dict) else isinstance(choice, ChoiceWorthRecord)
    return "<worth>" if known else "<open>"


@dataclass(frozen=True, slots=True)
class QuestionRecord:
    """One doubt for the customer; `assumed` is what was priced meanwhile."""

    id: str
    customer: str
    line: str
    place: PlaceRecord
    read: str
    text: str
    choices: tuple[
        Annotated[
            Annotated[ChoiceWorthRecord, Tag("<worth>")] | Annotated[ChoiceRecord, Tag("<open>")],
            Discriminator(_choice_class),
        ],
        ...,
    ]
    blocking: bool
    assumed: str


@dataclass(frozen=True, slots=True)
class AnswerRecord:
    """What was answered to a question, by its id."""

    question: str
    customer: str
    line: str
    place: PlaceRecord
    read: str
    text: str
    answer: str


@dataclass(frozen=True, slots=True)
class RunRecord:
    """Everything that a run leaves in `result.json`.

    `id` is the same for the same content. `lines` holds every row that is or should be a line, in the
    customers' own order; `ignored` the other rows. `archive` is the estimate packed for revisions, empty
    when it was left out; `schedule` is None until a week is planned.
    """

    # Every class inside is read by the same rules.
    __pydantic_config__: ClassVar[ConfigDict] = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False)

    format: Literal["rollwright result"]
    version: OneOrMore
    id: str
    made: MadeRecord
    revision: RevisionRecord
    orders: tuple[OrderRecord, ...]
    lines: tuple[LineRecord, ...]
    ignored: tuple[IgnoredRecord, ...]
    questions: tuple[QuestionRecord, ...]
    answers: tuple[AnswerRecord, ...]
    nest: tuple[NestRecord, ...]
    schedule: ScheduleRecord | None = None
    archive: str = ""
