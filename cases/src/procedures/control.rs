//! Examples of pressure control: kicks, kill sheets, control fluid, separator. Gas is in [`super::gas`].

use rigwright_physics::control::accumulator::{AccumulatorMethod, AfterSequence, Bottles, precharge_at};
use rigwright_physics::control::annulus::{Annulus, AnnulusSection};
use rigwright_physics::control::bubble::{GasLaw, GasPath};
use rigwright_physics::control::circulate::{Circulation, Instant, KillMethod};
use rigwright_physics::control::kill::{Front, KillData, KillStrokes, PumpingTime};
use rigwright_physics::control::limits::{BurstLength, BurstLoad, burst_limit};
use rigwright_physics::control::separator::VentLine;
use rigwright_physics::control::tolerance::{KickWell, WeakPoint};
use rigwright_physics::{Formula, Kind, Off, STANDARD_ATMOSPHERE, STANDARD_GRAVITY};

use super::gas::{gas, geotherm, method};
use super::{Outcome, Procedure, output};
use crate::Given;

pub(super) const PROCEDURES: &[Procedure] = &[
    Procedure { name: "influx-height-by-sections", system: "control", run: influx_height },
    Procedure { name: "burst-limit", system: "control", run: burst },
    Procedure { name: "kick-tolerance", system: "control", run: kick_tolerance },
    Procedure { name: "circulation", system: "control", run: circulation },
    Procedure { name: "section-volumes", system: "control", run: section_volumes },
    Procedure { name: "kill-sheet", system: "control", run: kill_sheet },
    Procedure { name: "kill-schedule", system: "control", run: kill_schedule },
    Procedure { name: "usable-fluid", system: "control", run: usable_fluid },
    Procedure { name: "precharge-at-temperature", system: "control", run: precharge },
    Procedure { name: "vent-line", system: "control", run: vent_line },
];

fn gravity(given: &Given) -> Result<f64, String> {
    given.quantity_or("gravity", Kind::Acceleration, STANDARD_GRAVITY)
}

/// The annulus from the bottom up; a section without a height is vertical.
fn annulus(given: &Given) -> Result<Annulus, String> {
    let bottom = given.quantity("bottom_depth", Kind::Depth)?;
    let sections = given.rows("sections")?.into_iter().map(|row| {
        let length = row.quantity("length", Kind::Depth)?;
        let height = row.quantity_or("height", Kind::Depth, length)?;
        Ok(AnnulusSection { capacity: row.quantity("capacity", Kind::VolumePerLength)?, length, height })
    });
    Annulus::new(sections.collect::<Result<_, String>>()?, bottom).ok_or_else(|| "the sections are no annulus".to_owned())
}

fn influx_height(given: &Given) -> Outcome {
    let annulus = annulus(given)?;
    let height = annulus.height(given.quantity("volume", Kind::Volume)?);
    Ok(vec![output("height", Kind::Depth, height)])
}

fn burst(given: &Given) -> Outcome {
    let lengths = given.rows("lengths")?.into_iter().map(|row| {
        Ok(BurstLength {
            top: row.quantity("top", Kind::Depth)?,
            bottom: row.quantity("bottom", Kind::Depth)?,
            burst: row.quantity("burst", Kind::Pressure)?,
        })
    });
    let load = BurstLoad {
        burst_fraction: given.quantity("burst_fraction", Kind::Fraction)?,
        mud_weight: given.quantity("mud_weight", Kind::Density)?,
        outside_weight: given.quantity("outside_weight", Kind::Density)?,
        gravity: gravity(given)?,
    };
    let limit = burst_limit(&mut Off, &lengths.collect::<Result<Vec<_>, String>>()?, load).ok_or("no casing")?;
    Ok(vec![
        output("surface_pressure", Kind::Pressure, limit.surface_pressure),
        output("vertical_depth", Kind::Depth, limit.vertical_depth),
    ])
}

/// How the gas answers to pressure: a real gas, a fixed density, or Boyle's law at its top.
fn law(given: &Given) -> Result<GasLaw, String> {
    if given.has("fixed_gas_density") {
        return Ok(GasLaw::FixedDensity { density: given.quantity("fixed_gas_density", Kind::Density)? });
    }
    if given.has("gas_density_at_top") {
        let density = given.quantity("gas_density_at_top", Kind::Density)?;
        return Ok(GasLaw::BoyleAtTop { density, pressure: given.quantity("top_pressure", Kind::Pressure)? });
    }
    Ok(GasLaw::Real { gas: gas(given)?, method: method(given)?, atmosphere: STANDARD_ATMOSPHERE })
}

