"""Bad input: a located message with cause or help, several at once, and never a traceback."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.drawing import draw
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import HEAD, STRAINER, errors, read_path

CLAIM = """\
1. A strainer, wherein the holes are divisible by 6, the diameter is between 2 and 4 mm, open is about 35 %.
"""


def with_line(line: str, claim: str = CLAIM) -> str:
    return f"{HEAD}{claim}   | {line}\n"


def with_cases(cases: str) -> str:
    return f"{HEAD}{CLAIM}\n{cases}"


AT_DIAMETER = "1. A plate, wherein the holes have a diameter of between 2 and 4 mm.\n"
LEVELS = "1. A plate which is at least 2 K above the cold.\n"
TIMES = "1. A plate with at least 4 times the width of the holes.\n"
BOTH = with_line("holes : divisible by 6") + "   | diameter : between 2 and 4 mm\n"
OPEN = with_line("open : about 35 %")

HEATING = "heating  step in min\n\n1. A method comprising heating for at least 5 min.\n"
RODS = """\
rod  part, 1 to 4
  length  length in mm

1. A rack with at least two rods, the total length of the rods being 9 mm.
"""

TABLE: list[tuple[str, str, str, str, str]] = [
    # name, sheet, the marked text, the message, a part of cause or help
    (
        "unknown name",
        with_line("diametr : between 2 and 4 mm"),
        "diametr",
        "'diametr' is not declared",
        "'diameter'",
    ),
    ("unknown name, none near", with_line("width <= 3 mm"), "width", "'width' is not declared", "declare it"),
    (
        "unit mismatch",
        with_line("diameter : between 2 and 4 kg", CLAIM.replace("4 mm", "4 kg")),
        "between 2 and 4 kg",
        "mass and length cannot be compared: they are different kinds",
        "No reading",
    ),
    ("unit mismatch in symbols", with_line("diameter <= 4 kg"), "diameter <= 4 kg", "length and mass", ""),
    (
        "a number without its sign",
        with_line("heat : 5 to 20 °C", "1. A strainer at a heat of from -5 to 20 °C.\n"),
        "5 to 20 °C",
        "'5 to 20 °C' is cut out of '-5 to 20 °C'",
        "write: -5 to 20 °C",
    ),
    (
        "a part of a unit",
        with_line("heat : at most 5 g", "1. A strainer with wax of at most 5 g/m2.\n"),
        "at most 5 g",
        "'at most 5 g' is cut out of 'at most 5 g/m2'",
        "whole unit",
    ),
    (
        "a part of a unit, behind the dot of its beginning",
        with_line("heat : at most 5° C", "1. A strainer that cools at a rate of at most 5° C. per minute.\n"),
        "at most 5° C",
        "'at most 5° C' is cut out of 'at most 5° C. per minute'",
        "whole unit",
    ),
    (
        "a part of a number",
        with_line("diameter : 1.5 mm", "1. A strainer with a diameter of 11.5 mm.\n"),
        "1.5 mm",
        "claim 1 does not say '1.5 mm'",
        "the text has: '11.5 mm'",
    ),
    ("unknown unit", HEAD.replace("in mm", "in mn") + CLAIM, "mn", "'mn' is no known unit", "mm"),
    ("unknown unit of a number", with_line("diameter <= 4 mn"), "mn", "'mn' is no known unit", ""),
    (
        "wrong bounds",
        HEAD.replace("> 0 mm, <= 50", "> 50 mm, <= 2"),
        "length in mm, > 50 mm, <= 2 mm",
        "the lower bound is above the upper bound",
        "",
    ),
    (
        "empty domain",
        HEAD.replace("> 0 mm, <= 50", "> 2 mm, < 2"),
        "length in mm, > 2 mm, < 2 mm",
        "no value lies within these bounds",
        "from 2 mm to 2 mm",
    ),
    ("empty count", HEAD.replace("count", "count, > 2, < 3"), "count, > 2, < 3", "no value lies", ""),
    ("two claims with one number", HEAD + CLAIM + CLAIM, CLAIM.strip(), "two claims have the number 1", ""),
    (
        "claim of itself",
        HEAD + CLAIM + "2. The strainer of claim 2.\n",
        "claim 2",
        "claim 2 depends on itself",
        "",
    ),
    (
        "missing claim",
        HEAD + CLAIM + "2. The strainer of claim 7.\n",
        "claim 7",
        "there is no claim 7",
        "1, 2",
    ),
    (
        "circle",
        HEAD + CLAIM + "2. The strainer of claim 3.\n3. The strainer of claim 2.\n",
        "2. The strainer of claim 3.",
        "claim 2 depends on itself through other claims",
        "",
    ),
    (
        "case for a missing claim",
        with_cases("inside for 9   holes\n  a   6\n"),
        "9",
        "there is no claim 9",
        "1",
    ),
    (
        "case for a missing limitation",
        with_cases("inside for 1c   holes\n  a   6\n"),
        "1c",
        "no limitation 1c",
        "",
    ),
    (
        "value outside its domain",
        with_cases("inside   diameter\n  a   60 mm\n"),
        "60 mm",
        "60 mm is outside the domain of diameter",
        "upper end, 50 mm",
    ),
    (
        "open end",
        with_cases("inside   diameter\n  a   0 mm\n"),
        "0 mm",
        "0 mm is outside the domain",
        "does not belong",
    ),
    (
        "half a hole",
        with_cases("inside   holes\n  a   2.5\n"),
        "2.5",
        "holes is a count; 2.5 is not whole",
        "",
    ),
    (
        "outside its domain in facts",
        with_cases("inside\n  a : diameter = 60 mm\n"),
        "diameter = 60 mm",
        "60 mm is outside",
        "",
    ),
    (
        "inside and outside at once",
        with_cases("inside   holes\n  a   6\nmust stay out\n  b   6\n"),
        "b   6",
        "'b' must stay out and is the same as 'a' inside",
        "sets them apart",
    ),
    ("comma", with_line("diameter <= 1,000 mm"), "1,000", "a comma inside a number", "1000"),
    ("comma in words", with_line("diameter : between 2 and 4,5 mm"), "4,5", "a comma inside a number", "4.5"),
    (
        "too few operands",
        with_line("diameter : between 2"),
        "between 2",
        "no phrase reads 'between 2'",
        "takes 2 values",
    ),
    (
        "no phrase",
        with_line("diameter : is about"),
        "is about",
        "no phrase reads 'is about'",
        "'about ...",
    ),
    (
        "not in the text",
        with_line("diameter : between 3 and 4 mm"),
        "between 3 and 4 mm",
        "claim 1 does not say 'between 3 and 4 mm'",
        "between 2 and 4 mm",
    ),
    ("unclosed bracket", with_line("(diameter <= 3 mm"), "(", "'(' is never closed", "')'"),
    (
        "unclosed quote",
        HEAD.replace("steel", 'steel  "note') + CLAIM,
        '"',
        "a quote that is never closed",
        "",
    ),
    (
        "too few cells",
        with_cases("inside   holes   diameter\n  a   6\n"),
        "a   6",
        "too few values: 1 for 2",
        "holes",
    ),
    (
        "too many cells",
        with_cases("inside   holes\n  a   6   7   8\n"),
        "7",
        "too many values",
        "holes",
    ),
    (
        "an intent behind a word that is nearly meant",
        with_line("holes : divisible by 6 means holes / 6 IS WHOLE"),
        "means",
        "'means' stands here where an intent begins",
        "meant  holes / 6 IS WHOLE",
    ),
    (
        "an intent after a single blank",
        with_line("holes : divisible by 6 meant holes / 6 IS WHOLE"),
        "meant",
        "'meant' stands here where an intent begins",
        "two blanks",
    ),
    (
        "nested brackets",
        with_line("(" * 10_000 + "holes" + ")" * 10_000 + " = 6"),
        "(",
        "brackets too deep",
        "40",
    ),
    ("nested brackets in words", with_line("holes : " + "(" * 10_000), "(", "brackets too deep", ""),
    (
        "nested brackets in a cell",
        with_cases("inside   holes\n  a   " + "(" * 10_000 + "\n"),
        "(",
        "too deep",
        "",
    ),
    (
        "many digits",
        with_line("diameter <= " + "9" * 100_000 + " mm"),
        "9" * 100_000,
        "a number of 100000 digits",
        "",
    ),
    (
        "many digits in a cell",
        with_cases("inside   holes\n  a   " + "9" * 100_000 + "\n"),
        "9" * 100_000,
        "a number of 100000 digits",
        "",
    ),
    ("empty", "", "", "the sheet is empty", "paste the claims"),
    ("only comments", "\n# nothing\n", "\n# nothing\n", "the sheet is empty", ""),
    ("no claim", HEAD, "h", "the sheet has no claim", ""),
    (
        "bare number",
        with_line("diameter <= 3"),
        "3",
        "3 stands beside a quantity in mm and has no unit",
        "3 mm",
    ),
    ("bare zero of a level", with_line("heat <= 0"), "0", "0 stands beside a quantity in degC", "0 degC"),
    ("bare share", with_line("open = 0.35"), "0.35", "0.35 stands beside a quantity in %", "0.35 % or 35 %"),
    ("bare number in words", with_line("open : about 35"), "35", "35 stands beside a quantity in %", "35 %"),
    (
        "bare number in a cell",
        with_cases("inside   open\n  a   36\n"),
        "36",
        "36 stands beside a quantity in %",
        "36 %",
    ),
    ("level multiplied", with_line("heat * 2 <= 50 degC"), "heat * 2", "temperature level", ""),
    (
        "members swapped",
        with_line("metal : brass or zinc", CLAIM.replace("open", "brass or zinc")),
        "brass",
        "'brass' is no member of metal",
        "copper, zinc, steel",
    ),
    (
        "member in a cell",
        with_cases("inside   metal\n  a   coper\n"),
        "coper",
        "'coper' is no member",
        "'copper'",
    ),
    (
        "kind misspelt",
        "diameter   lenght in mm\n\n" + CLAIM,
        "lenght in mm",
        "'lenght' is no kind",
        "'length'",
    ),
    (
        "kind without unit",
        "diameter   length\n\n" + CLAIM,
        "length",
        "in which unit is this length given?",
        "length in mm",
    ),
    (
        "wrong unit for the word",
        "diameter   length in kg\n\n" + CLAIM,
        "length in kg",
        "kg is no unit of length",
        "mass",
    ),
    ("heading misspelt", "titel   x\n" + CLAIM, "titel   x", "this line is not understood", "'title'"),
    ("hedge in a name", "at least x   count\n" + CLAIM, "at least x", "'at' cannot be part of a name", ""),
    ("declared twice", "a  count\na  number\n" + CLAIM, "a", "'a' is declared twice", ""),
    (
        "ends swapped",
        with_line("diameter : between 4 and 2 mm", CLAIM.replace("2 and 4", "4 and 2")),
        "between 4 and 2 mm",
        "the numbers of this phrase do not go together",
        "L < U",
    ),
    (
        "no colon",
        with_line("holes divisible by 6"),
        "holes divisible by 6",
        "neither words after a colon",
        "subject",
    ),
    (
        "unknown pin",
        f'{with_line("holes : divisible by 6")}\nread "abuot" as "x"\n',
        '"abuot" as "x"',
        "nothing in the sheet reads 'abuot'",
        "",
    ),
    (
        "unknown reading",
        f'{with_line("holes : divisible by 6")}\nread "divisible by" as "x"\n',
        '"divisible by" as "x"',
        "'divisible by' has no reading 'x'",
        "'can be divided'",
    ),
    (
        "unknown axis",
        f"{HEAD}{CLAIM}\npolicy end are included\n",
        "end are included",
        "no phrase leaves open",
        "'ends'",
    ),
    (
        "two cases of one name",
        with_cases("inside   holes\n  a   6\n  a   7\n"),
        "a   7",
        "two cases are called 'a'",
        "",
    ),
    (
        "phrase without readings",
        with_cases('phrase "well over (L)"\n'),
        '"well over (L)"',
        "a phrase without readings",
        "",
    ),
    (
        "no moment",
        f'{HEAD}{CLAIM}\nphrase "well spread"\n  only for parts\n  each has a moement\n'
        '  reading "r" : parts <= 1\n',
        "a moement",
        "'a moement' is nothing that a phrase asks each part to have",
        "'a moment'",
    ),
    (
        "a moment of no parts",
        f'{HEAD}{CLAIM}\nphrase "well over (L)"\n  each has a moment\n  reading "r" : x > L\n',
        "a moment",
        "'each has' below a phrase that is not only for parts",
        "write only for parts",
    ),
    ("choice like a number", with_line("grade <= 3"), "grade <= 3", "'<=' does not compare lists", ""),
    (
        "several things under one phrase",
        with_line("holes, holes : divisible by 6"),
        "divisible by 6",
        "takes 1 thing",
        "",
    ),
    # ---- declarations
    ("or in a list", "a  any of b, c or d\n" + CLAIM, "c or d", "'c or d' holds the word 'or'", "c, d"),
    ("and after a comma", "a  any of b, c, and d\n" + CLAIM, "and d", "holds the word 'and'", "write d"),
    ("not in a list", "a  one of not b, c\n" + CLAIM, "not b", "holds the word 'not'", "not-b"),
    ("unit alone", "a  mm\n" + CLAIM, "mm", "a unit without 'in' before it", "write length in mm"),
    ("share without in", "a  wt%\n" + CLAIM, "wt%", "a unit without 'in'", "write share in wt%"),
    ("unit without in", "a  length mm\n" + CLAIM, "length mm", "a unit without 'in'", "length in mm"),
    ("wide", "a  width in m\n" + CLAIM, "width in m", "'width' is no kind", "length in m"),
    ("flow", "a  flow in L/h\n" + CLAIM, "flow in L/h", "'flow' is no kind", "write in L/h"),
    ("by mass", "a  share by mass\n" + CLAIM, "share by mass", "'share by mass' is no kind", "share in wt%"),
    (
        "count per area",
        "a  count per cm2\n" + CLAIM,
        "count per cm2",
        "'count per cm2' is no kind",
        "in 1/cm2",
    ),
    (
        "number as name",
        "a  any of 2 screws, b\n" + CLAIM,
        "2 screws",
        "is no name",
        "grade 2 screws",
    ),
    (
        "quantity as name",
        "a  any of 3 mm screws, b\n" + CLAIM,
        "3 mm screws",
        "is no name",
        "grade 3 mm screws",
    ),
    ("quoted name", 'a  any of "2-propanol", b\n' + CLAIM, '"2-propanol"', "is no name", "without quotes"),
    ("name with sign", "a  any of SnO2/ZnO, b\n" + CLAIM, "SnO2/ZnO", "is no name", "SnO2 ZnO"),
    ("inch", "a  in 1/in\n" + CLAIM, "1/in", "no known unit", "write 1/inch"),
    ("boolean", "a  boolean\n" + CLAIM, "boolean", "is no kind", "write one of only yes, no"),
    ("capital kind", "a  Length in mm\n" + CLAIM, "Length in mm", "is no kind", "write length in mm"),
    ("set of", "a  set of b, c\n" + CLAIM, "set of b, c", "is no kind", "any of b, c (several at once)"),
    ("list in brackets", "a  one of (b, c)\n" + CLAIM, "(b, c)", "is no name", "take out the brackets"),
    ("count in one", "a  count in 1\n" + CLAIM, "count in 1", "a count has no unit", "write count"),
    ("unit in brackets", "a  length (mm)\n" + CLAIM, "length (mm)", "is no kind", "write length in mm"),
    ("share of what", "a  share of b in wt%\n" + CLAIM, "share of b in wt%", "is no kind", "in wt% of b"),
    ("two units", "a  length in mm or cm\n" + CLAIM, "mm or cm", "is no known unit", "choose one"),
    ("unit of one", "a  ratio in 1\n" + CLAIM, "1", "'1' is no unit", "write number"),
    ("bound without comma", "a  count >= 1\n" + CLAIM, "count >= 1", "a bound without", "count, >= 1"),
    ("bound on unit", "a  in mm > 1 mm\n" + CLAIM, "in mm > 1 mm", "a bound with", "mm, >"),
    ("range for a bound", "a  count, 1 to 50\n" + CLAIM, "1 to 50", "a bound was expected", ">= 1, <= 50"),
    ("note in brackets", "a  length in mm (wide)\n" + CLAIM, "mm (wide)", "is no known", 'in mm   "wide"'),
    ("list alone", "a  b, c, d\n" + CLAIM, "b, c, d", "a list without any of or one of", "any of b, c, d"),
    ("yes or no", "a  yes or no\n" + CLAIM, "yes or no", "a list without any of", "one of only yes, no"),
    (
        "difference in degC",
        "a  temperature difference in degC\n" + CLAIM,
        "temperature difference in degC",
        "degC is no unit of temperature difference",
        "difference in K",
    ),
    (
        "gauge in bar",
        "a  gauge pressure in bar\n" + CLAIM,
        "gauge pressure in bar",
        "bar is no unit of gauge pressure",
        "gauge pressure in bar(g)",
    ),
    (
        "absolute behind one blank",
        "a absolute pressure in bar\n" + CLAIM,
        "absolute pressure in bar",
        "bar is no unit of absolute pressure",
        "write a  absolute pressure in bar(a)",
    ),
    (
        "what is claimed",
        "What is claimed is:\n\n" + CLAIM,
        "What is claimed is:",
        "this line is not understood",
        "take the line out, or put # before it",
    ),
    # ---- lines of words
    (
        "words before the phrase",
        with_line("diameter : the holes have a diameter of between 2 and 4 mm", AT_DIAMETER),
        "the holes have a diameter of between 2 and 4 mm",
        "no phrase reads",
        "lift only: between 2 and 4 mm",
    ),
    (
        "two things of which the words name one",
        with_line("heat, cold : at least 20 degC", LEVELS).replace("heat  ", "heat, cold  "),
        "at least 20 degC",
        "takes 1 thing, not 2",
        "write a line for each, or their sum",
    ),
    (
        "symbols after a colon",
        with_line("diameter : = 2 mm", "1. A hole with a diameter = 2 mm.\n"),
        "= 2 mm",
        "symbols right of a colon",
        "diameter = 2 mm",
    ),
    (
        "undeclared quantity in words",
        with_line("diameter : at least 4 times the width of the holes", TIMES),
        "at least 4 times the width of the holes",
        "no phrase reads",
        "'the width of the holes' is no declared name",
    ),
    (
        "no comma before what the text has",
        with_line("diameter : wherein 2 mm", "1. A hole, wherein 3 mm.\n"),
        "wherein 2 mm",
        "claim 1 does not say",
        "the text has: 'wherein 3 mm'",
    ),
    (
        "plain bar for a gauge pressure",
        "a  pressure in bar(g)\n\n1. A thing of at least 2 bar.\n  | a : at least 2 bar\n",
        "at least 2 bar",
        "gauge pressure and pressure",
        "exactly",
    ),
    # ---- claims
    (
        "line without a bar",
        HEAD + CLAIM + "   | diameter : between 2 and 4 mm\n       meant diameter < 3 mm\n",
        "meant diameter < 3 mm",
        "a line without a bar below the margin lines of claim 1",
        "above the first bar if it is the claim's text",
    ),
    (
        "line without a bar at the margin",
        HEAD + CLAIM + '   | diameter : between 2 and 4 mm\nreading "all" : x > 2 mm\n',
        'reading "all" : x > 2 mm',
        "a line without a bar",
        "put | before it",
    ),
    (
        "bar forgotten below the text",
        HEAD + CLAIM + "diameter: between 2 and 4 mm\n",
        "diameter: between 2 and 4 mm",
        "text of claim 1, or a line that restates it?",
        "join it to the line above",
    ),
    (
        "claim before its number",
        HEAD + "Claim 1. A sieve.\n",
        "Claim 1",
        "a claim begins with its number alone",
        "1. A sieve.",
    ),
    # ---- cases
    (
        "heading of cases misnamed",
        with_cases("outside   holes\n  a   6\n"),
        "outside   holes",
        "'outside' is no heading",
        "'must stay out'",
    ),
    (
        "case for a range of claims",
        with_cases("inside   for 1 to 3   holes\n  a   6\n"),
        "for 1 to 3",
        "the claims after 'for' are not understood",
        "for 1, 2",
    ),
    (
        "range of more than two in a cell",
        with_cases("inside   diameter\n  a   2 mm to 4 mm to 6 mm\n"),
        "to",
        "'to' stands beside another value",
        "",
    ),
    (
        "dash in a cell",
        with_cases("inside   diameter   holes\n  a   -   6\n"),
        "-",
        "'-' is no value",
        "write any, unknown",
    ),
    (
        "silent among facts",
        with_cases("document D1\n  a : open silent, holes = 6\n"),
        "open silent",
        "'silent' is no fact",
        "take it out",
    ),
    (
        "number before its name",
        with_cases("inside\n  a : 6 holes, open about 3 %\n"),
        "6 holes",
        "no declared name begins this fact",
        "holes = 6",
    ),
    (
        "measured among symbols",
        with_cases("inside\n  a : diameter = measured 8.0 mm\n"),
        "measured 8.0 mm",
        "'measured' is a word of cells",
        "TO 0.1 mm, HALF AWAY) = 8.0 mm",
    ),
    (
        "document with one blank before its value",
        with_cases('document D1 3 mm   "page 1"\n'),
        'document D1 3 mm   "page 1"',
        "states nothing",
        "two blanks",
    ),
    # ---- symbols
    (
        "member alone",
        with_line("metal = copper OR zinc"),
        "zinc",
        "'zinc' is not declared",
        "zinc IN metal",
    ),
    ("not in", with_line("steel NOT IN metal"), "NOT", "'NOT IN' is not", "NOT steel IN"),
    ("or between numbers", with_line("holes = 3 or 4"), "or", "'or' among symbols", "gap = 3 mm OR gap"),
    ("full stop", with_line("holes = 3."), "3.", "ends with its point", "write 3"),
    ("full stop after a unit", with_line("diameter = 3 mm."), ".", "'.' has no", "take out the full stop"),
    ("semicolon", with_line("diameter = 3 mm; holes = 3"), ";", "';' has no", "a comma between"),
    ("third of a share", with_line("open >= 1/3"), "1/3", "1/3 stands beside", "write 100/3 %"),
    ("number before a name", with_line("holes = 2 rows"), "rows", "'rows' is no known unit", "2 * rows"),
    ("levels added", with_line("(heat + heat) / 2 >= 3 degC"), "(heat + heat)", "added", "(heat - heat) / 2"),
    # ---- pins and phrases
    (
        "pin at a missing limitation",
        f'{with_line("holes : divisible by 6")}\nread "divisible by" in 2a as "can be divided"\n',
        '"divisible by" in 2a as "can be divided"',
        "'divisible by' is not used in 2a",
        "used in: 1a",
    ),
    (
        "pin at a limitation with other words",
        f'{BOTH}\nread "divisible by" in 1b as "can be divided"\n',
        '"divisible by" in 1b as "can be divided"',
        "'divisible by' is not used in 1b",
        "used in: 1a",
    ),
    (
        "pin after a policy",
        f'{BOTH}\npolicy ends are included\nread "between and" as "both ends out"\n',
        '"between and" as "both ends out"',
        "'between and' has no reading 'both ends out' left",
        "Settled before by 'ends are included'",
    ),
    (
        "pin with the beginning of the words",
        f'{BOTH}\nread "between" as "both ends out"\n',
        '"between" as "both ends out"',
        "nothing in the sheet reads 'between'",
        "'between ... and ...'",
    ),
    (
        "pinned number without unit",
        f'{OPEN}\nread "about" as "context tolerance" with e = 5\n',
        "5",
        "5 stands beside a quantity in % and has no unit",
        "write 5 %",
    ),
    (
        "pinned number of another kind",
        f'{OPEN}\nread "about" as "context tolerance" with e = 5 mm\n',
        "5 mm",
        "5 mm is no value for 'e'",
        "given in %",
    ),
    (
        "pinned number that is none",
        f'{OPEN}\nread "about" as "context tolerance" with q = 5 %\n',
        '"about" as "context tolerance" with q = 5 %',
        "leaves no number 'q' open",
        "leaves open: e",
    ),
    (
        "slot without brackets",
        with_cases('phrase "well above L"\n  reading "r" : x > L\n'),
        "L",
        "'L' is not declared",
        '"well above (L)"',
    ),
    (
        "name in a phrase that nothing declares",
        with_cases('phrase "well above (L)"\n  reading "r" : x > L * factor\n'),
        "factor",
        "'factor' is not declared",
        "declare it",
    ),
    (
        "member that the list does not have",
        "solvent  one of ethanol, propanol\n\n1. A mix, the solvent is butanol.\n   | solvent : is butanol\n",
        "butanol",
        "'butanol' is no member of solvent",
        "did you mean 'ethanol'? If not, add it to the list of solvent",
    ),
    (
        "word in the cell of a step",
        HEATING + "\ninside  heating\n  sample  dun\n",
        "dun",
        "'dun' says nothing of heating that is known",
        "write one of these: done, not done",
    ),
    (
        "words of a duration beside the step",
        HEATING + "   | heating : just over 5 min\n",
        "just over 5 min",
        "no phrase reads 'just over 5 min'",
        "write duration of heating : just over 5 min",
    ),
    (
        "per cent by volume beside a share by mass",
        "lime  share in wt%\n\n1. A mix of, by volume: at least 60 % lime.\n   | lime : at least 60 %\n",
        "at least 60 %",
        "60 % is a share on no basis, and lime a share by mass, in wt%",
        "two blanks, exactly lime >= 60 wt%; if no claim says by what",
    ),
    (
        "per cent of no basis in symbols",
        "lime  share in wt%\n\n1. A mix with at least 60 % lime.\n   | lime >= 60 %\n",
        "lime >= 60 %",
        "60 % is a share on no basis, and lime a share by mass, in wt%",
        "write 60 wt% if that is meant",
    ),
    (
        "per cent of no basis in words of a case",
        "lime  share in wt%\n\n1. A mix of lime.\n\ninside\n  one : lime between 3 and 4 %\n",
        "between 3 and 4 %",
        "3 % is a share on no basis, and lime a share by mass, in wt%",
        "write between 3 and 4 wt% if that is meant",
    ),
    (
        "per cent of no basis in a cell",
        "mix  composition in wt%\n  lime, sand\n\n1. A mix of lime.\n\ninside  lime\n  one   3 %\n",
        "3 %",
        "3 % is a share on no basis, and lime a share by mass of mix, in wt%",
        "write 3 wt% if that is meant",
    ),
    (
        "more values than parts",
        RODS + "\ninside  rods  length of rods in mm\n  a  2  3; 4; 5\n",
        "3; 4; 5",
        "3 values for 2 rods",
        "write as many values as there are rods",
    ),
    (
        "garbled name of like parts",
        RODS + "   | total length of the rods rod having >= 9 mm\n",
        "total length of the rods rod having",
        "'total length of the rods rod having' is not declared",
        "for all together SUM rod (length)",
    ),
    (
        "total of like parts",
        RODS + "   | total length of the rods : 9 mm\n",
        "total length of the rods",
        "no rod has a 'total length'",
        "write SUM rod (length)",
    ),
]


@pytest.mark.parametrize(
    ("text", "marked", "message", "words"), [pytest.param(*row[1:], id=row[0]) for row in TABLE]
)
def test_mistake_is_marked_and_explained(text: str, marked: str, message: str, words: str) -> None:
    found = [d for d in errors(text) if message in d.message]
    assert found, [d.message for d in errors(text)]
    diagnostic = found[0]
    assert diagnostic.span.text == marked
    assert words in f"{diagnostic.cause} {diagnostic.help}"
    drawn = draw(diagnostic)
    assert max(map(len, drawn.split("\n")[1:4])) < 200
    assert diagnostic.span.source.text == "" or f"line {diagnostic.span.line}" in drawn


@pytest.mark.parametrize("text", [pytest.param(row[1], id=row[0]) for row in TABLE])
def test_sheet_with_a_mistake_has_no_meaning(text: str) -> None:
    assert read_sheet(Source("test", text))[0] is None


def test_several_mistakes_are_reported_together_and_in_order() -> None:
    text = (
        "a  length in mn\nb  count, > 5, < 2\nfiled maybe\n\n"
        + CLAIM
        + "   | c : between 2 and 4 mm\n   | b <= 1,000\n   | a <= 3 mm\n   | b : divisable by 6\n\n"
        + "inside  b\n   x   1   2\n"
    )
    messages = [d.message for d in errors(text)]
    assert messages == [
        "'mn' is no known unit",
        "the lower bound is above the upper bound",
        "'maybe' is neither yes nor no",
        "'c' is not declared",
        "a comma inside a number",
        "claim 1 does not say 'divisable by 6'",
        "too many values: 2 for 1 columns",
    ]


def test_no_help_drops_what_an_amount_is_counted_by() -> None:
    text = """
