//! Examples of engines on their site and of unlike electric loads.

use rigwright_physics::Off;
use rigwright_physics::power::loads::{ElectricLoad, bus_sum as sum_of};
use rigwright_physics::power::site::{Ambient, Aspiration, site_power_ratio};
use rigwright_units::Kind;

use super::{Outcome, Procedure, output};
use crate::Given;

pub(super) const PROCEDURES: &[Procedure] = &[
    Procedure { name: "engine-on-site", system: "power", run: engine_on_site },
    Procedure { name: "bus-sum", system: "power", run: bus_sum },
];

/// What is left of an engine's rating on its site.
fn engine_on_site(given: &Given) -> Outcome {
    let aspiration = match given.text("aspiration")? {
        "natural" => Aspiration::Natural,
        "turbocharged" => Aspiration::Turbocharged,
        "cooled" => Aspiration::Cooled,
        other => return Err(format!("no engine is `{other}`")),
    };
    let ambient = |pressure: &str, temperature: &str, humidity: &str, coolant: &str| {
        let air_temperature = given.quantity(temperature, Kind::Temperature)?;
        Ok::<Ambient, String>(Ambient {
            air_pressure: given.quantity(pressure, Kind::AbsolutePressure)?,
            air_temperature,
            relative_humidity: given.quantity(humidity, Kind::Fraction)?,
            coolant: given.quantity_or(coolant, Kind::Temperature, air_temperature)?,
        })
    };
    let rating = ambient("reference_pressure", "reference_temperature", "reference_humidity", "reference_coolant")?;
    let site = ambient("air_pressure", "air_temperature", "humidity", "coolant")?;
    let efficiency = given.quantity("mechanical_efficiency", Kind::Fraction)?;
    Ok(vec![output("power_ratio", Kind::Ratio, site_power_ratio(aspiration, &rating, &site, efficiency, &mut Off))])
}

/// Loads of unlike power factor on one bus.
fn bus_sum(given: &Given) -> Outcome {
    let mut loads = Vec::new();
    for row in given.rows("loads")? {
        let power_factor = row.quantity("power_factor", Kind::Fraction)?;
        loads.push(ElectricLoad { power: row.quantity("power", Kind::Power)?, power_factor });
    }
    let sum = sum_of(&loads, &mut Off);
    Ok(vec![output("apparent_power", Kind::ApparentPower, sum.apparent_power)])
}
