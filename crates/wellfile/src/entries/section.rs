//! Rows of a hole section: its head, and how it is drilled.

use crate::entry::{Entry, Form, number, quantity, row, table, tables, whole};
use crate::knobs::{FLOW, LINER, PULLING_SPEED, PUMPS, ROTARY_SPEED, RUNNING_SPEED, WEIGHT_ON_BIT};
use rigwright_physics::Range;
use rigwright_units::Kind::{
    Density, Depth, Diameter, DrillingRate, FlowRate, Force, Fraction, Pressure, Ratio, RotarySpeed, Speed, StrokeRate,
    Temperature, Time, Torque, Volume,
};

/// Words of `motion`.
pub(crate) const MOTIONS: &[&str] = &["pulling-out", "running-in"];

/// Words of `returns`.
pub(crate) const RETURNS: &[&str] = &["surface", "sea-bed"];

/// Words of `reading`.
pub(crate) const READINGS: &[&str] = &["corrected", "indicator"];

const COMMON: &str = "common practice";

pub(super) const HEAD: &[Entry] = &[
    tables("section[]", "hole sections in the order of drilling"),
    row("section[].name", Form::Text, "12 1/4 in", "name for print"),
    quantity("section[].bottom", Depth, "5000 ft", "measured depth where it ends"),
    quantity("section[].hole", Diameter, "12 1/4 in", "bit diameter"),
    row(
        "section[].returns",
        Form::Choice(RETURNS),
        "surface",
        "where the mud goes: to the sea bed before a floating rig has its riser in; left out, back to the rig",
    )
    .optional(),
    number("section[].washout", Fraction, "5 %", "extra volume of open hole over the bit's").default("0 %", "hole in gauge"),
];

