"""Combustion of a gas boiler: what the analyser shows, whether it is safe, what it costs."""

from __future__ import annotations

from tundish.calculation import (
    Calculation,
    Finding,
    LineChart,
    Method,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish.physics.flue_gas import ENERGY_BALANCE, SATURATED_GAS, STOICHIOMETRY
from tundish_plugins.gas.combustion.contract import CombustionInputs, CombustionOutputs
from tundish_plugins.gas.combustion.formulas import (
    FLUE_WORKS,
    INSTRUMENT_ERRORS,
    SIEGERT,
    TWO_RATES,
)
from tundish_plugins.gas.combustion.kernel import BY_CONSTANTS, kernel

_OFF = (
    "Turn the appliance off, leave it off, tell the user, and follow the procedure for unsafe "
    "situations. If anyone feels unwell or an alarm sounds: doors and windows open, everyone out, "
    "and ring the gas emergency number."
)
_INLET = (
    "Flue gas is getting into the combustion air. Do not adjust the gas; find and mend the flue. "
    + _OFF
)
_CHECK = "Look at gas rate, burner, heat exchanger, seals and flue, and do not leave it so."
_UNPROVED = (
    "the flue is not proved: its air inlet was not sampled, or the sample was not fresh air; or it "
    "is an open flue that was not found free of spillage."
)
_NOT_FOR_THIS = (
    "this limit is that of condensing boilers with a proved flue; this flue is open, or its air "
    "inlet was not found to hold fresh air."
)
_NO_AIR = (
    "Within the error allowed of the analyser there may be no excess air at all, and then carbon "
    "monoxide comes in masses. Prove the analyser, read again, and do not leave the appliance in use "
    "meanwhile."
)

CALCULATION = Calculation(
    id="combustion",
    version="1.0",
    title="Combustion of a gas boiler",
    summary="From carbon dioxide or oxygen and carbon monoxide in the flue gas: excess air, dew "
    "point, ratio, losses and efficiency on net and gross, and what condensing gives; the flue "
    "before the burner, maximum and minimum rate together.",
    family="gas",
    questions=(
        "Does the boiler burn safely?",
        "Is the gas valve set right at maximum and at minimum rate?",
        "What does a cooler return save?",
    ),
    inputs=CombustionInputs,
    outputs=CombustionOutputs,
    kernel=kernel,
    methods=(
        Method(
            "energy-balance",
            "Energy balance",
            "Heat of every part of the flue gas, less what the air brought, over the heating value.",
            source=ENERGY_BALANCE,
        ),
        Method(
            BY_CONSTANTS,
            "Constants of the fuel",
            "Flue loss from the oxygen reading with two constants of the fuel, as a German ordinance "
            "has it; condensing from the balance. Gases by name only.",
            source=SIEGERT,
        ),
    ),
    needs=(
        Need("gas-components", "table", "Components of mixtures"),
        Need("gas-combustion", "table", "Oxygen needed and products of a component"),
        Need("gas-named-shares", "table", "Gases by name as shares"),
        Need("combustion-flue-loss-constants", "table", "Constants of the flue loss"),
        Need("combustion-oxygen-error", "volume_fraction", "Error of an oxygen reading"),
        Need("combustion-carbon-dioxide-error", "volume_fraction", "Error of a CO2 reading"),
        Need("combustion-carbon-dioxide-error-share", "number", "The same as a share"),
        Need("combustion-ratio-believable-most", "number", "Highest ratio believed"),
        Need("combustion-air-inlet-oxygen-least", "volume_fraction", "Least oxygen of fresh air"),
        Need(
            "combustion-air-inlet-carbon-dioxide-most",
            "volume_fraction",
            "Most carbon dioxide of fresh air",
        ),
    ),
    findings=(
        Finding(
            "air-inlet-sampled",
            "Sample of the air inlet",
            quantity="/outputs/integrity_sampled",
            sense="is",
            limit=True,
            applies_when="/inputs/flue == concentric",
            words_passed="The air inlet was sampled before the flue gas was judged.",
            words_failed="The air inlet was not sampled. With a flue inside its air duct that comes "
            "first: flue gas in the air spoils every other reading.",
            source=STOICHIOMETRY,
        ),
        Finding(
            "air-inlet-oxygen",
            "Oxygen at the air inlet",
            quantity="/inputs/air_inlet/o2",
            sense="at-least",
            limit="combustion-air-inlet-oxygen-least",
            failed="dangerous",
            words_passed="The air inlet holds {value} oxygen; fresh air shows {limit} or more.",
            words_failed="The air inlet holds only {value} oxygen; fresh air shows {limit} or more. "
            + _INLET,
        ),
        Finding(
            "air-inlet-carbon-dioxide",
            "Carbon dioxide at the air inlet",
            quantity="/inputs/air_inlet/co2",
            sense="at-most",
            limit="combustion-air-inlet-carbon-dioxide-most",
            failed="dangerous",
            words_passed="The air inlet holds {value} carbon dioxide; fresh air shows {limit} at most.",
            words_failed="The air inlet holds {value} carbon dioxide; fresh air shows {limit} at "
            "most. " + _INLET,
        ),
        Finding(
            "spillage-tested",
            "Spillage test of an open flue",
            quantity="/outputs/spillage_tested",
            sense="is",
            limit=True,
            failed="advisory",
            applies_when="/outputs/open_flue",
            words_passed="The open flue was tested for spillage.",
            words_failed="The open flue was not tested for spillage, so nothing here says that its "
            "flue gas goes outside. Test it, doors and windows shut and every fan running.",
            source=FLUE_WORKS,
        ),
        Finding(
            "spillage",
            "Spillage of an open flue",
            quantity="/outputs/spillage_free",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="The open flue does not spill.",
            words_failed="The open flue spills flue gas into the room. " + _OFF,
            source=FLUE_WORKS,
        ),
        Finding(
            "carbon-monoxide-read",
            "Reading of carbon monoxide",
            quantity="/outputs/readings/*/co_read",
            sense="is",
            limit=True,
            words_passed="{item}: carbon monoxide was read.",
            words_failed="{item}: carbon monoxide was not read, so nothing is said of safety.",
            source=STOICHIOMETRY,
        ),
        Finding(
            "every-rate-read",
            "Rates of the burner",
            quantity="/outputs/every_rate_read",
            sense="is",
            limit=True,
            words_passed="Every rate of the burner was read; they are judged together.",
            words_failed="Only the maximum rate was read. Read the minimum rate too: a burner that "
            "is right at one may be wrong at the other.",
            source=STOICHIOMETRY,
        ),
        Finding(
            "excess-air-certain",
            "Excess air",
            quantity="/outputs/readings/*/air_certain",
            sense="is",
            limit=True,
            words_passed="{item}: there is excess air, whatever the error allowed of the analyser.",
            words_failed="{item}: nearly no excess air. " + _NO_AIR,
            source=INSTRUMENT_ERRORS,
        ),
        Finding(
            "window-given",
            "Carbon dioxide that the maker gives",
            quantity="/outputs/readings/*/window_given",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="{item}: the maker's least and most carbon dioxide were given.",
            words_failed="{item}: the maker's least and most carbon dioxide were not given, so it is "
            "not known whether the gas valve is set right. Take them from the instructions.",
            source=STOICHIOMETRY,
        ),
        Finding(
            "minimum-not-richer",
            "Maximum and minimum rate together",
            quantity="/outputs/minimum_not_richer",
            sense="is",
            limit=True,
            passed="advisory",
            applies_when="not /outputs/windows_given",
            words_passed="No more carbon dioxide at minimum rate than at maximum, as burners mostly "
            "want it; the maker's window of each rate decides, and was not given.",
            words_failed="More carbon dioxide at minimum rate than at maximum: less air where the "
            "flame is weakest, and no window of the maker's that allows it. " + _CHECK,
            source=TWO_RATES,
        ),
        Finding(
            "minimum-richer-by-maker",
            "Maximum and minimum rate together, beside the maker's windows",
            quantity="/outputs/minimum_not_richer",
            sense="is",
            limit=True,
            failed="advisory",
            applies_when="/outputs/windows_given",
            words_passed="No more carbon dioxide at minimum rate than at maximum, and each was held "
            "against its own window.",
            words_failed="More carbon dioxide at minimum rate than at maximum. Make sure that the "
            "windows are this boiler's and not swapped.",
            source=STOICHIOMETRY,
        ),
        Finding(
            "ratio-safe",
            "Ratio against the danger line",
            quantity="/outputs/readings/*/ratio",
            sense="at-most",
            limit="combustion-ratio-dangerous",
            failed="dangerous",
            capped_unless="/outputs/flue_proved",
            words_capped=_UNPROVED,
            words_passed="{item}: the ratio is {value}; above {limit} an appliance is not left in use.",
            words_failed="{item}: the ratio is {value}, above {limit}. " + _OFF,
        ),
        Finding(
            "ratio-general",
            "Ratio against the general limit",
            quantity="/outputs/readings/*/ratio",
            sense="at-most",
            limit="combustion-ratio-most",
            applies_when="not /outputs/readings/*/maker_gives_ratio",
            capped_unless="/outputs/general_limits_hold",
            words_capped=_NOT_FOR_THIS,
            words_passed="{item}: the ratio is {value}; {limit} is the general limit.",
            words_failed="{item}: the ratio is {value}, above the general limit of {limit}. "
            + _CHECK,
        ),
        Finding(
            "carbon-monoxide-general",
            "Carbon monoxide against the general limit",
            quantity="/inputs/readings/*/co",
            sense="at-most",
            limit="combustion-carbon-monoxide-most",
            applies_when="not /outputs/readings/*/maker_gives_co",
            capped_unless="/outputs/general_limits_hold",
            words_capped=_NOT_FOR_THIS,
            words_passed="{item}: {value} of carbon monoxide; {limit} is the general limit.",
            words_failed="{item}: {value} of carbon monoxide, above the general limit of {limit}. "
            + _CHECK,
        ),
        Finding(
            "ratio-of-maker",
            "Ratio against the maker's limit",
            quantity="/outputs/readings/*/ratio",
            sense="at-most",
            limit="/inputs/readings/*/maker_ratio_most",
            capped_unless="/outputs/flue_proved",
            words_capped=_UNPROVED,
            words_passed="{item}: the ratio is {value}; the maker allows {limit}.",
            words_failed="{item}: the ratio is {value}; the maker allows only {limit}. " + _CHECK,
            source=STOICHIOMETRY,
        ),
        Finding(
            "carbon-monoxide-of-maker",
            "Carbon monoxide against the maker's limit",
            quantity="/inputs/readings/*/co",
            sense="at-most",
            limit="/inputs/readings/*/maker_co_most",
            capped_unless="/outputs/flue_proved",
            words_capped=_UNPROVED,
            words_passed="{item}: {value} of carbon monoxide; the maker allows {limit}.",
            words_failed="{item}: {value} of carbon monoxide; the maker allows only {limit}. "
            + _CHECK,
            source=STOICHIOMETRY,
        ),
        Finding(
            "ratio-beside-maker",
            "Ratio beside the general limit",
            quantity="/outputs/readings/*/ratio",
            sense="at-most",
            limit="combustion-ratio-most",
            failed="advisory",
            applies_when="/outputs/readings/*/maker_gives_ratio",
            capped_unless="/outputs/general_limits_hold",
            words_capped=_NOT_FOR_THIS,
            words_passed="{item}: the ratio is {value}, within the general limit of {limit} too.",
            words_failed="{item}: the ratio is {value}, above {limit}, the general limit for "
            "condensing boilers. Make sure that the maker's higher limit is for this boiler.",
        ),
        Finding(
            "carbon-monoxide-beside-maker",
            "Carbon monoxide beside the general limit",
            quantity="/inputs/readings/*/co",
            sense="at-most",
            limit="combustion-carbon-monoxide-most",
            failed="advisory",
            applies_when="/outputs/readings/*/maker_gives_co",
            capped_unless="/outputs/general_limits_hold",
            words_capped=_NOT_FOR_THIS,
            words_passed="{item}: {value} of carbon monoxide, within the general limit of {limit} too.",
            words_failed="{item}: {value} of carbon monoxide, above {limit}, the general limit for "
            "condensing boilers. Make sure that the maker's higher limit is for this boiler.",
        ),
        Finding(
            "carbon-dioxide-not-low",
            "Carbon dioxide against the maker's least",
            quantity="/outputs/readings/*/co2",
            sense="at-least",
            limit="/inputs/readings/*/maker_co2_least",
            words_passed="{item}: {value} of carbon dioxide; the maker gives {limit} at the least.",
            words_failed="{item}: {value} of carbon dioxide; the maker gives {limit} at the least. "
            "Much air: check flue, seals and gas rate before touching the gas valve.",
            source=STOICHIOMETRY,
        ),
        Finding(
            "carbon-dioxide-not-high",
            "Carbon dioxide against the maker's most",
            quantity="/outputs/readings/*/co2",
            sense="at-most",
            limit="/inputs/readings/*/maker_co2_most",
            words_passed="{item}: {value} of carbon dioxide; the maker gives {limit} at the most.",
            words_failed="{item}: {value} of carbon dioxide; the maker gives {limit} at the most. "
            "Little air: carbon monoxide rises fast from here. Set it as the maker says.",
            source=STOICHIOMETRY,
        ),
        Finding(
            "flue-gas-below-dew-point",
            "Flue gas against its dew point",
            quantity="/outputs/readings/*/condensing",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="{item}: the flue gas leaves below its dew point, so water condenses.",
            words_failed="{item}: the flue gas leaves above its dew point, so nothing condenses. A "
            "condensing boiler needs a cooler return.",
            source=SATURATED_GAS,
        ),
    ),
    cautions=(
        "gas-registered-person",
        "gas-smell",
        "combustion-analyser",
        "combustion-maker-first",
        "combustion-efficiency-meaning",
    ),
    refusals=(
        Refused("gas-missing", "The gas is not given", "Give gas by name, or its composition."),
        Refused(
            "gas-given-twice", "The gas is given by name and by composition", "Give one of them."
        ),
        Refused(
            "fractions-do-not-sum",
            "The shares of the components sum to {sum}, not to 1",
            "Give shares by volume that sum to 1.",
        ),
        Refused("component-twice", "A component is listed twice", "Add its shares together."),
        Refused("gas-does-not-burn", "No component burns", "Give a fuel gas."),
        Refused(
            "fuel-without-carbon",
            "The gas holds no carbon",
            "Its flue gas holds neither carbon dioxide nor carbon monoxide of its own; readings of "
            "them say nothing, and this calculation is not for it.",
        ),
        Refused(
            "constants-need-a-name",
            "The constants are those of gases by name",
            "Use the energy balance for a composition, or name the gas.",
        ),
        Refused(
            "air-inlet-empty",
            "The sample of the air inlet holds no reading",
            "Give its oxygen, its carbon dioxide, or both.",
        ),
        Refused(
            "rates-contradict",
            "A rate is there twice, or a fixed rate beside another",
            "Give one reading at the fixed rate, or one at maximum and one at minimum.",
        ),
        Refused(
            "maximum-rate-missing",
            "Only the minimum rate was read",
            "Read the maximum rate first: it is judged before the minimum.",
        ),
        Refused(
            "bases-mixed",
            "One heat input is net and the other gross",
            "Give both on the same basis; plates of boilers are mostly net, meters give gross.",
        ),
        Refused(
            "rates-swapped",
            "The heat input at minimum rate is above that at maximum",
            "Swap the rates, or correct the heat inputs.",
        ),
        Refused(
            "window-upside-down",
            "The maker's least carbon dioxide is above the most",
            "Swap them.",
        ),
        Refused(
            "window-without-air",
            "The maker's most carbon dioxide, {given}, would leave no excess air: this gas shows less "
            "than {most}",
            "Take the window from the instructions of this boiler, for this gas.",
        ),
        Refused(
            "spillage-contradicts",
            "A spillage test is given, and the flue is not open",
            "Leave spillage out, or set flue to open. If flue gas is in the room, turn the appliance "
            "off and treat it as dangerous, whatever its flue.",
        ),
        Refused(
            "reading-missing",
            "Neither carbon dioxide nor oxygen was read",
            "Give one of them, as shares of the dry sample.",
        ),
        Refused(
            "at-stoichiometric",
            "The reading leaves no excess air: no flue gas of this gas can show it and burn out",
            "Check the gas set on the analyser, its calibration and its sample. If the reading "
            "stands, the burner lacks air: turn the appliance off and treat it as dangerous.",
        ),
        Refused(
            "readings-contradict",
            "The oxygen read, {given}, does not go with the carbon dioxide, which asks for {wanted} "
            "within {apart}",
            "Check the gas set on the analyser, its calibration and its probe, and read again.",
        ),
        Refused(
            "ratio-not-believable",
            "The ratio of carbon monoxide to carbon dioxide is {ratio}, beyond belief",
            "Turn the appliance off and treat it as dangerous until another, proved analyser shows "
            "otherwise.",
        ),
        Refused(
            "flue-colder-than-air",
            "The flue gas, {flue}, is colder than the air to the burner, {air}",
            "Check which probe is where, and let the boiler warm up.",
        ),
        Refused(
            "flue-colder-than-return",
            "The flue gas, {flue}, is colder than the water returning, {back}",
            "No heat exchanger does that: check both probes, and whether air dilutes the sample.",
        ),
        Refused(
            "air-too-humid",
            "The water in the combustion air would have a pressure of {given}, and air that cold holds "
            "{most} at the most",
            "Check air_humidity: it is kilograms of water for each kilogram of dry air.",
        ),
        Refused(
            "no-dew-point",
            "The flue gas is so dry that it has no dew point above freezing",
            "Check the composition of the gas.",
        ),
    ),
    monotonic=(
        Monotonic("/readings/0/flue_temperature", "/readings/0/efficiency_gross", "decreasing"),
        Monotonic("/readings/0/flue_temperature", "/readings/0/condensed_share", "decreasing"),
        Monotonic("/readings/0/co", "/readings/0/ratio", "increasing"),
        Monotonic("/readings/0/o2", "/readings/0/air_ratio", "increasing"),
        Monotonic("/readings/0/co2", "/readings/0/dew_point", "increasing"),
        Monotonic("/air_humidity", "/readings/0/dew_point", "increasing"),
    ),
    charts=(
        LineChart(
            "return",
            "Efficiency on gross against the return",
            series=(
                Series(
                    "gross",
                    "/outputs/return_curve/return_temperature",
                    "/outputs/return_curve/efficiency_gross",
                ),
            ),
        ),
        LineChart(
            "flue",
            "Efficiency on gross against the flue gas",
            series=(
                Series(
                    "gross",
                    "/outputs/curve/flue_temperature",
                    "/outputs/curve/efficiency_gross",
                ),
            ),
        ),
    ),
    example={
        "gas": "natural-gas",
        "flue": "concentric",
        "air_inlet": {"o2": {"value": 20.9, "unit": "%"}, "co2": {"value": 0.05, "unit": "%"}},
        "air_temperature": {"value": 15, "unit": "degC"},
        "readings": [
            {
                "name": "maximum rate",
                "rate": "maximum",
                "co2": {"value": 9.2, "unit": "%"},
                "co": {"value": 92, "unit": "ppm"},
                "flue_temperature": {"value": 58, "unit": "degC"},
                "return_temperature": {"value": 50, "unit": "degC"},
                "heat_input": {"value": 24, "unit": "kW", "basis": "net"},
                "maker_co2_least": {"value": 8.7, "unit": "%"},
                "maker_co2_most": {"value": 9.7, "unit": "%"},
            },
            {
                "name": "minimum rate",
                "rate": "minimum",
                "co2": {"value": 8.8, "unit": "%"},
                "co": {"value": 12, "unit": "ppm"},
                "flue_temperature": {"value": 46, "unit": "degC"},
                "return_temperature": {"value": 42, "unit": "degC"},
                "heat_input": {"value": 6, "unit": "kW", "basis": "net"},
                "maker_co2_least": {"value": 8.3, "unit": "%"},
                "maker_co2_most": {"value": 9.1, "unit": "%"},
            },
        ],
    },
)
