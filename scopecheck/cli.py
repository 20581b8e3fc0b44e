"""The command line: arguments and exit status. What a command needs is loaded when it runs.

Exit status: 0 nothing found, 1 something found, 2 bad input, 3 undecided and nothing found, 4 an internal
fault, 130 interrupted.
"""

from __future__ import annotations

import atexit
import gc
import os
import sys
from contextlib import suppress
from enum import StrEnum
from typing import Annotated

import typer

from scopecheck import __version__

DEFAULT_WORK, DEFAULT_WALL = 4_000_000, 60
STATUS = (
    "Exit status: 0 nothing found (contested wording with no listed case included), 1 something found, "
    "2 bad input, 3 something undecided and nothing found, 4 an internal fault."
)
ABOUT = (
    "What a patent claim reaches when its words are read in more than one way. No network is used; a sheet "
    "is read only."
)

app = typer.Typer(
    name="scopecheck",
    help=f"{ABOUT}\n\n{STATUS}",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)


class Format(StrEnum):
    """How the answer is set."""

    text = "text"
    json = "json"
    markdown = "markdown"


FormatOption = Annotated[Format, typer.Option("--format", "-f", help="How the answer is set.")]
WorkOption = Annotated[
    int, typer.Option(min=1, metavar="N", help="Steps of work for one query; counted alike on every machine.")
]
WallOption = Annotated[
    int,
    typer.Option(
        min=1, metavar="SECONDS", help="Time for a whole sheet, at most; for a chart a quarter more."
    ),
]
StrainedOption = Annotated[bool, typer.Option("--strained", help="Let strained readings take part.")]
PhrasesOption = Annotated[
    str, typer.Option("--phrases", metavar="FILE", help="A file of your own phrases, beside the known ones.")
]
OutputOption = Annotated[str, typer.Option(metavar="FILE", help="Write to FILE, which must not exist.")]
AllOption = Annotated[bool, typer.Option("--all", help="Everything, not the first page only.")]


def _told_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"scopecheck {__version__}")
        raise typer.Exit


@app.callback()
def _any_command(
    version: Annotated[
        bool, typer.Option("--version", callback=_told_version, is_eager=True, help="Tell the version.")
    ] = False,
) -> None:
    pass


@app.command(epilog=STATUS)
def check(
    sheets: Annotated[list[str], typer.Argument(metavar="SHEET...", help="Files of claim sheets.")],
    format: FormatOption = Format.text,
    everything: AllOption = False,
    contested: Annotated[bool, typer.Option("--contested", help="List contested wording too.")] = False,
    chart: Annotated[
        bool, typer.Option("--chart", help="Add the chart of lines against documents; --all has it too.")
    ] = False,
    strained: StrainedOption = False,
    work: WorkOption = DEFAULT_WORK,
    wall: WallOption = DEFAULT_WALL,
    output: OutputOption = "",
) -> None:
    """Check claim sheets and report what is found.

    For each claim: what it reaches, on which reading, with a thing that shows it. Several sheets are checked
    one after the other; as JSON they make one list.
    """
    from scopecheck.commands.output import guarded

    def run() -> int:
        from scopecheck.commands.check import check_sheets
        from scopecheck.commands.options import Options
        from scopecheck.solving.constraints import Budget

        budget = Budget(work, wall)
        options = Options(format.value, everything, contested, strained, budget, output, chart)
        return check_sheets(sheets, options)

    raise typer.Exit(guarded(run))


@app.command(epilog=STATUS)
def amend(
    before: Annotated[str, typer.Argument(metavar="OLD", help="The sheet with the claims as they stood.")],
    after: Annotated[str, typer.Argument(metavar="NEW", help="The sheet with the claims as amended.")],
    format: FormatOption = Format.text,
    everything: AllOption = False,
    strained: StrainedOption = False,
    work: WorkOption = DEFAULT_WORK,
    wall: WallOption = DEFAULT_WALL,
    output: OutputOption = "",
) -> None:
    """Show what an amendment gives up and gains.

    Claim by claim: narrowed, widened, both or unchanged, on which readings, with a thing that shows it;
    which listed things it shuts out or loses; and what it says that the sheet before does not.
    """
    from scopecheck.commands.output import guarded

    def run() -> int:
        from scopecheck.commands.amend import show_amendment
        from scopecheck.commands.options import Options
        from scopecheck.solving.constraints import Budget

        options = Options(format.value, everything, False, strained, Budget(work, wall), output)
        return show_amendment(before, after, options)

    raise typer.Exit(guarded(run))


