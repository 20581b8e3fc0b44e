"""What a sheet says, as written: nothing here is looked up, counted or checked against anything else."""

from __future__ import annotations

from typing import Literal, TypeAlias

from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import node
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Page
from scopecheck.language.scan import Number, Token

# ---- the exact language


@node
class NumberNode:
    number: Number
    span: Span


@node
class NameNode:
    name: str
    span: Span


@node
class BracedNode:
    """`{a, b}`; empty for no members."""

    items: tuple[Node, ...]
    span: Span


@node
class NegativeNode:
    item: Node
    span: Span


@node
class SumNode:
    """First item, then (`+` or `-`, item) in order."""

    first: Node
    rest: tuple[tuple[str, Node], ...]
    span: Span


@node
class ProductNode:
    """First item, then (`*`, `/` or `MOD`, item) in order."""

    first: Node
    rest: tuple[tuple[str, Node], ...]
    span: Span


@node
class PowerNode:
    base: Node
    exponent: Number
    span: Span


@node
class CallNode:
    """A word in capitals applied to a list, or with `over` to what each part has: `EVERY hole (...)`."""

    function: str
    items: tuple[Node, ...]
    span: Span
    over: NameNode | None = None


@node
class RecitedNode:
    """What the claim and those above it name of a list."""

    span: Span


@node
class WithoutNode:
    """What is left of a composition without some of its ingredients: `paint WITHOUT water`."""

    whole: NameNode
    out: tuple[Node, ...]
    span: Span


@node
class RoundNode:
    item: Node
    step: Node
    rule: Literal["away", "up", "even"]
    span: Span


@node
class ChainNode:
    """`a <= x < b`: one sign fewer than operands, all in one direction."""

    operands: tuple[Node, ...]
    signs: tuple[str, ...]
    span: Span


@node
class WholeNode:
    item: Node
    span: Span


@node
class TruthNode:
    value: bool
    span: Span


@node
class NotNode:
    item: Node
    span: Span


@node
class AndNode:
    """Joined by AND, or by commas (`comma`)."""

    items: tuple[Node, ...]
    comma: bool
    span: Span


@node
class OrNode:
    items: tuple[Node, ...]
    span: Span


@node
class IfNode:
    """`IF a THEN b`; with `otherwise` a choice between two terms or conditions."""

    condition: Node
    then: Node
    otherwise: Node | None
    span: Span


Node: TypeAlias = (
    NumberNode
    | NameNode
    | BracedNode
    | NegativeNode
    | SumNode
    | ProductNode
    | PowerNode
    | CallNode
    | RecitedNode
    | WithoutNode
    | RoundNode
    | ChainNode
    | WholeNode
    | TruthNode
    | NotNode
    | AndNode
    | OrNode
    | IfNode
)


# ---- pieces of statements


@node
class Words:
    """Words of a claim or document, with their tokens. Empty tokens: not meant to be read as a phrase."""

    text: str
    tokens: tuple[Token, ...]
    span: Span


@node
class Raw:
    """A formula not parsed yet: its page and place."""

    page: Page
    start: int
    end: int

    @property
    def text(self) -> str:
        return self.page.source.text[self.start : self.end]

    @property
    def span(self) -> Span:
        return self.page.span(self.start, self.end)


@node
class Free:
    """A number a reading leaves open. `like`: a term whose kind it has; None: a plain, shared number."""

    name: str
    like: Raw | None
    bounds: tuple[Raw, ...]
    presumed: Raw | None
    span: Span


@node
class ReadingText:
    """A reading as written. `standings` are (standing, profile or '') in order; no formula: not computed."""

    label: str
    standings: tuple[tuple[str, str], ...]
    formula: Raw | None
    free: tuple[Free, ...]
    sets: tuple[tuple[str, str], ...]
    taken_by: str
    only_for: tuple[str, ...]
    only_when: tuple[Raw, ...]
    exact_wording: str
    span: Span


# ---- statements


@node
class Setting:
    """title, profile, filed, confidential, and the file of the practice's own phrases."""

    key: str
    value: str
    span: Span


@node
class UnitStatement:
    unit: Unit
    note: str
    span: Span


@node
class NumberKind:
    """`length in mm, > 0`: dimension word or '', unit (None: plain), bounds as sign and number.

    `varies` names what the quantity belongs to, other than the thing itself, such as the user; else ''.
    """

    word: str
    unit: Unit | None
    whole: bool
    bounds: tuple[tuple[str, NumberNode], ...]
    span: Span
    varies: str = ""


@node
class ListKind:
    """`any of` (a set) or `one of` (a choice), closed by `only`."""

    several: bool
    only: bool
    members: tuple[NameNode, ...]
    span: Span


@node
class PartKind:
    """Like parts: from `least` to `most` of them; `plural` is their name, '' for the usual plural."""

    least: int
    most: int
    plural: str
    span: Span


@node
class MixtureKind:
    """A composition, its ingredients as shares in `unit`; closed by `only`."""

    unit: Unit
    only: bool
    span: Span


@node
class AssemblyKind:
    """Kinds of part that make up one thing, by the names of their counts; closed by `only`."""

    only: bool
    members: tuple[NameNode, ...]
    span: Span


