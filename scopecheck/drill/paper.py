"""A paper of exercises and its key, in Markdown and HTML, and the answers read from a file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from html import escape

from scopecheck.drill.exercise import Unreadable
from scopecheck.drill.explain import explained
from scopecheck.drill.making import Made
from scopecheck.drill.setting import lines_of
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.report.wording import about_lines, flat, sentence

_HEAD = regex(r"^\W*Paper:\s*seed (\d{1,99}), exercises (\d{1,99}), level ([0-3]), kind ([a-z ]+?)\W*$")
_ANSWER = regex(r"^\W*Answer (\d{1,99}):(.*)$")
ALL = "all"


@record
class Sort:
    """What tells a paper apart: the same sort gives the same paper."""

    seed: int
    count: int
    level: int = 0
    kind: str = ""

    @property
    def line(self) -> str:
        return f"Paper: seed {self.seed}, exercises {self.count}, level {self.level}, kind {self.kind or ALL}"


@record
class Part:
    """A heading (level 1 or 2), a paragraph, lines of a list, or a line to be filled in."""

    sort: str
    lines: tuple[str, ...]


def paper(sort: Sort, exercises: Sequence[Made]) -> list[Part]:
    """The paper: every exercise with a line for the answer."""
    parts = _head(sentence("drill", "paper", "title"), sort, exercises)
    parts.append(Part("text", (sentence("drill", "paper", "how"),)))
    for number, made in enumerate(exercises, 1):
        parts += [*_exercise(number, made), Part("line", (f"Answer {number}:",))]
    return [*parts, Part("text", about_lines())]


def key(sort: Sort, exercises: Sequence[Made]) -> list[Part]:
    """The key: every exercise with an answer that is right and the explanation."""
    parts = _head(sentence("drill", "paper", "key_title"), sort, exercises)
    for number, made in enumerate(exercises, 1):
        problem = made.exercise.problem
        parts += [*_exercise(number, made), Part("line", (f"Answer {number}: {problem.solution}",))]
        parts.append(Part("list", explained(made.bench, problem)))
    return [*parts, Part("text", about_lines())]


def _head(title: str, sort: Sort, exercises: Sequence[Made]) -> list[Part]:
    """The title, what a sheet wants printed everywhere, and which paper it is."""
    marked = dict.fromkeys(flat(m.bench.sheet.confidential) for m in exercises if m.bench.sheet.confidential)
    banner = [Part("text", tuple(marked))] if marked else []
    return [Part("title", (title,)), *banner, Part("line", (sort.line,))]


def _exercise(number: int, made: Made) -> list[Part]:
    e = made.exercise
    kind = sentence("drill", "kind", e.kind)
    head = sentence("drill", "paper", "exercise", number=number, kind=kind, level=e.level)
    *told, asked = lines_of(e, made.bench)
    return [Part("head", (head,)), Part("list", tuple(told)), Part("text", (asked, e.problem.how))]


# ---- drawn


def as_markdown(parts: Iterable[Part]) -> str:
    """The parts as Markdown; signs that Markdown reads are escaped."""
    lines: list[str] = []
    for part in parts:
        match part.sort:
            case "title" | "head":
                lines += [f"{'#' if part.sort == 'title' else '##'} {_plain(part.lines[0])}", ""]
            case "list":
                lines += [*(f"{_indent(x)}- {_marked(x)}" for x in part.lines), ""]
            case "line":
                lines += [*map(_plain, part.lines), ""]
            case _:
                lines += [*(y for x in part.lines for y in (_marked(x), ""))]
    return "\n".join(lines).rstrip("\n") + "\n"


def _indent(text: str) -> str:
    return " " * (2 * ((len(text) - len(text.lstrip())) // 2))


def _plain(text: str) -> str:
    return text.strip().replace("\u00a0", " ")


def _marked(text: str) -> str:
    return re.sub(r"([\\`*_\[\]<>#|])", r"\\\1", re.sub(r"^(\d+)\.", r"\1\\.", _plain(text)))


STYLE = (
    "body{font:16px/1.5 serif;max-width:46em;margin:2em auto;padding:0 1em}"
    "h2{margin-top:2em}.line{border-bottom:1px solid;padding:.3em 0;font-weight:bold}"
    "li.in{margin-left:1.5em}@media print{h2{break-after:avoid}}"
)


def as_html(parts: Sequence[Part]) -> str:
    """The parts as one page that loads nothing."""
    body: list[str] = []
    for part in parts:
        match part.sort:
            case "title" | "head":
                tag = "h1" if part.sort == "title" else "h2"
                body.append(f"<{tag}>{escape(_plain(part.lines[0]))}</{tag}>")
            case "list":
                items = (
                    f"<li{' class=in' if x[:1] == ' ' else ''}>{escape(_plain(x))}</li>" for x in part.lines
                )
                body.append(f"<ul>{''.join(items)}</ul>")
            case "line":
                body += (f'<p class="line">{escape(_plain(x))}</p>' for x in part.lines)
            case _:
                body += (f"<p>{escape(_plain(x))}</p>" for x in part.lines)
    title = escape(parts[0].lines[0])
    head = f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>{title}</title>\n'
    return f"{head}<style>{STYLE}</style>\n</head>\n<body>\n" + "\n".join(body) + "\n</body>\n</html>\n"


# ---- answers


def answers_in(text: str) -> tuple[Sort, dict[int, str]]:
    """Which paper a file of answers is for, and the answers by number. Raises Unreadable.

    A key in Markdown is such a file, and so is a paper filled in.
    """
    lines = text.splitlines()
    heads = [m for line in lines if (m := _HEAD.match(line))]
    if not heads:
        raise Unreadable(sentence("drill", "paper", "no_head"))
    seed, count, level, kind = heads[0].groups()
    answers: dict[int, str] = {}
    for line in lines:
        if match := _ANSWER.match(line):
            number = int(match[1])
            if number in answers:
                raise Unreadable(sentence("drill", "paper", "twice", number=number))
            answers[number] = match[2].strip()
    sort = Sort(int(seed), int(count), int(level), "" if kind == ALL else kind)
    beyond = [n for n in answers if not 1 <= n <= sort.count]
    if beyond:
        raise Unreadable(sentence("drill", "paper", "beyond", number=beyond[0], count=sort.count))
    return sort, answers
