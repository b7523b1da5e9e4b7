"""A number takes the form that its language wants: the files' forms stand in the order that their rules count in.

Beside CLDR's rules and names of forms, as Babel has them (https://www.unicode.org/cldr/charts/latest/supplemental/
language_plural_rules.html): zero, one, two, few, many, other.
"""

from __future__ import annotations

import pytest
from babel import Locale

from pengan.words.compiling import plural_digits
from pengan.words.languages import shipped
from pengan.words.loading import catalogue
from pengan.words.reader import Reader

ORDER = ("zero", "one", "two", "few", "many", "other")
ARABIC = {
    0: "0 إنذار آخر", 1: "إنذار آخر", 2: "إنذاران آخران", 5: "5 إنذارات أخرى", 10: "10 إنذارات أخرى",
    11: "11 إنذارًا آخر", 99: "99 إنذارًا آخر", 100: "100 إنذار آخر", 102: "102 إنذار آخر", 103: "103 إنذارات أخرى",
    111: "111 إنذارًا آخر", 200: "200 إنذار آخر",
}  # fmt: skip


def cldr(language: str) -> Locale:
    """Our Portuguese is Portugal's, in which none is many."""
    return Locale.parse("pt_PT" if language == "pt" else language, sep="_")


@pytest.mark.parametrize("language", shipped())
def test_forms_are_counted_in_the_order_that_cldr_names_them_in(language: str) -> None:
    """For every number that screens count up to; forms for whole millions are left to the last."""
    names = [cldr(language).plural_form(number) for number in range(200)]
    taken = [name for name in ORDER if name in names]
    assert plural_digits(language) == "".join(str(taken.index(name)) for name in names)


@pytest.mark.parametrize(("count", "said"), ARABIC.items())
def test_arabic_says_a_number_of_things_as_arabic_does(count: int, said: str) -> None:
    """From 11 to 99 what is counted stands in the singular with an ending of its own, at a hundred without."""
    assert Reader(language="ar").ngettext("{count} more alarm", "{count} more alarms", count) == said


def test_in_arabic_many_and_other_stand_in_their_places() -> None:
    """Where the two differ, it is the many's that has the ending."""
    forms = [catalogue("ar").ngettext("{count} day", "{count} days", count) for count in (0, 1, 2, 3, 11, 100)]
    assert forms == ["{count} يوم", "يوم واحد", "يومان", "{count} أيام", "{count} يومًا", "{count} يوم"]
