//! The fluid that closes the preventers without pumps.

use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::control::accumulator::{AccumulatorDemand, AccumulatorMethod, Bottles};
use rigwright_physics::{Kind, Recorder, STANDARD_ATMOSPHERE};

pub(super) fn accumulator<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.rig.stack.is_empty() {
        return Answer::Missing(vec!["rig.preventer[]"]);
    }
    let Some(unit) = *fit.rig.accumulator else { return Answer::Missing(vec!["rig.accumulator"]) };
    let mut missing = Vec::new();
    if unit.design_factor.is_none() {
        missing.push("rig.accumulator.design_factor");
    }
    if fit.rig.stack.iter().any(|preventer| preventer.closing_volume.is_none()) {
        missing.push("rig.preventer[].closing_volume");
    }
    let Some(design_factor) = unit.design_factor.filter(|_| missing.is_empty()) else { return Answer::Missing(missing) };
    rec.heading("fluid wanted");
    rec.table("fluid to close each preventer, from the top down", &[("closing volume", Kind::FluidVolume)], || {
        fit.rig.stack.iter().filter_map(|preventer| preventer.closing_volume).map(|volume| vec![volume]).collect()
    });
    let closing_volume = fit.rig.stack.iter().filter_map(|preventer| preventer.closing_volume).sum();
    let demand = rec.take(AccumulatorDemand { design_factor, closing_volume });
    rec.heading("fluid that the bottles give");
    rec.given("number of bottles", f64::from(unit.bottles), Kind::Count);
    rec.given("gas volume of one bottle", unit.bottle_volume, Kind::FluidVolume);
    rec.note(|| "Gas laws take absolute pressure: one atmosphere on top of what the gauges read.".to_owned());
    let bottles = Bottles {
        volume: f64::from(unit.bottles) * unit.bottle_volume,
        precharge: unit.precharge + STANDARD_ATMOSPHERE,
        charged: unit.charged + STANDARD_ATMOSPHERE,
        minimum: unit.minimum + STANDARD_ATMOSPHERE,
        temperature: unit.temperature,
    };
    let Some(capacity) = bottles.usable(rec, AccumulatorMethod::RealIsothermal) else {
        return Answer::DoesNotArise("the bottles are outside what the equation of state for nitrogen covers");
    };
    let limit = Limit {
        capacity,
        reserve: fit.well.reserves.volume * demand,
        name: "usable fluid by method B",
        source: "nameplate of the unit; nitrogen by Span et al. 2000",
    };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}
