"""Where on one plate: two kinds of free space, one for free layouts and one for guillotine cuts.

`MaxRects` keeps all maximal free rectangles (Jylanki 2010, "A thousand ways to pack the bin").
`GuillotineRects` keeps the parts of the plate that the cuts so far have made, each with the stage and the
direction of the cut that freed it, so that a layout never needs more stages, nor a longer cut, than the
shear can do. Lengths are micrometres. A rule is a small number; searches try several.
"""

from __future__ import annotations

from typing import TypeAlias

from quoting.nesting.plate.lengths import SLACK

Spot: TypeAlias = tuple[int, int, int, int]  # score, x, y, handle of the free part
Box: TypeAlias = tuple[int, int, int, int]  # x, y, w, h
Part: TypeAlias = tuple[int, int, int, int, int, int]  # x, y, w, h, stage, last cut

Room: TypeAlias = tuple[int, int]  # w, h

FREE_RULES = 3
SHEAR_RULES = 6
_ROW = 1 << 36  # weight of x against y in the corner rule: more than any plate is wide


class MaxRects:
    """Maximal free rectangles of one plate; rules: 0 short side fit, 1 area fit, 2 towards the corner."""

    def __init__(self, w: int, h: int, blocked: Box | None, rule: int) -> None:
        self.free: list[Box] = [(0, 0, w, h)]  # as x0, y0, x1, y1
        self.rule = rule
        if blocked:
            self.take(*blocked)

    def spot(self, w: int, h: int) -> Spot | None:
        """Return the best place for a box of w by h, lowest score first, or None."""
        best: Spot | None = None
        rule = self.rule
        for k, (x0, y0, x1, y1) in enumerate(self.free):
            dx = x1 - x0 - w
            dy = y1 - y0 - h
            if dx < 0 or dy < 0:
                continue
            if rule == 0:
                score = dx if dx < dy else dy
            elif rule == 1:
                score = (x1 - x0) * (y1 - y0) - w * h
            else:
                score = (x0 + w) * _ROW + y0
            if best is None or score < best[0]:
                best = (score, x0, y0, k)
        return best

    def place(self, spot: Spot, w: int, h: int) -> None:
        """Take the box of w by h at the spot out of the free space."""
        self.take(spot[1], spot[2], spot[1] + w, spot[2] + h)

    def take(self, x0: int, y0: int, x1: int, y1: int) -> None:
        """Take the box from x0, y0 to x1, y1 out of the free space."""
        kept: list[Box] = []
        cut: list[tuple[Box, int]] = []
        beside: tuple[list[Box], ...] = ([], [], [], [])
        for part in self.free:
            a0, b0, a1, b1 = part
            if x0 >= a1 or x1 <= a0 or y0 >= b1 or y1 <= b0:
                kept.append(part)
                if x0 == a1:  # only over the side that it ends at may it hold a new one
                    beside[0].append(part)
                elif x1 == a0:
                    beside[1].append(part)
                elif y0 == b1:
                    beside[2].append(part)
                elif y1 == b0:
                    beside[3].append(part)
                continue
            if a0 < x0:
                cut.append(((a0, b0, x0, b1), 0))
            if x1 < a1:
                cut.append(((x1, b0, a1, b1), 1))
            if b0 < y0:
                cut.append(((a0, b0, a1, y0), 2))
            if y1 < b1:
                cut.append(((a0, y1, a1, b1), 3))
        self.free = kept + _not_inside(cut, beside)

    def rooms(self) -> list[Room]:
        """Return the sizes of the free parts, those left out that are no larger than another."""
        return _largest([(x1 - x0, y1 - y0) for x0, y0, x1, y1 in self.free])

    def leftovers(self) -> list[Box]:
        """Return the free rectangles as x, y, w, h; they overlap."""
        return [(x0, y0, x1 - x0, y1 - y0) for x0, y0, x1, y1 in self.free]


def _largest(sizes: list[Room]) -> list[Room]:
    """Return the sizes that are no larger than no other one, widest first."""
    found: list[Room] = []
    highest = 0
    for size in sorted(sizes, reverse=True):
        if size[1] > highest:
            highest = size[1]
            found.append(size)
    return found


def _not_inside(cut: list[tuple[Box, int]], beside: tuple[list[Box], ...]) -> list[Box]:
    """Return those new rectangles that lie in no other one, of equal ones the first.

    Each is given with the side of the box that it ends at. What holds it reaches over that side and not into
    the box, so it ends there too: it is a new one of that side, or one of those `beside` it.
    """
    out: list[Box] = []
    new: tuple[list[Box], ...] = ([], [], [], [])
    for part, side in cut:
        new[side].append(part)
    for part, side in cut:
        x0, y0, x1, y1 = part
        first = True
        for other in new[side]:
            if other is part:
                first = False
                continue
            a0, b0, a1, b1 = other
            if a0 <= x0 and b0 <= y0 and a1 >= x1 and b1 >= y1 and (first or other != part):
                break
        else:
            for a0, b0, a1, b1 in beside[side]:
                if a0 <= x0 and b0 <= y0 and a1 >= x1 and b1 >= y1:
                    break
            else:
                out.append(part)
    return out


