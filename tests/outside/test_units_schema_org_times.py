"""schema.org's own example of a Recipe (banana bread): prepTime PT15M and cookTime PT1H."""

from core.measures import parse_minutes, show_minutes


def test_the_examples_times_add_up() -> None:
    prep, cook = parse_minutes("PT15M"), parse_minutes("PT1H")
    assert (prep, cook) == (15, 60)
    assert show_minutes(prep + cook) == "1 h 15 min"
