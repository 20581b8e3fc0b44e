"""The page on the words alone: each fact at its words, claim by claim, and what was answered once."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap
from typing import Any, TypeAlias

from scopecheck.foundations.regex import regex
from scopecheck.language.syntax import AnsweredStatement
from scopecheck.report.wording import GLUE, claims_text, counted, flat, listed, quoted, sentence
from scopecheck.text.flags import Flag
from scopecheck.text.of_sheet import Shown

WIDTH = 90
AROUND = 40
"""Characters of the claim on each side of the words."""


def fact(flag: Flag) -> str:
    """What the words show, as a sentence."""
    values: dict[str, Any] = dict(flag.values)
    line = values.pop("line", ())
    values = {key: _filled(value) for key, value in values.items()}
    return sentence(
        "shown", flag.form, words=quoted(flag.words), claims=claims_text(line) if line else "", **values
    )


def _filled(value: object) -> object:
    if isinstance(value, tuple):
        numbers = [v for v in value if isinstance(v, int)]
        return claims_text(numbers) if numbers else listed((quoted(str(v)) for v in value), "and")
    return flat(value) if isinstance(value, str) else value


def words_text(title: str, claims: int, shown: Shown, markdown: bool) -> str:
    """The whole page as plain text, or as Markdown."""
    lines: list[str] = []
    for heading, paragraphs, items in _sections(title, claims, shown):
        if heading:
            lines += [
                "",
                f"## {heading}" if markdown else heading,
                *([] if markdown else ["─" * len(heading)]),
                "",
            ]
        for text in paragraphs:
            lines += [*([text] if markdown else wrap(text, WIDTH)), ""]
        for text in items:
            lines += (
                [f"- {text}"]
                if markdown
                else wrap(text, WIDTH, initial_indent="  ", subsequent_indent="    ")
            )
    return "\n".join(lines).replace(GLUE, " ").strip("\n") + "\n"


Section: TypeAlias = tuple[str, tuple[str, ...], tuple[str, ...]]


def _sections(title: str, claims: int, shown: Shown) -> Iterator[Section]:
    """Heading, paragraphs and items of each section."""
    count = counted(len(shown.open), "fact")
    yield title, (sentence("words", "head", claims=counted(claims, "claim"), facts=count),), ()
    for number in dict.fromkeys(f.claim for f in shown.open):
        yield (
            sentence("words", "claim", claim=number),
            (),
            tuple(line(f) for f in shown.open if f.claim == number),
        )
    if shown.answered:
        yield sentence("words", "answered"), (), tuple(_answer(f, a) for f, a in shown.answered)
    if shown.idle:
        told = (sentence("words", "idle_line", line=a.span.line, words=quoted(a.words)) for a in shown.idle)
        yield sentence("words", "idle"), (), tuple(told)
    foot = [sentence("words", "about")]
    if shown.open:
        first = shown.open[0]
        foot.insert(0, sentence("words", "how", words=quoted(first.words), claim=first.claim))
    yield sentence("words", "behind"), tuple(foot), ()


def _answer(flag: Flag, answer: AnsweredStatement) -> str:
    return sentence(
        "words", "answer", claim=flag.claim, words=quoted(flag.words), answer=flat(answer.answer),
        reason=quoted(answer.reason),
    )  # fmt: skip


def line(flag: Flag) -> str:
    """The words, what they show, and where they stand in the claim."""
    told = sentence("words", "line", words=quoted(flag.words), fact=fact(flag))
    return f"{told} {sentence('words', 'place', context=context(flag))}"


_RESTATED = regex(r"\n[ \t]*\|[^\n]*")
"""A line in the margin, which is not the claim's."""


def context(flag: Flag) -> str:
    """The claim's words around what is flagged."""
    text, span = flag.span.source.text, flag.span
    before = text[max(0, span.start - AROUND) : span.start].split("\n\n")[-1]
    before = " ".join(" ".join(_RESTATED.split(before)).split()[1:])
    after = _RESTATED.split(text[span.end : span.end + AROUND].split("\n\n")[0], maxsplit=1)[0]
    after = " ".join(after.split()[:-1])
    within = flat(flag.span.text)
    within = within if len(within) < 90 else within[:60] + " ..."
    behind = " " * text[span.end : span.end + 1].isspace()
    told = " ".join(part for part in (before and f"... {before}", within) if part)
    return quoted(f"{told}{behind}{after} ..." if after else told)


def words_data(source: str, shown: Shown) -> dict[str, Any]:
    """The page as data for JSON."""
    return {
        "schema_version": 1,
        "source": source,
        "shown": [
            {"sort": f.sort, "claim": f.claim, "words": f.words, "fact": fact(f), "context": context(f),
             "line": f.span.line, "column": f.span.column}
            for f in shown.open
        ],
        "answered": [
            {"sort": f.sort, "claim": f.claim, "words": f.words, "answer": a.answer, "reason": a.reason}
            for f, a in shown.answered
        ],
        "answers_without_effect": [{"words": a.words, "line": a.span.line} for a in shown.idle],
    }  # fmt: skip
