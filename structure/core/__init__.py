"""The structural engine: pure functions on plain numbers, free of Django, clock and settings."""
