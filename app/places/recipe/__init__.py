"""Bringing in a recipe: its text at the left, the dish that was read of it at the right, nothing in the plan yet."""