filling  mass in g
1. A cell having a filling of from 1.5 to 3.0 g per unit of rating.
   | filling : from 1.5 to 3.0 g per unit of rating
"""
    (error,) = errors(text)
    assert "no phrase reads" in error.message
    assert "lift only" not in error.help


def from_file(path: Path) -> list[Diagnostic]:
    made, diagnostics = read_path(path)
    assert made is None
    assert all(str(path) in draw(d) for d in diagnostics)
    return list(diagnostics)


def test_files_that_are_no_sheets(tmp_path: Path) -> None:
    (tmp_path / "binary").write_bytes(bytes(range(256)))
    (tmp_path / "zeros").write_bytes(b"a\0b")
    (tmp_path / "empty").write_text("")
    assert from_file(tmp_path)[0].message == "this is a directory, not a sheet"
    assert from_file(tmp_path / "binary")[0].message == "the file is not text in UTF-8"
    assert from_file(tmp_path / "zeros")[0].message == "the file is not text"
    assert from_file(tmp_path / "empty")[0].message == "the sheet is empty"
    missing = from_file(tmp_path / "empti")[0]
    assert missing.message == "there is no such file"
    assert "'empty'" in missing.help
    assert from_file(tmp_path / "a\0b")[0].message == "the file cannot be read"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_byte_order_marks_are_read(tmp_path: Path, encoding: str) -> None:
    (tmp_path / "sheet").write_bytes("a  count\r\n\r\n1. A thing.\r\n   | a ≤ 3\r\n".encode(encoding))
    made, diagnostics = read_path(tmp_path / "sheet")
    assert made is not None, diagnostics
    assert [d.name for d in made.declarations] == ["a"]


@pytest.mark.parametrize("cut", range(0, 1100, 37))
def test_cut_off_sheet_never_raises(cut: int) -> None:
    for text in (STRAINER[:cut], STRAINER[cut:], STRAINER[:cut] + "(" + STRAINER[cut:]):
        made, diagnostics = read_sheet(Source("test", text))
        assert all(map(draw, diagnostics))
        assert made is not None or any(d.severity == "error" for d in diagnostics)


@pytest.mark.parametrize("cut", range(0, 1100, 23))
def test_a_cut_off_sheet_is_refused_or_says_what_the_whole_one_says_up_to_there(cut: int) -> None:
    """What the cut goes through, the last of each sort, may say less."""
    whole, _ = read_sheet(Source("test", STRAINER))
    made, diagnostics = read_sheet(Source("test", STRAINER[:cut]))
    assert whole is not None
    if made is None or any(d.severity == "error" for d in diagnostics):
        assert any(d.severity == "error" for d in diagnostics)
        return
    for sort in (said_in_declarations, said_in_claims, said_in_cases):
        said, said_in_whole = sort(made), sort(whole)
        assert len(said) <= len(said_in_whole)
        assert said[:-1] == said_in_whole[: len(said[:-1])]


def said_in_declarations(made: Sheet) -> list[object]:
    return [(d.name, type(d)) for d in made.declarations]


def said_in_claims(made: Sheet) -> list[object]:
    return [(x.label, x.subject, x.words) for c in made.claims for x in c.limitations]


def said_in_cases(made: Sheet) -> list[object]:
    return [(c.name, c.role) for c in made.cases]


def test_a_wrong_declaration_of_like_parts_is_told_once_and_hides_no_other_name() -> None:
    found = errors(
        "blade   part, up to 100\n  length   length in mm\n\n"
        "1. A fan with four blades of a length of 3 mm and a rim.\n"
        "   | blades : four blades\n   | length of the blades : a length of 3 mm\n   | blade guard : a rim\n"
    )
    assert [d.message for d in found] == ["from 0 to 100 parts", "'blade guard' is not declared"]


def test_words_that_no_phrase_has_are_told() -> None:
    text = """
