"""A whole plan as text: what follows what, long forms where short ones fail, files."""

from dataclasses import replace
from fractions import Fraction

import pytest

from core.intake.text_plan import FORMS, read_file, read_text, write_file, write_text
from core.measures.quantity import TO_TASTE, Quantity
from core.measures.refusal import Refusal
from core.plan.decisions import Choice, LengthOf, Order, Pin, Wishes
from core.plan.ids import CookId, StationId, StepId
from core.plan.kitchen import Heater, Shelf, StationKind, Window
from core.plan.menu import Ingredient, Link, LinkKind
from core.plan.step import (
    Alternative,
    Attention,
    ClockTime,
    Doneness,
    Heat,
    Holding,
    Keep,
    Loads,
    Manner,
    Span,
    Touch,
    Use,
    VesselUse,
    Wait,
    Yield,
)
from tests.support.builders import (
    a_cook,
    a_dish,
    a_fridge,
    a_grill,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_vessel,
    an_oven,
    at_oven,
    chained,
)

HEAD = """
name = "Supper"
plating = "2026-09-26 19:30 Europe/London"
[station.oven]
name = "Oven"
kind = "oven"
[cook.ann]
name = "Ann"
"""

THREE = """
[dish.pie]
name = "Pie"
[dish.pie.step.fill]
does = "Fill"
takes = 5
{fill}
[dish.pie.step.bake]
does = "Bake"
takes = "40/50/60"
{bake}
[dish.pie.step.cut]
does = "Cut"
takes = 3
{cut}
"""


def pie(fill="", bake="", cut="", more=""):
    return read_text(HEAD + THREE.format(fill=fill, bake=bake, cut=cut) + more)


def links(plan):
    return [(link.before, link.after, link.least, link.most) for link in plan.menu.links]


def step(plan, local):
    return plan.steps[StepId(f"pie.{local}")]


def test_steps_follow_each_other_from_top_to_bottom():
    assert links(pie()) == [("pie.fill", "pie.bake", 0, None), ("pie.bake", "pie.cut", 0, None)]


def test_the_wait_to_the_step_below_is_written_on_the_step():
    plan = pie(bake='wait = "10 to 30 min, in its vessel"')
    assert links(plan)[1] == ("pie.bake", "pie.cut", 10, 30)
    assert plan.menu.links[1].wait == Wait(Holding.VESSEL)


def test_after_takes_the_place_of_the_step_above():
    assert links(pie(bake="after = []")) == [("pie.bake", "pie.cut", 0, None)]
    assert links(pie(cut='after = ["fill: up to 5 min"]')) == [
        ("pie.fill", "pie.bake", 0, None),
        ("pie.fill", "pie.cut", 0, 5),
    ]


def test_also_after_comes_on_top_of_the_step_above():
    assert links(pie(cut='also_after = "fill"')) == [
        ("pie.fill", "pie.bake", 0, None),
        ("pie.bake", "pie.cut", 0, None),
        ("pie.fill", "pie.cut", 0, None),
    ]


def test_links_across_dishes_name_the_dish():
    sauce = '[dish.sauce]\nname = "Sauce"\n[dish.sauce.step.stir]\ndoes = "Stir"\ntakes = 5\nafter = ["pie.cut"]\n'
    assert links(pie(more=sauce))[-1] == ("pie.cut", "sauce.stir", 0, None)


def test_a_step_is_tended_where_it_has_touches_and_hands_on_else():
    assert step(pie(), "bake").attention is Attention.HANDS_ON
    tended = step(pie(bake='touches = ["at 20, 2 min: turn"]\noven = "180 C"'), "bake")
    assert tended.attention is Attention.TENDED
    assert tended.touches == (Touch(20, 2, "turn"),)
    assert step(pie(bake='attention = "Hands-off"'), "bake").attention is Attention.HANDS_OFF


def test_doneness_needs_no_cue():
    assert step(pie(), "bake").doneness is None
    assert step(pie(bake='core = "165F"'), "bake").doneness == Doneness("", 74)
    assert step(pie(bake='done_when = ""'), "bake").doneness == Doneness()


def test_servings_wanted_are_those_written_for_unless_said():
    assert pie().dishes["pie"].wanted == 4
    plan = read_text(HEAD + '[dish.pie]\nname = "Pie"\nserves = 6\n')
    assert (plan.dishes["pie"].written_for, plan.dishes["pie"].wanted) == (6, 6)


