//! Sets on line against the load, with all of them and with one lost.

use super::load::Load;
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::power::chain::ApparentPower;
use rigwright_physics::power::sets::{SetApparentLoad, SetLoad};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::Operation;

pub(super) fn on_line<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    against(scene, scene.fit().rig.sets.on_line, rec)
}

pub(super) fn one_lost<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    rec.note(|| "The worst single failure looked at is the loss of one set.".to_owned());
    against(scene, scene.fit().rig.sets.on_line.saturating_sub(1), rec)
}

/// Holds the load against so many sets: their engines in power, their generators in apparent power.
fn against<R: Recorder>(scene: &Scene, sets: u32, rec: &mut R) -> Answer {
    if scene.situation.operation == Operation::ShutIn {
        return Answer::DoesNotArise("nothing turns but the hotel load");
    }
    let fit = scene.fit();
    let rig = &fit.rig.sets;
    let load = match Load::of(scene, rec) {
        Ok(load) => load.total(),
        Err(entry) => return Answer::Missing(vec![entry]),
    };
    rec.heading("sets");
    rec.given("sets that carry it", f64::from(sets), Kind::Count);
    let count = f64::from(sets);
    let share = fit.well.reserves.power;
    // The reserve is a share of one set, so that it stays above nought when none is left.
    let reserve = |one: f64| share * one * count.max(1.0);
    let judge = |demand, capacity, one, name| {
        let limit = Limit { capacity, reserve: reserve(one), name, source: "nameplate of the sets" };
        Judged { demand, limit, place: Place::Surface, zero: 0.0 }
    };
    let engines = judge(load, count * rig.rating, rig.rating, "engines of the sets");
    if sets > 0 {
        rec.take(SetLoad { electric_power: load, sets: count, rated_power: rig.rating });
    }
    let Some(rated_apparent_power) = rig.apparent_rating else {
        // A generator that nobody knows may be the weaker half of its set.
        return if engines.room() < 0.0 { Answer::Judged(engines) } else { Answer::Missing(vec!["rig.sets.apparent_rating"]) };
    };
    let apparent_power = rec.take(ApparentPower { electric_power: load, power_factor: rig.power_factor });
    if sets > 0 {
        rec.take(SetApparentLoad { apparent_power, sets: count, rated_apparent_power });
    }
    // The question is asked in power: a generator bears its apparent rating times the power factor of the load.
    let bears = rated_apparent_power * rig.power_factor;
    let generators = judge(load, count * bears, bears, "generators of the sets, at this power factor");
    worst([engines, generators]).map_or(Answer::Judged(engines), Answer::Judged)
}
