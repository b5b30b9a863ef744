"""Where an older message begins below the newest one: a line of dashes, `wrote:`, `Original message`."""

from __future__ import annotations

import re

_MESSAGE = (
    r"messages?|e-?mails?|mails?|enquiry|inquiry|request|nachricht(?:en)?|anfrage|mensaje|correo|messaggio|bericht"
    r"|mensagem|wiadomo[śs][ćc]|zpr[áa]va|meddeland\w*|besked|viesti|mesaj|[üu]zenet"
)
_OLD = (
    r"original|originale|earlier|previous|prior|older|old|last|first|forwarded|quoted|urspr[üu]nglich\w*|weitergeleitet\w*"
    r"|fr[üu]her\w*|alte|pr[ée]c[ée]dent\w*|d'origine|transf[ée]r[ée]\w*|anterior\w*|reenviad\w*|precedente|inoltrato|oorspronkelijk\w*"
    r"|doorgestuurd\w*|vorig\w*|encaminhad\w*|oryginaln\w*|poprzedni\w*|p[ůu]vodn[íi]|ursprungligt|oprindelig\w*"
    r"|alkuper[äa]inen|initial|eredeti"
)
_SENT = (
    r"sent|wrote|written|from|gesendet|schrieb|geschrieben|von|envoy[ée]|[ée]crit|de|enviad[oa]|escribi[óo]|inviat[oa]|scritto"
    r"|da|verzonden|schreef|van|escreveu|wys[łl]an[oa]|napisa[łl]\w*|odesl[áa]no|napsal\w*|skrev|skickat"
)
_OLDER = re.compile(
    rf"\W*[-_=–—>*]{{3,}}[^\n]*\b(?:{_SENT}|{_OLD}|messages?|e-?mails?|nachricht|mensaje|messaggio|mensagem)\b.*"
    rf"|\W*(?:begin )?(?:{_OLD})[ -]+(?:{_MESSAGE})\b(?: (?:below|follows|from|of|sent|dated)\b.*)?\W*"
    rf"|\W*(?:{_MESSAGE}) (?:{_OLD})\W*"
    r"|\W*(?:on|am|le|el|il|op|em|dnia|dne|den|the)\b.{4,80}\b(?:wrote|schrieb|[ée]crit|escribi[óo]"
    r"|ha scritto|schreef|escreveu|napisa[łl]\w*|napsal\w*|skrev)\b.{0,60}:\W*"
    r"|\W*(?:from|von|de|da|van|od|fra|fr[åa]n|expediteur)\s*:.*(?:\w@\w|\b(?:sent|date|to|gesendet|datum|envoy[ée]"
    r"|inviato|enviado|verzonden|wys[łl]ano|odesl[áa]no|skickat)\s*:).*",
    re.I,
)


def begins_older(text: str) -> bool:
    """Return whether a line says that what stands below it is an older message.

    >>> begins_older("--- sent Monday ---"), begins_older("On 3 May 2026 the buyer wrote:")
    (True, True)
    >>> begins_older("---- Monday's message ----"), begins_older("--- second list ---")
    (True, False)
    >>> begins_older("Original message"), begins_older("--- tank 2 ---")
    (True, False)
    """
    return _OLDER.fullmatch(text.strip()) is not None
