//! Rows of the rig file: pumps, pits, power and preventers.

use crate::entry::{Entry, Form, number, quantity, row, table, tables, whole};
use crate::knobs::SETS_ON_LINE;
use rigwright_physics::Range;
use rigwright_units::Kind::{
    Depth, Diameter, FluidVolume, Fraction, FuelRate, Mass, Power, Pressure, Ratio, StrokeRate, Temperature, Time, Volume,
};

/// Words of a pump's `kind`.
pub(crate) const PUMPS: &[&str] = &["triplex", "duplex"];
/// Words of a preventer's `kind`.
pub(crate) const PREVENTERS: &[&str] = &["annular", "pipe-ram", "blind-ram", "blind-shear-ram"];

/// A rating of nothing would be no rating.
const RATING: Range = Range { low: 0.0, low_included: false, high: 350e6, high_included: true };

pub(super) const ROWS: &[Entry] = &[
    // Pumps
    table("rig.pump", "mud pumps, all alike"),
    row("rig.pump.kind", Form::Choice(PUMPS), "triplex", "how they pump"),
    whole("rig.pump.number", "2", "number of pumps").must(Range::between(1.0, 20.0)),
    quantity("rig.pump.stroke", Diameter, "12 in", "stroke"),
    quantity("rig.pump.rod", Diameter, "2 1/2 in", "rod diameter").needed("for a duplex pump"),
    row(
        "rig.pump.liners",
        Form::Pairs { key: Diameter, value: Pressure },
        "{ \"6 in\" = \"4660 psi\", \"6 1/2 in\" = \"3970 psi\" }",
        "liners to choose from, each with its pressure rating",
    ),
    quantity("rig.pump.speed", StrokeRate, "120 spm", "largest pump speed"),
    quantity("rig.pump.power", Power, "1600 hp", "input power of one pump"),
    number("rig.pump.volumetric_efficiency", Fraction, "95 %", "real output over swept volume")
        .must(Range::EFFICIENCY)
        .default("95 %", "common practice: 95 to 97 % for a triplex, 85 to 90 % for a duplex"),
    number("rig.pump.mechanical_efficiency", Fraction, "90 %", "hydraulic power over input power")
        .must(Range::EFFICIENCY)
        .default("90 %", "common practice"),
    // Surface lines
    table("rig.surface_lines", "standpipe, hose, swivel and kelly or top drive as one pipe"),
    quantity("rig.surface_lines.length", Depth, "140 ft", "length"),
    quantity("rig.surface_lines.inside", Diameter, "3.5 in", "inside diameter"),
    quantity("rig.surface_lines.rating", Pressure, "5000 psi", "pressure rating").must(RATING).unknown(),
    // Pits
    table("rig.pits", "pits and stocks"),
    quantity("rig.pits.active", Volume, "800 bbl", "active volume").unknown(),
    quantity("rig.pits.reserve", Volume, "400 bbl", "mud in reserve").unknown(),
    quantity("rig.pits.barite", Mass, "100 t", "barite on site").unknown(),
    quantity("rig.pits.fuel", Volume, "60 m3", "fuel on site").unknown(),
    quantity("rig.pits.resupply", Time, "7 d", "time until the next delivery").unknown(),
    // Power
    table("rig.sets", "generator sets, all alike, and what they feed"),
    whole("rig.sets.number", "3", "number of sets").must(Range::between(1.0, 50.0)),
    whole("rig.sets.on_line", "3", "sets on line today").must(Range::between(1.0, 50.0)).knob(&SETS_ON_LINE),
    quantity("rig.sets.rating", Power, "1000 kW", "continuous electric power of one set"),
    number("rig.sets.power_factor", Ratio, "0.75", "power factor of the load").must(Range::EFFICIENCY),
    quantity("rig.sets.apparent_rating", Power, "1400 kW", "apparent power that one generator bears: its kVA, written in kW")
        .unknown(),
    row(
        "rig.sets.fuel",
        Form::Pairs { key: Fraction, value: FuelRate },
        "{ \"50 %\" = \"132 L/h\", \"100 %\" = \"258 L/h\" }",
        "fuel rate of one set by load",
    ),
    number(
        "rig.sets.drive_efficiency",
        Fraction,
        "88 %",
        "share of set output that reaches the motors' shafts: drive, cable and motor",
    )
    .must(Range::EFFICIENCY)
    .default("88 %", "common practice"),
    quantity("rig.sets.hotel_load", Power, "220 kW", "lights, camp, shakers, mixers: what runs always")
        .must(Range::between(0.0, 5e7)),
    quantity("rig.sets.auxiliary_load", Power, "110 kW", "charge pumps, blowers and cooling while mud pumps run")
        .must(Range::between(0.0, 5e7)),
    // Preventers
    tables("rig.preventer[]", "preventers from the top down").optional(),
    row("rig.preventer[].name", Form::Text, "annular", "name for print"),
    row("rig.preventer[].kind", Form::Choice(PREVENTERS), "annular", "what it closes with"),
    quantity("rig.preventer[].rating", Pressure, "5000 psi", "working pressure").must(RATING),
    quantity("rig.preventer[].bore", Diameter, "13 5/8 in", "bore"),
    quantity("rig.preventer[].closing_volume", FluidVolume, "18 gal", "fluid to close it").unknown(),
    row("rig.preventer[].closes_on", Form::Pair(Diameter), "[\"5 in\", \"5 in\"]", "smallest and largest pipe that it closes on")
        .needed("for pipe rams"),
    table("rig.wellhead", "wellhead"),
    quantity("rig.wellhead.rating", Pressure, "10000 psi", "working pressure").must(RATING).unknown(),
    table("rig.choke_manifold", "choke manifold"),
    quantity("rig.choke_manifold.rating", Pressure, "10000 psi", "working pressure").must(RATING).unknown(),
    table("rig.accumulator", "accumulator unit").optional(),
    whole("rig.accumulator.bottles", "16", "number of bottles").must(Range::between(1.0, 500.0)),
    quantity("rig.accumulator.bottle_volume", FluidVolume, "10 gal", "gas volume of one bottle, empty of fluid"),
    quantity("rig.accumulator.precharge", Pressure, "1000 psi", "precharge").must(RATING),
    quantity("rig.accumulator.charged", Pressure, "3000 psi", "charged pressure").must(RATING),
    quantity("rig.accumulator.minimum", Pressure, "1200 psi", "smallest pressure at which everything still works").must(RATING),
    quantity("rig.accumulator.temperature", Temperature, "70 degF", "temperature of the bottles")
        .default("70 degF", "common practice"),
    number(
        "rig.accumulator.design_factor",
        Ratio,
        "1.1",
        "design factor on the volume wanted: from the edition of the rule that applies",
    )
    .must(Range::between(1.0, 5.0))
    .unknown(),
];
