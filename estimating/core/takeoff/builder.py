"""The sheet that the takeoff rules write on: lines, cut plans, cautions, assumptions."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal

from estimating.core.items import ITEMS
from estimating.core.lines import COST_CODES, Line, Rule
from estimating.core.metric import metric_rate, metric_words
from estimating.core.numbers import THOUSANDTH, ZERO, measured
from estimating.core.schedule import Schedule
from estimating.core.sections import Section
from estimating.core.settings import TakeoffSettings
from estimating.core.stock import Cut, CutPlan, pack, to_length
from estimating.core.units import length
from structure.core.measure import format_feet_inches

STOCK_STEP_FT = 2
STOCK_SHORTEST_FT = 8
STOCK_SOURCE = "stock lengths 8 to 20 ft in 2 ft steps, Canadian Wood Council text; special order above"


@dataclass
class Sheet:
    """Everything one takeoff gathers. Rules add to it in the order of the work."""

    schedule: Schedule
    settings: TakeoffSettings
    lines: list[Line] = field(default_factory=list)
    cuts: list[CutPlan] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)
    labour_hours: Decimal = ZERO

    @property
    def metric(self) -> bool:
        return self.settings.metric

    def add(
        self,
        code: str,
        net: Decimal | int,
        marks: Iterable[str],
        rule: Rule,
        *,
        unit: str = "",
        waste: Decimal = ZERO,
        reuse: Decimal = ZERO,
        allowance: bool = False,
        detail: str = "",
        description: str = "",
    ) -> None:
        """One line for a catalogued item. Nothing is added for a quantity of zero."""
        item = ITEMS[code]
        net = Decimal(net)
        if net + waste - reuse <= 0:
            return
        self.lines.append(
            Line(
                code=code,
                description=self.say(description or item.description),
                net=net,
                unit=unit or item.unit,
                kind=item.kind,
                division=item.division,
                cost_code=item.cost_code,
                marks=tuple(marks),
                rule=self._rule(rule),
                waste=waste,
                reuse=reuse,
                allowance=allowance,
                detail=self.say(detail),
            )
        )

    def labour(
        self,
        code: str,
        amount: float,
        per_unit: float,
        basis: str,
        marks: Iterable[str],
        source: str = "common practice",
    ) -> None:
        """Hours = amount x hours per unit x alteration factor x the contractor's factor."""
        factor = self.settings.alteration * self.settings.productivity
        hours = measured(amount * per_unit * factor)
        if self.metric:
            amount, per_unit, basis = metric_rate(amount, per_unit, basis)
        rule = Rule(
            f"{amount:.4g} {basis} at {per_unit:.3g} h each, times {self.settings.alteration:g} for"
            f" alteration work and"
            f" {self.settings.productivity:g} by the contractor's own factor",
            source,
        )
        self.add(code, hours, marks, rule)
        self.labour_hours += hours

    def lumber(
        self,
        cost_code: str,
        pieces: Sequence[tuple[Section, Cut]],
        sentence: str,
        *,
        uses: int = 1,
        source: str = "common practice",
    ) -> None:
        """Lines and cut plans for sized lumber, one of each per product.

        Sawn pieces come out of stock lengths; engineered ones are ordered to length in 2 ft steps. Offcuts
        and kerf are the waste. Lumber that is used again is charged by its share, and the saving is shown.
        """
        by_code: dict[str, list[tuple[Section, Cut]]] = defaultdict(list)
        for section, cut in pieces:
            by_code[section.code].append((section, cut))
        for code, group in by_code.items():
            section, cuts = group[0][0], [cut for _, cut in group]
            plan = replace(self._plan(code, section, cuts), purpose=COST_CODES[cost_code])
            self.cuts.append(plan)
            net, unit = length(plan.net, self.metric)
            bought, _ = length(plan.bought, self.metric)
            reuse = (bought * (uses - 1) / uses).quantize(THOUSANDTH) if uses > 1 else ZERO
            words = sentence + (f"; used {uses} times, so a share of 1/{uses} is charged" if uses > 1 else "")
            self.lines.append(
                Line(
                    code=code,
                    description=section.product,
                    net=net,
                    unit=unit,
                    kind="material",
                    division=cost_code[:2],
                    cost_code=cost_code,
                    marks=tuple(dict.fromkeys(cut.mark for cut in cuts)),
                    rule=self._rule(Rule(words, source)),
                    waste=max(bought - net, ZERO),
                    reuse=reuse,
                    detail=self.pieces(plan),
                )
            )

    def pieces(self, plan: CutPlan) -> str:
        """`3 pieces of 14 ft, 1 of 10 ft`: how a supplier is asked."""
        parts = []
        for inches, count in plan.counts():
            feet = f"{inches / 12:g} ft"
            # Yards in Canada sell by the foot too, so the supplier is asked in both.
            amount = f"{inches * 0.0254:.2f} m ({feet})" if self.metric else feet
            parts.append(f"{count} of {amount}")
        return "buy " + ", ".join(parts)

    def _plan(self, code: str, section: Section, cuts: Sequence[Cut]) -> CutPlan:
        step = STOCK_STEP_FT * 12.0
        if section.family != "sawn":
            longest = self.settings.engineered_longest_ft * 12.0
            boards = to_length(cuts, step)
            plan = CutPlan(code, section.product, tuple(boards), self.settings.kerf_in, False)
            if plan.longest > longest:
                self.caution(
                    f"{section.product}: a piece of {self.show(plan.longest)} is longer than the"
                    f" {longest / 12:g} ft"
                    " a supplier delivers; ask before this is priced."
                )
        else:
            stock = [
                ft * 12.0
                for ft in range(STOCK_SHORTEST_FT, self.settings.stock_longest_ft + 1, STOCK_STEP_FT)
            ]
            plan = pack(code, section.product, cuts, stock, self.settings.kerf_in, step=step)
            if plan.special:
                self.caution(
                    f"{section.product}: a piece of {self.show(plan.longest)} is longer than the"
                    f" longest stock of"
                    f" {self.settings.stock_longest_ft} ft; it is a special order, and it is not to be"
                    f" spliced"
                    " without the engineer's word."
                )
        if plan.longest > self.settings.carry_in_ft * 12.0:
            self.caution(
                f"{section.product}: a piece of {self.show(plan.longest)} has to come into the house;"
                f" plan the way in"
                " (stair, window, wall opening) before it is ordered."
            )
        return plan

    def say(self, words: str) -> str:
        """Words with their amounts in the units of the takeoff."""
        return metric_words(words) if self.metric else words

    def _rule(self, rule: Rule) -> Rule:
        return replace(rule, sentence=self.say(rule.sentence), source=self.say(rule.source))

    def caution(self, sentence: str) -> None:
        """A sentence for the quote, once."""
        sentence = self.say(sentence)
        if sentence not in self.cautions:
            self.cautions.append(sentence)

    def assume(self, sentence: str) -> None:
        """An assumption for the quote, once."""
        sentence = self.say(sentence)
        if sentence not in self.assumptions:
            self.assumptions.append(sentence)

    def show(self, inches: float) -> str:
        """A length as people of these units read it."""
        return f"{inches * 25.4:,.0f} mm" if self.metric else format_feet_inches(inches)
