"""What is said of a state, `enters the sleep mode`, and of what something answers, said more plainly.

Used by `plainer.py` alone.
"""

from __future__ import annotations

from scopecheck.core.declared import ChoiceDecl
from scopecheck.core.formula import OTHERS
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.resolve.chart import word_of
from scopecheck.resolve.subjects import Subject

Tokens = tuple[Token, ...]
_ARTICLES = frozenset(("a", "an", "the", "its", "said"))
_STATES = ("mode", "state", "position", "configuration", "setting", "phase")
_INTO = tuple(
    tuple(run.split())
    for run in (
        "operates in", "operating in", "is operated in", "operated in", "works in", "runs in", "running in",
        "enters", "entering", "enters into", "switches to", "switches into", "switching to", "is switched to",
        "switched to", "changes to", "changes into", "transitions to", "transitions into", "goes into",
        "goes to", "moves to", "is set to", "set to", "activates", "activating", "selects", "selecting",
        "assumes", "adopts", "enter", "enter into", "switch to", "switch into", "change to", "transition to",
        "go into", "go to", "move to", "activate", "select", "assume", "adopt", "operate in", "work in",
    )
)  # fmt: skip
_CHOSEN = ("selected", "chosen", "activated", "active", "used", "entered", "adopted", "set")
_FINITE = {
    "dropping": "drops", "falling": "falls", "exceeding": "exceeds", "rising": "rises", "reaching": "reaches",
    "being": "is", "becoming": "becomes", "decreasing": "decreases", "increasing": "increases",
    "remaining": "remains", "having": "has",
}  # fmt: skip


def when_in_response(tokens: Tokens) -> Tokens:
    """`in response to the voltage dropping below 3 V` as when the voltage drops below 3 V."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(len(words) - 4) if words[i : i + 3] == ["in", "response", "to"]), None)
    if at is None:
        return tokens
    verb = next((i for i in range(at + 4, len(words)) if words[i] in _FINITE), 0)
    plain = verb and all(t.sort == "word" for t in tokens[at:verb])
    conditions = listed("limits", "governing") | {"where", "only", "as"}
    if not plain or not conditions.isdisjoint(words[at + 3 : verb]):
        return tokens
    when = replace(tokens[at], text="when", end=tokens[at].start)
    behind = replace(tokens[verb], text=_FINITE[words[verb]])
    return (*tokens[:at], when, *tokens[at + 3 : verb], behind, *tokens[verb + 1 :])


def in_mode(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`enters the sleep mode`, `the sleep mode is selected`, of a mode, as that it is sleep."""
    for one in subjects:
        members = _members(one)
        for run in members:
            for at in range(len(tokens) - len(run) + 1 if len(run) else 0):
                found = _in_mode(tokens, at, run, one.text.lower())
                if found:
                    return found
    return tokens


def _in_mode(tokens: Tokens, at: int, run: list[str], name: str) -> Tokens:
    """The words with what is said of the state that begins here; none where nothing is."""
    words, end = [word_of(t) for t in tokens], at + len(run)
    noun = words[end : end + 1] != [] and words[end] in (*_STATES, name)
    if words[at:end] != run or not (noun or name.split()[-1] in _STATES):
        return ()  # the name itself is left out before
    start, behind = at - (at > 0 and words[at - 1] in _ARTICLES), end + noun
    into = next((r for r in _INTO if tuple(words[max(start - len(r), 0) : start]) == r), ())
    chosen = words[behind : behind + 1] == ["is"] and words[behind + 1 : behind + 2] != []
    if bool(into) == (chosen and words[behind + 1] in _CHOSEN):
        return ()
    begin, stop = (start - len(into), behind) if into else (start, behind + 2)
    is_so = replace(tokens[begin], text="is", end=tokens[begin].start)
    return (*tokens[:begin], is_so, *tokens[at:end], *tokens[stop:])


def _members(one: Subject) -> list[list[str]]:
    declared = one.bound.members if isinstance(one.bound, ChoiceDecl) else ()
    return [m.lower().split() for m in declared if m != OTHERS]
