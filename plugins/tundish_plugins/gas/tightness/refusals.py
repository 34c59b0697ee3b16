"""Why a test of tightness is not judged, and how to put it right."""

from __future__ import annotations

from typing import Final

from tundish.calculation import Refused

TIGHTNESS_REFUSALS: Final = (
    Refused(
        "let-by-pressure-wrong",
        "The let-by test was started outside {low} to {high}",
        "Do the let-by test again at a pressure of the procedure.",
    ),
    Refused(
        "let-by-too-short",
        "The let-by test was shorter than {least}",
        "Do the let-by test again for the whole time.",
    ),
    Refused(
        "stabilisation-too-short",
        "The temperature was given less than {least} to settle",
        "Let the pressure settle for the whole time, then test again.",
    ),
    Refused(
        "test-pressure-wrong",
        "The test was started outside {low} to {high}",
        "Test again at a pressure of the procedure. Where the supply cannot give it, say so with "
        "low_supply: an edition may allow less.",
    ),
    Refused(
        "test-too-short",
        "The test was shorter than {least}",
        "Test again for the whole time: a leak needs it to show.",
    ),
    Refused(
        "pressure-rose",
        "The pressure rose during the test, which says nothing about tightness",
        "The valve may let gas by, or the gas is warming, which hides a leak. Do the let-by test, "
        "let the temperature settle, and test again.",
    ),
    Refused(
        "retest-out-of-place",
        "The pipework alone is tested again only after a test with the appliances connected",
        "Leave pipework_retest out, and give the readings of this test.",
    ),
)
