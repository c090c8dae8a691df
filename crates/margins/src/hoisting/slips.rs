//! The string in its slips: what they bear, and what they leave of the pipe.

use super::load::{load, rated};
use crate::answer::worse;
use crate::geometry::Pipe;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::{SlipFactor, SlipLoad, SlipStressRatio};
use rigwright_physics::tubular::{SteelArea, TensionStrength};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::Operation;

/// Crushing load of the model over what is allowed: tests fall about a fifth below the model.
///
/// *Source*: common practice, at least 1.1; Sathuvalli et al., IADC/SPE 74488, for the tests.
const DESIGN_FACTOR: f64 = 1.1;

/// Casing in its spider. A rig that gives elevators for casing owes this rating too.
fn spider<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let Some(capacity) = fit.rig.slips.casing_rating else {
        return match fit.rig.casing_elevators {
            Some(_) => Answer::Missing(vec!["rig.slips.casing_rating"]),
            None => Answer::DoesNotArise("casing hangs in slips of its own, which are not given"),
        };
    };
    let demand = load(scene, rec).string;
    rec.given("load that the spider bears", capacity, Kind::Force);
    let limit = rated(capacity, fit.well.reserves.load, "spider for casing", "nameplate of the spider");
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

pub(super) fn slips<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    match scene.situation.operation {
        Operation::Connection | Operation::PullingOut | Operation::RunningIn => {}
        Operation::RunningCasing => return spider(scene, rec),
        _ => return Answer::DoesNotArise("the string is not set in its slips"),
    }
    let fit = scene.fit();
    let slips = fit.rig.slips;
    let Some(Pipe::Part(part)) = scene.string().last().map(|piece| piece.pipe) else {
        return Answer::DoesNotArise("no string is given");
    };
    if !crate::rotating::is_pipe(part) {
        return Answer::DoesNotArise("collars hang in slips of their own, with a clamp above");
    }
    let entries = [
        ("rig.slips.rating", slips.rating),
        ("rig.slips.length", slips.length),
        ("section[].string[].grade", part.yield_strength),
    ];
    let missing: Vec<&str> = entries.iter().filter(|(_, value)| value.is_none()).map(|(entry, _)| *entry).collect();
    let demand = load(scene, rec).string;
    let share = fit.well.reserves.load;
    let pull = |limit: Limit| Judged { demand, limit, place: Place::Surface, zero: 0.0 };
    let mut worst: Option<Judged> = None;
    if let Some(capacity) = slips.rating {
        rec.given("load that the slips bear", capacity, Kind::Force);
        worst = worse(worst, pull(rated(capacity, share, "slips", "nameplate of the slips")));
    }
    if let (Some(slip_length), Some(yield_strength)) = (slips.length, part.yield_strength) {
        rec.heading("load at which the slips crush the pipe, less a design factor");
        let outer_diameter = crate::rotating::worn_diameter(part, rec);
        let steel_area = rec.take(SteelArea { outer_diameter, inner_diameter: part.inner_diameter });
        let tension_strength = rec.take(TensionStrength { yield_strength, steel_area });
        let slip_factor = rec.take(SlipFactor { friction: slips.friction });
        rec.given("length of pipe that the slips hold", slip_length, Kind::Diameter);
        let stress_ratio = rec.take(SlipStressRatio { outer_diameter, slip_factor, slip_length });
        let capacity = rec.take(SlipLoad { tension_strength, stress_ratio, design_factor: DESIGN_FACTOR });
        let source = "Reinhold & Spiri 1959 (from memory); design factor of 1.1 common practice";
        worst = worse(worst, pull(rated(capacity, share, "pipe in the slips", source)));
    }
    match worst {
        // What nobody knows may be the weaker one, unless a known one is passed already.
        Some(judged) if missing.is_empty() || judged.room() < 0.0 => Answer::Judged(judged),
        _ => Answer::Missing(missing),
    }
}
