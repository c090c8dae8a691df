//! Fuel: how long the stock lasts, and the number of sets that burns least.

use super::load::Load;
use crate::{Answer, Figure, Judged, Limit, Place, Scene, sweep};
use rigwright_physics::power::fuel::{CarbonDioxide, FuelEndurance, FuelRateOfSets, FuelUsed, best_sets, fuel_rate};
use rigwright_physics::power::sets::SetLoad;
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::Operation;

/// A day. [s]
const DAY: f64 = 86_400.0;
const TOO_MUCH: Answer = Answer::DoesNotArise("the load is more than the fuel curve tells of: see power/sets-on-line");

/// The fuel curve as points of load and rate.
pub(super) fn curve(scene: &Scene) -> Vec<(f64, f64)> {
    scene.fit().rig.sets.fuel.iter().map(|point| (point.load, point.rate)).collect()
}

/// Fuel rate of the sets on line in a scene, or why there is none. [m³/s]
fn burnt<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<f64, Answer> {
    let sets = &scene.fit().rig.sets;
    if sets.fuel.is_empty() {
        return Err(Answer::Missing(vec!["rig.sets.fuel"]));
    }
    let load = Load::of(scene, rec).map_err(|entry| Answer::Missing(vec![entry]))?;
    let count = f64::from(sets.on_line);
    if sets.on_line == 0 {
        return Err(TOO_MUCH);
    }
    rec.heading("fuel");
    let load = rec.take(SetLoad { electric_power: load.total(), sets: count, rated_power: sets.rating });
    let of_one = fuel_rate(rec, &curve(scene), load).ok_or(TOO_MUCH)?;
    Ok(rec.take(FuelRateOfSets { sets: count, fuel_rate: of_one }))
}

pub(super) fn fuel<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let (Some(fuel_stock), Some(resupply)) = (fit.rig.pits.fuel, fit.rig.pits.resupply) else {
        let given = [(fit.rig.pits.fuel.is_some(), "rig.pits.fuel"), (fit.rig.pits.resupply.is_some(), "rig.pits.resupply")];
        return Answer::Missing(given.into_iter().filter(|(given, _)| !given).map(|(_, entry)| entry).collect());
    };
    let rate = match burnt(scene, rec) {
        Ok(rate) => rate,
        Err(answer) => return answer,
    };
    if rate <= 0.0 {
        return Answer::DoesNotArise("the sets burn nothing by their curve");
    }
    let capacity = rec.take(FuelEndurance { fuel_stock, fuel_rate: rate });
    rec.given("time until the next delivery", resupply, Kind::Time);
    rec.table(
        "fuel by operation at the end of the section",
        &[("fuel rate of all sets", Kind::FuelRate), ("stock lasts", Kind::Time)],
        || {
            let scene = |operation| {
                let situation = &scene.situation;
                let other = sweep::situation(fit, situation.section, operation, situation.hole_depth, situation.bit_depth);
                Scene::new(scene.basis, other)
            };
            let operations = [Operation::Drilling, Operation::Circulating, Operation::Connection, Operation::PullingOut];
            let rates = operations.into_iter().filter_map(|operation| burnt(&scene(operation), &mut Off).ok());
            rates.map(|rate| vec![rate, FuelEndurance { fuel_stock, fuel_rate: rate.max(f64::MIN_POSITIVE) }.value()]).collect()
        },
    );
    rec.note(|| "Rows: drilling, circulating, connection, pulling out.".to_owned());
    let limit = Limit {
        capacity,
        reserve: fit.well.reserves.volume * resupply,
        name: "fuel on site while drilling",
        source: "stock and fuel curve of the rig file",
    };
    Answer::Judged(Judged { demand: resupply, limit, place: Place::Surface, zero: 0.0 })
}

pub(super) fn best<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let sets = &scene.fit().rig.sets;
    if sets.fuel.is_empty() {
        return Answer::Missing(vec!["rig.sets.fuel"]);
    }
    let load = match Load::of(scene, rec) {
        Ok(load) => load.total(),
        Err(entry) => return Answer::Missing(vec![entry]),
    };
    let mut figures = vec![figure("load while drilling", load, Kind::Power)];
    if let Ok(rate) = burnt(scene, &mut Off) {
        figures.push(figure("fuel rate with the sets on line today", rate, Kind::FuelRate));
        let fuel_used = rec.take(FuelUsed { fuel_rate: rate, time: DAY });
        figures.push(figure(
            "carbon dioxide a day",
            rec.take(CarbonDioxide { fuel_used, emission_factor: sets.emission_factor }),
            Kind::Mass,
        ));
    }
    rec.heading("fuel by number of sets");
    if let Some(best) = best_sets(rec, &curve(scene), load, sets.rating, 1..=sets.number) {
        figures.push(figure("sets that burn least", f64::from(best.sets), Kind::Count));
        figures.push(figure("fuel rate with them", best.fuel_rate, Kind::FuelRate));
    }
    Answer::Told(figures)
}

fn figure(name: &'static str, value: f64, kind: Kind) -> Figure {
    Figure { name, value, kind }
}
