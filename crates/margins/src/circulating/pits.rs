//! Mud on the surface: how much there is, whether the pits take what comes back, and whether the waste pit takes the cuttings.

use super::weight_up::{BARITE, annular_volume, string_volume};
use crate::{Answer, Figure, Judged, Limit, Place, Scene};
use rigwright_physics::Recorder;
use rigwright_physics::circulating::mixing::{WeightUpMass, WeightUpVolume};
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::tubular::STEEL_DENSITY;
use rigwright_units::Kind;

/// The entries of a list that are not there.
pub(super) fn absent<const N: usize>(entries: [(bool, &'static str); N]) -> Vec<&'static str> {
    entries.into_iter().filter(|(given, _)| !given).map(|(_, entry)| entry).collect()
}

/// How much mud there is, and where.
pub(super) fn volumes<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    rec.heading("annulus");
    let annulus = annular_volume(scene, rec);
    rec.heading("inside the string");
    let string = string_volume(scene, rec);
    let metal: f64 =
        scene.string().iter().map(|piece| piece.pipe.linear_mass() * (piece.bottom - piece.top) / STEEL_DENSITY).sum();
    rec.heading("steel of the string, joints included");
    rec.given("weight of the string in air over the density of steel", metal, Kind::Volume);
    let figure = |name, value| Figure { name, value, kind: Kind::Volume };
    let mut figures = vec![
        figure("mud in the annulus", annulus),
        figure("mud in the string", string),
        figure("steel of the string", metal),
        figure("hole without string", annulus + string + metal),
    ];
    let pits = &scene.fit().rig.pits;
    if let Some(active) = pits.active {
        figures.push(figure("active pits", active));
        figures.push(figure("mud that is pumped round", annulus + string + active));
    }
    for (name, value) in [("in reserve", pits.reserve), ("runs back when the pumps stop", pits.drain_back)] {
        figures.extend(value.map(|value| figure(name, value)));
    }
    if let (Some(capacity), Some(active), Some(reserve)) = (pits.capacity, pits.active, pits.reserve) {
        figures.push(figure("room in the pits", (capacity - active - reserve).max(0.0)));
    }
    Answer::Told(figures)
}

/// The pits take what runs back when the pumps stop and what weighting up by the kick intensity adds.
pub(super) fn pit_room<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (fit, pits) = (scene.fit(), &scene.fit().rig.pits);
    let intensity = fit.well.kick.intensity;
    let given = (intensity, pits.capacity, pits.active, pits.reserve, pits.drain_back);
    let (Some(intensity), Some(capacity), Some(active), Some(reserve), Some(drain_back)) = given else {
        return Answer::Missing(absent([
            (given.0.is_some(), "kick.intensity"),
            (given.1.is_some(), "rig.pits.capacity"),
            (given.2.is_some(), "rig.pits.active"),
            (given.3.is_some(), "rig.pits.reserve"),
            (given.4.is_some(), "rig.pits.drain_back"),
        ]));
    };
    let volume = annular_volume(scene, rec) + string_volume(scene, rec) + active;
    rec.heading("what the pits have to take");
    rec.given("annulus, string and active pits, weighted up together", volume, Kind::Volume);
    let density = scene.section().mud.weight;
    let wanted_density = density + intensity;
    let growth = rec.take(WeightUpVolume { volume, density, wanted_density, weighting_density: BARITE });
    rec.given("runs back when the pumps stop", drain_back, Kind::Volume);
    let demand = growth + drain_back;
    rec.given("the two together", demand, Kind::Volume);
    let room = capacity - active - reserve;
    rec.given("all pits less what stands in them", room, Kind::Volume);
    let wanted = (fit.well.reserves.volume * capacity).max(f64::MIN_POSITIVE);
    let limit = Limit { capacity: room, reserve: wanted, name: "room in the pits", source: "pits of the rig file" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// The waste pit takes the cuttings of the well to the end of the section.
pub(super) fn waste<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (fit, pits) = (scene.fit(), &scene.fit().rig.pits);
    let Some(capacity) = pits.waste else { return Answer::Missing(vec!["rig.pits.waste"]) };
    if fit.open_to_sea(scene.situation.section).is_some() {
        return super::TO_SEA;
    }
    let mut rock = 0.0;
    let drilled = fit.well.sections[..=scene.situation.section].iter().enumerate();
    for (_, section) in drilled.filter(|(index, _)| fit.open_to_sea(*index).is_none()) {
        rec.stretch(|| section.name.clone(), section.top, section.bottom);
        let each = rec.take(BoreCapacity { inner_diameter: section.open_diameter() });
        let length = section.bottom - section.top;
        rec.given("rock of the section, washout included", each * length, Kind::Volume);
        rock += each * length;
    }
    rec.heading("waste");
    rec.given("rock drilled to the end of the section", rock, Kind::Volume);
    rec.given("wet waste over rock", pits.waste_factor, Kind::Ratio);
    let demand = rock * pits.waste_factor;
    rec.given("waste", demand, Kind::Volume);
    let reserve = (fit.well.reserves.volume * capacity).max(f64::MIN_POSITIVE);
    let limit = Limit { capacity, reserve, name: "waste pit", source: "pits of the rig file" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// What raising the weight of all mud by the kick intensity takes: barite, volume, time.
pub(super) fn weighting_up<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (fit, pits) = (scene.fit(), &scene.fit().rig.pits);
    let (Some(intensity), Some(active)) = (fit.well.kick.intensity, pits.active) else {
        return Answer::Missing(absent([
            (fit.well.kick.intensity.is_some(), "kick.intensity"),
            (pits.active.is_some(), "rig.pits.active"),
        ]));
    };
    let volume = annular_volume(scene, rec) + string_volume(scene, rec) + active;
    rec.heading("weighting up");
    rec.given("annulus, string and active pits", volume, Kind::Volume);
    let density = scene.section().mud.weight;
    let wanted_density = density + intensity;
    let mass = rec.take(WeightUpMass { volume, density, wanted_density, weighting_density: BARITE });
    let growth = rec.take(WeightUpVolume { volume, density, wanted_density, weighting_density: BARITE });
    let mut figures = vec![
        Figure { name: "wanted mud weight", value: wanted_density, kind: Kind::Density },
        Figure { name: "barite", value: mass, kind: Kind::Mass },
        Figure { name: "growth of volume", value: growth, kind: Kind::Volume },
    ];
    if let Some(rate) = pits.mixing_rate.filter(|rate| *rate > 0.0) {
        rec.given("weight material that the hoppers mix in", rate, Kind::MassFlow);
        rec.given("barite over that: time to mix", mass / rate, Kind::Time);
        figures.push(Figure { name: "time to mix it in", value: mass / rate, kind: Kind::Time });
    }
    Answer::Told(figures)
}
