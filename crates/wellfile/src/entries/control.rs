//! Rows of pressure control: back pressure in a section, and what holds it on the rig.

use crate::entry::{Entry, Form, number, quantity, row, table, tables, whole};
use crate::knobs::{DIVERTER_LINE, FLOWING_BACK_PRESSURE, STILL_BACK_PRESSURE};
use rigwright_physics::Range;
use rigwright_units::Kind::{
    Density, Depth, Diameter, FlowRate, Fraction, GasRate, LinearMass, Pressure, Ratio, Roughness, Temperature, Time, Volume,
};

/// A limit of nothing would be no limit.
const RATING: Range = Range::between(1e5, 350e6);
const INFLUX: Range = Range::between(0.001, 200.0);

/// Words of `sour`.
const YES_NO: &[&str] = &["yes", "no"];
/// Words of `last_done[].what`.
const DONE: &[&str] = &[
    "preventer-pressure-test",
    "blind-shear-pressure-test",
    "preventer-function-test",
    "accumulator-drawdown-test",
    "casing-pressure-test",
    "diverter-test",
    "well-control-drill",
    "trip-drill",
];

pub(super) const WELL: &[Entry] = &[
    number("kick.hydrogen_sulphide", Fraction, "0.5 %", "share of hydrogen sulphide in the gas that may come, by moles")
        .unknown(),
    quantity("kick.alarm_gain", Volume, "10 bbl", "gain at which the alarm goes").must(INFLUX).unknown(),
    quantity("kick.inflow", FlowRate, "2 bbl/min", "how fast the influx flows in").must(Range::between(1e-6, 1.0)).unknown(),
    quantity(
        "kick.reaction_time",
        Time,
        "4 min",
        "from the alarm to the order to close: pick up, pumps off, flow check, as drills show it",
    )
    .must(Range::between(1.0, 7_200.0))
    .unknown(),
    tables("last_done[]", "when what was last tested or drilled for: read by `due`").optional(),
    row("last_done[].what", Form::Choice(DONE), "preventer-pressure-test", "which"),
    row("last_done[].date", Form::Date, "2026-10-30", "the day"),
];

pub(super) const STRING: &[Entry] =
    &[row("section[].casing.sour", Form::Choice(YES_NO), "yes", "whether it is made for sour service (ISO 15156)").unknown()];

pub(super) const SECTION: &[Entry] = &[
    table("section[].managed_pressure", "back pressure, where the section is drilled with managed pressure").optional(),
    quantity("section[].managed_pressure.flowing", Pressure, "100 psi", "back pressure while pumping")
        .knob(&FLOWING_BACK_PRESSURE),
    quantity("section[].managed_pressure.still", Pressure, "350 psi", "back pressure with pumps off").knob(&STILL_BACK_PRESSURE),
    quantity(
        "section[].managed_pressure.anchor",
        Depth,
        "9000 ft",
        "measured depth whose pressure is held through a connection; without it the bottom of the hole",
    )
    .optional(),
    quantity("section[].managed_pressure.pressure_limit", Pressure, "700 psi", "highest back pressure that the plan allows")
        .must(RATING)
        .unknown(),
    quantity(
        "section[].managed_pressure.influx_operating",
        Volume,
        "1 bbl",
        "influx up to which drilling goes on while back pressure is put up",
    )
    .must(INFLUX)
    .unknown(),
    quantity(
        "section[].managed_pressure.influx_planned",
        Volume,
        "3 bbl",
        "influx up to which it is circulated out through the managed choke; above, the preventers close",
    )
    .must(INFLUX)
    .unknown(),
    quantity(
        "section[].managed_pressure.leak_rate",
        FlowRate,
        "300 gpm",
        "flow that gets out of the annulus when the seal or the choke fails",
    )
    .unknown(),
    quantity("section[].managed_pressure.run_down", Time, "15 s", "time in which the pumps run down when power is lost")
        .must(Range::between(0.1, 3_600.0))
        .unknown(),
    quantity(
        "section[].managed_pressure.response_time",
        Time,
        "90 s",
        "time in which the crew has a preventer closed; the time to imbalance is then judged by it",
    )
    .must(Range::between(1.0, 7_200.0))
    .optional(),
    table("section[].shallow_gas", "shallow gas that may be met while the section is drilled on the diverter").optional(),
    quantity(
        "section[].shallow_gas.rate",
        GasRate,
        "30 MMscf/d",
        "gas rate to be prepared for, as the site survey or neighbouring wells tell it",
    )
    .unknown(),
    quantity(
        "section[].shallow_gas.conductor",
        Depth,
        "200 ft",
        "measured depth of the shoe of the conductor, where no casing of the file stands above the section",
    )
    .unknown(),
];

