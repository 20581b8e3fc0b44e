"""A claim while lines are proposed for it."""

from __future__ import annotations

from scopecheck.drafting.choices import Choice
from scopecheck.drafting.draft import DraftClaim, Quantity
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import Called
from scopecheck.drafting.two_measures import Comparison
from scopecheck.foundations.record import field, holder, record
from scopecheck.language.scan import Number
from scopecheck.resolve.claim_text import ClaimText


@record
class Item:
    """One item of a method's list: its step, its tokens, and whether its words let it go undone."""

    step: str
    start: int
    end: int
    conditional: bool
    label: str = ""
    """The letter of the item, 'iv' of '(iv) proofing'."""


@record
class Joint:
    """A limit of several things together: where its words begin, the things, and what of each is summed.

    `behind`: where a 'together' behind the limit ends. Without nouns the words do not tell the things.
    `listed`: the nouns stand behind the limit, 'of A and/or B', and are set left of the colon with commas.
    """

    stretch: Stretch
    begin: int
    nouns: tuple[str, ...]
    measure: str
    behind: int = 0
    listed: bool = False


@record
class Equal:
    """Words by which so many of one thing are set beside so many of another, and the two nouns."""

    start: int
    end: int
    nouns: tuple[str, ...]


@record
class Held:
    """A stretch in which no limit holds by itself: its tokens, where a mark of it begins, its least end.

    `first`: 0 where the mark begins with the limit.
    """

    start: int
    end: int
    first: int
    least: int
    when: tuple[int, int] = (0, 0)
    """The tokens of the condition, where it is one."""


@record
class Conditioned:
    """A limit with its condition: all their tokens, the condition's, where the limit is, what it is of."""

    start: int
    end: int
    when: tuple[int, int]
    limit: int
    of: Quantity


@holder
class Work:
    """A claim at work: its text, the limits found in it, and the quantity each is of."""

    claim: DraftClaim
    text: ClaimText
    places: tuple[tuple[int, int], ...]
    limits: list[tuple[Stretch, Called]]
    choices: list[Choice] = field(default_factory=list)
    nowhere: list[str] = field(default_factory=list)
    """The words of references that cannot be followed."""
    parents: tuple[int, ...] = ()
    above: tuple[int, ...] = ()
    """The claims that it takes over: those that it names, and those above them, the first first."""
    unread: list[tuple[int, int]] = field(default_factory=list)
    """Tokens of limits that are set beside what no claim limits: kept whole, without a line."""
    whole: list[tuple[int, int]] = field(default_factory=list)
    """Tokens of words that hold only together: one mark each, before any line."""
    formulas: list[tuple[int, int]] = field(default_factory=list)
    """Those of them that are formulas with signs of comparison."""
    some: dict[int, int] = field(default_factory=dict)
    """By limit of so many of several things, where the words begin that say of how many."""
    strange: list[tuple[int, int]] = field(default_factory=list)
    """Tokens of numbers with a word behind them that may be a unit."""
    letters: dict[str, Called] = field(default_factory=dict)
    """What the letters of items call: see `by_letter`."""
    pairs: dict[int, str] = field(default_factory=dict)
    """By limit, the two names that stand left of the colon where it is a ratio of two quantities."""
    after: list[Stretch] = field(default_factory=list)
    """Times from one step to another: '5 minutes after the rinsing'."""
    named: dict[int, Quantity] = field(default_factory=dict)
    """By limit, what it is set beside, where that has no limit of its own."""
    beside: list[Quantity] = field(default_factory=list)
    """Those of them of which a line speaks."""
    numbers: list[Number] = field(default_factory=list)
    """The numbers of lines in symbols, which account for equal numbers of the text."""
    of: list[Quantity] = field(default_factory=list)
    opened: tuple[int, int, Quantity] | None = None
    """The tokens of the transition that opens a composition, and the composition."""
    closed: int = 0
    """Where the list ends that follows the transition and has no amounts."""
    listed: bool = False
    """Whether a line has that list."""
    basis: tuple[int, int] = (0, 0)
    """The tokens that say by what its shares are told: 'each by weight of the composition'."""
    items: tuple[Item, ...] = ()
    joint: list[Joint] = field(default_factory=list)
    held: list[Held] = field(default_factory=list)
    whens: list[tuple[Stretch, Called]] = field(default_factory=list)
    """The limits that only say when something holds."""
    conditioned: list[Conditioned] = field(default_factory=list)
    on_condition: list[tuple[Conditioned, str]] = field(default_factory=list)
    """Limits with their conditions, and of those that are declared the names left of the colon."""
    about: list[Quantity] = field(default_factory=list)
    """What these conditions are about."""
    switched: list[tuple[int, int, str]] = field(default_factory=list)
    """What is switched on a condition: the tokens of both, and the names left of the colon."""
    free: list[tuple[int, int, str]] = field(default_factory=list)
    """Words that leave shares out of a composition: their tokens, and the names left of the colon."""
    equal: list[Equal] = field(default_factory=list)
    equals: list[tuple[Equal, str]] = field(default_factory=list)
    """Numbers of things set beside each other, and of those declared the names left of the colon."""
    sums: list[tuple[Joint, tuple[Quantity, ...]]] = field(default_factory=list)
    """Limits of several things together, and those of them whose things are declared."""
    comparisons: list[Comparison] = field(default_factory=list)
    """Where one measure is set beside another, and those of them whose two sides are declared."""
    compared: list[tuple[Comparison, Quantity, Quantity]] = field(default_factory=list)
    steps: dict[str, str] = field(default_factory=dict)
    """The steps by the letters of their items, of the claims above too."""
    listing: tuple[int, int] = (0, 0)
    """The steps that a method lists, and the tokens of its transition."""
    balance: tuple[int, int] = (0, 0)
    """The tokens that say what makes up the rest of it."""
    bare: list[Quantity] = field(default_factory=list)
    """Ingredients of it that the claim names without an amount."""