_NONE, _ACROSS, _ALONG = 0, 1, 2  # direction of the last cut: none yet, at an x, at a y


class GuillotineRects:
    """Parts of one plate under guillotine cuts.

    `rule` = score rule (0 short side, 1 area, 2 corner) + 3 for the second way to choose the first cut:
    0-2 leave the largest single part, 3-5 cut the shorter leftover first.
    """

    def __init__(self, w: int, h: int, blocked: Box | None, *, rule: int, stages: int, longest: int) -> None:
        self.rule = rule % 3
        self.shorter_first = rule >= 3
        self.stages = stages
        self.longest = longest
        self.free: list[Part] = []
        if blocked is None:
            self.free.append((0, 0, w, h, 0, _NONE))
        elif blocked[0] * h >= blocked[1] * w:
            self._start(0, 0, min(blocked[0], w), h, _ACROSS)
            self._start(blocked[0], 0, w - blocked[0], blocked[1], _ALONG)
        else:
            self._start(0, 0, w, min(blocked[1], h), _ALONG)
            self._start(0, blocked[1], blocked[0], h - blocked[1], _ACROSS)

    def _start(self, x: int, y: int, w: int, h: int, direction: int) -> None:
        if w > 0 and h > 0:
            self.free.append((x, y, w, h, 1, direction))

    def spot(self, w: int, h: int) -> Spot | None:
        """Return the best place for a box of w by h, lowest score first, or None."""
        best: Spot | None = None
        rule = self.rule
        for k, (x, y, fw, fh, _, _) in enumerate(self.free):
            dx = fw - w
            dy = fh - h
            if dx < 0 or dy < 0:
                continue
            if rule == 0:
                score = dx if dx < dy else dy
            elif rule == 1:
                score = fw * fh - w * h
            else:
                score = (x + w) * _ROW + y
            if (best is None or score < best[0]) and self._order(w, h, self.free[k]):
                best = (score, x, y, k)
        return best

    def _order(self, w: int, h: int, part: Part) -> int:
        """Return the direction of the first cut that frees w by h from fw by fh, 0 when the shear cannot."""
        _, _, fw, fh, stage, last = part
        narrower, lower = fw - w > SLACK, fh - h > SLACK
        more = self.stages - stage
        if narrower and lower:
            across = (last != _ACROSS) + 1 <= more and fh <= self.longest and w <= self.longest
            along = (last != _ALONG) + 1 <= more and fw <= self.longest and h <= self.longest
        elif narrower:
            across = (last != _ACROSS) <= more and fh <= self.longest
            along = (last != _ACROSS) <= more and h <= self.longest
        elif lower:
            across = (last != _ALONG) <= more and w <= self.longest
            along = (last != _ALONG) <= more and fw <= self.longest
        else:
            across = along = more >= 0
        if across and along:
            dx, dy = fw - w, fh - h
            if self.shorter_first:
                return _ACROSS if dx < dy else _ALONG
            return _ACROSS if max(dx * fh, w * dy) >= max(dy * fw, dx * h) else _ALONG
        return _ACROSS if across else _ALONG if along else _NONE

    def place(self, spot: Spot, w: int, h: int) -> None:
        """Cut the box of w by h off the low corner of the part at the spot."""
        part = self.free.pop(spot[3])
        x, y, fw, fh, stage, last = part
        if self._order(w, h, part) == _ACROSS:
            if fw - w > SLACK:
                stage, last = stage + (last != _ACROSS), _ACROSS
                self.free.append((x + w, y, fw - w, fh, stage, last))
            if fh - h > SLACK:
                self.free.append((x, y + h, w, fh - h, stage + (last != _ALONG), _ALONG))
            return
        if fh - h > SLACK:
            stage, last = stage + (last != _ALONG), _ALONG
            self.free.append((x, y + h, fw, fh - h, stage, last))
        if fw - w > SLACK:
            self.free.append((x + w, y, fw - w, h, stage + (last != _ACROSS), _ACROSS))

    def rooms(self) -> list[Room]:
        """Return the sizes of the free parts, those left out that are no larger than another."""
        return _largest([(w, h) for _, _, w, h, _, _ in self.free])

    def leftovers(self) -> list[Box]:
        """Return the free parts as x, y, w, h."""
        return [part[:4] for part in self.free]
