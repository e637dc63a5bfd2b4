"""Sentences made from values, in one place: reasons, ways out, quality, chances, delays.

Every value that the window shows keeps its facts in fields; its words are made here and nowhere else, so that a
translation replaces this package alone. One module for each topic, each with `say_...(plan, value) -> str`.
"""
