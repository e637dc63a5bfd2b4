"""Recipes on pages: saved web pages, JSON and plain text become one text whose parts are known."""
