//! Examples of the prime movers.

use rigwright_physics::power::chain::{Consumer, bus_power};
use rigwright_physics::power::drives::{DriveChain, MotorCurrent, drive_load};
use rigwright_physics::power::engine::{EngineEfficiency, FuelPower};
use rigwright_physics::power::fuel::{FuelRateOfSets, best_sets, fuel_rate};
use rigwright_physics::power::loads::bus_sum;
use rigwright_physics::power::sets::{Bus, BusLoad};
use rigwright_physics::rotating::RotaryPower;
use rigwright_physics::{Formula, Kind, Off};

use super::{Outcome, Procedure, output};
use crate::Given;

pub(super) const PROCEDURES: &[Procedure] = &[
    Procedure { name: "engine-efficiency", system: "power", run: engine_efficiency },
    Procedure { name: "bus-power", system: "power", run: bus },
    Procedure { name: "sets-on-bus", system: "power", run: sets_on_bus },
    Procedure { name: "fuel-of-sets", system: "power", run: fuel_of_sets },
    Procedure { name: "motor-drive", system: "power", run: motor_drive },
];

fn engine_efficiency(given: &Given) -> Outcome {
    let brake_power = RotaryPower {
        torque: given.quantity("torque", Kind::Torque)?,
        rotary_speed: given.quantity("rotary_speed", Kind::RotarySpeed)?,
    }
    .value();
    let fuel_power = FuelPower {
        fuel_rate: given.quantity("fuel_rate", Kind::FuelRate)?,
        fuel_density: given.quantity("fuel_density", Kind::Density)?,
        heating_value: given.quantity("heating_value", Kind::HeatingValue)?,
    }
    .value();
    let efficiency = EngineEfficiency { brake_power, fuel_power }.value();
    Ok(vec![output("efficiency", Kind::Fraction, efficiency)])
}

fn bus(given: &Given) -> Outcome {
    let rows = given.rows("consumers")?;
    let mut chains = Vec::new();
    for row in &rows {
        chains.push((row.quantity("output_power", Kind::Power)?, row.list("efficiencies", Kind::Fraction)?));
    }
    let consumers: Vec<Consumer<'_>> =
        chains.iter().map(|(output_power, efficiencies)| Consumer { output_power: *output_power, efficiencies }).collect();
    Ok(vec![output("power", Kind::Power, bus_power(&mut Off, &consumers))])
}

fn sets_on_bus(given: &Given) -> Outcome {
    let bus = Bus {
        rated_power: given.quantity("rated_power", Kind::Power)?,
        rated_apparent_power: Some(given.quantity("rated_apparent_power", Kind::ApparentPower)?),
        allowed_load: given.quantity("allowed_load", Kind::Fraction)?,
    };
    let load = BusLoad {
        electric_power: given.quantity("electric_power", Kind::Power)?,
        power_factor: given.quantity("power_factor", Kind::Fraction)?,
    };
    Ok(vec![
        output("needed", Kind::Count, bus.sets_needed(&mut Off, load)),
        output("with_one_lost", Kind::Count, bus.sets_needed_with_one_lost(&mut Off, load)),
    ])
}

fn fuel_of_sets(given: &Given) -> Outcome {
    let mut curve = Vec::new();
    for row in given.rows("curve")? {
        curve.push((row.quantity("load", Kind::Fraction)?, row.quantity("rate", Kind::FuelRate)?));
    }
    let electric_power = given.quantity("electric_power", Kind::Power)?;
    let rated_power = given.quantity("rated_power", Kind::Power)?;
    let sets = given.quantity("sets", Kind::Count)?;
    let refused = "the load is above the fuel curve";
    let of_one = fuel_rate(&mut Off, &curve, electric_power / (sets * rated_power)).ok_or(refused)?;
    let best = best_sets(&mut Off, &curve, electric_power, rated_power, 1..=sets as u32).ok_or(refused)?;
    Ok(vec![
        output("fuel_rate", Kind::FuelRate, FuelRateOfSets { sets, fuel_rate: of_one }.value()),
        output("best_sets", Kind::Count, f64::from(best.sets)),
    ])
}

/// What a shaft draws from the bus through a drive.
fn motor_drive(given: &Given) -> Outcome {
    let current = match given.text("current")? {
        "direct" => MotorCurrent::Direct,
        "alternating" => MotorCurrent::Alternating,
        other => return Err(format!("no drive is `{other}`")),
    };
    let chain = DriveChain {
        converter: given.quantity("converter", Kind::Fraction)?,
        motor: given.quantity("motor", Kind::Fraction)?,
        gear: given.quantity("gear", Kind::Fraction)?,
    };
    let shaft_power = given.quantity("shaft_power", Kind::Power)?;
    let load = drive_load(current, &chain, shaft_power, given.quantity("speed_share", Kind::Fraction)?, &mut Off);
    let sum = bus_sum(&[load], &mut Off);
    Ok(vec![output("power", Kind::Power, sum.power), output("apparent_power", Kind::ApparentPower, sum.apparent_power)])
}