@app.command("map", epilog=STATUS)
def claim_map(
    sheet: Annotated[str, typer.Argument(metavar="SHEET", help="A file of claims.")],
    format: FormatOption = Format.text,
    everything: AllOption = False,
    work: WorkOption = DEFAULT_WORK,
    wall: WallOption = DEFAULT_WALL,
    output: OutputOption = "",
) -> None:
    """Show which claim lies within which.

    An outline of the claim set with every phrase as presumed: claims of one scope together, unrelated claims
    apart, and for each step a thing that shows it.
    """
    from scopecheck.commands.output import guarded

    def run() -> int:
        from scopecheck.commands.claim_map import show_map
        from scopecheck.commands.options import Options
        from scopecheck.solving.constraints import Budget

        options = Options(format.value, everything, budget=Budget(work, wall), output=output)
        return show_map(sheet, options)

    raise typer.Exit(guarded(run))


@app.command(epilog=STATUS)
def probe(
    limitation: Annotated[
        str, typer.Argument(metavar="LIMITATION", help="Words, or a quantity, a colon and words.")
    ],
    declare: Annotated[
        list[str] | None,
        typer.Option("--declare", "-d", metavar="TEXT", help="A quantity, such as 'gap length in mm, > 0'."),
    ] = None,
    meant: Annotated[str, typer.Option(metavar="FACTS", help="What is meant, in symbols.")] = "",
    inside: Annotated[
        list[str] | None, typer.Option(metavar="CASE", help="What must be met: '12', or 'holes = 12'.")
    ] = None,
    outside: Annotated[list[str] | None, typer.Option(metavar="CASE", help="What must stay out.")] = None,
    given: Annotated[
        list[str] | None, typer.Option(metavar="FACTS", help="What always holds, in symbols.")
    ] = None,
    profile: Annotated[str, typer.Option(metavar="NAME", help="US, US court or EPO.")] = "US",
    show: Annotated[str, typer.Option(metavar="NAME", help="Which of several quantities to picture.")] = "",
    phrases: PhrasesOption = "",
    format: FormatOption = Format.text,
    everything: AllOption = False,
    strained: StrainedOption = False,
    work: WorkOption = DEFAULT_WORK,
    wall: WallOption = DEFAULT_WALL,
) -> None:
    """Show what each reading of one limitation lets in, without a file.

    For example:

    scopecheck probe "divisible by 6" --declare "holes count, >= 1, <= 24"

    The options --declare, --inside, --outside and --given may be given more than once. What each part or step
    has follows it, indented: --declare "hole part, 1 to 6" --declare "  diameter length in mm".
    """
    from scopecheck.commands.output import guarded

    def run() -> int:
        from scopecheck.commands.options import Options
        from scopecheck.commands.probe import probe_limitation
        from scopecheck.report.probe_sheet import Wish
        from scopecheck.solving.constraints import Budget

        cases = tuple(inside or ()), tuple(outside or ()), tuple(given or ())
        wish = Wish(limitation, tuple(declare or ()), meant, *cases, profile, show, phrases)
        return probe_limitation(
            wish, Options(format.value, everything, strained=strained, budget=Budget(work, wall))
        )

    raise typer.Exit(guarded(run))


@app.command(epilog=STATUS)
def start(
    file: Annotated[
        str, typer.Argument(metavar="CLAIMS", help="A file with claims as plain text, or a sheet.")
    ],
    to: Annotated[str, typer.Option(metavar="FILE", help="Write to FILE, which must not exist.")] = "",
) -> None:
    """Begin a sheet from claims pasted as plain text.

    Names, lines and marks are proposed beside the claims' own words, with what is assumed and what is asked.
    For a sheet whose claims were edited: what is proposed for the words that no line restates.
    """
    from scopecheck.commands.output import guarded

    def run() -> int:
        from scopecheck.commands.start import start_sheet

        return start_sheet(file, to)

    raise typer.Exit(guarded(run))


