"""The candidates of a run: those that pass first, with how close; those that fail, with why."""

from __future__ import annotations

from typing import Any

import django_tables2 as tables
from django.utils.html import format_html_join
from django.utils.safestring import SafeString

from structure.templatetags.structure_pages import plain, ratio_words

NUM = {"td": {"class": "num"}, "th": {"class": "num"}}


class CandidateTable(tables.Table):
    """Every beam tried. Rows are plain dictionaries of `structure.results.candidates`."""

    label = tables.Column(verbose_name="Beam")
    depth = tables.Column(verbose_name="Depth, in", attrs=NUM)
    plies = tables.Column(verbose_name="Plies", attrs=NUM)
    ratio = tables.Column(verbose_name="Used", attrs=NUM)
    governing = tables.Column(verbose_name="Decided by")
    passes = tables.Column(verbose_name="Answer")
    why = tables.Column(verbose_name="Why", orderable=False)

    class Meta:
        attrs = {"id": "candidates"}
        order_by = ("-passes", "ratio")
        empty_text = "No beam was tried: see the reason above."

    def render_depth(self, value: Any) -> str:
        return f"{value:g}"

    def render_ratio(self, value: Any) -> str:
        return ratio_words(value)

    def render_governing(self, value: Any) -> str:
        return plain(value)

    def render_passes(self, value: bool, record: Any) -> SafeString:
        tone, word = ("ok", "passes") if value else ("bad", "fails")
        tags = [(tone, word), ("note", "worked out")] if record["chosen"] else [(tone, word)]
        return format_html_join(" ", '<span class="tag tag--{}">{}</span>', tags)
