"""What the ledger holds, table by table. Moments and days are ISO text in shop time, money decimal text.

- `customers`, `inquiries` (one a sheet that came; `tag` is the letter its line ids begin with for ever)
- `quotes` (a number is used once), `issues` (the quote as it went out: 1, 2 ... of one number)
- `runs`: the records behind issues (`quote`) and behind what was won (`job`), compressed JSON
- `lines`: every priced line under its lasting id, with state `open`, `won` or `lost`
- `jobs`: won lines with where they stand and what the scheduler wishes of them
- `plates`: plates of jobs, promised until they are cut; `job_plates`: which job is cut from which
- `stops`: machines that are down and people who are away; `plans`: as published; `events`: what was done
- `actuals`: what the floor wrote down of each task of a published plan (minutes, mm), with the cells it stood
  in and what was planned; `numbers`: the last quote number given out for each day
"""

from __future__ import annotations

from sqlalchemy import (
    Boolean,
    Column,
    Float,
    ForeignKey,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
)

METADATA = MetaData(
    naming_convention={
        "ix": "ix_%(column_0_label)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def _id() -> Column[int]:
    return Column("id", Integer, primary_key=True)


def _of(table: str, *, may_lack: bool = False) -> Column[int]:
    return Column(
        f"{table.removesuffix('s')}_id", Integer, ForeignKey(f"{table}.id"), nullable=may_lack, index=True
    )


def _text(name: str, *, unique: bool = False) -> Column[str]:
    return Column(name, Text, nullable=False, default="", unique=unique)


CUSTOMERS = Table("customers", METADATA, _id(), _text("name", unique=True))

INQUIRIES = Table(
    "inquiries",
    METADATA,
    _id(),
    Column("customer_id", Integer, ForeignKey("customers.id"), nullable=False, index=True),
    _text("tag", unique=True),
    _text("file"),
    _text("digest"),
    _text("reference"),
    _text("first_day"),
)

RUNS = Table(
    "runs",
    METADATA,
    _id(),
    _text("kind"),
    _text("result"),
    _text("day"),
    Column("record", LargeBinary, nullable=False),
)

QUOTES = Table(
    "quotes",
    METADATA,
    _id(),
    _text("number", unique=True),
    Column("inquiry_id", Integer, ForeignKey("inquiries.id"), nullable=False, index=True),
    _text("day"),
)

ISSUES = Table(
    "issues",
    METADATA,
    _id(),
    _of("quotes"),
    Column("number", Integer, nullable=False),
    _of("runs"),
    _text("day"),
    _text("valid_until"),
    _text("total"),
    _text("currency"),
    UniqueConstraint("quote_id", "number"),
)

LINES = Table(
    "lines",
    METADATA,
    _id(),
    _text("line", unique=True),
    _of("quotes"),
    _text("number"),
    _text("part"),
    Column("quantity", Integer, nullable=False),
    _text("price"),
    _text("due"),
    _text("state"),
    _text("reason"),
    _text("decided"),
)

JOBS = Table(
    "jobs",
    METADATA,
    _id(),
    Column("line_id", Integer, ForeignKey("lines.id"), nullable=False, unique=True),
    _of("runs"),
    _text("state"),
    _text("order_no"),
    _text("order_day"),
    Column("quantity", Integer, nullable=False),
    _text("due"),
    _text("promised"),
    _text("must_ship"),
    _text("not_before"),
    _text("pin_roll"),
    _text("pin_day"),
    Column("hold", Boolean, nullable=False, default=False),
    Column("rank", Integer, nullable=True),
    Column("minutes_left", Integer, nullable=True),
    _text("plate_in"),
    _text("roll"),
    _text("since"),
)

PLATES = Table(
    "plates",
    METADATA,
    _id(),
    _of("runs"),
    _text("name"),
    _text("rack_id"),
    _text("material"),
    Column("thickness_mm", Float, nullable=False),
    Column("bought", Boolean, nullable=False),
    _text("state"),
    _text("expected"),
    _text("rack"),
    UniqueConstraint("run_id", "name"),
)

JOB_PLATES = Table(
    "job_plates",
    METADATA,
    _id(),
    _of("jobs"),
    _of("plates"),
    UniqueConstraint("job_id", "plate_id"),
)

STOPS = Table(
    "stops",
    METADATA,
    _id(),
    _text("kind"),
    _text("machine"),
    _text("start"),
    _text("end"),
    Column("people", Integer, nullable=False, default=0),
    _text("reason"),
)

PLANS = Table(
    "plans",
    METADATA,
    _id(),
    _text("made"),
    _text("moment"),
    _text("money"),
    Column("record", LargeBinary, nullable=False),
)

EVENTS = Table("events", METADATA, _id(), _text("at"), _text("kind"), _text("subject"), _text("text"))

ACTUALS = Table(
    "actuals",
    METADATA,
    _id(),
    _text("task", unique=True),
    _text("kind"),
    _text("line"),
    _text("machine"),
    _text("day"),
    *(Column(name, Float, nullable=True) for name in ("setup", "run", "both")),
    *(Column(name, Integer, nullable=True) for name in ("good", "scrap", "passes")),
    *(Column(name, Float, nullable=True) for name in ("readout", "girth", "diameter")),
    _text("heat"),
    _text("by"),
    _text("remark"),
    _text("cells"),
    _text("planned"),
    _text("plan"),
)

NUMBERS = Table(
    "numbers", METADATA, Column("day", String(8), primary_key=True), Column("last", Integer, nullable=False)
)
