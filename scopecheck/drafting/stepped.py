"""The steps of a method, where its claims say how long one takes, when it is done, or on which condition.

`comprising soaking the reed for 10 minutes, rinsing it after the soaking, and drying it if ...`: what is done
stands at the head of each item of the list. A list without a word of time or of a condition is asked about.
"""

from __future__ import annotations

from collections.abc import Container, Sequence

from scopecheck.drafting.beside import LABELS, gerund, label_end, nounish, process_before, tells_when
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import Called, kind_of
from scopecheck.drafting.work import Item, Work
from scopecheck.foundations.word_lists import run_at, words
from scopecheck.resolve.account import ORDER_WORDS
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.dependencies import category

KIND = "step in {unit}, may be left out"
MOST_BACK = 14
"""How many words before a word of time the step that it speaks of is looked for."""
_NO_STEPS = frozenset(
    "having being using including comprising containing consisting according depending providing-that thereby"
    " causing allowing resulting leaving following regarding concerning starting beginning during".split()
)
_BEFORE_ITEMS = ("and", "then", "(", ")", ".", "-", "optionally", "thereafter", "subsequently")
_CONDITIONS = frozenset(("if", "when", "whenever", "once", "unless", "optionally"))
_WHETHER = _CONDITIONS - {"once"}
"""Words by which a step may go undone: 'once' only says when it is done."""


def items(text: ClaimText) -> tuple[tuple[int, int], tuple[Item, ...]]:
    """The tokens of the transition of a method's list of steps, and the items; empty where there is none."""
    kind = category(text.text).lower().split()
    texts = text.texts
    if not {"method", "process", "use", "procedure"}.intersection(kind[:8]):
        return (0, 0), ()
    for at, word in enumerate(texts):
        if not word.startswith(("compris", "includ")) or at in text.referring:
            continue
        end = at + 1
        end += run_at(texts, end, "clauses", "steps_of")
        found = _items(texts, end + (texts[end : end + 1] == [":"]))
        return ((at, end), found) if found else ((0, 0), ())
    return (0, 0), ()


def _items(texts: list[str], first: int) -> tuple[Item, ...]:
    """The items from here on, each with what is done in it; semicolons, if there are any, part them."""
    apart = ";" if ";" in texts[first:] else ","
    heads = [at for at in range(first, len(texts) - 1) if _heads(texts, at, first, apart)]
    if not heads or heads[0] - first > 3 or (apart == ";" and len(heads) <= texts[first:].count(";")):
        return ()
    ends = [*heads[1:], next((i for i in range(heads[-1], len(texts)) if _over(texts, i)), len(texts))]
    found: list[Item] = []
    starts = [_with_condition(texts, head, first) for head in heads]
    ends = [min(end, start) for end, start in zip(ends, [*starts[1:], len(texts)], strict=True)]
    for head, start, far in zip(heads, starts, ends, strict=True):
        end = next((i for i in range(head, far) if apart == ";" and texts[i] == ";"), far)
        end = next((i for i in range(head + 1, end) if _another_act(texts, i)), end)
        said = range(max(0, start - 1), end)
        conditional = any(texts[i] in _WHETHER for i in said)
        name = "-".join(texts[head : head + 3 : 2]) if texts[head + 1] == "-" else texts[head]
        name = (
            f"{name} {texts[head + 1]}" if _two_words(texts, head) else _undergone(texts, head, end) or name
        )
        found.append(Item(name, start, end, conditional, _label(texts, head, first)))
    return tuple(found)


def _two_words(texts: list[str], at: int) -> bool:
    """Whether what is done is said in two words, 'vacuum drying the powder'."""
    first, *others = texts[at : at + 3]
    plain = first not in words("nouns", "stops") and first[0].isalpha() and not first.endswith(("ing", "ly"))
    act = len(others) == 2 and gerund(others[0]) and others[0] not in _NO_STEPS
    return plain and act and others[1] in words("nouns", "determiners")


def _undergone(texts: list[str], head: int, end: int) -> str:
    """The charging of 'subjecting the cell to a first charging': what is done, by its own name; or ''.

    So the 'first heat treatment' of 'subjecting the body to a first heat treatment'.
    """
    if texts[head] not in ("subjecting", "submitting"):
        return ""
    to = next((i for i in range(head + 1, min(end, head + MOST_BACK)) if texts[i] == "to"), end)
    close = next((i for i in range(to, min(end, to + 6)) if gerund(texts[i])), end)
    if to + 2 >= end or texts[to + 1] not in ("a", "an", "the"):
        return ""
    if close < end:
        return texts[close]
    far = next((i for i in range(to + 2, end) if not nounish(texts[i], words("nouns", "stops"))), end)
    return " ".join(texts[to + 2 : far]) if texts[far - 1].endswith(_OF_ACTS) else ""


