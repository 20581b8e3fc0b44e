"""Steps called by what is done to what: a claim's `the adding of the fibres` for `adding fibres`."""

from __future__ import annotations

from scopecheck.core.declared import Step
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.states import form_of, is_participle
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.plainer_steps import calls
from scopecheck.vocabulary.names import Names

Tokens = tuple[Token, ...]

_ARTICLES = frozenset("the a an said".split())
_DONE = frozenset("is are was were being be been has have".split())


def with_objects_of_steps(tokens: Tokens, subjects: tuple[Subject, ...], names: Names) -> Tokens:
    """`after the adding of the fibres`, `once the fibres have been added`, with the name of a step that is
    called adding fibres; other words as they are."""
    if not any(isinstance(s.bound, Step) or s.moments for s in subjects):
        return tokens
    called = [step.name for step in names.steps.values() if " " in step.name]
    words = [word_of(t) for t in tokens]
    found, at = list[Token](), 0
    while at < len(tokens):
        ends = ((name, _end_of(words, at, name.lower().split())) for name in called)
        name, end = next((named for named in ends if named[1]), ("", at + 1))
        found += words_at(replace(tokens[at], end=tokens[end - 1].end), name) if name else tokens[at:end]
        at = end
    return tuple(found)


def _end_of(words: list[str], at: int, name: list[str]) -> int:
    """Where the words end that call the step from here on; 0 if none do, or only its very name."""
    doing, it = name[:1], name[1:]
    start = at + (words[at] in _ARTICLES)
    verb = words[start : start + 1]
    if verb == doing or (start > at and calls(verb, doing)):
        begin = start + 1 + (words[start + 1 : start + 2] == ["of"])
        begin += not _ARTICLES.isdisjoint(words[begin : begin + 1])
        return begin + len(it) if words[begin : begin + len(it)] == it and begin > at + 1 else 0
    end = start + len(it)
    if words[start:end] != it or words[end : end + 1] == [] or words[end] not in _DONE:
        return 0
    while end < len(words) and words[end] in _DONE:
        end += 1
    done = words[end : end + 1]
    return end + 1 if done and is_participle(done[0]) and form_of(done[0]) == form_of(doing[0]) else 0
