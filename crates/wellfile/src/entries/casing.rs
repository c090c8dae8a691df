//! Rows of casing and liners.

use crate::entry::{Entry, Form, number, quantity, row, table, whole};
use crate::knobs::{CASING_GRADE, CASING_SHOE, CASING_SPEED, CASING_WEIGHT, CEMENT_WAIT};
use rigwright_physics::Range;
use rigwright_units::Kind::{
    Density, Depth, Diameter, FlowRate, Force, Fraction, LinearMass, Pressure, Speed, Stress, Time, Torque,
};

/// Words of `leak_off_kind`.
pub(crate) const TESTS: &[&str] = &["leak-off", "integrity"];

/// More than nothing, at most the whole strength.
const BURST: Range = Range::between(0.1, 1.0);
/// From a quarter of an hour to ten days. [s]
const WAIT: Range = Range::between(900.0, 864_000.0);
/// Compressive strength of cement. [Pa]
const STRENGTH: Range = Range::between(1e4, 200e6);

pub(super) const ROWS: &[Entry] = &[
    table("section[].casing", "casing or liner at its end; left out, the section stays open").optional(),
    row("section[].casing.name", Form::Text, "9 5/8 in casing", "name for print"),
    quantity("section[].casing.top", Depth, "0 ft", "measured depth of the upper end: the hanger of a liner")
        .computed("surface, or the sea bed under a floating rig", "casing reaches up to its head"),
    quantity("section[].casing.shoe", Depth, "4990 ft", "measured depth of the shoe").knob(&CASING_SHOE),
    quantity("section[].casing.outside", Diameter, "9 5/8 in", "outside diameter"),
    quantity("section[].casing.inside", Diameter, "8.681 in", "inside diameter")
        .computed("by outside diameter and weight", "API 5CT sizes (from memory)"),
    quantity("section[].casing.drift", Diameter, "8.525 in", "largest tool that is sure to pass").computed(
        "inside less 1/8 in below 9 5/8 in outside, 5/32 in to 13 3/8 in, 3/16 in above",
        "API 5CT drift mandrels (from memory)",
    ),
    quantity("section[].casing.weight", LinearMass, "47 lb/ft", "weight per length with couplings").knob(&CASING_WEIGHT),
    row("section[].casing.grade", Form::Text, "L-80", "grade, gives the yield strength"),
    quantity("section[].casing.yield", Stress, "80 ksi", "yield strength; left out, that of the grade")
        .optional()
        .knob(&CASING_GRADE),
    quantity("section[].casing.coupling", Diameter, "10 5/8 in", "diameter of the couplings").unknown(),
    quantity(
        "section[].casing.connection_tension",
        Force,
        "1000 klbf",
        "tension that the connection bears, from the maker's sheet",
    )
    .unknown(),
    quantity(
        "section[].casing.connection_burst",
        Pressure,
        "6800 psi",
        "pressure inside that the connection bears, from the maker's sheet",
    )
    .unknown(),
    quantity("section[].casing.make_up", Torque, "14 kft-lbf", "make-up torque of the connection, from the maker's sheet")
        .optional(),
    quantity("section[].casing.test_pressure", Pressure, "3000 psi", "pressure at surface that the string is tested to")
        .unknown(),
    quantity("section[].casing.cement_weight", Density, "15.8 ppg", "weight of the cement slurry")
        .must(Range::between(800.0, 3_000.0))
        .unknown(),
    quantity("section[].casing.cement_rate", FlowRate, "200 gpm", "flow at which the slurry is displaced").unknown(),
    quantity("section[].casing.bump_pressure", Pressure, "1500 psi", "pressure at surface when the plug is bumped").unknown(),
    quantity("section[].casing.cement_top", Depth, "1500 ft", "measured depth of the top of cement").unknown(),
    row(
        "section[].casing.cement_strength",
        Form::Pairs { key: Time, value: Pressure },
        "{ \"7 h\" = \"50 psi\", \"11 h\" = \"500 psi\", \"24 h\" = \"1800 psi\" }",
        "compressive strength of the cement at the shoe by its time in place, from the laboratory's report",
    )
    .unknown(),
    quantity("section[].casing.wait_to_drill_out", Time, "18 h", "planned wait from cement in place to drilling out the shoe")
        .must(WAIT)
        .knob(&CEMENT_WAIT)
        .unknown(),
    quantity(
        "section[].casing.wait_to_nipple_down",
        Time,
        "9 h",
        "planned wait until preventers or diverter are nippled down, where they are",
    )
    .must(WAIT)
    .optional(),
    quantity(
        "section[].casing.wait_to_test",
        Time,
        "24 h",
        "planned wait until the casing is tested, where that is after the cement has set",
    )
    .must(WAIT)
    .optional(),
    quantity("section[].casing.drill_out_strength", Pressure, "500 psi", "strength of the cement asked for to drill out the shoe")
        .must(STRENGTH)
        .default("500 psi", "30 CFR 250.420(c)(1): behind the lowest 500 ft before drilling out (text of July 2010 seen in a copy); verify the current text, your authority rules"),
    quantity(
        "section[].casing.nipple_down_strength",
        Pressure,
        "50 psi",
        "strength of the cement asked for to nipple down preventers or diverter",
    )
    .must(STRENGTH)
    .default("50 psi", "API Standard 65-2: cement counts as a barrier from 50 psi (from memory); verify the current text, your authority rules"),
    quantity("section[].casing.test_strength", Pressure, "500 psi", "strength of the cement asked for to test the casing").must(STRENGTH).unknown(),
    number("section[].casing.hot_yield", Fraction, "95 %", "share of the yield strength that is left in the heat at the shoe")
        .must(Range::between(0.5, 1.0))
        .default("100 %", "no loss by heat; a maker's figure replaces it"),
    quantity(
        "section[].casing.empty_to",
        Depth,
        "3000 ft",
        "measured depth down to which it is to stand empty once; left out, the level that losses below it leave",
    )
    .optional(),
    number("section[].casing.burst_fraction", Fraction, "0.8", "share of burst strength that may be used").must(BURST).unknown(),
    quantity(
        "section[].casing.leak_off",
        Density,
        "14.0 ppg",
        "shoe test as an equivalent mud weight at the shoe, planned or measured",
    )
    .must(Range::between(800.0, 3_000.0))
    .unknown(),
    row(
        "section[].casing.leak_off_kind",
        Form::Choice(TESTS),
        "leak-off",
        "whether the rock took mud, or pumping stopped before",
    )
    .default("leak-off", "the usual test of a shoe; common practice"),
    row("section[].casing.leak_off_date", Form::Date, "2026-10-20", "day of the test; without it the test is a plan").optional(),
    quantity("section[].casing.floated", Depth, "0 ft", "length from the shoe up that is run empty inside, on its floats")
        .default("0 ft", "filled as it is run; common practice"),
    whole("section[].casing.lines", "10", "lines strung between the blocks for its run; left out, those of the rig")
        .must(Range::between(2.0, 20.0))
        .optional(),
    quantity("section[].casing.running_speed", Speed, "60 ft/min", "mean speed of a joint while it is run")
        .default("60 ft/min", "common practice")
        .knob(&CASING_SPEED),
    quantity("section[].casing.joint_length", Depth, "40 ft", "length of a joint")
        .must(Range::between(2.0, 20.0))
        .default("40 ft", "common practice: range 3"),
    quantity("section[].casing.joint_time", Time, "3 min", "time to stab, make up and fill a joint")
        .default("3 min", "common practice"),
    quantity(
        "section[].casing.flat_time",
        Time,
        "36 h",
        "from the shoe on bottom to drilling on: cement, waiting, preventers, test",
    )
    .default("36 h", "common practice"),
];
