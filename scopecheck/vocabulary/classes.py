"""Classes of members: halogen above chlorine. A class stands for the members below it, and for one more.

That one more is `other halogen`, unless the class is closed with `only`.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from scopecheck.core.declared import Assembly, ChoiceDecl, Classes, Composition, SetDecl
from scopecheck.core.formula import OTHERS, Chosen, Compare, Const, Formula, Includes, Measured, any_of
from scopecheck.foundations.diagnostics import did_you_mean, trouble
from scopecheck.foundations.record import record
from scopecheck.language.syntax import ClassLine, NameNode
from scopecheck.vocabulary.parts import plural_of

ListBound = SetDecl | ChoiceDecl | Composition | Assembly
OTHER_WORDS = ("others", OTHERS)
UNRELATED_WORDS = ("unrelated", "unrelated things")
IMPURITY_WORDS = frozenset(
    "".join((kind, word))
    for kind in ("", "ordinary ", "usual ", "unavoidable ", "inevitable ", "incidental ")
    for word in ("impurities", "impurity")
)


@record
class Classed:
    """The members that are no classes, in order, and what each class stands for."""

    members: tuple[str, ...]
    classes: Classes


def classed(listed: Iterable[NameNode], lines: tuple[ClassLine, ...], more: tuple[str, ...] = ()) -> Classed:
    """The members of a list, or the ingredients of a composition, with the classes written below it.

    `more` are the members that stand for what is not listed. Raises Trouble at a class that is declared
    twice, has no place in the list, or stands below itself.
    """
    work = _Work({}, {}, {}, [], more)
    for line in lines:
        key = line.name.name.lower()
        if line.members is None:
            continue
        if key in work.lines:
            raise trouble(line.name.span, f"the class '{line.name.name}' is declared twice")
        work.lines[key] = line
    for name in listed:
        work.put(name, ())
    late = [line for line in work.lines.values() if not line.all_but]
    for line in (*late, *(x for x in work.lines.values() if x.all_but)):
        work.rank(line)
    order = [line.name.name for line in work.lines.values()]
    return Classed((*work.members, *more), tuple((name, work.below[name.lower()]) for name in order))


@record
class _Work:
    lines: dict[str, ClassLine]
    below: dict[str, tuple[str, ...]]
    spelled: dict[str, str]
    members: list[str]
    more: tuple[str, ...]

    def put(self, name: NameNode, above: tuple[str, ...]) -> tuple[str, ...]:
        """What a name stands for: itself, new to the list or not, or the members of the class it names."""
        key = name.name.lower()
        if key in above:
            way = " above ".join((*above[above.index(key) :], key))
            raise trouble(
                name.span, f"the class '{name.name}' stands below itself", f"It goes round: {way}.",
                "take one of these out",
            )  # fmt: skip
        if key in self.lines:
            return self.open(self.lines[key], above)
        if key not in self.spelled:
            self.spelled[key] = name.name
            self.members.append(name.name)
        return (self.spelled[key],)

    def open(self, line: ClassLine, above: tuple[str, ...]) -> tuple[str, ...]:
        key = line.name.name.lower()
        if key not in self.below:
            assert line.members is not None
            listed = [name for name in line.members if name.name not in OTHER_WORDS]
            found = [m for name in listed for m in self.put(name, (*above, key))]
            if not line.only:
                found.append(f"other {line.name.name}")
                self.members.append(found[-1])
            self.below[key] = tuple(dict.fromkeys(found))
        return self.below[key]

    def rank(self, line: ClassLine) -> None:
        """A class that no list names: it gathers members that are listed, or all but some of them."""
        key = line.name.name.lower()
        if key in self.below:
            return
        assert line.members is not None
        known = (*self.spelled.values(), *(x.name.name for x in self.lines.values()))
        for name in line.members:
            if name.name.lower() not in self.spelled and name.name.lower() not in self.lines:
                raise trouble(
                    name.span, f"'{name.name}' is not listed above",
                    f"The class '{line.name.name}' is itself not listed; it can gather only what is.",
                    did_you_mean(name.name, known) or f"put {line.name.name} into the list",
                )  # fmt: skip
        if not line.all_but:
            self.open(line, ())
            return
        out = {m for name in line.members for m in self.put(name, (key,))}
        self.below[key] = tuple(m for m in (*self.members, *self.more) if m not in out)


# ---- what words name


def stands_for(listed: ListBound, words: str) -> str | None:
    """The member or class that words name, articles dropped, or None."""
    plain = " ".join(words.lower().split()).replace("- and ", "-and-").replace("- or ", "-or-")
    names = (*listed.members, *(name for name, _ in listed.classes))
    own, of, _ = listed.name.lower().partition(" of ")
    if of and plain == own and set(names) - {OTHERS} == {"yes", "no"}:
        return "yes"  # 'each field is marked', of what is marked of the fields
    for article in ("", "a ", "an ", "the "):
        if not plain.startswith(article):
            continue
        wanted = plain[len(article) :]
        if wanted in OTHER_WORDS:
            own = listed.others if isinstance(listed, Composition | Assembly) else OTHERS
            return own if own in listed.members else None
        if isinstance(listed, Composition) and wanted in IMPURITY_WORDS and listed.impurities:
            return listed.impurities
        if isinstance(listed, Assembly):
            if wanted in UNRELATED_WORDS and listed.unrelated:
                return listed.unrelated
            if count := dict(listed.called).get(wanted):
                return count
        for same in (str.lower, _several):
            if name := next((name for name in names if same(name) == wanted), None):
                return name
    return None


def _several(name: str) -> str:
    """What several of a member are called, `screws`; '' where its last word is no word in small letters."""
    return plural_of(name) if name[-3:].isalpha() and name[-3:].islower() else ""


def members_below(listed: ListBound, name: str) -> tuple[str, ...]:
    """The members that a member or a class stands for."""
    return next((below for above, below in listed.classes if above == name), (name,))


def not_within_another(listed: ListBound, names: list[str]) -> tuple[str, ...]:
    """The members and classes named, without those that another class named holds."""
    below = {name: set(members_below(listed, name)) for name in names}
    return tuple(name for name in below if not any(below[name] < below[other] for other in below))


def has(listed: ListBound, name: str) -> Formula:
    """That a member is there, or one of the members that a class stands for."""
    return any_of([_there(listed, member) for member in members_below(listed, name)])


def _there(listed: ListBound, member: str) -> Formula:
    match listed:
        case SetDecl(name=name):
            return Includes(name, member)
        case ChoiceDecl(name=name):
            return Chosen(name, member)
        case _:
            return Compare(">", Measured(member), Const(Fraction(0)))
