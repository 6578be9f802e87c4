"""Drawings as SVG text: pure functions on plain numbers, to scale, free of Django and of scripts."""
