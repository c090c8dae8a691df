//! Temperatures of rock and of circulating mud.

use rigwright_physics::circulating::temperature::rock::{RingedRock, Rings, Rock};
use rigwright_physics::circulating::temperature::steady::{MudTemperatures, SteadyCirculation};
use rigwright_physics::circulating::temperature::transfer::{Film, film_coefficient};
use rigwright_physics::circulating::temperature::transient::{
    CellTemperatures, HeatCell, HeatStep, HeatWell, Outside, Pumping, WellHeat,
};
use rigwright_physics::{Off, numerics};
use rigwright_units::Kind;
use std::f64::consts::PI;

use crate::Given;
use crate::procedures::{Outcome, output};

fn circulation(given: &Given) -> Result<SteadyCirculation, String> {
    let loss = |key: &str| given.quantity_or(key, Kind::Pressure, 0.0);
    Ok(SteadyCirculation {
        length: given.quantity("length", Kind::Depth)?,
        hole_diameter: given.quantity("hole_diameter", Kind::Diameter)?,
        pipe_diameter: given.quantity("pipe_diameter", Kind::Diameter)?,
        flow_rate: given.quantity("flow_rate", Kind::FlowRate)?,
        density: given.quantity("density", Kind::Density)?,
        specific_heat: given.quantity("specific_heat", Kind::SpecificHeat)?,
        inlet_temperature: given.quantity("inlet_temperature", Kind::Temperature)?,
        top_temperature: given.quantity("top_temperature", Kind::Temperature)?,
        temperature_gradient: given.quantity("temperature_gradient", Kind::TemperatureGradient)?,
        pipe_transfer: given.quantity("pipe_transfer", Kind::HeatTransfer)?,
        wall_transfer: given.quantity("wall_transfer", Kind::HeatTransfer)?,
        losses: [loss("pipe_loss")?, loss("annulus_loss")?, loss("bit_loss")?],
    })
}

/// Closed form of steady circulation: ends, hottest mud, a depth on the way, and whether the heat balances.
pub(super) fn steady_circulation(given: &Given) -> Outcome {
    let well = circulation(given)?;
    let depth = given.quantity_or("depth", Kind::Depth, well.length)?;
    let rows = well.profile(&[0.0, depth, well.length], &mut Off);
    let hottest = well.hottest(&mut Off);
    // Heat from the rock by Simpson's rule over a thousand lengths.
    let count = 1000;
    let depths: Vec<f64> = (0..=count).map(|at| well.length * f64::from(at) / f64::from(count)).collect();
    let flow = |(at, row): (usize, &MudTemperatures)| {
        let weight = if at == 0 || at == depths.len() - 1 { 1.0 } else { 2.0 + 2.0 * (at % 2) as f64 };
        let rock = well.top_temperature + well.temperature_gradient * row.depth;
        weight * PI * well.hole_diameter * well.wall_transfer * (rock - row.annulus)
    };
    let heat: f64 =
        well.profile(&depths, &mut Off).iter().enumerate().map(flow).sum::<f64>() * well.length / f64::from(3 * count);
    let friction = well.flow_rate * well.losses.iter().sum::<f64>();
    let carried = well.flow_rate * well.density * well.specific_heat * (rows[0].annulus - well.inlet_temperature);
    let bottom = &rows[2];
    Ok(vec![
        output("bottom_temperature", Kind::Temperature, bottom.annulus),
        output("outlet_temperature", Kind::Temperature, rows[0].annulus),
        output("pipe_temperature", Kind::Temperature, rows[1].pipe),
        output("annulus_temperature", Kind::Temperature, rows[1].annulus),
        output("hottest_temperature", Kind::Temperature, hottest.annulus),
        output("hottest_depth", Kind::Depth, hottest.depth),
        output("energy_residual", Kind::Ratio, (heat + friction - carried) / carried.abs().max(1.0)),
    ])
}