def full_plan():
    bake = a_step(
        "pie.bake",
        "Bake",
        (40, 50, 60),
        attention=Attention.TENDED,
        touches=(Touch(20, 2, "turn"), Touch(0, 1, "", from_end=True, skill="able")),
        put_in=0,
        take_out=2,
        uses=(at_oven(180), Use(StationKind.BURNER), Use(StationKind.OVEN, heat=Heat(170, 160, 171, steady=False))),
        vessels=(VesselUse("tin", 2),),
        loads=Loads(9, 4, 1),
        least_piece=5,
        doneness=Doneness("gold", 75, 5),
        earliest=-600,
        latest=-10,
        clock=ClockTime(0, 1000),
        keeps=Keep(20, Wait(Holding.HOT, Use(StationKind.BURNER))),
        alternatives=(Alternative("slow", Span.of(90), (at_oven(140),)), Alternative("7", Span.of(45))),
        note="two\nlines",
        yields=Yield("crumbs: fine", Quantity(Fraction(1, 3), "kg")),
    )  # fmt: skip
    fill = a_step("pie.fill", "Fill", 5, hands=2, skill="able")
    cut = a_step("tart.cut", "Cut", 3)
    pie = a_dish(
        "pie",
        fill,
        bake,
        code="P",
        written_for=4,
        wanted=8,
        course=-5,
        served=False,
        keep=Keep(30),
        ingredients=(Ingredient("salt", TO_TASTE, "fine", fill.id, "dry", True, ("none",), ""),),
        allergens=("gluten",),
        plating="whole",
        note="n",
    )
    everything = (
        Link(bake.id, fill.id, 5, 9, LinkKind.START_TO_START, brings=TO_TASTE),
        *chained(fill, bake, least=2),
        a_link("pie.fill", "tart.cut", kind=LinkKind.END_TO_END),
    )
    kitchen = a_kitchen(
        oven=an_oven(heater=Heater(-5, 250, (), 4.5, 2.0, 10, 18, 12), hours=(Window(1, 600, 2000),), fan=True),
        vessels=(a_vessel("tin", 2, size="28 cm", washing=0, by_hand=False),),
        cooks=(
            a_cook("ann", "able", present=(Window(0, 540, 1440),), breaks=(Window(0, 720, 750),), night=None),
            a_cook("ben", "able"),
        ),
    )  # fmt: skip
    grill = replace(a_grill(), laying=0, fires=2, not_with=(StationId("oven"), StationId("fridge")))
    others = tuple(each for each in kitchen.stations if each.id != grill.id)
    kitchen = replace(kitchen, walk=0, stations=(*others, grill))
    return a_plan(
        pie,
        a_dish("tart", cut),
        links=everything,
        kitchen=kitchen,
        transfer=0,
        opens=-4000,
        manner=Manner.HIGH,
        pins=(Pin(bake.id, 1, -500, StationId("oven"), CookId("ann")), Pin(cut.id, start=-3)),
        choices=(Choice(bake.id, 2), Choice(fill.id, 0)),
        lengths=(LengthOf(cut.id, Manner.SAFE),),
        orders=(Order(bake.id, cut.id),),
        wishes=Wishes(fresh=1, sleep_until=9 * 60 + 5),
    )


@pytest.mark.parametrize("form", FORMS)
def test_every_field_comes_back(form):
    plan = full_plan()
    # such a plan need not be sound: only its text is looked at here
    assert read_unchecked(write_text(plan, form), form) == plan


def read_unchecked(text, form):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("core.plan.check.found", lambda _plan: ())
        return read_text(text, form)


@pytest.mark.parametrize("form", FORMS)
def test_links_out_of_order_keep_their_order(form):
    one, two, three = (a_step(f"pie.{name}") for name in ("one", "two", "three"))
    for order in ((0, 1), (1, 0)):
        chain = chained(one, two, three)
        plan = a_plan(a_dish("pie", one, two, three), links=tuple(chain[at] for at in order))
        text = write_text(plan, form)
        assert ("link" in text) == (order == (1, 0))
        assert read_text(text, form) == plan


def test_one_added_link_leaves_the_others_at_their_steps():
    one, two, three = (a_step(f"pie.{name}") for name in ("one", "two", "three"))
    added = a_link("pie.one", "pie.two", kind=LinkKind.END_TO_END)
    plan = a_plan(a_dish("pie", one, two, three), links=(*chained(one, two, three), added))
    text = write_text(plan)
    assert text.count("[[link]]") == 1
    assert "after" not in text.partition("[[link]]")[0]
    assert read_text(text) == plan


def test_odd_texts_survive_toml():
    odd = 'a "quote", a \\ and \u2028no; "#" [x] = {y} \t tab \x7f'
    plan = read_unchecked(write_text(a_plan(a_dish("pie", name=odd, note="l1\nl2\r\nl3"))), "toml")
    assert plan.dishes["pie"].name == odd
    assert plan.dishes["pie"].note == "l1\nl2\r\nl3"


