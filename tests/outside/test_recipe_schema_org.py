"""schema.org's own example of a Recipe in JSON-LD and microdata (schema.org/Recipe, example 1, release 30.0).

Two of its three ingredients come as PropertyValue, one of them with unitCode G21, a US cup. The picture's, the
author's and the comments' lines, which no cook needs, are left out.
"""

from __future__ import annotations

from fractions import Fraction

from core.intake.draft import Draft, Open, dish_of, drafts_of_text, without_length
from core.measures import Quantity
from core.plan.ids import DishId
from core.plan.kitchen import StationKind
from core.plan.step import Span

JSON_LD = """
<script type="application/ld+json">
{
  "@context": "https://schema.org",
  "@type": "Recipe",
  "author": "John Smith",
  "cookTime": "PT1H",
  "datePublished": "2009-05-08",
  "image": "bananabread.jpg",
  "recipeIngredient": [
    "3 or 4 ripe bananas, smashed",
    { "@type": "PropertyValue", "value": 1, "name": "egg" },
    { "@type": "PropertyValue", "value": "3/4", "name": "sugar", "unitCode": "G21"}
  ],
  "interactionStatistic": {
    "@type": "InteractionCounter",
    "interactionType": "https://schema.org/Comment",
    "userInteractionCount": "140"
  },
  "name": "Mom's World Famous Banana Bread",
  "nutrition": { "@type": "NutritionInformation", "calories": "240 calories", "fatContent": "9 grams" },
  "prepTime": "PT15M",
  "recipeInstructions": "Preheat the oven to 350 degrees. Mix in the ingredients in a bowl. Add the flour last. \
Pour the mixture into a loaf pan and bake for one hour.",
  "recipeYield": "1 loaf",
  "suitableForDiet": "https://schema.org/LowFatDiet"
}
</script>
"""

MICRODATA = """
<div itemscope itemtype="https://schema.org/Recipe">
  <span itemprop="name">Mom's World Famous Banana Bread</span>
  <img itemprop="image" src="bananabread.jpg" alt="Banana bread on a plate" />
  Prep Time: <meta itemprop="prepTime" content="PT15M">15 minutes
  Cook time: <meta itemprop="cookTime" content="PT1H">1 hour
  Yield: <span itemprop="recipeYield">1 loaf</span>
  Tags: <link itemprop="suitableForDiet" href="https://schema.org/LowFatDiet" />Low fat
  <div itemprop="nutrition" itemscope itemtype="https://schema.org/NutritionInformation">
    Nutrition facts: <span itemprop="calories">240 calories</span>, <span itemprop="fatContent">9 grams fat</span>
  </div>
  Ingredients:
  - <span itemprop="recipeIngredient">3 or 4 ripe bananas, smashed</span>
  - <span itemprop="recipeIngredient">1 egg</span>
  - <span itemprop="recipeIngredient">3/4 cup of sugar</span>
  Instructions:
  <span itemprop="recipeInstructions">
  Preheat the oven to 350 degrees. Mix in the ingredients in a bowl. Add the flour last. Pour the mixture into a loaf
  pan and bake for one hour.
  </span>
</div>
"""


def draft_of_example(page: str) -> Draft:
    (found,) = drafts_of_text(page)
    return found


def test_the_three_ingredients_are_read() -> None:
    for page in (JSON_LD, MICRODATA):
        lines = [each.line for each in draft_of_example(page).ingredients]
        assert [(each.quantity, each.item) for each in lines] == [
            (Quantity(Fraction(4)), "ripe bananas"),
            (Quantity(Fraction(1)), "egg"),
            (Quantity(Fraction(3, 4), "cup"), "sugar"),
        ]
        assert lines[0].preparation == "smashed"
        assert "3 or 4" in lines[0].doubts[0]


def test_the_times_come_to_75_minutes() -> None:
    for page in (JSON_LD, MICRODATA):
        told = draft_of_example(page).told
        assert (told.preparing, told.cooking, told.total) == (15, 60, 75)


def test_it_is_one_loaf_and_that_is_asked() -> None:
    draft = draft_of_example(JSON_LD)
    assert (draft.yields, draft.servings) == ("1 loaf", 1)
    assert [each.about for each in draft.questions].count(Open.SERVINGS) == 1


def test_it_is_baked_for_an_hour_in_the_oven_at_350_fahrenheit() -> None:
    for page in (JSON_LD, MICRODATA):
        draft = draft_of_example(page)
        dish, links = dish_of(draft, DishId("bread"), dict.fromkeys(without_length(draft, {}), Span.of(5)))
        bake = dish.steps[-1]
        assert bake.length == Span.of(60)
        (use,) = bake.uses
        assert use.kind is StationKind.OVEN
        assert use.heat is not None
        assert use.heat.setting in (175, 177, 180)
        assert len(links) == len(dish.steps) - 1
        assert {each.step for each in dish.ingredients} == {dish.steps[0].id}, "mix in the ingredients"
