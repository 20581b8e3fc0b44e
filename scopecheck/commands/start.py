"""The command `start`: a sheet from pasted claims, or what is proposed for a sheet whose text was edited."""

from __future__ import annotations

import os

from scopecheck.commands.output import BAD_INPUT, already_there, complain, put
from scopecheck.drafting.anew import is_sheet, proposed_anew
from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.remarks import with_remarks
from scopecheck.drafting.start import drafted
from scopecheck.drafting.texts import no_claims, too_long
from scopecheck.foundations.drawing import draw
from scopecheck.language.statements import read_file


def start_sheet(path: str, to: str) -> int:
    """Prints or writes a sheet for the claims of a file, and for a sheet what is proposed anew.

    A text without claims is bad input. A file that exists is never written to.
    """
    if to and os.path.lexists(to):
        complain(already_there(to))
        return BAD_INPUT
    source, diagnostics = read_file(path)
    for diagnostic in diagnostics:
        complain(draw(diagnostic))
    if source is None:
        return BAD_INPUT
    if is_sheet(source.text):
        put(proposed_anew(source), to)
        return 0
    found = pasted(source.text)
    if not found.claims:
        complain(draw(no_claims(source)))
        return BAD_INPUT
    if (wrong := too_long(source, found)) is not None:
        complain(draw(wrong))
        return BAD_INPUT
    draft = drafted(source.name, found)
    with_remarks(draft, found, os.path.basename(path))
    put(draft.written().text, to)
    return 0
