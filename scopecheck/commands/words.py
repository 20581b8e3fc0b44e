"""The command `words`: what the words of a sheet, or of pasted claims, show by themselves."""

from __future__ import annotations

import json
import os
from typing import Literal

from scopecheck.commands.output import BAD_INPUT, FOUND, complain, put
from scopecheck.drafting.anew import is_sheet
from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.texts import no_claims, texts_of
from scopecheck.foundations.drawing import draw
from scopecheck.language.statements import read_file
from scopecheck.report.words_page import words_data, words_text
from scopecheck.text.of_sheet import Shown, shown_of_sheet
from scopecheck.text.shown import flags


def show_words(path: str, format: Literal["text", "markdown", "json"]) -> int:
    """Shows the facts about the words; the exit status says whether any is left to answer."""
    source, diagnostics = read_file(path)
    for diagnostic in diagnostics:
        complain(draw(diagnostic))
    if source is None:
        return BAD_INPUT
    if is_sheet(source.text):
        shown, count, wrong = shown_of_sheet(source)
        for diagnostic in wrong:
            complain(draw(diagnostic) + "\n")
    else:
        found = pasted(source.text)
        if not found.claims:
            complain(draw(no_claims(source)))
            return BAD_INPUT
        shown, count, wrong = Shown(flags(texts_of(found), found.practice)), len(found.claims), ()
    if format == "json":
        put(json.dumps(words_data(source.name, shown), indent=2, ensure_ascii=False) + "\n")
    else:
        put(words_text(os.path.basename(path), count, shown, format == "markdown"))
    return BAD_INPUT if wrong else FOUND if shown.open else 0
