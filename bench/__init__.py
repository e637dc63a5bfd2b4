"""Measurements: `python -m bench` prints this machine's description and a table of figures. No test is timed."""
