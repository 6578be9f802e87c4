"""Writes of the structure app: one door for each thing that changes."""
