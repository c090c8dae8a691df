//! Rows of the rig file: pumps, pits, power and preventers.

use crate::entry::{Entry, Form, number, quantity, row, table, tables, whole};
use crate::knobs::SETS_ON_LINE;
use rigwright_physics::Range;
use rigwright_physics::power::drives::{CONVERTER_SOURCE, GEAR_SOURCE, MOTOR_SOURCE};
use rigwright_units::Kind::{
    Density, Depth, Diameter, FlowRate, FluidVolume, Force, Fraction, FuelRate, LinearMass, Mass, MassFlow, Power, Pressure,
    Ratio, StrokeRate, Temperature, Time, Volume,
};

/// Words of a pump's `kind`.
pub(crate) const PUMPS: &[&str] = &["triplex", "duplex"];
/// Words of a preventer's `kind`.
pub(crate) const PREVENTERS: &[&str] = &["annular", "pipe-ram", "blind-ram", "blind-shear-ram"];

/// Words of the drives' `kind`.
pub(crate) const CURRENTS: &[&str] = &["direct-current", "alternating-current"];
/// Words of `aspiration`.
pub(crate) const ASPIRATIONS: &[&str] = &["natural", "turbocharged", "charge-cooled"];

/// Below this nothing is driven by alternating current.
const POWER_FACTOR: Range = Range::between(0.1, 1.0);
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
    table("rig.surface_lines", "standpipe, hose, swivel and kelly or top drive as one pipe, or as a standard combination"),
    quantity("rig.surface_lines.length", Depth, "140 ft", "length").needed("unless `combination` is given"),
    quantity("rig.surface_lines.inside", Diameter, "3.5 in", "inside diameter").needed("unless `combination` is given"),
    whole("rig.surface_lines.combination", "3", "one of the four standard combinations of surface equipment, with a kelly")
        .must(Range::between(1.0, 4.0))
        .optional(),
    quantity("rig.surface_lines.rating", Pressure, "5000 psi", "pressure rating").must(RATING).unknown(),
    // Pits
    table("rig.pits", "pits and stocks"),
    quantity("rig.pits.active", Volume, "800 bbl", "active volume").unknown(),
    quantity("rig.pits.reserve", Volume, "400 bbl", "mud in reserve").unknown(),
    quantity("rig.pits.reserve_weight", Density, "11 ppg", "weight of the mud in reserve, for mixing")
        .must(Range::between(800.0, 2_700.0))
        .optional(),
    quantity("rig.pits.barite", Mass, "100 t", "barite on site").unknown(),
    quantity("rig.pits.fuel", Volume, "60 m3", "fuel on site").unknown(),
    quantity("rig.pits.resupply", Time, "7 d", "time until the next delivery").unknown(),
    quantity("rig.pits.capacity", Volume, "1600 bbl", "all pits filled to the brim").unknown(),
    quantity("rig.pits.drain_back", Volume, "20 bbl", "what runs back into the pits when the pumps stop").unknown(),
    quantity("rig.pits.waste", Volume, "3000 bbl", "room for waste").unknown(),
    number("rig.pits.waste_factor", Ratio, "2", "volume of wet waste over that of the rock drilled")
        .must(Range::between(1.0, 20.0))
        .default("2", "common practice: cuttings loosen and carry about their own volume of mud"),
    quantity("rig.pits.trip_tank", Volume, "40 bbl", "trip tank").must(Range::between(0.1, 1_000.0)).unknown(),
    quantity("rig.pits.mixing_rate", MassFlow, "20 t/h", "weight material that the hoppers mix in").unknown(),
    // Returns
    table("rig.returns", "what comes back from the well goes through these").optional(),
    quantity("rig.returns.line", FlowRate, "1400 gpm", "flow that the return line takes").unknown(),
    quantity("rig.returns.shakers", FlowRate, "1200 gpm", "flow that the shakers take with the screens fitted").unknown(),
    // Power
    table("rig.drives", "drives of pumps, drawworks and string, all alike"),
    row(
        "rig.drives.kind",
        Form::Choice(CURRENTS),
        "alternating-current",
        "frequency converters, or thyristors with direct current",
    )
    .default("alternating-current", "common practice since about 2000"),
    number("rig.drives.converter_efficiency", Fraction, "97 %", "converter with its transformer and cable")
        .must(Range::EFFICIENCY)
        .computed("by kind", CONVERTER_SOURCE),
    number("rig.drives.motor_efficiency", Fraction, "95 %", "motor").must(Range::EFFICIENCY).computed("by kind", MOTOR_SOURCE),
    number("rig.drives.gear_efficiency", Fraction, "97 %", "gear, belt or chain from motor to pump or rotary drive")
        .must(Range::EFFICIENCY)
        .computed("97 %", GEAR_SOURCE),
    table("rig.sets", "generator sets, all alike, and what they feed"),
    whole("rig.sets.number", "3", "number of sets").must(Range::between(1.0, 50.0)),
    whole("rig.sets.on_line", "3", "sets on line today").must(Range::between(1.0, 50.0)).knob(&SETS_ON_LINE),
    quantity(
        "rig.sets.rating",
        Power,
        "1000 kW",
        "continuous electric power of one set: on its site, or at reference conditions where `aspiration` is given",
    ),
    row(
        "rig.sets.aspiration",
        Form::Choice(ASPIRATIONS),
        "charge-cooled",
        "how the engines breathe: with it the rating is derated for height and heat of the site",
    )
    .optional(),
    number(
        "rig.sets.power_factor",
        Ratio,
        "0.75",
        "measured power factor of the whole load; else by consumer and kind of drives",
    )
    .must(POWER_FACTOR)
    .optional(),
    quantity("rig.sets.apparent_rating", Power, "1400 kW", "apparent power that one generator bears: its kVA, written in kW")
        .unknown(),
    number("rig.sets.transient_reactance", Ratio, "0.25", "transient reactance of a generator, per unit of its rating")
        .must(Range::between(0.01, 2.0))
        .unknown(),
    number("rig.sets.voltage_dip", Fraction, "20 %", "largest dip of the voltage when a motor starts")
        .must(Range::between(0.01, 0.9))
        .default("20 %", "ISO 8528-5, performance class G2 (from memory)"),
    row(
        "rig.sets.fuel",
        Form::Pairs { key: Fraction, value: FuelRate },
        "{ \"50 %\" = \"132 L/h\", \"100 %\" = \"258 L/h\" }",
        "fuel rate of one set by load",
    ),
    quantity("rig.sets.emission_factor", Density, "2697 kg/m3", "carbon dioxide per volume of fuel")
        .default("2697 kg/m3", "10.21 kg per US gallon of diesel: US EPA, Greenhouse Gas Inventory Guidance, December 2020"),
    quantity("rig.sets.hotel_load", Power, "220 kW", "lights, camp, shakers, mixers: what runs always")
        .must(Range::between(0.0, 5e7)),
    quantity("rig.sets.auxiliary_load", Power, "110 kW", "charge pumps, blowers and cooling while mud pumps run")
        .must(Range::between(0.0, 5e7)),
    quantity(
        "rig.sets.station_load",
        Power,
        "4000 kW",
        "what thrusters draw to hold a floating rig in the worst weather that it drills in; 0 kW where moorings alone hold it",
    )
    .must(Range::between(0.0, 5e8))
    .unknown(),
    whole("rig.sets.buses", "2", "bus sections that the sets on line are shared over evenly; 1 where all hang on one")
        .must(Range::between(1.0, 10.0))
        .unknown(),
    number("rig.sets.hotel_power_factor", Ratio, "0.85", "power factor of all of these")
        .must(POWER_FACTOR)
        .default("0.85", "common practice: induction motors and lights"),
    table("rig.largest_motor", "largest motor that starts straight on the line or over a starter, without a drive").optional(),
    quantity("rig.largest_motor.power", Power, "110 kW", "power at its shaft"),
    number("rig.largest_motor.efficiency", Fraction, "94 %", "efficiency")
        .must(Range::between(0.1, 1.0))
        .default("94 %", "common practice: induction motors of 75 to 200 kW"),
    number("rig.largest_motor.power_factor", Ratio, "0.86", "power factor").must(POWER_FACTOR).default("0.86", "common practice"),
    number("rig.largest_motor.current_ratio", Ratio, "6", "starting current over rated current at full voltage")
        .must(Range::between(1.0, 12.0))
        .default("6", "common practice: 5 to 7 straight on the line"),
    number("rig.largest_motor.starting_voltage", Fraction, "100 %", "voltage at which it starts, as a share of full voltage")
        .must(Range::between(0.1, 1.0))
        .default("100 %", "straight on the line"),
    table("rig.emergency", "emergency set and what it has to carry"),
    quantity("rig.emergency.rating", Power, "200 kW", "continuous electric power").unknown(),
    quantity("rig.emergency.preventer_control", Power, "45 kW", "pumps and panels of the preventer control")
        .must(Range::between(0.0, 5e7))
        .unknown(),
    quantity("rig.emergency.lights", Power, "30 kW", "lights, alarms, radio").must(Range::between(0.0, 5e7)).unknown(),
    quantity("rig.emergency.brake", Power, "40 kW", "auxiliary brake of the drawworks; nought for one that needs no current")
        .must(Range::between(0.0, 5e7))
        .unknown(),
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
    quantity("rig.choke_manifold.hose_rating", Pressure, "10000 psi", "working pressure of the hose or line that leads to it")
        .must(RATING)
        .unknown(),
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
    table("rig.riser", "riser of a floating rig, from the preventers on the sea bed to the floor").optional(),
    quantity("rig.riser.inside", Diameter, "19 1/4 in", "inside diameter"),
    quantity("rig.riser.choke_line", Diameter, "3 1/2 in", "inside diameter of the choke line"),
    quantity("rig.riser.kill_line", Diameter, "3 1/2 in", "inside diameter of the kill line"),
    quantity("rig.riser.booster_line", Diameter, "4 in", "inside diameter of the line that pumps into the riser").unknown(),
    quantity(
        "rig.riser.trapped_volume",
        Volume,
        "2 bbl",
        "space between the preventer that is closed and the outlet of the choke line under it: gas stays there after a kill",
    )
    .must(Range::between(0.001, 20.0))
    .unknown(),
    quantity("rig.riser.weight", LinearMass, "40 lb/ft", "weight per length in sea water, with its lines and its buoyancy")
        .must(Range::between(0.0, 2_000.0))
        .unknown(),
    quantity(
        "rig.riser.stack_weight",
        Force,
        "500 klbf",
        "weight in sea water of the preventers and all that goes down with them",
    )
    .unknown(),
];
