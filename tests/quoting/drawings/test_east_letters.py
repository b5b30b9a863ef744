"""Names in any script are printed, and what no font holds is told."""

from __future__ import annotations

import pytest

from quoting.drawings.sketch.east_letters import GAP, font_for, with_fonts


def latin(letter: str) -> bool:
    return ord(letter) < 0x250


@pytest.mark.parametrize(
    ("text", "font"),
    [
        ("サンプル", "HeiseiKakuGo-W5"),
        ("见本", "STSong-Light"),
        ("한국", "HYGothic-Medium"),
        ("Łódź", ""),
        ("हिन्दी", GAP),
    ],
)
def test_each_script_has_its_font_or_is_told(text: str, font: str) -> None:
    assert {font_for(letter, latin, text) for letter in text} == {font}


def test_chinese_characters_beside_kana_are_japanese() -> None:
    assert font_for("本", latin, "見本サンプル") == "HeiseiKakuGo-W5"
    assert font_for("本", latin, "見本") == "STSong-Light"


def test_markup_in_a_name_stays_text_and_a_gap_is_said_once() -> None:
    said = with_fonts("<b>見 & हिन्दी</b>", latin, "見")
    assert said == f'&lt;b&gt;<font name="STSong-Light">見</font> &amp; {GAP}&lt;/b&gt;'
