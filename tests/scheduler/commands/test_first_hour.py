"""The first hour of a new user, step by step as the README has it: shop, mail, quote, answer, plan."""

from __future__ import annotations

import email.policy
import importlib
import re
from email import message_from_bytes
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner, Result

from scheduler.commands import main

weigh_job = importlib.import_module("quoting.ledger_commands.weigh_job")  # its function has the same name
INTERVIEW = (
    "Ridge Rolling (invented)", "inch", "USD", "45", "33", "3", "07:00-15:30", "", "28",
    "Big roll; 11; 10-1/2; 9-1/2; 10'-1; 1/2; 36", "Small roll; 6; 6; 5-1/2; 50; 3/16; 12", "",
)  # fmt: skip
MAIL = """From: Dana Sample <dana@tankyard.example>
Subject: RFQ 812 shells for day tanks
Message-ID: <812@tankyard.example>
MIME-Version: 1.0
Content-Type: text/html; charset=utf-8

<p>Good morning,</p><p>please quote these shells. All ends left flat.</p>
<table><tr><th>Item</th><th>Qty</th><th>Dia (in)</th><th>Thk</th><th>Length (in)</th><th>Material</th></tr>
<tr><td>1</td><td>2</td><td>36 OD</td><td>1/4</td><td>60</td><td>A36</td></tr>
<tr><td>2</td><td>1</td><td>24</td><td>1/4</td><td>48</td><td>A36</td></tr>
<tr><td>3</td><td>4</td><td>18 ID</td><td>1/2</td><td>36</td><td>304</td></tr></table>
<p>Best regards<br>Dana Sample</p>
"""


def type_in(*words: str, typed: str | None = None, code: int = 0) -> Result:
    done = CliRunner().invoke(main, list(words), input=typed)
    assert done.exit_code == code, done.output
    return done


def told() -> str:
    return type_in().output.splitlines()[-1]


@pytest.mark.slow
def test_the_first_hour(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("ROLLWRIGHT_NO_LEDGER", raising=False)
    assert "rollwright init my-shop" in told()
    made = type_in("init", "my-shop", "--ask", typed="\n".join(INTERVIEW) + "\n").output
    assert "what you answered is in it" in made
    assert "--shop my-shop --out out` prices" in told()

    Path("inbox").mkdir()
    Path("inbox", "enquiry.eml").write_text(MAIL)
    assert "orders wait in inbox; `rollwright watch inbox" in told()
    quick = ("--shop", "my-shop", "--today", "2026-11-30", "--effort", "quick")
    first = type_in("quote", "inbox/enquiry.eml", "--out", "out", *quick, code=1).output
    assert "1 priced, 2 with questions, 0 no-quote" in first
    assert "; quote 20261130-01" in first  # what `won` is given later
    reply = message_from_bytes(
        next(Path("out").glob("reply-*.eml")).read_bytes(), policy=email.policy.default
    )
    assert (reply["To"], reply["In-Reply-To"]) == ("dana@tankyard.example", "<812@tankyard.example>")
    assert 'Is the diameter of 24" inside, outside' in str(reply)
    assert "Good morning" not in str(reply)
    assert "about the ends" not in str(reply)  # they are left flat, the mail says

    Path("inbox", "enquiry.eml").rename("enquiry.eml")
    asks = "out/questions-2026-11-30.xlsx"
    again = f"`rollwright quote enquiry.eml --shop my-shop --out out2 --answers {asks}`"
    assert f"Next: when {asks} has its answers filled in, {again}" in told().replace("\\", "/")
    book = openpyxl.load_workbook("out/questions-2026-11-30.xlsx")
    for row in book["Questions"].iter_rows():
        if row[6].value == "A-2/basis":
            row[5].value = "outside"
        if row[6].value == "A-3/stock_thickness":
            row[5].value = row[4].value  # the one choice: bought for this job
    book.save("out/questions-2026-11-30.xlsx")
    assert f"Next: {asks} holds 2 answers; {again}" in told().replace("\\", "/")
    answers = ("--answers", "out/questions-2026-11-30.xlsx")
    second = type_in("quote", "enquiry.eml", "--out", "out2", *answers, *quick, code=1).output
    assert "2 priced, 1 with questions, 0 no-quote" in second
    assert re.search(r"no price of plate +.*: A-3\n", second)
    assert "put sizes of them among the sizes to buy in rack.xlsx" in second

    assert "questions" not in told()  # nothing is asked any more
    won = type_in("won", "20261130-01", "--out", "won", *quick).output
    assert "plates      " in won
    assert "2 won lines are not planned; `rollwright plan --from" in told()
    week = type_in("plan", "--from", "2026-12-01 06:00", "--out", "week", *quick[:2], *quick[4:]).output
    assert "2 planned" in week
    assert list(Path("week").glob("run-schedule-*.xlsx"))
    assert "not planned" not in told()

    some = weigh_job.still_examples
    monkeypatch.setattr(weigh_job, "still_examples", lambda *book: some(*book)[:8])  # all of them take long
    weighed = type_in("shop", "weigh", "--out", "weighed", *quick[:4], code=1).output
    assert "the book is sound; 8 of its figures are still examples" in weighed
    assert "of them move the last 2 lines quoted" in weighed
    assert list(Path("weighed").glob("settings-weighed-*.xlsx"))
