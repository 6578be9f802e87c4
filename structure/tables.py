"""The candidates of a run: those that pass first, with how close; those that fail, with why."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import django_tables2 as tables
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from structure.diagrams.words import MM_PER_INCH
from structure.families import family_title
from structure.shown import metric
from structure.templatetags.structure_pages import plain, quantity_short, ratio_words

KG_M = 0.45359237 / 0.3048  # of a pound to the foot
NUM = {"td": {"class": "num"}, "th": {"class": "num"}}


class CandidateTable(tables.Table):
    """Every beam tried. Rows are those of `structure.options_page`.

    `take(row)` gives the button that takes a beam; without it nobody may take one.
    """

    label = tables.Column(verbose_name="Beam", attrs={"td": {"class": "name"}})
    group = tables.Column(verbose_name="Family")
    depth = tables.Column(verbose_name="Depth, in", attrs=NUM)
    plies = tables.Column(verbose_name="Plies", attrs=NUM)
    weight = tables.Column(verbose_name="Weight, lb/ft", attrs=NUM)
    under = tables.Column(verbose_name="Left under it", orderable=False, attrs=NUM)
    cost = tables.Column(verbose_name="Installed", attrs=NUM)
    ratio = tables.Column(verbose_name="Used, by what", attrs={"td": {"class": "bar"}})
    passes = tables.Column(verbose_name="Answer")
    key = tables.Column(verbose_name="", orderable=False)

    class Meta:
        attrs = {"id": "candidates"}
        empty_text = "No beam of those tried is like that: ask for fewer things at once."

    def __init__(self, *args: Any, take: Callable[[Any], SafeString] | None, priced: bool, **kw: Any) -> None:
        self.take = take
        hidden = [name for name, shown in (("cost", priced), ("key", take is not None)) if not shown]
        super().__init__(*args, exclude=hidden, **kw)
        if metric():
            self.columns["depth"].column.verbose_name = "Depth, mm"
            self.columns["weight"].column.verbose_name = "Weight, kg/m"

    def render_label(self, value: str, record: Any) -> SafeString | str:
        if not record["entered"]:
            return value
        return format_html(
            '{} <span class="tag tag--note tag--long">as entered from {}</span>', value, record["entered"]
        )

    def render_group(self, value: str) -> str:
        return family_title(value)

    def render_depth(self, value: Any) -> str:
        return f"{value * MM_PER_INCH:.0f}" if metric() else f"{value:g}"

    def render_weight(self, value: Any) -> str:
        return f"{value * KG_M:.1f}" if metric() else f"{value:.1f}"

    def render_ratio(self, value: Any, record: Any) -> SafeString:
        return format_html(
            '<meter class="ratio" min="0" max="1.5" low="0.9" high="1" optimum="0.5" value="{}" '
            'aria-hidden="true"></meter> {}<br><small>{}</small>',
            f"{min(value, 1.5):.4f}",
            ratio_words(value),
            plain(record["governing"]),
        )

    def render_under(self, value: Any) -> str:
        return quantity_short(value)

    def render_cost(self, value: Any) -> str:
        return f"{value:,.0f}"

    def render_passes(self, value: bool, record: Any) -> SafeString:
        tone, word = ("ok", "passes") if value else ("bad", "fails")
        tags = [(tone, word), ("note", "worked out")] if record["chosen"] else [(tone, word)]
        told = format_html_join(" ", '<span class="tag tag--{}">{}</span>', tags)
        if value:
            return told
        reasons = format_html_join("", "<li>{}</li>", ((reason,) for reason in record["fails"]))
        return format_html(
            '{} <details class="why"><summary>why<span class="visually-hidden"> {} fails</span></summary>'
            "<ul>{}</ul></details>",
            told,
            record["label"],
            reasons,
        )

    def render_key(self, record: Any) -> SafeString | str:
        return self.take(record) if self.take and record["passes"] else ""
