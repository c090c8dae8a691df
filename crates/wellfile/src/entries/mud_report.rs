//! Rows of the mud report beside weight and viscometer: retort, filter press, what sticking rests on, and the progress of the hole.

use super::mud::KINDS;
use crate::entry::{Entry, Form, number, quantity, row, table, tables};
use rigwright_physics::Range;
use rigwright_physics::circulating::density::salts::Salt;
use rigwright_units::Kind::{
    Count, Density, Depth, Dial, Diameter, Filtrate, Fraction, Pressure, PricePerMass, PricePerVolume, Ratio, ShearStress, Time,
};

/// Words of `salt`.
pub(crate) const SALTS: &[&str] = &{
    let mut words = [""; Salt::ALL.len()];
    let mut at = 0;
    while at < words.len() {
        words[at] = Salt::ALL[at].name();
        at += 1;
    }
    words
};

const COMMON: &str = "common practice";

pub(super) const ROWS: &[Entry] = &[
    // Retort
    table("section[].mud.retort", "what the retort gave back, as shares of the mud").optional(),
    number("section[].mud.retort.oil", Fraction, "2 %", "share of oil").default("0 %", "no oil in the mud"),
    number("section[].mud.retort.water", Fraction, "84 %", "share of water"),
    number(
        "section[].mud.retort.solids",
        Fraction,
        "14 %",
        "share of solids, dissolved salt among them; it must make up the rest",
    )
    .optional(),
    quantity("section[].mud.retort.chlorides", Density, "30000 mg/L", "chlorides in the filtrate; for a water-based mud")
        .must(Range::between(0.0, 250.0))
        .unknown(),
    row("section[].mud.retort.salt", Form::Choice(SALTS), "calcium chloride", "salt of the water phase")
        .default("calcium chloride", "common practice for the brine of oil muds"),
    number(
        "section[].mud.retort.salt_fraction",
        Fraction,
        "25 %",
        "share of salt in the mass of the water phase; goes before `chlorides`",
    )
    .unknown(),
    quantity("section[].mud.retort.oil_density", Density, "0.84 sg", "density of the oil")
        .must(Range::between(600.0, 1_000.0))
        .default("0.84 sg", "Lapeyrouse, 2nd ed. 2002, p. 92: diesel"),
    quantity("section[].mud.retort.light_density", Density, "2.6 sg", "density of light solids: clay and drilled rock")
        .must(Range::between(2_300.0, 2_900.0))
        .default("2.6 sg", COMMON),
    quantity("section[].mud.retort.heavy_density", Density, "4.2 sg", "density of the weighting material")
        .must(Range::between(2_650.0, 5_500.0))
        .default("4.2 sg", "common practice: barite; API 13A allows 4.1"),
    number("section[].mud.retort.most_light", Fraction, "6 %", "largest share of light solids wanted in the mud")
        .must(Range::EFFICIENCY)
        .default("6 %", "common practice: 5 to 7 % in a weighted mud"),
    // Filter press
    row(
        "section[].mud.filtrate",
        Form::Pairs { key: Time, value: Filtrate },
        "{ \"7.5 min\" = \"3.4 mL\", \"30 min\" = \"6.2 mL\" }",
        "filtrate of the press at 100 psi by time; two readings tell the spurt",
    )
    .optional(),
    // Sticking
    table("section[].sticking", "what sticking by differential pressure rests on"),
    quantity("section[].sticking.cake", Diameter, "2/32 in", "thickness of the mud cake, as the filter press shows it")
        .must(Range::between(0.0, 0.05))
        .unknown(),
    number(
        "section[].sticking.cake_friction",
        Ratio,
        "0.15",
        "friction between pipe and cake; it grows while the pipe lies still",
    )
    .must(Range::between(0.0, 1.0))
    .unknown(),
    quantity("section[].sticking.contact_length", Depth, "60 ft", "length of collars that lies in the cake at once")
        .must(Range::between(0.1, 3_000.0))
        .unknown(),
    quantity("section[].sticking.still", Time, "30 min", "longest time that the string lies still in open hole")
        .must(Range::between(1.0, 1e6))
        .default("30 min", "common practice: a survey or a slow connection"),
    quantity(
        "section[].sticking.most_overbalance",
        Pressure,
        "2000 psi",
        "largest pressure over that of permeable rock that the crew allows",
    )
    .optional(),
    // Other muds
    tables("section[].candidate_mud[]", "muds that could be used instead: compared by window, cleaning and cost").optional(),
    row("section[].candidate_mud[].name", Form::Text, "low-toxicity oil mud", "name for print"),
    row("section[].candidate_mud[].kind", Form::Choice(KINDS), "oil-based", "what it is made of"),
    quantity("section[].candidate_mud[].weight", Density, "9.6 ppg", "mud weight at surface")
        .must(Range::between(800.0, 2_700.0)),
    row(
        "section[].candidate_mud[].readings",
        Form::Pairs { key: Ratio, value: Dial },
        "{ 600 = 62, 300 = 38, 200 = 29, 100 = 19, 6 = 7, 3 = 6 }",
        "viscometer readings by speed in rpm; at least those at 600 and 300",
    ),
    row(
        "section[].candidate_mud[].gels",
        Form::Pair(ShearStress),
        "[\"6 lb/100 ft2\", \"10 lb/100 ft2\"]",
        "gel strength after 10 s and 10 min",
    )
    .unknown(),
    quantity("section[].candidate_mud[].price", PricePerVolume, "140 per bbl", "price, made up; without it no cost is told")
        .optional(),
    row(
        "section[].candidate_mud[].discharge",
        Form::Text,
        "cuttings to shore",
        "what the permit says of its discharge, in your words: it is repeated, not judged",
    )
    .optional(),
    // Prices
    quantity("section[].mud.price", PricePerVolume, "60 per bbl", "price of mud of this kind, made up").optional(),
    table("prices", "what material costs, in one currency; what has no price has no cost told").optional(),
    quantity("prices.barite", PricePerMass, "190 per t", "weighting material").optional(),
    quantity("prices.base_oil", PricePerVolume, "150 per bbl", "base oil, to dilute an oil mud with").optional(),
    quantity("prices.water", PricePerVolume, "1 per bbl", "water, to dilute a water-based mud with").optional(),
    // Progress
    tables("section[].progress[]", "depth and stroke counter read while drilling; the last row is now").optional(),
    quantity("section[].progress[].depth", Depth, "4200 ft", "measured depth of the hole"),
    number("section[].progress[].strokes", Count, "18500", "strokes of all pumps since the counter was set")
        .must(Range::between(0.0, 1e9)),
];