@app.command(epilog=STATUS)
def words(
    file: Annotated[
        str, typer.Argument(metavar="FILE", help="A sheet, or a file with claims as plain text.")
    ],
    format: FormatOption = Format.text,
) -> None:
    """Tell what the words of claims show by themselves, with or without numbers.

    'The' something that nothing brought in, words of degree, references, transitions, examples, acts of a
    person. What a sheet answers once stays answered.
    """
    from scopecheck.commands.output import guarded

    def run() -> int:
        from scopecheck.commands.words import show_words

        return show_words(file, format.value)

    raise typer.Exit(guarded(run))


@app.command(epilog=STATUS)
def phrases(
    words: Annotated[
        list[str] | None, typer.Argument(metavar="WORDS", help="Words of a phrase, or its id.")
    ] = None,
    file: PhrasesOption = "",
    format: FormatOption = Format.text,
) -> None:
    """List the known phrases, or explain some.

    A card tells each reading with its meaning, who takes it and its standing, the sources and how each is
    known, more exact wording, and what is asked of the drafter.
    """
    from scopecheck.commands.output import guarded

    def run() -> int:
        from scopecheck.commands.phrase_cards import show_phrases

        return show_phrases(words or [], format.value, file)

    raise typer.Exit(guarded(run))


@app.command(epilog="Exit status: 0, 2 bad input, 4 an internal fault, 130 interrupted.")
def drill(
    sheet: Annotated[str, typer.Argument(metavar="[SHEET]", help="A sheet to make exercises from.")] = "",
    seed: Annotated[
        int, typer.Option(min=0, max=10**9, metavar="N", help="The same seed gives the same exercises.")
    ] = 1,
    level: Annotated[int, typer.Option(min=0, max=3, metavar="N", help="1, 2 or 3; 0: all in turn.")] = 0,
    kind: Annotated[str, typer.Option(metavar="NAME", help="One kind of exercise only.")] = "",
    paper: Annotated[int, typer.Option(min=0, max=200, metavar="N", help="Write a paper and its key.")] = 0,
    output: Annotated[str, typer.Option(metavar="NAME", help="Where the paper is written to.")] = "",
    answers: Annotated[str, typer.Option(metavar="FILE", help="Grade a file of answers to a paper.")] = "",
    record: Annotated[str, typer.Option(metavar="FILE", help="Keep the results in FILE, one a line.")] = "",
    learner: Annotated[str, typer.Option(metavar="NAME", help="Who answers, for the record.")] = "",
) -> None:
    """Set exercises with counterexamples, one at a time, and grade the answers.

    Kinds: let in, kept out, falls out, narrows, keeps out, reword, two phrases, how far. Without a sheet the
    exercises are made from the known phrases.
    """
    from scopecheck.commands.output import guarded

    def run() -> int:
        from scopecheck.commands.drill import Wanted
        from scopecheck.commands.drill import drill as set_exercises
        from scopecheck.commands.drill_paper import grade_file, write_paper

        wanted = Wanted(seed, level, kind, sheet, record, learner)
        if answers:
            return grade_file(wanted, answers)
        return write_paper(wanted, paper, output) if paper else set_exercises(wanted)

    raise typer.Exit(guarded(run))


def main() -> None:
    """The console command."""
    # A run is short and makes few cycles: looking for them rarely saves a tenth of its time.
    gc.set_threshold(200_000, 20, 20)
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:  # closed by who calls: what would go there is lost
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115
    try:
        app(prog_name="scopecheck")
    except SystemExit as ended:
        _leave(ended.code)
        raise


def _leave(status: object) -> None:
    """Ends the process as it stands: taking apart what a check made takes longer than showing it.

    Returns where something speaks against it, so that the process ends as usual.
    """
    gc.freeze()
    with suppress(OSError, ValueError):
        atexit._run_exitfuncs()
        for stream in (sys.stdout, sys.stderr):
            stream.flush()
        if isinstance(status, int):
            os._exit(status)
