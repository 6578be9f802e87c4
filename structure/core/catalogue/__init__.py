"""Every stock size tried for one beam, each with why it fails or how close it is."""

from __future__ import annotations

from structure.core.catalogue.result import Candidate, SearchResult
from structure.core.catalogue.search import search_beams
from structure.core.catalogue.stock import stock_sections
from structure.core.catalogue.wanted import Search

__all__ = ["Candidate", "Search", "SearchResult", "search_beams", "stock_sections"]