_OF_ACTS = ("ment", "tion", "sion", "sis", "wash", "rinse", "cycle", "anneal", "quench", "step", "stage")
"""How nouns end for what is done."""


def _another_act(texts: list[str], at: int) -> bool:
    """Whether another act begins here that is no step by its words: ', allowing the dough to rest'.

    So does 'and a storage of'. What its words say of a time or a heat is none of the step before it.
    """
    if texts[at] not in (",", "and"):
        return False
    begin = at + 1 + (texts[at + 1] == "and")
    begin += texts[begin] in ("then", "optionally", "subsequently", "thereafter")
    if texts[begin] in words("limits", "letting") or (
        texts[at] == ","
        and gerund(texts[begin])
        and texts[begin] not in _NO_STEPS
        and texts[begin + 1 : begin + 2]
        and texts[begin + 1] in words("nouns", "determiners")
    ):
        return True
    begin += texts[begin] in words("nouns", "determiners")
    for i in range(begin, min(len(texts) - 1, begin + 4)):
        if texts[i] in words("limits", "acts"):
            return texts[i + 1] in ("of", "for", "at", "in", "to", "lasting")
        if texts[i] in words("nouns", "stops") or not texts[i][0].isalpha():
            return False
    return False


def _label(texts: list[str], head: int, first: int) -> str:
    """The letter of an item: 'iv' of '(iv) proofing', 'a' of 'a) mixing'; or ''."""
    at = head
    while at > first and texts[at - 1] in ("subsequently", "then", "thereafter", "optionally", "-"):
        at -= 1
    stands = at - 2 >= first and texts[at - 1] == ")" and texts[at - 2] in LABELS
    return texts[at - 2] if stands else ""


def _with_condition(texts: list[str], head: int, first: int) -> int:
    """Where an item begins, with a condition before what is done: 'if it is below 94 degC, baking on'."""
    if head <= first or texts[head - 1] != ",":
        return head
    for at in range(head - 2, max(first, head - MOST_BACK), -1):
        if texts[at] in (";", ":", ","):
            break
        if texts[at] in _CONDITIONS:
            return at
    return head


def _heads(texts: list[str], at: int, first: int, apart: str) -> bool:
    """Whether an item begins with this word: what is done, behind a comma, a semicolon, a letter, 'and'."""
    word, after = texts[at], texts[at + 1]
    if texts[at - 1] == "-" and at > 1 and texts[at - 2][0].isalpha():
        return False
    compound = after == "-" and at + 3 < len(texts) and texts[at + 2].endswith("ing")
    if compound:
        word, after = texts[at + 2], texts[at + 3]  # 'heat-setting the web'
    if not compound and _two_words(texts, at):
        word, after = texts[at + 1], texts[at + 2]
        compound = True
    noun = not compound and word in words("mention", "ing_nouns") and after in words("nouns", "stops")
    noun = noun and after not in words("nouns", "determiners")
    act = gerund(word) and word not in _NO_STEPS and not noun
    if not act or after in (";", ".", "of"):
        return False
    if after == "," and not _label(texts, at, first):
        return False  # 'mixing, per 100 parts of flour' behind the letter of its item alone
    start = at
    while start > first and texts[start - 1] in _BEFORE_ITEMS:
        start -= 1
    while start > first and texts[start - 1] in LABELS | {"(", ")", "-"} and not _unit(texts, start - 1):
        start -= 1
    while start > first and texts[start - 1] in _BEFORE_ITEMS:
        start -= 1
    if start <= first or (start == at and _with_condition(texts, at, first) < at):
        return True
    return texts[start - 1] == apart or (apart == "," and texts[start] == "and" and start < at)


def _unit(texts: list[str], at: int) -> bool:
    """Whether a letter here is a unit, not the label of an item: 'to 90 °C and filtering'."""
    return at > 0 and (texts[at - 1] in ("°", "/") or texts[at - 1][0].isdecimal())


def _over(texts: list[str], at: int) -> bool:
    """Whether the last item of a list is over: its claim, or with a clause on what was said."""
    said = texts[at + 1 : at + 2] in (["wherein"], ["whereby"])
    return (texts[at] == "." and at == len(texts) - 1) or (texts[at] in (",", ";") and said)


