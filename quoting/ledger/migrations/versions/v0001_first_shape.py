"""The first shape of the ledger."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make every table of the first shape."""
    op.create_table(
        "customers",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_customers")),
        sa.UniqueConstraint("name", name=op.f("uq_customers_name")),
    )
    op.create_table(
        "events",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("subject", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_events")),
    )
    op.create_table(
        "numbers",
        sa.Column("day", sa.String(length=8), nullable=False),
        sa.Column("last", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("day", name=op.f("pk_numbers")),
    )
    op.create_table(
        "plans",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("made", sa.Text(), nullable=False),
        sa.Column("moment", sa.Text(), nullable=False),
        sa.Column("money", sa.Text(), nullable=False),
        sa.Column("record", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plans")),
    )
    op.create_table(
        "runs",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("result", sa.Text(), nullable=False),
        sa.Column("day", sa.Text(), nullable=False),
        sa.Column("record", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_runs")),
    )
    op.create_table(
        "stops",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("machine", sa.Text(), nullable=False),
        sa.Column("start", sa.Text(), nullable=False),
        sa.Column("end", sa.Text(), nullable=False),
        sa.Column("people", sa.Integer(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_stops")),
    )
    op.create_table(
        "inquiries",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("tag", sa.Text(), nullable=False),
        sa.Column("file", sa.Text(), nullable=False),
        sa.Column("digest", sa.Text(), nullable=False),
        sa.Column("reference", sa.Text(), nullable=False),
        sa.Column("first_day", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["customer_id"], ["customers.id"], name=op.f("fk_inquiries_customer_id_customers")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_inquiries")),
        sa.UniqueConstraint("tag", name=op.f("uq_inquiries_tag")),
    )
    op.create_index(op.f("ix_inquiries_customer_id"), "inquiries", ["customer_id"], unique=False)
    op.create_table(
        "plates",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("run_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("rack_id", sa.Text(), nullable=False),
        sa.Column("material", sa.Text(), nullable=False),
        sa.Column("thickness_mm", sa.Float(), nullable=False),
        sa.Column("bought", sa.Boolean(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("expected", sa.Text(), nullable=False),
        sa.Column("rack", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["run_id"], ["runs.id"], name=op.f("fk_plates_run_id_runs")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plates")),
        sa.UniqueConstraint("run_id", "name", name=op.f("uq_plates_run_id")),
    )
    op.create_index(op.f("ix_plates_run_id"), "plates", ["run_id"], unique=False)
    op.create_table(
        "quotes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("inquiry_id", sa.Integer(), nullable=False),
        sa.Column("day", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["inquiry_id"], ["inquiries.id"], name=op.f("fk_quotes_inquiry_id_inquiries")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_quotes")),
        sa.UniqueConstraint("number", name=op.f("uq_quotes_number")),
    )
    op.create_index(op.f("ix_quotes_inquiry_id"), "quotes", ["inquiry_id"], unique=False)
    op.create_table(
        "issues",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("quote_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("run_id", sa.Integer(), nullable=False),
        sa.Column("day", sa.Text(), nullable=False),
        sa.Column("valid_until", sa.Text(), nullable=False),
        sa.Column("total", sa.Text(), nullable=False),
        sa.Column("currency", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["quote_id"], ["quotes.id"], name=op.f("fk_issues_quote_id_quotes")),
        sa.ForeignKeyConstraint(["run_id"], ["runs.id"], name=op.f("fk_issues_run_id_runs")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_issues")),
        sa.UniqueConstraint("quote_id", "number", name=op.f("uq_issues_quote_id")),
    )
    op.create_index(op.f("ix_issues_quote_id"), "issues", ["quote_id"], unique=False)
    op.create_index(op.f("ix_issues_run_id"), "issues", ["run_id"], unique=False)
    op.create_table(
        "lines",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("line", sa.Text(), nullable=False),
        sa.Column("quote_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("part", sa.Text(), nullable=False),
        sa.Column("quantity", sa.Integer(), nullable=False),
        sa.Column("price", sa.Text(), nullable=False),
        sa.Column("due", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("decided", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["quote_id"], ["quotes.id"], name=op.f("fk_lines_quote_id_quotes")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lines")),
        sa.UniqueConstraint("line", name=op.f("uq_lines_line")),
    )
    op.create_index(op.f("ix_lines_quote_id"), "lines", ["quote_id"], unique=False)
    op.create_table(
        "jobs",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("line_id", sa.Integer(), nullable=False),
        sa.Column("run_id", sa.Integer(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("order_no", sa.Text(), nullable=False),
        sa.Column("order_day", sa.Text(), nullable=False),
        sa.Column("quantity", sa.Integer(), nullable=False),
        sa.Column("due", sa.Text(), nullable=False),
        sa.Column("promised", sa.Text(), nullable=False),
        sa.Column("must_ship", sa.Text(), nullable=False),
        sa.Column("not_before", sa.Text(), nullable=False),
        sa.Column("pin_roll", sa.Text(), nullable=False),
        sa.Column("pin_day", sa.Text(), nullable=False),
        sa.Column("hold", sa.Boolean(), nullable=False),
        sa.Column("rank", sa.Integer(), nullable=True),
        sa.Column("minutes_left", sa.Integer(), nullable=True),
        sa.Column("plate_in", sa.Text(), nullable=False),
        sa.Column("roll", sa.Text(), nullable=False),
        sa.Column("since", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["line_id"], ["lines.id"], name=op.f("fk_jobs_line_id_lines")),
        sa.ForeignKeyConstraint(["run_id"], ["runs.id"], name=op.f("fk_jobs_run_id_runs")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_jobs")),
        sa.UniqueConstraint("line_id", name=op.f("uq_jobs_line_id")),
    )
    op.create_index(op.f("ix_jobs_run_id"), "jobs", ["run_id"], unique=False)
    op.create_table(
        "job_plates",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("plate_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name=op.f("fk_job_plates_job_id_jobs")),
        sa.ForeignKeyConstraint(["plate_id"], ["plates.id"], name=op.f("fk_job_plates_plate_id_plates")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_job_plates")),
        sa.UniqueConstraint("job_id", "plate_id", name=op.f("uq_job_plates_job_id")),
    )
    op.create_index(op.f("ix_job_plates_job_id"), "job_plates", ["job_id"], unique=False)
    op.create_index(op.f("ix_job_plates_plate_id"), "job_plates", ["plate_id"], unique=False)
    op.create_table(
        "minutes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("minutes", sa.Float(), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name=op.f("fk_minutes_job_id_jobs")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_minutes")),
    )
    op.create_index(op.f("ix_minutes_job_id"), "minutes", ["job_id"], unique=False)
