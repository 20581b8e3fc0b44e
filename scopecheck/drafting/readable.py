"""Whether a phrase reads words of a claim; words that differ in their numbers only are asked about once."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.record import field, holder
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.layout import Page
from scopecheck.language.pieces import Desk
from scopecheck.language.syntax import NameNode
from scopecheck.matching.subjects import Subject
from scopecheck.occurrences.groups import CLAIMS, Groups
from scopecheck.resolve.claims import subject
from scopecheck.resolve.phrases import Reader
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.names import Names, number_of

_NUMBER = regex(r"\d+(?:\.\d+)?")


@holder
class Readable:
    """Asks the phrases of a sheet. What it says of words is only a proposal: the sheet is read afterwards."""

    names: Names
    book: Phrasebook
    known: dict[tuple[object, ...], bool] = field(default_factory=dict)
    spelled: tuple[str, ...] = ()
    """Names with brackets in them, which are no plain words."""

    def reads(self, words: str, name: str) -> bool:
        """Whether a line `name : words` would be read; False for a name that is not declared."""
        several = name.split(", ")
        if not all(map(self._known, several)):
            return False
        declared = self.names.declared(name)
        numbers = [Fraction(n) for n in _NUMBER.findall(words)]
        order = tuple(a < b for a, b in pairwise(numbers))
        whole = tuple(n.denominator == 1 for n in numbers)
        what = (
            (declared.kind, declared.whole, declared.note)
            if isinstance(declared, NumberDecl)
            else declared or name
        )
        what = name if len(several) > 1 else what
        named = name if set(name.lower().split()).intersection(words.lower().split()) else ""
        said_once = (self.names.basis, self.names.in_percent)
        key = (_NUMBER.sub("#", words), order, whole, what, named, said_once)
        if key not in self.known:
            self.known[key] = self._reads(words, name)
        return self.known[key]

    def _known(self, name: str) -> bool:
        names = self.names
        declared = names.declared(name) or names.field_of(name) or names.mixture(name)
        return bool(declared or names.step(name) or name in names.terms)

    def _reads(self, words: str, name: str) -> bool:
        desk = Desk(Page(Source("words", words), self.spelled))
        reader = Reader(self.names, self.book, Groups("US examination", (), (), ()), CLAIMS, "1a")
        try:
            span = desk.span(0, len(words))
            subjects = tuple(self._subject(one, span) for one in name.split(", "))
            said = desk.words(0, len(words))
            if reader.reads(said, subjects):
                return True
            # Said more plainly they may be read; but then nothing of them may be passed over.
            reader.condition(said, subjects)
            return not reader.groups.passed
        except Trouble:
            return False

    def _subject(self, name: str, span: Span) -> Subject:
        """What stands left of the colon: a declared thing, or a field of like parts."""
        declared = self.names.declared(name)
        if declared is None or self.names.mixture(name) is not None or self.names.step(name) is not None:
            return subject(self.names, NameNode(name, span))
        bound = number_of(declared) if isinstance(declared, NumberDecl) else declared
        return Subject(bound, declared.name, span)