face  length in mm
1. A cover plate whose face is lovingly around and about 5 mm.
   | face : lovingly around and about 5 mm
"""
    (error,) = errors(text)
    assert "No phrase has these words: 'lovingly'." in error.cause


@pytest.mark.parametrize("place", ["of claim 9", "a 9 gap", "of 9,9 mm"])
def test_a_number_without_end_is_told_where_it_stands(tmp_path: Path, place: str) -> None:
    text = "gap  length in mm\n\n1. A frame with a gap of at least 2 mm, 9.\n   | gap >= 2 mm\n"
    long = "9" * 5000
    text = text.replace("9", place.replace("9", long))
    error, *more = errors(text)
    assert (error.message[:12], error.span.line, more) == ("a number of ", 3, [])
    (tmp_path / "sheet").write_text(text)
    assert from_file(tmp_path / "sheet")[0].message == error.message


@pytest.mark.parametrize("line", ["rod  part, up to 9", "rod  part, 9 to 12"])
def test_parts_without_end_are_refused(line: str) -> None:
    for long in ("9" * 60, "9" * 300, "9" * 5000):
        text = f"{line.replace('9', long)}\n  length  length in mm\n\n1. A rack with a rod.\n   | rods >= 1\n"
        assert errors(text)


FOR_ONE = """\
dev  number

