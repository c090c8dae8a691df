//! Generator sets against what the operation draws, and the fuel that it takes.

use super::load;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::power::chain::ApparentPower;
use rigwright_physics::power::fuel::{FuelEndurance, FuelRateOfSets, best_sets, fuel_rate};
use rigwright_physics::power::sets::SetLoad;
use rigwright_physics::{Kind, Recorder};

pub(super) fn sets_on_line<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    carried(scene, rec, scene.fit().rig.sets.on_line, "sets on line")
}

pub(super) fn one_set_lost<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    // The sets that stand by need minutes to come on line, so only those on line count.
    carried(scene, rec, scene.fit().rig.sets.on_line.saturating_sub(1), "sets on line less one")
}

/// The load against this many sets: by active power, or by the generators' apparent power where that binds first.
fn carried<R: Recorder>(scene: &Scene, rec: &mut R, sets: u32, name: &'static str) -> Answer {
    let rig = &scene.fit().rig.sets;
    let demand = load::at_bus(scene, rec);
    rec.given("sets that carry", f64::from(sets), Kind::Count);
    rec.given("continuous rating of a set", rig.rating, Kind::Power);
    let engines = f64::from(sets) * rig.rating;
    let generators = rig.apparent_rating.map(|apparent| {
        rec.given("apparent rating of a generator", apparent, Kind::ApparentPower);
        rec.given("power factor of the load", rig.power_factor, Kind::Fraction);
        rec.take(ApparentPower { electric_power: demand, power_factor: rig.power_factor });
        f64::from(sets) * apparent * rig.power_factor
    });
    let capacity = generators.map_or(engines, |generators| generators.min(engines));
    let source = if generators.is_some_and(|generators| generators < engines) {
        "nameplate of the generators and power factor"
    } else {
        "nameplate of the engines"
    };
    // The reserve is a share of all sets on line, so that it stays above nought when none is left.
    let reserve = scene.fit().well.reserves.power * rig.rating * f64::from(rig.on_line.max(1));
    Answer::Judged(Judged { demand, limit: Limit { capacity, reserve, name, source }, place: Place::Surface, zero: 0.0 })
}

pub(super) fn fuel<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let sets = &fit.rig.sets;
    let mut missing = Vec::new();
    if sets.fuel.is_empty() {
        missing.push("rig.sets.fuel");
    }
    let (stock, resupply) = (fit.rig.pits.fuel, fit.rig.pits.resupply);
    if stock.is_none() {
        missing.push("rig.pits.fuel");
    }
    if resupply.is_none() {
        missing.push("rig.pits.resupply");
    }
    let (Some(fuel_stock), Some(resupply), true) = (stock, resupply, missing.is_empty()) else {
        return Answer::Missing(missing);
    };
    let electric_power = load::at_bus(scene, rec);
    rec.heading("fuel");
    let on_line = f64::from(sets.on_line);
    let share = rec.take(SetLoad { electric_power, sets: on_line, rated_power: sets.rating });
    let curve: Vec<(f64, f64)> = sets.fuel.iter().map(|point| (point.load, point.rate)).collect();
    let Some(of_one) = fuel_rate(rec, &curve, share) else {
        return Answer::DoesNotArise("the sets on line do not carry this operation");
    };
    let fuel_rate = rec.take(FuelRateOfSets { sets: on_line, fuel_rate: of_one });
    best_sets(rec, &curve, electric_power, sets.rating, 1..=sets.number);
    if fuel_rate <= 0.0 {
        return Answer::DoesNotArise("no fuel is used");
    }
    let capacity = rec.take(FuelEndurance { fuel_stock, fuel_rate });
    let limit = Limit {
        capacity,
        reserve: fit.well.reserves.volume * capacity,
        name: "fuel on site",
        source: "stock as given and the maker's fuel curve",
    };
    Answer::Judged(Judged { demand: resupply, limit, place: Place::Surface, zero: 0.0 })
}
