"""Forms of the structure app."""