fn kick_tolerance(given: &Given) -> Outcome {
    let annulus = annulus(given)?;
    let temperature = geotherm(given)?;
    let well = KickWell {
        path: GasPath { annulus: &annulus, law: law(given)?, temperature: &temperature, gravity: gravity(given)? },
        mud_weight: given.quantity("mud_weight", Kind::Density)?,
        formation_pressure: given.quantity("formation_pressure", Kind::Pressure)?,
    };
    let weak = WeakPoint {
        vertical_depth: given.quantity("weak_depth", Kind::Depth)?,
        allowed_pressure: given.quantity("allowed_pressure", Kind::Pressure)?,
    };
    let tolerance = well.tolerance(&mut Off, weak).ok_or("the gas leaves its range")?;
    let at_shut_in = tolerance.at_shut_in.volume();
    Ok(vec![
        output("at_shut_in", Kind::Volume, at_shut_in),
        output("height_at_shut_in", Kind::Depth, annulus.height(at_shut_in)),
        output("at_weak_point", Kind::Volume, tolerance.at_weak_point.volume()),
        output("kick_tolerance", Kind::Volume, tolerance.governing().volume()),
    ])
}

fn circulation(given: &Given) -> Outcome {
    let annulus = annulus(given)?;
    let temperature = geotherm(given)?;
    let well = KickWell {
        path: GasPath { annulus: &annulus, law: law(given)?, temperature: &temperature, gravity: gravity(given)? },
        mud_weight: given.quantity("mud_weight", Kind::Density)?,
        formation_pressure: given.quantity("formation_pressure", Kind::Pressure)?,
    };
    let method = match given.text("circulation")? {
        "driller" => KillMethod::Driller,
        "wait and weight" => KillMethod::WaitAndWeight {
            kill_weight: given.quantity("kill_weight", Kind::Density)?,
            string_volume: given.quantity("string_volume", Kind::Volume)?,
        },
        other => return Err(format!("no way to circulate: {other}")),
    };
    let circulation = Circulation {
        well,
        influx: given.quantity("influx", Kind::Volume)?,
        method,
        overbalance: given.quantity_or("overbalance", Kind::Pressure, 0.0)?,
        weak_depth: given.quantity("weak_depth", Kind::Depth)?,
        steps: 200,
    };
    let refused = "the gas leaves its range";
    if given.has("gas_top") {
        let top = given.quantity("gas_top", Kind::Depth)?;
        let pumped = circulation.pumped_when_top_at(top).ok_or("the gas is above that depth from the start")?;
        return Ok(told(circulation.instant(&mut Off, pumped).ok_or(refused)?));
    }
    if given.has("pumped") {
        let pumped = given.quantity("pumped", Kind::Volume)?;
        return Ok(told(circulation.instant(&mut Off, pumped).ok_or(refused)?));
    }
    let march = circulation.march(&mut Off).ok_or(refused)?;
    let last = march.instants.last().ok_or(refused)?;
    Ok(vec![
        output("highest_choke", Kind::Pressure, march.highest_choke.choke_pressure),
        output("highest_weak", Kind::Pressure, march.highest_weak.weak_pressure),
        output("pumped_at_highest_weak", Kind::Volume, march.highest_weak.pumped),
        output("last_choke", Kind::Pressure, last.choke_pressure),
    ])
}

fn told(instant: Instant) -> Vec<super::Output> {
    vec![
        output("pumped", Kind::Volume, instant.pumped),
        output("gas_top", Kind::Depth, instant.gas_top),
        output("gain", Kind::Volume, instant.gas_volume),
        output("choke", Kind::Pressure, instant.choke_pressure),
        output("weak", Kind::Pressure, instant.weak_pressure),
    ]
}

/// Volumes, strokes and times of sections in the order in which they are pumped.
fn section_volumes(given: &Given) -> Outcome {
    let mut volume = given.quantity_or("volume_before", Kind::Volume, 0.0)?;
    for row in given.rows("sections")? {
        volume += row.quantity("capacity", Kind::VolumePerLength)? * row.quantity("length", Kind::Depth)?;
    }
    let mut outputs = vec![output("volume", Kind::Volume, volume)];
    if given.has("pump_output") {
        let pump_output = given.quantity("pump_output", Kind::VolumePerStroke)?;
        let strokes = KillStrokes { volume, pump_output }.value();
        outputs.push(output("strokes", Kind::Count, strokes));
        if given.has("pump_speed") {
            let pump_speed = given.quantity("pump_speed", Kind::StrokeRate)?;
            outputs.push(output("time", Kind::Time, PumpingTime { strokes, pump_speed }.value()));
        }
    }
    Ok(outputs)
}