1. A gauge with a dev about right.
   | dev : about right
   |   reading "presumed" presumed : x <= 5
   |     only for {}
   |   reading "other" : x <= 7
"""


@pytest.mark.parametrize(
    "kind", ["deviations", "conditions", "parts", "steps", "sequences", "moments", "classes"]
)
def test_a_reading_is_for_no_kind_that_whole_phrases_are_for(kind: str) -> None:
    """It would never be tried, and the other one presumed in silence."""
    (error,) = errors(FOR_ONE.format(f"counts, {kind}"))
    assert error.message == f"a reading cannot be only for {kind}"
    assert error.span.text == f"counts, {kind}"
    assert "A reading may be for: measured, counts" in error.cause
    own = f'phrase "well above (L)"\n  only for {kind}\n  reading "r" : x > L\n'
    assert not errors(with_line("diameter : between 2 and 4 mm") + f"\n{own}")


def test_a_reading_is_for_kinds_that_its_subject_may_have() -> None:
    assert not errors(FOR_ONE.format("measured, levels"))


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        ('roughness  length in um  "Ra"', "roughness", "an arithmetic mean roughness Ra of 0.8 um or less"),
        ("roughness  length in um", "roughness", "arithmetic"),
        ("heated  one of yes, no\npH  number", "heated, pH", "is heated only where the pH is 4.0 or more"),
    ],
)
def test_words_that_leave_nothing_to_read_are_no_fault(declared: str, left: str, words: str) -> None:
    made, found = read_sheet(Source("t", f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"))
    assert (made is None) is any(d.severity == "error" for d in found)
