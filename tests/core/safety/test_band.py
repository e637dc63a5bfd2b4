from __future__ import annotations

from itertools import pairwise

import pytest

import demo_data
from core.intake.text_plan import read_text
from core.safety.band import band
from core.safety.story import Story, Warmth, stories
from tests.support.hand_made import hand_made


@pytest.fixture(scope="module")
def told() -> tuple[Story, ...]:
    plan = read_text(demo_data.text_of("harvest_supper.toml"))
    return stories(plan, hand_made(plan))


def test_every_band_runs_from_the_first_minute_to_the_last_and_stays_in_its_bounds(
    told: tuple[Story, ...],
) -> None:
    for story in told:
        points = band(story)
        assert points[0].at == story.stretches[0].start
        assert points[-1].at == story.stretches[-1].end
        assert all(one.at <= other.at for one, other in pairwise(points))
        assert all(-18 <= each.low <= each.high <= 100 for each in points)


def test_the_pork_is_cold_overnight_and_at_its_core_when_it_comes_out(told: tuple[Story, ...]) -> None:
    story = next(each for each in told if each.food.item == "rack of pork")
    points = band(story)
    night = next(each for each in points if each.at > -400 and each.warmth is Warmth.COLD)
    assert 3.9 <= night.low <= night.high <= 6
    done = [each for each in points if each.warmth is Warmth.COOKING][-1]
    assert (done.low, done.high) == (63, 63)
