"""Verbs of recipes: which begin a new piece of work, and which go on without a cook. Common practice."""

from __future__ import annotations

import re

from core.reading.verbs import ALONE as ALONE_ANYWHERE


def _words(text: str) -> tuple[str, ...]:
    return tuple(text.split())


_VERBS = _words(
    "add adjust allow arrange assemble bake barbecue baste beat bend blanch blend blitz boil bone braise "
    "bread bring broil brown bruise brush bury caramelise caramelize carry carve char check chill chop clean clear "
    "coat combine continue cook cool core cover crack cream crimp crumble crush cube cure cut decorate deep-fry "
    "defrost deglaze dice dip dollop drape discard dissolve divide drain dredge drizzle drop dry dust eat empty "
    "enjoy feed "
    "fill finish fish fit flake flash flatten flip flour fold form freeze fry garnish gather give glaze "
    "grate grease grill grind halve hang heat hull infuse invert joint juice keep knead knock ladle lay "
    "leave let lift light level line loosen lower macerate make marinade marinate mash massage measure melt "
    "mince mix moisten mound move nestle open pack pan-fry parboil pare part pat peel pick pierce pinch pipe pit "
    "place plate plunge poach pod pop pour preheat prepare press prick process prop proof prop prove pull "
    "puree push put quarter raise reboil reduce refrigerate reheat release remove repeat replace reserve "
    "rest return rinse rise roast roll rotate rub salt saute scald scale scatter scoop score scrape scrub "
    "scrunch seal sear season segment separate serve set shake shape shave shell shred shuck sieve sift simmer "
    "sit skewer "
    "skim skin slash slice slide slip smash smear smoke smooth snip soak soften spatchcock spike spoon spread "
    "sprinkle squash squeeze stack stand start steam steep sterilise sterilize stew stir stone store strain "
    "stretch strip "
    "stuff submerge sweat swirl take taste tear temper tent test thaw thicken thin thread throw tie tilt "
    "tip toast top toss transfer trim truss tuck turn unmould unroll unwrap use wait warm wash weigh whip "
    "whisk whizz wilt wipe work wrap zest"
)
BEGINS = rf"(?:{'|'.join(sorted(_VERBS, key=len, reverse=True))})\b"
"""Pattern of a verb that begins a piece of work, in even text."""

_NOUNS = _words(
    "bread butter cream flour juice oil pepper salt stock top toast core roast steam zest stone shell "
    "skin quarter bone part light fish dust flake flash stuff work dip stew process crumble squash "
    "barbecue grill roll broil pinch cube joint smoke use spread glaze purée puree mash seal"
)
JOINS = (
    rf"(?!(?:{'|'.join(_NOUNS)})\b(?! (?:the|it|them|with|for|over|in|at|each|until|gently|a|an|"
    rf"your)\b)){BEGINS}"
)
"""The same after "and" or a comma, where a noun of the same spelling may stand ("salt and pepper")."""

ALONE = ALONE_ANYWHERE | frozenset(_words("poach wait let allow keep hold store"))
"""Verbs of work that goes on without a cook; "let" and "keep" are followed by what goes on."""

MOVES = frozenset(
    _words(
        "put place transfer return slide set pop move tip take remove lift lay arrange slip push pull "
        "bring give hang sit"
    )
)
"""Verbs that carry food from place to place: no work of their own beside a place that takes and gives."""

TRIFLES = MOVES | frozenset(
    _words(
        "cover uncover wrap tent seal lower raise reduce increase turn add pour stir season continue "
        "shake carry bury brush drizzle sprinkle scatter nestle slash dot prop"
    )
)
"""Work so small that it belongs to what follows it in the same place."""

COOKS = frozenset(
    _words("cook continue carry fry heat warm reheat finish return give turn lower raise reduce add stir")
)
"""Verbs that go on where the step before was."""