def steps(works: Sequence[Work], quantities: Sequence[Quantity]) -> list[Quantity]:
    """The steps to be declared, in their order; none where claims only say that they are done."""
    named: dict[str, list[int]] = {}
    for work in works:
        for item in work.items:
            named.setdefault(item.step, []).append(work.claim.number)
    twice = any(len({i.step for i in work.items}) < len(work.items) for work in works)
    if not named or twice or any(q.name in named for q in quantities):
        return []
    lasting = {q.name.removesuffix(" time"): q for q in quantities if q.kind.startswith("time in")}
    if not (any(_timed(work, named) for work in works) or not lasting.keys().isdisjoint(named)):
        return []
    unit = next((q.kind.rpartition(" ")[2] for name, q in lasting.items() if name in named), "min")
    made: list[Quantity] = []
    notes = _notes(works)
    for name, claims in named.items():
        lasts = lasting.get(name)
        own = lasts.kind.rpartition(" ")[2] if lasts else unit
        step = Quantity(
            name, KIND.format(unit=own), name, "", sorted({*claims, *(lasts.claims if lasts else ())})
        )
        step.note = notes.get(name, "")
        made.append(step)
        for work in works:
            work.of = [step if of is lasts else of for of in work.of]
    return made


def _notes(works: Sequence[Work]) -> dict[str, str]:
    """By step, 'step (iv)', as claims speak of it; none where two lists have the letter, or no claim does."""
    said = any(
        work.text.texts[at + 1 : at + 2] == ["("] or label_end(work.text.texts, at)
        for work in works
        for word in ("step", "steps")
        for at in work.text.where.get(word, ())
    )
    labels: dict[str, set[str]] = {}
    for item in (item for work in works for item in work.items if item.label and said):
        labels.setdefault(item.label, set()).add(item.step)
    return {min(steps): f"step ({label})" for label, steps in labels.items() if len(steps) == 1}


def labelled(works: Sequence[Work]) -> None:
    """Sets in each claim the steps by their letters that it, or the claims above it, list."""
    for work in works:
        above = [w for w in works if w.claim.number in (*work.above, work.claim.number)]
        work.steps = {item.label: item.step for w in above for item in w.items if item.label}


def called_by_label(works: Sequence[Work]) -> None:
    """Calls the time of 'step c) lasts not more than 300 minutes' by its step, where its letter is known."""
    for work in works:
        for i, (stretch, what) in enumerate(work.limits):
            if what.unnamed and kind_of(stretch.unit) == "time" and (step := _lasting(work, stretch)):
                work.limits[i] = stretch, Called(f"{step} time", "", False)


def _lasting(work: Work, stretch: Stretch) -> str:
    """The step named by its letter before a verb of lasting and a limit; or ''."""
    texts, at = work.text.texts, stretch.starts[0]
    at -= texts[at - 1] == "for"
    labels = (i for i in range(at - 2, max(0, at - MOST_BACK), -1) if label_end(texts, i))
    label = next(labels, 0)
    end = label_end(texts, label)
    lasts = " ".join(texts[end:at]) in words("limits", "lasting")
    return work.steps.get(texts[end - 2], "") if label and lasts else ""


def _timed(work: Work, named: Container[str]) -> bool:
    """Whether a claim says when one of its steps is done beside another, or on what measured condition."""
    texts = work.text.texts
    for item in work.items:
        for at in range(max(0, item.start - 1), item.end):
            after = texts[at + 1 : at + 5]
            if texts[at] in ORDER_WORDS and any(word in named for word in after):
                return True
            if texts[at] in ORDER_WORDS | {"of"} and any(label_end(texts, at + n) for n in range(1, 5)):
                return True
    later = {s.end for s in work.after}
    if any(
        any(word in named for word in texts[at + 1 : at + 5]) and step_at(work, at, named) for at in later
    ):
        return True
    return any(stretch.condition for stretch, _ in work.limits)


def is_step(quantity: Quantity) -> bool:
    """Whether a proposed declaration is that of a step."""
    return quantity.kind.startswith("step in")


def step_at(work: Work, at: int, names: Container[str]) -> str:
    """The step of which the words at a place speak: that of its item, or the last one named before; or ''."""
    texts = work.text.texts
    inside = next((i.step for i in work.items if i.start <= at < i.end), "")
    if inside in names:
        return inside
    for i in range(at - 1, max(-1, at - MOST_BACK), -1):
        if texts[i] in (";", ":"):
            break
        if (end := label_end(texts, i)) and work.steps.get(texts[end - 2], "") in names:
            return work.steps[texts[end - 2]]
        done = process_before(["for", *texts[: i + 1]], i + 2)
        if tells_when(texts, i) or (texts[i - 1 : i] == ["-"] and texts[i - 2][0].isalpha()):
            continue  # 're-cleaned' is no cleaning
        if texts[i] in names or done in names:
            return texts[i] if texts[i] in names else done
    return ""


def step_before(work: Work, at: int) -> str:
    """The step of the item before the one that begins here, or just behind a word here: 'and then drying'."""
    for before, item in zip(work.items, work.items[1:], strict=False):
        if at < item.start <= at + 2:
            return before.step
    return ""
