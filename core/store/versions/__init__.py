"""The layouts of a plan file, one script for each, run by Alembic in their order.

A new layout: change `core.store.tables`, add a script here that leads from the last one to it (a table with
rows that refer to it is changed in a batch), count `SCHEMA` on, and keep a file of the new version among the
samples of the tests, to be opened for ever. Scripts of released versions never change.
"""
