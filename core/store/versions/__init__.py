"""The layouts of a plan file, one script for each, run by Alembic in their order."""
