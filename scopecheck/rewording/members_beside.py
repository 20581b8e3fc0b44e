"""Members of a list said beside one another: `A together with B`, `A, B or both`, `combinations thereof`."""

from __future__ import annotations

from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.foundations.record import replace
from scopecheck.language.number_words import ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.matching.chart import CONDITION_WORDS
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Bound

_BESIDE_MEMBER = (
    (["with", "or", "without"], ["and", "optionally"]),
    *(
        ([",", "optionally", *with_], ["and", "optionally"])
        for with_ in (["with"], ["together", "with"], ["combined", "with"], ["in", "combination", "with"])
    ),
    *(
        (f"{apart}{either}{alone} or {joined} with".split(), ["and", "optionally"])
        for apart in (", ", "")
        for either in ("either ", "")
        for alone in ("alone", "by itself")
        for joined in ("in combination", "together", "mixed", "combined")
    ),
    (["together", "with"], ["and"]),
    (["in", "combination", "with"], ["and"]),
    (["combined", "with"], ["and"]),
    (["alloyed", "with"], ["and"]),
    (["without"], ["but", "not"]),
)
_DENYING = frozenset("not no never neither none without free devoid void except excluding lacking".split())


def with_members(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`A together with B` as A and B, `A without B` as A but not B, of what has a list.

    'A with or without B' is A and optionally B, 'A, B and optionally C' is A and B and optionally C,
    'A, B or both' is A or B or both, and 'not A together with B' not both of them.
    """
    if not isinstance(subject, SetDecl | ChoiceDecl):
        return tokens
    tokens = _with_what_is_contained(tokens, subject) if isinstance(subject, SetDecl) else tokens
    texts = [t.text.lower() for t in tokens]
    for said, instead in _BESIDE_MEMBER if "with" in texts or "without" in texts else ():
        for at in range(len(texts) - len(said) - 1, 0, -1):
            if texts[at : at + len(said)] == said and texts[at - 1] not in (",", "and", "or", "but"):
                if "optionally" in instead and not _DENYING.isdisjoint(texts[:at]):
                    return tokens  # what is denied of 'A alone or together with B' is A, whatever B is
                # Behind a list of several, 'together with B' says that B is there whichever of them is.
                apart = instead[0] == "and" and not {"and", "or"}.isdisjoint(texts[:at])
                added = [",", *instead] if apart else instead
                words = [replace(tokens[at], text=word, end=tokens[at + len(said) - 1].end) for word in added]
                tokens = (*tokens[:at], *words, *tokens[at + len(said) :])
                texts[at : at + len(said)] = added
                denied = next((i for i in range(at) if texts[i] == "not"), at)
                if instead[0] == "and" and denied + 1 < at and texts[denied + 1] != "both":
                    # What is denied of 'A together with B' is that both are there.
                    both = replace(tokens[denied], text="both", start=tokens[denied].end)
                    tokens = (*tokens[: denied + 1], both, *tokens[denied + 1 :])
                    texts.insert(denied + 1, "both")
                members = {m.lower() for m in subject.members} if isinstance(subject, SetDecl) else set[str]()
                if not {"alone", "itself"}.isdisjoint(said) and " ".join(texts[:at]) in members:
                    # 'A alone or together with B': these and nothing else
                    only = words_at(tokens[0], "consisting of", understood=True)
                    tokens = (*only, *tokens)
                    texts = ["consisting", "of", *texts]
    optional = _run_of(texts, ["and", "optionally"])
    if texts[-2:] == ["or", "both"]:
        # 'A, B or both', of two.
        optional = len(texts) - 2 - (texts[-3] == ",")
    commas = [i for i in range(optional) if texts[i] == ","]
    if commas and not {"and", "or"} & set(texts[:optional]):
        tokens = (
            *tokens[: commas[-1]],
            replace(tokens[commas[-1]], sort="word", text="or" if texts[-1] == "both" else "and"),
            *tokens[commas[-1] + 1 :],
        )
    return tokens


def _with_what_is_contained(tokens: tuple[Token, ...], subject: SetDecl) -> tuple[Token, ...]:
    """`carbon black is contained`, `no talc is present`, of a list, as contains carbon black, no talc."""
    texts = [t.text.lower() for t in tokens]
    verb = len(texts) - 2 - (texts[-2:-1] == ["not"])
    if verb < 1 or texts[verb] not in ("is", "are", "being") or texts[-1] not in _CONTAINED:
        return tokens
    named = f" {' '.join(texts[:verb])} "
    alone = any(f" {member.lower()} " == named for member in subject.members)
    if not CONDITION_WORDS.isdisjoint(texts) or (alone and texts[verb:] == ["is", "present"]):
        return tokens  # the condition has it, or it is read so
    if not any(f" {member.lower()} " in named for member in subject.members):
        return tokens
    denied = texts[-2] == "not"
    if denied and not _DENYING.isdisjoint(texts[:verb]):
        return tokens
    said = words_at(tokens[0], "does not contain" if denied else "contains", understood=True)
    return (*said, *tokens[:verb])


_CONTAINED = ("contained", "present", "included", "comprised", "used", "employed", "added")


def _run_of(texts: list[str], run: list[str]) -> int:
    """Where these words stand, the first time; 0 if nowhere."""
    places = range(len(texts) - len(run) + 1)
    return next((at for at in places if texts[at : at + len(run)] == run), 0)


def without_combinations(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`one or more selected from A, B and combinations thereof` as of A and B: 'or more' says so already."""
    tokens = with_any_mixture(tokens)
    texts = [t.text.lower() for t in tokens]
    several = texts[:3] in ONE_OR_MORE
    mixed = len(texts) > 3 and texts[-1] == "thereof" and f"{texts[-2].removesuffix('s')}s" in _MIXTURES[:3]
    width = 3 if texts[-3:-2] in (["and"], ["or"]) else 4 if texts[-4:-2] in _AND_ANY else 0
    if not several or not mixed or "selected" not in texts or not width:
        return tokens
    end = len(tokens) - width - (texts[-width - 1] == ",")
    kept, commas = tokens[:end], [i for i in range(end) if texts[i] == ","]
    if not commas or {"and", "or"}.intersection(texts[commas[-1] : end]):
        return kept
    joined = replace(tokens[commas[-1]], sort="word", text="and")
    return (*kept[: commas[-1]], joined, *kept[commas[-1] + 1 :])


_MIXTURES = ("mixtures", "combinations", "blends", "alloys")
_AND_ANY = (["and", "any"], ["or", "any"], ["and", "a"], ["or", "a"])


def with_any_mixture(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`a combination of at least two of these` as any mixture thereof: it need not be of all of them."""
    texts = [t.text.lower() for t in tokens]
    for at, word in enumerate(texts):
        mixed = word in _MIXTURES or f"{word}s" in _MIXTURES
        start = at - (texts[at - 1 : at] in (["a"], ["an"], ["any"]))
        several = (texts[at + 1 : at + n] for n in (4, 5, 6)) if mixed else ()
        for run in several:
            behind = at + 1 + len(run)
            ends = texts[behind : behind + 1] == ["thereof"] or texts[behind:] in _OF_THESE
            if run[:1] == ["of"] and " ".join(run[1:]) in _TWO_OR_MORE and ends:
                any_, thereof = replace(tokens[start], text="any"), replace(tokens[-1], text="thereof")
                more = tokens[behind + 1 :] if texts[behind] == "thereof" else ()
                return (*tokens[:start], any_, replace(tokens[at], text="mixture"), thereof, *more)
    return tokens


_TWO_OR_MORE = ("two or more", "at least two", "any two or more")
_OF_THESE = (["of", "these"], ["of", "them"], ["of", "the", "foregoing"], ["of", "any", "of", "these"])


def with_hyphened_members(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`mono- and diglycerides` as the one member that is declared as mono-and-diglycerides."""
    members = subject.members if isinstance(subject, SetDecl | ChoiceDecl) else ()
    for member in members:
        first, joiner, last = member.partition("-and-") if "-and-" in member else member.partition("-or-")
        run = [first.lower(), "-", joiner.strip("-"), *last.lower().split()]
        texts = [t.text.lower() for t in tokens]
        at = next((i for i in range(len(texts)) if joiner and texts[i : i + len(run)] == run), None)
        if at is not None:
            last_of = tokens[at + len(run) - 1]
            one = replace(tokens[at], sort="word", text=member, end=last_of.end)
            tokens = (*tokens[:at], one, *tokens[at + len(run) :])
    return tokens