def test_the_written_text_reads_like_a_typed_one():
    cook, serve = (
        a_step("soup.cook", "Cook", (20, 25, 30), uses=(Use(StationKind.BURNER),)),
        a_step("soup.serve", "Serve", 2),
    )
    soup = a_dish("soup", cook, serve, keep=Keep(10))
    plan = a_plan(soup, links=(a_link("soup.cook", "soup.serve", 0, 20),))
    assert write_text(plan).partition("[dish.soup]")[2] == (
        '\nname = "Soup"\nserves = 4\nkeeps = "up to 10 min"\n\n'
        '[dish.soup.step.cook]\ndoes = "Cook"\ntakes = "20 / 25 / 30 min"\nburner = 1\nwait = "up to 20 min"\n\n'
        '[dish.soup.step.serve]\ndoes = "Serve"\ntakes = "2 min"\n'
    )


def test_files(tmp_path):
    plan = a_plan(a_dish("soup", a_step("soup.boil")), kitchen=a_kitchen(stations=(a_fridge(Shelf(1, 1)),)))
    for form in FORMS:
        path = tmp_path / f"plan.{form.upper()}"
        write_file(plan, path)
        assert read_file(path) == plan
        assert b"\r" not in path.read_bytes()


def test_a_file_may_have_a_mark_and_other_line_ends(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes(b"\xef\xbb\xbf" + HEAD.replace("\n", "\r\n").encode())
    assert read_file(path).name == "Supper"


def test_files_refused(tmp_path):
    def refused(name, content=None):
        path = tmp_path / name
        if content is not None:
            path.write_bytes(content)
        with pytest.raises(Refusal) as caught:
            read_file(path)
        return caught.value.text

    assert refused("plan.txt") == "plan.txt is not a plan as text; its name must end in .toml or .json."
    assert "plan.toml cannot be read" in refused("plan.toml")
    assert refused("bad.toml", b"\xff\xfe") == "bad.toml is not plain text in UTF-8; save it again as UTF-8."
    assert refused("no.toml", b"name = ").startswith("no.toml: This is not well-formed TOML: ")
    assert refused("few.toml", b'name = "x"').startswith("few.toml: The key plating")
    with pytest.raises(Refusal, match="cannot be written"):
        write_file(a_plan(), tmp_path / "not" / "there.toml")
    with pytest.raises(ValueError, match="unknown form"):
        read_text("", "yaml")


def test_an_edited_plan_is_checked():
    plan = full_plan()
    with pytest.raises(Refusal):
        read_text(write_text(replace(plan, transfer=999)))


WHOLE_DAY = """
name = "Supper"
plating = "2026-09-26 19:30 Europe/London"
walk = "2 min"

[decisions.wishes]
sleep_until = "9:30"

[station.oven]
name = "Oven"
kind = "oven"
not_with = "grill"
heater = { settings = "50 to 250 C", full = "10 %" }

[station.grill]
name = "Grill under the oven's roof"
kind = "grill"
lighting = "25 min"
laying = "10 min"
burns = 60
fires = 2
not_with = ["oven"]

[vessel]
tin = { name = "Tin", washing = "3 min", by_hand = false }

[cook.ann]
name = "Ann"

[dish.cheese]
name = "Cheese"

[dish.cheese.step.drain]
does = "Drain"
takes = 5
yields = "whey: 1.5 l"
"""


def test_what_the_whole_of_a_day_needs_is_typed_as_people_say_it():
    plan = read_text(WHOLE_DAY)
    oven, grill = plan.kitchen.stations
    assert plan.kitchen.walk == 2
    assert plan.decisions.wishes == Wishes(sleep_until=570)
    assert (oven.not_with, oven.heater.full) == (("grill",), 10)
    assert (grill.lighting, grill.laying, grill.burns, grill.fires) == (25, 10, 60, 2)
    assert (plan.kitchen.vessels[0].washing, plan.kitchen.vessels[0].by_hand) == (3, False)
    assert plan.steps[StepId("cheese.drain")].yields == Yield("whey", Quantity(Fraction(3, 2), "l"))
    assert read_text(write_text(plan)) == plan


def test_what_is_as_usual_is_not_written():
    text = write_text(a_plan(a_dish("pie", a_step("pie.cut")), kitchen=a_kitchen(vessels=(a_vessel(),))))
    for key in ("walk", "sleep_until", "laying", "fires", "not_with", "by_hand", "yields"):
        assert key not in text