@node
class ClassLine:
    """A line below a list or a composition: a class and its members, or an ingredient by itself.

    `members` is None for an ingredient. `only`: the class has no further member; `all_but`: it has
    all members but those named.
    """

    name: NameNode
    members: tuple[NameNode, ...] | None
    only: bool
    all_but: bool
    span: Span


@node
class StepKind:
    """A step in time, or with `moment` an event that takes none.

    With `optional` it may be left out, with `pausing` it may pause.
    """

    unit: Unit
    moment: bool
    optional: bool
    pausing: bool
    span: Span


@node
class Declare:
    names: tuple[NameNode, ...]
    kind: NumberKind | ListKind | PartKind | StepKind | MixtureKind | AssemblyKind
    note: str
    span: Span
    fields: tuple[Declare, ...] = ()
    classes: tuple[ClassLine, ...] = ()


@node
class GivenStatement:
    facts: Node
    note: str
    text: str
    span: Span


@node
class Restatement:
    """A margin line. `words` is None for symbols alone; `exact` is the meaning given in symbols.

    `formula` is what the claim's words are in symbols, if they are a formula themselves: `0.5 < f1/f2 < 2`;
    `begun` a term that they begin with, and the words behind it: `(D90-D10)/D50 | is less than 1.5`.
    """

    subject: tuple[Node, ...]
    subject_text: str
    words: Words | None
    exact: Node | None
    meant: Node | None
    meant_text: str
    readings: tuple[ReadingText, ...]
    text: str
    span: Span
    formula: Node | None = None
    begun: tuple[Node, Words] | None = None


@node
class Mark:
    """`not restated : words`, or `dependent : words` of a reference to another claim."""

    words: Words
    span: Span
    dependent: bool = False


@node
class ClaimStatement:
    """A claim: `pieces` are the places of its text, line by line."""

    number: int
    pieces: tuple[Span, ...]
    lines: tuple[Restatement | Mark, ...]
    span: Span


@node
class Column:
    name: str
    unit: Unit | None
    span: Span


@node
class Row:
    """One case: cells under columns, or facts (nodes in symbols, or words)."""

    name: str
    cells: tuple[Raw, ...]
    facts: tuple[Node | Words, ...] | None
    columns: tuple[Column, ...]
    text: str
    place: str
    span: Span


@node
class CasesStatement:
    """Cases of one role; `document` is the document's name or ''. `targets` as written: (text, place)."""

    role: Literal["inside", "outside", "document", "class", "description"]
    document: str
    targets: tuple[tuple[str, Span], ...]
    rows: tuple[Row, ...]
    span: Span


@node
class PhraseStatement:
    """A phrase of the catalogue or of a sheet. `presumed` pairs a profile with labels, none if ()."""

    patterns: tuple[tuple[str, Span], ...]
    where: Raw | None
    readings: tuple[ReadingText, ...]
    presumed: tuple[tuple[str, tuple[str, ...]], ...]
    strained: tuple[str, ...]
    only_for: tuple[str, ...]
    subjects: tuple[str, ...]
    each_has: str
    """Of like parts: what is said of each left of the colon, a moment or a place; '' for anything."""
    sources: tuple[tuple[str, str], ...]
    exact_wording: str
    ask: str
    group: str
    id: str
    span: Span


@node
class TermStatement:
    noun: str
    note: str
    readings: tuple[ReadingText, ...]
    span: Span


@node
class DefineStatement:
    """A definition found in the description, at `place`: words and the one reading it gives them.

    The meaning is facts for words with what is measured left of the colon, a term for a noun.
    """

    wording: str
    reading: ReadingText
    amount: bool
    """The meaning is a term, not facts."""
    place: str
    text: str
    span: Span


@node
class PolicyStatement:
    axis: str
    value: str
    reason: str
    text: str
    span: Span


@node
class ReadStatement:
    """A pin: which wording is read how, where (empty: everywhere), with which parameter values."""

    wording: str
    reading: str
    places: tuple[str, ...]
    values: tuple[tuple[str, NumberNode], ...]
    reason: str
    text: str
    span: Span


@node
class ApartStatement:
    wording: str
    span: Span


@node
class AnsweredStatement:
    """What the user says of words that were flagged: in one claim, or (None) wherever they stand."""

    words: str
    claim: int | None
    answer: str
    reason: str
    span: Span


@node
class NounsStatement:
    """Nouns that name one thing (`alike`), or that a thing has without its being said (`inherent`)."""

    heading: Literal["alike", "inherent"]
    nouns: tuple[str, ...]
    span: Span


Statement: TypeAlias = (
    Setting
    | UnitStatement
    | Declare
    | GivenStatement
    | ClaimStatement
    | CasesStatement
    | PhraseStatement
    | TermStatement
    | DefineStatement
    | PolicyStatement
    | ReadStatement
    | ApartStatement
    | AnsweredStatement
    | NounsStatement
)


@node
class Sheet:
    """The statements in order, the units of the trade, and names whose declaration has a mistake."""

    page: Page
    statements: tuple[Statement, ...]
    own_units: tuple[tuple[str, Unit], ...]
    failed_names: frozenset[str]