pub(super) const ROWS: &[Entry] = &[
    // Drilling
    table("section[].drilling", "how it is drilled"),
    quantity("section[].drilling.flow", FlowRate, "700 gpm", "flow rate").knob(&FLOW),
    quantity(
        "section[].drilling.booster",
        FlowRate,
        "400 gpm",
        "flow through the booster line into the riser, by a pump of its own",
    )
    .optional(),
    quantity("section[].drilling.inlet_temperature", Temperature, "95 degF", "temperature of the mud that is pumped in")
        .must(Range::between(260.0, 370.0))
        .unknown(),
    quantity("section[].drilling.rotary_speed", RotarySpeed, "120 rpm", "rotary speed").knob(&ROTARY_SPEED),
    quantity("section[].drilling.weight_on_bit", Force, "20 klbf", "weight on bit").knob(&WEIGHT_ON_BIT),
    quantity("section[].drilling.penetration_rate", DrillingRate, "60 ft/h", "rate of penetration"),
    quantity("section[].drilling.bit_torque", Torque, "4 kft-lbf", "torque that the bit takes"),
    whole("section[].drilling.pumps", "2", "number of pumps that share the flow").must(Range::between(1.0, 20.0)).knob(&PUMPS),
    quantity("section[].drilling.liner", Diameter, "6 1/2 in", "liners in the pumps; one of the rig's").knob(&LINER),
    quantity("section[].drilling.connection_time", Time, "10 min", "time to add a stand").default("10 min", COMMON),
    quantity(
        "section[].drilling.off_bottom",
        Depth,
        "10 ft",
        "how far the string is lifted off bottom for it, pumping and turning",
    )
    .must(Range::between(0.1, 60.0))
    .default("10 ft", "common practice with a top drive"),
    quantity("section[].drilling.off_bottom_speed", Speed, "30 ft/min", "block speed on that way")
        .must(Range::between(0.005, 2.0))
        .default("30 ft/min", "common practice: slow, to see what the string takes"),
    whole("section[].drilling.bits", "1", "bits that the section takes: a round trip for each but the first")
        .must(Range::between(1.0, 100.0))
        .default("1", "one bit drills the section"),
    whole(
        "section[].drilling.reamed",
        "1",
        "how often each stand, or each single with a kelly, is reamed before the next is added",
    )
    .must(Range::between(0.0, 2.0))
    .default("0", "nothing is reamed unless the plan says so"),
    quantity("section[].drilling.reaming_speed", Speed, "30 ft/min", "block speed while reaming, up and down")
        .must(Range::between(0.005, 2.0))
        .default("30 ft/min", "common practice"),
    quantity("section[].drilling.cored", Depth, "90 ft", "length cored at the end of the section, with a trip for the barrel")
        .default("0 ft", "no core unless the plan says so"),
    // Tripping
    table("section[].tripping", "how pipe is moved; speeds are means over a stand"),
    quantity("section[].tripping.pulling_speed", Speed, "90 ft/min", "pulling out")
        .default("90 ft/min", COMMON)
        .knob(&PULLING_SPEED),
    quantity("section[].tripping.running_speed", Speed, "90 ft/min", "running in")
        .default("90 ft/min", COMMON)
        .knob(&RUNNING_SPEED),
    quantity("section[].tripping.connection_time", Time, "90 s", "time in slips for each stand").default("90 s", COMMON),
    whole("section[].tripping.short_trips", "1", "trips to the last shoe and back at the end of the section")
        .must(Range::between(0.0, 20.0))
        .default("0", "no short trip unless the plan says so"),
    quantity("section[].tripping.run_empty", Depth, "1000 ft", "length from surface down that is run empty inside, on a float")
        .optional(),
    table("section[].tripping.slug", "heavy mud pumped before pulling, so that the pipe comes out dry").optional(),
    quantity("section[].tripping.slug.volume", Volume, "20 bbl", "its volume"),
    quantity("section[].tripping.slug.weight", Density, "13 ppg", "its weight, above that of the mud")
        .must(Range::between(800.0, 3_000.0)),
    // Cleaning
    table("section[].cleaning", "what hole cleaning rests on"),
    quantity("section[].cleaning.cutting_size", Diameter, "1/4 in", "diameter of the cuttings")
        .must(Range::between(1e-4, 0.1))
        .default("1/4 in", COMMON),
    quantity("section[].cleaning.cutting_density", Density, "2.6 sg", "density of the rock")
        .must(Range::between(1_000.0, 5_000.0))
        .default("2.6 sg", "common practice: quartz and clay with a little water"),
    number("section[].cleaning.transport_ratio", Fraction, "50 %", "smallest transport ratio wanted in near-vertical hole")
        .default("50 %", COMMON),
    number("section[].cleaning.cuttings_limit", Fraction, "5 %", "largest share of cuttings wanted in the annulus")
        .must(Range::EFFICIENCY)
        .default("5 %", COMMON),
    quantity(
        "section[].cleaning.most_velocity",
        Speed,
        "400 ft/min",
        "fastest mean velocity that the wall of the open hole bears",
    )
    .unknown(),
    quantity("section[].cleaning.sample_interval", Depth, "30 ft", "depth from one sample to the next")
        .must(Range::between(0.1, 1_000.0))
        .optional(),
    // Annulus
    table("section[].annulus", "how the pipe lies in the hole, for friction of the pumped mud"),
    number("section[].annulus.standoff", Fraction, "60 %", "least gap beside the pipe over that of a pipe in the middle")
        .must(Range::between(0.05, 1.0))
        .default("100 %", "pipe in the middle loses most: the safe side for fracture and pumps"),
    number("section[].annulus.rotation_factor", Ratio, "1.1", "loss in the annulus while turning over that without")
        .must(Range::between(0.2, 3.0))
        .default("1", "no correlation serves without data of the well"),
    // Hook loads
    tables("section[].hook_load[]", "hook loads read while pulling out or running in, without turning").optional(),
    quantity("section[].hook_load[].depth", Depth, "4500 ft", "measured depth of the bit"),
    row("section[].hook_load[].motion", Form::Choice(MOTIONS), "pulling-out", "how the string moved"),
    quantity("section[].hook_load[].load", Force, "180 klbf", "hook load with block and top drive"),
    row(
        "section[].hook_load[].reading",
        Form::Choice(READINGS),
        "indicator",
        "whether the load is corrected for the friction of the sheaves, or as an indicator on the dead line shows it",
    )
    .default("corrected", "most loads are told as they hang on the hook"),
    row("section[].hook_load[].date", Form::Date, "2026-10-15", "day of the reading").unknown(),
    // Slow rates
    tables("section[].slow_rate[]", "slow circulating rates, read beforehand").optional(),
    quantity("section[].slow_rate[].pump_speed", StrokeRate, "30 spm", "pump speed"),
    quantity("section[].slow_rate[].pressure", Pressure, "400 psi", "standpipe pressure at that speed"),
    quantity("section[].slow_rate[].choke_line_loss", Pressure, "150 psi", "loss in the choke line at that speed, measured")
        .optional(),
    quantity("section[].slow_rate[].weight", Density, "10 ppg", "mud weight when it was read"),
    quantity("section[].slow_rate[].depth", Depth, "4900 ft", "measured depth when it was read"),
    whole("section[].slow_rate[].pump", "1", "number of the pump that it was read with")
        .must(Range::between(1.0, 20.0))
        .optional(),
    quantity("section[].slow_rate[].liner", Diameter, "6 1/2 in", "liner in the pump that it was read with").unknown(),
    row("section[].slow_rate[].date", Form::Date, "2026-10-15", "day of the reading").unknown(),
];
