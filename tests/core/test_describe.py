"""What a calculation tells of itself: its formulas, and the page made of it."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from tundish.describe_blocks import describe_blocks
from tundish.drawing import as_markdown
from tundish.formula import Formula
from tundish.host import default_host
from tundish.reach import reachable_formulas
from tundish.schemas import describe
from tundish.sheet import Entry

CATALOGUE = sorted(default_host().entries)


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_formulas_are_told_as_text_and_as_mathml(calculation: str) -> None:
    host = default_host()
    told = describe(host.runner(calculation).calculation, host)
    assert told["formulas"]
    for item in told["formulas"]:
        root = ET.fromstring(item["mathml"])  # noqa: S314  (our own text)
        assert root.tag == "{http://www.w3.org/1998/Math/MathML}math"
        assert item["text"].startswith(f"{item['symbol']} = ")
        assert item["source"]["document"], item["name"]


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_every_input_stands_on_the_page(calculation: str) -> None:
    host = default_host()
    told = describe(host.runner(calculation).calculation, host)
    blocks = list(describe_blocks(told))
    terms = [block.term for block in blocks if isinstance(block, Entry)]
    for field in told["inputs"]:
        assert field["pointer"][1:] in terms
    assert as_markdown(blocks).startswith("# ")


def test_reach_goes_through_modules_classes_and_nested_functions() -> None:
    host = default_host()
    calculation = host.runner("hot-water-recovery").calculation
    names = {formula.__name__ for formula in reachable_formulas(calculation.kernel)}
    # by a module's attribute, in a method, in a nested formula's module
    assert {"reheat_time", "net_power", "density", "coil_power"} <= names
    assert all(isinstance(item, Formula) for item in reachable_formulas(calculation.kernel))
