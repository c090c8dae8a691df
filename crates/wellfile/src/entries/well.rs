//! Rows of the well as a whole.

use crate::entry::{Entry, Form, number, quantity, row, table};
use rigwright_physics::Range;
use rigwright_units::Kind::{
    Angle, Conductivity, Density, Depth, Force, Fraction, Ratio, SpecificHeat, Temperature, TemperatureGradient, Time, Volume,
};

/// Words of `kind`.
pub(crate) const KINDS: &[&str] = &["land", "bottom-supported", "floating"];

/// Words of `friction_heat`.
pub(crate) const FRICTION_HEAT: &[&str] = &["counted", "left-out"];

const COMMON: &str = "common practice";
/// A wanted reserve must be more than nothing: rooms are counted in reserves.
const RESERVE: Range = Range::between(0.001, 0.9);

pub(super) const ROWS: &[Entry] = &[
    row("name", Form::Text, "New well", "name of the well"),
    row("rig", Form::Text, "rig.toml", "file of the rig, from the folder of this file")
        .needed("unless a rig is named on the command line"),
    row("kind", Form::Choice(KINDS), "land", "where the well stands"),
    row("jurisdiction", Form::Text, "as on the permit", "whose rules apply; without it no rule is shown as met").unknown(),
    row("datum", Form::Text, "rotary table", "what all depths are measured from").default("rotary table", COMMON),
    quantity("elevation", Depth, "28 ft", "height of the datum above ground, or above sea level offshore")
        .must(Range::between(0.0, 200.0)),
    quantity("water_depth", Depth, "300 ft", "depth of water below sea level")
        .needed("offshore")
        .must(Range::between(0.0, 4_000.0)),
    // Sea
    table("sea", "the sea under a floating rig").optional(),
    quantity("sea.density", Density, "1.025 sg", "density of the water")
        .must(Range::between(950.0, 1_300.0))
        .default("1.025 sg", "common practice: sea water of 35 g/kg"),
    quantity("sea.heave", Depth, "2 m", "heave of the rig, crest to trough, in the worst sea in which it still works")
        .must(Range::between(0.01, 30.0))
        .unknown(),
    quantity("sea.heave_period", Time, "10 s", "time from crest to crest").must(Range::between(1.0, 60.0)).needed("with `heave`"),
    // Site
    table("site", "the air that the engines breathe, at its hottest"),
    quantity("site.altitude", Depth, "1200 ft", "height of the ground above sea level")
        .must(Range::between(0.0, 6_000.0))
        .unknown(),
    quantity("site.air_temperature", Temperature, "100 degF", "air temperature").must(Range::between(200.0, 345.0)).unknown(),
    number("site.humidity", Fraction, "60 %", "relative humidity").unknown(),
    // Survey
    table("survey", "path of the well; without it the well is vertical").optional(),
    row(
        "survey.stations",
        Form::Stations,
        "[[\"0 ft\", \"0 deg\", \"0 deg\"], [\"9000 ft\", \"2 deg\", \"140 deg\"]]",
        "rows of measured depth, inclination, azimuth",
    )
    .needed("unless `file` is given"),
    row("survey.file", Form::Text, "survey.csv", "CSV with a header such as `md [ft], inclination [deg], azimuth [deg]`")
        .needed("unless `stations` is given"),
    // Rock temperature
    table("temperature", "temperature of the undisturbed rock"),
    quantity("temperature.surface", Temperature, "60 degF", "at ground level or sea bed").default("15 degC", COMMON),
    quantity("temperature.gradient", TemperatureGradient, "1.4 degF/100 ft", "growth with vertical depth")
        .default("3 degC/100 m", "common practice: 2.5 to 3 degC/100 m away from volcanic ground"),
    quantity("temperature.conductivity", Conductivity, "2.25 W/(m.K)", "thermal conductivity of the rock")
        .must(Range::between(0.3, 10.0))
        .default("2.25 W/(m.K)", "Holmes & Swift 1970, base case (from memory); shale 1.2 to 1.8, sandstone 2 to 4"),
    quantity("temperature.rock_density", Density, "2640 kg/m3", "density of the rock")
        .must(Range::between(1_000.0, 5_000.0))
        .default("2640 kg/m3", "Holmes & Swift 1970, base case (from memory)"),
    quantity("temperature.specific_heat", SpecificHeat, "837 J/(kg.K)", "specific heat of the rock")
        .must(Range::between(300.0, 3_000.0))
        .default("837 J/(kg.K)", "Holmes & Swift 1970, base case (from memory)"),
    quantity("temperature.circulated", Time, "12 h", "for how long the mud has circulated: the rock around the hole cools")
        .must(Range::between(60.0, 1e8))
        .default("12 h", "common practice: half a day of drilling"),
    row("temperature.friction_heat", Form::Choice(FRICTION_HEAT), "counted", "heat of friction in string, bit and annulus")
        .default("counted", "heat balance: all that the pumps give ends up in the mud"),
    // Friction
    table("friction", "friction between string and hole, for the soft-string model"),
    number("friction.cased", Ratio, "0.20", "inside casing")
        .must(Range::FRACTION)
        .default("0.20", "common practice, water-based mud"),
    number("friction.open", Ratio, "0.28", "in open hole")
        .must(Range::FRACTION)
        .default("0.28", "common practice, water-based mud"),
    // Margins
    table("margins", "what the crew wants kept on top of the bare limits"),
    quantity("margins.trip", Density, "0.3 ppg", "mud weight above pore pressure, pumps off")
        .must(MARGIN)
        .default("0.3 ppg", COMMON),
    quantity("margins.swab", Density, "0.1 ppg", "left above pore pressure while pulling")
        .must(MARGIN)
        .default("0.1 ppg", COMMON),
    quantity("margins.fracture", Density, "0.2 ppg", "below fracture pressure, flowing or running in")
        .must(MARGIN)
        .default("0.2 ppg", COMMON),
    quantity("margins.overpull", Force, "100 klbf", "pull above pick-up weight").default("100 klbf", COMMON),
    // Reserves
    table("reserves", "shares of a capacity that the crew wants left over"),
    number("reserves.load", Fraction, "10 %", "mast, blocks, hook, elevators").must(RESERVE).default("10 %", COMMON),
    number("reserves.machinery", Fraction, "10 %", "drawworks, line, pumps: pull, speed, power")
        .must(RESERVE)
        .default("10 %", COMMON),
    number("reserves.strength", Fraction, "10 %", "pipe, joints and drive torque").must(RESERVE).default("10 %", COMMON),
    number("reserves.pressure", Fraction, "10 %", "pressure ratings").must(RESERVE).default("10 %", COMMON),
    number("reserves.power", Fraction, "10 %", "generator sets").must(RESERVE).default("10 %", COMMON),
    number("reserves.volume", Fraction, "10 %", "kick volume, stored control fluid, hole cleaning, racking room")
        .must(RESERVE)
        .default("10 %", COMMON),
    // Design factors of casing
    table("casing_factors", "design factors of casing; the one for burst is `burst_fraction` of each string"),
    number("casing_factors.collapse", Ratio, "1.1", "collapse").must(FACTOR).default("1.1", "common practice: 1.0 to 1.125"),
    number("casing_factors.tension", Ratio, "1.6", "tension of body and connection")
        .must(FACTOR)
        .default("1.6", "common practice: 1.6 to 1.8"),
    number("casing_factors.triaxial", Ratio, "1.25", "yield strength over the equivalent stress")
        .must(FACTOR)
        .default("1.25", "common practice"),
    // Design kick
    table("kick", "the influx that each section must be able to take"),
    quantity("kick.volume", Volume, "25 bbl", "influx at bottom conditions").must(Range::between(0.01, 200.0)).unknown(),
    quantity("kick.intensity", Density, "0.5 ppg", "pore pressure above the mud weight, as a mud weight")
        .must(Range::between(0.0, 1_000.0))
        .unknown(),
    number("kick.gas_gravity", Ratio, "0.6", "gravity of the influx gas, air = 1")
        .must(Range::between(0.55, 1.7))
        .default("0.6", "common practice: methane with a little of the rest"),
];

const FACTOR: Range = Range::between(1.0, 10.0);

/// A margin as a mud weight; more than nothing, since rooms are counted in margins.
const MARGIN: Range = Range::between(1.0, 500.0);

/// Kinds of the columns of a survey.
pub(crate) const STATION: [rigwright_units::Kind; 3] = [Depth, Angle, Angle];
