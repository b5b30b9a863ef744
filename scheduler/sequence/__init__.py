"""Orders a week's operations on rolls and cutting stations, times them, and says how near the best they are.

The problem. Operation i of a job is done on one machine m of those that can do it, for p_im working minutes.
All times are whole minutes on one axis from the plan's start; machines work only in their windows.
To be decided: machine, order, start.

    start_i >= release_i                       plate in, drawing approved
    start_i >= end_j + lag_ij                  after cutting, after welding away
    start_j >= end_i + s_ijm                   j follows i on m; set-up s in working minutes, asymmetric
    end_i    = start_i + p_im + pauses         what may not pause fits into one stretch of windows
    people at work in minute t <= staffing(t)  operations and set-ups; cranes likewise, operations only
    end of job <= must_ship                    and the pins: machine, start, not before, before, running

The objective is money,

    sum over machines and i -> j of s_ijm r_setup   + sum over jobs of w max(0, end - due)
    + overtime minutes at their price               + r_wip sum over jobs of (end - first start)
    + sum over operations of c_im                   money for choosing machine m, 0 for the cheapest

or, with `Aim.DATES_FIRST`, the late money first and the rest only among plans that are equal in it.
Weighted tardiness on one machine is strongly NP-hard even without set-ups (Lawler 1977, Annals of Discrete
Mathematics 1).

Choices made here.
- A set-up belongs to the machine: it may be done before the job's plate is there, stops over closed windows,
  and takes `setup_crew` people.
- People and cranes are counted in the minutes an operation is worked on: over a pause they are free.
- An overtime window is worked or closed for the whole plan and is paid for by the minutes worked in it.
- A lag counts clock minutes.

How it is solved; each part takes the problem as integers (`tables`) and gives a timed order:

- `rules`: date order, slack order, and apparent tardiness cost with set-ups (Lee, Bhaskaran &
  Pinedo 1997, IIE Transactions 29): highest
  w_j / p_j exp(-max(d_j - p_j - t, 0) / (k1 p)) exp(-s_lj / (k2 s)) first,
  p and s the means, the best of a grid of k1 and k2.
- `timing`: serial schedule generation (Kolisch 1996, European Journal of Operational Research 90) turns an
  order into minutes. Every plan, rule and comparison is timed by it.
- `by_hand`: non-delay dispatch on the quoted machine, as a foreman does it: what every plan is held against,
and
  where every search may begin, so that none ends dearer.
- `fast` with `row_kernel` (annealing, compiled): blocks moved, pairs swapped, a few on one machine changed
  over with a few on another, other machines, other people first, overtime windows opened and closed; of
  plans no dearer the one with more slack. `one_row`, for one machine alone: iterated local search.
- `cpsat` with `constraints`: intervals on each machine's axis of working minutes, one circuit with optional
  arcs a machine, cumulatives for people and crane, warm-started.
- `tour`: set-ups alone are an asymmetric travelling salesman problem, solved to proof by the assignment
  bound, subtour cuts and CP-SAT on the arcs that are left.
- `lower_bounds`, `rows_as_tour` and CP-SAT: what no plan can go below. Late money that comes from queueing is
  hard to bound, so with many late jobs the gap says more about the bound than about the plan.
- `again`: a plan taken up again by its own order, in a changed problem or with one job brought forward. With
  `Aim.DATES_FIRST` the plan of least money is taken up so too, and the better of both is kept.
- `late_setups`: at the end each set-up moves to just before its operation, as crew and windows allow.
- `checker`: replays the plan minute by minute; nothing is returned that it finds fault with.
- `wishes`: pins and hard dates that no plan keeps together come back as a smallest set; the rest is planned.

`solve` strings them together and is repeatable: limits are counts of candidates and CP-SAT's deterministic
time. Each effort begins with all that the lesser ones do, so that more is never dearer. The compiled code is
made once for an installation and kept.
"""

from scheduler.sequence.again_with import money_again
from scheduler.sequence.checked_plan import NoPlanError
from scheduler.sequence.checker import check as faults_of
from scheduler.sequence.exact import Crowd, alone_too_late, crowded, soonest
from scheduler.sequence.plan import Assignment, Conflict, Plan
from scheduler.sequence.prices import per_minute
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import (
    After,
    Aim,
    Job,
    Machine,
    Mode,
    MustShip,
    Operation,
    Pin,
    PlanRates,
    SetupMatrix,
    Staffing,
    Window,
    Wish,
)
from scheduler.sequence.resume import (
    aim_rank,
    bring_forward,
    checked,
    job_end,
    latest_jobs,
    opened_in,
    ranked,
    time_again,
    timed_again,
)
from scheduler.sequence.rules import HandOrders, Saving, compare, unplaced_by_hand
from scheduler.sequence.search import (
    Drawn,
    HeldPlaces,
    Mixing,
    Places,
    Wanted,
    compile_beside,
    compile_search,
    drawn_ends,
    fast_search,
    mixed_from,
    search_is_compiled,
)
from scheduler.sequence.solve import solve
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import (
    Opened,
    Tables,
    Timed,
    money,
    overtime_windows,
    tables,
    ticks,
    time_order,
)

__all__ = [
    "After",
    "Aim",
    "Assignment",
    "Conflict",
    "Crowd",
    "Drawn",
    "HandOrders",
    "HeldPlaces",
    "Job",
    "Machine",
    "Mixing",
    "Mode",
    "MustShip",
    "NoPlanError",
    "Opened",
    "Operation",
    "Pin",
    "Places",
    "Plan",
    "PlanRates",
    "Saving",
    "SequenceProblem",
    "SetupMatrix",
    "Staffing",
    "Stop",
    "Tables",
    "Timed",
    "Wanted",
    "Window",
    "Wish",
    "aim_rank",
    "alone_too_late",
    "bring_forward",
    "checked",
    "compare",
    "compile_beside",
    "compile_search",
    "crowded",
    "drawn_ends",
    "fast_search",
    "faults_of",
    "job_end",
    "latest_jobs",
    "mixed_from",
    "money",
    "money_again",
    "opened_in",
    "overtime_windows",
    "per_minute",
    "ranked",
    "search_is_compiled",
    "solve",
    "soonest",
    "tables",
    "ticks",
    "time_again",
    "time_order",
    "timed_again",
    "unplaced_by_hand",
]
