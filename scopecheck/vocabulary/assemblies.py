"""Assemblies: the kinds of part that make up one thing, each a declared count, and what is closed of them.

Nothing else knows of assemblies but what lists their members: that no other kind of part is there says that
their counts are 0.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from scopecheck.core.declared import Assembly, NumberDecl
from scopecheck.core.formula import Bound
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, did_you_mean, trouble
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.syntax import AssemblyKind, Declare, NameNode
from scopecheck.vocabulary.classes import OTHER_WORDS
from scopecheck.vocabulary.names import Names
from scopecheck.vocabulary.parts import plural_of

_OPENING = regex(r"(?:(?:which|that) )?(?:is |are )?(?:consist|compris)(?:s|es|ing)\b", re.IGNORECASE)
_CLOSING = regex(r"(?:(?:which|that) )?(?:is |are )?consist(?:s|ing)? of\b", re.IGNORECASE)


def declare_assemblies(statements: Iterable[Declare], names: Names, wrong: list[Diagnostic]) -> None:
    """Puts every assembly, with counts of what nobody listed, into the names, last of all declarations."""
    work = _Work(names, {}, set())
    for statement in statements:
        if isinstance(statement.kind, AssemblyKind):
            name = statement.names[0].name
            if len(statement.names) > 1:
                help = "declare each on its own line"
                wrong.append(Diagnostic("error", statement.span, "several assemblies in one line", "", help))
            elif first := work.written.get(name.lower()):
                also = ((first.span, "declared first here"),)
                span = statement.names[0].span
                wrong.append(Diagnostic("error", span, f"'{name}' is declared twice", also=also))
            else:
                work.written[name.lower()] = statement
    for name in work.written:
        try:
            if name not in work.wrong:
                work.assembly(name, ())
        except Trouble as error:
            wrong.append(error.diagnostic)
            work.wrong.add(name)


@record
class _Work:
    names: Names
    written: dict[str, Declare]
    wrong: set[str]

    def assembly(self, name: str, above: tuple[str, ...]) -> Assembly:
        """The assembly of a name; those among its members are made first. Raises Trouble at what is wrong."""
        statement = self.written[name]
        kind, node = statement.kind, statement.names[0]
        assert isinstance(kind, AssemblyKind)
        if name in self.names.assemblies:
            return self.names.assemblies[name]
        taken = self.names.declared(node.name) or self.names.kind(node.name) or self.names.step(node.name)
        if taken or name in self.names.compositions:
            raise trouble(node.span, f"'{node.name}' is declared twice")
        listed = self.listed(node.name, kind, (*above, name))
        more = () if kind.only else (f"others in {node.name}", f"unrelated things in {node.name}")
        others, unrelated = more or ("", "")
        made = replace(listed, members=(*listed.members, *more), others=others, unrelated=unrelated)
        self.names.assemblies[name] = made
        for rest in more:
            self.names.declarations[rest] = _count(rest, statement.note, statement.span)
        return made

    def listed(self, name: str, kind: AssemblyKind, above: tuple[str, ...]) -> Assembly:
        """The members as written, without what nobody listed."""
        members: list[str] = []
        classes: list[tuple[str, tuple[str, ...]]] = []
        called: list[tuple[str, str]] = []
        for member in (m for m in kind.members if m.name not in OTHER_WORDS):
            inner = self.inner(member, above)
            found = inner.members if inner else (self.count_of(member, called),)
            if twice := next((m for m in found if m in members), None):
                message = f"'{twice}' is in '{name}' twice"
                raise trouble(member.span, message, "", "take out one of the two")
            members += found
            if inner:
                classes += [(inner.name, inner.members), *inner.classes]
                called += inner.called
        if not members:
            raise trouble(kind.span, f"the assembly '{name}' has no parts", "", "name those that it has")
        return Assembly(
            name, tuple(members), tuple(classes), "", "", tuple(called), self.written[above[-1]].span
        )

    def inner(self, member: NameNode, above: tuple[str, ...]) -> Assembly | None:
        """The assembly that a member names; None where it names a kind of part."""
        key = member.name.lower()
        if key in above:
            way = " above ".join((*above[above.index(key) :], key))
            self.wrong.update(above)
            raise trouble(
                member.span, f"the assembly '{member.name}' is a part of itself",
                f"It goes round: {way}.", "take one of these out",
            )  # fmt: skip
        return self.assembly(key, above) if key in self.written else None

    def count_of(self, member: NameNode, called: list[tuple[str, str]]) -> str:
        """The declared count of a kind of part. Raises Trouble where the name is of something else."""
        kind = self.names.kind(member.name)
        if kind and kind[0].within is None:
            called += [(kind[0].name.lower(), kind[0].count), (kind[0].plural.lower(), kind[0].count)]
            return kind[0].count
        declared = self.names.declared(member.name)
        if isinstance(declared, NumberDecl) and declared.whole and self.names.one_of(declared.name) is None:
            called += [(one, declared.name) for one in _singulars(declared.name.lower())]
            return declared.name
        raise self.no_part(member)

    def no_part(self, member: NameNode) -> Trouble:
        """The error for a member that is no kind of part, with what to write instead."""
        cause = "An assembly is made up of parts and counts that are declared, and of other assemblies."
        help = f"declare it, for example: {member.name}  count"
        kind = self.names.kind(member.name)
        if kind and kind[0].within:
            outer = kind[0].within.name.rpartition(" ")[0]
            cause = f"Each {outer} has {kind[0].plural} of its own."
            help = f"write {self.names.kind(outer)[0].plural}"
        elif self.names.declared(member.name) is not None:
            help = "name the part that has it, or take it out"
        else:
            kinds = [k[0].plural for k in self.names.kinds.values() if k[0].within is None]
            numbers = (d for d in self.names.declarations.values() if isinstance(d, NumberDecl))
            counts = [d.name for d in numbers if d.whole and not self.names.one_of(d.name)]
            help = did_you_mean(member.name, (*kinds, *counts, *self.written)) or help
        return trouble(member.span, f"'{member.name}' is no kind of part", cause, help)


def _count(name: str, note: str, span: Span) -> NumberDecl:
    return NumberDecl(name, PLAIN_KIND, PLAIN, True, Bound(Fraction(0), True), None, False, note, span)


def _singulars(plural: str) -> list[str]:
    """What one of several may be called: plate of plates, box and boxe of boxes, body of bodies."""
    return [one for one in (plural[:-1], plural[:-2], f"{plural[:-3]}y") if plural_of(one) == plural]


def no_assembly(words: Span, subject: str) -> Trouble | None:
    """The error for `plates : consisting of two screws`, where no assembly stands left of the colon."""
    if not _OPENING.match(" ".join(words.text.split())):
        return None
    return trouble(
        words, f"'{subject}' is no assembly and no composition",
        "The words say what something is made up of.",
        "declare for example: kit  assembly of plates, springs; and put kit left of the colon",
    )  # fmt: skip


def closed_counts(names: Names, node: object, words: str) -> frozenset[str]:
    """The counts of an assembly that a line closes, without those of assemblies within it; else none."""
    made = names.mixture(node.name) if isinstance(node, NameNode) else None
    if not isinstance(made, Assembly) or not _CLOSING.match(" ".join(words.split())):
        return frozenset()
    inner = {m for _, below in made.classes for m in below}
    return frozenset(made.members) - inner