pub(super) const RIG: &[Entry] = &[
    table("rig.rotating_seal", "rotating seal on top of the stack").optional(),
    quantity("rig.rotating_seal.turning", Pressure, "1000 psi", "pressure that it bears while the string turns")
        .must(RATING)
        .unknown(),
    quantity("rig.rotating_seal.still", Pressure, "2000 psi", "pressure that it bears with the string still")
        .must(RATING)
        .unknown(),
    table("rig.managed_choke", "choke that holds back pressure while drilling").optional(),
    quantity("rig.managed_choke.rating", Pressure, "5000 psi", "working pressure").must(RATING).unknown(),
    // Preventers
    quantity("rig.preventer[].closing_time", Time, "12 s", "time in which it closes, measured")
        .must(Range::between(0.5, 600.0))
        .unknown(),
    number("rig.preventer[].closing_ratio", Ratio, "7", "well pressure over the control pressure that holds a ram against it")
        .must(Range::between(1.0, 20.0))
        .unknown(),
    row("rig.preventer[].sour", Form::Choice(YES_NO), "yes", "whether it is made for sour service (ISO 15156)").unknown(),
    tables("rig.preventer[].shear_test[]", "pipe that a shear ram cut in the maker's or the owner's tests").optional(),
    quantity("rig.preventer[].shear_test[].outside", Diameter, "5 in", "outside diameter of the pipe"),
    quantity("rig.preventer[].shear_test[].weight", LinearMass, "20.9 lb/ft", "weight per length of the pipe"),
    quantity(
        "rig.preventer[].shear_test[].pressure",
        Pressure,
        "1900 psi",
        "control pressure that it took, no pressure in the well",
    )
    .must(RATING),
    row("rig.wellhead.sour", Form::Choice(YES_NO), "yes", "whether it is made for sour service (ISO 15156)").unknown(),
    row("rig.choke_manifold.sour", Form::Choice(YES_NO), "yes", "whether it is made for sour service (ISO 15156)").unknown(),
    quantity("rig.choke_manifold.choke_bore", Diameter, "2 in", "largest bore of its chokes").unknown(),
    // Accumulator
    whole("rig.accumulator.pumps", "2", "pump systems that charge it").must(Range::between(1.0, 10.0)).unknown(),
    quantity("rig.accumulator.pump_rate", FlowRate, "9 gpm", "flow of one pump system").unknown(),
    quantity("rig.accumulator.coldest", Temperature, "20 degF", "coldest that the bottles get").optional(),
    // Separator
    table("rig.separator", "separator of mud and gas").optional(),
    quantity("rig.separator.leg", Depth, "10 ft", "height of the leg of mud that seals it").unknown(),
    quantity("rig.separator.leg_weight", Density, "5 ppg", "lightest fluid that may fill the leg").unknown(),
    quantity("rig.separator.vent_length", Depth, "250 ft", "length of the vent line, its bends as length").unknown(),
    quantity("rig.separator.vent_inside", Diameter, "8 in", "inside diameter of the vent line").unknown(),
    quantity("rig.separator.vent_roughness", Roughness, "0.0018 in", "roughness of the vent line")
        .must(Range::between(1e-7, 0.005))
        .default("0.0018 in", "common practice: new commercial steel"),
    // Diverter
    table("rig.diverter", "diverter for shallow gas, with the line that it opens").optional(),
    quantity("rig.diverter.rating", Pressure, "500 psi", "lowest working pressure of packer, housing and valves")
        .must(RATING)
        .unknown(),
    quantity("rig.diverter.line_inside", Diameter, "12 in", "inside diameter of the line, the narrowest")
        .knob(&DIVERTER_LINE)
        .unknown(),
    quantity("rig.diverter.line_length", Depth, "120 ft", "length of the line that is open, the longest of them").unknown(),
    number(
        "rig.diverter.line_fittings",
        Ratio,
        "1.5",
        "resistance coefficients of entrance, valve and bends, added up (velocity heads)",
    )
    .must(Range::between(0.0, 100.0))
    .unknown(),
    quantity("rig.diverter.line_roughness", Roughness, "0.0018 in", "roughness of the line")
        .must(Range::between(1e-7, 0.005))
        .default("0.0018 in", "common practice: new commercial steel"),
    // Safety valves
    tables("rig.safety_valve[]", "valves at the floor that close the bore of the string").optional(),
    row("rig.safety_valve[].connection", Form::Text, "NC50", "its lower connection"),
    quantity("rig.safety_valve[].rating", Pressure, "10000 psi", "working pressure").must(RATING).unknown(),
    tables("rig.crossover[]", "subs from one connection to another").optional(),
    row("rig.crossover[].below", Form::Text, "6 5/8 REG", "connection that goes into the string"),
    row("rig.crossover[].above", Form::Text, "NC50", "connection that takes the valve"),
];
