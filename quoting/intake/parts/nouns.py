"""What parts are called in the languages of order sheets: round things, and flat ones that no roll makes.

Ducts and tanks are in neither list: both are made with four sides too.
"""

from __future__ import annotations

import re

from quoting.intake.parts.snippet import FILLERS

_ROUND = re.compile(
    r"(?:shell|can|cylinder|cyl|tube|pipe|ring|sleeve|liner|casing|course|strake|barrel|stack|drum|jacket"
    r"|skirt|wrapper|hoop|band|collar|neck|nozzle|manway|manhole|spool|stub|silo|vessel|column|chimney|flue|body"
    r"|bodies|section|trunk|shroud|hopper|cone|reducer|taper|segment|half|quarter)(?:s|es)?"
    r"|\w*(?:mantel|rohr|schuss|zylinder|kessel|trommel|hulse|huelse)\w{0,2}|konus|kegel\w*|\w*schale\w?"
    r"|virol\w*|cylindre\w*|tuyau\w*|anneau\w*|fourreau\w*|cheminee|troncon\w*|manchon\w*|bague\w*|cone\w?"
    r"|cilindr\w*|tub[oi]\w*|anillo\w*|camisa\w*|cuerpo\w*|aros?|tramo\w*|manto\w*|conos?"
    r"|anell[oi]|mantell[oi]|fascia|tronchett[oi]|con[oi]|corpo|troco\w*|buis\w*|pijp\w*|romp\w*|koker\w*|ketel\w*"
    r"|plaszcz\w*|rur[ay]?|pierscien\w*|kreg\w*|walczak\w*|stoz\w*|plast\w*|trubk\w*|prsten\w*|skruz\w*|lub[yu]?"
    r"|kuzel\w*|hrdlo\w*|ror\w*|rør\w*|tub|mantlar|cylinder\w*|svep\w*|kona|kon|govde\w*|silindir\w*|boru\w*"
    r"|halka\w*|bilezik\w*|konik|koni|kopeny\w*|henger\w*|cso\w*|gyuru\w*|palast\w*|kup|putki\w*|vaippa\w*"
    r"|lierio\w*|rengas\w*|kartio\w*|mantaua|teava|inel\w*|cijev\w*|stozac|pipa|silinder|selongsong"
    r"|обечайк\w*|труб\w*|кольц\w*|цилиндр\w*|корпус\w*|конус\w*|царг\w*"
)
_CJK_ROUND = re.compile("[筒管圈环锥壳塔罐]")
_FLAT = re.compile(
    r"(?<![^\W\d_])(?:gussets?|lugs?|stiffeners?|brackets?|cleats?|covers?|lids?|doors?|caps?|bases?|foot|feet|strips?"
    r"|bars?|flats?|angles?|ribs?|baffles?|panels?|hatch(?:es)?|trays?|shel(?:f|ves)|diaphragms?|webs?|blanks?"
    r"|shims?|washers?|dis[ck]s?|wedges?|supports?|beams?|frames?|clips?|legs?|heads?|bottoms?|ends?|flanges?|tops?"
    r"|floors?|roofs?|sheets?|squares?|pads?|steps?|treads?|signs?|boxe?s?"
    r"|\w*(?:platte|blech|plaat|plat|plade|plata|levy|lemez|stahl)\w?|rippen?|laschen?|deckel|boden|stege?|tur|turen|klappen?"
    r"|konsolen?|halter|stutzen(?=blech)|flachstahl|gousset\w*|raidisseur\w*|pattes?|couvercles?|fonds?|portes?|trappes?"
    r"|platines?|semelles?|nervures?|plats?|equerres?|cartelas?|refuerzos?|orejas?|tapas?|puertas?|placas?"
    r"|rigidizador\w*|fondos?|pletinas?|escuadras?|fazzolett[oi]|costol[ae]|coperchi[oi]?|piastr[ae]|pied[ei]"
    r"|sportell[oi]|nervatur[ae]|staff[ae]|schot(?:ten)?|deksels?|voet(?:en)?|ribben?|oog|ogen|nervuras?|tampas?|fundos?"
    r"|olha(?:l|is)|portas?|reforcos?|barras?|zebr[ao]|pokryw\w*|dno|ucho|podstaw\w*|plyt\w*|vyztuh\w*|vik[ao]|patk\w*"
    r"|desk\w*|lock|fot|ora|platt\w*|botten|list\w*|kapak\w*|taban\w*|kulak\w*|takviye\w*|fedel\w*|talp\w*|borda\w*"
    r"|kansi|kannet|pohja\w*|korva\w*|tuki|ребр\w*|крышк\w*|днищ\w*|косынк\w*|опор\w*|плит\w*)(?![^\W\d_])"
    r"|[盖底筋耳垫]板|端盖"
)


_SHORT = re.compile(
    r"(?<![^\W\d_])(?:rings?|bands?|hoops?|collars?|ringe[ns]?|anneaux?|bagues?|anillos?|aros?|anell[oi]|fascia|ringen"
    r"|pierscien\w*|prsten\w*|ringar|halka\w*|gyuru\w*|rengas\w*|inel\w*|кольц\w*)(?![^\W\d_])|[圈环]"
)


def names_ring(text: str) -> bool:
    """Return whether a text in plain signs calls its part a ring: it is shorter than it is wide."""
    return _SHORT.search(text) is not None


def names_round(word: str) -> bool:
    """Return whether a word in plain signs is what something round is called.

    >>> names_round("mantelschuss"), names_round("virole"), names_round("gusset")
    (True, True, False)
    """
    return _ROUND.fullmatch(word.strip(".")) is not None or _CJK_ROUND.search(word) is not None


def names_flat(text: str) -> bool:
    """Return whether a text in plain signs names something flat, or another thing that is no rolled shell."""
    return _FLAT.search(text) is not None


def is_noun(word: str) -> bool:
    """Return whether a word may be what a part is called: it is long enough, and none that joins others."""
    plain = word.strip(".")
    return len(plain) >= _SHORTEST and plain.isalpha() and plain not in FILLERS and plain not in _NO_NOUNS


_SHORTEST = 3
_NO_NOUNS = frozenset((
    "off", "pcs", "and", "plus", "all", "new", "the", "for", "old", "rolled", "each", "only", "und",
    "con", "wall", "pos", "item", "deg", "por", "pro", "per", "para", "von", "van", "aus",
))  # fmt: skip