fn kill_data(given: &Given) -> Result<KillData, String> {
    Ok(KillData {
        mud_weight: given.quantity("mud_weight", Kind::Density)?,
        drill_pipe_pressure: given.quantity("drill_pipe_pressure", Kind::Pressure)?,
        slow_pressure: given.quantity("slow_pressure", Kind::Pressure)?,
        vertical_depth: given.quantity("vertical_depth", Kind::Depth)?,
        weight_step: given.quantity("weight_step", Kind::Density)?,
        gravity: gravity(given)?,
    })
}

fn kill_sheet(given: &Given) -> Outcome {
    let kill = kill_data(given)?.kill(&mut Off);
    Ok(vec![
        output("exact_weight", Kind::Density, kill.exact_weight),
        output("kill_weight", Kind::Density, kill.kill_weight),
        output("icp", Kind::Pressure, kill.initial_pressure),
        output("fcp", Kind::Pressure, kill.final_pressure),
    ])
}

/// The schedule at one place of the front, friction in proportion to measured depth.
fn kill_schedule(given: &Given) -> Outcome {
    let data = kill_data(given)?;
    let kill_weight = data.kill(&mut Off).kill_weight;
    let front = Front {
        volume: 0.0,
        vertical_depth: given.quantity("front_depth", Kind::Depth)?,
        friction_share: given.quantity("friction_share", Kind::Fraction)?,
    };
    let pressures = data.schedule(&mut Off, kill_weight, &[front]);
    Ok(vec![output("pressure", Kind::Pressure, pressures[0])])
}

/// Usable fluid by a method; gauge pressures are lifted by the head outside and the atmosphere.
fn usable_fluid(given: &Given) -> Outcome {
    let head = given.quantity_or("head", Kind::Pressure, 0.0)?;
    let atmosphere = given.quantity_or("atmosphere", Kind::AbsolutePressure, STANDARD_ATMOSPHERE)?;
    let absolute = |key| given.quantity(key, Kind::Pressure).map(|gauge| gauge + head + atmosphere);
    let bottles = Bottles {
        volume: given.quantity("bottle_volume", Kind::FluidVolume)?,
        precharge: absolute("precharge")?,
        charged: absolute("charged")?,
        minimum: absolute("minimum")?,
        temperature: given.quantity_or("temperature", Kind::Temperature, 294.261)?,
    };
    let method = match given.text("method")? {
        "A" => AccumulatorMethod::Ideal,
        "B" => AccumulatorMethod::RealIsothermal,
        "C" => AccumulatorMethod::RealAdiabatic,
        other => return Err(format!("no method {other}")),
    };
    if given.has("taken") {
        let taken = given.quantity("taken", Kind::FluidVolume)?;
        let after = bottles.after(&mut Off, method, taken).ok_or("nitrogen leaves its range")?;
        let AfterSequence::Pressure(pressure) = after else { return Err("the bottles run empty".to_owned()) };
        return Ok(vec![output("pressure_left", Kind::Pressure, pressure - head - atmosphere)]);
    }
    let usable = bottles.usable(&mut Off, method).ok_or("nitrogen leaves its range")?;
    Ok(vec![output("usable", Kind::FluidVolume, usable)])
}

fn precharge(given: &Given) -> Outcome {
    let pressure = given.quantity("precharge_pressure", Kind::AbsolutePressure)?;
    let from = given.quantity("temperature", Kind::Temperature)?;
    let to = given.quantity("other_temperature", Kind::Temperature)?;
    let other = precharge_at(&mut Off, pressure, from, to).ok_or("nitrogen leaves its range")?;
    Ok(vec![output("precharge", Kind::AbsolutePressure, other)])
}

fn vent_line(given: &Given) -> Outcome {
    let line = VentLine {
        length: given.quantity("length", Kind::Depth)?,
        inner_diameter: given.quantity("inner_diameter", Kind::Diameter)?,
        friction_factor: given.quantity("friction_factor", Kind::Ratio)?,
        outlet_pressure: given.quantity("outlet_pressure", Kind::AbsolutePressure)?,
        outlet_density: given.quantity("outlet_density", Kind::Density)?,
    };
    let mass_rate = given.quantity("mass_rate", Kind::MassFlow)?;
    let inlet = line.inlet_pressure(&mut Off, mass_rate).ok_or("the line is choked")?;
    Ok(vec![output("loss", Kind::Pressure, inlet - line.outlet_pressure)])
}
