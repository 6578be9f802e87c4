"""Writes of the estimating app: one door for each thing that changes."""