_WAITS = re.compile(
    r"\b(?:leave|let|allow|left|set|put|keep|leaving|should|must|needs? to|will)\b.*?\b"
    r"(?P<verb>rest|stand|cool|rise|prove|proof|chill|marinate|soak|steep|infuse|simmer|boil|bake|roast|"
    r"freeze|"
    r"thaw|cure|ferment|drain|dry|set|soften|steam|sit|bubble|cook|temper|macerate|sizzle|fry|"
    r"brown)\b"
)
_LEAD = re.compile(
    r"(?:(?:and|but|or|then|now|next|finally|first|firstly|second|secondly|lastly|also|once more|again|"
    r"again,|please|"
    r"to finish|to serve|meanwhile|in the meantime|immediately|gently|very|\w+ly)\b,? |[\W_]+|[0-9]+[.)] )*"
)
_WORD = re.compile(r"[a-z]+(?:-[a-z]+)*")
_GERUNDS = {
    each: verb
    for verb in _VERBS
    for each in (f"{verb}ing", f"{verb[:-1]}ing" if verb.endswith("e") else f"{verb}{verb[-1]}ing")
}
_OPENS = re.compile(
    r"(?:after|once|when|as soon as|in|on|for|to|with|using|while|whilst|a|an|the|at|by|into|over|under|"
    r"from|meanwhile|"
    r"before|about|just|just before|shortly|half|around|as|[0-9]+|one|two|three|four|five|ten|during|if|"
    r"working)\b"
)
_FIRST_BEGIN = re.compile(rf"\b{BEGINS}")
_STOOD = re.compile(
    r"stand (?:the|a|an|your|each|it|them)(?: \w+){0,3} (?:in|inside) (?:the|a|an)\b"
)  # to stand a tin in a pan is work
_ARTICLE = re.compile(r"\b(?:the|an?|of|your|its) $")


def lead_end(plain: str, start: int, end: int) -> int:
    """Return where the words "and then gently" before the verb of plain[start:end] end."""
    met = _LEAD.match(plain, start, end)
    return met.end() if met else start


def verb_of(plain: str, start: int, end: int) -> str:
    """Return the verb of a clause: "leave it to rest" rests, "once cool, slice" slices; else its first word."""
    at = lead_end(plain, start, end)
    first = _WORD.match(plain, at, end)
    waits = _WAITS.match(plain, at, end)
    if waits:
        verb = waits["verb"]
        return "rest" if verb == "sit" else verb
    if first and _FIRST_BEGIN.fullmatch(first[0]):
        return "put" if _STOOD.match(plain, at, end) else first[0]
    comma = plain.find(", ", at, end)
    later = _FIRST_BEGIN.match(plain, lead_end(plain, comma + 2, end), end) if comma >= 0 else None
    if later:
        return later[0]
    for any_known in _FIRST_BEGIN.finditer(plain, at, end):
        if not _ARTICLE.search(plain, at, any_known.start()):
            return any_known[0]
    return first[0] if first else ""


def opens_only(plain: str, start: int, end: int) -> bool:
    """Tell whether plain[start:end] only opens what follows its comma: "After 20 minutes", "In a large bowl"."""
    at = lead_end(plain, start, end)
    if not plain[at:end].strip(" .,;"):
        return True
    if _OPENS.match(plain, at, end) is None or plain.startswith("before ", at):
        return False
    comma = plain.find(", ", at, end)  # "the night before, rub it with salt" is more than an opening
    return comma < 0 or not begins_work(plain, comma + 2, end)


def begins_work(plain: str, start: int, end: int) -> bool:
    """Tell whether plain[start:end] begins with a verb of work, an adverb before it aside."""
    return _FIRST_BEGIN.match(plain, lead_end(plain, start, end), end) is not None


def imperative(gerund: str) -> str:
    """Return "slice" of "slicing", a word that is none as it is."""
    return _GERUNDS.get(gerund, gerund)
