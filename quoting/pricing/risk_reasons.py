"""Why a line is risky, in words the estimator can read out."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.core import format_length, format_weight


@dataclass(frozen=True, slots=True)
class RiskRules:
    """When a line is called risky; all thresholds are shop settings and the defaults are examples.

    `near_capacity` is a used share of a rated limit, `extra_passes` what a plate above it takes; `heavy_kg`
    is one piece; `thin_wide` is width over thickness, above which a roll's crown shows as barrel or
    hourglass; `loss_chance` is the chance of losing money worth a word. `inch` chooses the units of the
    reasons.
    """

    near_capacity: float = 0.85
    extra_passes: int = 2
    heavy_kg: float = 1000.0
    thin_wide: float = 300.0
    loss_chance: float = 0.10
    inch: bool = False


@dataclass(frozen=True, slots=True)
class RiskSigns:
    """What is known of one line when its risk is judged: shares and chances from 0 to 1, kg of one piece, mm.

    `used` is the used share of the governing limit; `liable` says that a lost free-issue piece is owed.
    """

    used: float
    over_rating_chance: float
    loss_chance: float
    piece_kg: float
    thickness_mm: float
    width_mm: float
    first_off: bool
    free_issue: bool
    liable: bool


def reasons(rules: RiskRules, line: RiskSigns) -> tuple[str, ...]:
    """Return the reasons that apply, the most telling first; none for an easy line.

    >>> reasons(RiskRules(), RiskSigns(used=0.4, over_rating_chance=0, loss_chance=0, piece_kg=1800,
    ...     thickness_mm=20, width_mm=2400, first_off=False, free_issue=False, liable=False))
    ('heavy: 1,800 kg a piece (heavy from 1,000 kg), so every move takes the crane and every slip a plate',)
    """
    found = (
        (line.loss_chance >= rules.loss_chance, _loss(line)),
        (line.over_rating_chance > 0, _over_rating(line)),
        (line.used >= rules.near_capacity, _near(rules, line)),
        (
            line.first_off,
            "first-off: the bending-roll settings have not been tried, the first piece may be lost",
        ),
        (line.piece_kg >= rules.heavy_kg, _heavy(rules, line)),
        (line.width_mm >= rules.thin_wide * line.thickness_mm, _thin_wide(rules, line)),
        (line.free_issue, _free_issue(line.liable)),
    )
    return tuple(text for applies, text in found if applies)


def _loss(line: RiskSigns) -> str:
    return f"{line.loss_chance:.0%} chance that it costs more than it is sold for"


def _over_rating(line: RiskSigns) -> str:
    return (
        "plate at the hard or thick end of what is delivered loads the roll over its rating "
        f"({_chance(line.over_rating_chance)})"
    )


def _near(rules: RiskRules, line: RiskSigns) -> str:
    return (
        f"near capacity: uses {line.used:.0%} of the roll's limit (near from {rules.near_capacity:.0%}), "
        "so more trial passes and re-rolls"
    )


def _heavy(rules: RiskRules, line: RiskSigns) -> str:
    piece = format_weight(line.piece_kg, inch=rules.inch)
    least = format_weight(rules.heavy_kg, inch=rules.inch)
    return (
        f"heavy: {piece} a piece (heavy from {least}), so every move takes the crane and every slip a plate"
    )


def _thin_wide(rules: RiskRules, line: RiskSigns) -> str:
    width = format_length(line.width_mm, inch=rules.inch)
    thickness = format_length(line.thickness_mm, inch=rules.inch)
    return (
        f"thin and wide: {width} across at {thickness}, {line.width_mm / line.thickness_mm:,.0f} to 1 "
        f"(from {rules.thin_wide:,.0f} to 1), so it may come out barrelled or hourglassed"
    )


def _chance(share: float) -> str:
    return "less than 1 % chance" if share < 0.01 else f"{share:.0%} chance"


def _free_issue(liable: bool) -> str:
    if liable:
        return "free issue: no spare plate, a lost piece stops the job and is owed to the customer"
    return "free issue: no spare plate, a lost piece stops the job; what is owed for it is not counted here"
