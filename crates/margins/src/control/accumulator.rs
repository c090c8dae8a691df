//! Stored control fluid against what the stack takes to close.

use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::control::accumulator::{AccumulatorDemand, AccumulatorMethod, Bottles};
use rigwright_physics::{Kind, Recorder, STANDARD_ATMOSPHERE};

pub(super) fn accumulator<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let rig = &scene.fit().rig;
    let Some(unit) = rig.accumulator else { return Answer::Missing(vec!["rig.accumulator"]) };
    let volumes: Vec<Option<f64>> = rig.stack.iter().map(|preventer| preventer.closing_volume).collect();
    let mut missing = Vec::new();
    if volumes.is_empty() {
        missing.push("rig.preventer[]");
    }
    if volumes.contains(&None) {
        missing.push("rig.preventer[].closing_volume");
    }
    let (Some(design_factor), true) = (unit.design_factor, missing.is_empty()) else {
        if unit.design_factor.is_none() {
            missing.push("rig.accumulator.design_factor");
        }
        return Answer::Missing(missing);
    };
    rec.heading("what the stack takes");
    for preventer in &rig.stack {
        if let Some(volume) = preventer.closing_volume {
            rec.note(|| preventer.name.clone());
            rec.given("to close", volume, Kind::FluidVolume);
        }
    }
    let closing_volume = volumes.iter().flatten().sum();
    let demand = rec.take(AccumulatorDemand { design_factor, closing_volume });
    rec.heading("what a bottle gives: real nitrogen at one temperature (method B)");
    let bottle = Bottles {
        volume: unit.bottle_volume,
        precharge: unit.precharge + STANDARD_ATMOSPHERE,
        charged: unit.charged + STANDARD_ATMOSPHERE,
        minimum: unit.minimum + STANDARD_ATMOSPHERE,
        temperature: unit.temperature,
    };
    let Some(usable) = bottle.usable(rec, AccumulatorMethod::RealIsothermal) else {
        // The nitrogen table ends somewhere: beyond it nothing is known.
        return Answer::Missing(vec!["rig.accumulator.temperature"]);
    };
    rec.given("bottles", f64::from(unit.bottles), Kind::Count);
    let capacity = f64::from(unit.bottles) * usable;
    let limit = Limit {
        capacity,
        reserve: (scene.fit().well.reserves.volume * capacity).max(f64::MIN_POSITIVE),
        name: "usable fluid of all bottles",
        source: "real nitrogen, method B; design factor as given",
    };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}