/// A well of like cells that rested and then circulates for a time.
pub(super) fn circulating_march(given: &Given) -> Outcome {
    let well = circulation(given)?;
    let inner_diameter = given.quantity("inner_diameter", Kind::Diameter)?;
    let rock = rock(given)?;
    let count = 80;
    let length = well.length / f64::from(count);
    let [pipe_loss, annulus_loss, bit_loss] = well.losses;
    let cell = |at: i32| HeatCell {
        length,
        undisturbed: well.top_temperature + well.temperature_gradient * length * (f64::from(at) + 0.5),
        hole_diameter: well.hole_diameter,
        pipe_diameter: well.pipe_diameter,
        inner_diameter,
        pipe_transfer: well.pipe_transfer,
        face_transfer: well.wall_transfer,
        pipe_loss: pipe_loss / well.length,
        annulus_loss: annulus_loss / well.length,
        outside: Outside::Rock(rock),
    };
    let SteadyCirculation { density, specific_heat, flow_rate, inlet_temperature, .. } = well;
    let rings = Rings { count: 60, outer_radius: 20.0 };
    let heat_well = HeatWell { cells: (0..count).map(cell).collect(), density, specific_heat, rings };
    let mut heat = WellHeat::at_rest(heat_well).ok_or("no well")?;
    let pumping = Pumping { flow_rate, inlet_temperature, bit_loss };
    let duration = given.quantity("duration", Kind::Time)?;
    // Short steps at first, when the change is quick.
    let mut last: Option<HeatStep> = None;
    let mut before = 0.0;
    for share in [0.01, 0.1, 1.0] {
        last = heat.run(&pumping, (share - before) * duration, 300, &mut Off);
        before = share;
    }
    let last = last.ok_or("no step")?;
    let profile = heat.profile();
    let at = |value: fn(&CellTemperatures) -> f64| {
        let points: Vec<(f64, f64)> = profile.iter().map(|cell| (cell.depth, value(cell))).collect();
        numerics::interpolate(&points, 0.5 * well.length).ok_or("no cells")
    };
    Ok(vec![
        output("bit_temperature", Kind::Temperature, last.bit_temperature),
        output("outlet_temperature", Kind::Temperature, last.outlet_temperature),
        output("pipe_temperature_halfway", Kind::Temperature, at(|cell| cell.pipe)?),
        output("annulus_temperature_halfway", Kind::Temperature, at(|cell| cell.annulus)?),
    ])
}

fn rock(given: &Given) -> Result<Rock, String> {
    Ok(Rock {
        conductivity: given.quantity("rock_conductivity", Kind::Conductivity)?,
        density: given.quantity("rock_density", Kind::Density)?,
        specific_heat: given.quantity("rock_specific_heat", Kind::SpecificHeat)?,
    })
}

/// Rings of rock warmed by a steady heat flow: dimensionless temperature of the face.
pub(super) fn warmed_rock(given: &Given) -> Outcome {
    let time = given.quantity("dimensionless_time", Kind::Ratio)?;
    // A rock and a hole for which all measures are one.
    let rock = Rock { conductivity: 1.0, density: 1.0, specific_heat: 1.0 };
    let rings = Rings { count: 400, outer_radius: 1.0 + 12.0 * time.sqrt() };
    let mut rings = RingedRock::new(&rock, rings, 2.0, 1.0).ok_or("no rock")?;
    let (flow, mut before) = (2.0 * PI, 0.0);
    // Steps that grow with time.
    let count = 4000;
    for at in 1..=count {
        let now = time * (f64::from(at) / f64::from(count)).powi(3);
        rings.heat_up(flow, now - before);
        before = now;
    }
    Ok(vec![output("rock_function", Kind::Ratio, rings.face_temperature(flow) - 1.0)])
}

/// Film coefficient of a mud from its flow.
pub(super) fn film(given: &Given) -> Outcome {
    let film = Film {
        reynolds_number: given.quantity("reynolds_number", Kind::Ratio)?,
        viscosity: given.quantity("viscosity", Kind::Viscosity)?,
        specific_heat: given.quantity("specific_heat", Kind::SpecificHeat)?,
        conductivity: given.quantity("conductivity", Kind::Conductivity)?,
        hydraulic_diameter: given.quantity("hydraulic_diameter", Kind::Diameter)?,
        prandtl_exponent: given.quantity_or("prandtl_exponent", Kind::Ratio, 0.4)?,
    };
    Ok(vec![output("film_coefficient", Kind::HeatTransfer, film_coefficient(&film, &mut Off))])
}
