"""Printed examples that are known already, restated by the phrase itself and its several things.

What followed in law is not checked and not repeated. Sources and tags as in the other modules.
"""

from __future__ import annotations

from tests.published.worked import labels, met, pinned

POLYMER = """
number mean, weight mean  molar mass in kDa

1. A polymer with a molecular weight of 5 to 9 kDa.
   | number mean, weight mean : a molecular weight of 5 to 9 kDa

must stay out
  mixture : number mean = 8 kDa, weight mean = 10 kDa
"""


def test_two_averages_by_the_phrase() -> None:
    """W74, own numbers: 8 by number, 10 by weight. Two of the three averages in dispute in Teva v. Sandoz
    (read (secondary)); the peak, which goes by one chain alone, is not among the readings."""
    assert met(pinned(POLYMER, "molecular weight of", "number average"), "mixture") == "every"
    assert met(pinned(POLYMER, "molecular weight of", "weight average"), "mixture") == "none"
    assert labels(POLYMER, "molecular weight") == {"number average", "weight average"}


CYCLE = """
wheelbase, shortest, tallest  length in cm

1. A bicycle, the wheelbase being 58 to 75 % of the height of the rider.
   | wheelbase, shortest, tallest : 58 to 75 % of the height of the rider

must stay out
  known : wheelbase = 100 cm, shortest = 140 cm, tallest = 190 cm
"""


def test_a_limit_tied_to_a_rider_who_is_not_named() -> None:
    """W45, Ex parte Brummer as reported in MPEP 2173.05(b) II, read; the riders are our own."""
    assert met(pinned(CYCLE, "(L) to (U) of the height of the user", "some of them"), "known") == "every"
    assert met(pinned(CYCLE, "(L) to (U) of the height of the user", "every one of them"), "known") == "none"


BLEND = """
first, second, third  share in %

1. A blend {} 20 to 80 % of first, 20 to 80 % of second and 1 to 25 % of third.
   | first, second, third : {} 20 to 80 % of first, 20 to 80 % of second and 1 to 25 % of third

must stay out
  short : first = 30 %, second = 30 %, third = 20 %
  whole : first = 40 %, second = 40 %, third = 20 %
  over  : first = 80 %, second = 80 %, third = 25 %
"""


def test_shares_of_one_composition() -> None:
    """W31, In re Kroekel as reported in MPEP 2173.05(c) II, read: some sums cannot be."""
    opened, closed = BLEND.format("comprising", "comprising"), BLEND.format("consisting of", "consisting of")
    assert [met(opened, c) for c in ("short", "whole", "over")] == ["every", "every", "some"]
    assert [met(closed, c) for c in ("short", "whole", "over")] == ["some", "every", "some"]
    office = f"profile  EPO\n{closed}"  # EPO Guidelines 2018 F-IV 4.21, read: the shares reach 100
    assert [met(office, c) for c in ("short", "whole")] == ["some", "every"]


FENCE = """
posts  count

1. A fence with posts, every 10 ft for 100 ft.
   | posts : every 10 ft for 100 ft

must stay out  posts
  nine         9
  ten          10
  eleven       11
"""


def test_posts_of_a_fence() -> None:
    """The Jargon File, 'fencepost error', read: nine or eleven is a better answer than ten."""
    both, between = (
        pinned(FENCE, "every (N) for (P)", label) for label in ("both ends counted", "only those between")
    )
    assert [met(both, c) for c in ("nine", "ten", "eleven")] == ["none", "none", "every"]
    assert [met(between, c) for c in ("nine", "ten", "eleven")] == ["every", "none", "none"]
