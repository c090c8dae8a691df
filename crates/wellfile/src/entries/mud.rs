//! Rows of the mud.

use crate::entry::{Entry, Form, quantity, row, table, tables};
use crate::knobs::MUD_WEIGHT;
use rigwright_physics::Range;
use rigwright_units::Kind::{
    Compressibility, Conductivity, Density, Dial, Ratio, Roughness, ShearStress, SpecificHeat, Temperature,
};

/// Words of `kind`.
pub(crate) const KINDS: &[&str] = &["water-based", "oil-based", "synthetic-based"];
/// Words of `model`.
pub(crate) const MODELS: &[&str] = &["best-fit", "herschel-bulkley", "casson", "power-law", "power-law-in-two", "bingham"];
/// Words of `losses`.
pub(crate) const LOSSES: &[&str] = &["generalised", "exact", "power-law-1995", "bingham-field"];

pub(super) const ROWS: &[Entry] = &[
    table("section[].mud", "the mud, as the mud report gives it"),
    row("section[].mud.kind", Form::Choice(KINDS), "water-based", "what it is made of"),
    quantity("section[].mud.weight", Density, "9.6 ppg", "mud weight at surface")
        .must(Range::between(800.0, 2_700.0))
        .knob(&MUD_WEIGHT),
    row(
        "section[].mud.readings",
        Form::Pairs { key: Ratio, value: Dial },
        "{ 600 = 50, 300 = 32, 200 = 25, 100 = 17, 6 = 6, 3 = 5 }",
        "viscometer readings by speed in rpm; at least those at 600 and 300",
    ),
    quantity("section[].mud.temperature", Temperature, "120 degF", "temperature of the readings").unknown(),
    row("section[].mud.date", Form::Date, "2026-10-09", "day of the readings").unknown(),
    tables("section[].mud.more_readings[]", "viscometer readings at other temperatures").optional(),
    quantity("section[].mud.more_readings[].temperature", Temperature, "180 degF", "temperature of these readings"),
    row(
        "section[].mud.more_readings[].readings",
        Form::Pairs { key: Ratio, value: Dial },
        "{ 600 = 38, 300 = 25, 200 = 20, 100 = 14, 6 = 5, 3 = 4 }",
        "viscometer readings by speed in rpm; at least those at 600 and 300",
    ),
    quantity("section[].mud.weighed_at", Temperature, "70 degF", "temperature at which the mud was weighed")
        .must(Range::between(275.0, 370.0))
        .default("20 degC", "common practice: at the pits"),
    quantity("section[].mud.specific_heat", SpecificHeat, "1800 J/(kg.K)", "specific heat; left out, from the retort")
        .must(Range::between(800.0, 4_300.0))
        .unknown(),
    quantity("section[].mud.conductivity", Conductivity, "0.8 W/(m.K)", "thermal conductivity")
        .must(Range::between(0.1, 3.0))
        .default("0.8 W/(m.K)", "common practice: 0.6 to 1.0 W/(m.K)"),
    quantity("section[].mud.temperature_limit", Temperature, "300 degF", "temperature that the mud bears").optional(),
    row(
        "section[].mud.gels",
        Form::Pair(ShearStress),
        "[\"6 lb/100 ft2\", \"10 lb/100 ft2\"]",
        "gel strength after 10 s and 10 min",
    )
    .unknown(),
    row("section[].mud.model", Form::Choice(MODELS), "best-fit", "flow model")
        .default("best-fit", "the one that misses the readings least, of Bingham, power law, Casson and Herschel-Bulkley"),
    row("section[].mud.losses", Form::Choice(LOSSES), "generalised", "method for pressure losses")
        .default("generalised", "API RP 13D, 2006 and later"),
    quantity(
        "section[].mud.roughness",
        Roughness,
        "0.0018 in",
        "roughness of pipe and wall, for water and clear brine: raises turbulent friction; left out, walls are smooth",
    )
    .must(Range::between(1e-7, 1e-3))
    .optional(),
    quantity("section[].mud.compressibility", Compressibility, "3e-6 1/psi", "share of its volume that it gives way to pressure")
        .must(Range::between(1e-11, 1e-8))
        .computed("3e-6 1/psi in water-based mud, 5e-6 1/psi in oil", "from memory: water about 3e-6, oil 4e-6 to 6e-6 1/psi"),
];
