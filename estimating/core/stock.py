"""Stock lengths and the cuts made from them: first fit decreasing, a saw kerf between pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from structure.core.errors import InputError

SLACK = 1e-6  # inches; float dust never buys another board


@dataclass(frozen=True, slots=True)
class Cut:
    """One piece to be cut: the member it belongs to and its length in inches."""

    mark: str
    length: float
    use: str = ""


@dataclass(frozen=True, slots=True)
class Board:
    """One stock length in inches and the pieces cut from it, longest first."""

    stock: float
    cuts: tuple[Cut, ...]

    @property
    def used(self) -> float:
        return sum(cut.length for cut in self.cuts)

    @property
    def left(self) -> float:
        """Offcut and kerf together, in inches."""
        return self.stock - self.used


@dataclass(frozen=True, slots=True)
class CutPlan:
    """How one product is bought and cut, and what for.

    `special` says that a piece is longer than any stock length.
    """

    code: str
    product: str
    boards: tuple[Board, ...]
    kerf: float
    special: bool = False
    purpose: str = ""

    @property
    def net(self) -> float:
        return sum(board.used for board in self.boards)

    @property
    def bought(self) -> float:
        return sum(board.stock for board in self.boards)

    @property
    def longest(self) -> float:
        return max((cut.length for board in self.boards for cut in board.cuts), default=0.0)

    def counts(self) -> list[tuple[float, int]]:
        """Stock lengths bought, longest first, with how many of each."""
        lengths = sorted({board.stock for board in self.boards}, reverse=True)
        return [(length, sum(1 for b in self.boards if b.stock == length)) for length in lengths]


def fits(lengths: Sequence[float], stock: float, kerf: float) -> bool:
    """Whether pieces of these lengths come out of one stock length with a kerf between neighbours."""
    return sum(lengths) + kerf * max(len(lengths) - 1, 0) <= stock + SLACK


def first_fit_decreasing(cuts: Sequence[Cut], stock: float, kerf: float) -> list[list[Cut]]:
    """Longest piece first, each into the first board that still takes it.

    Raises InputError where a piece is longer than the stock length.
    """
    boards: list[list[Cut]] = []
    for cut in sorted(cuts, key=lambda c: (-c.length, c.mark, c.use)):
        if cut.length > stock + SLACK:
            raise InputError(f"cut for {cut.mark}", f"{cut.length:g} in", f"at most {stock:g} in")
        for board in boards:
            if fits([*(c.length for c in board), cut.length], stock, kerf):
                board.append(cut)
                break
        else:
            boards.append([cut])
    return boards


def pack(
    code: str, product: str, cuts: Sequence[Cut], lengths: Sequence[float], kerf: float, *, step: float = 24.0
) -> CutPlan:
    """Buy the least total length: first fit decreasing tried with each stock length, each board then shrunk.

    Args: lengths of stock, kerf and step in inches. A piece longer than every stock length is bought as a
    special order of its own, rounded up to the next `step`, and the plan says so.
    Raises InputError for a piece that has no length.
    """
    for cut in cuts:
        if not cut.length > 0:
            raise InputError(f"cut for {cut.mark}", cut.length, "a length greater than zero")
    stock = sorted(lengths)
    common = [c for c in cuts if stock and c.length <= stock[-1] + SLACK]
    special = [c for c in cuts if not stock or c.length > stock[-1] + SLACK]
    best: list[Board] = []
    if common:
        longest = max(c.length for c in common)
        tries = [
            _shrunk(first_fit_decreasing(common, size, kerf), stock, kerf)
            for size in stock
            if size >= longest - SLACK
        ]
        best = min(tries, key=lambda boards: (sum(b.stock for b in boards), len(boards)))
    boards = [*to_length(special, step), *best]
    return CutPlan(code, product, tuple(boards), kerf, bool(special))


def to_length(cuts: Sequence[Cut], step: float) -> list[Board]:
    """Each piece ordered to its own length, rounded up to the next step (inches)."""
    ordered = sorted(cuts, key=lambda c: (-c.length, c.mark, c.use))
    return [Board(_up(cut.length, step), (cut,)) for cut in ordered]


def _shrunk(boards: Sequence[Sequence[Cut]], stock: Sequence[float], kerf: float) -> list[Board]:
    made = []
    for cuts in boards:
        size = next(s for s in stock if fits([c.length for c in cuts], s, kerf))
        made.append(Board(size, tuple(cuts)))
    return sorted(made, key=lambda b: -b.stock)


def _up(length: float, step: float) -> float:
    steps = int(length // step)
    return step * (steps if length <= steps * step + SLACK else steps + 1)
