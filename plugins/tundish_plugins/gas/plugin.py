"""What the gas family offers. Imports no contract: the calculation loads at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Gas", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return [
        CalculationEntry(
            id="gas-pipe-sizing",
            title="Pressure drop of a gas installation",
            summary="Drop from the meter to every appliance, section by section, with fittings; the "
            "next size up and down, and how much longer each section may be.",
            family="gas",
            questions=(
                "Will the gas pipe carry the new boiler?",
                "Which section must be larger?",
                "How long may this section be?",
            ),
            target="tundish_plugins.gas.pipe_sizing:CALCULATION",
        ),
        CalculationEntry(
            id="gas-pipe-proposal",
            title="Cheapest tubes of a gas installation",
            summary="From the tubes on offer and their costs, the cheapest for each section that keep "
            "the limit at every appliance, found exactly, with the next cheapest beside it.",
            family="gas",
            questions=(
                "Which tube sizes do I need, and no larger?",
                "Which section of the old gas pipe can stay?",
                "What is the cheapest way to feed another appliance?",
            ),
            target="tundish_plugins.gas.pipe_proposal:CALCULATION",
        ),
        CalculationEntry(
            id="gas-drop-forecast",
            title="Forecast of the drop of a gas pipe that cannot be seen",
            summary="From drops read at known rates: the drop at a new rate with its band, what the "
            "pipe could be, the largest rate within the limit, and which reading would settle it.",
            family="gas",
            questions=(
                "Will the buried gas pipe carry the new boiler, before anything is bought?",
                "How large may the new boiler be on this pipe?",
                "Which further reading would settle it?",
            ),
            target="tundish_plugins.gas.drop_forecast:CALCULATION",
        ),
        CalculationEntry(
            id="combustion",
            title="Combustion of a gas boiler",
            summary="From carbon dioxide or oxygen and carbon monoxide in the flue gas: excess air, "
            "dew point, ratio, losses and efficiency on net and gross, and what condensing gives; "
            "the flue before the burner, maximum and minimum rate together.",
            family="gas",
            questions=(
                "Does the boiler burn safely?",
                "Is the gas valve set right at maximum and at minimum rate?",
                "What does a cooler return save?",
            ),
            target="tundish_plugins.gas.combustion:CALCULATION",
        ),
        CalculationEntry(
            id="combustion-air",
            title="Air for gas appliances",
            summary="Free area of the vents that a room or compartment needs, straight from outside "
            "or by way of a room; whether the vents there are enough and fit; and which may go when "
            "a boiler does.",
            family="gas",
            questions=(
                "Does the room need a vent, and how large?",
                "Is this vent good enough?",
                "May the old vent be closed when the boiler is replaced?",
            ),
            target="tundish_plugins.gas.combustion_air:CALCULATION",
        ),
        CalculationEntry(
            id="gas-tightness",
            title="Tightness test of a small gas installation",
            summary="Volume of the installation, the drop that the edition of the procedure in force "
            "allows, and what the readings say: let-by, movement of the gauge, leak, effect of "
            "temperature.",
            family="gas",
            questions=(
                "What drop is allowed in the tightness test?",
                "Is the gas installation tight?",
                "What is the installation volume?",
            ),
            target="tundish_plugins.gas.tightness:CALCULATION",
        ),
        CalculationEntry(
            id="gas-purge",
            title="Purge of a small gas installation",
            summary="Volume that must pass to drive the air out, how long that takes, whether it must "
            "be burnt, and how much gas the room would hold if it were not.",
            family="gas",
            questions=(
                "How much must pass to purge the pipes?",
                "Must the purge be burnt?",
                "How long does the purge take through the hob?",
            ),
            target="tundish_plugins.gas.purge:CALCULATION",
        ),
        CalculationEntry(
            id="gas-rate",
            title="Gas rate and heat input",
            summary="Heat input, gross and net, from a metric or an imperial meter, with the error of "
            "the reading, against the rated heat input.",
            family="gas",
            questions=(
                "Does the boiler burn what its plate says?",
                "How long must the test run for a verdict?",
                "In how many seconds must the meter pass a set volume?",
            ),
            target="tundish_plugins.gas.rate:CALCULATION",
        ),
        CalculationEntry(
            id="gas-pressures",
            title="Gas pressures at meter and appliances",
            summary="Standing, working and lock-up pressure, the drop to each appliance, the load of "
            "the meter; where the pressure is lost, and what to do next.",
            family="gas",
            questions=(
                "Is the pressure at the meter in order?",
                "Is it the supply, the meter regulator, the pipework or the appliance?",
                "Can the meter carry all appliances?",
            ),
            target="tundish_plugins.gas.pressures:CALCULATION",
        ),
    ]
